package quantity

import (
	"errors"
	"math"
	"math/big"
	"strings"
	"testing"
)

func mustParse(t testing.TB, s string) Quantity {
	t.Helper()
	q, err := Parse(s)
	if err != nil {
		t.Fatalf("%s: %v", s, err)
	}
	return q
}

func mustUnit(t testing.TB, s string) Unit {
	t.Helper()
	u, err := ParseUnit(s)
	if err != nil {
		t.Fatalf("%s: %v", s, err)
	}
	return u
}

func TestCanonical(t *testing.T) {
	for in, want := range map[string]string{
		"0.25 m":              "250 mm",
		"1545.6 mm":           "1545.6 mm",
		"1.5456 m":            "1545.6 mm",
		"150 mm/s ± 5 mm/s":   "150 mm/s ± 5 mm/s",
		"150 mm/s +/- 5 mm/s": "150 mm/s ± 5 mm/s",
		"0.15 m/s ± 5 mm/s":   "150 mm/s ± 5 mm/s",
		"18.2 kg ± 0 g":       "18.2 kg",
		"130 N/cm2":           "1.3 N/mm2",
		"1.4 cm2":             "140 mm2",
		"1.4 cm²":             "140 mm2",
		"75 N/mm":             "75 N/mm",
		"75000 N/m":           "75 N/mm",
		"1 J":                 "1000 N*mm",
		"2 N*m":               "2000 N*mm",
		"80 W":                "80000 N*mm/s",
		"60 kPa":              "0.06 N/mm2",
		"6 bar":               "0.6 N/mm2",
		"12 ms":               "0.012 s",
		"3 hours":             "10800 s",
		"10 years":            "315360000 s",
		"66 %":                "0.66",
		"4.3e-8":              "0.000000043",
		"3.6e-3 1/h":          "0.000001 1/s",
		"4.3e-8 1/h":          "43/3600000000000 1/s",
		"6 km/h":              "5000/3 mm/s",
		"9.81 m/s2":           "9810 mm/s2",
		"22 degC":             "22 degC",
		"22 °C":               "22 degC",
		"45 deg":              "45 deg",
		"50 Hz":               "50 1/s",
		"-5 mm":               "-5 mm",
		"−5 mm":               "-5 mm",
		"+5mm":                "5 mm",
		"1/3 mm":              "1/3 mm",
		"2 kg*m/s":            "2000 kg*mm/s",
		"1 N/(mm*s)":          "1 N/(mm*s)",
		"0 m":                 "0 mm",
		"2 mm/N":              "2 mm/N",
	} {
		if got := mustParse(t, in).Canonical(); got != want {
			t.Errorf("%s is %s, want %s", in, got, want)
		}
	}
}

func TestErrors(t *testing.T) {
	for in, want := range map[string]string{
		"":                              "number missing",
		"mm":                            "does not start with a number",
		"1,5 mm":                        "decimal comma in `1,5`; expected a number with its unit, such as 150 mm/s or 1.4 cm2; write `1.5`",
		"1_000 mm":                      "`1_000` is not a plain decimal number",
		"0x1F mm":                       "`0x1F` is not a plain decimal number",
		"NaN mm":                        "`NaN mm` is not a number",
		".inf":                          "`.inf` is not a number",
		"-Inf mm":                       "is not a number",
		".5 mm":                         "write `0.5 mm`",
		"5. mm":                         "stray point",
		"1.2.3 mm":                      "stray point",
		"1/0 mm":                        "is not a number",
		"5 mmm":                         "did you mean `mm`?",
		"5 MM":                          "did you mean `mm`?",
		"5 Kg":                          "did you mean `kg`?",
		"5 furlong":                     "unknown unit `furlong`; expected a unit such as mm",
		"5 mm/s/s":                      "one / only",
		"5 J/kg*s":                      "one / only",
		"5 /h":                          "write `1/h`",
		"5 mm ± 1 N":                    "tolerance `1 N` does not fit mm",
		"5 mm ± 1":                      "tolerance `1` does not fit mm",
		"5 mm ± -1 mm":                  "negative tolerance",
		"5 mm ± 1 mm ± 1 mm":            "unknown unit",
		"5 mm ±":                        "number missing",
		"1e31 mm":                       "exponent `e31` is beyond any quantity",
		"1e-99999999999999999999":       "beyond any quantity",
		strings.Repeat("1", 41):         "more than 40 digits",
		strings.Repeat("0", 500):        "too long",
		"5 \xff":                        "not UTF-8",
		"5 mm0":                         "unknown unit",
		"5 %2":                          "unknown unit",
		"5 mm9*mm9*mm9*mm9*mm9*mm9*mm9": "too high a power",
		"5 five":                        "unknown unit",
	} {
		q, err := Parse(in)
		var e *Error
		if !errors.As(err, &e) || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, %v; want %s", in, q, err, want)
		}
	}
}

func TestIn(t *testing.T) {
	for _, c := range []struct {
		in, unit string
		want     float64
	}{
		{"1545.6 mm", "m", 1.5456}, {"1.5456 m", "mm", 1545.6}, {"0.1 m", "mm", 100}, {"130 N/cm2", "N/mm2", 1.3},
		{"1 MPa", "N/cm2", 100}, {"66 %", "", 0.66}, {"0.66", "%", 66}, {"36 km/h", "mm/s", 10000}, {"1 kN", "kg*m/s2", 1000},
		{"1 year", "h", 8760}, {"12 months", "year", 1}, {"1/3 mm", "mm", 1.0 / 3}, {"20 J", "N*mm", 20000},
	} {
		if got, err := mustParse(t, c.in).In(mustUnit(t, c.unit)); err != nil || got != c.want {
			t.Errorf("%s in %s is %v, %v, want %v", c.in, c.unit, got, err, c.want)
		}
	}
	for _, c := range []struct{ in, unit, want string }{
		{"5 mm", "N", "mm cannot be turned into N"}, {"5", "mm", "unit missing; expected a quantity in mm"},
		{"5 mm", "", "expected a plain number"}, {"5 deg", "", "deg cannot be turned into a plain number"},
	} {
		if _, err := mustParse(t, c.in).In(mustUnit(t, c.unit)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s in %q: %v, want %s", c.in, c.unit, err, c.want)
		}
	}
}

func TestAddAndTolerance(t *testing.T) {
	sum, err := mustParse(t, "0.08 s ± 1 ms").Add(mustParse(t, "12 ms ± 0.5 ms"))
	if err != nil || sum.Canonical() != "0.092 s ± 0.0015 s" || sum.Unit.Name != "s" {
		t.Errorf("sum is %s in %s, %v", sum.Canonical(), sum.Unit.Name, err)
	}
	if got := sum.High().Canonical() + ", " + sum.Low().Canonical(); got != "0.0935 s, 0.0905 s" {
		t.Errorf("ends are %s", got)
	}
	plain := mustParse(t, "5 mm")
	if plain.High().Text != "5 mm" || plain.High().Canonical() != "5 mm" {
		t.Errorf("without tolerance: %+v", plain.High())
	}
	if _, err := plain.Add(mustParse(t, "1 N")); err == nil {
		t.Error("5 mm + 1 N was added")
	}
	if sum.Canonical() != "0.092 s ± 0.0015 s" {
		t.Error("High or Low changed its quantity")
	}
}

func TestParseRange(t *testing.T) {
	for in, want := range map[string]string{
		"700..2000 mm": "700 mm, 2000 mm", "0.7 m..2000 mm": "700 mm, 2000 mm", "1000 mm": "1000 mm, 1000 mm",
		"700 .. 2 m": "", "1..2": "1, 2", "5..5 kg": "5 kg, 5 kg", "-5..5 mm": "-5 mm, 5 mm",
		"2000..700 mm": "", "1 kg..2 mm": "", "1 mm ± 1 mm..2 mm": "", "..5 mm": "", "5 mm..": "", "1...2 mm": "", "1 mm..2": "",
	} {
		lo, hi, err := ParseRange(in)
		if want == "" {
			var e *Error
			if !errors.As(err, &e) {
				t.Errorf("%s gives %s..%s, %v", in, lo.Text, hi.Text, err)
			}
			continue
		}
		if err != nil || lo.Canonical()+", "+hi.Canonical() != want {
			t.Errorf("%s: %v", in, err)
		}
	}
}

func TestUnitNames(t *testing.T) {
	for in, want := range map[string]string{
		"": "", "1": "", " mm ": "mm", "cm²": "cm2", "cm^2": "cm2", "µm": "um", "hours": "h", "N·m": "N*m", "1/h": "1/h", "°C": "degC",
		"N/(mm*s)": "N/(mm*s)", "kg*m/s2": "kg*m/s2", "%": "%", "d": "day", "mm / s": "mm/s",
	} {
		if got := mustUnit(t, in).Name; got != want {
			t.Errorf("%q is named %q, want %q", in, got, want)
		}
	}
}

func TestCanonicalUnitParses(t *testing.T) {
	for l := int8(-12); l <= 12; l += 3 {
		for m := int8(-3); m <= 3; m++ {
			for s := int8(-10); s <= 10; s++ {
				u := CanonicalUnit(Dim{l, m, s, 1, -1})
				got := mustUnit(t, u.Name)
				if got.Dim != u.Dim || got.Scale.Cmp(u.Scale) != 0 {
					t.Fatalf("%v: %s reads as %v, scale %v, want %v", u.Dim, u.Name, got.Dim, got.Scale, u.Scale)
				}
			}
		}
	}
}

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		v      float64
		digits int
		want   string
	}{
		{30, 4, "30"}, {0.03, 4, "0.03"}, {1545.64, 4, "1546"}, {1234567, 3, "1230000"}, {12345678, 3, "1.23e7"}, {0.00012345, 3, "0.000123"},
		{0.000012345, 3, "1.23e-5"}, {4.3e-8, 2, "4.3e-8"}, {-2.5, 2, "-2.5"}, {0, 3, "0"}, {math.Copysign(0, -1), 3, "0"},
		{9.996, 3, "10"}, {9999999.6, 7, "1e7"}, {1.0 / 3, 15, "0.333333333333333"}, {5, 0, "5"}, {1e-4, 3, "0.0001"}, {100, 1, "100"},
	} {
		if got := Format(c.v, c.digits); got != c.want {
			t.Errorf("Format(%v, %d) is %s, want %s", c.v, c.digits, got, c.want)
		}
	}
}

func TestRoundToStep(t *testing.T) {
	for _, c := range []struct{ v, step, up, down float64 }{
		{1128.0000000000002, 1, 1128, 1128}, {1127.9999999999998, 1, 1128, 1128}, {1128.01, 1, 1129, 1128}, {0.3, 0.1, 0.3, 0.3},
		{0.1 + 0.2, 0.1, 0.3, 0.3}, {0.31, 0.1, 0.4, 0.3}, {151, 5, 155, 150}, {-1.5, 1, -1, -2}, {0, 1, 0, 0}, {1e9 + 0.4, 1, 1e9 + 1, 1e9},
		{5, 0, 5, 5}, {2.345, 0.01, 2.35, 2.34}, {1e300, 1e-300, 1e300, 1e300},
	} {
		if up, down := RoundUp(c.v, c.step), RoundDown(c.v, c.step); up != c.up || down != c.down {
			t.Errorf("%v to steps of %v: %v and %v, want %v and %v", c.v, c.step, up, down, c.up, c.down)
		}
	}
	if !math.IsNaN(RoundUp(math.NaN(), 1)) || !math.IsInf(RoundDown(math.Inf(1), 1), 1) {
		t.Error("what is not finite was rounded")
	}
}

// maxFuzzDigits leaves room for the digits that a canonical unit adds.
const maxFuzzDigits = 4000

func FuzzParse(f *testing.F) {
	for _, s := range []string{
		"150 mm/s ± 5 mm/s", "1545.6 mm", "1.5456 m", "4.3e-8 1/h", "66 %", "1,5 mm", "0x1F", "1/3 km/h", "5 N/(mm*s)", "700..2000 mm",
		"-1e30 mm9*kg9/s9", "22 °C", "NaN", "1_0 mm", "5 mm +/- 0 mm", "1e-30 month9/year9",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if lo, hi, err := ParseRange(s); err == nil && len(s) < 100 {
			_, _ = lo.Canonical(), hi.Canonical()
		}
		q, err := Parse(s)
		if err != nil {
			var e *Error
			if !errors.As(err, &e) || e.Message == "" || e.Expected == "" {
				t.Fatalf("%q: bad error %#v", s, err)
			}
			return
		}
		canonical := q.Canonical()
		again, err := parse(canonical, maxFuzzDigits)
		if err != nil {
			t.Fatalf("%q is %q: %v", s, canonical, err)
		}
		if got := again.Canonical(); got != canonical {
			t.Fatalf("%q is %q, then %q", s, canonical, got)
		}
		value := new(big.Rat).Mul(q.Num, q.Unit.Scale)
		if value.Cmp(new(big.Rat).Mul(again.Num, again.Unit.Scale)) != 0 {
			t.Fatalf("%q and %q differ", s, canonical)
		}
	})
}

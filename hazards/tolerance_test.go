package hazards_test

import (
	"regexp"
	"strings"
	"testing"

	"standclear/hazards"
	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// value gives an input of a check as it was used.
func value(t *testing.T, r *hazards.Result, check, input string) float64 {
	t.Helper()
	c := r.Check(check)
	if c == nil {
		t.Fatalf("no check %s", check)
	}
	return c.Outcome.Values[c.Sheet.Column(input).Slot].Num
}

func TestToleranceOfFacts(t *testing.T) {
	r := result(t, cell(t,
		"moving_mass: {is: 12 kg", "moving_mass: {is: 12 kg ± 1 kg",
		"response: {is: 80 ms", "response: {is: 80 ms ± 20 ms",
		"area: {is: 1.5 cm2, from: measured}", "area: {is: 1.5 cm2 ± 0.3 cm2, from: measured}"))
	for path, want := range map[string]float64{"arm.moving_mass": 13, "scanner.response": 0.1, "hand.area": 1.2} {
		if f := r.Fact(path); !expr.Equal(f.Used.Num, want) || !f.HasTol {
			t.Errorf("%s: used %v, want %v", path, f.Used.Num, want)
		}
	}
	if v := value(t, r, "hand/palm-d/jaws/tin", "A"); !expr.Equal(v, 1.2) {
		t.Errorf("the contact is worked out with %v cm2", v)
	}
}

// The tolerance of a height that may be a range makes it one.
func TestToleranceMakesARange(t *testing.T) {
	r := result(t, cell(t, "  - {id: low-field,",
		"  - {id: hook-over, sheet: reach-over, given: {T: 0.4 s, a: {is: 1000 mm ± 50 mm, from: measured}, b: 1600 mm, available: 2 m}}\n  - {id: low-field,"))
	c := r.Check("hook-over")
	ends := c.Sheet.Ranges["a"]
	for i, want := range []float64{950, 1050} {
		if v := c.Outcome.Values[ends[i].Slot].Num; v != want {
			t.Errorf("end %d: %v, want %v", i, v, want)
		}
	}
}

func TestToleranceOfInputs(t *testing.T) {
	r := result(t, cell(t, "available: {is: 2 m,", "available: {is: 2 m ± 200 mm,", "given: {T: 0.4 s", "given: {T: 0.4 s ± 0.1 s"))
	for input, want := range map[string]float64{"available": 1800, "T": 0.5} {
		found := false
		for i := range r.Checks {
			c := &r.Checks[i]
			if col := c.Sheet.Column(input); col != nil && expr.Equal(c.Outcome.Values[col.Slot].Num, want) {
				found = true
			}
		}
		if !found {
			t.Errorf("no check with %s at %v", input, want)
		}
	}
}

const heavy = "  - {id: carries, sheet: payload, given: {rated: {is: 30 kg, from: datasheet}, tool: arm.moving_mass, part: 1 kg}}\n" +
	"  - {id: carried, sheet: payload, given: {rated: arm.moving_mass + 1 kg ± 0.2 kg, tool: 2 kg, part: 1 kg}}\n"

// One value counts at its upper end in one check and at its lower end in another,
// and in a sum with the ends of the others; the check as written stands beside.
func TestOneValueAtBothEnds(t *testing.T) {
	data := linked(t, heavy, "moving_mass: {is: 12 kg", "moving_mass: {is: 12 kg ± 1 kg")
	r := result(t, data)
	for _, tt := range []struct {
		check, input, end, corner string
		value, nominal            float64
	}{
		{"carries", "tool", hazards.Up, "at tool 13 kg (upper end)", 13, 12},
		{"carried", "rated", hazards.Down, "at rated 11.8 kg (lower end)", 11.8, 13},
	} {
		c, n := r.Check(tt.check), r.NominalOf(tt.check)
		if n == nil {
			t.Fatalf("nothing stands beside %s", tt.check)
		}
		in := inputOf(c, tt.input)
		if !expr.Equal(value(t, r, tt.check, tt.input), tt.value) || in.End != tt.end || c.Corner != tt.corner {
			t.Errorf("%s: %v at %q, %q", tt.check, value(t, r, tt.check, tt.input), in.End, c.Corner)
		}
		if got := n.Outcome.Value(tt.input).Num; !expr.Equal(got, tt.nominal) || n.Corner != "" || n.Outcome.Use() >= c.Outcome.Use() {
			t.Errorf("%s at nominal: %v, use %v of %v", tt.check, got, n.Outcome.Use(), c.Outcome.Use())
		}
	}
	plain := result(t, linked(t, heavy))
	if len(r.Checks) != len(plain.Checks) || r.Check("low-field").Corner != "" || r.NominalOf("low-field") != nil {
		t.Error("checks without a tolerance are moved")
	}
	if n := len(plain.Nominal); n != 1+len(result(t, cell(t)).Nominal) {
		t.Errorf("%d stand beside", n)
	}
	for _, n := range r.Nominal {
		if r.Check(n.ID).Shadow || r.Check(n.ID).Verdict.Rank() > n.Verdict.Rank() && r.Check(n.ID).Verdict == r.Check(n.ID).Outcome.Verdict {
			t.Errorf("%s is %s, at nominal values %s", n.ID, r.Check(n.ID).Verdict, n.Verdict)
		}
	}
}

func inputOf(c *hazards.Check, name string) hazards.Input {
	for _, in := range c.Inputs {
		if in.Name == name {
			return in
		}
	}
	return hazards.Input{}
}

// A value that leads on, by its path or in a sum, has the ends of all it leads to;
// where its own kind gets worse the other way, rules use it at that end.
func TestToleranceLeadsOn(t *testing.T) {
	r := result(t, cell(t, "available: {is: 2 m, from: measured}", "available: arm.stop-half.distance", "distance: 60 mm", "distance: 60 mm ± 5 mm"))
	found := false
	for i := range r.Checks {
		c := &r.Checks[i]
		if in := inputOf(c, "available"); len(in.Terms) == 1 && in.Terms[0].Path == "arm.stop-half.distance" {
			found = true
			if in.Value.Num != 55 || in.End != hazards.Down || in.Low.Num != 55 || in.High.Num != 65 || in.Nominal.Num != 60 {
				t.Errorf("%+v", in)
			}
		}
	}
	if f := r.Fact("arm.stop-half.distance"); !found || f.Used.Num != 65 || f.Low.Num != 55 || f.High.Num != 65 {
		t.Errorf("%v, %+v", found, f)
	}
}

// The direction is found where the sheet does not say one, also where the value
// as written is the worst.
func TestDirectionIsFound(t *testing.T) {
	r := result(t, cell(t, "d: {is: 150 mm, from: datasheet}, H: 280 mm, Z", "d: {is: 62 mm, from: datasheet}, H: 995 mm ± 10 mm, Z"))
	found := false
	for i := range r.Checks {
		if in := inputOf(&r.Checks[i], "H"); in.Low.Given() {
			found = true
			if in.End != hazards.Up || in.Value.Num != 1005 || r.Checks[i].Verdict != sheet.Outside {
				t.Errorf("%s: H %v at %q, %s", r.Checks[i].ID, in.Value.Num, in.End, r.Checks[i].Verdict)
			}
		}
	}
	if !found {
		t.Error("no check takes the height")
	}
	r = result(t, cell(t, "height: {is: 280 mm", "height: {is: 280 mm ± 15 mm"))
	if v := value(t, r, "field", "H"); v != 265 {
		t.Errorf("height %v", v)
	}
}

// Evidence moves with a tolerance, that of values of the cell and that typed into
// a check, and not with what is shown beside.
func TestEvidenceMovesWithATolerance(t *testing.T) {
	print := func(changes ...string) string { return result(t, linked(t, heavy, changes...)).Fingerprint }
	seen := map[string]bool{}
	for _, changes := range [][]string{nil, {"rated: arm.moving_mass + 1 kg ± 0.2 kg", "rated: arm.moving_mass + 1 kg ± 0.3 kg"},
		{"moving_mass: {is: 12 kg", "moving_mass: {is: 12 kg ± 1 kg"}, {"moving_mass: {is: 12 kg", "moving_mass: {is: 12 kg ± 2 kg"}} {
		seen[print(changes...)] = true
	}
	if len(seen) != 4 {
		t.Errorf("%d fingerprints of 4", len(seen))
	}
	r := result(t, linked(t, heavy, "shown_by: [gap]}", "shown_by: [carried]}"))
	lines := 0
	for _, row := range r.Rows {
		for _, l := range row.Evidence {
			if strings.HasPrefix(l, "carried.rated = ") {
				lines++
				if !strings.Contains(l, "13 kg ± 0.2") {
					t.Errorf("%s", l)
				}
			}
		}
	}
	if lines != 1 {
		t.Errorf("%d lines", lines)
	}
}

// Both ends have to be possible.
func TestToleranceRefused(t *testing.T) {
	data := cell(t, "given: {T: 0.4 s", "given: {T: 0.4 s ± 0.5 s")
	if r, problems := assess(t, data); r != nil || len(problems) == 0 || !strings.Contains(problems[0].Message, "whose tolerance leads to -0.1 s") {
		t.Errorf("%s", render(problems, data))
	}
}

// A result is taken at the worst corner of the check that gives it, and as it is
// there without tolerances beside.
func TestNominalOfAResult(t *testing.T) {
	r := result(t, linked(t, strings.Replace(tray, "b: {is: 1300 mm,", "b: {is: 1301 mm ± 2 mm,", 1)+curtain("face", "tray.C_RO")))
	c, n := r.Check("face"), r.NominalOf("face")
	if n == nil || c.Corner != "at results of tray at its worst corner" {
		t.Fatalf("corner %q", c.Corner)
	}
	taken, nominal := r.Check("tray").Outcome.Value("C_RO").Num, r.NominalOf("tray").Outcome.Value("C_RO").Num
	if c.Outcome.Value("C_RO").Num != taken || n.Outcome.Value("C_RO").Num != nominal || taken <= nominal {
		t.Errorf("takes %v and %v of %v and %v", c.Outcome.Value("C_RO").Num, n.Outcome.Value("C_RO").Num, taken, nominal)
	}
}

var plainQuantity = regexp.MustCompile(`[:+\[ ](\d+(?:\.\d+)?) (mm/s|mm|ms|cm2|cm|kg|s|N/cm2|N/mm|N|degC|m|%)[,} ]`)

// A tolerance never makes a verdict better, wherever it stands.
func TestToleranceNeverBetters(t *testing.T) {
	data := string(cell(t))
	before := result(t, []byte(data))
	tried := 0
	for _, at := range plainQuantity.FindAllStringSubmatchIndex(data, -1) {
		number, end := data[at[2]:at[3]], at[5]
		if strings.HasPrefix(data[end:], " ±") || strings.Contains(data[max(0, at[2]-3):at[2]], "±") {
			continue
		}
		for _, tolerance := range []string{"0.01", "1"} {
			text := data[:end] + " ± " + tolerance + " " + data[at[4]:end] + data[end:]
			a, problems := file.Load("cell.yaml", []byte(text))
			if len(problems) > 0 {
				continue // more than the value itself, or words for the reader
			}
			after, problems := hazards.Assess(a, []byte(text), library(t), hazards.Options{Name: "cell", Version: "1"})
			if len(problems) > 0 {
				continue // refused: out of range, or another corner of a result is the worse one
			}
			tried++
			for i := range before.Checks {
				b := &before.Checks[i]
				c := after.Check(b.ID)
				if c == nil || b.Verdict.Worse(c.Verdict) || c.Verdict == b.Verdict && c.Outcome.Use() < b.Outcome.Use() && !expr.Equal(c.Outcome.Use(), b.Outcome.Use()) {
					t.Errorf("± %s at %s makes %s better", tolerance, number+" "+data[at[4]:end], b.ID)
				}
			}
		}
	}
	if tried < 50 {
		t.Errorf("only %d tolerances could be tried", tried)
	}
}

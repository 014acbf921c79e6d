package hazards_test

import (
	"regexp"
	"strings"
	"testing"

	"standclear/hazards"
	"standclear/hazards/file"
	"standclear/limits/expr"
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

func openKind(r *hazards.Result, kind, about string) string {
	for _, o := range r.Open {
		if o.Kind == kind && o.About == about {
			return o.Message
		}
	}
	return ""
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
	if len(r.Open) == 0 || openKind(r, hazards.OpenTolerance, "scanner.response") != "" {
		t.Error("a tolerance that counts is an open point")
	}
}

// A tolerance without a known worse end leaves the value as it is and is said.
func TestToleranceNotCounted(t *testing.T) {
	r := result(t, cell(t, "height: {is: 280 mm", "height: {is: 280 mm ± 30 mm"))
	if v := value(t, r, "field", "H"); v != 280 {
		t.Errorf("height %v", v)
	}
	if got := openKind(r, hazards.OpenTolerance, "scanner.height"); !strings.Contains(got, "280 mm ± 30") || !strings.Contains(got, "give the worse end") {
		t.Errorf("open: %q", got)
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
	if openKind(r, hazards.OpenTolerance, "hook-over.a") != "" {
		t.Error("a tolerance that counts is an open point")
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

// Where the value and the place it is put into disagree about the worse end, or
// neither end is the worse, the file has to say which value is meant.
func TestToleranceRefused(t *testing.T) {
	for _, tt := range []struct{ name, find, put, message string }{
		{"below its reach", "d: {is: 150 mm, from: datasheet}, H: 280 mm, Z", "d: {is: 62 mm, from: datasheet}, H: 995 mm ± 10 mm, Z", "another end is the worse one"},
		{"the other way", "available: {is: 2 m, from: measured}", "available: arm.stop-half.distance", "counts the other way"},
	} {
		data := cell(t, tt.find, tt.put, "distance: 60 mm", "distance: 60 mm ± 5 mm")
		if r, problems := assess(t, data); r != nil || len(problems) == 0 || !strings.Contains(problems[0].Message, tt.message) {
			t.Errorf("%s: %s", tt.name, render(problems, data))
		}
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
				continue // refused: out of range, or the worse end has to be named
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

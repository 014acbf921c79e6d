package hazards_test

import (
	"math"
	"strings"
	"testing"

	"standclear/hazards"
	"standclear/limits/expr"
	"standclear/limits/sheet"
)

const later = "iso-13855-2024"

// by is a check by the edition that does not count.
func by(t *testing.T, r *hazards.Result, id string) (*hazards.Check, *hazards.Pair) {
	t.Helper()
	for _, p := range r.Pairs() {
		if p.Name() == id {
			return p.Beside(), &p
		}
	}
	t.Fatalf("%s stands in one edition only", id)
	return nil, nil
}

func TestEditionsSideBySide(t *testing.T) {
	r := result(t, linked(t, tray+curtain("face", "tray.C_RO"), "Z: scanner.supplement, available: {is: 2 m", "crawl: no, Z: scanner.supplement, available: {is: 2 m"))
	o, p := by(t, r, "field")
	_, more := p.Difference()
	if h := o.Outcome.Value("H").Num; o.Sheet.Standard.Edition != later || !expr.Equal(more.Num, 0.4*h) || h == 0 {
		t.Errorf("field: %s, %v more at a height of %v", o.Sheet.Key(), more.Num, h)
	}
	if o.Verdict != sheet.Within || p.Same() || o.ShownHeld() == "" {
		t.Errorf("field: %s, %s, %q", o.Verdict, o.Why, o.ShownHeld())
	}
	// the height of the table of 2010 is not taken into the other edition
	o, p = by(t, r, "face")
	if in := o.Inputs; o.Verdict != sheet.NeedsCopy || o.Outcome.Value("C_RO").Given() || len(in) == 0 || p.First.Verdict != sheet.Within {
		t.Errorf("face: %s, %s", o.Verdict, o.Why)
	}
	if o, p = by(t, r, "tray"); o.Verdict != sheet.NeedsCopy || !strings.HasPrefix(o.Why, "D_DO ") || o.Lends() {
		t.Errorf("tray: %s, %s", o.Verdict, o.Why)
	}
	if _, v := p.Difference(); v.Given() {
		t.Errorf("a difference of %v to what is not public", v.Num)
	}
	// a look-up in the stopping grid that finds no point finds none beside either
	if o, _ = by(t, r, "no-category"); o.Verdict != sheet.NotDecided || !strings.Contains(o.Why, "stop category") {
		t.Errorf("no-category: %s, %s", o.Verdict, o.Why)
	}
	for i := range r.OtherEditions {
		o := &r.OtherEditions[i]
		if r.Check(o.ID) != nil || !o.Shadow || r.Check(o.Of) == nil {
			t.Errorf("%s counts", o.ID)
		}
	}
	for _, x := range r.Open {
		if strings.Contains(x.Message, "2024") || strings.Contains(x.About, "2024") {
			t.Errorf("an open point of what does not count: %s, %s", x.About, x.Message)
		}
	}
}

// An assessment without other editions counts, finds and leaves open the same.
func TestOtherEditionsMoveNothing(t *testing.T) {
	data := cell(t)
	r := result(t, data)
	n := 0
	for _, c := range r.Counts.Checks {
		n += c.N
	}
	counted := 0
	for i := range r.Checks {
		if !r.Checks[i].Shadow {
			counted++
		}
		if r.Checks[i].Sheet.Differs != "" {
			t.Errorf("%s counts by %s", r.Checks[i].ID, r.Checks[i].Sheet.Key())
		}
	}
	if n != counted || len(r.OtherEditions) == 0 {
		t.Errorf("%d counted of %d, %d beside", n, counted, len(r.OtherEditions))
	}
	for i := range r.Rows {
		for _, line := range r.Rows[i].Evidence {
			if strings.Contains(line, "2024") {
				t.Errorf("%s rests on what does not count: %s", r.Rows[i].ID, line)
			}
		}
	}
}

func TestBasisChoosesTheEdition(t *testing.T) {
	r := result(t, linked(t, tray+curtain("face", "tray.C_RO")+curtain("roof", "0 mm"), "distance: iso-13855-2010", "distance: "+later))
	for id, edition := range map[string]string{"field": later, "over": later, "tray": later, "face": later, "gap": "iso-13854-2017", "chain": "iso-13849-1-2023"} {
		if c := r.Check(id); c.Sheet.Standard.Edition != edition {
			t.Errorf("%s is worked out by %s", id, c.Sheet.Key())
		}
	}
	if c := r.Check("face"); c.Verdict != sheet.NeedsCopy {
		t.Errorf("face: %s, %s", c.Verdict, c.Why)
	}
	if c := r.Check("roof"); c.Verdict != sheet.NotDecided || !strings.HasPrefix(c.Why, "the supplement Z is missing") {
		t.Errorf("roof: %s, %s", c.Verdict, c.Why)
	}
	o, p := by(t, r, "face")
	if o.Sheet.Standard.Edition != "iso-13855-2010" || o.Verdict != sheet.Within || p.First != o || p.Second.ID != "face" || o.Outcome.Value("C_RO").Num != 900 {
		t.Errorf("beside it: %s, %s, %s", o.ID, o.Verdict, o.Why)
	}
	_, more := p.Difference()
	if !math.Signbit(more.Num) { // what is known of 2024 is reaching through alone
		t.Errorf("%v more", more.Num)
	}
	copies := 0
	for _, x := range r.Open {
		if x.Kind == hazards.OpenNeedsCopy {
			copies++
		}
	}
	if copies == 0 {
		t.Error("no open point for what needs a copy")
	}
}

// Inputs that one edition alone knows are left aside by the other, which says so.
func TestInputsOfOneEdition(t *testing.T) {
	given := strings.Replace(curtain("roof", "0 mm"), "C_RO: 0 mm", "C_RO: {is: 850 mm, from: standard}, D_DO: {is: 900 mm, from: standard}, Z: {is: 40 mm, from: datasheet}, T_tol: 0.01 s", 1)
	r := result(t, linked(t, given))
	c := r.Check("roof")
	if got := strings.Join(c.Ignored, " "); c.Verdict != sheet.Within || got != "D_DO Z T_tol" || c.IgnoredWords() != "D_DO, Z, T_tol are no inputs of ISO 13855:2010" {
		t.Errorf("%s, %q, %s", c.Verdict, got, c.IgnoredWords())
	}
	o, _ := by(t, r, "roof")
	if o.Verdict != sheet.Within || o.Outcome.Value("C").Num != 900 || !expr.Equal(o.Outcome.Value("S").Num, 1600*0.11+900+40) {
		t.Errorf("%s, %s, S %v", o.Verdict, o.Why, o.Outcome.Value("S").Num)
	}
	// a slip in them is an input error all the same, and said once
	_, problems := assess(t, linked(t, strings.Replace(given, "is: 40 mm", "is: 40 kg", 1)))
	if len(problems) != 1 || !strings.Contains(problems[0].Message, "`40 kg` for `Z`") {
		t.Errorf("%v", problems)
	}
	// what no edition knows is a slip as before
	_, problems = assess(t, linked(t, strings.Replace(given, "T_tol:", "T_tal:", 1)))
	if len(problems) != 1 || !strings.Contains(problems[0].Message, "has no input `T_tal`") {
		t.Errorf("%v", problems)
	}
}

// Reaching over is answered by C_RO, and where the edition that counts knows it by
// the distance of a bought copy.
func TestReachingOverAnsweredByEdition(t *testing.T) {
	for _, tt := range []struct {
		basis, input string
		found        bool
	}{
		{"iso-13855-2010", "C_RO: 0 mm", false},
		{"iso-13855-2010", "D_DO: 0 mm", true},
		{later, "D_DO: 0 mm", false},
		{later, "Z: 0 mm", true},
	} {
		data := linked(t, strings.Replace(curtain("roof", "0 mm"), "C_RO: 0 mm", tt.input, 1), "distance: iso-13855-2010", "distance: "+tt.basis)
		found := false
		for _, f := range result(t, data).Findings {
			found = found || f.ID == "DI-02" && f.About == "roof"
		}
		if found != tt.found {
			t.Errorf("%s, %s: finding %v", tt.basis, tt.input, found)
		}
	}
}

// The height from which crawling beneath has to be answered is that of the edition
// that counts.
func TestCrawlingByEdition(t *testing.T) {
	for _, tt := range []struct{ basis, height, message string }{
		{"iso-13855-2010", "280 mm", ""},
		{"iso-13855-2010", "301 mm", "above 300 mm"},
		{later, "200 mm", ""},
		{later, "280 mm", "above 200 mm"},
	} {
		check := "  - {id: low, sheet: parallel-field, given: {T: {is: 0.3 s, from: measured}, d: {is: 62 mm, from: datasheet}, H: " + tt.height + ", Z: 100 mm, available: {is: 3 m, from: measured}}}\n"
		data, message := linked(t, check, "distance: iso-13855-2010", "distance: "+tt.basis), ""
		for _, f := range result(t, data).Findings {
			if f.ID == "DI-07" && f.About == "low" {
				message = f.Message
			}
		}
		if (message == "") != (tt.message == "") || !strings.Contains(message, tt.message) {
			t.Errorf("%s at %s: %q", tt.basis, tt.height, message)
		}
	}
}

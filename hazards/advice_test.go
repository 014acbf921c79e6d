package hazards_test

import (
	"math"
	"slices"
	"testing"

	"standclear/hazards"
	"standclear/hazards/hazardstest"
	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// advised are the answers of a check or contact by input.
func advised(list []hazards.Advice) map[string]hazards.Advice {
	out := map[string]hazards.Advice{}
	for _, a := range list {
		out[a.Column.Name] = a
	}
	return out
}

const fast = "tcp_speed: 0.9 m/s ± 10 mm/s"

// Of a contact all governing checks hold at what is said, and not all of them a
// little beyond.
func TestAdviceOfAContactHoldsForAllItsChecks(t *testing.T) {
	r := result(t, cell(t, "tcp_speed: 0.1 m/s ± 10 mm/s", fast))
	k := r.Contact("hand")
	v, ok := advised(k.Advice)["v"]
	if k.Verdict != sheet.Over || !ok || v.Room || !v.Down {
		t.Fatalf("%s: %+v", k.Verdict, k.Advice)
	}
	if v.Path != "arm.bench.tcp_speed" || !v.Tolerance || v.Sum || v.Now.Num != 910 {
		t.Errorf("the speed comes from %q, tolerance %v, sum %v, now %v", v.Path, v.Tolerance, v.Sum, v.Now.Num)
	}
	least := math.Inf(1)
	for _, i := range k.Checks {
		c := &r.Checks[i]
		least = min(least, c.Outcome.Value("v_max").Num)
		for x, want := range map[float64]bool{v.Value: true, v.Border: true} {
			if got := at(c, "v", x); got != want {
				t.Errorf("%s at %v mm/s: holds %v", c.ID, x, got)
			}
		}
	}
	if math.Abs(v.Border-least) > 1e-9*least || v.Value != math.Floor(least) {
		t.Errorf("%v mm/s, shown %v; the least of the permitted speeds is %v", v.Border, v.Value, least)
	}
	m, ok := advised(k.Advice)["m_L"]
	if ok && m.Path != "" {
		t.Errorf("the load of several variants comes from %q alone", m.Path)
	}
}

// at works a check out with one input at x.
func at(c *hazards.Check, name string, x float64) bool {
	vals := slices.Clone(c.Outcome.Values)
	vals[c.Sheet.Column(name).Slot] = expr.Value{Kind: expr.Number, Num: x}
	o := c.Sheet.Evaluate(vals)
	return o.Verdict.Holds()
}

func TestAdviceOfASum(t *testing.T) {
	r := result(t, cell(t, "available: {is: 2 m, from: measured}", "available: {is: 1.6 m, from: measured}"))
	c := r.Check("field")
	a, ok := advised(c.Advice)["T"]
	if c.Verdict != sheet.Over || !ok || !a.Sum || a.Path != "" || a.Change() <= 0 || a.Now.Num-a.Change() > a.Border {
		t.Fatalf("%s: %+v", c.Verdict, c.Advice)
	}
	if d := advised(c.Advice)["available"]; !d.Sum && d.Value != math.Ceil(c.Outcome.Value("S").Num) {
		t.Errorf("%+v", d)
	}
}

// No speed is offered for what is not permitted, while a question is open that may
// make it so, where a measurement has decided, and for what only stands beside.
func TestWhereThereIsNoAdvice(t *testing.T) {
	r := result(t, cell(t, "tcp_speed: 0.1 m/s ± 10 mm/s", fast, "areas: [palm-d], area: {is: 1 cm2, from: measured}", "areas: [palm-d], area: {is: 1 cm2, from: measured}"))
	for _, id := range []string{"hooked", "head", "foot", "unsaid", "soft", "bare"} {
		k := r.Contact(id)
		if k.Verdict.Holds() || len(k.Advice) > 0 {
			t.Errorf("%s is %s: %+v", id, k.Verdict, k.Advice)
		}
		for _, i := range k.Checks {
			if len(r.Checks[i].Advice) > 0 {
				t.Errorf("%s is %s: %+v", r.Checks[i].ID, r.Checks[i].Verdict, r.Checks[i].Advice)
			}
		}
	}
	for i := range r.Checks {
		if c := &r.Checks[i]; c.Shadow && len(c.Advice) > 0 {
			t.Errorf("%s stands beside: %+v", c.ID, c.Advice)
		}
	}
	// one area that is not permitted takes it from all others of the contact
	r = result(t, cell(t, "tcp_speed: 0.1 m/s ± 10 mm/s", fast, "areas: [back-of-hand-nd, palm-d]", "areas: [back-of-hand-nd, eye]"))
	if k := r.Contact("hand"); k.Verdict != sheet.NotPermitted || k.Advice != nil || r.Checks[k.Checks[0]].Advice != nil || r.Checks[k.Checks[len(k.Checks)-1]].Advice != nil {
		t.Errorf("%s: %+v", k.Verdict, k.Advice)
	}
}

// Equal cases are solved once, and the same assessment gives the same advice.
func TestAdviceIsSolvedOnceForEqualCases(t *testing.T) {
	data := hazardstest.YAML(hazardstest.Size{Hazards: 1, Contacts: 600, Checks: 600})
	r := result(t, data)
	n := 0
	var before [][]hazards.Advice
	for i := range r.Checks {
		before = append(before, r.Checks[i].Advice)
		if len(r.Checks[i].Advice) > 0 {
			n++
		}
	}
	if solved := hazards.Advise(r); n < 600 || solved > n*3/4 {
		t.Errorf("%d cases solved for %d checks", solved, n)
	}
	for i := range r.Checks {
		if !slices.Equal(before[i], r.Checks[i].Advice) {
			t.Fatalf("%s: %v, then %v", r.Checks[i].ID, before[i], r.Checks[i].Advice)
		}
	}
}

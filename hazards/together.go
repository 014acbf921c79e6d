package hazards

import (
	"slices"

	"standclear/limits/expr"
)

// Together is what rates and levels of the parts of a chain wait for where other
// checks give some of them. A sum, or a count, that leaves a part out looks better
// than the chain is, so that either those of all parts count or none.
type Together struct {
	Given  []Term // results that have to be there
	Absent []Term // rates that may not be: no other part has one, and levels are counted
	Alike  []Term // rates of which all are there or none
	There  bool   // all is as it has to be
}

// waiters are the parts of a function whose figures come from checks, and how many
// of the others there are, with a rate, and with a level.
type waiters struct {
	lent                 []*part
	others, rated, level int
}

func (w *waiters) typed(p *part) {
	w.others++
	if p.rate.is {
		w.rated++
	}
	if p.level.is {
		w.level++
	}
}

// mayCount: levels are counted as soon as no check gives a rate.
func (w *waiters) mayCount() bool {
	return w.lent != nil && w.rated == 0 && w.level == w.others
}

// wait makes rates and levels of a function wait for its parts that checks give.
func (c *Check) wait(lists []*Input, w *waiters) {
	if w.lent == nil {
		return
	}
	var t Together
	levels, rates := true, 0
	for _, p := range w.lent {
		t.Given = append(t.Given, p.level.Terms...)
		levels = levels && p.level.Value.Given()
		if p.rate.Value.Given() {
			rates++
		}
		switch {
		case w.rated > 0:
			t.Given = append(t.Given, p.rate.Terms...)
		case w.others > 0:
			t.Absent = append(t.Absent, p.rate.Terms...)
		default:
			t.Alike = append(t.Alike, p.rate.Terms...)
		}
	}
	mixed := rates < len(w.lent) && w.rated+rates > 0
	for _, p := range w.lent {
		if levels && mixed && !p.rate.Value.Given() {
			c.lacks = addOnce(c.lacks, p.rate.Terms[0].Check+" gives a level without a failure rate, and other parts have a rate")
		}
	}
	t.There = levels && !mixed && (w.others == w.rated || rates == 0)
	t.hold(lists)
}

// waitForTaken makes rates and levels of a chain of the file wait for those that
// it takes from other checks.
func (c *Check) waitForTaken() {
	var lists []*Input
	var t Together
	t.There = true
	for i := range c.Inputs {
		in := &c.Inputs[i]
		if in.Name != "PFH" && in.Name != "levels" {
			continue
		}
		lists = append(lists, in)
		for k := range in.Members {
			if m := &in.Members[k]; m.Takes() {
				t.Given = append(t.Given, slices.DeleteFunc(slices.Clone(m.Terms), func(x Term) bool { return x.Check == "" })...)
				t.There = t.There && m.Value.Given()
			}
		}
	}
	if t.Given != nil {
		t.hold(lists)
	}
}

// hold notes what the members of lists wait for, and takes their values away
// where that is not there.
func (t *Together) hold(lists []*Input) {
	for _, in := range lists {
		for i := range in.Members {
			m := &in.Members[i]
			if m.With, m.Held = t, m.Value; !t.There {
				m.Value, in.List[i] = expr.Value{}, expr.Value{}
			}
		}
	}
}

package hazards

import (
	"strings"

	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/limits/source"
)

// A check is worked out by one edition of its sheet: that of the basis, else the
// default. Where the sheet stands in others as well, the
// same inputs are put into them and the results shown beside. They are no checks
// of the assessment: they are not counted, break no rule, open no point and are
// not part of what a review covers.

// sheetOf is the sheet by which a check counts, nil where its name is not known.
func (w *work) sheetOf(spec *file.Check) *sheet.Sheet {
	s := w.lib.Sheet(spec.Sheet)
	if s == nil {
		return nil
	}
	if edition := basisOf(&w.a.Head.Basis, s.Group); edition != "" {
		if of := w.lib.SheetOf(spec.Sheet, edition); of != nil {
			return of
		}
	}
	return s
}

// basisOf is the edition that an assessment names for a group of sheets.
func basisOf(b *file.Basis, group string) string {
	switch group {
	case "contact":
		return b.Contact
	case "distance":
		return b.Distance
	case "functions":
		return b.Functions
	}
	return ""
}

// ofOtherEdition tells whether a name that the sheet of a check does not know is
// an input of another edition of it.
func (w *work) ofOtherEdition(c *Check, name string) bool {
	for _, s := range w.lib.Editions(c.Sheet.ID) {
		if s != c.Sheet && s.Knows(name) {
			return true
		}
	}
	return false
}

// otherEditions works out every check of the file by each edition of its sheet
// that it does not count by.
func (w *work) otherEditions() {
	for i := range w.a.Checks {
		c := w.lenders[w.a.Checks[i].ID]
		if c == nil {
			continue
		}
		for _, s := range w.lib.Editions(c.Sheet.ID) {
			if s != c.Sheet {
				w.r.OtherEditions = append(w.r.OtherEditions, *w.other(c, s))
			}
		}
	}
}

// inEdition is a check in the edition that is being worked out, where its sheet
// has it: what is taken from another check comes from the same edition.
func (w *work) inEdition(c *Check) *Check {
	if c == nil || w.beside == "" {
		return c
	}
	if s := w.lib.SheetOf(c.Sheet.ID, w.beside); s != nil && s != c.Sheet {
		return w.other(c, s)
	}
	return c
}

// other works a check out by another edition of its sheet, once.
func (w *work) other(c *Check, s *sheet.Sheet) *Check {
	id := c.ID + "/" + s.Standard.Edition
	if o := w.besides[id]; o != nil {
		return o
	}
	_, found, _, _ := w.a.Find(c.ID)
	spec, _ := found.(*file.Check)
	o := &Check{ID: id, Of: c.ID, Task: c.Task, Sheet: s, Pos: c.Pos, Model: c.Model, Shadow: true}
	w.besides[id] = o
	was := w.beside
	w.beside = s.Standard.Edition
	grid := func(path string) string { return w.gridPoint(o, spec, path) }
	for i := range spec.Given {
		o.Inputs = append(o.Inputs, w.givenBeside(c, o, &spec.Given[i], grid)...)
	}
	w.workOut(o)
	w.beside = was
	return o
}

// givenBeside puts an input into another edition. What is wrong with one that
// counts has been said there; one that does not fit here keeps the check undecided.
func (w *work) givenBeside(c, o *Check, e *source.Entry[file.Given], grid func(string) string) []Input {
	switch {
	case !o.Sheet.Knows(e.Key):
		if c.Sheet.Knows(e.Key) {
			o.Ignored = addOnce(o.Ignored, e.Key)
		}
		return nil
	case !c.Sheet.Knows(e.Key):
		return w.given(o, e, grid)
	}
	said := w.ps
	w.ps = source.Problems{}
	inputs := w.given(o, e, grid)
	if w.ps.Len() > 0 {
		inputs, o.lacks = nil, addOnce(o.lacks, e.Key+" as given does not fit this edition")
	}
	w.ps = said
	return inputs
}

// Pair is one check by two editions of its sheet, in the order of the library.
type Pair struct{ First, Second *Check }

// Pairs lists the checks that stand in several editions.
func (r *Result) Pairs() []Pair {
	var out []Pair
	for i := range r.OtherEditions {
		o := &r.OtherEditions[i]
		c := r.Check(o.Of)
		switch {
		case c == nil:
		case c.Sheet.Differs == "":
			out = append(out, Pair{c, o})
		default:
			out = append(out, Pair{o, c})
		}
	}
	return out
}

// Name is the id of the check in the file.
func (p *Pair) Name() string { return p.First.Of }

// Beside is the one of both that does not count.
func (p *Pair) Beside() *Check {
	if p.Second.ID == p.Name() {
		return p.First
	}
	return p.Second
}

// Differs says in words what is other in the second edition.
func (p *Pair) Differs() string {
	if p.Second.Sheet.Differs != "" {
		return p.Second.Sheet.Differs
	}
	return p.First.Sheet.Differs
}

// Difference is by how much the result that is held against a limit is greater
// in the second edition; absent where one of them has none.
func (p *Pair) Difference() (c *sheet.Column, v expr.Value) {
	a, x := p.First.Held()
	b, y := p.Second.Held()
	if a == nil || b == nil || x.Kind != expr.Number || y.Kind != expr.Number || a.UnitName() != b.UnitName() {
		return b, expr.Value{}
	}
	return b, number(y.Num - x.Num)
}

// Same tells whether both editions come to one verdict and one result.
func (p *Pair) Same() bool {
	_, v := p.Difference()
	return p.First.Verdict == p.Second.Verdict && v.Given() && expr.Equal(v.Num, 0) && p.First.Lends() && p.Second.Lends()
}

// Held is the result that a check holds against a limit; nil where its sheet
// compares none.
func (c *Check) Held() (*sheet.Column, expr.Value) {
	col := c.Sheet.Held()
	if col == nil {
		return nil, expr.Value{}
	}
	return col, c.Outcome.Values[col.Slot]
}

// ShownHeld is the same with its unit, rounded as its sheet rounds it; "" where
// there is none.
func (c *Check) ShownHeld() string {
	col, v := c.Held()
	if col == nil || !v.Given() {
		return ""
	}
	if shown := c.Outcome.Value(col.Name + "_shown"); shown.Given() {
		v = shown
	}
	return col.Show(v)
}

// IgnoredWords says which inputs an edition does not know, "" where it knows all.
func (c *Check) IgnoredWords() string {
	if len(c.Ignored) == 0 {
		return ""
	}
	verb := " is no input of "
	if len(c.Ignored) > 1 {
		verb = " are no inputs of "
	}
	return strings.Join(c.Ignored, ", ") + verb + c.Sheet.Edition()
}

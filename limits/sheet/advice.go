package sheet

import (
	"cmp"
	"math"
	"slices"

	"standclear/limits/expr"
	"standclear/limits/quantity"
)

// AdviceOn lists, input by input, what would make all cases hold, or, where they
// hold and one is tight, how far each input may go. It holds at every corner of the
// tolerances of the other inputs; its own is in its value. There is none for what
// is not permitted, nor where a value is not public.
func AdviceOn(cases []Case) []Answer {
	worst, use := Within, 0.0
	for i := range cases {
		o := cases[i].Sheet.Evaluate(slices.Clone(cases[i].Values))
		use = max(use, o.Use())
		if o.Verdict.Worse(worst) {
			worst = o.Verdict
		}
	}
	switch {
	case len(cases) == 0 || worst == NotPermitted || worst == NeedsCopy:
		return nil
	case worst.Holds() && use <= cases[0].Sheet.lib.tight():
		return nil
	}
	var out []Answer
	for _, name := range adjustables(cases) {
		if v := newSolver(cases, name); v == nil || !v.now.Given() && worst != NotDecided {
			continue // what is not there did not make it fail
		}
		if a, ok := cornered(cases, name); ok {
			out = append(out, a)
		}
	}
	return out
}

// Tight tells whether an outcome holds with little left.
func (o *Outcome) Tight() bool { return o.Verdict.Holds() && o.Use() > o.Sheet.lib.tight() }

// tight is the share of a limit above which a verdict is tight; all of it where
// the library states none.
func (l *Library) tight() float64 {
	if k := l.shared("tight"); k != nil && k.Value.Kind == expr.Number {
		return k.Value.Num
	}
	return 1
}

// adjustables are the names of inputs that can be turned, in the order in which
// their values are said.
func adjustables(cases []Case) []string {
	var cols []*Column
	var names []string
	for _, k := range cases {
		for _, c := range k.Sheet.Adjustable() {
			if !slices.Contains(names, c.Name) {
				names, cols = append(names, c.Name), append(cols, c)
			}
		}
	}
	lib := cases[0].Sheet.lib
	slices.SortStableFunc(cols, func(a, b *Column) int {
		_, i, _ := lib.stepOf(a)
		_, j, _ := lib.stepOf(b)
		return cmp.Compare(i, j)
	})
	for i, c := range cols {
		names[i] = c.Name
	}
	return names
}

// Change is by how much at least the input has to change, rounded up to three
// digits; 0 where there is no present value.
func (a *Answer) Change() float64 {
	d := math.Abs(a.Value - a.Now.Num)
	if !a.Now.Given() || d == 0 {
		return 0
	}
	return quantity.RoundUp(d, math.Pow(10, math.Floor(math.Log10(d))-2))
}

// Shown is a value of the input with its unit.
func (a *Answer) Shown(x float64) string {
	return a.Column.Show(expr.Value{Kind: expr.Number, Num: x})
}

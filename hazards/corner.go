package hazards

import (
	"slices"

	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/sheet"
	"standclear/limits/source"
)

// A check is worked out at the worst corner of all tolerances behind its inputs:
// every end is tried against every other, none is assumed to be the worse one. A
// value that is put into two checks may count at its upper end in one and at its
// lower end in the other. Two inputs of one check count by themselves, even where
// they come from one value: that may be worse than can be, and is never milder.
// Beside it stands the check with all values as written, see beside.

// loosened lists the inputs with tolerances of their own.
func (c *Check) loosened() (list []sheet.Loose, of []*Input) {
	c.each(func(in *Input) {
		if l, ok := in.loosened(c.Sheet.Column(in.Name)); ok {
			list, of = append(list, l), append(of, in)
		}
	})
	return list, of
}

func (in *Input) loosened(col *sheet.Column) (l sheet.Loose, ok bool) {
	if !in.Low.Given() || !in.Value.Given() {
		return l, false
	}
	if in.wider {
		return col.Wider(in.worse == Down, in.rest, in.Low, in.High), true
	}
	l = sheet.Loose{Column: col, Rest: in.rest}
	l.Ends, l.Known = col.Ends(in.Low, in.High)
	return l, true
}

// corner finds the worst corner and puts every input to its end there.
func (c *Check) corner() {
	list, of := c.loosened()
	if len(list) > 0 {
		vals := c.Sheet.Blank()
		c.set(vals)
		worst := c.Sheet.Worst(vals, list)
		for i, in := range of {
			in.End, in.Value = "", list[i].Rest
			if at := worst.At[i]; at >= 0 {
				in.End, in.Value = list[i].Ends[at].Name, list[i].Ends[at].Value
			}
			if in.With != nil {
				in.Held = in.Value
			}
		}
		c.relist()
	}
	c.Corner = c.cornerWords()
}

// Expected is the end of a tolerance that the sheet expects to be the worse one,
// "" where it does not say.
func (in *Input) Expected() string { return in.worse }

// relist puts the values of members into their lists.
func (c *Check) relist() {
	for i := range c.Inputs {
		in := &c.Inputs[i]
		for j := range in.Members {
			in.List[j] = in.Members[j].Value
		}
	}
}

// cornerWords names the ends, and the checks whose results count at theirs.
func (c *Check) cornerWords() string {
	var words []string
	some := false
	c.each(func(in *Input) {
		col := c.Sheet.Column(in.Name)
		some = some || in.Low.Given() && in.Value.Given()
		if in.End != "" {
			words = append(words, col.EndWords(sheet.End{Value: in.Value, Name: in.End}))
		} else if in.lentLoose() {
			for _, t := range in.Terms {
				if t.Check != "" {
					words = addOnce(words, "results of "+t.Check+" at its worst corner")
				}
			}
		}
	})
	return sheet.CornerWords(words, some)
}

// lentLoose tells whether an input takes a result that tolerances move.
func (in *Input) lentLoose() bool { return in.Takes() && in.Nominal != in.rest }

// hasTolerance tells whether a tolerance behind any input moves it.
func (c *Check) hasTolerance() bool {
	some := false
	c.each(func(in *Input) { some = some || in.Low.Given() && in.Value.Given() || in.lentLoose() })
	return some
}

// beside works the check out with every value as written. lacks is what the
// check lacks besides results of others.
func (c *Check) beside(lacks []string) {
	if c.Shadow || !c.hasTolerance() {
		return
	}
	n := *c
	n.Corner, n.Open, n.lacks, n.nominal = "", nil, slices.Clone(lacks), nil
	n.Inputs = slices.Clone(c.Inputs)
	for i := range n.Inputs {
		in := &n.Inputs[i]
		in.Members, in.List = slices.Clone(in.Members), slices.Clone(in.List)
	}
	n.each(func(in *Input) {
		waiting := in.With != nil && !in.With.There
		if in.Low.Given() || in.Takes() {
			in.End = ""
			if in.Value = in.Nominal; waiting {
				in.Value = expr.Value{}
			}
			if in.With != nil {
				in.Held = in.Nominal
			}
		}
		if !in.Value.Given() {
			n.lacks = addOnce(n.lacks, in.lacks)
		}
	})
	n.relist()
	n.evaluate()
	c.nominal = &n
}

// probe holds the ends of tolerances behind results of other checks against the
// check: a result is lent at the worst corner of the check that gives it, and
// where another one is the worse here the file has to say which value is meant.
func (w *work) probe(c *Check) {
	var list []sheet.Loose
	var of []*Input
	others := false
	c.each(func(in *Input) {
		col := c.Sheet.Column(in.Name)
		l, ok := in.loosened(col)
		if !ok {
			l = sheet.Loose{Column: col, Rest: in.Value, Ends: []sheet.End{{Value: in.Value}}}
		}
		for _, v := range in.others {
			l.Ends = append(l.Ends, sheet.End{Value: v})
		}
		if ok || len(in.others) > 0 {
			list, of = append(list, l), append(of, in)
		}
		others = others || len(in.others) > 0
	})
	if !others {
		return
	}
	worst := c.Sheet.Worst(append([]expr.Value(nil), c.Outcome.Values...), list) // what is worked out is worked out anew
	if !worst.WorseThan(c.Outcome) {
		return
	}
	for i, in := range of {
		if at := worst.At[i]; at >= 0 && list[i].Ends[at].Value != in.Value && slices.Contains(in.others, list[i].Ends[at].Value) {
			col := list[i].Column
			w.ps.Add(source.Problem{Pos: in.Pos, Message: "found a result of another check for " + inputName(col) + " that is the worse one here at another corner of its tolerances",
				Expected: "the value that is the worse one here, without a tolerance",
				Hint:     "at " + col.Show(list[i].Ends[at].Value) + ": " + result(&worst.Outcome) + "; at " + col.Show(in.Value) + ": " + result(c.Outcome)})
			return
		}
	}
}

// result is a verdict with what is used of the limit.
func result(o *sheet.Outcome) string {
	if !o.Value("use").Given() {
		return string(o.Verdict)
	}
	return string(o.Verdict) + ", " + quantity.Format(quantity.RoundUp(o.Use()*100, 0.01), 6) + " % used"
}

// NominalOf is a check with all values as written, nil where no tolerance behind
// it moves it.
func (r *Result) NominalOf(id string) *Check {
	if i, ok := r.nominal[id]; ok && i < len(r.Nominal) {
		return &r.Nominal[i]
	}
	return nil
}

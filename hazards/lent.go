package hazards

import (
	"math/big"
	"slices"

	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/sheet"
	"standclear/limits/source"
)

// A result of one check may be an input of another. It is lent only where it is
// worked out in full and within what the method covers, see sheet.Lends: also by
// a check that is over, or that lacks what the result is held against, since
// neither changes the number; never by one that is outside, not permitted, needs
// a copy, or lacks an answer that may change it, and never by one that takes
// something that is not lent itself. Where nothing is lent the input is absent,
// and the check that takes it decides nothing: an absence must not be read as an
// answer, such as "no category is required". That is an open point of its own.
// Results of the contact model are not lent at all: a measurement may overrule
// them later.

// taken is a result as another check takes it.
type taken struct {
	from   *Check
	col    *sheet.Column
	value  expr.Value   // absent where nothing is lent
	lacks  string       // why
	others []expr.Value // at other corners of the tolerances behind it

	nominal expr.Value // of the lender with all values as written
}

func (w *work) isResult(t file.Term) bool {
	_, _, ok := w.ix.ResultOf(t.Path)
	return ok
}

// lender works a check of the file out, once. Loading has refused circles. It is
// nil where the sheet is not known, which has been reported.
func (w *work) lender(id string) *Check {
	if c, ok := w.lenders[id]; ok {
		return c
	}
	_, found, _, _ := w.a.Find(id)
	spec, ok := found.(*file.Check)
	if !ok {
		return nil
	}
	w.lenders[id] = nil
	c := w.calculation(spec)
	w.lenders[id] = c
	return c
}

// take finds the result that a path leads to; false where that was a slip.
func (w *work) take(t file.Term) (taken, bool) {
	id, name, _ := w.ix.ResultOf(t.Path)
	c := w.inEdition(w.lender(id))
	if c == nil {
		return taken{}, false
	}
	col, names := c.Sheet.Result(name), c.Sheet.ResultNames()
	switch {
	case col == nil:
		w.ps.Add(source.Problem{Pos: t.Pos, Width: t.Width, Message: "check `" + id + "`, of sheet `" + c.Sheet.ID + "`, has no result `" + name + "`",
			Expected: "one of: " + source.Quoted(names), Hint: source.DidYouMean(name, names)})
		return taken{}, false
	case c.Model:
		w.ps.Add(source.Problem{Pos: t.Pos, Width: t.Width, Message: "`" + t.Path + "` comes from the contact model, which a measurement may overrule",
			Expected: "a result of a check that nothing is measured for", Hint: "write the number with its origin"})
		return taken{}, false
	}
	return w.lend(c, col), true
}

// Lends tells whether the results of a check may be taken by others.
func (c *Check) Lends() bool {
	lends, _ := c.Sheet.Lends(c.Outcome.Values)
	return lends && len(c.lacks) == 0
}

// lend gives a result of a check, or says why there is none.
func (w *work) lend(c *Check, col *sheet.Column) taken {
	x := taken{from: c, col: col, value: c.Outcome.Values[col.Slot], nominal: c.lentNominal(col)}
	switch {
	case !c.Lends():
		x.value = expr.Value{}
		x.lacks = c.ID + " is " + string(c.Verdict) + " and gives no " + col.Symbol
		if len(c.lacks) == 0 { // else it is a matter of what it takes itself
			_, because := c.Sheet.Lends(c.Outcome.Values)
			x.lacks += ": " + because
		}
	case !x.value.Given():
		x.lacks = c.ID + " gives no " + col.Symbol
		if m := c.Outcome.Missing(col); m != col.Symbol {
			x.lacks += ": " + m + " is missing"
		}
	default:
		x.others = w.others(c, col)
	}
	return x
}

// lentNominal is what a check lends with all values as written.
func (c *Check) lentNominal(col *sheet.Column) (v expr.Value) {
	if c.nominal != nil {
		c = c.nominal
	}
	if c.Lends() {
		v = c.Outcome.Values[col.Slot]
	}
	return v
}

// others are the values of a result at other corners of the tolerances behind it.
func (w *work) others(c *Check, col *sheet.Column) []expr.Value {
	var out []expr.Value
	for _, vals := range w.tries(c) {
		if v := vals[col.Slot]; v.Given() && v != c.Outcome.Values[col.Slot] && !slices.Contains(out, v) {
			out = append(out, v)
		}
	}
	return out
}

// tries works a check out at the corners of the tolerances behind it, and with
// none: where there are too many corners, with one input at another end each.
func (w *work) tries(c *Check) [][]expr.Value {
	if list, done := w.tried[c]; done {
		return list
	}
	var list [][]expr.Value
	keep := func(vals []expr.Value) {
		if lends, _ := c.Sheet.Lends(vals); lends {
			list = append(list, vals)
		}
	}
	c.Sheet.Corners(c.Outcome.Values, c.behind(), func(o sheet.Outcome) { keep(o.Values) })
	if c.nominal != nil {
		keep(c.nominal.Outcome.Values)
	}
	w.tried[c] = list
	return list
}

// behind lists everything that inputs may be: the ends of their own tolerances,
// and of those behind results that they take.
func (c *Check) behind() []sheet.Loose {
	var list []sheet.Loose
	c.each(func(in *Input) {
		if !in.Value.Given() || !in.Low.Given() && len(in.others) == 0 {
			return
		}
		l := sheet.Loose{Column: c.Sheet.Column(in.Name), Rest: in.Value}
		for _, v := range append([]expr.Value{in.Low, in.High, in.rest}, in.others...) {
			if v.Given() {
				l.Ends = append(l.Ends, sheet.End{Value: v})
			}
		}
		list = append(list, l)
	})
	return list
}

// each visits the inputs, those of a list one by one.
func (c *Check) each(visit func(*Input)) {
	for i := range c.Inputs {
		in := &c.Inputs[i]
		for j := range in.Members {
			visit(&in.Members[j])
		}
		if in.Members == nil {
			visit(in)
		}
	}
}

// Taken lists the inputs that are results of other checks and without which the
// check decides nothing.
func (c *Check) Taken() []*Input {
	var out []*Input
	c.each(func(in *Input) {
		if !in.waived && in.Takes() {
			out = append(out, in)
		}
	})
	return out
}

// takenFrom lists the checks whose results are inputs.
func (c *Check) takenFrom() []string {
	var ids []string
	c.each(func(in *Input) {
		for _, t := range in.Terms {
			if t.Check != "" {
				ids = addOnce(ids, t.Check)
			}
		}
	})
	return ids
}

// Takes tells whether an input is a result of another check, or adds one up.
func (in *Input) Takes() bool {
	return slices.ContainsFunc(in.Terms, func(t Term) bool { return t.Check != "" })
}

// term notes that an input takes a result.
func (x *taken) term(in *Input, path string, unit quantity.Unit) {
	f := 1.0
	if x.col.Type.Kind == expr.Number {
		f = factor(x.col.Type.Unit, unit)
	}
	in.Terms = append(in.Terms, Term{Path: path, Check: x.from.ID, Column: x.col.Name, Factor: f})
	in.Origin, in.Ref = weaker(in.Origin, x.from.origin), ""
	if in.lacks == "" {
		in.lacks = x.lacks
	}
}

// takeNumber is a result as a term of a sum, and as it is without tolerances.
// fits is false where it is none; a quantity is without a number where nothing is
// lent.
func (w *work) takeNumber(in *Input, col *sheet.Column, t file.Term) (q, nominal quantity.Quantity, fits bool) {
	x, ok := w.take(t)
	if !ok {
		return q, q, false
	}
	if x.col.Type.Kind != expr.Number || col.Type.Kind != expr.Number || x.col.Type.Unit.Dim != col.Type.Unit.Dim {
		w.misfit(t.Pos, t.Width, "`"+t.Path+"`", col)
		return q, q, false
	}
	x.term(in, t.Path, col.Type.Unit)
	if x.nominal.Given() {
		nominal = exactly(x.nominal.Num, x.col.Type.Unit)
	}
	if !x.value.Given() {
		return q, nominal, true
	}
	q = exactly(x.value.Num, x.col.Type.Unit)
	for _, v := range x.others {
		in.others = append(in.others, number(inUnit(exactly(v.Num-x.value.Num, x.col.Type.Unit), col)))
	}
	return q, nominal, true
}

// takeWord is a result that is a word.
func (w *work) takeWord(in *Input, col *sheet.Column, t file.Term) bool {
	x, ok := w.take(t)
	if !ok {
		return false
	}
	if x.col.Type.Kind != expr.Text {
		w.ps.Add(source.Problem{Pos: t.Pos, Width: t.Width, Message: "found `" + t.Path + "`, which is no word, for " + inputName(col),
			Expected: "one of: " + source.Quoted(col.Choice)})
		return false
	}
	x.term(in, t.Path, quantity.One)
	in.Value, in.rest, in.Nominal, in.Text, in.others = x.value, x.value, x.nominal, x.value.Text, x.others
	return true
}

// fill makes an input of a check of something that another one lends.
func (x *taken) fill(col *sheet.Column, at source.Pos) Input {
	in := Input{Name: col.Name, Pos: at, worse: worseOf(col), Value: x.value, rest: x.value, Nominal: x.nominal, Text: x.value.Text, others: x.others}
	x.term(&in, x.from.ID+"."+x.col.Symbol, col.Type.Unit)
	return in
}

// originOf is the weakest origin of the inputs of a check, and of what chose
// between them.
func (w *work) originOf(c *Check) string {
	origin := ""
	c.each(func(in *Input) {
		if in.Origin != "" {
			origin = weaker(origin, in.Origin)
		}
	})
	for _, path := range c.shares {
		if x := w.known[path]; x != nil && x.ok && x.origin != "" {
			origin = weaker(origin, x.origin)
		}
	}
	return origin
}

// Weakest is the weakest origin of what a check rests on, "" where that is words.
func (c *Check) Weakest() string { return c.origin }

// carryOpen notes at each check the open points of those whose results it takes.
func (w *work) carryOpen() {
	done := map[string]bool{}
	for i := range w.r.Checks {
		w.carryTo(&w.r.Checks[i], done)
	}
}

func (w *work) carryTo(c *Check, done map[string]bool) {
	if done[c.ID] {
		return
	}
	done[c.ID] = true
	c.each(func(in *Input) {
		for _, t := range in.Terms {
			if from := w.r.Check(t.Check); t.Check != "" && from != nil {
				w.carryTo(from, done)
				for _, about := range from.Open {
					c.Open = addOnce(c.Open, about)
				}
			}
		}
	})
}

// exactly is a number that was worked out as a quantity.
func exactly(v float64, unit quantity.Unit) quantity.Quantity {
	return quantity.Quantity{Unit: unit, Num: new(big.Rat).SetFloat64(v)}
}

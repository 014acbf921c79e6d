package hazards

import (
	"cmp"
	"strings"

	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/sheet"
	"standclear/limits/source"
)

// amount makes an input of an amount of the file. Its term is the fact under
// which the amount itself stands, so that an edit of it is followed.
func (w *work) amount(col *sheet.Column, amounts ...file.Amount) (Input, bool) {
	in := Input{Name: col.Name, worse: worseOf(col)}
	var terms []file.Term
	for _, a := range amounts {
		if !a.Set {
			continue
		}
		if in.Pos.Line == 0 {
			in.Pos = a.Pos()
		}
		terms = append(terms, file.Term{Path: w.ix.PathOf(a), Pos: a.Pos()})
	}
	if len(terms) == 0 {
		return in, false
	}
	w.sum(&in, col, terms, nil)
	return in, true
}

// sum adds up terms exactly and puts the sum into the unit of a column. Paths
// into a stopping grid are looked up by grid; nil means there is none.
func (w *work) sum(in *Input, col *sheet.Column, terms []file.Term, grid func(path string) string) {
	var total, nominal quantity.Quantity
	whole, known := true, true
	for _, t := range terms {
		if w.isResult(t) {
			q, plain, fits := w.takeNumber(in, col, t)
			if known = known && plain.Num != nil; known {
				nominal = plus(nominal, plain)
			}
			switch {
			case !fits:
				return
			case q.Num == nil:
				whole = false
				continue
			}
			total = plus(total, q)
			continue
		}
		if t.IsGrid() && grid != nil {
			if t.Path = grid(t.Path); t.Path == "" {
				whole, known = false, false
				continue
			}
		}
		q, ok := w.written(in, t)
		if !ok {
			whole, known = false, false
			continue
		}
		if q.Unit.Dim != col.Type.Unit.Dim || col.Type.Kind != expr.Number {
			w.misfit(t.Pos, t.Width, "`"+w.asWritten([]file.Term{t})+"`", col)
			return
		}
		in.Terms = append(in.Terms, termOf(t, q, w, col.Type.Unit))
		total = plus(total, q)
		if known {
			nominal = plus(nominal, q)
		}
	}
	if !known {
		nominal = quantity.Quantity{}
	}
	if len(terms) > 1 {
		in.Ref = ""
	}
	if whole && total.Num != nil {
		if in.Typed != "" { // else the facts say it
			in.exact = total.Canonical()
		}
		w.spread(in, col, total, nominal, terms[0], w.asWritten(terms))
		in.shift()
	} else if nominal.Num != nil { // a result that is lent without tolerances only
		in.Nominal = number(inUnit(endOf(nominal, ""), col))
	}
}

// plus adds up quantities of one dimension; the first has no number before it.
func plus(total, q quantity.Quantity) quantity.Quantity {
	if total.Num == nil {
		return q
	}
	total, _ = total.Add(q)
	return total
}

// shift makes values of what others differ by, at both ends of the own tolerances.
func (in *Input) shift() {
	by := in.others
	in.others = nil
	for _, d := range by {
		for _, v := range []expr.Value{in.rest, in.Low, in.High} {
			if v.Given() {
				in.others = append(in.others, number(v.Num+d.Num))
			}
		}
	}
}

// written is a term with its tolerance.
func (w *work) written(in *Input, t file.Term) (q quantity.Quantity, ok bool) {
	if t.Path == "" {
		in.Origin = weaker(in.Origin, in.Typed)
		return t.Quantity, true
	}
	x := w.known[t.Path]
	if x == nil || !x.ok {
		return q, false
	}
	in.Origin, in.Ref = weaker(in.Origin, x.origin), x.ref
	return x.value, true
}

// put sets the value of an input after holding it against its physical bounds. A
// value that was worked out elsewhere is no slip of the pen: there the sheet says
// what is wrong.
func (w *work) put(in *Input, col *sheet.Column, v expr.Value, t file.Term, found string) {
	if fault := col.Fault(v); fault != "" && !in.Takes() {
		w.impossible(t.Pos, t.Width, "`"+found+"`", col, fault)
		return
	}
	in.Value = v
}

func inUnit(q quantity.Quantity, col *sheet.Column) float64 { return in(q, col.Type.Unit) }

func termOf(t file.Term, q quantity.Quantity, w *work, unit quantity.Unit) Term {
	if t.Path == "" {
		return literal(q, unit)
	}
	return Term{Path: t.Path, Factor: factor(w.unitOf(t.Path), unit)}
}

// literal is a number typed in, with its tolerance.
func literal(q quantity.Quantity, unit quantity.Unit) Term {
	t := Term{Value: in(endOf(q, ""), unit), Factor: 1}
	if loose(q) {
		t.Tol = in(quantity.Quantity{Num: q.Tol, Unit: q.Unit}, unit)
	}
	return t
}

// wording is a term as it stands in the file.
func wording(t file.Term) string {
	if t.Path != "" {
		return t.Path
	}
	return t.Quantity.Text
}

// words are terms as they stand in the file.
func words(terms []file.Term) string {
	var out []string
	for _, t := range terms {
		out = append(out, wording(t))
	}
	return strings.Join(out, " + ")
}

// asWritten is words for terms that an amount may have been turned into: the path
// under which the amount itself stands says less than what is written there.
func (w *work) asWritten(terms []file.Term) string {
	var out []string
	for _, t := range terms {
		if e, ok := w.ix.Entry(t.Path); ok && e.Pos == t.Pos {
			out = append(out, w.asWritten(e.Amount.Terms))
			continue
		}
		out = append(out, wording(t))
	}
	return strings.Join(out, " + ")
}

// given puts one input of a check, as written, into the columns of its sheet.
func (w *work) given(c *Check, e *source.Entry[file.Given], grid func(string) string) []Input {
	name, g := e.Key, &e.Value
	if list, ok := c.Sheet.Lists[name]; ok {
		return w.list(list, name, e, grid)
	}
	if r, ok := c.Sheet.Ranges[name]; ok {
		return w.ends(r, e, grid)
	}
	col := c.Sheet.Input(name)
	if col == nil && w.ofOtherEdition(c, name) {
		c.Ignored = addOnce(c.Ignored, name)
		return nil
	}
	if col == nil {
		names := c.Sheet.InputNames()
		w.ps.Add(source.Problem{Pos: e.Pos, Width: len(name), Message: "sheet `" + c.Sheet.ID + "` has no input `" + name + "`",
			Expected: "one of: " + source.Quoted(names), Hint: source.DidYouMean(name, names)})
		return nil
	}
	col = w.wordOrNumber(col, g)
	if in, ok := w.one(col, g, grid, worseOf(col)); ok {
		return []Input{in}
	}
	return nil
}

// wordOrNumber is the column that takes what is given, where a word or a number
// of the same thing may be.
func (w *work) wordOrNumber(col *sheet.Column, g *file.Given) *sheet.Column {
	n := col.ForNumber()
	if n == nil || len(g.Terms) == 0 {
		return col
	}
	if id, name, ok := w.ix.ResultOf(g.Terms[0].Path); ok {
		if c := w.lender(id); c != nil && c.Sheet.Result(name) != nil && c.Sheet.Result(name).Type.Kind == expr.Text {
			return col
		}
	}
	return n
}

// one makes an input of one value, which gets worse in a direction.
func (w *work) one(col *sheet.Column, g *file.Given, grid func(string) string, worse string) (Input, bool) {
	in := Input{Name: col.Name, Pos: g.Pos(), Ref: g.Ref, Typed: typedOrigin(g), worse: worse}
	switch {
	case len(g.List) > 0:
		w.misfit(g.Pos(), 1, "a list", col)
	case g.Range != nil:
		w.misfit(g.Pos(), len([]rune(g.Text)), "`"+g.Text+"`, a range,", col)
	case col.Type.Kind == expr.Text && len(g.Terms) == 1 && w.isResult(g.Terms[0]):
		in.Typed = ""
		return in, w.takeWord(&in, col, g.Terms[0])
	case col.Type.Kind == expr.Text:
		if col.Fault(text(g.Text)) != "" {
			w.wrongChoice(g.Pos(), g.Text, col)
			return in, false
		}
		in.Value, in.Text, in.Typed = text(g.Text), g.Text, ""
		return in, true
	case len(g.Terms) == 0:
		w.misfit(g.Pos(), len([]rune(g.Text)), "`"+g.Text+"`", col)
	default:
		w.sum(&in, col, g.Terms, grid)
		return in, true
	}
	return in, false
}

// list makes an input of several values: a list, words with commas between
// them, or a single value.
func (w *work) list(cols []*sheet.Column, name string, e *source.Entry[file.Given], grid func(string) string) []Input {
	g := &e.Value
	members := g.List
	if len(members) == 0 {
		members = []file.Given{*g}
		if cols[0].Type.Kind == expr.Text && len(g.Terms) == 0 {
			members = nil
			for _, word := range strings.Split(g.Text, ",") {
				m := *g
				m.Text = strings.TrimSpace(word)
				members = append(members, m)
			}
		}
	}
	if len(members) > len(cols) {
		w.ps.Add(source.Problem{Pos: members[len(cols)].Pos(), Width: len(members[len(cols)].Text),
			Message: count(len(members), "value") + " for `" + name + "`", Expected: "at most " + count(len(cols), "value")})
		return nil
	}
	out := Input{Name: name, Ref: g.Ref, Pos: g.Pos()}
	for i, m := range members { // a copy, since the file is not ours to change
		m.From, m.Ref = cmp.Or(m.From, g.From), cmp.Or(m.Ref, g.Ref)
		in, ok := w.one(cols[i], &m, grid, worseOf(cols[i]))
		if !ok {
			return nil
		}
		out.join(in)
	}
	return []Input{out}
}

// join adds a member to a list.
func (in *Input) join(m Input) {
	in.List = append(in.List, m.Value)
	in.Members = append(in.Members, m)
	in.Terms = append(in.Terms, m.Terms...)
	in.Origin = weaker(in.Origin, m.Origin)
	if m.Text != "" {
		in.Text = strings.TrimPrefix(in.Text+", "+m.Text, ", ")
	}
}

// ends makes two inputs of a range; one value stands for both ends, and its
// tolerance makes it a range.
func (w *work) ends(cols [2]*sheet.Column, e *source.Entry[file.Given], grid func(string) string) []Input {
	g := &e.Value
	var out []Input
	for i, worse := range []string{Down, Up} {
		if g.Range == nil {
			in, ok := w.one(cols[i], g, grid, worse)
			if !ok {
				return nil
			}
			in.wider = true
			out = append(out, in)
			continue
		}
		in := Input{Name: cols[i].Name, Pos: g.Pos(), Ref: g.Ref, Typed: typedOrigin(g), worse: worse, wider: true}
		w.sum(&in, cols[i], []file.Term{{Quantity: g.Range[i], Pos: g.Pos(), Width: len([]rune(g.Text))}}, grid)
		out = append(out, in)
	}
	return out
}

// set puts the inputs of a check into a row of values.
func (c *Check) set(vals []expr.Value) {
	for i := range c.Inputs {
		in := &c.Inputs[i]
		for j := range in.Members {
			vals[c.Sheet.Column(in.Members[j].Name).Slot] = in.Members[j].Value
		}
		if in.Members == nil {
			vals[c.Sheet.Column(in.Name).Slot] = in.Value
		}
	}
}

// unresolved says which inputs lead to no value though something was written:
// an amount that looks up a stopping grid where there is no check to choose the point.
func (c *Check) unresolved() {
	if len(c.lacks) > 0 {
		return
	}
	for i := range c.Inputs {
		if in := &c.Inputs[i]; !in.Value.Given() && in.Members == nil {
			c.lacks = append(c.lacks, userName(c.Sheet.Column(in.Name))+" rests on a stopping grid, which only an input of a check can look up")
		}
	}
}

// TakesNothing is why a check that would hold without a result that it takes does not.
const TakesNothing = "a result of another check that it takes is not given"

// evaluate works the check out. Where an input leads to no value it never holds,
// even where the sheet could do without.
func (c *Check) evaluate() {
	vals := c.Sheet.Blank()
	c.set(vals)
	c.unresolved()
	o := c.Sheet.Evaluate(vals)
	if o.Verdict.Holds() && len(c.lacks) > 0 {
		o.Verdict, o.Why = sheet.NotDecided, TakesNothing
		vals[c.Sheet.Column("verdict").Slot], vals[c.Sheet.Column("why").Slot] = text(string(o.Verdict)), text(o.Why)
	}
	c.Outcome, c.Verdict, c.Why = &o, o.Verdict, o.Why
	if c.Verdict == sheet.NotDecided && len(c.lacks) > 0 {
		c.Why = strings.Join(c.lacks, "; ")
	}
}

// typedOrigin is the origin of numbers typed into a check; none given means assumed.
func typedOrigin(g *file.Given) string {
	if g.From == "" {
		return file.Assumed
	}
	return g.From
}

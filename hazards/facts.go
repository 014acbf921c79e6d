package hazards

import (
	"cmp"
	"math/big"
	"slices"
	"strings"

	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/source"
)

// exact is a fact as an exact quantity.
type exact struct {
	fact    int // index into Result.Facts
	value   quantity.Quantity
	used    quantity.Quantity // the worse end where one is known, without tolerance
	ok      bool              // it has a value
	origin  string            // the weakest it comes from
	ref     string            // where it is written, of a single value
	doubts  []string          // paths of the assumed values it comes from
	ends    ends              // at which ends tolerances of what it adds up count here
	visited bool
}

// originRank puts origins in order, weakest first; that a value out of a data
// sheet is weaker than one out of a standard is common practice, no source.
var originRank = []string{file.Assumed, file.Datasheet, file.Standard, file.Measured, file.Configuration}

func weaker(a, b string) string {
	if a == "" {
		return b
	}
	for _, o := range originRank {
		if a == o || b == o {
			return o
		}
	}
	return a
}

// facts lists the values of the cell in the order of the file.
func (w *work) facts() {
	words, entries := w.wordFacts(), w.ix.Entries()
	w.r.Facts = make([]Fact, 0, len(entries)+len(words))
	for _, e := range entries {
		for len(words) > 0 && before(words[0].Pos, e.Pos) {
			w.r.Facts, words = append(w.r.Facts, words[0]), words[1:]
		}
		w.r.Facts = append(w.r.Facts, Fact{Path: e.Path, Item: e.Item, Kind: e.Kind, Key: e.Key, Means: e.Means,
			Unit: e.Unit.Name, Origin: e.Origin, Ref: e.Ref, Pos: e.Pos})
	}
	w.r.Facts = append(w.r.Facts, words...)
	w.known = make(map[string]*exact, len(w.r.Facts))
	for i := range w.r.Facts {
		path := w.r.Facts[i].Path
		w.known[path] = &exact{fact: i}
		w.r.facts[path] = i
	}
	for _, e := range w.ix.Entries() {
		w.resolve(e.Path)
	}
}

func before(p, q source.Pos) bool { return p.Line < q.Line || p.Line == q.Line && p.Col < q.Col }

// wordFacts are the values of the cell that are words: edges.
func (w *work) wordFacts() []Fact {
	var list []Fact
	add := func(item, kind, word string, at source.Item) {
		if word != "" {
			list = append(list, Fact{Path: item + ".edges", Item: item, Kind: kind, Key: "edges",
				Means: "worst edge that can touch a person", Value: text(word), Used: text(word), Exact: word, Pos: at.At("edges")})
		}
	}
	for i := range w.a.Cell.Tools {
		t := &w.a.Cell.Tools[i]
		add(t.ID, "tool", t.Edges, t.Item)
	}
	for i := range w.a.Cell.Parts {
		p := &w.a.Cell.Parts[i]
		add(p.ID, "part", p.Edges, p.Item)
	}
	slices.SortFunc(list, func(a, b Fact) int {
		return cmp.Or(cmp.Compare(a.Pos.Line, b.Pos.Line), cmp.Compare(a.Pos.Col, b.Pos.Col))
	})
	return list
}

// resolve works out a fact and what it comes from; paths that lead on are
// followed. Loading has refused circles.
func (w *work) resolve(path string) *exact {
	x := w.known[path]
	e, ok := w.ix.Entry(path)
	if x == nil || !ok || x.visited {
		return x
	}
	x.visited = true
	f := &w.r.Facts[x.fact]
	x.ok = len(e.Amount.Terms) > 0
	for i, t := range e.Amount.Terms {
		value, used, ok := w.term(x, t, e)
		if !ok {
			x.ok = false
			continue
		}
		if i == 0 {
			x.value, x.used = value, used
		} else if x.value, x.used, ok = add(x.value, x.used, value, used); !ok {
			x.ok = false
		}
		if t.Path != "" {
			f.Terms = append(f.Terms, Term{Path: t.Path, Factor: factor(w.unitOf(t.Path), e.Unit)})
		} else if len(e.Amount.Terms) > 1 {
			f.Terms = append(f.Terms, literal(t.Quantity, e.Unit))
		}
	}
	if worse := cmp.Or(e.Worse, x.ends.direction()); x.ok && worse != "" {
		x.used = endOf(x.value, worse)
		if loose(x.value) {
			x.ends = ends{up: worse == Up, down: worse == Down}
		}
	}
	if len(e.Amount.Terms) > 1 {
		x.ref = ""
	}
	w.describe(f, x, e)
	return x
}

// term gives one term of a fact and notes where it comes from.
func (w *work) term(x *exact, t file.Term, e *file.Entry) (value, used quantity.Quantity, ok bool) {
	if t.Path == "" {
		x.origin, x.ref = weaker(x.origin, e.Origin), e.Ref
		if e.Origin == file.Assumed {
			x.doubts = addOnce(x.doubts, e.Path)
		}
		return t.Quantity, endOf(t.Quantity, e.Worse), true
	}
	y := w.resolve(t.Path)
	if y == nil || !y.ok {
		return value, used, false // a look-up in a stopping grid, whose value depends on the check
	}
	x.origin, x.ref = weaker(x.origin, y.origin), y.ref
	x.ends.join(y.ends)
	for _, d := range y.doubts {
		x.doubts = addOnce(x.doubts, d)
	}
	return y.value, y.used, true
}

func (w *work) describe(f *Fact, x *exact, e *file.Entry) {
	f.Worse = e.Worse
	if !x.ok {
		return
	}
	f.Origin = x.origin
	f.Value, f.Used, f.Exact = number(in(x.value, e.Unit)), number(in(x.used, e.Unit)), x.value.Canonical()
	f.Low, f.High = number(in(x.value.Low(), e.Unit)), number(in(x.value.High(), e.Unit))
	if x.value.Tol != nil {
		f.HasTol, f.Tol = true, in(quantity.Quantity{Num: x.value.Tol, Unit: x.value.Unit}, e.Unit)
	}
	if f.Worse == "" { // what it leads to says
		f.Worse = x.ends.direction()
	}
}

func (w *work) unitOf(path string) quantity.Unit {
	if e, ok := w.ix.Entry(path); ok {
		return e.Unit
	}
	return quantity.One
}

func add(value, used, v, u quantity.Quantity) (quantity.Quantity, quantity.Quantity, bool) {
	sum, err := value.Add(v)
	if err != nil {
		return value, used, false
	}
	worse, err := used.Add(u)
	return sum, worse, err == nil
}

// in gives a quantity in a unit of the same dimension.
func in(q quantity.Quantity, u quantity.Unit) float64 {
	if q.Unit.Name == u.Name && q.Unit.Dim == u.Dim { // the common case needs no exact arithmetic
		v, _ := q.Num.Float64()
		return v
	}
	v, _ := q.In(u)
	return v
}

// factor turns a value in one unit into one in another of the same dimension.
func factor(from, to quantity.Unit) float64 {
	if from.Name == to.Name && from.Dim == to.Dim {
		return 1
	}
	f, _ := new(big.Rat).Quo(from.Scale, to.Scale).Float64()
	return f
}

func number(v float64) expr.Value { return expr.Value{Kind: expr.Number, Num: v} }
func text(s string) expr.Value    { return expr.Value{Kind: expr.Text, Text: s} }

// shown is the value in its unit, as a reader expects it.
func (f *Fact) shown() string {
	if f.Value.Kind != expr.Number {
		return f.Value.Text
	}
	return strings.TrimSpace(quantity.Format(f.Value.Num, 9) + " " + f.Unit)
}

package sheet

import "standclear/limits/expr"

// guarded is a fitted expression that is absent as soon as anything it needs
// is, whatever its operators would make of it. Go and spreadsheet share this
// one rule, since AND and OR of a spreadsheet look at both sides.
type guarded struct {
	f     *expr.Fitted
	prog  func([]expr.Value) expr.Value
	needs []int    // slots that must be given
	lists [][2]int // first slot and length, of which one must be given
	names []string // names behind needs
	all   []string // names behind lists
}

func newGuarded(s *Sheet, f *expr.Fitted) *guarded {
	g := &guarded{f: f, prog: f.Compile(s.slot)}
	for _, name := range f.Needs() {
		if c := s.byName[name]; c != nil && c.Role == Constant {
			continue // always there
		}
		first, n := s.slot(name)
		if _, list := s.Lists[name]; list {
			g.lists = append(g.lists, [2]int{first, n})
			g.all = append(g.all, name)
			continue
		}
		g.needs = append(g.needs, first)
		g.names = append(g.names, name)
	}
	return g
}

// missing tells whether something needed is absent.
func (g *guarded) missing(vals []expr.Value) bool {
	for _, i := range g.needs {
		if vals[i].Kind == 0 {
			return true
		}
	}
	for _, l := range g.lists {
		if noneGiven(vals[l[0] : l[0]+l[1]]) {
			return true
		}
	}
	return false
}

func noneGiven(vals []expr.Value) bool {
	for i := range vals {
		if vals[i].Kind != 0 {
			return false
		}
	}
	return true
}

// value evaluates, absent when something is missing.
func (g *guarded) value(vals []expr.Value) expr.Value {
	if g.missing(vals) {
		return expr.Value{}
	}
	return g.prog(vals)
}

// is tells whether the expression is true; absent counts as no.
func (g *guarded) is(vals []expr.Value) bool { return g.value(vals).Bool }

// absence lists conditions, joined by comma, of which one means missing.
func (g *guarded) absence(s *Sheet) []Piece {
	var out []Piece
	for _, n := range g.names {
		out = append(out, comma(out), self(n), lit(`=""`))
	}
	for _, l := range g.all {
		out = append(out, comma(out), lit("AND("))
		for i, m := range s.Lists[l] {
			if i > 0 {
				out = append(out, lit(","))
			}
			out = append(out, self(m.Name), lit(`=""`))
		}
		out = append(out, lit(")"))
	}
	return trim(out)
}

// formula gives IF(something missing, otherwise, expression).
func (g *guarded) formula(s *Sheet, otherwise string) []Piece {
	abs := g.absence(s)
	body := pieces(s, g.f.Formula())
	if len(abs) == 0 {
		return body
	}
	return join(lit("IF("), or(abs), lit(","+otherwise+","), body, lit(")"))
}

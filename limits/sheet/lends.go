package sheet

import "standclear/limits/expr"

// Lends tells whether the results of a row may be taken by another calculation:
// they are worked out in full, and within what the method covers. That they are
// more than what is available, or that what they are held against is not stated,
// takes nothing from the numbers. Every other rule that speaks does: an answer
// that is missing may make a result too small, and what is outside is no result.
// All rules are asked, not only the first that speaks; because says which does.
func (s *Sheet) Lends(vals []expr.Value) (ok bool, because string) {
	for _, r := range s.spoils {
		if r.test(vals) {
			return false, r.because
		}
	}
	return true, ""
}

// LendsFormula is Lends as a spreadsheet formula, 1 for yes and 0 for no.
func (s *Sheet) LendsFormula() []Piece {
	var conds []Piece
	for _, r := range s.spoils {
		conds = join(conds, comma(conds), lit("("), noError(r.formula, "FALSE()"), lit(")=TRUE()"))
	}
	if conds == nil {
		return []Piece{lit("1")}
	}
	return join(lit("IFERROR(IF("), or(trim(conds)), lit(",0,1),0)"))
}

// spoiling lists the rules after which results are not to be taken.
func (s *Sheet) spoiling() []*rule {
	var out []*rule
	criteria := s.criteria()
	for _, r := range s.rules {
		if !r.weighs && !(r.verdict == NotDecided && r.only(criteria)) {
			out = append(out, r)
		}
	}
	return out
}

// only tells whether a rule looks at nothing but the names.
func (r *rule) only(names map[string]bool) bool {
	for _, p := range r.formula {
		if p.Ref.Kind != 0 && (p.Ref.Kind != Self || !names[p.Ref.Name]) {
			return false
		}
	}
	return true
}

// criteria are the inputs that results are held against and that no result is
// worked out from, such as what is available or required.
func (s *Sheet) criteria() map[string]bool {
	against, behind := map[*Column]bool{}, map[*Column]bool{}
	for _, r := range s.rules {
		if r.weighs {
			for _, p := range r.formula {
				s.trace(p.Ref.Name, against)
			}
		}
	}
	for _, c := range s.Results {
		s.trace(c.Name, behind)
	}
	out := map[string]bool{}
	for c := range against {
		if (c.Role == Input || c.Role == Override) && !behind[c] {
			out[c.Name] = true
		}
	}
	return out
}

// trace notes a column, or all of a list or range, and what it is worked out from.
func (s *Sheet) trace(name string, seen map[*Column]bool) {
	columns := s.Lists[name]
	if r, ok := s.Ranges[name]; ok {
		columns = r[:]
	} else if c := s.byName[name]; c != nil {
		columns = []*Column{c}
	}
	for _, c := range columns {
		if seen[c] {
			continue
		}
		seen[c] = true
		for _, n := range c.needs() {
			s.trace(n, seen)
		}
		if c.step != nil && c.step.given != nil {
			s.trace(c.step.given.Name, seen)
		}
	}
}

// Result finds a result by the symbol or the name of its column, nil when there
// is none.
func (s *Sheet) Result(name string) *Column {
	for _, c := range s.Results {
		if c.Symbol == name {
			return c
		}
	}
	for _, c := range s.Results {
		if c.Name == name {
			return c
		}
	}
	return nil
}

// ResultNames lists the symbols of the results.
func (s *Sheet) ResultNames() []string {
	var out []string
	for _, c := range s.Results {
		out = append(out, c.Symbol)
	}
	return out
}

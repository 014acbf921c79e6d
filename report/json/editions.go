package json

import (
	"standclear/hazards"
	"standclear/limits/expr"
)

// editions lists the checks by the other editions of their sheets. difference is
// by how much the distance of this edition is greater than the one that counts.
func editions(r *hazards.Result) []object {
	out := []object{}
	for i := range r.OtherEditions {
		c := &r.OtherEditions[i]
		o := object{
			{"id", c.Of}, {"sheet", c.Sheet.ID}, {"edition", c.Sheet.Standard.Edition}, {"verdict", c.Verdict}, {"why", c.Why},
			{"results", results(c.Outcome)}, {"difference", difference(c, r.Check(c.Of))}, {"in_full", c.Lends()},
			{"not_public", list(c.Sheet.ToCopy(c.Outcome.Values))}, {"ignored", list(c.Ignored)},
		}
		out = append(out, o)
	}
	return out
}

// difference is absent where one of both has no result, or no such result.
func difference(c, counts *hazards.Check) any {
	p := hazards.Pair{First: counts, Second: c}
	col, v := p.Difference()
	if v.Kind != expr.Number {
		return nil
	}
	return value(v.Num, col)
}

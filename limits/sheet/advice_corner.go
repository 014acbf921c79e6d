package sheet

import (
	"slices"

	"standclear/limits/expr"
)

// AdviceAt is AdviceOn for one calculation, at the worst corner of its tolerances.
func AdviceAt(k *Corner) []Answer {
	return AdviceOn([]Case{{Sheet: k.Sheet, Values: k.Values, Loose: k.Loose}})
}

// mostTurns is how often a corner that is worse at an answer than the one it was
// solved at is taken in.
const mostTurns = 16

// cornered solves, and where another corner is the worse one at the answer, takes
// that corner in and solves again.
func cornered(cases []Case, name string) (Answer, bool) {
	all := slices.Clone(cases)
	for range mostTurns {
		a, ok := SolveAll(all, name)
		if !ok {
			return a, false
		}
		worse := worseCorners(cases, &a)
		if len(worse) == 0 {
			return a, true
		}
		all = append(all, worse...)
	}
	return Answer{}, false
}

// worseCorners are the corners at which an answer does not hold, with the present
// value of its input.
func worseCorners(cases []Case, a *Answer) (out []Case) {
	said := []float64{a.Value}
	if a.Ends {
		said = append(said, a.Until)
	}
	for _, k := range cases {
		c := k.Sheet.byName[a.Column.Name]
		others := slices.DeleteFunc(slices.Clone(k.Loose), func(l Loose) bool { return l.Column == c })
		if len(others) == 0 {
			continue // tried when it was solved
		}
		for _, x := range said {
			row := slices.Clone(k.Values)
			if c != nil {
				row[c.Slot] = expr.Value{Kind: expr.Number, Num: x}
			}
			worst := k.Sheet.Worst(row, others)
			if worst.Verdict.Holds() {
				continue
			}
			vals := slices.Clone(worst.Values)
			if c != nil {
				vals[c.Slot] = k.Values[c.Slot]
			}
			out = append(out, Case{Sheet: k.Sheet, Values: vals})
		}
	}
	return out
}

// Includes tells whether a tolerance of the input is in an answer for it.
func (k *Corner) Includes(a *Answer) bool {
	return slices.ContainsFunc(k.Loose, func(l Loose) bool { return l.Column.Name == a.Column.Name })
}

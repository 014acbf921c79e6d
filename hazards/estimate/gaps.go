package estimate

import (
	"strings"

	"standclear/limits/expr"
)

// maxCombinations is how many sets of scores Gaps looks at.
const maxCombinations = 20_000

// Gaps says which scores lead to no level, or to one that no action is named
// for; each level once.
func (m *Method) Gaps() []string {
	var out []string
	said := map[string]bool{}
	scores := make([]expr.Value, len(m.Factors))
	left := maxCombinations
	var each func(i int)
	each = func(i int) {
		if left <= 0 {
			return
		}
		if i < len(m.Factors) {
			for _, s := range m.Factors[i].Scores {
				scores[i], _ = m.Factors[i].Read(s.Score)
				each(i + 1)
			}
			return
		}
		left--
		o := m.Evaluate(scores)
		if o.Done || said[o.Level] {
			return
		}
		said[o.Level] = true
		what := "leads to no level: " + o.Sheet.Why
		if o.Level != "" && o.Action == "" {
			what = "leads to level `" + o.Level + "`, which `actions` does not name"
		}
		out = append(out, m.written(scores)+" "+what)
	}
	each(0)
	return out
}

// written lists scores as a user writes them.
func (m *Method) written(scores []expr.Value) string {
	parts := make([]string, len(scores))
	for i, v := range scores {
		parts[i] = m.Factors[i].ID + " " + m.Sheet.Column(m.Factors[i].ID).Show(v)
	}
	return strings.Join(parts, ", ")
}

package json

import (
	"io"

	"standclear/hazards"
	"standclear/hazards/estimate"
	"standclear/limits/sheet"
)

// Estimate writes one estimate by a method. scores are by factor.
func Estimate(w io.Writer, m *estimate.Method, o *estimate.Outcome) error {
	scores, settings := object{}, object{}
	for i := range m.Factors {
		id := m.Factors[i].ID
		scores = append(scores, member{id, plain(o.Sheet.Value(id))})
	}
	for _, s := range m.Settings {
		settings = append(settings, member{s.ID, s.Value})
	}
	means := ""
	if a := m.Asks(o.Level); a != nil {
		means = a.Means
	}
	return encode(w, object{
		{"method", m.ID},
		{"score", score(&o.Sheet)},
		{"level", o.Level},
		{"action", o.Action},
		{"means", means},
		{"scores", scores},
		{"settings", settings},
		{"standard", m.Standard},
		{"clause", m.Clause},
		{"standing", m.Standing},
	})
}

// rowEstimate is the estimate of a hazard row.
func rowEstimate(e hazards.Estimate) object {
	if !e.Done {
		return object{{"score", nil}, {"level", nil}}
	}
	return object{{"score", score(e.Outcome)}, {"level", e.Level}, {"action", e.Action}}
}

// score is null where the method has none, only a level.
func score(o *sheet.Outcome) any { return plain(o.Value("score")) }

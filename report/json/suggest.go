package json

import (
	"io"

	"standclear/hazards"
	"standclear/hazards/identify"
)

// Suggest writes the entries of the catalogue that apply; without all only those
// that are open.
func Suggest(w io.Writer, r *hazards.Result, all bool) error {
	out := []object{}
	for i := range r.Hazards {
		if s := &r.Hazards[i]; all || !s.Answered() {
			out = append(out, suggestion(s))
		}
	}
	return encode(w, out)
}

func suggestion(s *identify.Suggestion) object {
	e := s.Entry
	return object{{"entry", e.ID}, {"family", e.Family}, {"tasks", e.Tasks}, {"why", s.Why()}, {"answered", s.Answered()},
		{"refs", list(e.Refs)}, {"rows", list(s.Rows())}, {"set_aside", s.Aside()}, {"near", s.Near()}, {"situation", e.Situation}, {"event", e.Event}, {"harm", e.Harm}}
}

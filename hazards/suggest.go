package hazards

import (
	"standclear/hazards/identify"
	"standclear/limits/expr"
)

// suggest finds the entries of the catalogue that apply to the cell.
func (w *work) suggest(c *identify.Catalogue) {
	w.r.Hazards = c.Suggest(w.a, func(path string) expr.Value {
		if f := w.r.Fact(path); f != nil {
			return f.Value
		}
		return expr.Value{}
	})
}

// OpenHazards are the entries of the catalogue that apply and are not answered,
// neither by a row nor by a reason.
func (r *Result) OpenHazards() []*identify.Suggestion {
	var list []*identify.Suggestion
	for i := range r.Hazards {
		if s := &r.Hazards[i]; !s.Answered() {
			list = append(list, s)
		}
	}
	return list
}

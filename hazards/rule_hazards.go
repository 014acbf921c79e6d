package hazards

import (
	"slices"
	"strconv"

	"standclear/hazards/identify"
	"standclear/limits/quantity"
)

// coverage: a row answers what its situation and event speak of.
func (f *finder) coverage() {
	most := f.w.value("LI-08", "most")
	for i := range f.r.Rows {
		if spec := f.r.Rows[i].Spec; float64(len(spec.Covers)) > most {
			f.raise("LI-08", spec.ID, spec.At("covers"), "row", spec.ID, "count", strconv.Itoa(len(spec.Covers)), "most", quantity.Format(most, 3))
		}
	}
}

// setAside: what is set aside applies to what it names, no row answers it, and
// there is a reason.
func (f *finder) setAside() {
	for i := range f.r.File.NotApplicable {
		n := &f.r.File.NotApplicable[i]
		if !reasoned(n.Because) {
			f.raise("LI-07", n.Entry, n.At("because"), "entry", n.Entry, "what", "set aside without a reason in words")
		}
		j := slices.IndexFunc(f.r.Hazards, func(s identify.Suggestion) bool { return s.Entry.ID == n.Entry })
		if j < 0 {
			continue // nothing in the cell asks for it
		}
		var rows, idle []string
		witnesses := f.r.Hazards[j].Witnesses
		for _, w := range witnesses {
			loose := has([]string{"safeguards", "functions", "spaces"}, w.Collection) // rows do not name which of them they answer
			if len(n.Of) == 0 && w.Collection == "cell" || has(n.Of, w.ID) && !loose {
				for _, id := range w.Rows {
					rows = addOnce(rows, id)
				}
			}
		}
		for _, id := range n.Of {
			if !slices.ContainsFunc(witnesses, func(w identify.Witness) bool { return w.ID == id }) {
				idle = append(idle, id)
			}
		}
		if rows != nil {
			f.raise("LI-07", n.Entry, n.At("entry"), "entry", n.Entry, "what", "set aside and answered by "+few(rows))
		}
		if idle != nil {
			f.raise("LI-07", n.Entry, n.At("of"), "entry", n.Entry, "what", "set aside for "+few(idle)+", to which it does not apply")
		}
	}
}

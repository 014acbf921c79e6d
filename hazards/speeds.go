package hazards

import "standclear/limits/sheet"

// MeasuredSpeed is a speed at which a contact of a released task was measured
// within the limits.
type MeasuredSpeed struct {
	Task, Contact, Point string
	Speed                float64 // mm/s, the least that can have been
}

// speeds lists the measured speeds of released tasks. A task is released when
// every contact of it is measured within the limits, jaws among them, and every
// row of it is reduced or accepted. Jaws have no speed to list.
func (w *work) speeds() {
	released := map[string]bool{}
	for i := range w.r.Contacts {
		released[w.r.Contacts[i].Task] = true
	}
	for i := range w.r.Contacts {
		if c := &w.r.Contacts[i]; c.Verdict != sheet.WithinMeasured {
			released[c.Task] = false
		}
	}
	for i := range w.r.Rows {
		if s := w.r.Rows[i].Status; s != RowReduced && s != RowAccepted {
			released[w.r.Rows[i].Task] = false
		}
	}
	for i := range w.r.Contacts {
		if c := &w.r.Contacts[i]; released[c.Task] && c.Class != Jaws {
			w.speedsOf(c)
		}
	}
}

// speedsOf lists the points that cover checks of a contact, in the order of the file.
func (w *work) speedsOf(c *Contact) {
	covers := map[string]bool{}
	for _, j := range c.Checks {
		for _, id := range w.r.Checks[j].Points {
			covers[id] = true
		}
	}
	for i := range w.a.Validation {
		if p := &w.a.Validation[i]; covers[p.ID] {
			if v := ProofMeasured(w.r, p).Speed; v > 0 {
				w.r.Speeds = append(w.r.Speeds, MeasuredSpeed{c.Task, c.ID, p.ID, v})
			}
		}
	}
}

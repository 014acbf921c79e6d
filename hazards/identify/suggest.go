package identify

import (
	"slices"
	"strings"

	"standclear/hazards/file"
	"standclear/limits/expr"
)

// Suggestion is an entry that applies to a cell.
type Suggestion struct {
	Entry     *Entry
	Witnesses []Witness
}

// Witness is something in the cell because of which an entry applies.
type Witness struct {
	Collection string
	ID         string // "" for the cell as a whole
	Why        string
	Rows       []string // ids of the rows that answer it
	NotHere    string   // why it does not apply, where the file says so
	Near       string   // a row that covers the entry and does not answer it, and why
	Task       string   // id of the first task whose row would answer it, where it is open
}

// Answered says whether a row or a reason answers the witness.
func (w *Witness) Answered() bool { return len(w.Rows) > 0 || w.NotHere != "" }

// Answered says whether every witness is answered.
func (s *Suggestion) Answered() bool {
	return !slices.ContainsFunc(s.Witnesses, func(w Witness) bool { return !w.Answered() })
}

// NotApplicable says whether the file sets the entry aside for every witness.
func (s *Suggestion) NotApplicable() bool {
	return !slices.ContainsFunc(s.Witnesses, func(w Witness) bool { return w.NotHere == "" })
}

// gather collects texts of the witnesses, each once.
func (s *Suggestion) gather(texts func(w *Witness) []string) []string {
	var list []string
	seen := map[string]bool{}
	for i := range s.Witnesses {
		for _, text := range texts(&s.Witnesses[i]) {
			if text != "" && !seen[text] {
				seen[text] = true
				list = append(list, text)
			}
		}
	}
	return list
}

// Aside gives the reasons for which the entry is set aside.
func (s *Suggestion) Aside() string {
	return strings.Join(s.gather(func(w *Witness) []string { return []string{w.NotHere} }), "; ")
}

// Rows are the ids of the rows that answer any witness.
func (s *Suggestion) Rows() []string {
	return s.gather(func(w *Witness) []string { return w.Rows })
}

// Why gives the reasons of all witnesses; of those that are open, when there are any.
func (s *Suggestion) Why() string {
	answered := s.Answered()
	return strings.Join(s.gather(func(w *Witness) []string {
		if !answered && w.Answered() {
			return nil
		}
		return []string{w.Why}
	}), "; ")
}

// Near gives what is near an answer and is none, "" when there is nothing.
func (s *Suggestion) Near() string {
	return strings.Join(s.gather(func(w *Witness) []string {
		if w.Answered() {
			return nil
		}
		return []string{w.Near}
	}), "; ")
}

// Suggest lists the entries that apply to a cell, in the order of the catalogue.
// value gives a quantity of the file by path, in the unit of its key.
func (c *Catalogue) Suggest(a *file.Assessment, value func(path string) expr.Value) []Suggestion {
	laid := layOut(a, value)
	answers := answersOf(a)
	var list []Suggestion
	for _, e := range c.Entries {
		if s := e.suggest(laid, answers); len(s.Witnesses) > 0 {
			list = append(list, s)
		}
	}
	return list
}

func (e *Entry) suggest(laid *cell, answers *answers) Suggestion {
	s := Suggestion{Entry: e}
	seen := map[string]bool{}
	for _, r := range e.Rules {
		laid.values(r.Each, func(t *thing, values []expr.Value) {
			if seen[r.Each+t.id] || !r.applies(values) {
				return
			}
			seen[r.Each+t.id] = true
			w := Witness{Collection: r.Each, ID: t.id, Why: r.why(t.id, values)}
			answers.answer(e, &w)
			s.Witnesses = append(s.Witnesses, w)
		})
	}
	return s
}

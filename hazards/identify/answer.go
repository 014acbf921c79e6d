package identify

import (
	"slices"
	"strings"

	"standclear/hazards/file"
)

// answers is what an assessment says about the entries of the catalogue.
type answers struct {
	a       *file.Assessment
	rows    map[string][]*file.Hazard // by entry
	aside   map[string][]*file.NotApplicable
	tasks   map[string]*file.Task
	contact map[string]*file.Contact
}

func answersOf(a *file.Assessment) *answers {
	x := &answers{a: a, rows: map[string][]*file.Hazard{}, aside: map[string][]*file.NotApplicable{},
		tasks: map[string]*file.Task{}, contact: map[string]*file.Contact{}}
	for i := range a.Tasks {
		x.tasks[a.Tasks[i].ID] = &a.Tasks[i]
	}
	for i := range a.Contacts {
		x.contact[a.Contacts[i].ID] = &a.Contacts[i]
	}
	for i := range a.Hazards {
		for _, entry := range a.Hazards[i].Covers {
			x.rows[entry] = append(x.rows[entry], &a.Hazards[i])
		}
	}
	for i := range a.NotApplicable {
		n := &a.NotApplicable[i]
		x.aside[n.Entry] = append(x.aside[n.Entry], n)
	}
	return x
}

// answer finds the rows and reasons that answer a witness.
func (x *answers) answer(e *Entry, w *Witness) {
	for _, n := range x.aside[e.ID] {
		if len(n.Of) == 0 || slices.Contains(n.Of, w.ID) {
			w.NotHere = n.Because
		}
	}
	for _, row := range x.rows[e.ID] {
		switch {
		case !x.fits(row, e):
			w.Near = row.ID + " covers it and belongs to a task of kind " + x.tasks[row.Task].Kind +
				", not of " + strings.Join(e.Tasks, ", ")
		case !x.about(row, w):
			w.Near = row.ID + " covers it and is not about " + w.ID
		default:
			w.Rows = append(w.Rows, row.ID)
		}
	}
	if !w.Answered() {
		w.Task = x.taskFor(e, w)
	}
}

// taskFor finds a task whose row would answer a witness, "" when there is none.
func (x *answers) taskFor(e *Entry, w *Witness) string {
	for i := range x.a.Tasks {
		row := &file.Hazard{Task: x.a.Tasks[i].ID}
		if x.fits(row, e) && x.about(row, w) {
			return row.Task
		}
	}
	return ""
}

// fits says whether a row belongs to a kind of task in which the entry happens.
// A row by place and people fits every one.
func (x *answers) fits(row *file.Hazard, e *Entry) bool {
	t := x.tasks[row.Task]
	return t == nil || slices.Contains(e.Tasks, t.Kind)
}

// about says whether a row is about a witness: its task uses it, or names
// nothing of its sort. A row by place is about everything there.
func (x *answers) about(row *file.Hazard, w *Witness) bool {
	t := x.tasks[row.Task]
	uses := func(ids []string) bool { return len(ids) == 0 || slices.Contains(ids, w.ID) }
	switch w.Collection {
	case "people":
		if row.Where != nil {
			return slices.Contains(row.Where.People, w.ID)
		}
		return t != nil && slices.Contains(t.People, w.ID)
	case "spaces":
		return row.Where == nil || row.Where.Space == w.ID
	case "tasks":
		return row.Task == w.ID
	case "contacts":
		return row.Task == x.contact[w.ID].Task
	}
	if t == nil {
		return true
	}
	switch w.Collection {
	case "robots":
		return uses(t.Robots)
	case "machines":
		return uses(t.Machines)
	case "tools":
		return uses(t.Tools)
	case "parts":
		return uses(t.Parts)
	case "modes":
		return t.Mode == "" || t.Mode == w.ID
	case "settings":
		return t.Setting == "" || strings.HasSuffix(t.Setting, "."+w.ID)
	}
	return true
}

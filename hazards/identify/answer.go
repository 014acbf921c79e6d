package identify

import (
	"slices"
	"strings"

	"standclear/hazards/file"
)

// answers is what an assessment says about the entries of the catalogue.
type answers struct {
	rows   map[string][]*file.Hazard // by entry
	aside  map[string][]*file.NotApplicable
	tasks  map[string]*file.Task   // by id
	kinds  map[string][]*file.Task // by kind
	users  map[string][]*file.Task // by the id of what they name
	robots int
}

func answersOf(a *file.Assessment) *answers {
	x := &answers{rows: map[string][]*file.Hazard{}, aside: map[string][]*file.NotApplicable{},
		tasks: map[string]*file.Task{}, kinds: map[string][]*file.Task{}, users: map[string][]*file.Task{}, robots: len(a.Cell.Robots)}
	for i := range a.Tasks {
		t := &a.Tasks[i]
		x.tasks[t.ID] = t
		x.kinds[t.Kind] = append(x.kinds[t.Kind], t)
		for _, id := range slices.Concat([]string{t.ID}, t.People, t.Robots, t.Machines, t.Tools, t.Parts) {
			x.users[id] = append(x.users[id], t)
		}
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

// answer finds the rows and reasons that answer a witness. A reason that names
// nothing sets aside what is asked of the cell as a whole, so that a part or tool
// that is added later is asked about.
func (x *answers) answer(e *Entry, w *Witness) {
	var reasons []string
	for _, n := range x.aside[e.ID] {
		switch {
		case slices.Contains(n.Of, w.ID), len(n.Of) == 0 && w.Collection == "cell":
			reasons = append(reasons, n.Because)
		case len(n.Of) == 0:
			w.Near = "set aside without naming " + w.ID + " under `of`"
		}
	}
	w.NotHere = strings.Join(reasons, "; ")
	for _, row := range x.rows[e.ID] {
		t := x.tasks[row.Task]
		switch {
		case t != nil && !slices.Contains(e.Tasks, t.Kind):
			w.Near = row.ID + " covers it and belongs to a task of kind " + t.Kind + ", not of " + strings.Join(e.Tasks, ", ")
		case !x.about(row, t, w):
			w.Near = row.ID + " covers it and does not name " + w.ID
		default:
			w.Rows = append(w.Rows, row.ID)
		}
	}
	if !w.Answered() {
		w.Task = x.taskFor(e, w)
	}
}

// about says whether a row is about a witness. A row of a task is about what the
// task names, and about the only robot; what no task can name, such as a
// safeguard, it may be about. A row by place is about its people and what it
// names under `with`.
func (x *answers) about(row *file.Hazard, t *file.Task, w *Witness) bool {
	switch {
	case w.Collection == "spaces":
		return row.Where == nil || row.Where.Space == w.ID
	case w.Collection == "people" && row.Where != nil:
		return slices.Contains(row.Where.People, w.ID)
	case !named(w.Collection), w.Collection == "robots" && x.robots == 1:
		return true
	case t == nil:
		return row.Where != nil && slices.Contains(row.Where.With, w.ID)
	}
	return slices.Contains(x.users[w.ID], t)
}

// named says whether tasks name the things of a collection.
func named(collection string) bool {
	return slices.Contains([]string{"tasks", "people", "robots", "machines", "tools", "parts"}, collection)
}

// taskFor finds a task whose row would answer a witness, "" when there is none.
// Entries name first the kinds of task in which they happen most.
func (x *answers) taskFor(e *Entry, w *Witness) string {
	users := named(w.Collection) && !(w.Collection == "robots" && x.robots == 1)
	for _, kind := range e.Tasks {
		list := x.kinds[kind]
		if users {
			list = x.users[w.ID]
		}
		for _, t := range list {
			if t.Kind == kind {
				return t.ID
			}
		}
	}
	return ""
}

package hazards

import (
	"slices"

	"standclear/hazards/file"
	"standclear/limits/source"
)

// limits: the limits of use, foreseeable misuse, and everybody who is there.
func (f *finder) limits() {
	f.misuses()
	f.people()
	f.others()
	f.tasks()
	f.limitsOfUse()
	f.detached()
	f.setAside()
	f.coverage()
}

func (f *finder) misuses() {
	for i := range f.r.File.Limits.Use.Misuses {
		if m := &f.r.File.Limits.Use.Misuses[i]; len(m.AnsweredBy) == 0 {
			f.raise("LI-01", m.ID, positionOf(m.Item), "misuse", m.ID)
		}
	}
}

// detached: what does not hold is looked at in a row.
func (f *finder) detached() {
	rested := map[string]bool{}
	for i := range f.r.Rows {
		for _, id := range f.r.Rows[i].Rests {
			f.markRested(rested, id)
		}
	}
	for i := range f.r.Contacts {
		if c := &f.r.Contacts[i]; !c.Verdict.Holds() && !rested[c.ID] {
			f.raise("LI-04", c.ID, positionOf(c.Spec.Item), "check", c.ID, "verdict", string(c.Verdict))
		}
	}
	for i := range f.r.Checks {
		if c := &f.r.Checks[i]; f.r.Contact(c.Of) == nil && !c.Verdict.Holds() && !rested[c.ID] {
			f.raise("LI-04", c.ID, c.Pos, "check", c.ID, "verdict", string(c.Verdict))
		}
	}
}

// markRested notes what a row rests on, and the checks whose results that takes.
func (f *finder) markRested(rested map[string]bool, id string) {
	if rested[id] {
		return
	}
	rested[id] = true
	if c := f.r.Check(id); c != nil {
		for _, taken := range c.takenFrom() {
			f.markRested(rested, taken)
		}
	}
}

func (f *finder) people() {
	for i := range f.r.File.Cell.People {
		p := &f.r.File.Cell.People[i]
		named := false
		for j := range f.r.Rows {
			named = named || has(f.r.Rows[j].People, p.ID)
		}
		if !named {
			f.raise("LI-02", p.ID, positionOf(p.Item), "people", p.ID)
		}
	}
}

// others: not only operators come near a cell. A task says as well who cleans
// and who mends.
func (f *finder) others() {
	var missing []string
	for _, g := range f.w.groups("LI-05") {
		if !f.hasPeople(g.Value.People) && !f.hasTask(g.Value.Tasks) {
			missing = append(missing, g.Key)
		}
	}
	if missing != nil {
		f.raise("LI-05", "cell.people", f.r.File.Cell.KeyPos("people"), "what", and(missing))
	}
}

func (f *finder) hasPeople(kinds []string) bool {
	return slices.ContainsFunc(f.r.File.Cell.People, func(p file.People) bool { return has(kinds, p.Kind) })
}

func (f *finder) hasTask(kinds []string) bool {
	return slices.ContainsFunc(f.r.File.Tasks, func(t file.Task) bool { return has(kinds, t.Kind) })
}

// tasks: every task is looked at in a row.
func (f *finder) tasks() {
	for i := range f.r.File.Tasks {
		t := &f.r.File.Tasks[i]
		if !slices.ContainsFunc(f.r.Rows, func(row Row) bool { return row.Task == t.ID }) {
			f.raise("LI-06", t.ID, positionOf(t.Item), "task", t.ID)
		}
	}
}

// limitsOfUse: each part of ISO 12100 5.3 says something.
func (f *finder) limitsOfUse() {
	l := &f.r.File.Limits
	f.unsaid("use", l.Use.Item, "intended", l.Use.Intended != "", "misuses", len(l.Use.Misuses) > 0)
	f.unsaid("space", l.Space.Item, "reach", l.Space.Reach != "", "access", l.Space.Access != "", "paths", l.Space.Paths != "")
	f.unsaid("time", l.Time.Item, "life", l.Time.Life != "", "upkeep", len(l.Time.Upkeep) > 0)
	f.unsaid("other", l.Other.Item, "materials", l.Other.Materials != "", "cleaning", l.Other.Cleaning != "",
		"environment", l.Other.Environment != "")
}

// unsaid raises one finding for a section; keys holds keys and whether they say anything.
func (f *finder) unsaid(section string, at source.Item, keys ...any) {
	var missing []string
	for i := 0; i < len(keys); i += 2 {
		if !keys[i+1].(bool) {
			missing = append(missing, keys[i].(string))
		}
	}
	if missing == nil {
		return
	}
	pos := at.Pos()
	if pos.Line == 0 { // the section is not written
		pos = f.r.File.KeyPos("limits_of_use")
	}
	f.raise("LI-03", "limits_of_use."+section, pos, "section", section, "what", and(missing))
}

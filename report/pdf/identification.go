package pdf

import (
	"strings"

	"standclear/hazards/identify"
)

// identification says which hazards of the catalogue apply: those nothing answers
// in full, those set aside with the reason, and the rest by family.
func (d *doc) identification() {
	d.section("identification")
	d.lead(d.w.Sentence("identification_intro", d.r.Counts.Hazards, d.r.Counts.OpenHazards))
	open, aside, answered := d.sorted()
	if len(open) > 0 {
		d.subsection("identification_open")
		d.openEntries(open)
	}
	if len(answered) > 0 {
		d.subsection("identification_answered")
		d.answeredEntries(answered)
	}
	if len(aside) > 0 {
		d.subsection("identification_aside")
		t := d.grid(46, 126)
		t.tight = true
		for _, s := range aside {
			t.put(of(s.Entry.ID, cellText), d.richCell(s.Aside()))
		}
	}
}

// sorted puts the entries into those open, set aside, and answered.
func (d *doc) sorted() (open, aside, answered []*identify.Suggestion) {
	for i := range d.r.Hazards {
		switch s := &d.r.Hazards[i]; {
		case !s.Answered():
			open = append(open, s)
		case s.NotApplicable():
			aside = append(aside, s)
		default:
			answered = append(answered, s)
		}
	}
	return open, aside, answered
}

func (d *doc) openEntries(list []*identify.Suggestion) {
	t := d.table(col{name: d.w.Label("id"), share: 38}, col{name: d.w.Label("hazard"), share: 76}, col{name: d.w.Label("applies"), share: 58})
	t.tight = true
	for _, s := range list {
		e := s.Entry
		id := cell{one(e.ID, cellBold), one(e.Family, cellGrey)}
		why := cell{d.richPara(s.Why(), cellText)}
		if near := s.Near(); near != "" {
			why = append(why, one(near, cellGrey))
		}
		t.row(row{cells: []cell{id, plainCell(e.Situation + "; " + e.Event + "; " + e.Harm), why}})
	}
}

// answeredEntries lists by family which rows answer which entry.
func (d *doc) answeredEntries(list []*identify.Suggestion) {
	t := d.grid(24, 148)
	t.tight = true
	var families []string
	byFamily := map[string][]string{}
	for _, s := range list {
		f := s.Entry.Family
		if byFamily[f] == nil {
			families = append(families, f)
		}
		byFamily[f] = append(byFamily[f], firm(s.Entry.ID)+" ("+strings.Join(s.Rows(), ", ")+")")
	}
	for _, f := range families {
		t.put(of(f, cellGrey), plainCell(strings.Join(byFamily[f], "; ")))
	}
}

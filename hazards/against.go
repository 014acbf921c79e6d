package hazards

import (
	"cmp"
	"slices"

	"standclear/limits/sheet"
)

// Stand is something that stands against release.
type Stand struct {
	ID   string // of the row, contact, check, function or point; of a finding what it is about
	Kind string // one of the Stand… words
	Word string // state of a row or point, verdict, or id of the rule
	Why  string
}

// Kinds of what stands against release.
const (
	StandRow     = "row"
	StandContact = "contact"
	StandCheck   = "check"
	StandPoint   = "point"
	StandFinding = "finding"
	StandHazards = "hazards"
)

// Groups of what stands against release, worst first.
const (
	refusedRow = iota
	overLimit  // not permitted, over, outside
	failedPoint
	brokenRule
	openRow
	openHazards
	unknown // needs a copy, not decided, out of date
)

// ranked is something that stands against release with what puts it in order.
type ranked struct {
	Stand
	group int
	rank  int     // of the verdict
	use   float64 // of the limit
}

// against lists what stands against release, worst first; within a group worst
// verdict first, then the greatest use of the limit, then the order of the file.
// Measurements that are still to come are not in it, nor checks that only stand
// beside.
func (w *work) against() {
	var list []ranked
	for i := range w.r.Rows {
		switch row := &w.r.Rows[i]; row.Status {
		case RowRefused:
			list = append(list, ranked{Stand: Stand{row.ID, StandRow, row.Status, row.Why}, group: refusedRow})
		case RowOpen, RowOutOfDate:
			list = append(list, ranked{Stand: Stand{row.ID, StandRow, row.Status, row.Why}, group: openRow})
		}
	}
	list = append(list, w.adverse()...)
	for i := range w.r.Points {
		if p := &w.r.Points[i]; p.State == PointFailed {
			list = append(list, ranked{Stand: Stand{p.ID, StandPoint, p.State, p.Why}, group: failedPoint})
		}
	}
	for i := range w.r.Findings {
		f := &w.r.Findings[i]
		list = append(list, ranked{Stand: Stand{f.About, StandFinding, f.ID, f.Message}, group: brokenRule})
	}
	if open := w.r.OpenHazards(); len(open) > 0 {
		var ids []string
		for _, s := range open {
			ids = append(ids, s.Entry.ID)
		}
		list = append(list, ranked{Stand: Stand{"catalogue", StandHazards, RowOpen, few(ids) + " neither answered by a row nor set aside"}, group: openHazards})
	}
	slices.SortStableFunc(list, func(a, b ranked) int {
		return cmp.Or(cmp.Compare(a.group, b.group), cmp.Compare(a.rank, b.rank), cmp.Compare(b.use, a.use))
	})
	for i := range list {
		w.r.Against = append(w.r.Against, list[i].Stand)
	}
}

// adverse lists contacts, and checks that belong to none, whose verdict does not hold.
func (w *work) adverse() []ranked {
	var list []ranked
	add := func(id, kind string, verdict sheet.Verdict, why string, check int) {
		if verdict.Holds() {
			return
		}
		s := ranked{Stand: Stand{id, kind, string(verdict), why}, group: unknown, rank: verdict.Rank()}
		if verdict.Rank() <= sheet.Outside.Rank() {
			s.group = overLimit
		}
		if check >= 0 {
			s.use = w.r.Checks[check].Outcome.Use()
		}
		list = append(list, s)
	}
	for i := range w.r.Contacts {
		c := &w.r.Contacts[i]
		add(c.ID, StandContact, c.Verdict, c.Why, c.Worst)
	}
	for i := range w.r.Checks {
		if c := &w.r.Checks[i]; !c.Shadow && w.r.Contact(c.Of) == nil {
			add(c.ID, StandCheck, c.Verdict, c.Why, i)
		}
	}
	return list
}

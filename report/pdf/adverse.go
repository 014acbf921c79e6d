package pdf

import (
	"cmp"
	"slices"

	"standclear/hazards"
	"standclear/limits/sheet"
	"standclear/report/words"
)

// A thing that stands against release.
type against struct {
	id, anchor string
	kind       aboutKind
	key        string
	why        string
	rank       int
	use        float64
}

type aboutKind uint8

const (
	ofCheck aboutKind = iota
	ofRow
	ofPoint
)

func (a *against) word(w *words.Words) string {
	switch a.kind {
	case ofRow:
		return w.Rows.Of(a.key).Word
	case ofPoint:
		return w.Points.Of(a.key).Word
	}
	return w.Verdicts.Of(a.key).Word
}

// adverse lists contacts, checks, rows and points that stand against release,
// the worst first in the order of the verdicts, then by the use of the limit.
func adverse(r *hazards.Result) []against {
	var out []against
	of := map[string]bool{}
	for i := range r.Contacts {
		c := &r.Contacts[i]
		of[c.ID] = true
		if !c.Verdict.Holds() {
			out = append(out, against{id: c.ID, anchor: "check:" + c.ID, key: string(c.Verdict), why: c.Why,
				rank: c.Verdict.Rank(), use: useOf(r, c.Worst)})
		}
	}
	for i := range r.Checks {
		c := &r.Checks[i]
		if !of[c.Of] && !c.Shadow && !c.Verdict.Holds() {
			out = append(out, against{id: c.ID, anchor: "check:" + c.ID, key: string(c.Verdict), why: c.Why,
				rank: c.Verdict.Rank(), use: useOf(r, i)})
		}
	}
	for i := range r.Rows {
		if row := &r.Rows[i]; row.Status == hazards.RowRefused {
			out = append(out, against{id: row.ID, anchor: "row:" + row.ID, kind: ofRow, key: row.Status, why: row.Why, rank: sheet.Over.Rank()})
		}
	}
	for i := range r.Points {
		if p := &r.Points[i]; p.State == hazards.PointFailed {
			out = append(out, against{id: p.ID, anchor: "point:" + p.ID, kind: ofPoint, key: p.State, why: p.Why, rank: sheet.Over.Rank()})
		}
	}
	slices.SortStableFunc(out, func(a, b against) int {
		return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(b.use, a.use))
	})
	return out
}

func useOf(r *hazards.Result, check int) float64 {
	if check < 0 || check >= len(r.Checks) || r.Checks[check].Outcome == nil {
		return 0
	}
	return r.Checks[check].Outcome.Use()
}

package pdf

import "strings"

// limits prints the limits of use, ISO 12100 5.3, and the foreseeable misuses.
func (d *doc) limits() {
	if d.pdf.PageNo() == 1 {
		d.newPage() // the first page stands alone where it holds
	}
	d.section("limits")
	l := &d.r.File.Limits
	g := d.grid(24, 148)
	for _, p := range [][2]string{
		{"intended", l.Use.Intended}, {"excluded", strings.Join(l.Use.Excluded, "; ")},
		{"reach", l.Space.Reach}, {"access", l.Space.Access}, {"paths", l.Space.Paths},
		{"life", l.Time.Life}, {"materials", l.Other.Materials}, {"cleaning", l.Other.Cleaning}, {"environment", l.Other.Environment},
	} {
		if p[1] == "" {
			p[1] = d.w.Label("not_given")
		}
		g.put(of(d.w.Label(p[0]), cellGrey), of(p[1], cellText))
	}
	if len(l.Use.Misuses) == 0 {
		return
	}
	d.subsection("misuses")
	t := d.table(col{name: d.w.Label("id"), share: 32}, col{name: d.w.Label("what"), share: 100}, col{name: d.w.Label("answered"), share: 40})
	t.tight = true
	for i := range l.Use.Misuses {
		m := &l.Use.Misuses[i]
		var rows []span
		for _, id := range m.AnsweredBy {
			rows = append(rows, linked(id, "row:"+id, cellText))
		}
		answer := cell{{spans: list(rows, cellGrey)}}
		if len(rows) == 0 {
			answer = cell{state("open", d.w.Label("none"))}
		}
		t.put(of(m.ID, cellText), of(m.What, cellText), answer)
	}
}

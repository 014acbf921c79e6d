package pdf

import (
	"strconv"
	"strings"

	"standclear/hazards"
)

// mostAdverse is how many things that stand against release the first page
// names; the rest is counted and found behind.
const mostAdverse = 8

// first sets the first page: what it is, what stands against release, under
// which conditions it was judged, and who decides.
func (d *doc) first() {
	h := d.r.File.Head
	d.y = 17
	d.put(one(d.w.Heading("document"), cellGrey))
	d.put(one(h.Title, titleText))
	d.y += 2
	d.facts()
	d.verdict()
	d.counts()
	d.against()
	d.decides()
	d.conditions()
	d.contents()
}

// facts says which document this is.
func (d *doc) facts() {
	h := d.r.File.Head
	former := ""
	if h.Former != nil {
		former = d.w.Sentence("former_line", h.Former.Revision, h.Former.File)
	}
	placed := joined(", ", h.Placing.Role, h.Placing.Scope)
	pairs := [][2]string{
		{"number", h.Number}, {"revision", h.Revision},
		{"date", h.Date}, {"service", h.Placing.PutIntoService},
		{"former", former}, {"placed_as", placed},
		{"prepared", person(&h.PreparedBy)}, {"checked", person(h.CheckedBy)},
		{"cell", d.cellLine()}, {"places", strings.Join(h.Places, ", ")},
	}
	g := d.grid(12, 34, 13, 27)
	var row []cell
	for _, p := range pairs {
		if p[1] == "" {
			if p[0] == "former" {
				p[1] = d.w.Label("none")
			} else {
				p[1] = d.w.Label("nobody")
			}
		}
		if row = append(row, of(d.w.Label(p[0]), cellGrey), of(p[1], cellText)); len(row) == 4 {
			g.put(row...)
			row = nil
		}
	}
}

// cellLine names what stands in the cell.
func (d *doc) cellLine() string {
	var out []string
	c := &d.r.File.Cell
	for i := range c.Robots {
		r := &c.Robots[i]
		out = append(out, joined(", ", r.ID, r.Name))
	}
	for i := range c.Machines {
		out = append(out, c.Machines[i].ID)
	}
	for i := range c.Tools {
		out = append(out, c.Tools[i].ID)
	}
	return strings.Join(out, "; ")
}

// verdict says the state of the document in a word and a sentence.
func (d *doc) verdict() {
	w := d.w.Document.Of(d.r.Document)
	d.y += 2.5
	d.rule(sideMargin, d.y, d.width, thin, black)
	d.y += 2
	d.put(para{spans: []span{{mark: marks[d.r.Document], style: headText}, {text: w.Word, style: headText}}})
	d.put(one(w.Means, text))
	if d.warn != nil {
		d.warn()
	}
}

// counts puts rows, checks and the rest side by side.
func (d *doc) counts() {
	written := 0
	for i := range d.r.Points {
		if d.r.Points[i].Spec != nil {
			written++
		}
	}
	rest := []hazards.Count{
		{Word: d.w.Label("findings_n"), N: d.r.Counts.Findings}, {Word: d.w.Label("open_n"), N: d.r.Counts.Open},
		{Word: d.w.Label("hazards_n"), N: d.r.Counts.OpenHazards}, {Word: d.w.Label("review_n"), N: len(d.r.Review)}, {Word: d.w.Label("points_n"), N: written},
		{Word: d.w.Label("points_planned_n"), N: len(d.r.Points) - written},
	}
	d.y += 1.5
	rows, checks := present(d.r.Counts.Rows), present(d.r.Counts.Checks)
	g := d.grid(24, 7, 28, 7, 30, 7)
	g.tight = true
	g.put(of(d.w.Label("rows_n"), cellGrey), nil, of(d.w.Label("checks_n"), cellGrey))
	for i := range max(len(rows), len(checks), len(rest)) {
		var row []cell
		row = append(row, countCells(rows, i, func(k string) para { return state(k, d.w.Rows.Of(k).Word) })...)
		row = append(row, countCells(checks, i, func(k string) para { return state(k, d.w.Verdicts.Of(k).Word) })...)
		row = append(row, countCells(rest, i, func(k string) para { return one(k, cellText) })...)
		g.put(row...)
	}
}

// present drops the words that nothing is counted under.
func present(list []hazards.Count) []hazards.Count {
	var out []hazards.Count
	for _, c := range list {
		if c.N > 0 {
			out = append(out, c)
		}
	}
	return out
}

func countCells(list []hazards.Count, i int, show func(string) para) []cell {
	if i >= len(list) {
		return []cell{nil, nil}
	}
	n := one(strconv.Itoa(list[i].N), cellText)
	n.right = true
	return []cell{{show(list[i].Word)}, {n}}
}

// against names the worst things first.
func (d *doc) against() {
	d.subheading(d.w.Heading("against"))
	list := d.r.Against
	if len(list) == 0 {
		d.put(one(d.w.Sentence("against_none"), text))
		return
	}
	t := d.grid(34, 30, 108)
	t.tight, t.lined = true, true
	for i, a := range list {
		if i == mostAdverse {
			break
		}
		t.put(cell{{spans: []span{linked(a.ID, anchorOf(a), cellText)}}}, cell{d.standsAs(a)}, d.richCell(a.Why))
	}
	if more := len(list) - mostAdverse; more > 0 {
		section := sectionOf(list[mostAdverse:])
		d.put(para{spans: []span{linked(d.w.Sentence("more", more, sectionNumber(section)), "section:"+section, cellText)}, gap: 0.8})
	}
}

// sectionOf is the first section that tells of any of these.
func sectionOf(list []hazards.Stand) string {
	of := map[string]string{hazards.StandFinding: "findings", hazards.StandHazards: "identification", hazards.StandRow: "hazards",
		hazards.StandPoint: "validation"}
	first := len(sections)
	for _, s := range list {
		section := of[s.Kind]
		if section == "" {
			section = "checks"
		}
		first = min(first, sectionNumber(section)-1)
	}
	return sections[first]
}

// anchorOf is where the document says more of what stands against release.
func anchorOf(s hazards.Stand) string {
	switch s.Kind {
	case hazards.StandRow:
		return "row:" + s.ID
	case hazards.StandPoint:
		return "point:" + s.ID
	case hazards.StandFinding:
		return findingAnchor(s.Word, s.ID)
	}
	return "check:" + s.ID
}

// standsAs is the word for what stands against release.
func (d *doc) standsAs(s hazards.Stand) para {
	switch s.Kind {
	case hazards.StandRow, hazards.StandHazards:
		return state(s.Word, d.w.Rows.Of(s.Word).Word)
	case hazards.StandPoint:
		return state(s.Word, d.w.Points.Of(s.Word).Word)
	case hazards.StandFinding:
		return one(s.Word, cellText)
	}
	return state(s.Word, d.w.Verdicts.Of(s.Word).Word)
}

// decides names who decides on release.
func (d *doc) decides() {
	d.subheading(d.w.Heading("decides"))
	who := person(d.r.File.Head.ApprovedBy)
	if who == "" {
		who = d.w.Label("nobody")
	}
	d.put(para{spans: []span{{text: who + ". ", style: cellBold}, {text: d.w.Sentence("decides_note"), style: cellText}}})
}

// contents lists the sections with their pages.
func (d *doc) contents() {
	d.subheading(d.w.Heading("contents"))
	high := small * leading * mmPerPoint
	half := (len(sections) + 1) / 2
	d.room(float64(half) * high)
	const between = 10.0
	w := (d.width - between) / 2
	top := d.y
	for i, key := range sections {
		x, y := sideMargin, top+float64(i%half)*high
		if i >= half {
			x += w + between
		}
		base := y + high*0.77
		d.write(x, base, strconv.Itoa(i+1), cellGrey)
		name := d.w.Heading(key)
		d.write(x+6, base, name, cellText)
		d.entries = append(d.entries, entry{d.pdf.PageNo(), base, x, w, "section:" + key})
		d.links = append(d.links, link{d.pdf.PageNo(), x, y, w, high, "section:" + key})
		d.dots(x+6+d.ink.width(name, cellText)+1.5, x+w-6, base)
	}
	d.y = top + float64(half)*high
}

// dots lead the eye to the page number.
func (d *doc) dots(from, to, y float64) {
	if to > from {
		d.pdf.SetDashPattern([]float64{0.2, 1.2}, 0)
		d.rule(from, y, to-from, hair*1.6, grey)
		d.pdf.SetDashPattern(nil, 0)
	}
}

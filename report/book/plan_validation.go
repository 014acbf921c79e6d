package book

import (
	"slices"
	"strings"

	"standclear/hazards"
	"standclear/hazards/file"
	"standclear/limits/expr"
)

// Blocks of the sheet Validation.
const (
	pointsBlock = "points"
	testsBlock  = "tests"
)

// pointMethods are the methods of a test, as in the file.
var pointMethods = []string{"force", "stopping", "functional-test", "inspection", "review"}

// validation plans measurements and tests, and what they speak for.
func (p *planner) validation() *Sheet {
	s := &Sheet{ID: "validation", Name: "Validation", Blocks: []*Block{p.points()},
		About: "Measurements and tests. The measurement decides: type in what the instrument showed, and state and verdicts follow."}
	if len(p.pairs) > 0 {
		s.Blocks = append(s.Blocks, p.evidenceRows())
	}
	if len(p.tests) > 0 {
		s.Blocks = append(s.Blocks, p.testRows())
	}
	return s
}

func (p *planner) points() *Block {
	b := &Block{ID: pointsBlock, Short: "points", Title: "Measurements and tests", Columns: []*Column{
		{Key: refKey, Head: "Point", Width: 12, Look: Ident},
		{Key: "of", Head: "Of", Width: 18},
		{Key: "because", Head: "Why, as built", Width: 36},
		{Key: "method", Head: "Method", Width: 14, Edit: true, Choice: p.words("method of a test", pointMethods...)},
		{Key: "state", Head: "State", Width: 14, Look: Word, Formula: p.pointState()},
		{Key: "outcome", Head: "Outcome", Means: "of a test without figures", Width: 14, Edit: true, Choice: p.words("outcome", "met", "not-met")},
		{Key: "peak", Head: "Force peak", Means: "up to 0.5 s", Unit: "N", Width: 14, Edit: true},
		{Key: "steady", Head: "Force after", Means: "after 0.5 s", Unit: "N", Width: 14, Edit: true},
		{Key: "pressure", Head: "Pressure", Means: "peak", Unit: "N/cm2", Width: 10, Edit: true},
		{Key: "speed", Head: "Speed", Means: "of the test, lower end", Unit: "mm/s", Width: 10, Edit: true},
		{Key: "stiffness", Head: "Spring", Means: "of the device", Unit: "N/mm", Width: 10, Edit: true},
		{Key: "tool", Head: "Tool", Width: 12, Edit: true, Choice: p.ids("tool", "tool")},
		{Key: "part", Head: "Part", Width: 12, Edit: true, Choice: p.ids("part", "part")},
		{Key: spotKey, Head: "At point", Means: "of a contact with several", Width: 14, Edit: true, Choice: p.ids("point of a contact", "contact-point"), Hidden: !p.hasSpots()},
		{Key: "body_area", Head: "Body area", Width: 18, Edit: true, Choice: p.areaChoice()},
		{Key: "clamped", Head: "Held", Width: 8, Edit: true, Choice: p.words("yes or no", "yes", "no")},
		{Key: "checksum", Head: "Checksum", Means: "of the safety configuration", Width: 13, Edit: true},
		{Key: "pose", Head: "Pose", Width: 20, Edit: true},
		{Key: "limit", Head: "Limit as built", Width: 30},
		{Key: "with", Head: "Conditions as built", Width: 26},
		{Key: "by", Head: "By", Width: 14, Edit: true},
		{Key: "date", Head: "Date", Width: 11, Edit: true},
		{Key: "note", Head: "Note", Width: 26, Edit: true},
		{Key: "figures", Head: "Figures in the file", Width: 8, Look: Quiet, Hidden: true},
		{Key: "planned", Head: "Planned by the program", Width: 8, Look: Quiet, Hidden: true},
		{Key: "relied", Head: "An accepted row rests on it", Width: 8, Look: Count, Hidden: true, Formula: p.reliedFormula()},
		{Key: changedKey, Head: "Edited", Width: 8, Look: Count, Hidden: true,
			Watch: []string{"method", "outcome", "peak", "steady", "pressure", "speed", "stiffness", "tool", "part", spotKey, "body_area", "clamped", "checksum"}},
	}}
	for i := range p.r.Points {
		b.Rows = append(b.Rows, p.pointRow(b, &p.r.Points[i]))
	}
	return b
}

func (p *planner) areaChoice() string {
	if t := p.r.Library.Table(areasTable); t != nil && len(p.contactSheets()) > 0 {
		return tableID(areasTable) + "/" + t.Key
	}
	return ""
}

func (p *planner) pointRow(b *Block, pt *hazards.Point) *Row {
	spec := pt.Spec
	planned := ""
	if spec == nil {
		spec, planned = &file.Point{}, "yes"
	}
	m := hazards.ProofMeasured(p.r, spec)
	figures := ""
	if spec.Force != nil || spec.Pressure != nil {
		figures = "yes"
	}
	relied := 0.0
	if p.relied[pt.ID] {
		relied = 1
	}
	vals := map[string]Cell{
		refKey: show(pt.ID), "of": leads(pt.Of), "method": edit(text(pt.Method)), "state": live(text(pt.State)),
		"outcome": edit(text(spec.Outcome)), "peak": edit(optional(m.Peak)), "steady": edit(optional(m.Steady)), "pressure": edit(optional(m.Pressure)),
		"speed": edit(positive(m.Speed)), "stiffness": edit(positive(m.Stiffness)), "tool": edit(text(spec.Tool)), "part": edit(text(spec.Part)), spotKey: edit(text(m.Spot)),
		"body_area": edit(text(spec.Area)), "clamped": edit(text(string(spec.Clamped))), "checksum": edit(text(spec.Checksum)), "pose": edit(text(spec.Pose)),
		"limit": show(pt.Limit), "with": show(pt.With), "because": show(pt.Why), "by": edit(text(spec.By)), "date": edit(text(spec.Date)), "note": edit(text(spec.Note)),
		"figures": show(figures), "planned": show(planned), "relied": live(num(relied)), changedKey: live(num(0)),
	}
	row := &Row{ID: pt.ID, Cells: make([]Cell, len(b.Columns))}
	for i, c := range b.Columns {
		row.Cells[i] = vals[c.Key]
	}
	return row
}

// pointState is the state of a point as hazards works it out: by the checks it
// covers, where it holds figures of a contact, else by its outcome.
func (p *planner) pointState() Formula {
	figures := formula("COUNT(", own("peak"), ",", own("steady"), ",", own("pressure"), ")")
	open := formula("IF(", own("relied"), `=1,"missing","planned")`)
	judged := open
	if len(p.pairs) > 0 {
		found := func(key string) Formula {
			return formula("ISNUMBER(MATCH(", own(idKey), ",", all(evidenceBlock, key), ",0))")
		}
		judged = formula("IF(", found("point|over"), `,"failed",IF(NOT(`, found("point|covers"), `),"out-of-date",IF(`, found("point|within"), `,"passed","planned")))`)
	}
	contact := formula("FALSE()")
	if len(p.r.Contacts) > 0 {
		contact = formula("ISNUMBER(MATCH(", own("of"), ",", all(contactsBlock, idKey), ",0))")
	}
	released := formula("ISNUMBER(MATCH(", own("checksum"), ",", all(settingsBlock, "checksum"), ",0))")
	return formula("IF(", own(idKey), `="","",IF(AND(`, own("planned"), `="yes",`, figures, "+COUNTIF(", own("outcome"), `,"?*")>0),"`+againText+`",IF(AND(`,
		own("method"), `="force",`, contact, ",OR(", own("figures"), `="yes",`, figures, ">0)),", judged, ",IF(AND(",
		own("checksum"), `<>"",`, own("outcome"), `<>"",NOT(`, released, `)),"out-of-date",IF(`, own("outcome"), `="met","passed",IF(`,
		own("outcome"), `="not-met","failed",`, open, "))))))")
}

// test is a validation point that a hazard row rests on, by its id, a measure,
// or what the row rests on.
type test struct {
	row    *hazards.Row
	point  *hazards.Point
	counts bool // its state counts for the row; that of a contact has spoken through the contact
}

// findTests lists the tests of every row.
func (p *planner) findTests() {
	contact := map[string]bool{}
	for i := range p.r.Contacts {
		contact[p.r.Contacts[i].ID] = true
	}
	byID, of := map[string]int{}, map[string][]int{}
	for k := range p.r.Points {
		byID[p.r.Points[k].ID] = k
		of[p.r.Points[k].Of] = append(of[p.r.Points[k].Of], k)
	}
	for i := range p.r.Rows {
		r := &p.r.Rows[i]
		named, direct := set(r.Points), map[string]bool{}
		for k := range r.Spec.Measures {
			direct[r.Spec.Measures[k].ID] = true
		}
		for _, id := range r.Rests {
			if !contact[id] {
				direct[id] = true
			}
		}
		accepts := r.Accepts()
		for _, k := range candidates(r, byID, of) {
			pt := &p.r.Points[k]
			p.testsOf[r] = append(p.testsOf[r], len(p.tests))
			p.tests = append(p.tests, test{r, pt, named[pt.ID] || direct[pt.Of]})
			p.relied[pt.ID] = p.relied[pt.ID] || accepts
		}
	}
}

// candidates are the points, in order, that a row, its measures or what it
// rests on names.
func candidates(r *hazards.Row, byID map[string]int, of map[string][]int) []int {
	var out []int
	for _, id := range r.Points {
		if k, ok := byID[id]; ok {
			out = append(out, k)
		}
	}
	for k := range r.Spec.Measures {
		out = append(out, of[r.Spec.Measures[k].ID]...)
	}
	for _, id := range r.Rests {
		out = append(out, of[id]...)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

func set(ids []string) map[string]bool {
	out := make(map[string]bool, len(ids))
	for _, id := range ids {
		out[id] = true
	}
	return out
}

// testRows plans the tests, so that rows look up how they stand.
func (p *planner) testRows() *Block {
	hidden := func(key, head string, f Formula) *Column {
		return &Column{Key: key, Head: head, Width: 10, Hidden: true, Look: Quiet, Formula: f}
	}
	b := &Block{ID: testsBlock, Helper: true, Title: "Which tests a row rests on", Columns: []*Column{
		{Key: refKey, Head: "Row and point", Width: 12, Look: Ident},
		{Key: "row", Head: "Row", Width: 9},
		{Key: "point", Head: "Point", Width: 34},
		{Key: "state", Head: "State", Width: 14, Look: Word, Formula: orBlank(find(pointsBlock, "state", own("point")))},
		{Key: "counts", Head: "Counts", Means: "yes: for the status of the row; no: it has spoken through its contact", Width: 14},
		hidden("row|bad", "Stands against", formula("IF(AND(", own("counts"), `="yes",OR(`, own("state"), `="failed",`, own("state"), `="out-of-date",`, own("state"), `="`+againText+`")),`, own("row"), `,"")`)),
		hidden("row|pending", "Still to be done", formula("IF(AND(", own("counts"), `="yes",OR(`, own("state"), `="planned",`, own("state"), `="missing")),`, own("row"), `,"")`)),
		hidden("point|relied", "Relied on", formula("IF(IFERROR(", find(hazardsBlock, "decision", own("row")), `,"")="accept",`, own("point"), `,"")`)),
	}}
	for _, t := range p.tests {
		word := map[bool]string{true: "yes", false: "no"}[t.counts]
		mark := func(yes bool, id string) Cell {
			if yes {
				return live(text(id))
			}
			return live(expr.Value{})
		}
		s := t.point.State
		accepts := t.row.Accepts()
		b.Rows = append(b.Rows, &Row{ID: t.row.ID + " · " + t.point.ID, Cells: []Cell{show(t.row.ID + " · " + t.point.ID), leads(t.row.ID),
			leads(t.point.ID), live(text(s)), show(word),
			mark(t.counts && (s == hazards.PointFailed || s == hazards.PointOutOfDate), t.row.ID),
			mark(t.counts && (s == hazards.PointPlanned || s == hazards.PointMissing), t.row.ID),
			mark(accepts, t.point.ID)}})
	}
	return b
}

// reliedFormula tells whether a row whose risk is accepted rests on the point.
func (p *planner) reliedFormula() Formula {
	if len(p.tests) == 0 {
		return formula("0")
	}
	return formula("IF(ISNUMBER(MATCH(", own(idKey), ",", all(testsBlock, "point|relied"), ",0)),1,0)")
}

// pointValue looks up a measured figure by its path, as in V-03.force.peak.
func (p *planner) pointValue(path string) Formula {
	id, rest, _ := strings.Cut(path, ".")
	key := map[string]string{"speed": "speed", "device.stiffness": "stiffness", "force.peak": "peak", "force.steady": "steady", "pressure.peak": "pressure"}[rest]
	if key == "" {
		return formula(`""`)
	}
	return find(pointsBlock, key, quoted(id))
}

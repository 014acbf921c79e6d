package book

import (
	"slices"
	"strings"

	"standclear/hazards"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/report/words"
)

// Blocks of the permitted speeds by body region.
const (
	ladderBlock = "ladder"
	ladderOf    = "ladder-of"
	speedsBlock = "speeds"
)

// ladderSheet is the calculation sheet that the ladders were worked out with,
// nil where there is none.
func (p *planner) ladderSheet() *sheet.Sheet {
	for i := range p.r.Ladders {
		for k := range p.r.Ladders[i].Rungs {
			return p.r.Ladders[i].Rungs[k].Outcome.Sheet
		}
	}
	return nil
}

// ladders plans mass and area of each robot, to be edited, and its permitted
// speeds by body region, worked out with the columns of the calculation sheet.
func (p *planner) ladders() []*Block {
	s := p.ladderSheet()
	if s == nil {
		return nil
	}
	title := words.Default().Heading("ladder")
	of := &Block{ID: ladderOf, Short: "mass and area", Title: title + ": mass and area", Columns: ladderHeads(s)}
	taken := ladderInputs(s)
	b := &Block{ID: ladderBlock, Short: "free contact, unmeasured", Title: title + " · " + s.Standard.String(), Note: words.Default().Sentence("ladder_intro"),
		Columns: p.ladderColumns(s)}
	for i := range p.r.Ladders {
		l := &p.r.Ladders[i]
		of.Rows = append(of.Rows, p.ladderInput(of, l, s))
		for k := range l.Rungs {
			b.Rows = append(b.Rows, p.rung(b, l, &l.Rungs[k], taken))
		}
	}
	return []*Block{of, b}
}

// ladderInputs are the columns that mass and area stand in.
func ladderInputs(s *sheet.Sheet) []*sheet.Column {
	var out []*sheet.Column
	for _, name := range []string{"M", "m_L", "m_R", "A"} {
		if c := s.Input(name); c != nil {
			out = append(out, c)
		}
	}
	return out
}

// ladderHeads are the columns of mass and area, each where the columns of a
// check are of its width.
func ladderHeads(s *sheet.Sheet) []*Column {
	cols := []*Column{{Key: refKey, Head: "Robot", Width: 26, Look: Ident}, {Key: "mass-of", Head: "Mass of", Width: 24}}
	for i, c := range ladderInputs(s) {
		if i == 2 {
			cols = append(cols, &Column{Key: "area-of", Head: "Area of", Width: 40})
		}
		cols = append(cols, &Column{Key: c.Name, Head: c.Symbol, Means: c.Means, Unit: c.UnitName(), Width: 9, Edit: true, Bounds: bounds(c.Bounds)})
	}
	return cols
}

func ladderID(robot string) string { return "speeds of " + robot }

func (p *planner) ladderInput(b *Block, l *hazards.Ladder, s *sheet.Sheet) *Row {
	vals := map[string]Cell{refKey: show(l.Robot), "mass-of": show(l.MassOf), "area-of": show(l.AreaOf)}
	for _, c := range ladderInputs(s) {
		vals[c.Name] = p.ladderValue(l, s, c)
	}
	row := &Row{ID: ladderID(l.Robot)}
	for _, c := range b.Columns {
		row.Cells = append(row.Cells, vals[c.Key])
	}
	return row
}

// ladderValue looks up where mass or area is written once.
func (p *planner) ladderValue(l *hazards.Ladder, s *sheet.Sheet, c *sheet.Column) Cell {
	for i := range l.Inputs {
		in := &l.Inputs[i]
		switch {
		case in.Name != c.Name:
		case hasPath(in.Terms):
			return Cell{Value: in.Value, Live: true, Edit: true, Formula: p.termsOnce(s, in.Terms, in.Pick, "", ladderEnd(in))}
		default:
			return edit(in.Value)
		}
	}
	return edit(expr.Value{})
}

// ladderEnd is the end at which mass or area is taken: that of the check it comes
// from, or the worse one, since a ladder has no corner of its own.
func ladderEnd(in *hazards.Input) string {
	if in.End != "" || in.Value == in.Nominal {
		return endKey(in)
	}
	own := *in
	own.Low = expr.Value{}
	return endKey(&own)
}

// ladderColumns are those of a check of the sheet, so that what is hidden there
// stands above what is hidden here. In front stands the permitted speed.
func (p *planner) ladderColumns(s *sheet.Sheet) []*Column {
	front := map[string]*Column{
		refKey: {Key: refKey, Head: "Robot", Look: Ident}, aboutKey: {Key: "region-name", Head: "Body region"},
		"verdict": {Key: "permitted-speed", Head: "Permitted speed", Means: "free contact, unmeasured", Unit: "mm/s", Formula: formula(own(shownSpeed))},
		finalKey:  {Key: "state", Head: "State", Formula: ladderState()}, "why": {Key: "remark", Head: "Note"},
	}
	cols := p.checkColumns(s)
	for i, of := range cols {
		c := s.Column(of.Key)
		switch mine := front[of.Key]; {
		case mine != nil:
			mine.Width, cols[i] = of.Width, mine
		case c == nil || c.Role == sheet.Rule || c.Role == sheet.Use:
			cols[i] = &Column{Key: "blank-" + number(i), Width: of.Width, Hidden: of.Hidden}
		default:
			of.Edit, of.Choice, of.Bounds = false, "", nil
		}
	}
	return cols
}

// ladderState says whether the body area may be touched at all, as the contact sheet does.
func ladderState() Formula {
	permitted := own("permitted")
	return formula("IF(", permitted, `="yes","unmeasured",IF(`, permitted, `="ask","`+string(sheet.NeedsCopy)+`","`+string(sheet.NotPermitted)+`"))`)
}

// shownSpeed is the permitted speed, rounded down.
const shownSpeed = "v_max_shown"

func (p *planner) rung(b *Block, l *hazards.Ladder, r *hazards.Rung, taken []*sheet.Column) *Row {
	state := "unmeasured"
	if !r.Outcome.Value("p_limit").Given() {
		state = string(r.Outcome.Verdict)
	}
	vals := map[string]Cell{refKey: show(l.Robot), "region-name": show(r.Name), "permitted-speed": live(r.Outcome.Value(shownSpeed)), "state": live(text(state)),
		"remark": show(strings.Join(r.Notes, "; ")), "area": show(r.Area)}
	row := &Row{ID: l.Robot + " " + r.Area}
	for _, col := range b.Columns {
		cell, there := vals[col.Key]
		switch c := r.Outcome.Sheet.Column(col.Key); {
		case there || c == nil:
		case slices.Contains(taken, c):
			cell = calc(r.Outcome.Values[c.Slot], orBlank(find(ladderOf, c.Name, quoted(ladderID(l.Robot)))))
		case c.Role != sheet.Input && c.Role != sheet.Override:
			cell = live(r.Outcome.Values[c.Slot])
		}
		row.Cells = append(row.Cells, cell)
	}
	return row
}

// speeds plans the measured speeds of released tasks, nil where there are none.
// A speed stands there as long as its task counts as released.
func (p *planner) speeds() []*Block {
	if len(p.r.Speeds) == 0 {
		return nil
	}
	b := &Block{ID: speedsBlock, Title: words.Default().Heading("speeds"), Note: words.Default().Sentence("speeds_intro"), Columns: []*Column{
		{Key: refKey, Head: "Task", Width: 26, Look: Ident}, {Key: "of-contact", Head: "Contact", Width: 24}, {Key: "point", Head: "Point", Width: 15},
		{Key: "speed", Head: "Speed", Means: "at which it was measured", Unit: "mm/s", Width: 15},
	}}
	for _, m := range p.r.Speeds {
		speed := formula("IF(", p.released(m.Task), ",", orBlank(find(pointsBlock, "speed", own("point"))), `,"")`)
		b.Rows = append(b.Rows, &Row{ID: m.Task + " " + m.Contact + " " + m.Point,
			Cells: []Cell{show(m.Task), leads(m.Contact), leads(m.Point), calc(num(m.Speed), speed)}})
	}
	return []*Block{b}
}

// released tests that all contacts of a task are measured, and that no row of it
// is still to be decided.
func (p *planner) released(task string) Formula {
	f := formula("AND(TRUE()")
	for i := range p.r.Contacts {
		if c := &p.r.Contacts[i]; c.Task == task {
			f = f.plus(",", orBlank(find(contactsBlock, "verdict", quoted(c.ID))), `="`+string(sheet.WithinMeasured)+`"`)
		}
	}
	for i := range p.r.Rows {
		if r := &p.r.Rows[i]; r.Task == task {
			status := orBlank(find(hazardsBlock, "status", quoted(r.ID)))
			f = f.plus(",OR(", status, `="`+hazards.RowReduced+`",`, status, `="`+hazards.RowAccepted+`")`)
		}
	}
	return f.plus(")")
}

package book

import (
	"strconv"
	"strings"

	"standclear/hazards"
	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/sheet"
)

// group is a sheet of the workbook that holds calculation sheets.
type group struct{ id, name, about string }

// groups are the calculation sheets' groups, in the order of the workbook.
var groups = []group{
	{"contact", "Contact", "One row for each body area, tool and part that can meet. The model plans, the measurement decides; white cells are worked out, tinted ones may be edited."},
	{"distance", "Distance", "Required against available distances and gaps. Distances are measured to the nearest point the hazard can reach, overtravel included."},
	{"functions", "Functions", "Safety functions: the level that is required against the level that the chain of parts reaches."},
	{"other", "Other checks", "Payload, grip, touch and whatever else is calculated."},
}

// checks plans one sheet of calculations: one block for each calculation sheet.
func (p *planner) checks(g group) *Sheet {
	s := &Sheet{ID: g.id, Name: g.name, About: g.about}
	if g.id == "contact" && len(p.r.Contacts) > 0 {
		s.Blocks = append(s.Blocks, p.contacts())
	}
	for _, calc := range p.sheets {
		if calc.Group == g.id {
			s.Blocks = append(s.Blocks, p.checkBlock(calc))
		}
	}
	if g.id == "contact" {
		s.Blocks = append(append(s.Blocks, p.ladders()...), p.speeds()...)
	}
	alignHelpers(s.Blocks)
	s.Blocks = append(p.editionBlocks(g.id, s.Blocks), s.Blocks...)
	if len(s.Blocks) == 0 {
		s.Blocks = append(s.Blocks, &Block{ID: g.id + "-none", Bare: true,
			Columns: []*Column{{Key: "note", Width: 60, Look: Wide}},
			Rows:    []*Row{{Cells: []Cell{show("No calculation of this kind is part of the assessment.")}}}})
	}
	return s
}

// Keys that check blocks have besides the columns of their calculation sheet.
// The signs before them keep them apart from symbols.
const (
	refKey     = "ref"
	aboutKey   = "about"
	usersKey   = "hazards"
	finalKey   = "with-evidence" // verdict after measurement
	ofKey      = "of"
	markKey    = "of|verdict"
	countsKey  = "counts-as" // verdict of what governs
	changedKey = "edited"

	shownUseKey = "use|shown" // rounded up, as on paper
)

// checkBlock plans the rows of one calculation sheet.
func (p *planner) checkBlock(s *sheet.Sheet) *Block {
	b := &Block{ID: s.Key(), Short: shortKey(s), Title: s.Title + " · " + s.Standard.String(), Note: s.About}
	b.Columns = p.checkColumns(s)
	hideUnused(s, b, p.checksOf(s))
	for i := range p.r.Checks {
		if c := &p.r.Checks[i]; c.Sheet == s {
			b.Rows = append(b.Rows, p.checkRow(b, c))
		}
	}
	p.rowsBeside(b, s)
	return b
}

// hideUnused hides the members of lists that no check fills, but for one to be
// filled in.
func hideUnused(s *sheet.Sheet, b *Block, checks []hazards.Check) {
	given := map[string]bool{}
	for i := range checks {
		if checks[i].Sheet == s {
			for name, in := range inputsOf(&checks[i]) {
				given[name] = given[name] || in.Value.Given() || in.Held.Given() || in.Takes()
			}
		}
	}
	for _, list := range s.Lists {
		last := 0
		for k, c := range list {
			if given[c.Name] {
				last = k + 1
			}
		}
		for k, c := range list {
			if k > last {
				b.Columns[b.Column(c.Name)].Hidden = true
			}
		}
	}
}

// checkColumns puts what is read first to the left, then helpers, which are
// hidden, then the columns of the calculation.
func (p *planner) checkColumns(s *sheet.Sheet) []*Column {
	verdict, why, use, rule := s.Column("verdict"), s.Column("why"), s.Column("use"), s.Column("rule")
	word := "Verdict"
	if s.Group == "contact" {
		word = "By the model"
	}
	cols := []*Column{
		{Key: refKey, Head: "Check", Width: 26, Look: Ident},
		{Key: aboutKey, Head: "Of", Width: 24},
		{Key: verdict.Name, Head: word, Width: 15, Look: Word, Formula: p.pieces(s, s.Formula(verdict), "")},
	}
	final := verdict.Name
	if s.Group == "contact" {
		final = finalKey
		cols = append(cols, &Column{Key: finalKey, Head: "With evidence", Width: 15, Look: Word, Formula: p.withEvidence(s)})
	}
	cols = append(cols,
		&Column{Key: why.Name, Head: "Why", Width: 40, Formula: p.pieces(s, s.Formula(why), "")},
		adviceColumn(final),
		&Column{Key: shownUseKey, Head: "Use", Means: use.Means, Width: 9, Look: Share,
			Formula: shownUse(use)},
		&Column{Key: usersKey, Head: "Hazards", Means: "rows that rest on it", Width: 15},
		&Column{Key: rule.Name, Head: "Rule", Means: rule.Means, Width: 8, Look: Count, Hidden: true, Formula: p.pieces(s, s.Formula(rule), "")},
		&Column{Key: ofKey, Head: "Of", Width: 14, Look: Quiet, Hidden: true},
		&Column{Key: markKey, Head: "Of and verdict", Width: 14, Look: Quiet, Hidden: true,
			Formula: formula("IF(", own(ofKey), `="","",`, own(ofKey), `&"|"&`, own(final), ")")},
		&Column{Key: countsKey, Head: "Counts as", Width: 14, Look: Quiet, Hidden: true, Formula: formula("IF(", own(ofKey), `="","",`, own(final), ")")},
		&Column{Key: changedKey, Head: "Edited", Means: "1: inputs were edited since the workbook was built", Width: 8, Look: Count, Hidden: true},
	)
	watch := cols[len(cols)-1]
	if lends := p.lendsColumn(s); lends != nil {
		cols = append(cols, lends)
	}
	if together := p.togetherColumn(s); together != nil {
		cols = append(cols, together)
	}
	if copies := p.copyColumn(s); copies != nil {
		cols = append(cols, copies)
	}
	cols = append(cols, &Column{Key: use.Name, Head: "Use, exact", Width: 9, Look: Quiet, Hidden: true, Formula: p.pieces(s, s.Formula(use), "")})
	cols = append(cols, p.cornerColumns(s)...)
	for _, c := range s.Columns {
		switch c.Role {
		case sheet.Rule, sheet.Verd, sheet.Why, sheet.Use:
			continue
		case sheet.Input, sheet.Override:
			watch.Watch = append(watch.Watch, c.Name)
		}
		cols = append(cols, p.calcColumn(s, c))
	}
	return cols
}

// shownUse is the use rounded up.
func shownUse(use *sheet.Column) Formula {
	return formula("IF(", own(use.Name), `="","",ROUNDUP(ROUND(`, own(use.Name), ",9),3))")
}

// Widths of a column of numbers, and the lines that its meaning may take.
const (
	narrow, broad = 11.5, 21.5
	mostHeadLines = 5
)

// headWidth is wide enough for a meaning not to stand as a tower.
func headWidth(means string) float64 {
	w := narrow
	for w < broad && lines(means, w, headSize) > mostHeadLines {
		w += 2
	}
	return w
}

// shortKey names a sheet beside its title, where there is room for few letters.
func shortKey(s *sheet.Sheet) string {
	if s.Key() == s.ID {
		return s.ID
	}
	return s.ID + " " + s.Key()[strings.LastIndex(s.Key(), "-")+1:]
}

// calcColumn is a column of a calculation sheet.
func (p *planner) calcColumn(s *sheet.Sheet, c *sheet.Column) *Column {
	col := &Column{Key: c.Name, Head: c.Symbol, Means: c.Means, Unit: c.UnitName(), Width: headWidth(c.Means)}
	if c.Type.Kind == expr.Text {
		col.Width = max(col.Width, 14)
	} else if col.Unit == "" {
		col.Unit = "1"
	}
	if c.List != "" {
		col.Head = c.List + " " + strconv.Itoa(c.Member+1)
	}
	switch c.Role {
	case sheet.Input, sheet.Override:
		col.Edit = true
		p.inputRules(s, c, col)
	default:
		col.Formula = p.pieces(s, s.Formula(c), "")
	}
	if c.Role == sheet.Step && c.UnitName() != "" {
		col.Look = Exact
	}
	if c.Role == sheet.Shown {
		col.Head += " shown"
	}
	return col
}

// inputRules offers choices, or keeps numbers within their physical bounds.
func (p *planner) inputRules(s *sheet.Sheet, c *sheet.Column, col *Column) {
	switch {
	case c.Of != "":
		t := p.r.Library.Table(c.Of)
		p.tables[c.Of] = true
		col.Choice = tableID(c.Of) + "/" + t.Key
		col.Width = 20
	case len(c.Choice) > 0:
		name := c.Name
		if c.List != "" {
			name = c.List
		}
		col.Choice = p.words(strings.ReplaceAll(s.Key(), "/", " ")+" "+name, c.Choice...)
	case c.Type.Kind == expr.Number:
		col.Bounds = bounds(c.Bounds)
	}
}

// bounds are the physical bounds, where both ends are known.
func bounds(b sheet.Bounds) *Bounds {
	if b.To == nil {
		return nil
	}
	switch {
	case b.From != nil:
		return &Bounds{*b.From, *b.To}
	case b.Above != nil:
		return &Bounds{*b.Above, *b.To}
	}
	return nil
}

func (p *planner) checkRow(b *Block, c *hazards.Check) *Row {
	row := &Row{ID: c.ID, Cells: make([]Cell, len(b.Columns))}
	of := c.Of
	if c.Shadow {
		of = "" // shown beside, never governs
	}
	inputs := inputsOf(c)
	for i, col := range b.Columns {
		row.Cells[i] = p.checkCell(c, col, of, inputs)
	}
	return row
}

func (p *planner) checkCell(c *hazards.Check, col *Column, of string, inputs map[string]*hazards.Input) Cell {
	switch col.Key {
	case refKey:
		return show(c.ID)
	case aboutKey:
		return Cell{Value: text(aboutCheck(c)), Leads: c.Note == ""} // a sentence is no link
	case usersKey:
		return leads(joined(p.usersOf(c)))
	case finalKey:
		return p.evidenceCell(c)
	case ofKey:
		return show(of)
	case markKey:
		if of == "" {
			return live(expr.Value{})
		}
		return live(text(of + "|" + string(c.Verdict)))
	case countsKey:
		if of == "" {
			return live(expr.Value{})
		}
		return live(text(string(c.Verdict)))
	case changedKey:
		return live(num(0))
	case adviceKey:
		return p.adviceCell(c, inputs)
	case lendsKey:
		return p.lendsCell(c, col)
	case copyKey:
		return p.copyCell(c)
	case togetherKey:
		return p.togetherCell(c)
	case cornerKey, nominalKey, nominalUseKey:
		return p.cornerCell(c, col.Key)
	case shownUseKey:
		return live(roundedUp(c.Outcome.Values[c.Sheet.Column("use").Slot]))
	}
	sc := c.Sheet.Column(col.Key)
	v := c.Outcome.Values[sc.Slot]
	switch sc.Role {
	case sheet.Input, sheet.Override:
		if p.beside(c) {
			return p.besideCell(c, sc, col, v, inputs[sc.Name])
		}
		return p.inputCell(c, sc, col, v, inputs[sc.Name])
	case sheet.Verd:
		return p.withheld(c, col, v, string(sheet.NotDecided))
	case sheet.Why:
		return p.withheld(c, col, v, hazards.TakesNothing)
	}
	return live(v)
}

// roundedUp is a share rounded up to a tenth of a per cent, after the noise is off.
func roundedUp(v expr.Value) expr.Value {
	if v.Kind != expr.Number {
		return v
	}
	return num(quantity.RoundUp(v.Num-0.5e-9, 0.001))
}

// usersOf lists the hazard rows that rest on a check or on its contact.
func (p *planner) usersOf(c *hazards.Check) []string {
	if u := p.users[c.ID]; u != nil || c.Of == c.ID {
		return u
	}
	return p.users[c.Of]
}

func aboutCheck(c *hazards.Check) string {
	var parts []string
	if c.Task != "" {
		parts = append(parts, c.Task)
	}
	if c.Shadow {
		parts = append(parts, "shown beside, does not govern")
	}
	if c.Note != "" {
		parts = append(parts, c.Note)
	}
	if c.Verdict == sheet.NotDecided && c.Why != c.Outcome.Why {
		parts = append(parts, c.Why)
	}
	if len(c.Points) > 0 {
		parts = append(parts, "measured: "+joined(c.Points))
	}
	return strings.Join(parts, " · ")
}

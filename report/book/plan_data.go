package book

import (
	"strings"

	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/sheet"
	"standclear/limits/table"
)

// Blocks of the sheet Data.
const (
	verdictsBlock  = "verdicts"
	orderBlock     = "verdict-order"
	actionsBlock   = "actions"
	constantsBlock = "constants"
)

// data plans what formulas look up: verdicts by id, tables, constants, choices.
func (p *planner) data() *Sheet {
	s := &Sheet{ID: "data", Name: "Data", About: "What the formulas look up. Each value stands with its source and its standing: confirmed by two public sources, single, practice or memory."}
	s.Blocks = append(s.Blocks, p.constants())
	for _, t := range p.tablesInUse() {
		s.Blocks = append(s.Blocks, tableBlock(t))
	}
	s.Blocks = append(s.Blocks, p.actions(), p.verdicts(), order())
	s.Blocks = append(s.Blocks, p.lists...)
	return s
}

// constants lists the constants in use; each has a name that formulas use.
func (p *planner) constants() *Block {
	b := &Block{ID: constantsBlock, Title: "Constants", Columns: []*Column{
		{Key: refKey, Head: "Name in formulas", Width: 28, Look: Ident},
		{Key: "symbol", Head: "Symbol", Width: 20},
		{Key: "value", Head: "Value", Width: 12, Unit: " "},
		{Key: "unit", Head: "Unit", Width: 12},
		{Key: "of", Head: "Sheet", Width: 14},
		{Key: "standing", Head: "Standing", Width: 14},
		{Key: "clause", Head: "Clause", Width: 14},
		{Key: "means", Head: "What it is, and its sources", Width: 12, Look: Wide},
	}}
	seen := map[string]bool{}
	for _, s := range p.inUse() {
		for _, c := range s.Consts {
			k := p.r.Library.Constant(c.Name, s)
			name := constName(k)
			if seen[name] {
				continue
			}
			seen[name] = true
			of := k.Of
			if of == "" {
				of = "all"
			}
			b.Rows = append(b.Rows, &Row{ID: name, Cells: []Cell{show(name), show(c.Symbol), {Value: k.Value}, show(k.Type.Unit.Name), show(of),
				show(string(k.Standing)), show(k.Clause), show(withSources(k.Means, k.Source))}})
			p.book.Names = append(p.book.Names, Name{name, Ref{Kind: At, Block: constantsBlock, Row: name, Key: "value"}})
		}
	}
	return b
}

func withSources(means string, sources []string) string {
	if len(sources) == 0 {
		return means
	}
	return means + "   [" + joined(sources) + "]"
}

// tableBlock shows a table. The standing of a column stands in its head, that
// of single cells, where it differs, in a column at the end.
func tableBlock(t *table.Table) *Block {
	b := &Block{ID: tableID(t.ID), Title: t.Title + " · " + t.Standard.String(), Note: t.Note}
	for i := range t.Columns {
		c := &t.Columns[i]
		col := &Column{Key: c.ID, Head: c.ID, Means: withStanding(c), Width: 14}
		if c.Type.Kind == expr.Number {
			col.Unit, col.Width = unitOr1(c.Type), 12
		}
		if i == 0 {
			col.Look, col.Width = Ident, 28
		}
		if c.Grid {
			at := c.At
			col.At = &at
		}
		b.Columns = append(b.Columns, col)
	}
	b.Columns = append(b.Columns, &Column{Key: "standing", Head: "Standing that differs", Width: 40})
	for i := range t.Rows {
		row := &Row{ID: t.RowKey(i)}
		var differs []string
		for k := range t.Columns {
			row.Cells = append(row.Cells, Cell{Value: t.Rows[i][k].Value})
			st := t.Rows[i][k].Standing
			if own := t.Rows[i][k].Own; own != nil {
				differs = append(differs, t.Columns[k].ID+": "+string(st)+" (the user's own, "+own.File+")")
			} else if st != t.Columns[k].Standing {
				differs = append(differs, t.Columns[k].ID+": "+string(st))
			}
		}
		row.Cells = append(row.Cells, show(joined(differs)))
		b.Rows = append(b.Rows, row)
	}
	return b
}

func unitOr1(t expr.Type) string {
	if t.Unit.Name == quantity.One.Name || t.Unit.Name == "" {
		return "1"
	}
	return t.Unit.Name
}

func withStanding(c *table.Column) string {
	out := c.Means
	if c.Standing != "" {
		out += "; " + string(c.Standing)
	}
	if len(c.Source) > 0 {
		out += " [" + joined(c.Source) + "]"
	}
	return strings.TrimPrefix(out, "; ")
}

// actions says what each level of the method asks for.
func (p *planner) actions() *Block {
	b := &Block{ID: actionsBlock, Title: "What each level asks for", Columns: []*Column{
		{Key: refKey, Head: "Level", Width: 28, Look: Ident}, {Key: "action", Head: "Action", Width: 20}, {Key: "means", Head: "In words", Width: 12, Look: Wide}}}
	if p.r.Method == nil {
		return b
	}
	b.Title += " · " + p.r.Method.Title
	for _, a := range p.r.Method.Actions {
		b.Rows = append(b.Rows, &Row{ID: a.Level, Cells: []Cell{show(a.Level), show(a.Action), show(a.Means)}})
	}
	return b
}

// verdicts lists everything that a hazard row can rest on, with its verdict.
func (p *planner) verdicts() *Block {
	b := &Block{ID: verdictsBlock, Helper: true, Title: "Verdict of everything a row can rest on", Columns: []*Column{
		{Key: refKey, Head: "Contact, check or function", Width: 28, Look: Ident},
		{Key: "kind", Head: "Kind", Width: 20}, {Key: "verdict", Head: "Verdict", Width: 14, Look: Word}}}
	for i := range p.r.Contacts {
		c := &p.r.Contacts[i]
		b.Rows = append(b.Rows, &Row{ID: c.ID, Cells: []Cell{show(c.ID), show("contact"),
			calc(text(string(c.Verdict)), formula("IFERROR(", find(contactsBlock, "verdict", own(idKey)), `,"")`))}})
	}
	for i := range p.r.Checks {
		c := &p.r.Checks[i]
		if c.Of != c.ID {
			continue
		}
		b.Rows = append(b.Rows, &Row{ID: c.ID, Cells: []Cell{show(c.ID), show(c.Sheet.ID),
			calc(text(string(c.Verdict)), formula("IFERROR(", find(c.Sheet.Key(), finalOf(c.Sheet), own(idKey)), `,"")`))}})
	}
	return b
}

// finalOf is the key of the verdict that counts.
func finalOf(s *sheet.Sheet) string {
	if s.Group == "contact" {
		return finalKey
	}
	return "verdict"
}

// verdictOf is the verdict of a contact, check or function.
func (p *planner) verdictOf(id string) sheet.Verdict {
	v, ok := p.verdict[id]
	if !ok {
		return sheet.NotDecided
	}
	return v
}

// order lists the verdicts, worst first.
func order() *Block {
	b := &Block{ID: orderBlock, Helper: true, Title: "Verdicts, worst first", Columns: []*Column{{Key: "verdict", Head: "Verdict", Width: 28, Look: Ident}}}
	for _, v := range sheet.Order {
		b.Rows = append(b.Rows, &Row{ID: string(v), Cells: []Cell{show(string(v))}})
	}
	return b
}

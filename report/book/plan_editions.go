package book

import (
	"slices"
	"strings"

	"standclear/hazards"
	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// Checks by other editions of their sheets stand in blocks of their own. Their
// rows take every input from the row of the check that counts, so that an edit
// there moves both; what only the other edition asks for may be typed in. They
// govern nothing and are not counted. A block in front holds both side by side.

// copyKey is a column that lists what has to come from a bought copy.
const copyKey = "needs|copy"

// worked lists all checks that have a row: those that count, then those beside.
func (p *planner) worked() []*hazards.Check {
	var out []*hazards.Check
	for i := range p.r.Checks {
		out = append(out, &p.r.Checks[i])
	}
	for i := range p.r.OtherEditions {
		out = append(out, &p.r.OtherEditions[i])
	}
	return out
}

// groupOfEditions tells whether a sheet of the workbook holds editions side by
// side: its blocks then have the same helpers, so that they hide the same columns.
func (p *planner) groupOfEditions(group string) bool {
	for i := range p.r.OtherEditions {
		if p.r.OtherEditions[i].Sheet.Group == group {
			return true
		}
	}
	return false
}

// checksOf lists at least the checks of a sheet, those beside among them.
func (p *planner) checksOf(s *sheet.Sheet) []hazards.Check {
	if !p.severalEditions(s) {
		return p.r.Checks
	}
	return slices.Concat(p.r.Checks, p.r.OtherEditions)
}

// rowsBeside adds the rows of checks that count by another edition.
func (p *planner) rowsBeside(b *Block, s *sheet.Sheet) {
	if len(b.Rows) == 0 {
		b.Title += " · beside, does not count"
	}
	for i := range p.r.OtherEditions {
		if c := &p.r.OtherEditions[i]; c.Sheet == s {
			b.Rows = append(b.Rows, p.checkRow(b, c))
		}
	}
}

// severalEditions tells whether rows of a sheet stand side by side with those of
// another edition.
func (p *planner) severalEditions(s *sheet.Sheet) bool {
	for i := range p.r.OtherEditions {
		o := &p.r.OtherEditions[i]
		if c := p.r.Check(o.Of); o.Sheet == s || c != nil && c.Sheet == s {
			return true
		}
	}
	return false
}

// besideCell is an input of a row by another edition: that of the row that counts,
// where its sheet has it.
func (p *planner) besideCell(c *hazards.Check, sc *sheet.Column, col *Column, v expr.Value, in *hazards.Input) Cell {
	counts := p.r.Check(c.Of)
	its := counts.Sheet.Column(sc.Name)
	if its == nil || its.Role != sheet.Input && its.Role != sheet.Override || in == nil && counts.Outcome.Values[its.Slot].Given() {
		return p.inputCell(c, sc, col, v, in)
	}
	if in != nil && in.Low.Given() && endKey(in) != endKey(inputsOf(counts)[sc.Name]) { // its worst corner is another one
		return p.inputCell(counts, sc, col, v, in)
	}
	cell := find(counts.Sheet.Key(), sc.Name, quoted(counts.ID))
	if in != nil && in.Takes() {
		return calc(v, p.takenBeside(c, counts, sc, in, cell))
	}
	return calc(v, orBlank(cell))
}

// takenBeside is a result of another check by the edition of the row, as long as
// nothing is typed over the one in the row that counts.
func (p *planner) takenBeside(c, counts *hazards.Check, sc *sheet.Column, in *hazards.Input, cell Formula) Formula {
	its := inputsOf(counts)[sc.Name]
	return formula("IF(", cell, "=", p.termsOnce(counts.Sheet, its.Terms, in.Pick, "", endKey(its)), ",",
		p.termsOnce(c.Sheet, in.Terms, in.Pick, "", endKey(in)), ",", orBlank(cell), ")")
}

// beside tells whether a check stands beside one that counts by another edition.
func (p *planner) beside(c *hazards.Check) bool { return c.Of != c.ID && p.r.Check(c.Of) != nil }

// copyColumn lists what is not public, nil where all of it is.
func (p *planner) copyColumn(s *sheet.Sheet) *Column {
	f := s.ToCopyFormula()
	if f == nil || !p.severalEditions(s) {
		return nil
	}
	return &Column{Key: copyKey, Head: "Not public", Means: "values to be entered from a bought copy", Width: 11.5, Look: Quiet, Hidden: true, Formula: p.pieces(s, f, "")}
}

func (p *planner) copyCell(c *hazards.Check) Cell {
	return live(text(strings.Join(c.Sheet.ToCopy(c.Outcome.Values), "; ")))
}

// editionBlocks hold the checks of a group by two editions side by side, one block
// for each pair of editions.
func (p *planner) editionBlocks(group string, below []*Block) []*Block {
	var blocks []*Block
	at := map[string]*Block{}
	for _, pair := range p.r.Pairs() {
		if pair.First.Sheet.Group != group {
			continue
		}
		a, b := pair.First.Sheet.Edition(), pair.Second.Sheet.Edition()
		id := "editions:" + a + ":" + b
		if at[id] == nil {
			at[id] = editionBlock(id, a, b)
			blocks = append(blocks, at[id])
		}
		at[id].Rows = append(at[id].Rows, p.editionRow(&pair))
	}
	for _, b := range blocks {
		b.stepOver(below)
	}
	return blocks
}

func editionBlock(id, a, b string) *Block {
	return &Block{ID: id, Short: "editions", Title: "Editions side by side · " + a + " and " + b,
		Note: "The same inputs by both editions. At least: an answer or a value that is not public is missing and can only add. What does not count is shown for comparison and governs nothing.",
		Columns: []*Column{
			{Key: refKey, Head: "Check", Width: 26, Look: Ident},
			{Key: "verdict|first", Head: "By " + a, Means: "verdict", Width: 24, Look: Word},
			{Key: "verdict|second", Head: "By " + b, Means: "verdict", Width: 15, Look: Word},
			{Key: "copy", Head: "Not public", Means: "to be entered from a bought copy", Width: 40},
			{Key: "differs", Head: "What is other", Means: "in " + b, Width: 30},
			{Key: "required|first", Head: "By " + a, Means: "distance required, rounded up", Unit: "mm", Width: 12},
			{Key: "required|second", Head: "By " + b, Means: "distance required, rounded up", Unit: "mm", Width: 15},
			{Key: "more", Head: "Difference", Means: b + " less " + a, Unit: "mm", Width: 11.5},
			{Key: "full|first", Head: "By " + a, Means: "in full, or at least", Width: 11.5},
			{Key: "full|second", Head: "By " + b, Means: "in full, or at least", Width: 11.5},
			{Key: "counts", Head: "Counts", Means: "edition that counts", Width: 14},
		}}
}

func (p *planner) editionRow(pair *hazards.Pair) *Row {
	a, b := p.editionSide(pair.First), p.editionSide(pair.Second)
	counts := p.r.Check(pair.Name())
	_, more := pair.Difference()
	difference := formula(`IFERROR(IF(OR(`, a.exact, `="",`, b.exact, `=""),"",`, b.exact, "-", a.exact, `),"")`)
	copies := b.copies
	if copies.Formula == nil {
		copies = a.copies
	}
	return &Row{ID: pair.Name() + "/editions", Cells: []Cell{leads(pair.Name()), a.verdict, b.verdict, copies, show(pair.Differs()),
		a.required, b.required, calc(more, difference), a.full, b.full, show(counts.Sheet.Edition())}}
}

// side is what the row of a check by one edition says.
type side struct {
	verdict, required, full, copies Cell
	exact                           Formula
}

func (p *planner) editionSide(c *hazards.Check) side {
	of := func(key string) Formula { return find(c.Sheet.Key(), key, quoted(c.ID)) }
	full := text("at least")
	if c.Lends() {
		full = text("in full")
	}
	out := side{verdict: calc(text(string(c.Verdict)), orBlank(of(finalOf(c.Sheet)))), exact: formula(`""`)}
	col, v := c.Held()
	if col != nil {
		shown := col.Name
		if c.Sheet.Column(shown+"_shown") != nil {
			shown += "_shown"
		}
		if !v.Given() {
			full = expr.Value{}
		}
		out.exact = of(col.Name)
		out.required = calc(c.Outcome.Value(shown), orBlank(of(shown)))
		out.full = calc(full, formula("IFERROR(IF(", of(col.Name), `="","",IF(`, of(lendsKey), `=1,"in full","at least")),"")`))
	}
	if c.Sheet.ToCopyFormula() != nil {
		out.copies = calc(text(strings.Join(c.Sheet.ToCopy(c.Outcome.Values), "; ")), orBlank(of(copyKey)))
	}
	return out
}

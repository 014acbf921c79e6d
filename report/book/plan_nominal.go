package book

import (
	"standclear/hazards"
	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// Tolerances in the workbook. A check looks each value up at the end of its
// tolerance at which it was worst when the workbook was built: low, high, or the
// value itself. Beside it, on a sheet of its own, stands the same check with every
// value as written. Both are live; which corner is the worst one is as built, and
// the cell that names it says so as soon as anything behind the check is edited.

const (
	typedBlock  = "typed-tolerances"
	nominalMark = "nominal:"

	cornerKey        = "corner|words"
	nominalKey       = "nominal|verdict"
	nominalUseKey    = "nominal|use"
	cornerOutOfDate  = "inputs changed, build again"
	mostWatched      = 60 // cells that the name of a corner watches one by one
	valueKey, usedAt = "value", "used"
	lowKey, highKey  = "low", "high"
)

func nominalID(s *sheet.Sheet) string { return nominalMark + s.Key() }

// nominal plans the checks with every value as written, nil where no check has a
// tolerance behind it.
func (p *planner) nominal() *Sheet {
	if len(p.r.Nominal) == 0 {
		return nil
	}
	s := &Sheet{ID: "nominal", Name: "Nominal",
		About: "Checks with tolerances behind them, with every value as written. They stand beside and decide nothing: each check counts at its worst corner."}
	s.Blocks = append(s.Blocks, p.typedTolerances())
	for _, calc := range p.sheets {
		if b := p.nominalBlock(calc); len(b.Rows) > 0 {
			s.Blocks = append(s.Blocks, b)
		}
	}
	alignHelpers(s.Blocks)
	if len(s.Blocks) > 1 { // its last columns stand beside the hidden ones of the blocks below
		_, mine := s.Blocks[0].hiddenRun()
		_, theirs := s.Blocks[1].hiddenRun()
		s.Blocks[0].hide(mine, theirs)
	}
	return s
}

// hasNominal tells whether any check of a sheet has a tolerance behind it.
func (p *planner) hasNominal(s *sheet.Sheet) bool {
	for i := range p.r.Nominal {
		if p.r.Nominal[i].Sheet == s {
			return true
		}
	}
	return false
}

// typedID is the row of a value that is typed into a check with a tolerance.
func typedID(c *hazards.Check, in *hazards.Input) string { return c.ID + "." + in.Name }

// typedLoose tells whether an input is a number with a tolerance typed into a check.
func (p *planner) typedLoose(c *hazards.Check, in *hazards.Input) bool {
	return in.Low.Given() && in.Value.Given() && !hasPath(in.Terms) && p.r.NominalOf(c.ID) != nil
}

// typedTolerances are values typed into checks, each with its tolerance.
func (p *planner) typedTolerances() *Block {
	b := &Block{ID: typedBlock, Title: "Values with a tolerance that are typed into checks", Columns: []*Column{
		{Key: refKey, Head: "Check and input", Width: 26, Look: Ident},
		{Key: "means", Head: "What it is", Width: 24},
		{Key: valueKey, Head: "Value", Width: 15, Edit: true},
		{Key: "unit", Head: "Unit", Width: 15},
		{Key: "tol", Head: "±", Width: 9, Edit: true},
		{Key: changedKey, Head: "Edited", Width: 8, Look: Count, Hidden: true, Watch: []string{valueKey, "tol"}},
		{Key: lowKey, Head: "Lowest", Width: 14, Formula: endFormula("-")},
		{Key: highKey, Head: "Highest", Width: 14, Formula: endFormula("+")},
	}}
	for i := range p.r.Checks {
		c := &p.r.Checks[i]
		for _, col := range c.Sheet.Columns {
			in := inputsOf(c)[col.Name]
			if in == nil || !p.typedLoose(c, in) {
				continue
			}
			tol := 0.0
			for _, t := range in.Terms {
				tol += t.Tol
			}
			b.Rows = append(b.Rows, &Row{ID: typedID(c, in), Cells: []Cell{show(c.ID + "." + col.Symbol), show(col.Means), edit(in.Nominal), show(col.UnitName()),
				edit(num(tol)), live(num(0)), live(in.Low), live(in.High)}})
		}
	}
	return b
}

// endFormula is the value with its tolerance added or taken off.
func endFormula(sign string) Formula {
	return formula("IF(", own(valueKey), `="","",IF(NOT(ISNUMBER(`, own(valueKey), ")),"+noNumber+",IF(", own("tol"), `="",`, own(valueKey),
		",IF(NOT(ISNUMBER(", own("tol"), ")),"+noNumber+",IF(", own("tol"), "<0,"+noNumber+",", own(valueKey), sign, own("tol"), ")))))")
}

// endKey is the column of a value that an input looks up: the end at which it was
// worst, the value itself, or, where there was no tolerance when the workbook was
// built, the end that would be expected to be the worse one.
func endKey(in *hazards.Input) string {
	end := in.End
	if !in.Low.Given() {
		if end = in.Expected(); end == "" {
			return usedAt
		}
	}
	switch end {
	case hazards.Up:
		return highKey
	case hazards.Down:
		return lowKey
	}
	return valueKey
}

func (p *planner) nominalBlock(s *sheet.Sheet) *Block {
	verdict, why, use, rule := s.Column("verdict"), s.Column("why"), s.Column("use"), s.Column("rule")
	b := &Block{ID: nominalID(s), Short: shortKey(s), Title: s.Title + " · " + s.Standard.String(), Columns: []*Column{
		{Key: refKey, Head: "Check", Width: 26, Look: Ident},
		{Key: aboutKey, Head: "Corner that counts, as built", Width: 24},
		{Key: verdict.Name, Head: "At nominal", Width: 15, Look: Word, Formula: p.pieces(s, s.Formula(verdict), "")},
		{Key: shownUseKey, Head: "Use", Means: use.Means, Width: 9, Look: Share, Formula: shownUse(use)},
		{Key: why.Name, Head: "Why", Width: 40, Formula: p.pieces(s, s.Formula(why), "")},
		{Key: rule.Name, Head: "Rule", Means: rule.Means, Width: 8, Look: Count, Hidden: true, Formula: p.pieces(s, s.Formula(rule), "")},
		{Key: use.Name, Head: "Use, exact", Width: 9, Look: Quiet, Hidden: true, Formula: p.pieces(s, s.Formula(use), "")},
	}}
	if lends := p.lendsColumn(s); lends != nil {
		b.Columns = append(b.Columns, lends)
	}
	if together := p.togetherColumn(s); together != nil {
		b.Columns = append(b.Columns, together)
	}
	for _, c := range s.Columns {
		if c.Role == sheet.Rule || c.Role == sheet.Verd || c.Role == sheet.Why || c.Role == sheet.Use {
			continue
		}
		col := p.calcColumn(s, c)
		col.Edit, col.Bounds = false, nil
		b.Columns = append(b.Columns, col)
	}
	hideUnused(s, b, p.r.Nominal)
	for i := range p.r.Nominal {
		if n := &p.r.Nominal[i]; n.Sheet == s {
			b.Rows = append(b.Rows, p.nominalRow(b, n))
		}
	}
	return b
}

func (p *planner) nominalRow(b *Block, n *hazards.Check) *Row {
	row := &Row{ID: n.ID, Cells: make([]Cell, len(b.Columns))}
	inputs := inputsOf(n)
	for i, col := range b.Columns {
		sc := n.Sheet.Column(col.Key)
		switch {
		case col.Key == aboutKey:
			row.Cells[i] = show(p.r.Check(n.ID).Corner)
		case sc != nil && (sc.Role == sheet.Input || sc.Role == sheet.Override):
			row.Cells[i] = p.nominalInput(n, sc, col, inputs[sc.Name])
		default:
			row.Cells[i] = p.checkCell(n, col, "", inputs)
		}
	}
	return row
}

// nominalInput is an input as written: of a tolerance the value, of another check
// the result at its nominal values, and whatever else from the row of the check.
func (p *planner) nominalInput(n *hazards.Check, sc *sheet.Column, col *Column, in *hazards.Input) Cell {
	v := n.Outcome.Values[sc.Slot]
	var f Formula
	switch {
	case in != nil && in.Low.Given() && !hasPath(in.Terms):
		f = orBlank(find(typedBlock, valueKey, quoted(typedID(n, in))))
	case in != nil && (in.Low.Given() || in.Takes()):
		f = p.terms(n.Sheet, in.Terms, in.Pick, col.Choice, valueKey)
		for _, t := range in.Terms {
			if p.chosen(n, t.Path) {
				f = formula("IF(", p.stillGoverns(n, t.Path), ",", f, `,"")`)
			}
		}
	default:
		return calc(v, orBlank(find(n.Sheet.Key(), sc.Name, quoted(n.ID))))
	}
	if in.With != nil {
		f = whenTogether(f)
	}
	return calc(v, f)
}

// cornerColumns name the corner of each check and what stands beside it, nil
// where no check of the sheet has a tolerance.
func (p *planner) cornerColumns(s *sheet.Sheet) []*Column {
	if !p.hasNominal(s) {
		return nil
	}
	return []*Column{
		{Key: cornerKey, Head: "Corner", Means: "ends of tolerances that count, as built", Width: 24},
		{Key: nominalKey, Head: "At nominal", Means: "with every value as written", Width: 15, Look: Word},
		{Key: nominalUseKey, Head: "Use at nominal", Width: 11.5, Look: Share},
	}
}

func (p *planner) cornerCell(c *hazards.Check, key string) Cell {
	n := p.r.NominalOf(c.ID)
	if n == nil || c.Shadow {
		return Cell{}
	}
	look := func(key string) Formula { return orBlank(find(nominalID(c.Sheet), key, quoted(c.ID))) }
	switch key {
	case nominalKey:
		return calc(text(string(n.Outcome.Verdict)), look("verdict"))
	case nominalUseKey:
		return calc(roundedUp(n.Outcome.Value("use")), look(shownUseKey))
	}
	test := formula("OR(", own(changedKey), "<>0")
	w := &behind{p: p, seen: map[string]bool{}}
	cells := w.check(c)
	if len(cells) > mostWatched { // a formula has an end: then any edit counts
		cells = []Formula{formula(edits())}
	}
	for _, f := range cells {
		test = test.plus(",", f, "<>0")
	}
	return calc(text(c.Corner), formula("IFERROR(IF(", test, "),"+quoted(cornerOutOfDate)+",", quoted(c.Corner), "),"+quoted(cornerOutOfDate)+")"))
}

// behind gathers the cells that tell whether what a check rests on was edited.
type behind struct {
	p    *planner
	seen map[string]bool
}

func (w *behind) check(c *hazards.Check) (list []Formula) {
	if w.seen["check "+c.ID] {
		return nil
	}
	w.seen["check "+c.ID] = true
	for _, sc := range c.Sheet.Columns {
		in := inputsOf(c)[sc.Name]
		if in == nil {
			continue
		}
		if w.p.typedLoose(c, in) {
			list = append(list, find(typedBlock, changedKey, quoted(typedID(c, in))))
		}
		for _, t := range in.Terms {
			if from := w.p.r.Check(t.Check); t.Check != "" && from != nil {
				list = append(list, w.lender(from)...)
				list = append(list, w.check(from)...)
			} else if t.Path != "" {
				list = append(list, w.fact(t.Path)...)
			}
		}
	}
	return list
}

// lender is the row of a check that gives a result, where a look-up does not go
// round in a circle: it names the cell.
func (w *behind) lender(c *hazards.Check) []Formula {
	if w.seen["row "+c.ID] {
		return nil
	}
	w.seen["row "+c.ID] = true
	return []Formula{formula(Part{Ref: Ref{Kind: At, Block: c.Sheet.Key(), Row: c.ID, Key: changedKey}})}
}

func (w *behind) fact(path string) (list []Formula) {
	f := w.p.r.Fact(path)
	if f == nil || f.Kind == "point" || w.seen[path] {
		return nil
	}
	w.seen[path] = true
	list = append(list, find(w.p.blockOf(path), changedKey, quoted(path)))
	for _, t := range f.Terms {
		if t.Path != "" {
			list = append(list, w.fact(t.Path)...)
		}
	}
	return list
}

// lentAt is the block in which a result is looked up: in that of nominal values
// where the check that gives it has a row there.
func (p *planner) lentAt(t hazards.Term, key string) string {
	from := p.lender[t.Check]
	if key == valueKey && p.r.NominalOf(t.Check) != nil {
		return nominalID(from)
	}
	return from.Key()
}

// tolOf is the tolerance of a fact that is typed in.
func tolOf(f *hazards.Fact) Cell {
	switch {
	case f.HasTol:
		return edit(num(f.Tol))
	case f.Worse != "":
		return edit(expr.Value{})
	}
	return Cell{}
}

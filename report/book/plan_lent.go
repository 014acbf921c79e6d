package book

import (
	"standclear/hazards"
	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// Results of a check that other checks take are looked up by the id of its row,
// like values of the cell. Whether it lends them stands in a column of its own,
// which only blocks have whose results are taken.

const lendsKey = "lends|results"

// findLinks notes which checks are taken from, and which sheets take from which.
func (p *planner) findLinks() {
	sheetOf := map[string]*sheet.Sheet{}
	for _, c := range p.worked() {
		sheetOf[c.ID] = c.Sheet
	}
	for _, c := range p.worked() {
		for _, in := range inputsOf(c) {
			for _, t := range in.Terms {
				if from := sheetOf[t.Check]; t.Check != "" && from != nil {
					p.lender[t.Check] = from
					if p.takes[c.Sheet] == nil {
						p.takes[c.Sheet] = map[*sheet.Sheet]bool{}
					}
					p.takes[c.Sheet][from] = true
				}
			}
		}
	}
}

// leadsTo tells whether results of a sheet, directly or over others, are made of
// those of another one, or are of the same.
func (p *planner) leadsTo(from, to *sheet.Sheet, seen map[*sheet.Sheet]bool) bool {
	if from == to {
		return true
	}
	if seen[from] {
		return false
	}
	seen[from] = true
	for next := range p.takes[from] {
		if p.leadsTo(next, to, seen) {
			return true
		}
	}
	return false
}

// lent is the cell of a result in the row of the check that a term names, and
// the cell that says whether it is lent. Where the two blocks are made of each
// other a look-up over whole columns would go round in a circle: there the row is
// named, and holds for its id, so that after sorting it gives nothing and never
// the result of another check.
func (p *planner) lent(taker *sheet.Sheet, t hazards.Term) Formula {
	return p.lentFrom(taker, t, p.lender[t.Check].Key())
}

// lentFrom takes it from the row of a block, see lentAt.
func (p *planner) lentFrom(taker *sheet.Sheet, t hazards.Term, block string) Formula {
	from := p.lender[t.Check]
	cell := func(key string) Formula { return find(block, key, quoted(t.Check)) }
	if p.leadsTo(from, taker, map[*sheet.Sheet]bool{}) {
		cell = func(key string) Formula {
			return formula(Part{Ref: Ref{Kind: At, Block: block, Row: t.Check, Key: key}})
		}
		return formula("IF(EXACT(", cell(idKey), ",", quoted(t.Check), "),IF(", cell(lendsKey), "=1,", cell(t.Column), `,""),"")`)
	}
	return formula("IF(", cell(lendsKey), "=1,", cell(t.Column), `,"")`)
}

// lendsColumn says whether the results of a row are lent, nil where none is taken
// and no sheet of its group stands in several editions.
func (p *planner) lendsColumn(s *sheet.Sheet) *Column {
	if p.groupOfEditions(s.Group) {
		return p.lendsOf(s)
	}
	for _, from := range p.lender {
		if from == s {
			return p.lendsOf(s)
		}
	}
	return nil
}

func (p *planner) lendsOf(s *sheet.Sheet) *Column {
	return &Column{Key: lendsKey, Head: "Lends", Means: "1: its results may be taken by other checks", Width: 8, Look: Count, Hidden: true,
		Formula: p.pieces(s, s.LendsFormula(), "")}
}

// lendsCell is 0 as well where the row takes a result that is not lent itself.
func (p *planner) lendsCell(c *hazards.Check, col *Column) Cell {
	yes, _ := c.Sheet.Lends(c.Outcome.Values)
	f := col.Formula
	if empty, some := p.notGiven(c); empty != nil {
		f, yes = formula("IF(", empty, ",0,", f, ")"), yes && !some
	}
	if yes {
		return calc(num(1), f)
	}
	return calc(num(0), f)
}

// togetherKey is a column of blocks in which figures of parts wait for each
// other, see hazards.Together. It looks at the checks that give them and not at
// its own row, where they would go round in a circle.
const togetherKey = "together|parts"

// togetherColumn tells whether the parts of a row have all that they wait for, nil
// where none waits.
func (p *planner) togetherColumn(s *sheet.Sheet) *Column {
	for i := range p.r.Checks {
		if c := &p.r.Checks[i]; c.Sheet == s && waits(c) != nil {
			return &Column{Key: togetherKey, Head: "Together", Means: "1: every part has its figures", Width: 8, Look: Count, Hidden: true}
		}
	}
	return nil
}

// waits is what the parts of a check wait for, nil for nothing.
func waits(c *hazards.Check) *hazards.Together {
	for i := range c.Inputs {
		for k := range c.Inputs[i].Members {
			if t := c.Inputs[i].Members[k].With; t != nil {
				return t
			}
		}
	}
	return nil
}

func (p *planner) togetherCell(c *hazards.Check) Cell {
	t := waits(c)
	if t == nil {
		return Cell{}
	}
	test := formula("IF(AND(TRUE()")
	for _, x := range t.Given {
		test = test.plus(",", p.lent(c.Sheet, x), `<>""`)
	}
	for _, x := range t.Absent {
		test = test.plus(",", p.lent(c.Sheet, x), `=""`)
	}
	for i := 1; i < len(t.Alike); i++ {
		test = test.plus(",(", p.lent(c.Sheet, t.Alike[i]), `="")=(`, p.lent(c.Sheet, t.Alike[0]), `="")`)
	}
	test = test.plus("),1,0)")
	if t.There {
		return calc(num(1), test)
	}
	return calc(num(0), test)
}

// notGiven tests whether a result that a row takes, and cannot do without, is
// not there; nil where it takes none.
func (p *planner) notGiven(c *hazards.Check) (test Formula, now bool) {
	for _, in := range c.Taken() {
		if test != nil {
			test = test.plus(",")
		}
		test = test.plus(own(in.Name), `=""`)
		now = now || !in.Value.Given()
	}
	if test == nil {
		return nil, false
	}
	return formula("OR(", test, ")"), now
}

// withheld is a cell of verdict or reason: where no rule of the sheet speaks and
// a result that the row takes is not there, it decides nothing.
func (p *planner) withheld(c *hazards.Check, col *Column, v expr.Value, instead string) Cell {
	empty, _ := p.notGiven(c)
	if empty == nil {
		return live(v)
	}
	rule := c.Sheet.Column("rule").Name
	return calc(v, formula("IF(AND(", own(rule), "=0,", empty, "),", quoted(instead), ",", col.Formula, ")"))
}

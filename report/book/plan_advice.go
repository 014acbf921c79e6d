package book

import (
	"math"

	"standclear/hazards"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/report/words"
)

// What would make a check hold is found by trying and has no formula: it is built
// in. As soon as an input of its row, or a value behind one, is no longer what it
// was the sentence no longer follows, and the cell says so.

const adviceKey = "would-hold"

// adviceColumn has the formula of rows that hold with room to spare: nothing to
// say as long as they do.
func adviceColumn(verdict string) *Column {
	c := &Column{Key: adviceKey, Head: "Would hold", Means: "built: what would make it hold, or how far inputs may go", Width: 34}
	c.Formula = formula("IF(OR(FALSE()")
	for _, v := range sheet.Order {
		if v.Holds() {
			c.Formula = c.Formula.plus(",", own(verdict), "="+quoted(string(v)))
		}
	}
	c.Formula = c.Formula.plus(`),"",`, quoted(againText), ")")
	return c
}

func (p *planner) adviceCell(c *hazards.Check, inputs map[string]*hazards.Input) Cell {
	s := words.Default().Advice(c.Advice, c.Model)
	if k := p.r.Contact(c.Of); s == "" && c.Verdict.Holds() && (k == nil || k.Advice == nil) {
		return live(text(""))
	}
	return calc(text(s), formula("IFERROR(IF(AND(", own(changedKey), "=0", unmoved(c, inputs), "),"+quoted(s)+","+quoted(againText)+"),"+quoted(againText)+")"))
}

// asBuiltNoise is how far a number may be off that is added up in a cell.
const asBuiltNoise = 1e-9

// unmoved adds conditions that the inputs of a check are what they were. Those
// that were left empty count as edited once something is typed in.
func unmoved(c *hazards.Check, inputs map[string]*hazards.Input) Formula {
	f := make(Formula, 0, 4*len(c.Sheet.Columns))
	for _, col := range c.Sheet.Columns {
		if col.Role != sheet.Input && col.Role != sheet.Override {
			continue
		}
		switch v := c.Outcome.Values[col.Slot]; v.Kind {
		case expr.Number:
			f = f.plus(",ABS(", own(col.Name), "-"+plainNumber(v.Num)+")<="+plainNumber(asBuiltNoise*math.Abs(v.Num)))
		case expr.Text:
			f = f.plus(",EXACT(", own(col.Name), ","+quoted(v.Text)+")")
		default:
			if inputs[col.Name] != nil {
				f = f.plus(",", own(col.Name), `=""`)
			}
		}
	}
	return f
}

// contactAdvice stands as long as that of every check of the contact does.
func (p *planner) contactAdvice(c *hazards.Contact) Cell {
	s := words.Default().Advice(c.Advice, true)
	if s == "" && c.Verdict.Holds() {
		return live(text(""))
	}
	f := formula("IF(", own(changedKey))
	for _, calc := range p.contactSheets() {
		f = f.plus("+COUNTIFS(", all(calc.Key(), ofKey), ",", own(refKey), ",", all(calc.Key(), adviceKey), ","+quoted(againText)+")")
	}
	return calc(text(s), f.plus("=0,"+quoted(s)+","+quoted(againText)+")"))
}

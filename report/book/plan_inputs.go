package book

import (
	"fmt"
	"strconv"

	"standclear/hazards"
	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// inputsOf gives the inputs of a check by column.
func inputsOf(c *hazards.Check) map[string]*hazards.Input {
	out := make(map[string]*hazards.Input, len(c.Inputs))
	for i := range c.Inputs {
		in := &c.Inputs[i]
		if len(in.Members) == 0 {
			out[in.Name] = in
		}
		for k := range in.Members {
			out[in.Members[k].Name] = &in.Members[k]
		}
	}
	return out
}

// inputCell is an input: typed in, or looked up where it is written once.
// Typing over a look-up replaces it.
func (p *planner) inputCell(c *hazards.Check, sc *sheet.Column, col *Column, v expr.Value, in *hazards.Input) Cell {
	if sc.Name == "head" && p.contactOf(c) != nil {
		return Cell{Value: v, Live: true, Edit: true, Formula: orBlank(find(contactsBlock, "head", quoted(c.Of)))}
	}
	switch {
	case in == nil:
		return edit(v)
	case sc.Name == "edges" && c.Spot != "" && !hasPath(in.Terms):
		return show(in.Text) // of a point, as it stands in the file
	case p.typedLoose(c, in):
		f := formula("IFERROR(", find(typedBlock, endKey(in), quoted(typedID(c, in))), `,"")`)
		if in.With != nil {
			f = whenTogether(f)
		}
		return Cell{Value: v, Live: true, Edit: true, Formula: f}
	case !hasPath(in.Terms) && in.With != nil && in.Held.Kind == expr.Text:
		return Cell{Value: v, Live: true, Edit: true, Formula: whenTogether(formula(quoted(in.Held.Text)))}
	case !hasPath(in.Terms) && in.With != nil && in.Held.Given():
		return Cell{Value: v, Live: true, Edit: true, Formula: whenTogether(formula(plainNumber(in.Held.Num)))}
	case !hasPath(in.Terms):
		return edit(v)
	}
	f := p.termsOnce(c.Sheet, in.Terms, in.Pick, col.Choice, endKey(in))
	for _, t := range in.Terms {
		if p.chosen(c, t.Path) {
			f = formula("IF(", p.stillGoverns(c, t.Path), ",", f, `,"")`)
		}
	}
	if in.With != nil {
		f = whenTogether(f)
	}
	return Cell{Value: v, Live: true, Edit: true, Formula: f}
}

// whenTogether is a figure of a part that waits for those of the others.
func whenTogether(f Formula) Formula { return formula("IF(", own(togetherKey), "=1,", f, `,"")`) }

func (p *planner) contactOf(c *hazards.Check) *hazards.Contact {
	for i := range p.r.Contacts {
		if p.r.Contacts[i].ID == c.Of {
			return &p.r.Contacts[i]
		}
	}
	return nil
}

func hasPath(terms []hazards.Term) bool {
	for _, t := range terms {
		if t.Path != "" {
			return true
		}
	}
	return false
}

// termsOnce gives inputs that come from the same facts one formula.
func (p *planner) termsOnce(taker *sheet.Sheet, terms []hazards.Term, pick, choices, end string) Formula {
	key := fmt.Sprint(terms, pick, choices, end)
	for _, t := range terms {
		if t.Check != "" { // how it is looked up depends on who asks
			key += "|" + taker.Key()
			break
		}
	}
	f, ok := p.summed[key]
	if !ok {
		f = p.terms(taker, terms, pick, choices, end)
		p.summed[key] = f
	}
	return f
}

// terms adds up facts of the cell at one end, and numbers, or picks the worst of them.
// Anything absent makes the sum absent; a pick leaves out what is absent, but not
// what has no number.
func (p *planner) terms(taker *sheet.Sheet, terms []hazards.Term, pick, choices, end string) Formula {
	switch pick {
	case hazards.PickWorst:
		return p.worstWord(terms, choices)
	case hazards.PickMax:
		var list, spoilt Formula
		for i, t := range terms {
			list = list.plus(comma(i), p.termOf(t, end))
			spoilt = spoilt.plus(comma(i), p.termOf(hazards.Term{Path: t.Path, Value: t.Value, Factor: 1}, end), "="+noNumber)
		}
		return formula("IF(OR(", spoilt, "),"+noNumber+",IF(COUNT(", list, `)=0,"",MAX(`, list, ")))")
	}
	if len(terms) == 1 && terms[0].Factor == 1 {
		return formula("IFERROR(", p.addend(taker, terms[0], end), `,"")`)
	}
	sum := formula("IFERROR(")
	for i, t := range terms {
		if i > 0 {
			sum = append(sum, lit("+"))
		}
		sum = sum.plus(p.addend(taker, t, end))
	}
	return append(sum, lit(`,"")`))
}

func comma(i int) string {
	if i == 0 {
		return ""
	}
	return ","
}

// addend is a term of a sum: a fact, a number, or a result of another check.
func (p *planner) addend(taker *sheet.Sheet, t hazards.Term, end string) Formula {
	switch {
	case t.Check == "":
		return p.termOf(t, end)
	case t.Factor != 1:
		return p.lentFrom(taker, t, p.lentAt(t, end)).plus("*", plainNumber(t.Factor))
	}
	return p.lentFrom(taker, t, p.lentAt(t, end))
}

// termOf takes a column of the fact that a term points at. What was measured
// stands on the sheet Validation.
func (p *planner) termOf(t hazards.Term, key string) Formula {
	if t.Path == "" {
		return formula(plainNumber((t.Value + map[string]float64{lowKey: -1, highKey: 1}[key]*t.Tol) * t.Factor))
	}
	if p.blockOf(t.Path) == wordsBlock {
		key = usedAt
	}
	f := find(p.blockOf(t.Path), key, quoted(t.Path))
	if p.kind[t.Path] == "point" {
		f = p.pointValue(t.Path)
	}
	if t.Factor != 1 {
		f = f.plus("*", plainNumber(t.Factor))
	}
	return f
}

// worstWord takes the word that stands last in the list of choices.
func (p *planner) worstWord(terms []hazards.Term, choices string) Formula {
	list := choiceRange(choices)
	var places Formula
	for i, t := range terms {
		places = places.plus(comma(i), "IFERROR(MATCH(", p.termOf(t, usedAt), ",", list, ",0),0)")
	}
	return formula("IF(MAX(", places, `)=0,"",INDEX(`, list, ",MAX(", places, ")))")
}

// plainNumber writes a number into a formula.
func plainNumber(x float64) string {
	s := strconv.FormatFloat(round15(x), 'G', -1, 64)
	if x < 0 {
		return "(" + s + ")"
	}
	return s
}

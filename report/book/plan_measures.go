package book

import "standclear/limits/expr"

const measuresBlock = "measures"

// plannedKey marks the row of a measure that is still planned.
const plannedKey = "row|planned"

// measures plans one row for each measure.
func (p *planner) measures() *Sheet {
	b := &Block{ID: measuresBlock, Columns: []*Column{
		{Key: refKey, Head: "Measure", Width: 10, Look: Ident},
		{Key: "hazard", Head: "Row", Width: 9, Edit: true},
		{Key: "step", Head: "Step", Width: 12, Edit: true, Choice: p.words("step", "design", "safeguard", "information")},
		{Key: "kind", Head: "Kind", Width: 20, Edit: true},
		{Key: "what", Head: "What is done", Width: 46, Edit: true},
		{Key: "lowers", Head: "Lowers", Width: 16, Edit: true},
		{Key: "shown_by", Head: "Shown by", Width: 24, Edit: true},
		{Key: "why_not_earlier", Head: "Why not a measure of an earlier step", Width: 36, Edit: true},
		{Key: "state", Head: "State", Width: 10, Edit: true, Choice: p.words("state of a measure", "planned", "in-place")},
		{Key: "status", Head: "Status of the row", Width: 12, Look: Word,
			Formula: formula("IF(", own("hazard"), `="","",IFERROR(`, find(hazardsBlock, "status", own("hazard")), `,""))`)},
		{Key: plannedKey, Head: "Row, while planned", Width: 10, Hidden: true, Look: Quiet, Formula: unlessInPlace("FALSE()")},
		{Key: changedKey, Head: "Edited", Width: 8, Look: Count, Hidden: true, Watch: []string{"hazard", "state"}},
	}}
	for i := range p.r.Rows {
		r := &p.r.Rows[i]
		for k := range r.Spec.Measures {
			m := &r.Spec.Measures[k]
			planned := live(expr.Value{})
			if m.State == "planned" {
				planned.Value = text(r.ID)
			}
			if m.State == "" { // nothing was said as built, and may stay so
				planned = calc(expr.Value{}, unlessInPlace(own("state"), `=""`))
			}
			b.Rows = append(b.Rows, &Row{ID: m.ID, Cells: []Cell{show(m.ID), {Value: text(r.ID), Edit: true, Leads: true}, edit(text(m.Step)),
				edit(text(m.Kind)), edit(text(m.What)), edit(text(joined(m.Lowers))), {Value: text(joined(m.ShownBy)), Edit: true, Leads: true},
				edit(text(m.WhyNotEarlier)), edit(text(m.State)), live(text(r.Status)), planned, live(num(0))}})
		}
	}
	b.addSpare(func(string) expr.Value { return expr.Value{} })
	return &Sheet{ID: "measures", Name: "Measures", Blocks: []*Block{b},
		About: "Measures in the order design, safeguards, information. A measure of the third step says why none of an earlier step does."}
}

// unlessInPlace names the row of a measure, unless the measure is in place or
// something else holds. Any other word counts as planned.
func unlessInPlace(or ...any) Formula {
	return formula("IF(OR(", own("hazard"), `="",EXACT(`, own("state"), `,"in-place"),`, formula(or...), `),"",`, own("hazard"), ")")
}

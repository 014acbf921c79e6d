package book

import (
	"standclear/hazards"
	"standclear/hazards/identify"
	"standclear/limits/expr"
)

const identBlock = "identification"

// States of an entry of the catalogue.
const (
	entryOpen     = "open"
	entryAnswered = "answered"
	entryAside    = "set aside"
)

// identification plans the entries of the catalogue that apply to the cell, with
// what bears witness and what answers them.
func (p *planner) identification() *Sheet {
	b := &Block{ID: identBlock, Columns: []*Column{
		{Key: refKey, Head: "Hazard", Width: 19, Look: Ident},
		{Key: "family", Head: "Family", Width: 12},
		{Key: "event", Head: "Situation and event", Width: 44}, {Key: "harm", Head: "Harm", Width: 21},
		{Key: "why", Head: "Why it applies here", Width: 31},
		{Key: "state", Head: "State", Width: 10, Look: Word, Formula: entryState()},
		{Key: "rows", Head: "Answered by rows", Width: 13, Edit: true},
		{Key: "aside", Head: "Set aside because", Width: 24, Edit: true},
		{Key: "built", Head: "As built", Width: 10, Hidden: true},
		{Key: changedKey, Head: "Edited", Width: 8, Look: Count, Hidden: true, Watch: []string{"rows", "aside"}},
	}}
	for i := range p.r.Hazards {
		s := &p.r.Hazards[i]
		b.Rows = append(b.Rows, &Row{ID: "entry." + s.Entry.ID, Cells: entryCells(s)})
	}
	if len(b.Rows) == 0 {
		b.Rows = append(b.Rows, &Row{Cells: []Cell{show("none")}})
	}
	return &Sheet{ID: identBlock, Name: "Identification", Blocks: []*Block{b},
		About: "Hazards of the catalogue that apply to this cell, and why. Each is answered by a row or set aside with a reason. The list helps to think; it does not replace looking at the cell with the people who work there."}
}

// entryState: a reason sets the entry aside; rows answer it, if the first named
// is a row and as built they answer every witness or were typed in since.
func entryState() Formula {
	first := formula("TRIM(LEFT(", own("rows"), ",FIND(\",\",", own("rows"), "&\",\")-1))")
	return formula("IF(TRIM(", own("aside"), `)<>"","`+entryAside+`",IF(OR(`, first, `="",SUMPRODUCT(--(`, all(hazardsBlock, refKey), "=", first, "))=0,AND(",
		own("built"), `="`+entryOpen+`",`, own(changedKey), `=0)),"`+entryOpen+`","`+entryAnswered+`"))`)
}

func entryCells(s *identify.Suggestion) []Cell {
	e := s.Entry
	state, aside := entryOpen, ""
	switch {
	case s.NotApplicable():
		state, aside = entryAside, s.Aside()
	case s.Answered():
		state = entryAnswered
	}
	why := s.Why()
	if near := s.Near(); near != "" {
		why += ". " + near
	}
	return []Cell{show(e.ID), show(e.Family), show(e.Situation + "; " + e.Event), show(e.Harm), show(why),
		live(text(state)), edit(text(joined(s.Rows()))), edit(text(aside)), show(state), {Value: expr.Value{Kind: expr.Number}, Live: true}}
}

// openEntries counts the entries that nothing answers.
func openEntries() Formula {
	return formula("COUNTIF(", all(identBlock, "state"), `,"`+entryOpen+`")`)
}

// openEntriesAsBuilt is the same as the program counts it.
func openEntriesAsBuilt(r *hazards.Result) expr.Value { return num(float64(r.Counts.OpenHazards)) }

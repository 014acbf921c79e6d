package book

import (
	"strings"

	"standclear/hazards"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/report/words"
)

// Widths of the columns, which all blocks of the sheet share; a page takes them
// side by side.
const (
	handID    = 21.0
	handShort = 14.0
	handLong  = 33.0
	handText  = 19.0
)

// missingWord stands where nobody has said where a paper is.
const missingWord = "missing"

// handOver plans what leaves the house with the cell. It is read, not edited:
// texts are those of the file and of the places, levels and times are live.
func (p *planner) handOver() *Sheet {
	h := &p.r.HandOver
	return &Sheet{ID: "handover", Name: "Hand-over", About: "What leaves the house with the cell: risks that remain and who is told, upkeep, training, papers. Change it in the assessment file.",
		Blocks: []*Block{p.tell(), p.gaps(), p.upkeep(), p.training(), p.asked(),
			papers("technical-file", "Index of the technical file", h.Papers), papers("declarations", "Declarations for the role", h.Declarations)}}
}

func (p *planner) tell() *Block {
	b := &Block{ID: "handover-tell", Title: "Risks that remain, and what to tell whom", Columns: []*Column{
		{Key: refKey, Head: "Row", Width: handID, Look: Ident},
		p.remains(), {Key: "risk", Head: "Situation and event", Width: handLong}, {Key: "harm", Head: "Harm", Width: handLong},
		{Key: "to", Head: "Tell", Width: handText}, {Key: "manual", Head: "Manual", Width: handText}, {Key: "marking", Head: "Marking", Width: handText},
		{Key: "training", Head: "Training", Width: handText}, {Key: "gear", Head: "Protective equipment", Width: handText},
	}}
	for _, t := range p.r.HandOver.Tell {
		to := joined(t.To)
		if to == "" {
			to = "nobody named yet"
		}
		b.Rows = append(b.Rows, &Row{ID: "tell." + t.Row, Cells: []Cell{leads(t.Row), p.level(t.Level), show(t.Situation + "; " + t.Event), show(t.Harm),
			show(to), show(t.Manual), show(t.Marking), show(t.Training), show(t.Gear)}})
	}
	return b.orNone("tell", "no row says yet what to tell whom")
}

// remains is the column of the level that remains, as the hazard row has it now.
func (p *planner) remains() *Column {
	c := &Column{Key: "remains", Head: "Level that remains", Width: handShort, Look: Word}
	if m := p.r.Method; p.residual() {
		if l := m.Sheet.Column("level"); l != nil && l.Role != sheet.Input {
			c.Formula = orBlank(find(hazardsBlock, after+"level", own(refKey)))
		}
	}
	return c
}

func (p *planner) level(level string) Cell {
	if p.remains().Formula == nil {
		return show(level)
	}
	return live(text(level))
}

func (p *planner) gaps() *Block {
	b := &Block{ID: "handover-gaps", Title: "Nobody is told", Columns: []*Column{
		{Key: refKey, Head: "Row", Width: handID, Look: Ident}, p.remains(), {Key: "why", Head: "Why, as built", Width: handLong}}}
	for _, g := range p.r.HandOver.Gaps {
		b.Rows = append(b.Rows, &Row{ID: "gap." + g.Row, Cells: []Cell{leads(g.Row), p.level(g.Level), show(g.Why)}})
	}
	return b.orNone("gap", "none found among the rows as built")
}

func (p *planner) upkeep() *Block {
	b := &Block{ID: "handover-upkeep", Title: "Upkeep the assessment rests on", Columns: []*Column{
		{Key: refKey, Head: "Item", Width: handID, Look: Ident}, {Key: "every", Head: "Every", Width: handShort},
		{Key: "what", Head: "What", Width: handLong}, {Key: "brakes", Head: "Finds worn brakes of", Width: handLong},
		{Key: "years", Head: "Replace before", Unit: "years", Width: handText}}}
	for i := range p.r.HandOver.Upkeep {
		u := &p.r.HandOver.Upkeep[i]
		years := Cell{}
		if c := p.r.Check(u.Check); c != nil && u.Years.Kind == expr.Number {
			years = calc(u.Years, orBlank(find(c.Sheet.Key(), hazards.WornOut, quoted(u.Check))))
		}
		b.Rows = append(b.Rows, &Row{ID: "upkeep." + u.ID, Cells: []Cell{leads(u.ID), show(u.Every), show(u.What), show(joined(u.For)), years}})
	}
	return b.orNone("upkeep", "no upkeep is written")
}

func (p *planner) training() *Block {
	b := &Block{ID: "handover-training", Title: "Training per person", Columns: []*Column{
		{Key: refKey, Head: "People", Width: handID, Look: Ident}, {Key: "present", Head: "Present", Width: handShort},
		{Key: "written", Head: "Training by the file", Width: handLong}, {Key: "told", Head: "What training has to tell", Width: handLong},
		{Key: "tasks", Head: "Tasks", Width: handText}, {Key: "gear", Head: "Protective equipment", Width: handText}, {Key: "who", Head: "Who they are", Width: handText}}}
	for i := range p.r.HandOver.Training {
		t := &p.r.HandOver.Training[i]
		written := t.Written
		if written == "" {
			written = "not given"
		}
		b.Rows = append(b.Rows, &Row{ID: "training." + t.Person, Cells: []Cell{show(t.Person), show(t.Present), show(written), show(toldText(t.Told)),
			show(joined(t.Tasks)), show(toldText(t.Gear)), show(t.Who)}})
	}
	return b
}

func toldText(list []hazards.Told) string {
	var out []string
	for _, t := range list {
		out = append(out, t.Row+": "+t.Text)
	}
	return strings.Join(out, "; ")
}

func (p *planner) asked() *Block {
	b := &Block{ID: "handover-asked", Title: "Papers that the local rules ask for", Columns: []*Column{
		{Key: refKey, Head: "Place", Width: handID, Look: Ident}, {Key: "number", Head: "No.", Width: handShort},
		{Key: "clause", Head: "Clause", Width: handLong}, {Key: "papers", Head: "To hand over", Width: handLong}, {Key: "who", Head: "Who", Width: handText}}}
	for i, a := range p.r.HandOver.Asked {
		b.Rows = append(b.Rows, &Row{ID: "asked." + number(i+1), Cells: []Cell{show(a.Place), show(number(i + 1)), show(a.Clause), show(strings.Join(a.Papers, "; ")), show(a.Who)}})
	}
	return b.orNone("asked", words.Default().Sentence("review_none"))
}

func papers(id, title string, list []hazards.Paper) *Block {
	b := &Block{ID: "handover-" + id, Title: title, Columns: []*Column{
		{Key: refKey, Head: "Kind", Width: handID, Look: Ident}, {Key: "about", Head: "About", Width: handShort},
		{Key: "what", Head: "What", Width: handLong}, {Key: "where", Head: "Where it is", Width: handLong, Look: Word},
		{Key: "by", Head: "By whom", Width: handText}, {Key: "places", Head: "Asked for in", Width: handText},
		{Key: "because", Head: "Because", Width: handText}, {Key: "standing", Head: "Standing", Width: handText}, {Key: "sources", Head: "Sources", Width: handText}}}
	for i, d := range list {
		where := d.Where
		if where == "" {
			where = missingWord
		}
		b.Rows = append(b.Rows, &Row{ID: id + "." + number(i+1), Cells: []Cell{show(d.Kind), show(d.About), show(d.What), show(where),
			show(d.By), show(strings.Join(d.Places, "; ")), show(d.Because), show(d.Standing), show(joined(d.Sources))}})
	}
	return b.orNone(id, words.Default().Sentence("review_none"))
}

// orNone says why a block has no rows.
func (b *Block) orNone(id, why string) *Block {
	if len(b.Rows) == 0 {
		cells := make([]Cell, 3)
		cells[2] = show(why)
		b.Rows = append(b.Rows, &Row{ID: id + ".none", Cells: cells})
	}
	return b
}

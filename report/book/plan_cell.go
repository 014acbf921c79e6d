package book

import (
	"fmt"
	"strings"

	"standclear/hazards"
	"standclear/hazards/file"
	"standclear/limits/expr"
)

// Blocks that other sheets look things up in.
const (
	factsBlock    = "facts"
	contactsBlock = "contacts"
	settingsBlock = "settings"
	wordsBlock    = "words"
)

// cell plans the values of the cell, each written once, its items, and the
// limits of use.
func (p *planner) cell() *Sheet {
	return &Sheet{ID: "cell", Name: "Cell",
		About:  "Every value of the cell, written once. Rules look up the column Used: the value, at the worse end of its tolerance where its kind says which that is. Checks look up the end at which they are worst.",
		Blocks: []*Block{p.facts(), p.wordFacts(), p.stops(), p.settings(), p.items(), p.limits()}}
}

// origins of values, as in the file.
var origins = []string{file.Measured, file.Datasheet, file.Standard, file.Assumed, file.Configuration}

func (p *planner) facts() *Block {
	b := &Block{ID: factsBlock, Title: "Values", Columns: []*Column{
		{Key: refKey, Head: "Path", Width: 30, Look: Ident},
		{Key: "kind", Head: "Kind", Width: 12},
		{Key: "means", Head: "What it is", Width: 38},
		{Key: "value", Head: "Value", Width: 12, Edit: true},
		{Key: "unit", Head: "Unit", Width: 9},
		{Key: "tol", Head: "±", Width: 9, Edit: true},
		{Key: "used", Head: "Used", Width: 12, Formula: usedFormula()},
		{Key: "origin", Head: "Origin", Width: 14, Edit: true, Choice: p.words("origin", origins...)},
		{Key: "reference", Head: "Reference", Width: 44, Edit: true},
		{Key: "worse", Head: "Worse", Means: "up: the tolerance is added; down: it is taken off", Width: 8, Look: Quiet, Hidden: true},
		{Key: changedKey, Head: "Edited", Width: 8, Look: Count, Hidden: true, Watch: []string{"value", "tol"}},
		{Key: lowKey, Head: "Lowest", Width: 12, Hidden: true, Formula: endFormula("-")},
		{Key: highKey, Head: "Highest", Width: 12, Hidden: true, Formula: endFormula("+")},
	}}
	for _, last := range []bool{false, true} { // outlines of spaces stand last
		for i := range p.r.Facts {
			f := &p.r.Facts[i]
			if f.Kind != "point" && p.blockOf(f.Path) == factsBlock && (f.Kind == "space") == last {
				b.Rows = append(b.Rows, p.fact(f))
			}
		}
	}
	return b
}

// noNumber stands in the place of a value that has no number where one belongs:
// calculations then decide nothing, even where they could do without the value.
const noNumber = `"?"`

// usedFormula takes the value at the worse end of its tolerance.
func usedFormula() Formula {
	return formula("IF(", own("value"), `="","",IF(NOT(ISNUMBER(`, own("value"), ")),"+noNumber+",IF(", own("tol"), `="",`, own("value"),
		",IF(NOT(ISNUMBER(", own("tol"), ")),"+noNumber+",IF(", own("tol"), "<0,"+noNumber+",", own("value"), "+", own("tol"), "*IF(", own("worse"),
		`="up",1,IF(`, own("worse"), `="down",-1,0)))))))`)
}

func (p *planner) fact(f *hazards.Fact) *Row {
	val, tol, used, origin := edit(f.Value), tolOf(f), live(f.Used), edit(text(f.Origin))
	low, high := live(f.Low), live(f.High)
	if len(f.Terms) > 0 && f.Value.Given() {
		end := map[string]string{hazards.Up: highKey, hazards.Down: lowKey, "": usedAt}[f.Worse]
		val, used = calc(f.Value, p.sumOf(f.Terms, "value")), calc(f.Used, p.sumAt(f.Terms, end))
		low, high = calc(f.Low, p.sumAt(f.Terms, lowKey)), calc(f.High, p.sumAt(f.Terms, highKey))
		val.Edit, origin.Edit, tol = true, false, Cell{}
		if f.HasTol {
			tol = calc(num(f.Tol), p.tolerance)
		}
	}
	return &Row{ID: f.Path, Cells: []Cell{show(f.Path), show(f.Kind), show(f.Means), val, show(f.Unit), tol, used, origin, edit(text(f.Ref)), show(f.Worse), live(num(0)), low, high}}
}

// wordFacts are the values of the cell that are words: edges of tools and parts.
func (p *planner) wordFacts() *Block {
	b := &Block{ID: wordsBlock, Title: "Values in words", Columns: []*Column{
		{Key: refKey, Head: "Path", Width: 30, Look: Ident},
		{Key: "kind", Head: "Kind", Width: 12},
		{Key: "means", Head: "What it is", Width: 38},
		{Key: "used", Head: "Value", Width: 12, Edit: true, Choice: p.words("edges", p.edges()...)},
		{Key: "unit", Width: 9, Hidden: true}, {Key: "tol", Width: 9, Hidden: true}, {Key: "value", Width: 9, Hidden: true},
		{Key: "origin", Width: 9, Hidden: true}, {Key: "reference", Width: 9, Hidden: true}, {Key: "worse", Width: 8, Hidden: true},
		{Key: changedKey, Head: "Edited", Width: 8, Look: Count, Hidden: true, Watch: []string{"used"}},
	}}
	for i := range p.r.Facts {
		if f := &p.r.Facts[i]; f.Kind != "point" && p.blockOf(f.Path) == wordsBlock {
			b.Rows = append(b.Rows, &Row{ID: f.Path, Cells: []Cell{show(f.Path), show(f.Kind), show(f.Means), edit(f.Value), {}, {}, {}, {}, {}, {}, live(num(0))}})
		}
	}
	return b
}

// blockOf is the block that a fact stands in.
func (p *planner) blockOf(path string) string {
	if f := p.r.Fact(path); f != nil && f.Value.Kind == expr.Text {
		return wordsBlock
	}
	return factsBlock
}

// sumOf adds up the same column of several facts, and numbers.
func (p *planner) sumOf(terms []hazards.Term, key string) Formula {
	once := fmt.Sprint(terms, key)
	if f, ok := p.summed[once]; ok {
		return f
	}
	sum := formula("IFERROR(")
	for i, t := range terms {
		if i > 0 {
			sum = append(sum, lit("+"))
		}
		sum = sum.plus(p.termOf(t, key))
	}
	p.summed[once] = append(sum, lit(`,"")`))
	return p.summed[once]
}

// sumAt adds up ends of what other facts lead to, as long as nothing is typed over it.
func (p *planner) sumAt(terms []hazards.Term, key string) Formula {
	return formula("IF(", own("value"), "=", p.sumOf(terms, "value"), ",", p.sumOf(terms, key), ",IF(ISNUMBER(", own("value"), "),", own("value"),
		",IF(", own("value"), `="","",`+noNumber+")))")
}

// edges are the words for edges, mildest first, as the contact sheets know them.
func (p *planner) edges() []string {
	for _, s := range p.r.Library.Sheets {
		if c := s.Column("edges"); c != nil {
			return c.Choice
		}
	}
	return nil
}

// settings lists the safety configurations as released.
func (p *planner) settings() *Block {
	b := &Block{ID: settingsBlock, Title: "Safety configurations as released", Columns: []*Column{
		{Key: refKey, Head: "Setting", Width: 30, Look: Ident}, {Key: "mode", Head: "Mode", Width: 12},
		{Key: "checksum", Head: "Checksum", Width: 38}, {Key: "version", Head: "Version", Width: 12},
		{Key: "planes", Head: "Planes", Width: 9, Look: Wide},
	}}
	for i := range p.r.File.Cell.Robots {
		r := &p.r.File.Cell.Robots[i]
		for _, s := range r.Settings {
			b.Rows = append(b.Rows, &Row{ID: s.ID, Cells: []Cell{show(r.ID + "." + s.ID), show(s.Mode), show(s.Checksum), show(s.Version), show(strings.Join(s.Planes, "; "))}})
		}
	}
	return b
}

// items lists what the cell consists of, in words.
func (p *planner) items() *Block {
	b := &Block{ID: "items", Title: "Items of the cell", Columns: []*Column{
		{Key: refKey, Head: "Item", Width: 30, Look: Ident}, {Key: "kind", Head: "Kind", Width: 12},
		{Key: "what", Head: "What it is", Width: 38}, {Key: "details", Head: "Details", Width: 12, Look: Wide},
	}}
	c := &p.r.File.Cell
	add := func(id, kind, what string, details ...string) {
		b.Rows = append(b.Rows, &Row{ID: id, Cells: []Cell{show(id), show(kind), show(what), show(details2(details))}})
	}
	for _, x := range c.People {
		add(x.ID, x.Kind, x.Who, "training: ", x.Training, "present: ", x.Present)
	}
	for _, x := range c.Modes {
		add(x.ID, "mode", x.Note, "selected by: ", x.Selection, "enabling device: ", x.EnablingDevice)
	}
	for i := range c.Robots {
		x := &c.Robots[i]
		add(x.ID, "robot", x.Name)
	}
	for _, x := range c.Machines {
		add(x.ID, "machine", x.What, "emergency stop spans: ", joined(x.EstopSpans))
	}
	for _, x := range c.Tools {
		add(x.ID, x.Kind, x.What, "on power loss: ", x.OnPowerLoss)
	}
	for _, x := range c.Parts {
		add(x.ID, "part", x.What)
	}
	for _, x := range c.Safeguards {
		add(x.ID, x.Kind, x.What, "resolution: ", x.ResolutionNote, "clearing it starts the cycle: ", string(x.StartsCycle), "why so few beams: ", x.WhyFew)
	}
	for _, x := range c.Spaces {
		add(x.ID, x.Kind+" space", x.What)
	}
	return b
}

// details2 joins pairs of a label and a value, leaving out empty values.
func details2(pairs []string) string {
	var out []string
	for i := 0; i+1 < len(pairs); i += 2 {
		if pairs[i+1] != "" {
			out = append(out, pairs[i]+pairs[i+1])
		}
	}
	return strings.Join(out, "   ·   ")
}

// limits lists the limits of use, ISO 12100 5.3.
func (p *planner) limits() *Block {
	b := &Block{ID: "limits", Title: "Limits of use", Columns: []*Column{
		{Key: refKey, Head: "Limit", Width: 30, Look: Ident}, {Key: "kind", Head: "Kind", Width: 12},
		{Key: "what", Head: "What it is", Width: 38}, {Key: "rows", Head: "Answered by, or interval", Width: 12, Look: Wide},
	}}
	l := &p.r.File.Limits
	add := func(id, kind, what, more string) {
		if what != "" {
			b.Rows = append(b.Rows, &Row{ID: id, Cells: []Cell{show(id), show(kind), show(what), leads(more)}})
		}
	}
	add("intended", "use", l.Use.Intended, "")
	for i, x := range l.Use.Excluded {
		add("excluded-"+number(i+1), "use", x, "")
	}
	for _, m := range l.Use.Misuses {
		add(m.ID, "misuse", m.What, joined(m.AnsweredBy))
	}
	add("reach", "space", l.Space.Reach, "")
	add("access", "space", l.Space.Access, "")
	add("paths", "space", l.Space.Paths, "")
	add("life", "time", l.Time.Life, "")
	for _, u := range l.Time.Upkeep {
		add(u.ID, "upkeep", u.What, u.Every)
	}
	add("materials", "other", l.Other.Materials, "")
	add("cleaning", "other", l.Other.Cleaning, "")
	add("environment", "other", l.Other.Environment, "")
	return b
}

package book

import (
	"standclear/hazards"
	"standclear/hazards/file"
	"standclear/limits/quantity"
)

// What has to be answered, or to stay as it was built, for a contact or check to
// decide anything.

const unansweredKey = "unanswered"

// unanswered tests, as hazards does, whether a head can be reached and whether
// the edges of everything that touches are stated; and that the gap still shows
// what was built as free. The program makes other checks where it does not.
func (p *planner) unanswered(c *hazards.Contact) Cell {
	f := formula("IFERROR(IF(OR(AND(NOT(EXACT(", own("head"), `,"yes")),NOT(EXACT(`, own("head"), `,"no")))`)
	open := c.Spec.Head == nil
	for _, ids := range [][]string{c.Tools, c.Parts} {
		for _, id := range ids {
			if c.OwnEdges() {
				break
			}
			stated := p.r.Fact(id + ".edges")
			if stated == nil || !stated.Value.Given() {
				f, open = f.plus(",TRUE()"), true
				continue
			}
			f = f.plus(",ISNA(MATCH(", find(wordsBlock, "used", quoted(id+".edges")), ",", choiceRange(p.words("edges", p.edges()...)), ",0))")
		}
	}
	value := num(0)
	if open {
		value = num(1)
	}
	return calc(value, f.plus(p.gapTooSmall(c), "),1,0),1)"))
}

// gapTooSmall tests the gap of a contact against the least gap of every body
// area that it shows free; nothing where it shows none.
func (p *planner) gapTooSmall(c *hazards.Contact) Formula {
	regions := p.r.Library.Table(regionsTable)
	if c.Class != hazards.Free || regions == nil || c.Spec.Free == nil {
		return nil
	}
	path := p.r.File.Index().PathOf(c.Spec.Free.Gap)
	fact, column := p.r.Fact(path), regions.Column("least_gap")
	if fact == nil || column < 0 {
		return nil
	}
	var least Formula
	seen := map[string]bool{}
	for _, i := range c.Checks {
		k := &p.r.Checks[i]
		region := hazards.ProofCase(p.r, k).Region
		if s := k.Sheet.Column("F_hold"); s != nil || k.Shadow || seen[region] {
			continue // judged as held
		}
		seen[region] = true
		least = least.plus(comma(len(seen)-1), find(tableID(regionsTable), "least_gap", quoted(region)))
	}
	if least == nil {
		return nil
	}
	p.tables[regionsTable] = true
	used := p.termOf(hazards.Term{Path: path, Factor: unitFactor(fact.Unit, regions.Columns[column].Type.Unit)}, "used")
	return formula(",NOT(ISNUMBER(", used, ")),", used, "<MAX(", least, ")")
}

// unitFactor turns a value in one unit into one in another.
func unitFactor(from string, to quantity.Unit) float64 {
	q, err := quantity.Parse("1 " + from)
	if err != nil {
		return 1
	}
	v, err := q.In(to)
	if err != nil {
		return 1
	}
	return v
}

// chosen tells whether the program chose a point of a stopping grid for a check,
// rather than that somebody named it.
func (p *planner) chosen(c *hazards.Check, path string) bool {
	_, found, _, _ := p.r.File.Find(c.ID)
	spec, _ := found.(*file.Check)
	if spec == nil || p.kind[path] != "stopping" {
		return false
	}
	grid := false
	for i := range spec.Given {
		g := &spec.Given[i].Value
		for _, t := range g.Terms {
			if t.Path == path {
				return false
			}
			grid = grid || t.IsGrid()
		}
		for k := range g.List {
			for _, t := range g.List[k].Terms {
				grid = grid || t.IsGrid()
			}
		}
	}
	return grid
}

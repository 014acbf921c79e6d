package book

import (
	"strings"

	"standclear/hazards"
	"standclear/hazards/file"
	"standclear/limits/expr"
)

const stopsBlock = "stops"

// Hidden keys of the stopping grid.
const (
	gridKey  = "grid"  // robot and stop category
	movedKey = "moved" // 1: load, speed or reach is not the one that points were chosen by
)

// stops shows the stopping times and distances of the cell beside the checks that
// take them. They are edited among the values above.
func (p *planner) stops() *Block {
	b := &Block{ID: stopsBlock, Title: "Stopping times and distances, and the checks that take them", Columns: []*Column{
		{Key: refKey, Head: "Stop", Width: 30, Look: Ident},
		{Key: "category", Head: "Category", Width: 12},
		{Key: "checks", Head: "Taken by", Width: 38},
		{Key: "load", Head: "Load", Unit: "%", Width: 12},
		{Key: "speed", Head: "Speed", Unit: "%", Width: 9},
		{Key: "reach", Head: "Reach", Unit: "%", Width: 9},
		{Key: "time", Head: "Time", Unit: "s", Width: 12},
		{Key: "distance", Head: "Distance", Unit: "mm", Width: 14},
		{Key: "origin", Head: "Origin, reference", Width: 44},
		{Key: gridKey, Head: "Grid", Width: 8, Look: Quiet, Hidden: true},
		{Key: movedKey, Head: "Moved", Width: 8, Look: Count, Hidden: true},
	}}
	list := p.r.Stops()
	for i := range list {
		b.Rows = append(b.Rows, p.stop(&list[i]))
	}
	return b
}

func (p *planner) stop(s *hazards.Stop) *Row {
	id, category, key := s.Of+"."+s.ID, s.Category, gridOf(s.Of, s.Category)
	if s.ID == s.Of {
		id, key = s.Time, ""
	}
	look := func(path string) Cell {
		f := p.r.Fact(path)
		if f == nil {
			return Cell{}
		}
		return calc(f.Used, orBlank(p.termOf(hazards.Term{Path: path, Factor: 1}, "used")))
	}
	origin := ""
	if f := p.r.Fact(s.Time); f != nil {
		origin = strings.Trim(f.Origin+", "+f.Ref, ", ")
	}
	moved := Cell{}
	if key != "" {
		moved = calc(num(0), p.moved(s))
	}
	return &Row{ID: id, Cells: []Cell{show(id), show(category), leads(s.TakenBy()), look(s.Load), look(s.Speed), look(s.Reach),
		look(s.Time), look(s.Distance), show(origin), show(key), moved}}
}

func gridOf(robot, category string) string { return robot + "|" + category }

// moved is 1 where a point no longer holds the load, speed and reach by which
// points were chosen.
func (p *planner) moved(s *hazards.Stop) Formula {
	test := formula("IF(AND(TRUE()")
	for _, path := range []string{s.Load, s.Speed, s.Reach} {
		if f := p.r.Fact(path); f != nil && f.Used.Kind == expr.Number {
			test = test.plus(",", p.unmoved(path, f.Used.Num))
		}
	}
	return test.plus("),0,1)")
}

// unmoved says whether a value is the one that the workbook was built with.
func (p *planner) unmoved(path string, built float64) Formula {
	look := p.termOf(hazards.Term{Path: path, Factor: 1}, "used")
	return formula("IF(ISNUMBER(", look, "),ROUND(", look, "-"+plainNumber(built)+",9)=0,FALSE())")
}

// stillGoverns says whether the chosen point is the one that governs: the task
// asks for what it asked for, no point of its grid has moved, and no other
// candidate has become worse. The program chooses anew; a formula does not.
func (p *planner) stillGoverns(c *hazards.Check, path string) Formula {
	_, found, _, _ := p.r.File.Find(c.ID)
	spec := found.(*file.Check)
	key := "governs|" + path + "|" + c.Task + "|" + spec.StopCategory
	if f, ok := p.summed[key]; ok {
		return f
	}
	robot, _, _ := strings.Cut(path, ".")
	test := formula("AND(COUNTIFS(", all(stopsBlock, gridKey), ",", quoted(gridOf(robot, spec.StopCategory)), ",", all(stopsBlock, movedKey), ",1)=0")
	for _, share := range []string{"load", "speed", "reach"} {
		asked := c.Task + "." + share
		if f := p.r.Fact(asked); f != nil && f.Used.Kind == expr.Number {
			test = test.plus(",", p.unmoved(asked, f.Used.Num))
		}
	}
	chosen := p.termOf(hazards.Term{Path: path, Factor: 1}, "used")
	for _, rival := range p.r.StopRivals(c.ID, path) {
		test = test.plus(",", chosen, ">=", p.termOf(hazards.Term{Path: rival, Factor: 1}, "used"))
	}
	p.summed[key] = test.plus(")")
	return p.summed[key]
}

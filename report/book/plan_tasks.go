package book

import (
	"strconv"

	"standclear/hazards/file"
	"standclear/limits/expr"
)

const tasksBlock = "tasks"

// spareRows is how many empty rows stand ready at the end of a list.
const spareRows = 10

func number(n int) string { return strconv.Itoa(n) }

// kinds of task, as in the file.
var taskKinds = []string{"running", "hand-over", "loading", "hand-guiding", "teaching", "setting", "changeover", "jam-clearing",
	"fault-finding", "cleaning", "service", "restart", "observing"}

// tasks plans what people and robot do.
func (p *planner) tasks() *Sheet {
	b := &Block{ID: tasksBlock, Columns: []*Column{
		{Key: refKey, Head: "Task", Width: 16, Look: Ident},
		{Key: "name", Head: "What is done", Width: 34, Edit: true},
		{Key: "kind", Head: "Kind", Width: 14, Edit: true, Choice: p.words("kind of task", taskKinds...)},
		{Key: "mode", Head: "Mode", Width: 12, Edit: true, Choice: p.ids("mode", "mode")},
		{Key: "people", Head: "People", Width: 20, Edit: true},
		{Key: "how_often", Head: "How often", Width: 22, Edit: true},
		{Key: "robots", Head: "Robots", Width: 12, Edit: true},
		{Key: "machines", Head: "Machines", Width: 16, Edit: true},
		{Key: "tools", Head: "Tools", Width: 16, Edit: true},
		{Key: "parts", Head: "Parts", Width: 22, Edit: true},
		{Key: "setting", Head: "Setting", Width: 16, Edit: true},
		{Key: "rows", Head: "Hazard rows", Width: 9, Look: Count,
			Formula: formula("IF(", own(refKey), `="","",COUNTIF(`, all(hazardsBlock, "task"), ",", own(refKey), "))")},
		{Key: "note", Head: "Note", Width: 26, Edit: true},
	}}
	of := map[string]int{}
	for i := range p.r.Rows {
		of[p.r.Rows[i].Task]++
	}
	for i := range p.r.File.Tasks {
		t := &p.r.File.Tasks[i]
		b.Rows = append(b.Rows, &Row{ID: t.ID, Cells: append([]Cell{show(t.ID)}, taskCells(t, of[t.ID])...)})
	}
	b.addSpare(nil)
	return &Sheet{ID: "tasks", Name: "Tasks", About: "What people and robot do. Several ids in one cell stand with commas between them.", Blocks: []*Block{b}}
}

func taskCells(t *file.Task, rows int) []Cell {
	var out []Cell
	for _, s := range []string{t.Name, t.Kind, t.Mode, joined(t.People), t.HowOften, joined(t.Robots), joined(t.Machines),
		joined(t.Tools), joined(t.Parts), t.Setting} {
		out = append(out, edit(text(s)))
	}
	return append(out, live(num(float64(rows))), edit(text(t.Note)))
}

// ids is the list of the ids of a kind of item, "" when there is none.
func (p *planner) ids(name string, kinds ...string) string {
	ids := p.r.File.Index().IDs(kinds...)
	if len(ids) == 0 {
		return ""
	}
	return p.words(name, ids...)
}

// addSpare puts empty rows at the end, unlocked, with their formulas. values
// gives what a formula shows while the row is empty, nil for nothing.
func (b *Block) addSpare(values func(key string) expr.Value) {
	for range spareRows {
		row := &Row{Spare: true, Cells: make([]Cell, len(b.Columns))}
		row.Cells[0] = edit(expr.Value{})
		for i, c := range b.Columns[1:] {
			switch {
			case c.Watch != nil: // a new row is an edit as soon as it has an id
				row.Cells[i+1] = Cell{Value: num(0), Live: true, Formula: formula("IF(", own(refKey), `="",0,1)`)}
			case c.Formula != nil:
				row.Cells[i+1] = Cell{Live: true, Edit: c.Edit}
				if values != nil {
					row.Cells[i+1].Value = values(c.Key)
				}
			case c.Edit:
				row.Cells[i+1] = edit(expr.Value{})
			}
		}
		b.Rows = append(b.Rows, row)
	}
}

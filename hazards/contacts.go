package hazards

import (
	"cmp"

	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/limits/source"
)

// Classes of a contact.
const (
	Clamped = "clamped"
	Free    = "free"
	Jaws    = "jaws"
)

// none stands for no tool or no part in the id of a check.
const none = "none"

// contacts expands every contact to checks over body areas, tools and parts.
func (w *work) contacts() {
	w.r.Contacts = make([]Contact, len(w.a.Contacts))
	for i := range w.a.Contacts {
		spec := &w.a.Contacts[i]
		w.r.contacts[spec.ID] = i
		e := &expansion{work: w, spec: spec, c: &w.r.Contacts[i]}
		_, found, _, _ := w.a.Find(spec.Task)
		e.task, _ = found.(*file.Task)
		*e.c = Contact{Spec: spec, ID: spec.ID, Task: spec.Task, Class: class(spec), Worst: -1}
		e.c.Areas, e.c.Tools, e.c.Parts = w.bodyAreas(spec.Areas), e.tools(), e.parts()
		e.findRobot()
		e.expand()
	}
}

// class: a contact is clamped unless something else is claimed.
func class(spec *file.Contact) string {
	switch {
	case spec.Jaws != nil:
		return Jaws
	case spec.Free != nil:
		return Free
	}
	return Clamped
}

// bodyAreas turns regions into their areas, in the order of the table.
func (w *work) bodyAreas(names []string) []string {
	var out []string
	key, region := w.areas.Column(w.areas.Key), w.areas.Column("region")
	for i := range w.areas.Rows {
		row := w.areas.Rows[i]
		if has(names, row[key].Value.Text) || has(names, row[region].Value.Text) {
			out = append(out, w.areas.RowKey(i))
		}
	}
	return out
}

// expansion is one contact being expanded.
type expansion struct {
	*work
	spec *file.Contact
	task *file.Task
	arm  *file.Robot // whose mass moves, nil when there is none
	c    *Contact
}

// tools: the gripper whose jaws close, those the contact names, or those of the task.
func (e *expansion) tools() []string {
	switch {
	case e.spec.Jaws != nil:
		return []string{e.spec.Jaws.Tool}
	case e.spec.Has("tools"):
		return e.spec.Tools
	case e.task != nil:
		return e.task.Tools
	}
	return nil
}

func (e *expansion) parts() []string {
	if e.spec.Has("parts") || e.task == nil {
		return e.spec.Parts
	}
	return e.task.Parts
}

// orNone lists the variants: one without tool or part where there is none.
func orNone(list []string) []string {
	if len(list) == 0 {
		return []string{""}
	}
	return list
}

// expand adds the checks. Where a contact is claimed free and the gap does not
// show it for a body area, the clamped check governs and the transient one
// stands beside it.
func (e *expansion) expand() {
	e.c.Shown = e.c.Class == Free
	for _, area := range e.c.Areas {
		shown := e.shown(area)
		e.c.Shown = e.c.Shown && shown
		for _, tool := range orNone(e.c.Tools) {
			for _, part := range orNone(e.c.Parts) {
				for _, spot := range e.spec.SpotIDs() {
					e.variant(Check{Area: area, Tool: tool, Part: part, Spot: spot}, shown)
				}
			}
		}
	}
}

// variant adds the check of one body area, tool, part and point, or two.
func (e *expansion) variant(c Check, shown bool) {
	c.ID = e.c.ID + "/" + c.Area + "/" + cmp.Or(c.Tool, none) + "/" + cmp.Or(c.Part, none)
	if c.Spot != "" {
		c.ID += "/" + c.Spot
	}
	switch {
	case e.c.Class == Jaws:
		e.add(c, jawSheet)
	case e.c.Class == Clamped:
		e.add(c, clampedSheet)
	case shown:
		e.add(c, freeSheet)
	default:
		held := c
		c.Shadow, held.ID = true, held.ID+"/clamped"
		e.add(c, freeSheet)
		e.add(held, clampedSheet)
	}
}

// shown tells whether the gap shows the contact free for a body area: it is at
// least the least gap of its region, at the lower end of its tolerance.
func (e *expansion) shown(area string) bool {
	if e.spec.Free == nil || !e.spec.Free.Gap.Set {
		return false
	}
	x := e.known[e.ix.PathOf(e.spec.Free.Gap)]
	row := e.regions.Exact(e.areas.Rows[e.areas.Exact(area)][e.areas.Column("region")].Value.Text)
	if x == nil || !x.ok || row < 0 {
		return false
	}
	col := e.regions.Column("least_gap")
	least := e.regions.Rows[row][col].Value
	gap := in(x.value.Low(), e.regions.Columns[col].Type.Unit)
	return least.Given() && (gap > least.Num || expr.Equal(gap, least.Num))
}

func (e *expansion) add(c Check, sheetID string) {
	s := e.lib.Sheet(sheetID)
	if s == nil {
		e.ps.Addf(e.spec.Pos(), "the library has no sheet %s", sheetID)
		return
	}
	c.Of, c.Task, c.Sheet, c.Model, c.Pos = e.c.ID, e.c.Task, s, true, e.spec.Pos()
	c.Inputs = e.inputs(&c)
	e.c.Checks = append(e.c.Checks, len(e.r.Checks))
	e.addCheck(c)
}

// inputs gathers what the sheet of a contact check takes.
func (e *expansion) inputs(c *Check) []Input {
	list := make([]Input, 0, 12)
	list = append(list, Input{Name: "area", Value: text(c.Area), Text: c.Area, Pos: e.spec.At("areas")})
	put := func(name string, amounts ...file.Amount) {
		if col := c.Sheet.Input(name); col != nil {
			if in, ok := e.amount(col, amounts...); ok {
				list = append(list, in)
			}
		}
	}
	tool, part, spot := e.tool(c.Tool), e.part(c.Part), e.spec.Spot(c.Spot)
	if c.Sheet.ID == jawSheet {
		put("F_grip", tool.GreatestForce)
	} else {
		list = append(list, e.masses(c, &spot, tool, part)...)
		put("v", spot.Speed)
		put("F_hold", e.spec.Push)
		if p := spot.Padding; p != nil {
			put("k_pad", p.Stiffness)
			put("s_pad", p.Travel)
		}
	}
	put("A", spot.Area)
	list = append(list, e.surface(c, &spot, tool, part)...)
	if h := e.spec.Head; h != nil && h.Reach != "" {
		list = append(list, Input{Name: "head", Value: text(string(h.Reach)), Text: string(h.Reach), Pos: h.At("reach")})
	}
	return list
}

// load is the mass of tool and part. No tool stated is no answer; `tools: []`
// says that there is none.
func (e *expansion) load(c *Check, tool *file.Tool, part *file.Part) []Input {
	col := c.Sheet.Input("m_L")
	if e.noTool(c) {
		return nil
	}
	if in, ok := e.amount(col, tool.Mass, part.Mass); ok {
		return []Input{in}
	}
	return []Input{{Name: "m_L", Value: number(0), rest: number(0), Nominal: number(0), Terms: []Term{{Factor: 1}}, Pos: e.spec.At("tools")}}
}

// noTool notes that nobody said which tool, so that the mass at the flange is not known.
func (e *expansion) noTool(c *Check) bool {
	if c.Tool != "" || e.spec.Has("tools") {
		return false
	}
	c.lacks = append(c.lacks, noTool)
	return true
}

// edgeOrder ranks edges, mildest first.
var edgeOrder = []string{"rounded", "blunt", "edge", "point"}

// surface is what touches: the worse edge and the hotter of tool and part.
func (e *expansion) surface(c *Check, spot *file.Spot, tool *file.Tool, part *file.Part) []Input {
	var list []Input
	if spot.Edges != "" {
		list = append(list, Input{Name: "edges", Value: text(spot.Edges), Text: spot.Edges, Pos: spot.At("edges")})
	}
	edges := Input{Name: "edges", Pick: PickWorst, Pos: e.spec.Pos()}
	worst := -1
	for _, of := range []struct{ id, edges string }{{tool.ID, tool.Edges}, {part.ID, part.Edges}} {
		if of.edges == "" {
			continue
		}
		edges.Terms = append(edges.Terms, Term{Path: of.id + ".edges", Factor: 1})
		for rank, word := range edgeOrder {
			if word == of.edges && rank > worst {
				worst, edges.Text, edges.Value = rank, word, text(word)
			}
		}
	}
	if worst >= 0 && spot.Edges == "" {
		list = append(list, edges)
	}
	if in, ok := e.hotter(c.Sheet.Input("theta"), tool.Temperature, part.Temperature); ok {
		list = append(list, in)
	}
	return list
}

// hotter takes the higher of two temperatures, at either end of their tolerances.
func (e *expansion) hotter(col *sheet.Column, amounts ...file.Amount) (Input, bool) {
	out := Input{Name: col.Name, Pick: PickMax, worse: worseOf(col)}
	var low, value, high float64
	loose := false
	for _, a := range amounts {
		one, ok := e.amount(col, a)
		if !ok || !one.rest.Given() {
			continue
		}
		if !one.Low.Given() {
			one.Low, one.High = one.rest, one.rest
		} else {
			loose = true
		}
		if len(out.Terms) == 0 || one.rest.Num > value {
			out.Pos = one.Pos
		}
		if len(out.Terms) == 0 {
			low, value, high = one.Low.Num, one.rest.Num, one.High.Num
		}
		low, value, high = max(low, one.Low.Num), max(value, one.rest.Num), max(high, one.High.Num)
		out.Terms = append(out.Terms, one.Terms...)
		out.Origin = weaker(out.Origin, one.Origin)
	}
	out.rest = number(value)
	out.Nominal, out.Value = out.rest, out.rest
	if loose {
		out.Low, out.High = number(low), number(high)
	}
	return out, len(out.Terms) > 0
}

func (w *work) tool(id string) *file.Tool {
	_, found, _, _ := w.a.Find(id)
	if t, ok := found.(*file.Tool); ok {
		return t
	}
	return &file.Tool{}
}

func (w *work) part(id string) *file.Part {
	_, found, _, _ := w.a.Find(id)
	if p, ok := found.(*file.Part); ok {
		return p
	}
	return &file.Part{}
}

// findRobot finds the robot that the contact names, the one of its task, or the
// only one there is. Of several the contact has to name one, since their masses differ.
func (e *expansion) findRobot() {
	ids := []string{e.spec.Robot}
	if e.spec.Robot == "" {
		if ids = nil; e.task != nil {
			ids = e.task.Robots
		}
		if len(ids) == 0 {
			for i := range e.a.Cell.Robots {
				ids = append(ids, e.a.Cell.Robots[i].ID)
			}
		}
	}
	if len(ids) > 1 && e.c.Class != Jaws {
		e.ps.Add(source.Problem{Pos: e.spec.Pos(), Message: "contact `" + e.spec.ID + "` names no robot, and there are " + count(len(ids), "robot"),
			Expected: "`robot`, one of: " + source.Quoted(ids), Hint: "where several can touch, write a contact for each"})
		return
	}
	for _, id := range ids {
		_, found, _, _ := e.a.Find(id)
		if e.arm, _ = found.(*file.Robot); e.arm != nil {
			e.c.Robot = e.arm.ID
		}
	}
}

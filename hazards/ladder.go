package hazards

import (
	"slices"

	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// Ladder holds the permitted speeds of one robot by body region: free contact,
// by the model, not measured. It is worked out by the sheet for free contacts,
// with the heaviest mass and the smallest contact area that the robot comes with.
type Ladder struct {
	Robot  string
	MassOf string  // what makes the mass: ids of robot, tool and part, or of the contact that states it
	AreaOf string  // contact, or point of one, whose area is taken; "" where none is known
	Inputs []Input // mass and area as the sheet takes them
	Rungs  []Rung  // by body region in the order of the table, then body areas of no region
}

// Rung is one body region of a ladder. The worst of its body areas governs.
type Rung struct {
	Region  string // "" for a body area of no region
	Name    string
	Area    string         // body area that governs
	Outcome *sheet.Outcome // of that area
	Notes   []string       // what holds for this region besides
}

// Speed is the permitted speed in mm/s, absent where none is offered.
func (r *Rung) Speed() expr.Value { return r.Outcome.Value("v_max") }

// Speeds tells whether a ladder offers any speed.
func (l *Ladder) Speeds() bool {
	return slices.ContainsFunc(l.Rungs, func(r Rung) bool { return r.Speed().Given() })
}

// ladders works out a ladder for each robot that has contacts or a moving mass.
func (w *work) ladders() {
	s := w.lib.Sheet(freeSheet)
	if s == nil {
		return
	}
	for i := range w.a.Cell.Robots {
		robot := &w.a.Cell.Robots[i]
		checks := w.checksOf(robot.ID)
		if len(checks) == 0 && !robot.MovingMass.Set {
			continue
		}
		l := Ladder{Robot: robot.ID}
		w.heaviest(&l, s, robot, checks)
		smallestArea(&l, checks)
		w.rungs(&l, s)
		w.r.Ladders = append(w.r.Ladders, l)
	}
}

// checksOf are the checks of contacts with a robot, but not of those between jaws.
func (w *work) checksOf(robot string) []*Check {
	var out []*Check
	for i := range w.r.Contacts {
		k := &w.r.Contacts[i]
		if k.Robot != robot || k.Class == Jaws {
			continue
		}
		for _, j := range k.Checks {
			out = append(out, &w.r.Checks[j])
		}
	}
	return out
}

// heaviest puts in the moving mass with the heaviest tool and part of the tasks
// of a robot, or an effective mass that a contact states where that is more.
func (w *work) heaviest(l *Ladder, s *sheet.Sheet, robot *file.Robot, checks []*Check) {
	if robot.MovingMass.Set {
		tool, part, known := w.load(robot.ID)
		l.MassOf = and(addOnce(addOnce([]string{robot.ID}, tool.ID), part.ID))
		if in, ok := w.amount(s.Input("M"), robot.MovingMass); ok {
			l.Inputs = append(l.Inputs, in)
		}
		switch in, ok := w.amount(s.Input("m_L"), tool.Mass, part.Mass); {
		case !known:
			l.MassOf += ", tool not known"
		case ok:
			l.Inputs = append(l.Inputs, in)
		default:
			l.Inputs = append(l.Inputs, Input{Name: "m_L", Value: number(0), Terms: []Term{{Factor: 1}}})
		}
	}
	top := w.massOf(l, s)
	for _, c := range checks {
		in := atEnd(inputOf(c, s.Input("m_R").Name), Up)
		if in != nil && (!top.Given() || in.Value.Num > top.Num) {
			top, l.Inputs = in.Value, []Input{*in}
			l.MassOf = commas(addOnce(addOnce(addOnce([]string{c.Of}, c.Spot), c.Tool), c.Part))
		}
	}
}

// massOf is the effective mass of a ladder, worked out by the sheet for the
// first body area that may be touched.
func (w *work) massOf(l *Ladder, s *sheet.Sheet) expr.Value {
	for i := range w.areas.Rows {
		if m := w.rungAt(l, s, w.areas.RowKey(i)).Value("m_R"); m.Given() {
			return m
		}
	}
	return expr.Value{}
}

// load is the heaviest tool, and the heaviest part, of the tasks and contacts of a
// robot. Where none of them names a tool or says that there is none, the mass at
// the flange is not known.
func (w *work) load(robot string) (tool *file.Tool, part *file.Part, known bool) {
	tool, part = &file.Tool{}, &file.Part{}
	heavier := func(a, than file.Amount) bool {
		x, y := w.r.usedFact(a), w.r.usedFact(than)
		return x.Given() && (!y.Given() || x.Num > y.Num)
	}
	take := func(tools, parts []string) {
		for _, id := range tools {
			if x := w.tool(id); heavier(x.Mass, tool.Mass) {
				tool = x
			}
		}
		for _, id := range parts {
			if x := w.part(id); heavier(x.Mass, part.Mass) {
				part = x
			}
		}
		known = known || len(tools) > 0
	}
	for i := range w.a.Tasks {
		if t := &w.a.Tasks[i]; has(robotsOf(w.a, t), robot) {
			take(t.Tools, t.Parts)
		}
	}
	for i := range w.r.Contacts {
		if c := &w.r.Contacts[i]; c.Robot == robot {
			take(c.Tools, c.Parts)
			known = known || c.Spec.Has("tools")
		}
	}
	return tool, part, known
}

// atEnd is an input at an end of its tolerance, whichever end its check counts at:
// a check that nothing moves stays at its values as written.
func atEnd(in *Input, end string) *Input {
	if in == nil || !in.Low.Given() || !in.High.Given() {
		return in
	}
	at := *in
	at.End, at.Value = end, in.High
	if end == Down {
		at.Value = in.Low
	}
	return &at
}

// smallestArea puts in the smallest contact area that the contacts of a robot use.
func smallestArea(l *Ladder, checks []*Check) {
	var least *Input
	for _, c := range checks {
		if in := atEnd(inputOf(c, "A"), Down); in != nil && (least == nil || in.Value.Num < least.Value.Num) {
			least = in
			if l.AreaOf = c.Of; c.Spot != "" {
				l.AreaOf += ", " + c.Spot
			}
		}
	}
	if least != nil {
		l.Inputs = append(l.Inputs, *least)
	}
}

// rungAt works the sheet out for one body area.
func (w *work) rungAt(l *Ladder, s *sheet.Sheet, area string) *sheet.Outcome {
	vals := s.Blank()
	vals[s.Input("area").Slot] = text(area)
	for i := range l.Inputs {
		vals[s.Column(l.Inputs[i].Name).Slot] = l.Inputs[i].Value
	}
	o := s.Evaluate(vals)
	return &o
}

// rungs takes the worst body area of each region. Of several that permit the
// same speed that with the lowest pressure limit counts, so that it is the worst
// at any mass and contact area.
func (w *work) rungs(l *Ladder, s *sheet.Sheet) {
	region, name, own := w.areas.Column("region"), w.regions.Column("name"), w.areas.Column("name")
	var loose []Rung
	of := map[string]*Rung{}
	for i := range w.areas.Rows {
		area := w.areas.RowKey(i)
		r := Rung{Region: w.areas.Rows[i][region].Value.Text, Area: area, Outcome: w.rungAt(l, s, area)}
		switch known := of[r.Region]; {
		case r.Region == "":
			r.Name = w.areas.Rows[i][own].Value.Text
			loose = append(loose, r)
		case known == nil || lower(&r, known):
			of[r.Region] = &r
		}
	}
	for i := range w.regions.Rows {
		if r := of[w.regions.RowKey(i)]; r != nil {
			r.Name = w.regions.Rows[i][name].Value.Text
			l.Rungs = append(l.Rungs, *r)
		}
	}
	l.Rungs = append(l.Rungs, loose...)
	l.remark()
}

// lower tells whether a body area permits less than another of its region. One
// where no contact is permitted speaks only where the whole region is such.
func lower(a, than *Rung) bool {
	x, y := a.Outcome.Value("p_limit"), than.Outcome.Value("p_limit")
	return x.Given() && (!y.Given() || x.Num < y.Num)
}

// remark gives each rung the notes that do not hold for all.
func (l *Ladder) remark() {
	said := map[string]int{}
	n := 0
	for i := range l.Rungs {
		if !l.Rungs[i].Outcome.Value("p_limit").Given() {
			continue
		}
		n++
		for _, note := range l.Rungs[i].Outcome.Notes() {
			said[note.Text]++
		}
	}
	for i := range l.Rungs {
		r := &l.Rungs[i]
		if !r.Outcome.Value("p_limit").Given() {
			r.Notes = []string{r.Outcome.Why}
			continue
		}
		for _, note := range r.Outcome.Notes() {
			if said[note.Text] < n {
				r.Notes = append(r.Notes, note.Text)
			}
		}
	}
}

// robotsOf are the robots of a task: those it names, or the only one there is.
func robotsOf(a *file.Assessment, t *file.Task) []string {
	if len(t.Robots) == 0 && len(a.Cell.Robots) == 1 {
		return []string{a.Cell.Robots[0].ID}
	}
	return t.Robots
}

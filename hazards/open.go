package hazards

import (
	"cmp"
	"slices"

	"standclear/hazards/file"
	"standclear/limits/sheet"
	"standclear/limits/source"
	"standclear/limits/table"
)

// Kinds of open points, in their order.
const (
	OpenNotDecided = "not-decided"
	OpenNeedsCopy  = "needs-copy"
	OpenAssumed    = "assumed"
	OpenMemory     = "memory"
	OpenPractice   = "practice"
	OpenEstimate   = "estimate"
	OpenOverride   = "override"
)

var openOrder = []string{OpenNotDecided, OpenNeedsCopy, OpenAssumed, OpenMemory, OpenPractice, OpenEstimate, OpenOverride}

// open lists what is not known well enough for what was worked out, each once.
func (w *work) open() {
	l := &openList{work: w, at: map[[2]string]int{}, uniform: map[[2]string]bool{}}
	for i := range w.r.Checks {
		c := &w.r.Checks[i]
		if c.Shadow {
			continue
		}
		l.undecided(c)
		l.inputs(c)
		l.data(c, c.Outcome)
		if gap, ok := l.ownGap(c); ok {
			l.own(c, gap)
		}
		for _, n := range c.Outcome.Notes() {
			if n.Open != "" {
				l.add(c, n.Open, c.Of, n.Text, c.Pos)
			}
		}
	}
	w.carryOpen()
	if m := w.r.Method; m != nil && m.Own != "" && len(w.r.Rows) > 0 {
		l.add(nil, OpenOverride, "method "+m.ID, "the user's own method, "+m.Own+": "+m.Title, source.Pos{})
	}
	for i := range w.r.Rows {
		row := &w.r.Rows[i]
		for _, e := range []*Estimate{&row.Before, &row.After} {
			if e.Done {
				l.data(nil, e.Outcome)
				l.action(e.Level)
			}
		}
	}
	slices.SortStableFunc(w.r.Open, func(a, b OpenPoint) int {
		return cmp.Compare(slices.Index(openOrder, a.Kind), slices.Index(openOrder, b.Kind))
	})
}

type openList struct {
	*work
	at      map[[2]string]int  // kind and about
	uniform map[[2]string]bool // table and column whose cells are all of one standing
}

// add puts an open point on the list unless it is there, and notes it at the check.
func (l *openList) add(c *Check, kind, about, message string, pos source.Pos) {
	if c != nil {
		c.Open = addOnce(c.Open, about)
	}
	key := [2]string{kind, about}
	if _, there := l.at[key]; there {
		return
	}
	l.at[key] = len(l.r.Open)
	l.r.Open = append(l.r.Open, OpenPoint{Kind: kind, About: about, Message: message, Pos: pos})
}

// undecided: a check that is not decided. What several checks of one contact
// lack for the same reason is one point.
func (l *openList) undecided(c *Check) {
	kind := string(c.Verdict)
	if c.Verdict != sheet.NotDecided && c.Verdict != sheet.NeedsCopy {
		return
	}
	about := c.Of
	if i, ok := l.at[[2]string{kind, c.Of}]; ok && l.r.Open[i].Message != c.Why {
		about = c.ID
	}
	l.add(c, kind, about, c.Why, c.Pos)
}

// inputs: assumed values, by the path where they are written.
func (l *openList) inputs(c *Check) {
	for i := range c.Inputs {
		in := &c.Inputs[i]
		l.input(c, in)
		for j := range in.Members {
			l.input(c, &in.Members[j])
		}
	}
	for _, path := range c.shares {
		l.fact(c, path)
	}
}

func (l *openList) input(c *Check, in *Input) {
	for _, t := range in.Terms {
		if t.Path != "" {
			l.fact(c, t.Path)
		} else if in.Typed == file.Assumed {
			l.add(c, OpenAssumed, c.ID+"."+userName(c.Sheet.Column(in.Name)), "assumed: "+cmp.Or(in.Ref, "no origin is given"), in.Pos)
		}
	}
}

func (l *openList) fact(c *Check, path string) {
	x := l.known[path]
	if x == nil {
		return
	}
	for _, doubt := range x.doubts {
		f := &l.r.Facts[l.known[doubt].fact]
		l.add(c, OpenAssumed, doubt, "assumed: "+f.shown()+", "+f.Means, f.Pos)
	}
}

// data: cells of tables, constants and sheets known from memory or by practice only.
func (l *openList) data(c *Check, o *sheet.Outcome) {
	if own := o.Sheet.Own; own != "" {
		l.add(c, OpenOverride, o.Sheet.ID, "the user's own sheet, "+own+": "+o.Sheet.Title, source.Pos{})
	}
	for _, cell := range o.Cells() {
		if own := cell.Table.Own; own != "" {
			l.add(c, OpenOverride, cell.Table.ID, "the user's own table, "+own+": "+cell.Table.Title, source.Pos{})
		}
		l.own(c, cell)
		kind, word := standing(cell.Standing)
		if kind == "" {
			continue
		}
		about, message := cell.Name(), word+": "+cell.Show()
		if l.whole(cell) {
			about, message = cell.Table.ID, word+": the values of "+cell.Table.Title
		}
		l.add(c, kind, about, message, source.Pos{})
	}
	for _, k := range o.Sheet.Consts {
		if kind, word := standing(k.Standing); kind != "" {
			l.add(c, kind, o.Sheet.ID+": "+k.Name, word+": "+k.Means, source.Pos{})
		}
	}
	if o.Sheet.Standing == table.Memory {
		l.add(c, OpenMemory, o.Sheet.ID, "from memory: the formulas of "+o.Sheet.Title, source.Pos{})
	}
}

// action: what a level of the method asks for, where that is not of its standard.
func (l *openList) action(level string) {
	if a := l.r.Method.Asks(level); a != nil {
		if kind, word := standing(table.Standing(a.Standing)); kind != "" {
			l.add(nil, kind, "method "+l.r.Method.ID, word+": what its levels ask for", source.Pos{})
		}
	}
}

func standing(s table.Standing) (kind, word string) {
	switch s {
	case table.Memory:
		return OpenMemory, "from memory"
	case table.Practice:
		return OpenPractice, "common practice, no source"
	}
	return "", ""
}

// whole tells whether all values of a table beside its key are of the standing
// of the cell, so that they are one open point and not one for each cell.
func (l *openList) whole(cell sheet.Cell) bool {
	key := [2]string{cell.Table.ID, string(cell.Standing)}
	if is, known := l.uniform[key]; known {
		return is
	}
	is := true
	for r := range cell.Table.Rows {
		for c := range cell.Table.Columns {
			v := cell.Table.Rows[r][c]
			if cell.Table.Columns[c].ID != cell.Table.Key && v.Value.Given() && v.Standing != cell.Standing {
				is = false
			}
		}
	}
	l.uniform[key] = is
	return is
}

package sheet

import (
	"slices"
	"strings"

	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/table"
)

// Fault says what an input must be when v cannot be, "" when it can. Absent
// values are possible.
func (c *Column) Fault(v expr.Value) string {
	switch {
	case !v.Given():
		return ""
	case c.Type.Kind == expr.Number && (v.Kind != expr.Number || !c.Bounds.possible(v.Num)):
		return c.Bounds.physical(c.Type.Unit)
	case c.Type.Kind == expr.Text && (v.Kind != expr.Text || !slices.Contains(c.Choice, v.Text)):
		return "one of the choices"
	}
	return ""
}

// Cell is one cell of a table that an outcome rests on.
type Cell struct {
	Column   *Column // the look-up that took it
	Table    *table.Table
	Row, Col int
	Value    expr.Value
	Standing table.Standing
	Own      *table.OwnValue // the user's own, in place of the published one
}

// Name says which cell it is: "contact-areas: p_s of palm-d".
func (c Cell) Name() string { return c.Table.ID + ": " + c.Table.Describe(c.Row, c.Col) }

// Show writes the value of the cell with its unit.
func (c Cell) Show() string {
	if c.Value.Kind == expr.Text {
		return c.Value.Text
	}
	return strings.TrimSpace(quantity.Format(c.Value.Num, 15) + " " + unitName(c.Table.Columns[c.Col].Type.Unit))
}

// Cells lists the table cells that look-ups of the outcome took, in the order
// of the columns. Of a span of cells it is the one that governs.
func (o *Outcome) Cells() []Cell {
	var out []Cell
	for _, c := range o.Sheet.Columns {
		if c.Role != Lookup {
			continue
		}
		if cell, ok := c.lookup.cell(o.Values); ok {
			cell.Column = c
			out = append(out, cell)
		}
	}
	return out
}

func (l *lookup) cell(vals []expr.Value) (Cell, bool) {
	row, col, ok := l.governs(vals)
	if !ok {
		return Cell{}, false
	}
	c := l.table.Rows[row][col]
	return Cell{Table: l.table, Row: row, Col: col, Value: c.Value, Standing: c.Standing, Own: c.Own}, c.Value.Given()
}

// FromMemory says which cells the outcome rests on that are known from memory only.
func (o *Outcome) FromMemory() []string {
	var out []string
	for _, c := range o.Cells() {
		if c.Standing == table.Memory {
			out = append(out, "from memory: "+c.Name()+", "+c.Show())
		}
	}
	return out
}

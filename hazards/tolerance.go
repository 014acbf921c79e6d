package hazards

import (
	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/sheet"
	"standclear/limits/source"
)

// Every check counts tolerances at its own worst corner, see corner.go. Rules
// that look at a value by itself, such as a set speed, take the end that its kind
// says is the worse one: a fact is then used there.

// ends are the ends of tolerances that were taken.
type ends struct{ up, down bool }

func (e *ends) join(o ends) { e.up, e.down = e.up || o.up, e.down || o.down }

// direction is the one direction of all, "" where there is none or both are.
func (e ends) direction() string {
	switch {
	case e.up == e.down:
		return ""
	case e.up:
		return Up
	}
	return Down
}

// endOf is a quantity at an end of its tolerance, without it.
func endOf(q quantity.Quantity, end string) quantity.Quantity {
	switch end {
	case Up:
		return q.High()
	case Down:
		return q.Low()
	}
	q.Tol = nil
	return q
}

// loose tells whether a quantity has a tolerance of more than nothing.
func loose(q quantity.Quantity) bool { return q.Tol != nil && q.Tol.Sign() != 0 }

// worseOf is the direction in which the sheet expects an input to get worse:
// against the one in which it may be adjusted to come to a better verdict.
func worseOf(col *sheet.Column) string {
	switch col.Adjust {
	case Up:
		return Down
	case Down:
		return Up
	}
	return ""
}

// spread puts value and both ends of an input, which have to be possible.
// nominal is as total, with results of other checks as they are without their
// tolerances; it has no number where one of them gives none then.
func (w *work) spread(in *Input, col *sheet.Column, total, nominal quantity.Quantity, t file.Term, found string) {
	in.rest = number(inUnit(endOf(total, ""), col))
	if nominal.Num != nil {
		in.Nominal = number(inUnit(endOf(nominal, ""), col))
	}
	v := in.rest
	if loose(total) {
		in.Low, in.High = number(inUnit(total.Low(), col)), number(inUnit(total.High(), col))
		for _, end := range []expr.Value{in.Low, in.High} {
			if fault := col.Fault(end); fault != "" && !in.Takes() {
				w.ps.Add(source.Problem{Pos: t.Pos, Width: t.Width, Message: "found `" + found + "` for " + inputName(col) + ", whose tolerance leads to " + col.Show(end),
					Expected: fault + ", " + col.Means + ", at both ends"})
				return
			}
		}
	}
	switch {
	case !in.Low.Given():
	case in.worse == Up:
		v = in.High
	case in.worse == Down:
		v = in.Low
	}
	w.put(in, col, v, t, found)
}

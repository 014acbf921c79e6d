package hazards

import (
	"slices"

	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/sheet"
	"standclear/limits/source"
)

// Every tolerance counts at its worse end. Which end that is the value itself
// says, or the sheet it is put into; where neither does it is an open point,
// and where they differ it is an input error.

// ends are the ends of tolerances that were taken.
type ends struct{ up, down bool }

func (e *ends) join(o ends) { e.up, e.down = e.up || o.up, e.down || o.down }

// against tells whether a tolerance was taken at the end that is the milder one
// where worse is the worse direction.
func (e ends) against(worse string) bool { return worse == Up && e.down || worse == Down && e.up }

// worst is a quantity at the worse end of its tolerance. counted is false where
// it has a tolerance and no end is known to be the worse.
func worst(q quantity.Quantity, worse string) (used quantity.Quantity, at ends, counted bool) {
	counted = true
	switch {
	case q.Tol == nil || q.Tol.Sign() == 0:
	case worse == Up:
		q, at.up = q.High(), true
	case worse == Down:
		q, at.down = q.Low(), true
	default:
		counted = false
	}
	q.Tol = nil
	return q, at, counted
}

// worseOf is the direction in which an input gets worse: against the one in
// which it may be adjusted to come to a better verdict.
func worseOf(col *sheet.Column) string {
	switch col.Adjust {
	case Up:
		return Down
	case Down:
		return Up
	}
	return ""
}

const worseEnd = "the value at its worse end, without a tolerance"

// opposed reports a value whose tolerance counts at the end that is the milder
// one in this place.
func (w *work) opposed(pos source.Pos, found, worse string) {
	word := map[string]string{Up: "greater", Down: "smaller"}[worse]
	w.ps.Add(source.Problem{Pos: pos, Message: found + " has a tolerance that counts the other way: here the " + word + " value is the worse",
		Expected: worseEnd})
}

// spread is a sum at the lower ends of all tolerances, without them, and at the
// upper ends, in the unit of its column.
type spread [3]float64

// spreadOf is nil where no summand has a tolerance.
func spreadOf(terms []quantity.Quantity, unit quantity.Unit) *spread {
	if !slices.ContainsFunc(terms, func(q quantity.Quantity) bool { return q.Tol != nil }) {
		return nil
	}
	s := new(spread)
	for _, q := range terms {
		s[0], s[1], s[2] = s[0]+in(q.Low(), unit), s[1]+in(q, unit), s[2]+in(q.High(), unit)
	}
	return s
}

// probe tries the other ends of tolerances. An end that is worse than the one
// taken is an input error: directions are stated for a value as a whole, and a
// sheet may see it otherwise.
func (w *work) probe(c *Check) {
	c.each(func(in *Input) { w.probeInput(c, in) })
}

func (w *work) probeInput(c *Check, in *Input) {
	if w.loose(in) {
		return
	}
	col := c.Sheet.Column(in.Name)
	for _, v := range in.ends() {
		vals := append(w.scratch[:0], c.Outcome.Values...) // what is worked out is worked out anew
		w.scratch = vals
		vals[col.Slot] = v
		if o := c.Sheet.Evaluate(vals); worseOutcome(&o, c.Outcome) {
			w.ps.Add(source.Problem{Pos: in.Pos, Message: "found a tolerance for " + inputName(col) + " of which another end is the worse one",
				Expected: worseEnd, Hint: "at " + col.Show(v) + " the verdict is `" + string(o.Verdict) + "`"})
			return
		}
	}
}

// ends are the values of an input at the other ends of its tolerances, and of
// those behind results that it takes.
func (in *Input) ends() []expr.Value {
	if !in.Value.Given() {
		return nil
	}
	var out []expr.Value
	if in.spread != nil {
		for _, v := range in.spread {
			if !expr.Equal(v, in.Value.Num) {
				out = append(out, number(v))
			}
		}
	}
	return append(out, in.others...)
}

// loose tells whether an input has a tolerance that is not counted.
func (w *work) loose(in *Input) bool {
	return len(in.loose) > 0 || slices.ContainsFunc(in.Terms, func(t Term) bool {
		x := w.known[t.Path]
		return x != nil && len(x.loose) > 0
	})
}

// worseOutcome compares verdicts, then how much of the limit is used.
func worseOutcome(a, b *sheet.Outcome) bool {
	if a.Verdict.Rank() != b.Verdict.Rank() {
		return a.Verdict.Worse(b.Verdict)
	}
	return a.Use() > b.Use() && !expr.Equal(a.Use(), b.Use())
}

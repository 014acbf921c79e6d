package sheet

import (
	"math"

	"standclear/limits/expr"
	"standclear/limits/quantity"
)

// Outcome is a sheet worked out for one set of inputs.
type Outcome struct {
	Sheet   *Sheet
	Values  []expr.Value // by slot
	Verdict Verdict
	Why     string
	Firm    bool // no measurement overrules the verdict
}

// Blank gives a row of values with the constants in place. Put inputs at the
// slots of their columns, in the unit of the column.
func (s *Sheet) Blank() []expr.Value { return append([]expr.Value(nil), s.start...) }

// Evaluate works the sheet out in place. vals comes from Blank; what is absent
// stays absent, and with it all that needs it. It never fails: the verdict and
// its reason say what is wrong.
func (s *Sheet) Evaluate(vals []expr.Value) Outcome {
	// what withhold rests on stands in front: look-ups and inputs only
	for _, c := range s.order[:s.free] {
		c.lookUp(vals)
	}
	held := s.withheld(vals)
	for _, c := range s.order[s.free:] {
		switch {
		case c.Role == Lookup:
			c.lookUp(vals)
		case held:
			vals[c.Slot] = expr.Value{}
		case c.Role == Step:
			vals[c.Slot] = c.step.value(vals)
		default:
			vals[c.Slot] = c.rounded(vals[c.of.Slot])
		}
	}
	o := Outcome{Sheet: s, Values: vals, Verdict: s.is, Why: s.isWhy}
	n := 0
	for i, r := range s.rules {
		if r.test(vals) {
			n, o.Verdict, o.Why, o.Firm = i+1, r.verdict, r.because, r.firm
			break
		}
	}
	vals[s.last] = expr.Value{Kind: expr.Number, Num: float64(n)}
	vals[s.last+1] = expr.Value{Kind: expr.Text, Text: string(o.Verdict)}
	vals[s.last+2] = expr.Value{Kind: expr.Text, Text: o.Why}
	vals[s.last+3] = expr.Value{}
	if s.use != nil && !held {
		vals[s.last+3] = s.use.value(vals)
	}
	return o
}

func (c *Column) lookUp(vals []expr.Value) {
	vals[c.Slot], _, _ = c.lookup.find(vals)
}

func (s *Sheet) withheld(vals []expr.Value) bool {
	for _, g := range s.withhold {
		if g.is(vals) {
			return true
		}
	}
	return false
}

func (st *step) value(vals []expr.Value) expr.Value {
	if st.given != nil && vals[st.given.Slot].Given() {
		v := vals[st.given.Slot]
		if v.Kind != st.given.Type.Kind || v.Num-v.Num != 0 { // no number
			return expr.Value{}
		}
		return v
	}
	for i := range st.cases {
		c := &st.cases[i]
		if c.cond != nil {
			yes := c.cond.value(vals)
			if !yes.Given() {
				return expr.Value{}
			}
			if !yes.Bool {
				continue
			}
		}
		return c.is.value(vals)
	}
	return expr.Value{}
}

// noiseDigits is the decimal behind which a shown value is noise. An open
// spreadsheet looks at twelve digits when it rounds up, others at all of them;
// with six decimals they agree up to a million.
const (
	noiseDigits = 6
	noise       = 0.5e-6
)

// rounded rounds to the safe side, after the noise is off.
func (c *Column) rounded(v expr.Value) expr.Value {
	if v.Kind != expr.Number {
		return expr.Value{}
	}
	unit := math.Pow(10, -float64(c.Decimals))
	x := math.Abs(v.Num)
	if c.Up {
		x = quantity.RoundUp(x-noise, unit)
	} else {
		x = quantity.RoundDown(x+noise, unit)
	}
	// a spreadsheet rounds up away from zero; only impossible inputs give less than zero
	if v.Num < 0 && x != 0 {
		x = -x
	}
	v.Num = x
	return v
}

// Value gives a result by name, absent when there is none.
func (o *Outcome) Value(name string) expr.Value {
	if c := o.Sheet.byName[name]; c != nil {
		return o.Values[c.Slot]
	}
	return expr.Value{}
}

// Use is the share of the limit used, 0 when it cannot be worked out.
func (o *Outcome) Use() float64 { return o.Value("use").Num }

// Note is a remark on an outcome. Open names the kind of open point it is, or "".
type Note struct{ Text, Open string }

// Notes lists the remarks that apply.
func (o *Outcome) Notes() []Note {
	var out []Note
	for _, n := range o.Sheet.notes {
		if n.cond == nil || n.cond.is(o.Values) {
			out = append(out, Note{Text: n.text, Open: n.open})
		}
	}
	return out
}

// Missing names, for an absent value, the first thing that is missing behind it.
func (o *Outcome) Missing(c *Column) string {
	for range o.Sheet.Columns { // a chain is no longer than the sheet
		next := o.absentNeed(c)
		if next == nil {
			break
		}
		c = next
	}
	return c.Symbol
}

func (o *Outcome) absentNeed(c *Column) *Column {
	for _, n := range c.needs() {
		if d := o.Sheet.byName[n]; d != nil && !o.Values[d.Slot].Given() && (d.Role != Input || !d.Optional) && d.Role != Override {
			return d
		}
	}
	return nil
}

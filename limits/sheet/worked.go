package sheet

import (
	"fmt"
	"strings"

	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/table"
)

// Line is one line of a worked calculation.
type Line struct {
	Symbol, Means    string
	Formula, Numbers string // "" for a look-up
	Result           string // with unit, or why there is none
	Source           string
	Standing         table.Standing
}

// Show writes a value of a column with its unit.
func (c *Column) Show(v expr.Value) string {
	switch v.Kind {
	case expr.Number:
		return strings.TrimSpace(quantity.Format(v.Num, 6) + " " + unitName(c.Type.Unit))
	case expr.Text:
		return v.Text
	}
	return ""
}

func unitName(u quantity.Unit) string {
	if u.Name == "1" {
		return ""
	}
	return u.Name
}

// UnitName is the unit of the column, "" for texts and plain numbers.
func (c *Column) UnitName() string { return unitName(c.Type.Unit) }

// Worked lists look-ups and steps in the order they were worked out, with
// symbols, numbers, result and source.
func (s *Sheet) Worked(o *Outcome) []Line {
	var out []Line
	for _, c := range s.order {
		switch c.Role {
		case Lookup:
			out = append(out, s.lookupLine(c, o))
		case Step:
			out = append(out, s.stepLine(c, o))
		}
	}
	return out
}

func (s *Sheet) lookupLine(c *Column, o *Outcome) Line {
	var keys []string
	for _, k := range c.lookup.keys {
		if r, ok := s.Ranges[k.name]; ok {
			keys = append(keys, fmt.Sprintf("%s = %s to %s (%s)", k.name, r[0].Show(o.Values[r[0].Slot]), r[1].Show(o.Values[r[1].Slot]), k.match))
			continue
		}
		d := s.byName[k.name]
		keys = append(keys, fmt.Sprintf("%s = %s", d.Symbol, d.Show(o.Values[d.Slot])))
	}
	_, st, ok := c.lookup.find(o.Values)
	l := Line{Symbol: c.Symbol, Means: c.Means, Formula: "from the table, " + strings.Join(keys, ", "), Source: c.lookup.table.Standard.String(), Standing: st}
	l.Result = c.Show(o.Values[c.Slot])
	if !ok {
		l.Result, l.Standing = "no value", ""
	}
	return l
}

func (s *Sheet) stepLine(c *Column, o *Outcome) Line {
	l := Line{Symbol: c.Symbol, Means: c.Means, Source: c.Clause, Standing: c.Standing, Result: c.Show(o.Values[c.Slot])}
	if g := c.step.given; g != nil && o.Values[g.Slot].Given() {
		l.Formula, l.Source, l.Standing = "own value", "given", ""
		return l
	}
	e := c.step.taken(o.Values)
	if e != nil {
		l.Formula = e.f.Symbols()
	}
	if !o.Values[c.Slot].Given() {
		l.Result = "not worked out"
		if m := o.Missing(c); m != c.Symbol {
			l.Result += ": " + m + " is missing"
		}
		return l
	}
	l.Numbers = e.f.Numbers(func(name string) string {
		d := s.byName[name]
		if d == nil {
			return name
		}
		if list := s.Lists[d.List]; list != nil {
			return s.showList(list, o)
		}
		return d.Show(o.Values[d.Slot])
	})
	return l
}

func (s *Sheet) showList(list []*Column, o *Outcome) string {
	var out []string
	for _, m := range list {
		if v := o.Values[m.Slot]; v.Given() {
			out = append(out, m.Show(v))
		}
	}
	return strings.Join(out, "; ")
}

// taken gives the expression of the case that applies, nil when none does.
func (st *step) taken(vals []expr.Value) *guarded {
	for i := range st.cases {
		c := &st.cases[i]
		if c.cond == nil {
			return c.is
		}
		switch yes := c.cond.value(vals); {
		case !yes.Given():
			return nil
		case yes.Bool:
			return c.is
		}
	}
	return nil
}

package sheet

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/table"
)

// Line is one line of a worked calculation.
type Line struct {
	Symbol, Means    string
	Case             string // of several cases: the conditions asked, with numbers, up to the one that applies
	Formula, Numbers string // Numbers "" for a look-up, both for what is withheld
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

// Compares tells whether the sheet holds what it works out against a limit. A
// sheet that does not states a requirement; its verdict praises nothing.
func (s *Sheet) Compares() bool {
	return slices.ContainsFunc(s.rules, func(r *rule) bool { return r.verdict == Over })
}

// Worked lists look-ups and steps in the order they were worked out, with
// symbols, numbers, result and source. Where values are withheld it lists the
// look-ups that decide so, and one line that says why.
func (s *Sheet) Worked(o *Outcome) []Line {
	var out []Line
	if held := s.holder(o.Values); held != nil {
		for _, c := range s.order {
			if c.Role == Lookup && slices.Contains(held.f.Names(), c.Name) {
				out = append(out, s.lookupLine(c, o))
			}
		}
		return append(out, s.heldLine(held, o))
	}
	for _, c := range s.order {
		switch c.Role {
		case Lookup:
			if !s.notAsked(c.lookup, o) {
				out = append(out, s.lookupLine(c, o))
			}
		case Step:
			if !c.step.idle(o.Values) {
				out = append(out, s.stepLine(c, o))
			}
		}
	}
	return out
}

// notAsked tells whether a look-up goes by an optional input that is not given,
// or by a step of which no case applies.
func (s *Sheet) notAsked(l *lookup, o *Outcome) bool {
	for _, k := range l.keys {
		d := s.byName[k.name]
		switch {
		case d == nil || o.Values[d.Slot].Given():
		case d.Role == Input && d.Optional || d.step != nil && d.step.idle(o.Values):
			return true
		}
	}
	return false
}

// idle tells whether every condition of a step was asked and none applies.
func (st *step) idle(vals []expr.Value) bool {
	if st.given != nil && vals[st.given.Slot].Given() {
		return false
	}
	for i := range st.cases {
		cond := st.cases[i].cond
		if cond == nil {
			return false
		}
		if v := cond.value(vals); !v.Given() || v.Bool {
			return false
		}
	}
	return true
}

// holder is the first condition under which values are withheld, nil when none is.
func (s *Sheet) holder(vals []expr.Value) *guarded {
	for _, g := range s.withhold {
		if g.is(vals) {
			return g
		}
	}
	return nil
}

func (s *Sheet) heldLine(g *guarded, o *Outcome) Line {
	l := Line{Symbol: "limits", Means: "what this sheet works out", Case: s.asked(g, o, "yes"), Source: s.Standard.String(), Standing: s.Standing}
	l.Result = "withheld: " + o.Why
	if o.Verdict == NotPermitted {
		l.Result = "withheld: no value is offered for a contact that is not permitted"
	}
	return l
}

func (s *Sheet) lookupLine(c *Column, o *Outcome) Line {
	_, st, ok := c.lookup.find(o.Values)
	l := Line{Symbol: c.Symbol, Means: c.Means, Formula: "from " + c.lookup.table.ID + s.place(c.lookup, o), Source: c.lookup.table.Standard.String(), Standing: st}
	l.Result = c.Show(o.Values[c.Slot])
	if !ok {
		l.Result, l.Standing = "no value", ""
	} else if cell, _ := c.lookup.cell(o.Values); cell.Own != nil {
		l.Source = "the user's own, " + cell.Own.File
	}
	return l
}

// place says which rows and columns of its table a look-up reads, by what, and
// of several which counts.
func (s *Sheet) place(l *lookup, o *Outcome) string {
	t := l.table
	rows, ok := l.rows(o.Values)
	if !ok {
		return ": no row for " + s.key(l.keys[0], o)
	}
	unit := unitName(l.keyType(0).Unit)
	where := spoken("row", t.RowKey(rows.from), t.RowKey(rows.to), unit) + s.by(l.keys[0], o)
	if l.col >= 0 {
		return ", " + where + ", column " + t.Columns[l.col].ID
	}
	cols, ok := l.cols(o.Values)
	if !ok {
		return ", " + where + ": no column for " + s.key(l.keys[1], o)
	}
	head := func(i int) string { return quantity.Format(t.Columns[i].At, 15) }
	where += ", " + spoken("column", head(cols.from), head(cols.to), unitName(t.HeadUnit)) + s.by(l.keys[1], o)
	if rows.from != rows.to || cols.from != cols.to {
		row, col, _ := l.governs(o.Values)
		where += "; worst in row " + t.RowKey(row) + ", column " + head(col)
	}
	return ", " + where
}

func spoken(word, from, to, unit string) string {
	out := word + " " + from
	if from != to {
		out = word + "s " + from + " to " + to
	}
	return strings.TrimSpace(out + " " + unit)
}

// by says what a key was matched by, where the row does not say so itself.
func (s *Sheet) by(k lookupKey, o *Outcome) string {
	if k.match == exact {
		return ""
	}
	return " (" + s.key(k, o) + ", " + k.match + ")"
}

func (s *Sheet) key(k lookupKey, o *Outcome) string {
	if r, ok := s.Ranges[k.name]; ok {
		return fmt.Sprintf("%s = %s to %s", k.name, r[0].Show(o.Values[r[0].Slot]), r[1].Show(o.Values[r[1].Slot]))
	}
	d := s.byName[k.name]
	if !o.Values[d.Slot].Given() {
		return d.Symbol + ", which is missing"
	}
	return fmt.Sprintf("%s = %s", d.Symbol, d.Show(o.Values[d.Slot]))
}

func (s *Sheet) stepLine(c *Column, o *Outcome) Line {
	l := Line{Symbol: c.Symbol, Means: c.Means, Source: c.Clause, Standing: c.Standing, Result: c.Show(o.Values[c.Slot])}
	if g := c.step.given; g != nil && o.Values[g.Slot].Given() {
		l.Formula, l.Source, l.Standing = "own value", "given", ""
		return l
	}
	l.Case = s.caseOf(c.step, o)
	e := c.step.taken(o.Values)
	if e != nil {
		l.Formula = e.f.Symbols()
		s.ownIn(&l, e, o)
	}
	if !o.Values[c.Slot].Given() {
		l.Result = "not worked out"
		if m := o.Missing(c); m != c.Symbol {
			l.Result += ": " + m + " is missing"
		}
		return l
	}
	l.Numbers = s.put(e, o, true)
	return l
}

// put is an expression with the numbers put in, and the words where asked for.
func (s *Sheet) put(g *guarded, o *Outcome, words bool) string {
	return g.f.Numbers(func(name string) string {
		if list := s.Lists[name]; list != nil {
			if list[0].Type.Kind == expr.Text && !words {
				return name
			}
			return s.showList(list, o)
		}
		d := s.byName[name]
		switch {
		case d == nil || !o.Values[d.Slot].Given() || d.Type.Kind == expr.Text && !words:
			return name
		case d.Type.Kind == expr.Text:
			return "'" + o.Values[d.Slot].Text + "'"
		}
		return d.Show(o.Values[d.Slot])
	})
}

// caseOf tells how the case of a step was chosen: every condition that was asked
// with its answer. "" where there is nothing to choose.
func (s *Sheet) caseOf(st *step, o *Outcome) string {
	var out []string
	for i := range st.cases {
		c := &st.cases[i]
		if c.cond == nil {
			if len(out) > 0 {
				out = append(out, "otherwise")
			}
			break
		}
		yes := c.cond.value(o.Values)
		if !yes.Given() {
			out = append(out, s.asked(c.cond, o, "not known"))
			break
		}
		if yes.Bool {
			out = append(out, s.asked(c.cond, o, "yes"))
			break
		}
		out = append(out, s.asked(c.cond, o, "no"))
	}
	return strings.Join(out, "; ")
}

// asked is a condition with its answer and, where they say more, the numbers.
// Words that are compared stand among the inputs and are not put in.
func (s *Sheet) asked(g *guarded, o *Outcome, answer string) string {
	symbols, numbers := spell(g.f.Symbols()), spell(s.put(g, o, false))
	if numbers == symbols {
		return symbols + "? " + answer
	}
	return symbols + "? " + answer + " (" + numbers + ")"
}

var (
	negated = regexp.MustCompile(`\bnot (\w+) given\b`)
	among   = regexp.MustCompile(`\bhas\((\w+), ('[^']*')\)`)
)

// spell says "x not given" for "not x given", "x has 'a'" for "has(x, 'a')".
func spell(text string) string {
	return among.ReplaceAllString(negated.ReplaceAllString(text, "$1 not given"), "$1 has $2")
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

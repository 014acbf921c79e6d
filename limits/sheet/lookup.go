package sheet

import (
	"standclear/limits/expr"
	"standclear/limits/table"
)

// Ways to match a key. Standards forbid interpolation; worse-neighbour and
// worst-between serve tables that are not monotone.
const (
	exact          = "exact"
	nextUp         = "next-up"
	nextDown       = "next-down"
	worseNeighbour = "worse-neighbour"
	worstBetween   = "worst-between"
)

type lookup struct {
	table *table.Table
	col   int // -1: a grid, the column comes from the second key
	keys  []lookupKey
}

// lookupKey is what a table is asked for: the slots of a name, or of both ends
// of a range.
type lookupKey struct {
	name, match string
	lo, hi      int
}

func (b *builder) lookups() {
	for i := range b.st.Lookups {
		name, st := b.st.Lookups[i].Key, &b.st.Lookups[i].Value
		t := b.s.lib.Table(st.Table)
		if t == nil {
			b.ps.Addf(st.At("table"), "no table %s", st.Table)
			continue
		}
		l := &lookup{table: t, col: -1}
		if st.Column != "" {
			if l.col = t.Column(st.Column); l.col < 0 {
				b.ps.Addf(st.At("column"), "table %s has no column %s", st.Table, st.Column)
				continue
			}
		}
		for _, k := range st.By {
			l.keys = append(l.keys, lookupKey{name: k.Key, match: k.Value})
		}
		b.checkLookup(l, st)
		c := &Column{Name: name, Means: st.Means, Role: Lookup, lookup: l}
		if l.col >= 0 {
			tc := t.Columns[l.col]
			c.Type, c.Source, c.Standing = tc.Type, tc.Source, tc.Standing
			if c.Means == "" {
				c.Means = tc.Means
			}
		} else if t.First >= 0 {
			tc := t.Columns[t.First]
			c.Type, c.Source, c.Standing = tc.Type, tc.Source, tc.Standing
		}
		c.Clause = t.Standard.String()
		b.add(c, st.Pos())
	}
}

func (b *builder) checkLookup(l *lookup, st *lookupStmt) {
	want := 1
	if l.col < 0 {
		want = 2
	}
	if len(l.keys) != want || (want == 2 && l.table.First < 0) {
		b.ps.Addf(st.At("by"), "a look-up takes one key and a column, or two keys in a grid")
		return
	}
	for i, k := range l.keys {
		switch k.match {
		case exact:
		case worseNeighbour, worstBetween:
			if l.gaps() {
				b.ps.Addf(st.At("by"), "found match %s in table %s, which has cells without a value; expected exact, next-up or next-down", k.match, l.table.ID)
			}
			fallthrough
		case nextUp, nextDown:
			if l.keyType(i).Kind == expr.Text {
				b.ps.Addf(st.At("by"), "found match %s for the texts of table %s, expected exact", k.match, l.table.ID)
			}
		default:
			b.ps.Addf(st.At("by"), "found match %s, expected exact, next-up, next-down, worse-neighbour or worst-between", k.match)
		}
	}
}

// lookupSlots finds what the look-ups go by: an input, a range, a step, or
// another look-up.
func (b *builder) lookupSlots() {
	for _, c := range b.s.Columns {
		if c.lookup == nil {
			continue
		}
		for i := range c.lookup.keys {
			k := &c.lookup.keys[i]
			d := b.s.byName[k.name]
			if r, ok := b.s.Ranges[k.name]; ok {
				d = r[0]
				k.lo, k.hi = r[0].Slot, r[1].Slot
			} else if d != nil {
				k.lo, k.hi = d.Slot, d.Slot
			} else {
				b.ps.Addf(b.st.At("lookups"), "look-up %s: sheet %s has no %s", c.Name, b.s.ID, k.name)
				continue
			}
			if want := c.lookup.keyType(i); !sameType(d.Type, want) {
				b.ps.Addf(b.st.At("lookups"), "look-up %s: found %s, %s; expected %s, as the keys of table %s",
					c.Name, k.name, typeWords(d.Type), typeWords(want), c.lookup.table.ID)
			}
		}
	}
}

// keyType is what the table takes as its key i: the rows first, then the heads
// of a grid. A look-up compares bare numbers, so that their unit has to be one.
func (l *lookup) keyType(i int) expr.Type {
	if i > 0 {
		return expr.Type{Kind: expr.Number, Unit: l.table.HeadUnit}
	}
	return l.table.Columns[l.table.Column(l.table.Key)].Type
}

func sameType(a, b expr.Type) bool {
	return a.Kind == b.Kind && (a.Kind != expr.Number || a.Unit.Dim == b.Unit.Dim && a.Unit.Scale.Cmp(b.Unit.Scale) == 0)
}

func typeWords(t expr.Type) string {
	if t.Kind == expr.Number {
		return "a number in " + t.Unit.Describe()
	}
	return "a text"
}

// span is a range of row or column indexes, ends included.
type span struct{ from, to int }

func (l *lookup) find(vals []expr.Value) (expr.Value, table.Standing, bool) {
	row, col, ok := l.governs(vals)
	if !ok {
		return expr.Value{}, "", false
	}
	c := &l.table.Rows[row][col]
	return c.Value, c.Standing, c.Value.Given()
}

// governs gives the place of the cell that counts: of a span the greatest, and
// of equal ones the less well known. ok is false when there is none.
func (l *lookup) governs(vals []expr.Value) (row, col int, ok bool) {
	rows, ok := l.rows(vals)
	if !ok {
		return 0, 0, false
	}
	cols := span{l.col, l.col}
	if l.col < 0 {
		if cols, ok = l.cols(vals); !ok {
			return 0, 0, false
		}
	}
	row, col = rows.from, cols.from
	for r := rows.from; r <= rows.to; r++ {
		for c := cols.from; c <= cols.to; c++ {
			cell, best := &l.table.Rows[r][c], &l.table.Rows[row][col]
			if cell.Value.Num > best.Value.Num || cell.Value.Num == best.Value.Num && cell.Standing.Worse(best.Standing) {
				row, col = r, c
			}
		}
	}
	return row, col, true
}

func (l *lookup) rows(vals []expr.Value) (span, bool) {
	k := l.keys[0]
	if v := &vals[k.lo]; k.match == exact && v.Kind == expr.Text {
		i := l.table.Exact(v.Text)
		return span{i, i}, i >= 0
	}
	lo, hi, ok := k.ends(vals)
	return pick(k.match, lo, hi, keyed{l.table.At, l.table.Down, l.table.Up}, ok)
}

func (l *lookup) cols(vals []expr.Value) (span, bool) {
	k := l.keys[1]
	lo, hi, ok := k.ends(vals)
	sp, ok := pick(k.match, lo, hi, keyed{l.table.HeadAt, l.table.HeadDown, l.table.HeadUp}, ok)
	return span{sp.from + l.table.First, sp.to + l.table.First}, ok
}

// ends gives the value of a name, or both ends of a range.
func (k lookupKey) ends(vals []expr.Value) (lo, hi float64, ok bool) {
	a, b := &vals[k.lo], &vals[k.hi]
	return a.Num, b.Num, a.Kind == expr.Number && b.Kind == expr.Number
}

// keyed finds rows or columns by their keys.
type keyed struct{ at, down, up func(x float64) int }

func pick(match string, lo, hi float64, key keyed, ok bool) (span, bool) {
	if !ok {
		return span{}, false
	}
	var sp span
	switch match {
	case exact:
		sp = span{key.at(lo), key.at(lo)}
	case nextUp:
		sp = span{key.up(hi), key.up(hi)}
	case nextDown:
		sp = span{key.down(lo), key.down(lo)}
	default: // worse-neighbour, worst-between
		sp = span{key.down(lo), key.up(hi)}
	}
	if sp.from > sp.to { // the range runs backwards, which a rule reports
		sp.from, sp.to = sp.to, sp.from
	}
	return sp, sp.from >= 0
}

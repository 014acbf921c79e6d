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
	for _, k := range l.keys {
		switch k.match {
		case exact, nextUp, nextDown, worseNeighbour, worstBetween:
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
			if r, ok := b.s.Ranges[k.name]; ok {
				k.lo, k.hi = r[0].Slot, r[1].Slot
			} else if d := b.s.byName[k.name]; d != nil {
				k.lo, k.hi = d.Slot, d.Slot
			} else {
				b.ps.Addf(b.st.At("lookups"), "look-up %s: sheet %s has no %s", c.Name, b.s.ID, k.name)
			}
		}
	}
}

// span is a range of row or column indexes, ends included.
type span struct{ from, to int }

func (l *lookup) find(vals []expr.Value) (expr.Value, table.Standing, bool) {
	c := l.governs(vals)
	if c == nil {
		return expr.Value{}, "", false
	}
	return c.Value, c.Standing, c.Value.Given()
}

// governs gives the cell that counts: of a span the greatest, and of equal ones
// the less well known. nil: there is none.
func (l *lookup) governs(vals []expr.Value) *table.Cell {
	rows, ok := l.rows(vals)
	if !ok {
		return nil
	}
	cols := span{l.col, l.col}
	if l.col < 0 {
		if cols, ok = l.cols(vals); !ok {
			return nil
		}
	}
	best := &l.table.Rows[rows.from][cols.from]
	if rows.from == rows.to && cols.from == cols.to {
		return best
	}
	for r := rows.from; r <= rows.to; r++ {
		for c := cols.from; c <= cols.to; c++ {
			if cell := &l.table.Rows[r][c]; cell.Value.Num > best.Value.Num ||
				cell.Value.Num == best.Value.Num && cell.Standing.Worse(best.Standing) {
				best = cell
			}
		}
	}
	return best
}

func (l *lookup) rows(vals []expr.Value) (span, bool) {
	k := l.keys[0]
	if k.match == exact {
		v := &vals[k.lo]
		if v.Kind == expr.Number {
			i := l.table.Down(v.Num)
			return span{i, i}, i >= 0 && l.table.Up(v.Num) == i
		}
		i := l.table.Exact(v.Text)
		return span{i, i}, v.Given() && i >= 0
	}
	lo, hi, ok := k.ends(vals)
	return pick(k.match, lo, hi, l.table.Down, l.table.Up, ok)
}

func (l *lookup) cols(vals []expr.Value) (span, bool) {
	k := l.keys[1]
	lo, hi, ok := k.ends(vals)
	sp, ok := pick(k.match, lo, hi, l.table.HeadDown, l.table.HeadUp, ok)
	return span{sp.from + l.table.First, sp.to + l.table.First}, ok
}

// ends gives the value of a name, or both ends of a range.
func (k lookupKey) ends(vals []expr.Value) (lo, hi float64, ok bool) {
	a, b := &vals[k.lo], &vals[k.hi]
	return a.Num, b.Num, a.Kind == expr.Number && b.Kind == expr.Number
}

func pick(match string, lo, hi float64, down, up func(float64) int, ok bool) (span, bool) {
	if !ok {
		return span{}, false
	}
	var sp span
	switch match {
	case nextUp:
		sp = span{up(hi), up(hi)}
	case nextDown, exact:
		sp = span{down(lo), down(lo)}
	default: // worse-neighbour, worst-between
		sp = span{down(lo), up(hi)}
	}
	if sp.from > sp.to { // the range runs backwards, which a rule reports
		sp.from, sp.to = sp.to, sp.from
	}
	return sp, sp.from >= 0
}

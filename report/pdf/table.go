package pdf

import "slices"

// col is a column of a table; share is its part of the text width.
type col struct {
	name  string
	unit  string
	share float64
	right bool
}

// cell is what stands in one column of a row.
type cell []para

// row is one row. anchor is where links lead; again repeats what names the row
// when it goes on over a page.
type row struct {
	cells  []cell
	anchor string
	again  cell
	with   float64 // mm of the rows below that stay with it
}

// table is set with rules only below its head and between rows. The head comes
// again on every page.
type table struct {
	d       *doc
	cols    []col
	x, w    []float64
	heads   [][]line
	high    float64 // of the head
	begun   bool
	bare    bool // no head
	lined   bool // rules between rows
	tight   bool // little white above and below
	group   *waiting
	current []span // the group line in force
}

const (
	gutter  = 3.2
	padding = 1.0  // mm above and below the text of a row
	keep    = 55.0 // mm; a row up to this height is not broken
	least   = 18.0 // mm of a broken row that stay together
)

func (d *doc) table(cols ...col) *table {
	t := &table{d: d, cols: cols, lined: true}
	total := 0.0
	for _, c := range cols {
		total += c.share
	}
	x := sideMargin
	for i, c := range cols {
		w := c.share / total * d.width
		t.x = append(t.x, x)
		x += w
		if i < len(cols)-1 {
			w -= gutter
		}
		t.w = append(t.w, w)
	}
	for i, c := range cols {
		spans := []span{{text: c.name, style: cellGrey}}
		if c.unit != "" {
			spans = append(spans, span{text: " " + unitText(c.unit), style: cellGrey})
		}
		ls := d.broken(para{spans: spans, right: c.right}, t.w[i])
		t.heads = append(t.heads, ls)
		t.high = max(t.high, tall(ls))
	}
	t.high += 2 * padding
	return t
}

// grid is a table without head and rules.
func (d *doc) grid(shares ...float64) *table {
	cols := make([]col, len(shares))
	for i, s := range shares {
		cols[i].share = s
	}
	t := d.table(cols...)
	t.bare, t.lined, t.tight, t.high = true, false, true, 0
	return t
}

// head draws the head, columns level at the bottom.
func (t *table) head() {
	if t.bare {
		return
	}
	d := t.d
	for i, ls := range t.heads {
		y := d.y + t.high - padding - tall(ls)
		for _, l := range ls {
			d.line(l, t.x[i], y, t.w[i])
			y += l.high
		}
	}
	d.y += t.high
	d.rule(sideMargin, d.y, d.width, thin, black)
}

// resume draws the head of a further page, with the group that goes on.
func (t *table) resume() {
	d := t.d
	d.newPage()
	t.head()
	if len(t.current) == 0 || t.group != nil {
		return
	}
	spans := append(slices.Clone(t.current), span{text: " (" + d.w.Label("continued") + ")", style: cellGrey})
	for i := range spans {
		spans[i].style = cellGrey
	}
	d.y += padding
	d.lines(d.broken(para{spans: spans}, d.width), sideMargin)
	d.y += padding / 2
	d.rule(sideMargin, d.y, d.width, hair, faint)
}

// put sets a row of cells.
func (t *table) put(cells ...cell) { t.row(row{cells: cells}) }

func (t *table) pad() float64 {
	if t.tight {
		return padding / 3
	}
	return padding
}

// block sets rows so that neither the first nor the last of them stands alone
// on a page; tail mm below stay with the last.
func (t *table) block(rows []row, tail float64) {
	high := make([]float64, len(rows))
	for i := range rows {
		_, high[i] = t.measure(&rows[i])
	}
	for i := range rows {
		switch n := len(rows) - i; {
		case n <= 3:
			rows[i].with = tail
			for _, h := range high[i+1:] {
				rows[i].with += h
			}
		case i == 0:
			rows[i].with = high[1] + high[2]
		}
		t.row(rows[i])
	}
}

// measure lays the cells of a row out and gives their height with the white.
func (t *table) measure(r *row) ([][]line, float64) {
	cells := make([][]line, len(t.cols))
	high := 0.0
	for i := range t.cols {
		if i < len(r.cells) {
			cells[i] = t.lay(r.cells[i], i)
		}
		high = max(high, tall(cells[i]))
	}
	return cells, high + 2*t.pad()
}

// row sets a row. A row that is not too tall moves to the next page as a whole.
func (t *table) row(r row) {
	d := t.d
	cells, high := t.measure(&r)
	need := min(high, least)
	if high <= keep {
		need = high
	}
	t.place(need + r.with)
	if d.y+high <= d.bottom()+slack {
		d.place(r.anchor)
		t.slice(cells, high-2*t.pad())
		t.close()
		return
	}
	d.place(r.anchor)
	t.broken(cells, r.again)
}

func (t *table) lay(c cell, i int) []line {
	var ls []line
	for _, p := range c {
		p.right = p.right || t.cols[i].right
		ls = append(ls, t.d.broken(p, t.w[i])...)
	}
	return ls
}

// place makes room for a row with the group line above it, and draws the head
// where it is due.
func (t *table) place(need float64) {
	d := t.d
	if t.group != nil {
		need += t.group.high
	}
	switch {
	case !t.begun:
		t.begun = true
		d.room(need + t.high)
		t.head()
	case d.y+need > d.bottom()+slack:
		t.resume()
	}
	if t.group != nil {
		t.group.draw()
		t.group = nil
	}
}

// over puts a line over the whole width above the row that follows.
func (t *table) over(p para, anchor string) {
	d := t.d
	ls := d.broken(p, d.width)
	t.current = p.spans
	t.group = &waiting{tall(ls) + 3.2, func() {
		d.place(anchor)
		d.y += 2.2
		d.lines(ls, sideMargin)
		d.y += 0.4
		d.rule(sideMargin, d.y, d.width, hair, grey)
		d.y += 0.6
	}}
}

// slice draws the first lines of each cell, as far as they fit into high, and
// gives back the rest.
func (t *table) slice(cells [][]line, high float64) [][]line {
	d := t.d
	top := d.y + t.pad()
	low := 0.0
	rest := make([][]line, len(cells))
	for i, ls := range cells {
		y, n := 0.0, 0
		for n < len(ls) && y+ls[n].high <= high+slack {
			d.line(ls[n], t.x[i], top+y, t.w[i])
			y += ls[n].high
			n++
		}
		rest[i] = ls[n:]
		low = max(low, y)
	}
	d.y = top + low + t.pad()
	return rest
}

func (t *table) broken(cells [][]line, again cell) {
	d := t.d
	for {
		cells = t.slice(cells, d.bottom()-d.y-2*t.pad())
		left := 0
		for _, ls := range cells {
			left += len(ls)
		}
		if left == 0 {
			t.close()
			return
		}
		t.close()
		t.resume()
		if len(cells) > 0 && len(cells[0]) == 0 {
			cells[0] = t.lay(again, 0)
		}
	}
}

func (t *table) close() {
	if t.lined {
		t.d.rule(sideMargin, t.d.y, t.d.width, hair, faint)
	}
}

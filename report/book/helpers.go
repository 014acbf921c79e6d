package book

import "slices"

// Columns that only formulas read are hidden. A spreadsheet hides a column for the
// whole sheet, so that all blocks of a sheet have theirs in the same place.

// hiddenRun is where the first hidden columns of a block begin and end.
func (b *Block) hiddenRun() (from, to int) {
	for from < len(b.Columns) && !b.Columns[from].Hidden {
		from++
	}
	for to = from; to < len(b.Columns) && b.Columns[to].Hidden; {
		to++
	}
	return from, to
}

// holdsChecks tells whether the rows of a block are checks.
func (b *Block) holdsChecks() bool { return b.Column(shownUseKey) >= 0 }

// alignHelpers fills up the hidden columns of blocks of checks to those of the
// block that has the most.
func alignHelpers(blocks []*Block) {
	most := 0
	for _, b := range blocks {
		if b.holdsChecks() {
			_, to := b.hiddenRun()
			most = max(most, to)
		}
	}
	for _, b := range blocks {
		if b.holdsChecks() {
			_, to := b.hiddenRun()
			b.hide(to, most)
		}
	}
}

// stepOver leaves out the columns that the blocks below hide, which would show in
// all of them otherwise.
func (b *Block) stepOver(below []*Block) {
	for _, o := range below {
		if o.holdsChecks() {
			b.hide(o.hiddenRun())
			return // they are aligned
		}
	}
}

// hide puts empty hidden columns in.
func (b *Block) hide(from, to int) {
	var gap []*Column
	for i := from; i < to; i++ {
		gap = append(gap, &Column{Key: "helper|" + number(i), Width: 8, Hidden: true})
	}
	b.Columns = slices.Insert(b.Columns, from, gap...)
	for _, r := range b.Rows {
		if len(r.Cells) > from {
			r.Cells = slices.Insert(r.Cells, from, make([]Cell, len(gap))...)
		}
	}
}

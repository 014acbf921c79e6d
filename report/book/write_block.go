package book

import (
	"fmt"
	"strconv"

	"github.com/xuri/excelize/v2"

	"standclear/limits/expr"
	"standclear/limits/quantity"
)

// block writes one block with its heads.
func (w *sheetWriter) block(p *place) error {
	for w.row < p.top() {
		w.row++
	}
	b := p.block
	if p.title > 0 {
		if err := w.title(b); err != nil {
			return err
		}
	}
	if p.note > 0 {
		if err := w.note(b); err != nil {
			return err
		}
	}
	if err := w.keys(p); err != nil {
		return err
	}
	if err := w.heads(p); err != nil {
		return err
	}
	formulas, err := w.templates(p)
	if err != nil {
		return err
	}
	for i, r := range b.Rows {
		if err := w.data(p, r, formulas); err != nil {
			return fmt.Errorf("block %s, row %d: %w", b.ID, i+1, err)
		}
	}
	w.rules(p)
	return nil
}

// title writes the title of a block. On sheets of several pages across, the
// first column is repeated, so that only a short title stands in it.
func (w *sheetWriter) title(b *Block) error {
	if b.Short == "" {
		return w.line(blockLine, "", b.Title, nil, 11)
	}
	return w.pair(blockLine, b.Short, b.Title, 11)
}

func (w *sheetWriter) note(b *Block) error {
	if b.Short == "" {
		return w.line(noteLine, "", b.Note, nil, bodySize)
	}
	last, n := w.noteLines(b.Note)
	if n < 2 {
		return w.pair(noteLine, "", b.Note, bodySize)
	}
	cell, err := w.cell(paint{head: noteLine, text: true, wrap: true}, text(b.Note), "")
	if err != nil {
		return err
	}
	if err := w.stream.MergeCell(fmt.Sprintf("C%d", w.row), fmt.Sprintf("%s%d", last, w.row)); err != nil {
		return err
	}
	return w.put([]any{nil, nil, cell}, excelize.RowOpts{Height: height(n, bodySize)})
}

// noteWidth is how much of the width of a page a note may take.
const noteWidth = 130.0

// noteLines is the last column that a note runs over on the first page across, and
// how many lines it takes there.
func (w *sheetWriter) noteLines(note string) (last string, n int) {
	at, sum := 2, 0.0
	for i := 2; i < len(w.widths) && sum < noteWidth; i++ {
		if !w.hidden[i] {
			at, sum = i, sum+w.widths[i]
		}
	}
	last, _ = excelize.ColumnNumberToName(at + 1)
	return last, lines(note, sum, bodySize)
}

// pair writes two texts, the second of which runs over the columns.
func (w *sheetWriter) pair(head int, a, b string, size float64) error {
	cells := make([]any, 3)
	for i, s := range []string{a, b} {
		var err error
		if cells[i+1], err = w.cell(paint{head: head, text: true}, text(s), ""); err != nil {
			return err
		}
	}
	return w.put(cells, excelize.RowOpts{Height: height(1, size)})
}

// top is the first row of a place.
func (p *place) top() int {
	switch {
	case p.title > 0:
		return p.title
	case p.note > 0:
		return p.note
	}
	return p.keys
}

// keys writes the hidden row that names the columns for a reader.
func (w *sheetWriter) keys(p *place) error {
	cells := make([]any, len(p.block.Columns)+1)
	for i := range cells {
		key := "block:" + p.block.ID
		if i > 0 {
			key = p.block.Columns[i-1].Key
		}
		var err error
		if cells[i], err = w.cell(paint{head: helper, text: true}, text(key), ""); err != nil {
			return err
		}
	}
	return w.put(cells, excelize.RowOpts{Hidden: true})
}

// heads writes symbol, meaning and unit of every column.
func (w *sheetWriter) heads(p *place) error {
	for level, row := range p.heads {
		if row == 0 {
			continue
		}
		size, most := bodySize, 1
		if level > 0 {
			size = headSize
		}
		cells := make([]any, len(p.block.Columns)+1)
		for i, c := range p.block.Columns {
			v := text([...]string{c.Head, c.Means, unitText(c.Unit)}[level])
			if level == 0 && c.At != nil {
				v = num(*c.At)
			}
			cell, err := w.cell(paint{head: symbolHead + level, text: !c.numeric()}, v, "")
			if err != nil {
				return err
			}
			cells[i+1] = cell
			if !w.hidden[i+1] {
				most = max(most, lines(v.Text, w.widths[i+1], size))
			}
		}
		if err := w.put(cells, excelize.RowOpts{Height: height(most, size)}); err != nil {
			return err
		}
	}
	return nil
}

// numeric tells whether a column holds numbers, which stand on the right.
func (c *Column) numeric() bool {
	return c.Unit != "" || c.Look == Share || c.Look == Count || c.At != nil
}

func unitText(u string) string {
	if u == "1" || u == " " {
		return ""
	}
	return u
}

func (w *sheetWriter) templates(p *place) ([]template, error) {
	out := make([]template, len(p.block.Columns))
	for i, c := range p.block.Columns {
		if c.Formula == nil {
			continue
		}
		t, err := w.resolve(p, c.Formula)
		if err != nil {
			return nil, fmt.Errorf("block %s, column %s: %w", p.block.ID, c.Key, err)
		}
		out[i] = t
	}
	return out, nil
}

// data writes a row of values.
func (w *sheetWriter) data(p *place, r *Row, formulas []template) error {
	cells := make([]any, len(p.block.Columns)+1)
	id, err := w.id(p, r)
	if err != nil {
		return err
	}
	cells[0] = id
	most := 1
	for i, c := range p.block.Columns {
		var cell Cell
		if i < len(r.Cells) {
			cell = r.Cells[i]
		}
		f := ""
		if cell.Live {
			if f, err = w.formula(p, r, i, formulas[i]); err != nil {
				return err
			}
		}
		look := c.Look
		if cell.Look != 0 {
			look = cell.Look
		}
		if w.hidden[i+1] && !cell.Live && !cell.Edit && !cell.Value.Given() {
			continue // nothing to keep
		}
		link := w.link(cell)
		if link != "" {
			f = link
		}
		if cells[i+1], err = w.cell(paint{look: look, edit: cell.Edit, text: isText(p.block, c, cell), link: link != ""}, cell.Value, f); err != nil {
			return err
		}
		if !w.hidden[i+1] && look != Wide {
			most = max(most, lines(shown(cell.Value), w.widths[i+1], bodySize*1.03))
		}
	}
	return w.put(cells, excelize.RowOpts{Height: height(most, bodySize)})
}

// formula is the formula of a cell: its own, or that of its column.
func (w *sheetWriter) formula(p *place, r *Row, column int, t template) (string, error) {
	if f := r.Cells[column].Formula; f != nil {
		own, err := w.resolve(p, f)
		return own.in(w.row), err
	}
	if keys := p.block.Columns[column].Watch; keys != nil {
		return w.watch(p, r, keys)
	}
	return t.in(w.row), nil
}

// watch tests that the cells that may be edited hold what was built in. A cell
// that looks a value up holds it as long as nothing is typed over it.
func (w *sheetWriter) watch(p *place, r *Row, keys []string) (string, error) {
	f := []byte("IF(AND(TRUE()")
	for _, key := range keys {
		i := p.block.Column(key)
		if i < 0 || i >= len(r.Cells) || !r.Cells[i].Edit {
			continue
		}
		at := p.column[key] + strconv.Itoa(w.row)
		switch v := r.Cells[i].Value; {
		case r.Cells[i].Live:
			look, err := w.resolve(p, r.Cells[i].Formula)
			if err != nil {
				return "", err
			}
			f = append(f, ","+at+"="+look.in(w.row)...)
		case v.Kind == expr.Number:
			f = append(f, ","+at+"="+plainNumber(v.Num)...)
		case v.Kind == expr.Text:
			f = append(f, ",EXACT("+at+","+quoted(v.Text)+")"...)
		default:
			f = append(f, ","+at+`=""`...)
		}
	}
	return string(append(f, "),0,1)"...)), nil
}

// id writes the hidden id of a row. A spare row takes the id that is typed.
func (w *sheetWriter) id(p *place, r *Row) (any, error) {
	if !r.Spare {
		return w.cell(paint{head: helper, text: true}, text(r.ID), "")
	}
	first := "B" + strconv.Itoa(w.row)
	return w.cell(paint{head: helper, text: true}, expr.Value{}, "IF("+first+`="","",`+first+")")
}

// isText tells whether a cell stands on the left.
func isText(b *Block, c *Column, cell Cell) bool {
	switch cell.Value.Kind {
	case expr.Number:
		return b.Bare
	case expr.Text:
		return true
	}
	return !c.numeric()
}

// shown is about the text that a cell shows.
func shown(v expr.Value) string {
	switch v.Kind {
	case expr.Number:
		return quantity.Format(v.Num, 5)
	case expr.Bool:
		return "FALSE"
	}
	return v.Text
}

// rules notes the ranges that have choices, bounds or coloured words.
func (w *sheetWriter) rules(p *place) {
	for i, c := range p.block.Columns {
		letters := p.column[c.Key]
		if c.Look == Word {
			w.words = append(w.words, letters+strconv.Itoa(p.first)+":"+letters+strconv.Itoa(p.last))
		}
		for k, r := range p.block.Rows {
			if i < len(r.Cells) && r.Cells[i].Look == Word {
				w.words = append(w.words, letters+strconv.Itoa(p.first+k))
			}
		}
		if c.Choice == "" && c.Bounds == nil {
			continue
		}
		for _, r := range runs(p.block.Rows, i) {
			w.rule(c, fmt.Sprintf("%s%d:%s%d", letters, p.first+r[0], letters, p.first+r[1]))
		}
	}
}

func (w *sheetWriter) rule(c *Column, at string) {
	if c.Choice != "" {
		if w.lists[c.Choice] == nil {
			w.order = append(w.order, c.Choice)
		}
		w.lists[c.Choice] = append(w.lists[c.Choice], at)
		return
	}
	if w.bounds[*c.Bounds] == nil {
		w.sizes = append(w.sizes, *c.Bounds)
	}
	w.bounds[*c.Bounds] = append(w.bounds[*c.Bounds], at)
}

// runs lists the stretches of rows whose cell in a column may be edited.
func runs(rows []*Row, column int) [][2]int {
	var out [][2]int
	for i, r := range rows {
		if column >= len(r.Cells) || !r.Cells[column].Edit {
			continue
		}
		if n := len(out); n > 0 && out[n-1][1] == i-1 {
			out[n-1][1] = i
			continue
		}
		out = append(out, [2]int{i, i})
	}
	return out
}

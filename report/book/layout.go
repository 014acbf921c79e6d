package book

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// titleRows stand above the first block of every sheet: title, state and one
// line of explanation.
const titleRows = 3

// place is where a block stands. Rows and columns count from 1; column 1 is the
// hidden one of the ids.
type place struct {
	sheet  *Sheet
	block  *Block
	title  int // 0: none
	note   int
	keys   int
	heads  [3]int // symbol, meaning, unit; 0: none
	first  int
	last   int
	column map[string]string // letters by key
	row    map[string]int    // by id of the row
}

// layout is the workbook with every block in its place.
type layout struct {
	book   *Book
	places map[string]*place
	onRow  map[string]*place // block of a row by its id, first found
	ends   map[*Sheet]int    // last used row
}

// lay places all blocks. An id used twice is an error of the planner.
func lay(b *Book) (*layout, error) {
	l := &layout{book: b, places: map[string]*place{}, onRow: map[string]*place{}, ends: map[*Sheet]int{}}
	for _, s := range b.Sheets {
		next := titleRows + 1
		for _, bl := range s.Blocks {
			if l.places[bl.ID] != nil {
				return nil, fmt.Errorf("block %s is planned twice", bl.ID)
			}
			p := l.put(s, bl, next)
			if err := l.rows(p); err != nil {
				return nil, err
			}
			next = p.last + 2
		}
		l.ends[s] = next - 2
	}
	return l, nil
}

// put places one block from a row on.
func (l *layout) put(s *Sheet, b *Block, row int) *place {
	p := &place{sheet: s, block: b, column: map[string]string{idKey: "A"}, row: make(map[string]int, len(b.Rows))}
	take := func(yes bool) int {
		if !yes {
			return 0
		}
		row++
		return row - 1
	}
	p.title, p.note, p.keys = take(b.Title != ""), take(b.Note != ""), take(true)
	if !b.Bare {
		p.heads = [3]int{take(true), take(b.has(func(c *Column) string { return c.Means })), take(b.has(func(c *Column) string { return unitText(c.Unit) }))}
	}
	p.first = row
	p.last = row + max(len(b.Rows), 1) - 1
	for i, c := range b.Columns {
		p.column[c.Key], _ = excelize.ColumnNumberToName(i + 2)
	}
	l.places[b.ID] = p
	return p
}

func (b *Block) has(part func(*Column) string) bool {
	for _, c := range b.Columns {
		if part(c) != "" {
			return true
		}
	}
	return false
}

func (l *layout) rows(p *place) error {
	for i, r := range p.block.Rows {
		if len(r.Cells) > len(p.block.Columns) {
			return fmt.Errorf("row %s of block %s has more cells than columns", r.ID, p.block.ID)
		}
		if r.ID == "" {
			continue
		}
		if _, twice := p.row[r.ID]; twice {
			return fmt.Errorf("row %s of block %s is planned twice", r.ID, p.block.ID)
		}
		p.row[r.ID] = p.first + i
		if l.onRow[r.ID] == nil {
			l.onRow[r.ID] = p
		}
	}
	return nil
}

// template is a resolved formula: texts, between which the number of the row
// stands.
type template []string

// resolve turns a formula of a block into a template.
func (l *layout) resolve(p *place, f Formula) (template, error) {
	t := template{""}
	add := func(s string) { t[len(t)-1] += s }
	for _, part := range f {
		if part.Ref.Kind == 0 {
			add(part.Lit)
			continue
		}
		if part.Ref.Kind == Own {
			letters, ok := p.column[part.Ref.Key]
			if !ok {
				return nil, fmt.Errorf("block %s has no column %s", p.block.ID, part.Ref.Key)
			}
			add(letters)
			t = append(t, "")
			continue
		}
		address, err := l.address(part.Ref, p.sheet)
		if err != nil {
			return nil, err
		}
		add(address)
	}
	return t, nil
}

// in writes the formula of a row.
func (t template) in(row int) string {
	if len(t) == 1 {
		return t[0]
	}
	n := strconv.Itoa(row)
	size := 0
	for _, s := range t {
		size += len(s) + len(n)
	}
	var b strings.Builder
	b.Grow(size)
	for i, s := range t {
		if i > 0 {
			b.WriteString(n)
		}
		b.WriteString(s)
	}
	return b.String()
}

// address is the absolute address of anything but a cell of the own row.
func (l *layout) address(r Ref, from *Sheet) (string, error) {
	if r.Kind == Named {
		return r.Key, nil
	}
	p := l.places[r.Block]
	if p == nil {
		return "", fmt.Errorf("no block %s", r.Block)
	}
	prefix := ""
	if p.sheet != from {
		prefix = sheetPrefix(p.sheet.Name)
	}
	if r.Kind == Area || r.Kind == HeadArea {
		return prefix + p.grid(r.Kind == HeadArea), nil
	}
	letters, ok := p.column[r.Key]
	if !ok {
		return "", fmt.Errorf("block %s has no column %s", r.Block, r.Key)
	}
	if r.Kind == Range {
		return prefix + span(letters, p.first, letters, p.last), nil
	}
	row, ok := p.row[r.Row]
	if !ok {
		return "", fmt.Errorf("block %s has no row %s", r.Block, r.Row)
	}
	return prefix + "$" + letters + "$" + strconv.Itoa(row), nil
}

// grid is the range of the grid columns, or of the keys above them.
func (p *place) grid(heads bool) string {
	from, to := "", ""
	for _, c := range p.block.Columns {
		if c.At != nil {
			to = p.column[c.Key]
			if from == "" {
				from = to
			}
		}
	}
	if heads {
		return span(from, p.heads[0], to, p.heads[0])
	}
	return span(from, p.first, to, p.last)
}

func span(from string, first int, to string, last int) string {
	return "$" + from + "$" + strconv.Itoa(first) + ":$" + to + "$" + strconv.Itoa(last)
}

// sheetPrefix names a sheet before an address.
func sheetPrefix(name string) string {
	if strings.ContainsAny(name, " '-") {
		return "'" + strings.ReplaceAll(name, "'", "''") + "'!"
	}
	return name + "!"
}

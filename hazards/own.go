package hazards

import (
	"strings"

	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/limits/source"
)

// own notes a value of the user that something rests on. Where it is milder than
// the published one that is said.
func (l *openList) own(c *Check, cell sheet.Cell) {
	if cell.Own != nil {
		l.add(c, OpenOverride, cell.Name(), ownWords(cell), source.Pos{})
	}
}

func ownWords(cell sheet.Cell) string {
	value := cell.Show()
	was := cell
	was.Value = cell.Own.Was
	from := " (" + cell.Own.File + ")"
	switch {
	case !was.Value.Given():
		return "the user's own value " + value + from + "; none is published"
	case cell.Value.Kind == expr.Text:
		return "the user's own word `" + value + "`" + from + " in place of the published `" + was.Show() + "`"
	case expr.Equal(cell.Value.Num, was.Value.Num):
		return "the user's own value " + value + from + ", the same as the published one"
	case cell.Table.Milder(cell.Col, cell.Value, was.Value):
		return "the user's own value " + value + from + " is milder than the published " + was.Show()
	}
	return "the user's own value " + value + from + " in place of the published " + was.Show()
}

// ownGap is the least gap that a claim of a free contact is held against, where
// it is the user's own. No sheet looks it up.
func (w *work) ownGap(c *Check) (sheet.Cell, bool) {
	k := w.r.Contact(c.Of)
	area := w.areas.Exact(c.Area)
	if k == nil || k.Class != Free || area < 0 {
		return sheet.Cell{}, false
	}
	row, col := w.regions.Exact(w.areas.Rows[area][w.areas.Column("region")].Value.Text), w.regions.Column("least_gap")
	if row < 0 {
		return sheet.Cell{}, false
	}
	x := w.regions.Rows[row][col]
	return sheet.Cell{Table: w.regions, Row: row, Col: col, Value: x.Value, Standing: x.Standing, Own: x.Own}, x.Own != nil
}

// ownCell notes a file with contact data of the user and what it names as its sources.
func (u *uses) ownCell(c sheet.Cell) {
	own := c.Own
	key := "contact data " + own.File
	u.own(key, own.Title, own.File, c.Standing)
	x := &u.list[u.at[key]]
	x.Used = joinOnce(x.Used, c.Table.Describe(c.Row, c.Col))
	if own.Ref != "" {
		x.Address = joinOnce(x.Address, own.Ref)
	}
	for _, source := range own.Source {
		u.source(source, key, c.Standing)
	}
}

// joinOnce appends a word to a list in one text.
func joinOnce(list, word string) string {
	if has(strings.Split(list, "; "), word) {
		return list
	}
	return list + "; " + word
}

// ownPrint follows a value of the user in a line of evidence, so that it is
// another than the same value as published.
func ownPrint(c sheet.Cell) string {
	if c.Own == nil {
		return ""
	}
	out := ", the user's own"
	if c.Own.Ref != "" {
		out += ", " + c.Own.Ref
	}
	if len(c.Own.Source) > 0 {
		out += ", " + commas(c.Own.Source)
	}
	return out
}

// ownData are lines of evidence of what the user brought for a check: its sheet,
// whose file may change while the program does not, and a least gap.
func (p *prints) ownData(c *Check) []string {
	var out []string
	if c.Sheet.Sum != "" {
		out = append(out, line(c.ID+".sheet.sha256", c.Sheet.Sum))
	}
	if gap, ok := p.ownGap(c); ok {
		out = append(out, line(gap.Name(), gap.Show()+", "+string(gap.Standing)+ownPrint(gap)))
	}
	return out
}

package book

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// mostLinked is the longest text that a spreadsheet shows as a link.
const mostLinked = 255

// link is the formula of a cell that leads to a row, "" where there is no such
// row. It looks the row up by its id, so that it still leads there after
// sorting; where the id is gone, it leads to the top of the sheet.
func (l *layout) link(c Cell) string {
	if !c.Leads || utf8.RuneCountInString(c.Value.Text) > mostLinked {
		return ""
	}
	id := firstID(c.Value.Text)
	p := l.onRow[id]
	if p == nil {
		return ""
	}
	sheet := sheetPrefix(p.sheet.Name)
	return "HYPERLINK(" + quoted("#"+sheet+"B") + "&IFERROR(MATCH(" + quoted(id) + "," + sheet + "$A$1:$A$" + strconv.Itoa(p.last) +
		",0),1)," + quoted(c.Value.Text) + ")"
}

// firstID is the id that a text begins with.
func firstID(s string) string {
	for _, end := range []string{",", " · "} {
		s, _, _ = strings.Cut(s, end)
	}
	return s
}

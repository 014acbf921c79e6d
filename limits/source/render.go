package source

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"unicode"

	"golang.org/x/text/width"
)

const (
	tabStop   = 4   // columns of a tab in the printed line
	lineRoom  = 120 // characters of a source line printed before it is cut
	leadInCut = 40  // characters kept before the mark in a cut line
)

// Render prints the problems: place and message, the source line, a mark under the characters meant, what was
// expected, and the hint. text gives the content of a file, nil when it is not at hand; then the line is left out.
func Render(w io.Writer, list []Problem, text func(file string) []byte) {
	files := map[string]*lines{}
	for _, p := range list {
		name := p.Pos.File
		if files[name] == nil {
			files[name] = splitLines(bytes.TrimPrefix(text(name), byteOrderMark))
		}
		fmt.Fprint(w, describeProblem(p, files[name]))
	}
}

func describeProblem(p Problem, file *lines) string {
	var b strings.Builder
	if place := p.Pos.String(); place != "" {
		b.WriteString(place + ": ")
	}
	b.WriteString(p.Message + "\n")
	gutter := "  "
	if line := file.line(p.Pos.Line); len(line) > 0 {
		number := fmt.Sprint(p.Pos.Line)
		gutter = strings.Repeat(" ", len(number)+2)
		shown, mark := markedLine(string(line), p.Pos.Col, p.Width)
		fmt.Fprintf(&b, "  %s | %s\n%s | %s\n", number, shown, gutter, mark)
	}
	if p.Expected != "" {
		fmt.Fprintf(&b, "%s expected: %s\n", gutter, p.Expected)
	}
	if p.Hint != "" {
		fmt.Fprintf(&b, "%s %s\n", gutter, p.Hint)
	}
	return b.String()
}

// markedLine gives the line as printed, tabs as spaces and cut when long, and the mark to stand below it. A mark that
// would go past the end of the line stops there.
func markedLine(line string, col, span int) (shown, mark string) {
	runes := []rune(line)
	first, last := 0, len(runes)
	if len(runes) > lineRoom {
		first = min(max(0, col-1-leadInCut), len(runes))
		last = min(len(runes), first+lineRoom)
	}
	var b strings.Builder
	at := 0 // column on the screen
	if first > 0 {
		b.WriteString("…")
		at = 1
	}
	from, to := -1, 0
	for i := first; i < last; i++ {
		if i == col-1 {
			from = at
		}
		cell, columns := cellOf(runes[i], at)
		b.WriteString(cell)
		at += columns
		if i < col-1+max(1, span) {
			to = at
		}
	}
	if from < 0 { // behind the last character
		from = at
	}
	if last < len(runes) {
		b.WriteString("…")
	}
	mark = strings.Repeat(" ", from) + strings.Repeat("^", max(1, to-from))
	return strings.TrimRight(b.String(), " "), mark
}

// cellOf is what stands for the character on the screen, and how many columns it takes when it begins at a column.
func cellOf(c rune, at int) (string, int) {
	switch {
	case c == '\t':
		n := tabStop - at%tabStop
		return strings.Repeat(" ", n), n
	case isHidden(c), unicode.Is(unicode.Cf, c):
		return "\ufffd", 1
	}
	return string(c), runeWidth(c)
}

// runeWidth is 0 for marks that join the character before them, 2 for the wide characters of East Asian scripts and
// emoji, 1 for all others.
func runeWidth(c rune) int {
	switch {
	case unicode.In(c, unicode.Mn, unicode.Me):
		return 0
	case c < 0x1100:
		return 1
	}
	switch width.LookupRune(c).Kind() {
	case width.EastAsianWide, width.EastAsianFullwidth:
		return 2
	}
	return 1
}

package source

import (
	"bytes"
	"unicode/utf8"
)

// lines knows where each line of a text begins. A line ends with \n or \r\n.
type lines struct {
	text   []byte
	starts []int
}

func splitLines(text []byte) *lines {
	l := &lines{text: text, starts: []int{0}}
	for at := 0; ; {
		i := bytes.IndexByte(text[at:], '\n')
		if i < 0 {
			return l
		}
		at += i + 1
		l.starts = append(l.starts, at)
	}
}

// count is the number of lines; after a last line break there is one more, empty.
func (l *lines) count() int { return len(l.starts) }

// line is the text of line n, counted from 1, without its line break; nil when there is no such line.
func (l *lines) line(n int) []byte {
	if n < 1 || n > len(l.starts) {
		return nil
	}
	end := len(l.text)
	if n < len(l.starts) {
		end = l.starts[n] - 1
	}
	return bytes.TrimSuffix(l.text[l.starts[n-1]:end], []byte("\r"))
}

// place is the line and column of a byte.
func (l *lines) place(offset int) (line, col int) {
	lo, hi := 0, len(l.starts) // the last start at or before offset
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; l.starts[mid] <= offset {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo + 1, 1 + utf8.RuneCount(l.text[l.starts[lo]:offset])
}

// cursor turns lines and columns into bytes. It goes on from the last place, so that asking in file order stays cheap
// on very long lines.
type cursor struct {
	*lines
	lineNo, col, at int
}

// seek moves to the place, or to the nearest one inside the text.
func (c *cursor) seek(line, col int) {
	line = min(max(line, 1), c.count())
	if line != c.lineNo || col < c.col {
		c.lineNo, c.col, c.at = line, 1, c.starts[line-1]
	}
	end := c.starts[line-1] + len(c.line(line))
	for c.col < col && c.at < end {
		_, size := utf8.DecodeRune(c.text[c.at:end])
		c.at += size
		c.col++
	}
}

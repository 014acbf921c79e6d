package source

import (
	"bytes"
	"fmt"
	"unicode"
	"unicode/utf8"
)

// scanner looks at the text before YAML does, for what YAML passes over in silence or reports badly.
type scanner struct {
	*lines
	name   string
	ps     *Problems
	begun  bool // the document has begun
	broken bool // there is no use in reading further
	// fixed is a copy of the text, of equal length, in which what was reported no longer disturbs; nil while equal.
	fixed []byte
}

// scan reports what it finds and returns the text to read on with, cut after the first document, or false when the
// text cannot be read.
func (s *scanner) scan() ([]byte, bool) {
	end := len(s.text)
	for n := 1; n <= s.count() && end == len(s.text); n++ {
		line := s.line(n)
		s.characters(n, line)
		if s.marker(n, line) {
			end = s.starts[n-1]
		}
	}
	text := s.text
	if s.fixed != nil {
		text = s.fixed
	}
	return text[:end], !s.broken
}

func (s *scanner) add(line, col, width int, message, expected, hint string) {
	s.ps.Add(Problem{Pos{s.name, line, col}, width, message, expected, hint})
}

// marker looks for lines that begin or end a document, and for directives. It says whether reading stops here.
func (s *scanner) marker(n int, line []byte) (stop bool) {
	isMark := func(mark string) bool {
		rest, ok := bytes.CutPrefix(line, []byte(mark))
		return ok && (len(rest) == 0 || rest[0] == ' ' || rest[0] == '\t')
	}
	switch {
	case isMark("---") && !s.begun:
		s.begun = true
	case isMark("---"):
		s.add(n, 1, 3, "found `---`, the start of a second document", "one document in a file", "what follows is not read")
		return true
	case isMark("..."):
		s.add(n, 1, 3, "found `...`, the end of a document", "one document in a file, without this mark", "what follows is not read")
		return true
	case !s.begun && len(line) > 0 && line[0] == '%':
		s.add(n, 1, utf8.RuneCount(line), "found a YAML directive", "a file without directives", "")
		s.fix(s.starts[n-1], '#', 1)
	case !s.begun:
		t := bytes.TrimLeft(line, " \t")
		s.begun = len(t) > 0 && t[0] != '#'
	}
	return false
}

// fix puts other bytes in the place of some in the copy that is read.
func (s *scanner) fix(at int, by byte, width int) {
	if s.fixed == nil {
		s.fixed = bytes.Clone(s.text)
	}
	for i := range width {
		s.fixed[at+i] = by
	}
}

// characters looks for tabs and for characters that a reader does not see. Each line is reported once for each kind.
func (s *scanner) characters(n int, line []byte) {
	var tab, invalid, hidden bool
	indent, col := true, 0
	for i := 0; i < len(line); {
		c, size := rune(line[i]), 1
		if c >= utf8.RuneSelf {
			c, size = utf8.DecodeRune(line[i:])
		}
		col++
		switch {
		case c == '\t':
			s.tab(n, col, i, line, indent, &tab)
		case c == utf8.RuneError && size == 1:
			if !invalid {
				s.add(n, col, 1, fmt.Sprintf("found the byte %02X, which is not UTF-8 text", line[i]), "UTF-8 text", "save the file as UTF-8")
			}
			invalid, s.broken = true, true
		case isHidden(c), c == '\u00a0' && indent:
			if !hidden {
				s.add(n, col, 1, fmt.Sprintf("found the hidden character U+%04X", c), "visible characters, spaces and line breaks", "delete it")
			}
			hidden, s.broken = true, true
		}
		indent = indent && (c == ' ' || c == '\t' || c == '\u00a0')
		i += size
	}
}

// tab reports the first tab of a line. Before other text it leaves the structure unknown; elsewhere a space will do.
func (s *scanner) tab(n, col, i int, line []byte, indent bool, seen *bool) {
	rest := bytes.TrimLeft(line[i:], "\t")
	if !*seen {
		message, hint := "found a tab", "in text write \\t between double quotes"
		if indent {
			message, hint = "found a tab in the indentation", ""
		}
		s.add(n, col, len(line)-i-len(rest), message, "spaces", hint)
	}
	*seen = true
	if indent && len(bytes.TrimSpace(rest)) > 0 {
		s.broken = true
	}
	s.fix(s.starts[n-1]+i, ' ', 1)
}

// isHidden says whether the character is one that YAML forbids, takes for a line break or that turns or joins the
// text around it unseen. Line breaks and tabs are treated before.
func isHidden(c rune) bool {
	switch {
	case c < ' ', c == 0x7f, 0x80 <= c && c < 0xa0:
		return true
	case c < 0x2000:
		return c == 0xad // soft hyphen
	case c == 0x200b, c == 0x2028, c == 0x2029, c == 0x2060, c == 0xfeff, c == 0xfffe, c == 0xffff:
		return true
	}
	return unicode.Is(unicode.Bidi_Control, c)
}

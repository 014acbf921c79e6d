package source

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// slip is a usual mistake in the writing of YAML, at a byte of the text.
type slip struct {
	at, width               int
	message, expected, hint string
}

// findSlip looks through text that YAML could not read for the first usual slip; nil when it finds none. It knows just
// enough YAML for that, and what it says is only used on text that is known to be wrong.
func findSlip(text []byte) *slip {
	s := &slips{text: text, plain: -2, roomy: true}
	for s.i < len(text) && s.found == nil {
		s.line()
	}
	return s.found
}

// level is a mapping or list written over lines, at an indentation.
type level struct {
	indent int
	list   bool
}

type slips struct {
	text   []byte
	i      int
	levels []level
	open   []int // brackets not yet closed
	// plain is the indentation that lines must exceed to go on with unquoted text, -2 when the last value is none.
	plain int
	roomy bool // the last key or dash has nothing after it, so that more indented lines may follow
	found *slip
}

func (s *slips) find(at, width int, message, expected, hint string) {
	if s.found == nil {
		s.found = &slip{at, max(1, width), message, expected, hint}
	}
}

func (s *slips) byte(i int) byte {
	if i < len(s.text) {
		return s.text[i]
	}
	return '\n'
}

// lineEnd is the end of the line that byte i stands on.
func (s *slips) lineEnd(i int) int {
	if n := bytes.IndexByte(s.text[min(i, len(s.text)):], '\n'); n >= 0 {
		return i + n
	}
	return len(s.text)
}

func (s *slips) skipSpaces(i int) int {
	for s.byte(i) == ' ' {
		i++
	}
	return i
}

// empty says whether nothing but a comment follows on the line.
func (s *slips) empty(i int) bool {
	c := s.byte(i)
	return c == '\n' || c == '\r' || c == '#' && (i == 0 || isSpace(s.byte(i-1)))
}

// isGap says whether the byte separates: a space or the end of a line.
func (s *slips) isGap(i int) bool { return isSpace(s.byte(i)) }

// line reads one line, or several when its value goes on, outside of brackets and quotes.
func (s *slips) line() {
	start := s.i
	i := s.skipSpaces(start)
	indent := i - start
	s.i = min(s.lineEnd(i)+1, len(s.text)+1)
	switch {
	case s.empty(i), indent == 0 && bytes.HasPrefix(s.text[i:], []byte("---")):
		return
	case indent > s.plain && s.plain > -2:
		s.goesOn(i)
		return
	}
	s.plain = -2
	dashed := false
	for s.byte(i) == '-' && s.isGap(i+1) {
		s.enter(i-start, true, i)
		dashed, s.roomy = true, true
		i = s.skipSpaces(i + 1)
		if s.empty(i) {
			return
		}
	}
	colon := s.keyEnd(i)
	switch {
	case colon == i:
		s.noKey(i)
	case colon > i && s.byte(i) == '!':
		s.tag(i)
	case colon > i && strings.IndexByte(reserved, s.byte(i)) >= 0:
		s.needsQuotes(i, colon)
	}
	if s.found != nil {
		return
	}
	if colon < 0 {
		s.single(i, i-start, dashed)
		return
	}
	s.enter(i-start, false, i)
	if v := s.skipSpaces(colon + 1); s.empty(v) {
		s.roomy = true
	} else {
		s.roomy = false
		s.value(v, i-start, i)
	}
}

// goesOn looks at a line that continues unquoted text.
func (s *slips) goesOn(i int) {
	if colon := s.colon(i); colon >= 0 {
		s.find(i, s.width(i, colon+1), "found `"+clip(string(s.text[i:colon+1]))+"` below a line that already has a value",
			"the same indentation as the key above, or nothing after the `:` of the key above", "")
	}
}

func (s *slips) noKey(at int) { s.find(at, 1, withoutKey, "`key: value`", "") }

// single looks at a line without a key.
func (s *slips) single(i, indent int, dashed bool) {
	if !dashed && len(s.levels) > 0 && indent <= s.levels[len(s.levels)-1].indent {
		end := s.textEnd(i)
		text := string(s.text[i:end])
		hint := ""
		if before, after, ok := strings.Cut(text, ":"); ok && !strings.Contains(before, " ") {
			hint = "write a space after the `:`, `" + clip(before+": "+after) + "`"
		}
		s.find(i, s.width(i, end), "found `"+clip(text)+"` without `: `", "`key: value`", hint)
		return
	}
	s.roomy = false
	owner := -1
	if len(s.levels) > 0 {
		owner = s.levels[len(s.levels)-1].indent
	}
	s.value(i, owner, -1)
}

// enter goes to the mapping or list at an indentation, or opens it.
func (s *slips) enter(indent int, list bool, at int) {
	if s.found != nil {
		return
	}
	above := slices.Clone(s.levels) // at most MaxDepth
	left := false
	for len(s.levels) > 0 && s.levels[len(s.levels)-1].indent > indent {
		s.levels = s.levels[:len(s.levels)-1]
		left = true
	}
	n := len(s.levels)
	top := level{indent: -1}
	if n > 0 {
		top = s.levels[n-1]
	}
	switch {
	case top.indent < indent && left && s.byteBeforeIsIndent(at, indent):
		s.find(at, 1, fmt.Sprintf("found an indentation of %d, which is that of no line above", indent),
			"as many as a line above: "+indents(above), "")
	case n == 0 && !left && !s.roomy:
		s.find(at, s.width(at, s.textEnd(at)), "found text after the end of the value above", "one mapping or list in a file", "")
	case top.indent < indent && !s.roomy:
		s.find(at, s.width(at, s.textEnd(at)), "found a line indented below one that already has a value",
			"the same indentation as the line above", "")
	case len(s.levels) == MaxDepth:
		s.find(at, 1, tooDeep, flatter, "")
	case top.indent < indent:
		s.levels = append(s.levels, level{indent, list})
	case top.list && !list && n > 1 && s.levels[n-2] == level{indent, false}:
		s.levels = s.levels[:n-1]
	case top.list && !list:
		s.find(at, s.width(at, s.textEnd(at)), "found a line that is no item of the list above", "`- ` as above, or less indentation", "")
	case !top.list && list && !s.roomy:
		s.find(at, 1, "found a list item among keys", "`key: value`, or the list below a key with nothing after its `:`", "")
	case !top.list && list:
		s.levels = append(s.levels, level{indent, true})
	}
}

// indents lists the indentations of levels, each once.
func indents(levels []level) string {
	var known []string
	for _, l := range levels {
		known = append(known, strconv.Itoa(l.indent))
	}
	return strings.Join(slices.Compact(known), ", ")
}

// byteBeforeIsIndent says whether only spaces stand before the byte on its line.
func (s *slips) byteBeforeIsIndent(at, indent int) bool {
	return len(bytes.TrimLeft(s.text[at-indent:at], " ")) == 0
}

// width is the number of characters from one byte to another on the same line.
func (s *slips) width(from, to int) int {
	return utf8.RuneCount(bytes.TrimRight(s.text[from:min(max(to, from), len(s.text))], "\r"))
}

// textEnd is the end of unquoted text that begins at i: the end of the line, or a comment, without spaces before it.
func (s *slips) textEnd(i int) int {
	end := s.lineEnd(i)
	for j := i + 1; j < end; j++ {
		if s.text[j] == '#' && s.text[j-1] == ' ' {
			end = j
		}
	}
	for end > i && isSpace(s.text[end-1]) {
		end--
	}
	return end
}

// colon is the first `:` that ends a key in unquoted text, -1 when there is none.
func (s *slips) colon(i int) int {
	for end := s.textEnd(i); i < end; i++ {
		if s.text[i] == ':' && s.isGap(i+1) {
			return i
		}
	}
	return -1
}

// keyEnd is the `:` after the key at i, -1 when there is no key.
func (s *slips) keyEnd(i int) int {
	switch c := s.byte(i); c {
	case '"', '\'':
		end := quoteEnd(s.text, i)
		if end < 0 || bytes.IndexByte(s.text[i:end], '\n') >= 0 {
			return -1
		}
		if j := s.skipSpaces(end); s.byte(j) == ':' && s.isGap(j+1) {
			return j
		}
		return -1
	case '[', '{', '|', '>':
		return -1
	}
	return s.colon(i)
}

package source

import (
	"bytes"
	"strings"
)

// brackets passes over a list or mapping in brackets that begins at i and gives the byte behind it.
func (s *slips) brackets(i int) int {
	before := s.text[bytes.LastIndexByte(s.text[:i], '\n')+1 : i]
	f := flow{slips: s, last: '[', indent: len(before) - len(bytes.TrimLeft(before, " "))}
	for f.i = i; f.i < len(s.text) && s.found == nil; {
		f.step()
		if len(s.open) == 0 {
			return f.i
		}
	}
	s.unclosed()
	return len(s.text)
}

func (s *slips) unclosed() {
	if len(s.open) > 0 {
		at := s.open[len(s.open)-1]
		c := s.text[at]
		s.find(at, 1, "found `"+string(c)+"` that is not closed", "the closing `"+string(closing(c))+"`", "")
	}
}

func closing(open byte) byte {
	if open == '[' {
		return ']'
	}
	return '}'
}

// flow reads inside brackets.
type flow struct {
	*slips
	i    int
	last byte // [ after an opening bracket, or comma or colon; v after a value
	// colons counts those of the entry; key is where it began.
	colons, key int
	indent      int // of the line on which the brackets begin
}

func (f *flow) step() {
	s := f.slips
	switch c := s.byte(f.i); {
	case c == ' ' || c == '\r':
		f.i++
	case c == '\n':
		f.i++
		f.nextLine()
	case c == '#' && (f.i == 0 || s.isGap(f.i-1)):
		f.i = s.lineEnd(f.i)
	case c == '[' || c == '{':
		f.begin()
		if len(s.open)+len(s.levels) >= MaxDepth {
			s.find(f.i, 1, tooDeep, flatter, "")
		}
		s.open = append(s.open, f.i)
		f.i++
		f.last, f.colons = '[', 0
	case c == ']' || c == '}':
		f.close(c)
	case c == ',':
		if f.last == '[' || f.last == ',' {
			s.find(f.i, 1, "found nothing before `,`", "a value between two commas", "")
		}
		f.i++
		f.last, f.colons = ',', 0
	case c == ':' && f.last == 'v' && f.colons == 0:
		f.i++
		f.last, f.colons = ':', 1
	case c == '-' && s.isGap(f.i+1):
		s.find(f.i, s.width(f.i, max(f.wordEnd(), f.i+1)), "found a list item with a dash inside brackets", "`[a, b]`, without dashes", "")
	case c == ':' && s.isGap(f.i+1):
		s.noKey(f.i)
	case c == '"' || c == '\'':
		f.begin()
		f.i = s.quoted(f.i)
		f.last = 'v'
	case c == '!':
		s.tag(f.i)
	case strings.IndexByte("@`%|>", c) >= 0 || (c == '&' || c == '*') && s.isGap(f.i+1):
		s.needsQuotes(f.i, f.wordEnd())
	default:
		f.word()
	}
}

// begin checks that a value may begin here.
func (f *flow) begin() {
	if f.last == 'v' {
		s := f.slips
		end := max(f.wordEnd(), f.i+1)
		s.find(f.i, s.width(f.i, end), "found `"+clip(string(s.text[f.i:end]))+"` directly after another value",
			"`,` between entries, and text with quotes or brackets in it in quotes", "")
	}
	if f.last != ':' {
		f.key = f.i
	}
}

func (f *flow) close(c byte) {
	s := f.slips
	if open := s.open[len(s.open)-1]; closing(s.text[open]) != c {
		s.find(open, 1, "found `"+string(s.text[open])+"` that is not closed before the `"+string(c)+"` of another bracket",
			"the closing `"+string(closing(s.text[open]))+"`", "")
	}
	s.open = s.open[:len(s.open)-1]
	f.i++
	f.last, f.colons = 'v', 0
}

// word passes over unquoted text, up to its colon if it is a key.
func (f *flow) word() {
	s := f.slips
	if f.last != 'v' || f.behindClosed() {
		f.begin()
	}
	start, end := f.i, max(f.wordEnd(), f.i+1)
	colon := start
	for colon < end && (s.text[colon] != ':' || !s.isGap(colon+1) && strings.IndexByte(",[]{}", s.byte(colon+1)) < 0) {
		colon++
	}
	switch {
	case colon == end:
		f.i, f.last = end, 'v'
	case f.colons > 0:
		s.secondColon(start, colon, end, f.key)
		f.i = colon + 1
	default:
		f.i, f.last, f.colons = colon+1, ':', 1
	}
}

// behindClosed says whether the value before is quoted or in brackets, so that no text can go on with it.
func (f *flow) behindClosed() bool {
	before := bytes.TrimRight(f.slips.text[:f.i], " \r\n")
	return len(before) > 0 && bytes.IndexByte([]byte("]}\"'"), before[len(before)-1]) >= 0
}

// wordEnd is the end of unquoted text inside brackets.
func (f *flow) wordEnd() int {
	text := f.slips.text
	end := f.i
	for end < len(text) && strings.IndexByte(",[]{}\n", text[end]) < 0 && !(text[end] == '#' && isSpace(text[end-1])) {
		end++
	}
	for end > f.i && isSpace(text[end-1]) {
		end--
	}
	return end
}

// nextLine looks whether a line can hardly belong to the brackets, so that one of them was left open above.
func (f *flow) nextLine() {
	s := f.slips
	line := s.text[f.i:s.lineEnd(f.i)]
	text := bytes.TrimLeft(line, " ")
	if len(line)-len(text) > f.indent || len(text) == 0 {
		return
	}
	key, _, found := bytes.Cut(text, []byte(":"))
	isKey := found && f.last != ',' && len(key) > 0 && !bytes.ContainsAny(key, " ,[]{}\"'")
	if isKey || bytes.HasPrefix(text, []byte("- ")) {
		s.unclosed()
	}
}

package source

import (
	"bytes"
	"regexp"
	"strings"
)

// value looks at what follows a key at keyAt, or a dash (keyAt -1), and moves behind it. owner is the indentation of the key or dash.
func (s *slips) value(i, owner, keyAt int) {
	switch c := s.byte(i); {
	case c == '"' || c == '\'':
		s.after(s.quoted(i), "closing quote")
	case c == '[' || c == '{':
		s.after(s.brackets(i), "closing bracket")
	case c == '|' || c == '>':
		s.block(i, owner)
	case c == '!':
		s.tag(i)
	case (c == '&' || c == '*') && !s.isGap(i+1):
		// An anchor or alias: readable YAML, which the walker refuses.
	case strings.IndexByte(reserved+"&*", c) >= 0, c == '?' && s.isGap(i+1):
		s.needsQuotes(i, s.textEnd(i))
	case c == '-' && s.isGap(i+1):
		s.find(i, s.width(i, s.textEnd(i)), "found a list item on the line of its key", "the list on the lines below, or `[a, b]`", "")
	default:
		s.plain = owner
		if colon := s.colon(i); colon >= 0 {
			s.secondColon(i, colon, s.textEnd(i), keyAt)
		}
	}
}

// reserved are the characters that no unquoted text begins with, brackets that open and marks with a meaning aside.
const reserved = "@`%,]}"

// tag reports a tag, which is refused in any case and whose mistakes YAML reports in the dark.
func (s *slips) tag(i int) {
	end := i
	for end < len(s.text) && !bytes.ContainsAny(s.text[end:end+1], " ,[]{}\r\n") {
		end++
	}
	s.find(i, s.width(i, end), "found a tag `"+clip(string(s.text[i:end]))+"`", "the value without it", tagHint)
}

// needsQuotes reports text that begins with a character that YAML keeps for itself.
func (s *slips) needsQuotes(i, end int) {
	text := string(s.text[i:end])
	hint := ""
	if !strings.ContainsAny(text, "\"\\") {
		hint = "write `\"" + clip(text) + "\"`"
	}
	first := "`" + string(s.byte(i)) + "`"
	if s.byte(i) == '`' {
		first = "a backtick"
	}
	s.find(i, s.width(i, end), "found text that begins with "+first, "such text in quotes", hint)
}

func (s *slips) secondColon(i, colon, end, keyAt int) {
	hint := ""
	if text := string(s.text[i:end]); keyAt >= 0 && !strings.ContainsAny(text, "\"\\") {
		hint = "if it is text, write `" + clip(strings.TrimRight(string(s.text[keyAt:i]), " ")) + " \"" + clip(text) + "\"`"
	}
	s.find(colon, 1, "found a second `: ` in the line", "one key and one value; text with `: ` in quotes", hint)
}

// blockHead is what may follow | and >: the treatment of the last line breaks and an indentation, in either order.
var blockHead = regexp.MustCompile(`^([+-]?[1-9]?|[1-9][+-])$`)

// block passes over text announced by | or >.
func (s *slips) block(i, owner int) {
	head := s.text[i+1 : s.textEnd(i)]
	if !blockHead.Match(head) {
		s.needsQuotes(i, s.textEnd(i))
		return
	}
	s.i = s.lineEnd(i) + 1
	for s.i < len(s.text) {
		end := s.lineEnd(s.i)
		j := s.skipSpaces(s.i)
		if j < end && s.byte(j) != '\r' && j-s.i <= owner {
			return
		}
		s.i = end + 1
	}
}

// after looks at the rest of the line behind a quote or bracket, and moves to the next line.
func (s *slips) after(end int, what string) {
	if s.found != nil {
		return
	}
	j := s.skipSpaces(end)
	if !s.empty(j) {
		stop := s.textEnd(j)
		text := clip(string(s.text[j:stop]))
		hint := ""
		if what == "closing quote" {
			hint = "inside double quotes write \\\" for a quote, inside single quotes '' for '"
		}
		if s.byte(j) == ']' || s.byte(j) == '}' {
			s.find(j, 1, "found `"+string(s.byte(j))+"` that closes nothing", "the end of the line", "")
			return
		}
		s.find(j, s.width(j, stop), "found `"+text+"` after the "+what, "the end of the line", hint)
		return
	}
	s.i = s.lineEnd(j) + 1
}

const escapes = "0abt\tnvfre \"/\\N_LPxuU\n\r"

// quoted passes over quoted text and gives the byte behind it.
func (s *slips) quoted(i int) int {
	end := quoteEnd(s.text, i)
	name := "double quote"
	if s.byte(i) == '\'' {
		name = "single quote"
	}
	lone := func() {
		s.find(i, s.width(i, s.lineEnd(i)), "found a "+name+" that is not closed", "the closing "+name, "")
	}
	if end < 0 {
		lone()
		return len(s.text)
	}
	if bytes.IndexByte(s.text[i:end], '\n') >= 0 {
		// Text over several lines is most often a forgotten quote that took the next one for its end.
		if j := s.skipSpaces(end); !s.empty(j) && strings.IndexByte(",]}:", s.byte(j)) < 0 {
			lone()
		}
	}
	if s.byte(i) == '"' {
		for j := i + 1; j < end-1; j++ {
			if s.text[j] != '\\' {
				continue
			}
			j++
			if strings.IndexByte(escapes, s.text[j]) < 0 {
				s.find(j-1, 2, "found `"+clip(string(s.text[j-1:j+1]))+"` in double quotes", "`\\\\` for a backslash, or the text in single quotes", "")
			}
		}
	}
	return end
}

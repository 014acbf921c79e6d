package source

import "bytes"

// quoteEnd is the byte after the closing quote of the text that begins with a quote at start, -1 when it never closes.
func quoteEnd(text []byte, start int) int {
	if start >= len(text) {
		return -1
	}
	quote := text[start]
	for i := start + 1; i < len(text); i++ {
		switch {
		case quote == '"' && text[i] == '\\':
			i++
		case text[i] != quote:
		case quote == '\'' && i+1 < len(text) && text[i+1] == '\'':
			i++
		default:
			return i + 1
		}
	}
	return -1
}

// plainEnd is the byte after the unquoted text at start whose value is given, -1 when the two do not agree. Over
// several lines the value has other spaces and line breaks than the text.
func plainEnd(text []byte, start int, value string) int {
	if bytes.HasPrefix(text[start:], []byte(value)) {
		return start + len(value)
	}
	i := start
	for j := 0; j < len(value); {
		if !isSpace(value[j]) {
			if i >= len(text) || text[i] != value[j] {
				return -1
			}
			i, j = i+1, j+1
			continue
		}
		if i >= len(text) || !isSpace(text[i]) {
			return -1
		}
		for i < len(text) && isSpace(text[i]) {
			i++
		}
		for j < len(value) && isSpace(value[j]) {
			j++
		}
	}
	return i
}

func isSpace(c byte) bool { return c == ' ' || c == '\n' || c == '\r' }

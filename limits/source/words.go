package source

import (
	"reflect"
	"strings"
)

// longestQuote is how many characters of a value are repeated in a message.
const longestQuote = 40

// describe says what a node is, to follow the word "found".
func describe(n *Node) string {
	switch {
	case n.Kind == Mapping:
		return "a mapping of keys and values"
	case n.Kind == List:
		return "a list"
	case n.Null:
		return "nothing"
	case n.Value == "":
		return "empty text"
	case n.Quoted:
		return "the text `" + clip(n.Value) + "`"
	}
	return "`" + clip(n.Value) + "`"
}

// clip shortens a text to one short line.
func clip(s string) string {
	line, _, more := strings.Cut(strings.TrimRight(s, "\n"), "\n")
	runes := []rune(line[:min(len(line), 4*longestQuote)])
	if len(runes) > longestQuote {
		runes, more = runes[:longestQuote], true
	}
	if more {
		return string(runes) + "…"
	}
	return string(runes)
}

// wanted says in words what a field takes.
func wanted(t reflect.Type, tag fieldTag) string {
	w := wantedKind(t, tag)
	if tag.means != "" {
		w += " (" + tag.means + ")"
	}
	return w
}

func wantedKind(t reflect.Type, tag fieldTag) string {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	pointer := reflect.PointerTo(t)
	switch {
	case t == reflect.TypeFor[YesNo]():
		return "`yes` or `no`"
	case pointer.Implements(nodeDecoderType):
		return "a value"
	case pointer.Implements(entriesType):
		return "a mapping of keys and values"
	}
	switch t.Kind() {
	case reflect.Struct:
		if tag.example != "" {
			return "`" + tag.example + "`"
		}
		return "a mapping with " + oneOf(fieldsOf(t).keys)
	case reflect.Slice:
		return "a list"
	case reflect.String:
		if tag.choice != nil {
			return oneOf(tag.choice)
		}
		return "text"
	case reflect.Bool:
		return "`true` or `false`"
	case reflect.Float32, reflect.Float64:
		return "a number"
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		return "a whole number, 0 or more"
	}
	return "a whole number"
}

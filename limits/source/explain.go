package source

import (
	"bytes"
	"errors"
	"regexp"
	"sort"
	"strings"
	"unicode/utf8"
)

// longSearch is the size in bytes above which the place of an error is not searched by reading parts of the text.
const longSearch = 256 << 10

// plainWords says in plain words what the library means, by a part of its own, where findSlip finds nothing.
var plainWords = []struct{ part, message, expected string }{
	{"mapping values are not allowed", "found a `:` where no key can stand", "`key: value`, with text in quotes when it contains `: `"},
	{"did not find expected key", "found something that does not go on with the lines above", "a key with the indentation of those above"},
	{"did not find expected node content", "found no value", "a value"},
	{"expected alphabetic or numeric character", "found `*` or `&` at the start of a text", "the text in quotes"},
	{"hexdecimal number", "found `\\x`, `\\u` or `\\U` in double quotes without its digits", "2, 4 or 8 hexadecimal digits, or single quotes"},
	{"expected <document start>", "found text after the end of the value above", "one mapping or list in a file"},
}

var unknownAnchor = regexp.MustCompile(`^unknown anchor '(.*)' referenced$`)

// cutOff are the words that the library also has for brackets that are merely cut off, and cutQuote for quotes.
var (
	cutOff   = regexp.MustCompile(`',' or|node content`)
	cutQuote = regexp.MustCompile(`unexpected end of stream`)
)

// explain turns the library's error into a problem that tells a person where to look. Its own line is often missing
// or off, so the text is looked through again for the usual slips.
func explain(name string, text []byte, err error) Problem {
	failed := &syntaxError{words: err.Error()}
	errors.As(err, &failed)
	l := splitLines(text)
	noticed, sure := l.noticed(failed)
	if slip := findSlip(text); slip != nil {
		if line, col := l.place(slip.at); line <= noticed || !sure {
			return Problem{Pos{name, line, col}, slip.width, slip.message, slip.expected, slip.hint}
		}
	}
	if m := unknownAnchor.FindStringSubmatch(failed.words); m != nil {
		if at := bytes.Index(text, []byte("*"+m[1])); at >= 0 {
			line, col := l.place(at)
			return Problem{Pos{name, line, col}, 1 + utf8.RuneCountInString(m[1]), "found an alias `*" + clip(m[1]) + "`", aliasExpected, aliasHint}
		}
	}
	line := l.line(noticed)
	col := 1 + len(line) - len(bytes.TrimLeft(line, " "))
	p := Problem{Pos: Pos{name, noticed, col}, Width: max(1, utf8.RuneCount(bytes.TrimSpace(line))),
		Message: "found text that cannot be read as YAML: " + failed.words, Expected: "`key: value` lines and `- ` items"}
	for _, w := range plainWords {
		if strings.Contains(failed.words, w.part) {
			p.Message, p.Expected = w.message, w.expected
			break
		}
	}
	return p
}

// noticed is the line on which the library stops: the first line such that the text up to it fails in the same words.
// In a long text, and where a cut alone has the library say the same, it is the line that the library gives, which is
// not sure.
func (l *lines) noticed(failed *syntaxError) (line int, sure bool) {
	last := l.count()
	if last > 1 && len(l.line(last)) == 0 {
		last--
	}
	if len(l.text) > longSearch || cutOff.MatchString(failed.words) || cutQuote.MatchString(failed.words) {
		return min(max(failed.line, 1), last), false
	}
	upTo := func(n int) []byte {
		if n >= l.count() {
			return l.text
		}
		return l.text[:l.starts[n]]
	}
	return 1 + sort.Search(last-1, func(i int) bool {
		_, err := load(upTo(i + 1))
		var here *syntaxError
		return errors.As(err, &here) && here.words == failed.words
	}), true
}

package expr

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Bounds of an expression.
const (
	maxSource   = 2000 // bytes; a spreadsheet formula holds 8,192 characters
	maxDepth    = 60   // a spreadsheet nests functions 64 deep
	maxExponent = 9    // after ^
	maxDigits   = 15   // of a number, what a spreadsheet keeps
)

type tokenKind uint8

const (
	tokEnd tokenKind = iota
	tokNum
	tokText
	tokName
	tokSign // operators, brackets, comma; and, or, not
)

type token struct {
	kind     tokenKind
	text     string
	off, end int
}

var (
	numeral = regexp.MustCompile(`^[0-9]+(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?`)
	word    = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9_]*`)
	quoted  = regexp.MustCompile(`^'(?:[^'\x00-\x1f]|'')*'`)
	blank   = regexp.MustCompile(`^[ \t\r\n]+`)
)

var signs = []string{"<>", "<=", ">=", "==", "!=", "+", "-", "*", "/", "^", "=", "<", ">", "(", ")", ","}

// lex cuts the source into tokens, the last of them tokEnd.
func lex(src string) ([]token, error) {
	if len(src) > maxSource {
		return nil, fail(maxSource, len(src), "expression is longer than %d characters", "", maxSource)
	}
	if !utf8.ValidString(src) {
		return nil, fail(0, len(src), "expression is not UTF-8", "")
	}
	var tokens []token
	for pos := 0; ; {
		pos += len(blank.FindString(src[pos:]))
		if pos == len(src) {
			return append(tokens, token{tokEnd, "", pos, pos}), nil
		}
		t, err := next(src, pos)
		if err != nil {
			return nil, err
		}
		tokens = append(tokens, t)
		pos = t.end
	}
}

func next(src string, pos int) (token, error) {
	rest := src[pos:]
	cut := func(kind tokenKind, text string) token { return token{kind, text, pos, pos + len(text)} }
	if s := numeral.FindString(rest); s != "" {
		return cut(tokNum, s), checkNumeral(s, rest, pos)
	}
	if s := word.FindString(rest); s != "" {
		if s == "and" || s == "or" || s == "not" {
			return cut(tokSign, s), nil
		}
		return cut(tokName, s), nil
	}
	if rest[0] == '\'' {
		s := quoted.FindString(rest)
		switch s {
		case "":
			return token{}, fail(pos, len(src), "text without closing quote", "'text' on one line")
		case "''":
			return token{}, fail(pos, pos+2, "empty text", "a text, or given(name) to ask whether there is one")
		}
		return cut(tokText, s), nil
	}
	for _, s := range signs {
		if !strings.HasPrefix(rest, s) {
			continue
		}
		if s == "==" || s == "!=" {
			return token{}, fail(pos, pos+2, "unknown operator `%s`", "= or <>", s)
		}
		return cut(tokSign, s), nil
	}
	r, size := utf8.DecodeRuneInString(rest)
	return token{}, fail(pos, pos+size, "unexpected %q", "a number, a name, 'text' or an operator", r)
}

// checkNumeral refuses what another reader might take for another number.
func checkNumeral(s, rest string, pos int) error {
	const plain = "a plain decimal number such as 1000 or 0.5"
	tail := rest[len(s):]
	if tail != "" && (tail[0] == '_' || tail[0] == '.' || tail[0] == '\'' || word.MatchString(tail)) {
		end := len(s) + strings.IndexFunc(tail+" ", func(r rune) bool {
			return !(r == '_' || r == '.' || r == '\'' || r >= '0' && r <= '9' || r|32 >= 'a' && r|32 <= 'z')
		})
		return fail(pos, pos+end, "`%s` is not a plain number", plain, rest[:end])
	}
	mantissa, _, _ := strings.Cut(strings.ToLower(s), "e")
	if len(strings.Trim(strings.ReplaceAll(mantissa, ".", ""), "0")) > maxDigits {
		return fail(pos, pos+len(s), "number has more than %d digits", "a number a spreadsheet can keep", maxDigits)
	}
	v, err := strconv.ParseFloat(s, 64)
	if size := math.Abs(v); err != nil || v != 0 && (size > 1e30 || size < 1e-30) {
		return fail(pos, pos+len(s), "number `%s` is beyond any quantity", "a number from 1e-30 to 1e30", s)
	}
	return nil
}

func fail(off, end int, message, expected string, args ...any) *Error {
	return &Error{Offset: off, Width: max(end-off, 1), Message: fmt.Sprintf(message, args...), Expected: expected}
}

func (p *parser) peek() token { return p.tokens[0] }

func (p *parser) take() token {
	t := p.tokens[0]
	if t.kind != tokEnd {
		p.tokens = p.tokens[1:]
	}
	return t
}

func (p *parser) sign(text string) bool {
	t := p.peek()
	if t.kind == tokSign && t.text == text {
		p.take()
		return true
	}
	return false
}

func (p *parser) expect(text, what string) error {
	if t := p.peek(); !p.sign(text) {
		return fail(t.off, t.end, "`%s` missing", what, text)
	}
	return nil
}

package file

import (
	"errors"
	"regexp"
	"strings"
	"unicode/utf8"

	"standclear/limits/quantity"
	"standclear/limits/source"
)

var (
	idText    = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9-]*$`)
	pathText  = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9-]*(\.[A-Za-z0-9_-]+)+$`)
	pathIn    = regexp.MustCompile(`[A-Za-z][A-Za-z0-9-]*(\.[A-Za-z][A-Za-z0-9_-]+)+`)
	scoreText = regexp.MustCompile(`^(-?[0-9]+(\.[0-9]+)?|[A-Za-z][A-Za-z0-9-]*)$`)
)

const (
	amountExpected = "a quantity with its unit such as `18.2 kg`, or a sum of paths such as `jaws.mass + jar.mass`"
	longestQuote   = 40 // characters of the file repeated in a message
	mostTerms      = 50 // summands of one sum; a hand-written one has a few
)

// sum is the text of an amount.
type sum []Term

// DecodeNode reads a quantity or a sum.
func (s *sum) DecodeNode(n *source.Node, ps *source.Problems) { *s, _ = parseSum(n, ps) }

// parseSum reads the terms of a scalar. ok is false when a problem was added.
func parseSum(n *source.Node, ps *source.Problems) (terms []Term, ok bool) {
	if n.Kind != source.Scalar {
		ps.Add(n.Problem("found "+shape(n), amountExpected, ""))
		return nil, false
	}
	pieces := split(n.Value)
	if len(pieces) > mostTerms {
		ps.Add(n.Problem("found a sum of too many terms", "at most 50", ""))
		return nil, false
	}
	for _, p := range pieces {
		t, problem := readTerm(n, p)
		if problem != nil {
			ps.Add(*problem)
			return nil, false
		}
		terms = append(terms, t)
	}
	return terms, true
}

// piece is the text of one term; from counts bytes of the whole text.
type piece struct {
	text string
	from int
}

// split cuts a sum at its plus signs. The plus of `+/-`, of `1e+3` and of a
// leading sign is no cut.
func split(s string) []piece {
	var list []piece
	start := 0
	cut := func(end int) {
		text := strings.TrimLeft(s[start:end], " ")
		list = append(list, piece{strings.TrimRight(text, " \n"), end - len(text)})
		start = end + 1
	}
	for i := range len(s) {
		switch {
		case s[i] != '+', strings.HasPrefix(s[i:], "+/-"), strings.TrimSpace(s[:i]) == "":
		case i > 1 && (s[i-1] == 'e' || s[i-1] == 'E') && digit(s, i-2) && digit(s, i+1):
		default:
			cut(i)
		}
	}
	cut(len(s))
	return list
}

func digit(s string, i int) bool { return i >= 0 && i < len(s) && s[i] >= '0' && s[i] <= '9' }

// readTerm reads one term of the scalar n.
func readTerm(n *source.Node, p piece) (Term, *source.Problem) {
	t := Term{Pos: n.Pos, Width: n.Width}
	if shift, ok := inside(n); ok {
		t.Pos.Col += shift + utf8.RuneCountInString(n.Value[:p.from])
		t.Width = max(1, utf8.RuneCountInString(p.text))
	}
	fault := func(message, hint string) (Term, *source.Problem) {
		return t, &source.Problem{Pos: t.Pos, Width: t.Width, Message: message, Expected: amountExpected, Hint: hint}
	}
	switch {
	case p.text == "" && strings.TrimSpace(n.Value) != "":
		return fault("found `+` with nothing beside it", "")
	case p.text == "":
		return fault("found empty text", "")
	case pathText.MatchString(p.text):
		t.Path = p.text
		return t, nil
	case pathIn.MatchString(p.text):
		return fault("found `"+clip(p.text)+"`, which is neither a quantity nor a path",
			"only sums are read: write paths and quantities with ` + ` between them, and any other figure as a number with its `ref`")
	case idText.MatchString(p.text):
		return fault("found the word `"+clip(p.text)+"`", "")
	}
	if message, hint := source.PlainNumberProblem(p.text); message != "" {
		return fault(message, hint)
	}
	q, err := quantity.Parse(p.text)
	if err != nil {
		problem := quantityProblem(n, err)
		problem.Pos, problem.Width = t.Pos, t.Width
		return t, &problem
	}
	t.Quantity = q
	return t, nil
}

// inside says how many characters after n.Pos its text begins, when the text
// stands in the file letter by letter on one line.
func inside(n *source.Node) (shift int, ok bool) {
	if n.Start < 0 || n.End < 0 {
		return 0, false
	}
	switch n.End - n.Start - len(n.Value) {
	case 0:
		return 0, !n.Quoted
	case 2:
		return 1, n.Quoted
	}
	return 0, false
}

// quantityProblem turns an error of the quantity reader into a problem at n.
func quantityProblem(n *source.Node, err error) source.Problem {
	var e *quantity.Error
	if errors.As(err, &e) {
		return n.Problem(e.Message, e.Expected, e.Hint)
	}
	return n.Problem(err.Error(), amountExpected, "")
}

func startsNumber(s string) bool {
	s = strings.TrimLeft(s, "+-−~ ")
	return s != "" && (digit(s, 0) || s[0] == '.' && digit(s, 1))
}

func isRange(s string) bool { return startsNumber(s) && strings.Contains(s, "..") }

// looksLikeSum says whether a text is meant as a path or a sum, so that a slip
// in it is a problem and not a word.
func looksLikeSum(s string) bool {
	pieces := split(s)
	if len(pieces) > 1 {
		for _, p := range pieces {
			if pathText.MatchString(p.text) || startsNumber(p.text) {
				return true
			}
		}
		return false
	}
	return pathText.MatchString(pieces[0].text)
}

// shape says what a node is where a scalar was expected.
func shape(n *source.Node) string {
	if n.Kind == source.List {
		return "a list"
	}
	return "a mapping of keys and values"
}

// clip shortens a text to one short line.
func clip(s string) string {
	line, _, more := strings.Cut(strings.TrimRight(s, "\n"), "\n")
	runes := []rune(line)
	if len(runes) > longestQuote {
		runes, more = runes[:longestQuote], true
	}
	if more {
		return string(runes) + "…"
	}
	return string(runes)
}

package source

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// This is the only file that knows the YAML library. Its errors are reduced to a line and its own words, which
// explain.go turns into plain ones; its nodes are turned into ours.

// syntaxError is what the library says: a line, 0 when it gives none, often that of the beginning, and its own words.
type syntaxError struct {
	line  int
	words string
}

func (e *syntaxError) Error() string { return e.words }

var libraryError = regexp.MustCompile(`^yaml: (?:line ([0-9]+): )?(.*)$`)

// load gives the root of the text, nil when there is only space and comments.
func load(text []byte) (root *yaml.Node, err error) {
	defer func() {
		if r := recover(); r != nil { // a fault of the library must not take the program down
			root, err = nil, &syntaxError{words: fmt.Sprint(r)}
		}
	}()
	d := yaml.NewDecoder(bytes.NewReader(text))
	var document, more yaml.Node
	if err := d.Decode(&document); errors.Is(err, io.EOF) {
		return nil, nil
	} else if err != nil {
		return nil, toSyntaxError(err)
	}
	// The library stops after the first document; whatever stands behind it would be lost in silence.
	if err := d.Decode(&more); err == nil {
		return nil, &syntaxError{line: more.Line, words: "did not find expected <document start>"}
	} else if !errors.Is(err, io.EOF) {
		return nil, toSyntaxError(err)
	}
	if len(document.Content) == 0 {
		return nil, nil
	}
	return document.Content[0], nil
}

func toSyntaxError(err error) *syntaxError {
	m := libraryError.FindStringSubmatch(err.Error())
	if m == nil {
		return &syntaxError{words: err.Error()}
	}
	line, _ := strconv.Atoi(m[1]) // 0 when there is none
	if cutOff.MatchString(m[2]) {
		line++ // these come from the library's parser, which counts from 0
	}
	return &syntaxError{line: line, words: m[2]}
}

const (
	aliasExpected = "the value itself, written out"
	aliasHint     = "text that begins with * needs quotes"
	tagHint       = "text that begins with ! needs quotes"
	withoutKey    = "found a value without a key"
)

// walker turns the library's nodes into ours and refuses what YAML allows and we do not.
type walker struct {
	cursor
	name string
	base int // bytes before the text
	ps   *Problems
	deep bool // too many levels were reported
}

func (w *walker) place(y *yaml.Node) Pos {
	w.seek(y.Line, y.Column)
	return Pos{w.name, w.lineNo, w.col}
}

// refuse reports and marks the node, so that it is not reported again when decoded.
func (w *walker) refuse(n *Node, message, expected, hint string) {
	n.refused = true
	w.ps.Add(n.Problem(message, expected, hint))
}

func (w *walker) node(y *yaml.Node, section string, depth int) *Node {
	n := &Node{Kind: Scalar, Pos: w.place(y), Width: 1, Section: section, Start: -1, End: -1}
	switch {
	case y.Kind == yaml.AliasNode:
		n.Width = utf8.RuneCount(w.word())
		w.refuse(n, "found an alias `"+clip(string(w.word()))+"`", aliasExpected, aliasHint)
		return n
	case depth > MaxDepth:
		if !w.deep {
			w.refuse(n, tooDeep, flatter, "")
		}
		w.deep, n.refused = true, true
		return n
	}
	plain := w.properties(n, y)
	switch y.Kind {
	case yaml.MappingNode:
		n.Kind = Mapping
		w.mapping(n, y, depth)
	case yaml.SequenceNode:
		n.Kind = List
		n.Items = make([]*Node, len(y.Content))
		for i, item := range y.Content {
			n.Items[i] = w.node(item, section, depth+1)
			y.Content[i] = nil // a long file is held once and not twice
		}
	default:
		w.scalar(n, y, plain)
	}
	return n
}

// word is the text from the cursor to the next space or the end of the line.
func (w *walker) word() []byte {
	rest := w.text[w.at : w.starts[w.lineNo-1]+len(w.line(w.lineNo))]
	if i := bytes.IndexAny(rest, " ,[]{}"); i >= 0 {
		rest = rest[:i]
	}
	return rest
}

// properties refuses an anchor and a tag. It says whether the node has neither, so that its text begins at its place.
func (w *walker) properties(n *Node, y *yaml.Node) bool {
	word := w.word()
	tagged := y.Style&yaml.TaggedStyle != 0 || len(word) > 0 && word[0] == '!'
	if !tagged && y.Anchor == "" {
		return true
	}
	p := Problem{Pos: n.Pos, Width: utf8.RuneCount(word), Message: "found an anchor `&" + clip(y.Anchor) + "`",
		Expected: "the value without it", Hint: "text that begins with & needs quotes"}
	if y.Anchor == "" {
		p.Message, p.Hint = "found a tag `"+clip(string(word))+"`", tagHint
	}
	w.ps.Add(p)
	return false
}

func (w *walker) mapping(n *Node, y *yaml.Node, depth int) {
	n.Pairs = make([]Pair, 0, len(y.Content)/2)
	var index map[string]*Node // keys of a long mapping; in a short one looking through is quicker
	if len(y.Content) > 40 {
		index = map[string]*Node{}
	}
	for i := 0; i+1 < len(y.Content); i += 2 {
		key := w.node(y.Content[i], n.Section, depth+1)
		plainNull := key.Null && !key.Quoted && key.Value == ""
		switch {
		case key.Kind != Scalar:
			w.refuse(key, "found "+describe(key)+" as a key", "a word", "")
			continue
		case plainNull:
			w.refuse(key, withoutKey, "`key: value`", "")
			continue
		case key.refused:
			continue
		case w.marked(key):
			w.refuse(key, "found the key `"+clip(key.Value)+"` behind a `?`", "`key: value`", "")
			continue
		case key.Value == "<<" && !key.Quoted:
			w.refuse(key, "found a merge key `<<`", "the keys themselves, written out", "")
			continue
		}
		key.Null = false
		bare := y.Style&yaml.FlowStyle != 0 && isAbsent(y.Content[i+1]) && !w.hasColon(key)
		value := w.value(y.Content[i+1], key, depth)
		first := index[key.Value]
		if index == nil {
			if p := n.pair(key.Value); p != nil {
				first = p.Key
			}
		}
		switch {
		case bare:
			hint := "a comma begins a new entry here; text with a comma needs quotes, and decimals are written with a point"
			if strings.Contains(key.Value, ":") {
				hint = "write a space after the `:`"
			}
			w.refuse(key, "found `"+clip(key.Value)+"` without a value", "`key: value`", hint)
		case first != nil:
			w.refuse(key, "found the key `"+clip(key.Value)+"` a second time"+in(n),
				fmt.Sprintf("each key once; the first is at %d:%d", first.Pos.Line, first.Pos.Col), "")
		default:
			if index != nil {
				index[key.Value] = key
			}
			n.Pairs = append(n.Pairs, Pair{key, value})
		}
	}
}

// value reads the value of a key. One that is left out has no place of its own and takes the key's.
func (w *walker) value(y *yaml.Node, key *Node, depth int) *Node {
	if isAbsent(y) {
		return &Node{Kind: Scalar, Null: true, Pos: key.Pos, Width: key.Width, Section: key.Value, Start: -1, End: -1}
	}
	return w.node(y, key.Value, depth+1)
}

// isAbsent says whether there is no text at all for the node.
func isAbsent(y *yaml.Node) bool {
	return y.Kind == yaml.ScalarNode && y.Value == "" && y.Style == 0 && y.Anchor == "" && y.Tag == "!!null"
}

// hasColon says whether a colon follows the key.
func (w *walker) hasColon(key *Node) bool {
	if key.End < 0 {
		return true
	}
	rest := bytes.TrimLeft(w.text[key.End-w.base:], " \r\n")
	return len(rest) > 0 && rest[0] == ':'
}

// marked says whether a question mark, YAML's long way to write a key, stands before the key.
func (w *walker) marked(key *Node) bool {
	before := bytes.TrimRight(w.text[:max(0, key.Start-w.base)], " \r\n")
	line, found := bytes.CutSuffix(before[bytes.LastIndexByte(before, '\n')+1:], []byte("?"))
	line = bytes.TrimSpace(line)
	return found && (len(line) == 0 || line[0] != '#' && bytes.IndexByte([]byte("-{[,"), line[len(line)-1]) >= 0) // else it ends a comment
}

const anyQuotes = yaml.DoubleQuotedStyle | yaml.SingleQuotedStyle | yaml.LiteralStyle | yaml.FoldedStyle

// scalar fills in a value. One without anchor and tag (plain) has its text at the cursor.
func (w *walker) scalar(n *Node, y *yaml.Node, plain bool) {
	n.Value = y.Value
	n.Quoted = y.Style&anyQuotes != 0
	n.Null = !n.Quoted && y.Tag == "!!null"
	if !plain || isAbsent(y) {
		return
	}
	start, end := w.at, -1
	lineEnd := w.starts[w.lineNo-1] + len(w.line(w.lineNo))
	switch {
	case y.Style&yaml.DoubleQuotedStyle != 0:
		end = quoteEnd(w.text, start)
	case y.Style&yaml.SingleQuotedStyle != 0:
		end = quoteEnd(w.text, start)
	case y.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		lineEnd = start + len(w.word())
	default:
		end = plainEnd(w.text, start, n.Value)
	}
	n.Start = start + w.base
	if end >= 0 {
		n.End = end + w.base
		lineEnd = min(lineEnd, end)
	}
	n.Width = max(1, utf8.RuneCount(w.text[start:lineEnd]))
	if !n.Quoted && hiddenNumber(n.Value) {
		message, hint := PlainNumberProblem(n.Value)
		w.refuse(n, message, "a plain number, or text in quotes", hint)
	}
}

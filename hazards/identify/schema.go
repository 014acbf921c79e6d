package identify

import (
	"regexp"
	"slices"
	"strings"

	"standclear/limits/expr"
	"standclear/limits/quantity"
)

// Unknown is the word of a key that is not written.
const Unknown = "unknown"

// key is what a condition may ask of a thing. Numbers count in the unit of the
// key in the assessment file: kg, mm, N, mm/s, degC, W.
type key struct {
	name  string
	kind  expr.Kind
	list  bool
	words []string // all words it can have; nil: any
	field []int    // of the item in the assessment file, nil: worked out
	first int      // slot among the own values
}

// size is how many values the key takes: a list holds each of its words once.
func (k *key) size() int {
	if k.list {
		return len(k.words)
	}
	return 1
}

// schema is the keys of a collection. Those of the cell can be asked of
// everything; their values stand once, before those of the thing.
type schema struct {
	keys  []*key
	slots int
	cell  *schema // nil: this is the cell
}

// thing is one item of a collection, with the values of its keys.
type thing struct {
	id     string
	values []expr.Value
}

func (s *schema) add(k key) *schema {
	k.first = s.slots
	s.slots += k.size()
	s.keys = append(s.keys, &k)
	return s
}

func (s *schema) own(name string) *key {
	for _, k := range s.keys {
		if k.name == name {
			return k
		}
	}
	return nil
}

// key finds a key of the collection or of the cell.
func (s *schema) key(name string) *key {
	if k := s.own(name); k != nil || s.cell == nil {
		return k
	}
	return s.cell.own(name)
}

// Lookup makes a schema a scope of conditions.
func (s *schema) Lookup(name string) (expr.Type, bool, bool) {
	k := s.key(name)
	if k == nil {
		return expr.Type{}, false, false
	}
	return expr.Type{Kind: k.kind, Unit: quantity.One}, k.list, true
}

func (s *schema) slot(name string) (first, n int) {
	if k := s.own(name); k != nil {
		return s.base() + k.first, k.size()
	}
	k := s.cell.own(name)
	return k.first, k.size()
}

// base is where the own values begin.
func (s *schema) base() int {
	if s.cell == nil {
		return 0
	}
	return s.cell.slots
}

func (s *schema) thing(id string) *thing { return &thing{id: id, values: make([]expr.Value, s.slots)} }

// text sets a word; one that is not written is Unknown.
func (s *schema) text(t *thing, name, word string) {
	if word == "" {
		word = Unknown
	}
	t.values[s.own(name).first] = expr.Value{Kind: expr.Text, Text: word}
}

// number sets a number, absent where there is none.
func (s *schema) number(t *thing, name string, v expr.Value) { t.values[s.own(name).first] = v }

// list sets words, each once.
func (s *schema) list(t *thing, name string, words []string) {
	k := s.own(name)
	at := t.values[k.first:][:k.size()]
	n := 0
	for _, w := range words {
		if n < len(at) && !slices.ContainsFunc(at[:n], func(v expr.Value) bool { return v.Text == w }) {
			at[n] = expr.Value{Kind: expr.Text, Text: w}
			n++
		}
	}
}

// shown gives the value of a key as a reader expects it; values are those of
// the cell and then of the thing.
func (s *schema) shown(values []expr.Value, name string) string {
	var list []string
	first, n := s.slot(name)
	for _, v := range values[first:][:n] {
		switch v.Kind {
		case expr.Number:
			list = append(list, quantity.Format(v.Num, 6))
		case expr.Text:
			list = append(list, v.Text)
		}
	}
	return strings.Join(list, ", ")
}

var (
	compared = regexp.MustCompile(`([a-z_]+) *(?:=|<>) *'([^']*)'`)
	member   = regexp.MustCompile(`has\( *([a-z_]+) *, *'([^']*)' *\)`)
)

// untold finds words that a key can never have, which a condition would wait
// for in vain. A list never holds Unknown.
func (s *schema) untold(where string) []string {
	var bad []string
	for _, re := range []*regexp.Regexp{compared, member} {
		for _, m := range re.FindAllStringSubmatch(where, -1) {
			k := s.key(m[1])
			if k != nil && k.words != nil && !slices.Contains(k.words, m[2]) && (k.list || m[2] != Unknown) {
				bad = append(bad, m[1]+" = "+m[2])
			}
		}
	}
	return bad
}

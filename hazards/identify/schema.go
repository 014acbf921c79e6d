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

// listWidth is how many words a list of a thing may hold.
const listWidth = 40

// key is what a condition may ask of a thing. Numbers count in the unit of the
// key in the assessment file: kg, mm, N, mm/s, degC, W.
type key struct {
	name  string
	kind  expr.Kind
	list  bool
	words []string // all words it can have; nil: any
	first int      // slot
}

// schema is the keys of a collection.
type schema struct {
	keys  []*key
	slots int
}

// thing is one item of a collection, with the values of its keys.
type thing struct {
	id     string
	values []expr.Value
}

func (s *schema) add(k key) *schema {
	k.first = s.slots
	s.slots++
	if k.list {
		s.slots += listWidth - 1
	}
	s.keys = append(s.keys, &k)
	return s
}

func (s *schema) key(name string) *key {
	for _, k := range s.keys {
		if k.name == name {
			return k
		}
	}
	return nil
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
	k := s.key(name)
	if k.list {
		return k.first, listWidth
	}
	return k.first, 1
}

func (s *schema) thing(id string) *thing { return &thing{id: id, values: make([]expr.Value, s.slots)} }

// text sets a word; one that is not written is Unknown.
func (s *schema) text(t *thing, name, word string) {
	if word == "" {
		word = Unknown
	}
	t.values[s.key(name).first] = expr.Value{Kind: expr.Text, Text: word}
}

// number sets a number, absent where there is none.
func (s *schema) number(t *thing, name string, v expr.Value) { t.values[s.key(name).first] = v }

// list sets words, each once.
func (s *schema) list(t *thing, name string, words []string) {
	at := t.values[s.key(name).first:][:listWidth]
	clear(at)
	n := 0
	for _, w := range words {
		if n < listWidth && !slices.ContainsFunc(at[:n], func(v expr.Value) bool { return v.Text == w }) {
			at[n] = expr.Value{Kind: expr.Text, Text: w}
			n++
		}
	}
}

// shown gives the value of a key as a reader expects it.
func (s *schema) shown(t *thing, name string) string {
	k := s.key(name)
	if k.list {
		var list []string
		for _, v := range t.values[k.first:][:listWidth] {
			if v.Given() {
				list = append(list, v.Text)
			}
		}
		return strings.Join(list, ", ")
	}
	if v := t.values[k.first]; v.Kind == expr.Number {
		return quantity.Format(v.Num, 6)
	}
	return t.values[k.first].Text
}

var (
	compared = regexp.MustCompile(`([a-z_]+) *(?:=|<>) *'([^']*)'`)
	member   = regexp.MustCompile(`has\( *([a-z_]+) *, *'([^']*)' *\)`)
)

// untold finds words that a key can never have, which a condition would wait
// for in vain.
func (s *schema) untold(names []string, where string) []string {
	var bad []string
	for _, re := range []*regexp.Regexp{compared, member} {
		for _, m := range re.FindAllStringSubmatch(where, -1) {
			k := s.key(m[1])
			if k != nil && slices.Contains(names, m[1]) && k.words != nil && !slices.Contains(k.words, m[2]) && m[2] != Unknown {
				bad = append(bad, m[1]+" = "+m[2])
			}
		}
	}
	return bad
}

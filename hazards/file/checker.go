package file

import (
	"slices"
	"strings"

	"standclear/limits/source"
)

// checker looks at what was read. It is silent where reading had something to
// say already, since a second message about one slip only confuses.
type checker struct {
	a       *Assessment
	records []*record
	ix      *Index
	ps      *source.Problems
	said    map[source.Pos]bool
	broken  map[string]bool // kinds whose list could not be read
}

func newChecker(a *Assessment, ps *source.Problems) *checker {
	c := &checker{a: a, records: recordsOf(a), ps: ps, said: map[source.Pos]bool{}, broken: map[string]bool{}}
	c.ix = newIndex(c.records)
	for _, p := range ps.List() {
		c.said[p.Pos] = true
	}
	for f := range fields(c.records, func(k *keyInfo) bool { return k.slice }) {
		if kind, ok := kinds[f.value.Type().Elem()]; ok && f.unreadable(c) {
			c.broken[kind] = true
		}
	}
	return c
}

// unreadable says whether a list of items is missing or misspelt, so that
// references to its items prove nothing.
func (f field) unreadable(c *checker) bool {
	switch {
	case f.at.owner == nil:
		return !strings.HasPrefix(f.at.path, "limits_of_use") // the only section that may be left out; nothing points into it
	case f.node == nil:
		return f.must || slices.ContainsFunc(f.at.owner.Pairs, func(p source.Pair) bool { return c.said[p.Key.Pos] })
	}
	return f.node.Kind != source.List
}

// mostProblems is where following references ends: a file with so many slips
// is mended in several rounds.
const mostProblems = 200

func (c *checker) full() bool { return c.ps.Len() >= mostProblems }

// add puts a problem at a node, unless something was said there.
func (c *checker) add(n *source.Node, message, expected, hint string) {
	if !c.said[n.Pos] {
		c.ps.Add(n.Problem(message, expected, hint))
	}
}

// addAt puts a problem at a term, unless something was said there.
func (c *checker) addAt(t Term, message, expected, hint string) {
	if !c.said[t.Pos] {
		c.ps.Add(source.Problem{Pos: t.Pos, Width: t.Width, Message: message, Expected: expected, Hint: hint})
	}
}

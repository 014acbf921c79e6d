package file

import (
	"reflect"
	"slices"
	"strings"

	"standclear/limits/source"
)

// checker looks at what was read. It is silent where reading had something to
// say already, since a second message about one slip only confuses.
type checker struct {
	a      *Assessment
	fields []field
	ix     *Index
	ps     *source.Problems
	said   map[source.Pos]bool
	broken map[string]bool // kinds whose list could not be read
}

func newChecker(a *Assessment, ps *source.Problems) *checker {
	c := &checker{a: a, fields: fieldsOf(a), ps: ps, said: map[source.Pos]bool{}, broken: map[string]bool{}}
	c.ix = newIndex(c.fields)
	for _, p := range ps.List() {
		c.said[p.Pos] = true
	}
	for _, f := range c.fields {
		if f.value.Kind() != reflect.Slice {
			continue
		}
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
	case f.owner == nil:
		return !strings.HasPrefix(f.at.path, "limits_of_use") // the only section that may be left out; nothing points into it
	case f.node == nil:
		return f.must || slices.ContainsFunc(f.owner.Pairs, func(p source.Pair) bool { return c.said[p.Key.Pos] })
	}
	return f.node.Kind != source.List
}

// mostProblems is where following references ends: a file with so many slips
// is mended in several rounds.
const mostProblems = 200

// mostNear is how many names are searched for a near one.
const mostNear = 2000

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

// didYouMean is the hint for the nearest of the names, "" when none is near.
func didYouMean(word string, names []string) string {
	if near := source.Nearest(word, names[:min(len(names), mostNear)]); near != "" {
		return "did you mean `" + near + "`?"
	}
	return ""
}

// mostNames is how many names a message lists; more do not help a reader.
const mostNames = 24

// quoted lists names in a message.
func quoted(names []string) string {
	more := ""
	if len(names) > mostNames {
		names, more = names[:mostNames], " …"
	}
	if len(names) == 0 {
		return ""
	}
	return "`" + strings.Join(names, "`, `") + "`" + more
}

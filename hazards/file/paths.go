package file

import (
	"fmt"
	"slices"
	"strings"

	"standclear/limits/quantity"
	"standclear/limits/source"
)

// path checks that a path leads somewhere and gives the unit of what stands
// there. ok is false when that is not known.
func (c *checker) path(t Term) (u quantity.Unit, ok bool) {
	if robot, key, ok := grid(t.Path); ok {
		return c.gridPath(t, robot, key)
	}
	if e, ok := c.ix.byPath[t.Path]; ok {
		return e.Unit, true
	}
	if c.full() {
		return quantity.Unit{}, false
	}
	id, key, _ := strings.Cut(t.Path, ".")
	if it := c.ix.items[id]; it != nil {
		part, rest, _ := strings.Cut(key, ".")
		if inner := c.ix.items[part]; inner != nil && inner.path == id+"."+part && rest != "" {
			it, id, key = inner, inner.path, rest
		}
		c.keyPath(t, id, key, it)
		return quantity.Unit{}, false
	}
	if len(c.broken) > 0 {
		return quantity.Unit{}, false
	}
	hint := source.DidYouMean(t.Path, c.ix.paths())
	if hint == "" {
		hint = source.DidYouMean(id, c.ix.ids)
	}
	c.addAt(t, "no item has the id `"+id+"`, where the path `"+clip(t.Path)+"` begins",
		"the path of a value, such as `jaws.mass` or `arm.bench.tcp_speed`", hint)
	return quantity.Unit{}, false
}

// keyPath reports a path that begins at an item and does not end at a value.
func (c *checker) keyPath(t Term, id, key string, it *item) {
	own := c.ix.paths(it.path + ".")
	found := fmt.Sprintf("%s `%s` has no value `%s`", strings.TrimPrefix(strings.TrimPrefix(kindWords[it.kind], "a "), "an "), id, clip(key))
	expected := "the path of a value"
	if len(own) > 0 {
		expected = "a value of it: " + source.Quoted(own)
	}
	hint := source.DidYouMean(t.Path, own)
	switch possible := keysOf(it.value); {
	case it.path != id: // arm.bench for bench
		own = c.ix.paths(it.path + ".")
		hint = source.DidYouMean(it.path+"."+key, own)
		found = fmt.Sprintf("`%s` is %s and its path begins with the robot", id, kindWords[it.kind])
	case c.saidWithin(it):
		return
	case slices.Contains(possible, key):
		hint = fmt.Sprintf("write `%s` under `%s` at line %d", key, id, it.node.Pos.Line)
	case hint == "":
		if near := source.Nearest(key, possible); near != "" {
			hint = "did you mean `" + id + "." + near + "`? It is not written yet."
		}
	}
	c.addAt(t, found, expected, hint)
}

// saidWithin says whether a key of an item was refused or missing; the value
// then has its message already.
func (c *checker) saidWithin(it *item) bool {
	for f := range fields(c.records, isID) {
		if f.node != it.node {
			continue
		}
		if c.said[f.at.owner.Pos] {
			return true
		}
		for _, p := range f.at.owner.Pairs {
			if c.said[p.Key.Pos] {
				return true
			}
		}
	}
	return false
}

// gridPath checks a look-up in a stopping grid.
func (c *checker) gridPath(t Term, id, key string) (quantity.Unit, bool) {
	it := c.ix.items[id]
	robot, isRobot := (*Robot)(nil), false
	if it != nil {
		robot, isRobot = it.value.(*Robot)
	}
	var problem, hint string
	switch {
	case !isRobot && c.broken["robot"], c.broken["stopping"]:
		return quantity.Unit{}, false
	case !isRobot:
		problem, hint = "`"+id+"` is not a robot", source.DidYouMean(id, c.ix.IDs("robot"))
	case len(robot.Stopping) == 0:
		problem, hint = "robot `"+id+"` has no stopping grid", "write its points under `stopping` of the robot"
	case key == "distance" && !robot.Stopping[0].Distance.Set:
		problem, hint = "the stopping grid of `"+id+"` holds no distances", "write `distance` at its points"
	default:
		if key == "time" {
			return mustUnit("s"), true
		}
		return mustUnit("mm"), true
	}
	c.addAt(t, problem, "a robot with a stopping grid, as in `arm.stopping.time`", hint)
	return quantity.Unit{}, false
}

// givens checks the sums of the inputs of checks.
func (c *checker) givens() {
	for i := range c.a.Checks {
		for _, e := range c.a.Checks[i].Given {
			c.given(e.Value)
		}
	}
}

func (c *checker) given(g Given) {
	for _, item := range g.List {
		c.given(item)
	}
	var terms []Term
	var units []quantity.Unit
	for _, t := range g.Terms {
		u, ok := t.Quantity.Unit, true
		switch {
		case c.isResult(t):
			ok = false // its unit is known once the sheets are
		case t.Path != "":
			u, ok = c.path(t)
		}
		if ok {
			terms, units = append(terms, t), append(units, u)
		}
	}
	for i, most := 0, commonest(units); i < len(units); i++ {
		if !sameKind(units[i], most) {
			c.differ(terms[i], units[i], most)
		}
	}
	if g.From != "" && onlyPaths(g.Terms) {
		c.originOfPath(g.Node())
	}
}

// commonest is the unit whose kind most of the terms have, the first of equals:
// the others are taken for the slip.
func commonest(units []quantity.Unit) quantity.Unit {
	var most quantity.Unit
	best := 0
	for _, u := range units {
		n := 0
		for _, other := range units {
			if sameKind(u, other) {
				n++
			}
		}
		if n > best {
			most, best = u, n
		}
	}
	return most
}

// differ reports a term of another dimension than the rest of its sum.
func (c *checker) differ(t Term, u, most quantity.Unit) {
	const rest = ", as in the rest of the sum"
	if t.Path != "" {
		c.addAt(t, "`"+t.Path+"` is "+describe(u), describe(most)+rest, "")
	} else if message, expected, hint := unfit(t.Quantity, most); message != "" {
		c.addAt(t, message, expected+rest, hint)
	}
}

// originOfPath reports an origin that stands beside a path.
func (c *checker) originOfPath(n *source.Node) {
	c.add(n.Get("from"), "found an origin beside a path", "no `from` here", "the origin stands where the path leads")
}

// circles reports amounts that lead back to themselves, each circle once.
func (c *checker) circles() {
	seen := map[string]bool{}
	for _, e := range c.ix.entries {
		for _, t := range e.Amount.Terms {
			c.circle(e, t, seen)
		}
	}
	for i := range c.a.Checks {
		for _, e := range c.a.Checks[i].Given {
			for _, t := range e.Value.Terms {
				c.circle(&Entry{}, t, seen)
			}
		}
	}
}

func (c *checker) circle(e *Entry, t Term, seen map[string]bool) {
	if t.Path == "" || seen[e.Path] && e.Path != "" {
		return
	}
	r := resolver{ix: c.ix}
	switch err := r.term(e, t, false).(type) {
	case nil:
	case *circle:
		fresh := false
		for _, p := range err.paths {
			fresh = fresh || !seen[p]
			seen[p] = true
		}
		if fresh {
			c.addAt(t, err.Error(), "a path that ends at a number", "write the number in one of these places")
		}
	case *tooMuch:
		c.addAt(t, "`"+clip(t.Path)+"` "+err.Error(), "a sum that a reader can follow", "write the number")
	}
}

// paths are the paths of all amounts that begin with one of the prefixes, in
// the order of the file.
func (ix *Index) paths(prefixes ...string) []string {
	var list []string
	for _, e := range ix.entries {
		if ix.byPath[e.Path] != e {
			continue
		}
		if len(prefixes) == 0 || slices.ContainsFunc(prefixes, func(p string) bool { return strings.HasPrefix(e.Path, p) }) {
			list = append(list, e.Path)
		}
	}
	return list
}

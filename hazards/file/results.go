package file

import (
	"fmt"
	"strings"
)

// ResultOf splits a path that leads to a result of a check: its id, and the name
// of the result. Whether the sheet of the check has such a result only the
// library knows.
func (ix *Index) ResultOf(path string) (check, name string, ok bool) {
	check, name, ok = strings.Cut(path, ".")
	if !ok {
		return "", "", false
	}
	it := ix.items[check]
	return check, name, it != nil && it.kind == "check"
}

func (c *checker) isResult(t Term) bool {
	_, _, ok := c.ix.ResultOf(t.Path)
	return ok
}

// Results lists the terms of an input that are results of checks, those of its
// members among them.
func (ix *Index) Results(g *Given) []Term {
	var out []Term
	for _, t := range g.Terms {
		if _, _, ok := ix.ResultOf(t.Path); ok {
			out = append(out, t)
		}
	}
	for i := range g.List {
		out = append(out, ix.Results(&g.List[i])...)
	}
	return out
}

// results checks that checks do not take results in a circle, and that a reader
// can follow them.
func (c *checker) results() {
	f := following{checker: c, state: map[string]*followed{}}
	for i := range c.a.Checks {
		if id := c.a.Checks[i].ID; c.ix.checkOf(id) == &c.a.Checks[i] {
			f.follow(id, Term{})
		}
	}
	for i := range c.a.Cell.Functions {
		parts := c.a.Cell.Functions[i].Parts
		for j := range parts {
			c.by(&parts[j])
		}
	}
}

func (ix *Index) checkOf(id string) *Check {
	if it := ix.items[id]; it != nil {
		check, _ := it.value.(*Check)
		return check
	}
	return nil
}

// following goes from checks to those whose results they take.
type following struct {
	*checker
	state map[string]*followed
	open  []string // checks being followed
}

// followed says how much is behind a check.
type followed struct {
	done  bool
	deep  int // most checks one behind the other
	count int // results taken, those behind them counted each time
}

// follow looks at what is behind a check, which the term at takes. A check is
// followed once.
func (f *following) follow(id string, at Term) *followed {
	if s := f.state[id]; s != nil {
		if !s.done {
			f.around(id, at)
		}
		return s
	}
	s := &followed{}
	f.state[id] = s
	f.open = append(f.open, id)
	check := f.ix.checkOf(id)
	for i := range check.Given {
		for _, t := range f.ix.Results(&check.Given[i].Value) {
			source, _, _ := f.ix.ResultOf(t.Path)
			behind := f.follow(source, t)
			f.bound(s, behind, t)
		}
	}
	f.open = f.open[:len(f.open)-1]
	s.done = true
	return s
}

// around reports a circle, at the term that closes it.
func (f *following) around(id string, at Term) {
	i := len(f.open) - 1
	for f.open[i] != id {
		i--
	}
	list := append(f.open[i:len(f.open):len(f.open)], id)
	if len(list) > deepest {
		list = append(append(list[:2:2], "…"), list[len(list)-2:]...)
	}
	f.addAt(at, "goes round in a circle: `"+strings.Join(list, "` -> `")+"`", "a result of a check that does not need this one",
		"write the number in one of these places")
}

// bound counts a result that a check takes, and reports it where it is the first
// too many.
func (f *following) bound(s, behind *followed, t Term) {
	before := *s
	s.deep = max(s.deep, behind.deep+1)
	s.count = min(s.count+behind.count+1, mostLeaves+1)
	switch {
	case s.deep > deepest && behind.deep == deepest && before.deep <= deepest:
		f.addAt(t, fmt.Sprintf("`%s` follows more than %d checks", clip(t.Path), deepest), "a calculation that a reader can follow", "write the number")
	case s.count > mostLeaves && behind.count <= mostLeaves && before.count <= mostLeaves:
		f.addAt(t, fmt.Sprintf("`%s` makes it more than %d results that this check rests on", clip(t.Path), mostLeaves),
			"a calculation that a reader can follow", "write the number")
	}
}

// by checks that a part whose figures come from a check states none of its own.
func (c *checker) by(p *FunctionPart) {
	if p.By == "" {
		return
	}
	for _, key := range []string{"pfh", "level", "category"} {
		if p.Has(key) {
			c.addKey(p.Item, key, "found `"+key+"` beside `by`", "one of them",
				"the check `"+clip(p.By)+"` gives failure rate, level and category; delete `"+key+"`, or delete `by`")
		}
	}
}

// resultPath reports a result of a check where an amount of the cell is meant.
func (c *checker) resultPath(e *Entry, t Term) {
	hint := "write the number with its origin, or give the result to an input of a check"
	if e.Key == "pfh" {
		check, _, _ := c.ix.ResultOf(t.Path)
		hint = "write `by: " + check + "`: then rate, level and category of the part come from the check"
	}
	c.addAt(t, "`"+clip(t.Path)+"` is a result of a check, which only an input of another check takes", "a quantity, or the path of a value", hint)
}

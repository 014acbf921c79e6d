package expr

func (c compiler) text(n *node) textual {
	if n.op == opText {
		s := n.text
		return func(variables) (string, bool) { return s, true }
	}
	i, _ := c(n.text)
	return func(vars variables) (string, bool) {
		if uint(i) >= uint(len(vars)) || vars[i].Kind != Text {
			return "", false
		}
		return vars[i].Text, true
	}
}

func (c compiler) bool(n *node) truth {
	switch n.op {
	case opBool:
		v := n.truth
		return func(variables) (bool, bool) { return v, true }
	case opName:
		i, _ := c(n.text)
		return func(vars variables) (bool, bool) {
			if uint(i) >= uint(len(vars)) || vars[i].Kind != Bool {
				return false, false
			}
			return vars[i].Bool, true
		}
	case opNot:
		a := c.bool(n.args[0])
		return func(v variables) (bool, bool) {
			x, ok := a(v)
			return ok && !x, ok
		}
	case opAnd, opOr:
		return either(n.op == opOr, c.bool(n.args[0]), c.bool(n.args[1]))
	case opCall:
		if n.text == "has" {
			return c.has(n)
		}
		return c.given(n.args[0])
	}
	if n.args[0].kind() == Text {
		return sameText(n.op == opEq, c.text(n.args[0]), c.text(n.args[1]))
	}
	return compare(n.op, c.number(n.args[0]), c.number(n.args[1]))
}

// either is `a or b` where decides is true, `a and b` where it is false: when a
// decides, b does not matter, absent or not.
func either(decides bool, a, b truth) truth {
	return func(v variables) (bool, bool) {
		x, ok := a(v)
		if !ok || x == decides {
			return x, ok
		}
		return b(v)
	}
}

// given tells whether a name, or any member of a list, is given.
func (c compiler) given(n *node) truth {
	first, count := c(n.text)
	if !n.list {
		count = 1
	}
	return func(vars variables) (bool, bool) {
		for i := first; i < first+count; i++ {
			if uint(i) < uint(len(vars)) && vars[i].Given() {
				return true, true
			}
		}
		return false, true
	}
}

// has tells whether a member of a list is the text.
func (c compiler) has(n *node) truth {
	first, size := c(n.args[0].text)
	text := n.args[1].text
	return func(v variables) (bool, bool) {
		for i := first; i < first+size; i++ {
			if uint(i) < uint(len(v)) && v[i].Kind == Text && v[i].Text == text {
				return true, true
			}
		}
		return false, true
	}
}

func sameText(want bool, a, b textual) truth {
	return func(v variables) (bool, bool) {
		x, ok := a(v)
		if !ok {
			return false, false
		}
		y, ok := b(v)
		if !ok {
			return false, false
		}
		return (x == y) == want, true
	}
}

func compare(o op, a, b numeric) truth {
	var when func(same, less bool) bool
	switch o {
	case opEq:
		when = func(same, _ bool) bool { return same }
	case opNe:
		when = func(same, _ bool) bool { return !same }
	case opLt:
		when = func(same, less bool) bool { return less && !same }
	case opLe:
		when = func(same, less bool) bool { return less || same }
	case opGt:
		when = func(same, less bool) bool { return !less && !same }
	default:
		when = func(same, less bool) bool { return !less || same }
	}
	return func(v variables) (bool, bool) {
		x, ok := a(v)
		if !ok {
			return false, false
		}
		y, ok := b(v)
		if !ok {
			return false, false
		}
		return when(Equal(x, y), x < y), true
	}
}

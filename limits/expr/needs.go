package expr

// finish lists the names of a fitted tree.
func finish(root *node) *Fitted {
	f := &Fitted{root: root}
	root.walk(func(n *node) {
		if n.op == opName {
			f.names = include(f.names, n.text)
		}
	})
	f.needs = needs(root)
	return f
}

// walk visits n and all below it, from left to right.
func (n *node) walk(visit func(*node)) {
	visit(n)
	for _, a := range n.args {
		a.walk(visit)
	}
}

// needs are the names without which n is absent whatever the others are.
func needs(n *node) []string {
	switch {
	case n.op == opName:
		return []string{n.text}
	case n.op == opCall && n.never():
		return nil
	case n.op == opAnd || n.op == opOr:
		return needs(n.args[0]) // the other one may not matter
	}
	var names []string
	for _, a := range n.args {
		for _, name := range needs(a) {
			names = include(names, name)
		}
	}
	return names
}

// never tells whether the function n is never absent.
func (n *node) never() bool { return n.text == "given" || n.text == "count" || n.text == "has" }

func include(names []string, name string) []string {
	for _, n := range names {
		if n == name {
			return names
		}
	}
	return append(names, name)
}

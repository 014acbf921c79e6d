package expr

import "slices"

// branch is one outcome of a condition: a constant, or a further condition.
type branch struct {
	lit       string
	next      *node
	then, els *branch
}

var yes, no = branch{lit: "TRUE()"}, branch{lit: "FALSE()"}

func (w *formula) branch(b *branch, known []string) {
	if b.next == nil {
		w.lit(b.lit)
		return
	}
	w.condition(b.next, b.then, b.els, known)
}

// condition writes "then where n holds, otherwise els", and an empty text where
// n is absent. known are the names that are given by then.
//
// One of the branches of `a and b`, `a or b` is written twice, so that each
// guard stands outside the condition it guards; where a has none inside, it is
// written as one condition.
func (w *formula) condition(n *node, then, els *branch, known []string) {
	if w.size > maxFormula {
		return
	}
	switch {
	case n.op == opNot:
		w.condition(n.args[0], els, then, known)
	case n.op == opAnd && (els.next == nil || hasGuards(n, known)):
		w.condition(n.args[0], &branch{next: n.args[1], then: then, els: els}, els, known)
	case n.op == opOr && (then.next == nil || hasGuards(n, known)):
		w.condition(n.args[0], then, &branch{next: n.args[1], then: then, els: els}, known)
	default:
		w.leaf(n, then, els, known)
	}
}

// hasGuards tells whether n holds names that only matter at times.
func hasGuards(n *node, known []string) bool {
	always := needs(n)
	var within func(n *node) bool
	within = func(n *node) bool {
		if n.op == opName {
			return !slices.Contains(always, n.text) && !slices.Contains(known, n.text)
		}
		return !(n.op == opCall && n.never()) && slices.ContainsFunc(n.args, within)
	}
	return within(n)
}

// leaf writes a condition whose names are all guarded at once.
func (w *formula) leaf(n *node, then, els *branch, known []string) {
	missing := slices.DeleteFunc(needs(n), func(name string) bool { return slices.Contains(known, name) })
	if len(missing) > 0 {
		w.lit("IF(")
		w.absent(n, missing)
		w.lit(`,"",`)
		defer w.lit(")")
	}
	known = append(slices.Clip(known), missing...)
	switch {
	case then == &yes && els == &no:
		w.test(n, known)
	case then == &no && els == &yes:
		w.lit("NOT(")
		w.test(n, known)
		w.lit(")")
	default:
		w.lit("IF(")
		w.test(n, known)
		w.lit(",")
		w.branch(then, whenTrue(n, known))
		w.lit(",")
		w.branch(els, known)
		w.lit(")")
	}
}

// whenTrue adds the name that given has found.
func whenTrue(n *node, known []string) []string {
	if n.op != opCall || n.text != "given" {
		return known
	}
	return append(slices.Clip(known), n.args[0].text)
}

// absent writes the condition that one of the names is not given.
func (w *formula) absent(n *node, names []string) {
	lists := map[string]bool{}
	n.walk(func(n *node) { lists[n.text] = lists[n.text] || n.list })
	if len(names) > 1 {
		w.lit("OR(")
		defer w.lit(")")
	}
	for i, name := range names {
		if i > 0 {
			w.lit(",")
		}
		if lists[name] {
			w.lit("COUNT(")
			w.ref(&node{text: name, list: true})
			w.lit(")=0")
		} else {
			w.ref(&node{text: name})
			w.lit(`=""`)
		}
	}
}

// test writes a single condition.
func (w *formula) test(n *node, known []string) {
	switch {
	case n.op == opAnd || n.op == opOr:
		w.condition(n, &yes, &no, known)
	case n.op == opBool && n.truth:
		w.lit("TRUE()")
	case n.op == opBool:
		w.lit("FALSE()")
	case n.op == opName:
		w.ref(n)
	case n.op == opCall && n.text == "has":
		w.lit("COUNTIF(")
		w.span(n.args[0])
		w.lit(",")
		w.value(n.args[1])
		w.lit(")>0")
	case n.op == opCall && n.args[0].list:
		w.lit("COUNT(")
		w.ref(n.args[0])
		w.lit(")>0")
	case n.op == opCall:
		w.ref(n.args[0])
		w.lit(`<>""`)
	case n.args[0].kind() == Text && n.op == opNe:
		w.lit("NOT(")
		w.exact(n)
		w.lit(")")
	case n.args[0].kind() == Text:
		w.exact(n)
	default:
		w.value(n)
	}
}

func (w *formula) exact(n *node) {
	w.lit("EXACT(")
	w.value(n.args[0])
	w.lit(",")
	w.value(n.args[1])
	w.lit(")")
}

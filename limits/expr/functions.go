package expr

import (
	"math/big"

	"standclear/limits/quantity"
)

// call fits a function.
func (f *fitter) call(n *node) (part, error) {
	switch n.text {
	case "given":
		return f.given(n)
	case "has":
		return f.has(n)
	case "count":
		if len(n.args) == 2 {
			return f.countOf(n)
		}
		return f.list(n)
	case "sum":
		return f.list(n)
	case "min", "max":
		if len(n.args) == 1 {
			return f.list(n)
		}
		return f.alike(n, "take "+n.text+" of", Number)
	}
	p, err := f.number(n.args[0])
	if err != nil {
		return part{}, err
	}
	switch n.text {
	case "sqrt":
		return f.root(n, p)
	case "round":
		if p, err = f.rounded(n, p); err != nil {
			return part{}, err
		}
	}
	p.node = n.with(p.node)
	return p, nil
}

func (f *fitter) given(n *node) (part, error) {
	a := n.args[0]
	if a.op != opName {
		return part{}, fail(a.off, a.end, "given takes a name", "the name of an input")
	}
	t, list, ok := f.scope.Lookup(a.text)
	if !ok {
		return f.name(a)
	}
	if list && t.Kind != Number {
		return part{}, fail(a.off, a.end, "`%s` is a list of texts", "a list of numbers", a.text)
	}
	a = a.with()
	a.list = list
	return part{node: n.with(a), kind: Bool}, nil
}

// has fits has(list, 'text'): is one of the members this text. Absent members
// count as other texts, so it is never absent.
func (f *fitter) has(n *node) (part, error) {
	among, err := f.among(n)
	return part{node: among, kind: Bool}, err
}

// countOf fits count(list, 'text'): how many members are this text, never absent.
func (f *fitter) countOf(n *node) (part, error) {
	among, err := f.among(n)
	return part{node: among, kind: Number, scale: big.NewRat(1, 1)}, err
}

// among fits a function of a list of texts and a text.
func (f *fitter) among(n *node) (*node, error) {
	if len(n.args) != 2 || n.args[0].op != opName || n.args[1].op != opText {
		return nil, fail(n.off, n.end, "%s takes a list of texts and a text", n.text+"(list, 'text')", n.text)
	}
	a := n.args[0]
	t, list, ok := f.scope.Lookup(a.text)
	if !ok {
		_, err := f.name(a)
		return nil, err
	}
	if !list || t.Kind != Text {
		return nil, fail(a.off, a.end, "`%s` is no list of texts", "the name of a list of texts", a.text)
	}
	a = a.with()
	a.list, a.is = true, Text
	return n.with(a, n.args[1]), nil
}

// list fits a function over the given members of a list.
func (f *fitter) list(n *node) (part, error) {
	a := n.args[0]
	t, list, ok := Type{}, false, false
	if a.op == opName {
		if t, list, ok = f.scope.Lookup(a.text); !ok {
			return f.name(a)
		}
	}
	if n.text == "count" && list {
		t.Kind = Number // texts are counted too
	}
	if !list || t.Kind != Number {
		want := "the name of a list of numbers"
		if n.text == "min" || n.text == "max" {
			want = "at least two arguments, or a list of numbers"
		}
		return part{}, fail(a.off, a.end, "%s of one thing that is no list of numbers", want, n.text)
	}
	a = a.with()
	a.list = true
	if n.text == "count" {
		was, _, _ := f.scope.Lookup(a.text)
		a.is, t.Unit = was.Kind, quantity.One
	}
	return named(n.with(a), t), nil
}

// root halves a dimension. Where the scale is no square, its argument is
// brought to base units, so that no factor is irrational.
func (f *fitter) root(n *node, p part) (part, error) {
	for i, e := range p.dim {
		if e%2 != 0 {
			return part{}, fail(n.off, n.end, "the root of %s has no unit", "even powers of every dimension", p.describe())
		}
		p.dim[i] = e / 2
	}
	num, ok1 := squareRoot(p.scale.Num())
	den, ok2 := squareRoot(p.scale.Denom())
	if ok1 && ok2 {
		p.scale = new(big.Rat).SetFrac(num, den)
	} else {
		var err error
		if p, err = f.convert(p, big.NewRat(1, 1)); err != nil {
			return part{}, err
		}
	}
	p.node, p.unit = n.with(p.node), ""
	return p, nil
}

func squareRoot(x *big.Int) (*big.Int, bool) {
	r := new(big.Int).Sqrt(x)
	return r, new(big.Int).Mul(r, r).Cmp(x) == 0
}

// rounded brings the argument of round to the unit in which it is rounded.
func (f *fitter) rounded(n *node, p part) (part, error) {
	switch {
	case p.zero:
		return p, nil
	case f.want.Kind == Number && p.dim == f.want.Unit.Dim:
		p, err := f.convert(p, f.want.Unit.Scale)
		p.unit = f.want.Unit.Name
		return p, err
	case p.node.op == opName:
		return p, nil
	case p.dim == quantity.Dim{}:
		p.unit = ""
		return f.convert(p, big.NewRat(1, 1))
	}
	return part{}, fail(n.off, n.end, "no telling in which unit to round", "a plain number, or a single name")
}

// describe names what p is in an error.
func (p part) describe() string {
	if p.kind != Number {
		return describeKind(p.kind)
	}
	if p.unit != "" {
		return p.unit
	}
	return quantity.CanonicalUnit(p.dim).Describe()
}

func describeKind(k Kind) string {
	switch k {
	case Text:
		return "a text"
	case Bool:
		return "a condition"
	}
	return "a number"
}

func describe(t Type) string {
	if t.Kind == Number {
		return t.Unit.Describe()
	}
	return describeKind(t.Kind)
}

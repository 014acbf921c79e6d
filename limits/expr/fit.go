package expr

import (
	"math/big"
	"strconv"
	"strings"

	"standclear/limits/quantity"
)

// Fit checks kinds and dimensions and inserts the unit factors without which
// the numbers in the cells would not be in want.Unit.
//
// Products collect their scale and are converted once, where the unit matters:
// at the end, where sums, comparisons, min and max meet another scale (the
// later operand takes the first one's), and inside a root that would make the
// scale irrational. A literal 0 fits every dimension; any other literal is a
// plain number. round works in the wanted unit where its argument has that
// dimension, else on a plain number or in the unit of a single name.
// The error is an *Error.
func (t *Tree) Fit(s Scope, want Type) (*Fitted, error) {
	f := &fitter{scope: s, want: want}
	got, err := f.fit(t.root)
	if err != nil {
		return nil, err
	}
	if got.kind != want.Kind {
		return nil, fail(t.root.off, t.root.end, "the result is %s", describe(want), got.describe())
	}
	if want.Kind == Number {
		if !got.zero && got.dim != want.Unit.Dim {
			return nil, fail(t.root.off, t.root.end, "the result is %s", describe(want), got.describe())
		}
		if got, err = f.convert(got, want.Unit.Scale); err != nil {
			return nil, err
		}
	}
	fitted := finish(got.node)
	if fitted.formula().tooLong() {
		return nil, fail(t.root.off, t.root.end, "expression is too long or too deep for a spreadsheet formula", "two steps")
	}
	return fitted, nil
}

// part is a fitted node and what is known of its unit.
type part struct {
	node  *node
	kind  Kind
	dim   quantity.Dim
	scale *big.Rat
	unit  string // as its author named it, where known
	zero  bool   // the literal 0: fits every dimension
}

type fitter struct {
	scope Scope
	want  Type
}

// maxScale bounds the bits of a unit factor.
const maxScale = 600

func (f *fitter) fit(n *node) (part, error) {
	switch n.op {
	case opNum:
		return part{node: n, kind: Number, scale: big.NewRat(1, 1), zero: n.num == 0}, nil
	case opText:
		return part{node: n, kind: Text}, nil
	case opBool:
		return part{node: n, kind: Bool}, nil
	case opName:
		return f.name(n)
	case opNeg:
		return f.negate(n)
	case opNot, opAnd, opOr:
		return f.logic(n)
	case opAdd, opSub:
		return f.alike(n, map[op]string{opAdd: "add", opSub: "subtract"}[n.op], Number)
	case opEq, opNe, opLt, opLe, opGt, opGe:
		return f.compare(n)
	case opMul, opDiv:
		return f.product(n)
	case opPow:
		return f.power(n)
	}
	return f.call(n)
}

func (f *fitter) name(n *node) (part, error) {
	t, list, ok := f.scope.Lookup(n.text)
	if !ok {
		return part{}, fail(n.off, n.end, "unknown name `%s`", "an input, constant, look-up or earlier step", n.text)
	}
	if list {
		return part{}, fail(n.off, n.end, "`%s` is a list", "sum, min, max or count of it", n.text)
	}
	n = n.with()
	n.is = t.Kind
	return named(n, t), nil
}

func named(n *node, t Type) part {
	return part{node: n, kind: t.Kind, dim: t.Unit.Dim, scale: scaleOf(t.Unit), unit: t.Unit.Name}
}

// scaleOf lets the zero Unit stand for a plain number.
func scaleOf(u quantity.Unit) *big.Rat {
	if u.Scale == nil {
		return big.NewRat(1, 1)
	}
	return u.Scale
}

// number fits an operand that must be a number.
func (f *fitter) number(n *node) (part, error) {
	p, err := f.fit(n)
	if err == nil && p.kind != Number {
		err = fail(n.off, n.end, "%s where a number is needed", "a number", p.describe())
	}
	return p, err
}

func (f *fitter) negate(n *node) (part, error) {
	p, err := f.number(n.args[0])
	if err != nil {
		return part{}, err
	}
	p.node = n.with(p.node)
	return p, nil
}

func (f *fitter) logic(n *node) (part, error) {
	var args []*node
	for _, a := range n.args {
		p, err := f.fit(a)
		if err != nil {
			return part{}, err
		}
		if p.kind != Bool {
			return part{}, fail(a.off, a.end, "%s where a condition is needed", "a condition such as a < b or a = 'yes'", p.describe())
		}
		args = append(args, p.node)
	}
	return part{node: n.with(args...), kind: Bool}, nil
}

func (f *fitter) compare(n *node) (part, error) {
	p, err := f.fit(n.args[0])
	if err != nil {
		return part{}, err
	}
	if p.kind == Bool {
		return part{}, fail(n.args[0].off, n.args[0].end, "conditions cannot be compared", "`a` or `not a`")
	}
	if p.kind == Text && n.op != opEq && n.op != opNe {
		return part{}, fail(n.off, n.end, "texts have no order", "= or <>")
	}
	if p, err = f.alike(n, "compare", p.kind); err != nil {
		return part{}, err
	}
	return part{node: p.node, kind: Bool}, nil
}

// alike fits operands that must have one dimension, and brings the later ones
// to the scale of the first that has a unit.
func (f *fitter) alike(n *node, verb string, kind Kind) (part, error) {
	first := part{kind: kind, zero: true, scale: big.NewRat(1, 1)}
	parts := make([]part, len(n.args))
	for i, a := range n.args {
		p, err := f.fit(a)
		if err != nil {
			return part{}, err
		}
		switch {
		case p.kind != kind:
			return part{}, fail(a.off, a.end, "cannot %s %s and %s", describeKind(kind), verb, describeKind(kind), p.describe())
		case kind == Text || p.zero:
		case first.zero:
			first = p
		case p.dim != first.dim:
			return part{}, clash(n.op, verb, first, p, a)
		}
		parts[i] = p
	}
	args := make([]*node, len(parts))
	for i, p := range parts {
		if kind == Number && !p.zero {
			var err error
			if p, err = f.convert(p, first.scale); err != nil {
				return part{}, err
			}
		}
		args[i] = p.node
	}
	first.node = n.with(args...)
	return first, nil
}

func clash(o op, verb string, first, later part, at *node) error {
	text := "cannot " + verb + " " + first.describe() + " and " + later.describe()
	if o == opSub {
		text = "cannot subtract " + later.describe() + " from " + first.describe()
	}
	return fail(at.off, at.end, "%s", first.describe(), text)
}

func (f *fitter) product(n *node) (part, error) {
	a, err := f.number(n.args[0])
	if err != nil {
		return part{}, err
	}
	b, err := f.number(n.args[1])
	if err != nil {
		return part{}, err
	}
	p := part{node: n.with(a.node, b.node), kind: Number, scale: new(big.Rat).Mul(a.scale, b.scale)}
	sign := 1
	if n.op == opDiv {
		sign = -1
		p.scale.Quo(a.scale, b.scale)
	}
	if plain(b) {
		p.unit = a.unit
	} else if plain(a) && sign > 0 {
		p.unit = b.unit
	}
	return p, p.combine(n, a.dim, 1, b.dim, sign)
}

// plain tells whether p is a number without unit or scale.
func plain(p part) bool { return p.dim == quantity.Dim{} && p.scale.Cmp(big.NewRat(1, 1)) == 0 }

// combine sets the dimension a^i·b^j and refuses it where no quantity has it.
func (p *part) combine(n *node, a quantity.Dim, i int, b quantity.Dim, j int) error {
	for k := range a {
		e := int(a[k])*i + int(b[k])*j
		if e > 30 || e < -30 {
			return fail(n.off, n.end, "power too high for any quantity", "")
		}
		p.dim[k] = int8(e)
	}
	if p.scale.Num().BitLen() > maxScale || p.scale.Denom().BitLen() > maxScale {
		return fail(n.off, n.end, "unit factor too long", "")
	}
	return nil
}

func (f *fitter) power(n *node) (part, error) {
	a, err := f.number(n.args[0])
	if err != nil {
		return part{}, err
	}
	p := part{node: n.with(a.node), kind: Number, scale: quantity.RatPow(a.scale, n.exp)}
	return p, p.combine(n, a.dim, n.exp, quantity.Dim{}, 0)
}

// convert puts in the factor that brings p to scale.
func (f *fitter) convert(p part, scale *big.Rat) (part, error) {
	if scale == nil {
		scale = big.NewRat(1, 1)
	}
	ratio := new(big.Rat).Quo(p.scale, scale)
	p.scale = scale
	if p.zero || ratio.Cmp(big.NewRat(1, 1)) == 0 {
		return p, nil
	}
	if p.node.op == opNum {
		v, _ := new(big.Rat).SetString(p.node.text)
		if text, ok := short(v.Mul(v, ratio)); ok {
			p.node = &node{op: opNum, text: text, num: parseFloat(text), off: p.node.off, end: p.node.end}
			return p, nil
		}
	}
	num, ok1 := short(new(big.Rat).SetInt(ratio.Num()))
	den, ok2 := short(new(big.Rat).SetInt(ratio.Denom()))
	if !ok1 || !ok2 {
		return part{}, fail(p.node.off, p.node.end, "unit factor has more than %d digits", "units that differ less", maxDigits)
	}
	p.node = &node{op: opScale, num: parseFloat(num), den: parseFloat(den), args: []*node{p.node}, off: p.node.off, end: p.node.end}
	return p, nil
}

// short writes r as a decimal, if it has one that a spreadsheet keeps in full.
func short(r *big.Rat) (string, bool) {
	n, finite := r.FloatPrec()
	if !finite || n > 40 {
		return "", false
	}
	text := r.FloatString(n)
	return text, len(strings.Trim(strings.ReplaceAll(text, ".", ""), "0")) <= maxDigits
}

func parseFloat(text string) float64 {
	v, _ := strconv.ParseFloat(text, 64)
	return v
}

// with is a copy of n over other operands.
func (n *node) with(args ...*node) *node {
	c := *n
	c.args = args
	return &c
}

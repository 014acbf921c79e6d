package expr

import (
	"strconv"
	"strings"
)

// infix gives each infix operator its operation and how tightly it binds.
var infix = map[string]struct {
	op    op
	power int
}{
	"or": {opOr, 1}, "and": {opAnd, 2},
	"=": {opEq, 4}, "<>": {opNe, 4}, "<": {opLt, 4}, "<=": {opLe, 4}, ">": {opGt, 4}, ">=": {opGe, 4},
	"+": {opAdd, 5}, "-": {opSub, 5}, "*": {opMul, 6}, "/": {opDiv, 6}, "^": {opPow, 8},
}

// functions gives the greatest number of arguments, the decimals of round not
// counted; a spreadsheet of 2007 takes up to 255.
var functions = map[string]int{
	"min": 60, "max": 60, "abs": 1, "sqrt": 1, "round": 1, "sum": 1, "count": 2, "given": 1, "has": 2,
}

const functionNames = "abs, count, given, has, max, min, round, sqrt or sum"

type parser struct {
	tokens []token
	depth  int
}

// Parse reads an expression. The error is an *Error with the place of the first
// mistake.
//
// From loose to tight: or, and, not, one comparison (= <> < <= > >=), + -, * /,
// minus sign, ^ with a whole number. So -a^2 is -(a^2), as in mathematics.
func Parse(src string) (*Tree, error) {
	tokens, err := lex(src)
	if err != nil {
		return nil, err
	}
	p := &parser{tokens: tokens}
	root, err := p.expression(0)
	if err != nil {
		return nil, err
	}
	if t := p.peek(); t.kind != tokEnd {
		return nil, fail(t.off, t.end, "unexpected `%s`", "an operator or the end", t.text)
	}
	return &Tree{root}, nil
}

// expression reads operators that bind at least as tightly as power.
func (p *parser) expression(power int) (*node, error) {
	if p.depth++; p.depth > maxDepth {
		t := p.peek()
		return nil, fail(t.off, t.end, "expression is nested more than %d deep", "", maxDepth)
	}
	defer func() { p.depth-- }()
	left, err := p.operand(power)
	for err == nil {
		t := p.peek()
		in, ok := infix[t.text]
		if t.kind != tokSign || !ok || in.power < power {
			return left, nil
		}
		p.take()
		left, err = p.join(left, in.op, in.power)
	}
	return nil, err
}

// join reads what stands right of an operator.
func (p *parser) join(left *node, o op, power int) (*node, error) {
	if o == opPow {
		return p.exponent(left)
	}
	right, err := p.expression(power + 1)
	if err != nil {
		return nil, err
	}
	if t := p.peek(); o.comparison() && t.kind == tokSign && infix[t.text].op.comparison() {
		return nil, fail(t.off, t.end, "comparisons cannot be chained", "`a < b and b < c`")
	}
	return &node{op: o, args: []*node{left, right}, off: left.off, end: right.end}, nil
}

func (p *parser) exponent(base *node) (*node, error) {
	n, end, err := p.whole("exponent", maxExponent)
	if err != nil {
		return nil, err
	}
	if n == 0 {
		return nil, fail(base.off, end, "exponent 0", "a whole number from 1 to 9, or -1 to -9")
	}
	if t := p.peek(); t.kind == tokSign && t.text == "^" {
		return nil, fail(t.off, t.end, "powers cannot be chained", "brackets")
	}
	return &node{op: opPow, exp: n, args: []*node{base}, off: base.off, end: end}, nil
}

// whole reads a whole number, with or without minus.
func (p *parser) whole(what string, limit int) (n, end int, err error) {
	negative := p.sign("-")
	t := p.take()
	n, bad := strconv.Atoi(t.text)
	if t.kind != tokNum || bad != nil || n > limit {
		return 0, 0, fail(t.off, t.end, "%s is not a whole number up to %d", "a whole number in digits", what, limit)
	}
	if negative {
		n = -n
	}
	return n, t.end, nil
}

// operand reads a value or what a prefix applies to.
func (p *parser) operand(power int) (*node, error) {
	t := p.take()
	switch {
	case t.kind == tokNum:
		v, _ := strconv.ParseFloat(t.text, 64) // checked by lex
		return &node{op: opNum, num: v, text: t.text, off: t.off, end: t.end}, nil
	case t.kind == tokText:
		text := strings.ReplaceAll(t.text[1:len(t.text)-1], "''", "'")
		return &node{op: opText, text: text, off: t.off, end: t.end}, nil
	case t.kind == tokName:
		return p.name(t)
	case t.kind == tokSign && t.text == "-":
		return p.prefix(t, opNeg, 7)
	case t.kind == tokSign && t.text == "not" && power <= 3:
		return p.prefix(t, opNot, 3)
	case t.kind == tokSign && t.text == "(":
		n, err := p.expression(0)
		if err != nil {
			return nil, err
		}
		return n, p.expect(")", "a closing bracket")
	case t.kind == tokEnd:
		return nil, fail(t.off, t.end, "expression ends too early", "a number, a name, 'text' or a bracket")
	}
	return nil, fail(t.off, t.end, "unexpected `%s`", "a number, a name, 'text' or a bracket", t.text)
}

func (p *parser) prefix(t token, o op, power int) (*node, error) {
	arg, err := p.expression(power)
	if err != nil {
		return nil, err
	}
	return &node{op: o, args: []*node{arg}, off: t.off, end: arg.end}, nil
}

// name reads a constant, a function call or a plain name.
func (p *parser) name(t token) (*node, error) {
	if t.text == "true" || t.text == "false" {
		return &node{op: opBool, truth: t.text == "true", off: t.off, end: t.end}, nil
	}
	most, known := functions[t.text]
	if !p.sign("(") {
		if known {
			return nil, fail(t.off, t.end, "`%s` is a function", "`"+t.text+"(…)`", t.text)
		}
		return &node{op: opName, text: t.text, off: t.off, end: t.end}, nil
	}
	if !known {
		return nil, fail(t.off, t.end, "unknown function `%s`", functionNames, t.text)
	}
	return p.call(t, most)
}

func (p *parser) call(t token, most int) (*node, error) {
	n := &node{op: opCall, text: t.text, off: t.off}
	for {
		arg, err := p.expression(0)
		if err != nil {
			return nil, err
		}
		n.args = append(n.args, arg)
		if t.text == "round" {
			if err := p.expect(",", "the number of decimals"); err != nil {
				return nil, err
			}
			if n.exp, _, err = p.whole("number of decimals", maxDigits); err != nil {
				return nil, err
			}
			break
		}
		if !p.sign(",") {
			break
		}
	}
	n.end = p.peek().end
	if err := p.expect(")", "a closing bracket"); err != nil {
		return nil, err
	}
	if got := len(n.args); got > most {
		return nil, fail(n.off, n.end, "%s has %d arguments", "at most "+strconv.Itoa(most), t.text, got)
	}
	return n, nil
}

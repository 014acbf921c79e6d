package expr

import (
	"strconv"
	"strings"

	"standclear/limits/quantity"
)

// String writes the expression as Parse reads it, with no more brackets than
// needed.
func (t *Tree) String() string { return sourceStyle.write(t.root) }

// Symbols is the fitted expression as a reader expects it: 8·(d − d_0).
func (f *Fitted) Symbols() string {
	s := symbolStyle
	return s.write(f.root)
}

// Numbers is like Symbols with numbers put in. show gives what stands for a
// name, such as "30 mm", for a list all its members.
func (f *Fitted) Numbers(show func(name string) string) string {
	s := numberStyle
	s.name = show
	return s.write(f.root)
}

// style is a way to print; name nil prints names as they are.
type style struct {
	signs map[op]string
	human bool
	name  func(string) string
}

var (
	sourceStyle = style{signs: map[op]string{
		opNeg: "-", opAdd: " + ", opSub: " - ", opMul: "*", opDiv: "/",
		opEq: " = ", opNe: " <> ", opLt: " < ", opLe: " <= ", opGt: " > ", opGe: " >= ",
		opAnd: " and ", opOr: " or ",
	}}
	symbolStyle = style{human: true, signs: map[op]string{
		opNeg: "−", opAdd: " + ", opSub: " − ", opMul: "·", opDiv: "/",
		opEq: " = ", opNe: " ≠ ", opLt: " < ", opLe: " ≤ ", opGt: " > ", opGe: " ≥ ",
		opAnd: " and ", opOr: " or ",
	}}
	// With units in between, products need air: 3 kg · 75 N/mm.
	numberStyle = style{human: true, signs: map[op]string{
		opNeg: "−", opAdd: " + ", opSub: " − ", opMul: " · ", opDiv: " / ",
		opEq: " = ", opNe: " ≠ ", opLt: " < ", opLe: " ≤ ", opGt: " > ", opGe: " ≥ ",
		opAnd: " and ", opOr: " or ",
	}}
)

func (s style) write(n *node) string {
	switch n.op {
	case opNum:
		return s.number(n.num)
	case opText:
		return "'" + strings.ReplaceAll(n.text, "'", "''") + "'"
	case opBool:
		return strconv.FormatBool(n.truth)
	case opName:
		if s.name != nil {
			return s.name(n.text)
		}
		return n.text
	case opNeg:
		return s.signs[opNeg] + s.bracketed(n.args[0], 8)
	case opNot:
		return "not " + s.bracketed(n.args[0], 9)
	case opPow:
		return s.power(n)
	case opScale:
		return s.scale(n)
	case opCall:
		return s.call(n)
	}
	return s.infix(n)
}

func (s style) number(v float64) string {
	if s.human {
		return quantity.Format(v, maxDigits)
	}
	return strconv.FormatFloat(v, 'g', -1, 64)
}

func (s style) infix(n *node) string {
	left := n.precedence()
	if n.op.comparison() {
		left++
	}
	first := s.bracketed(n.args[0], left)
	if s.human && n.op == opMul && n.args[0].op == opDiv {
		first = "(" + first + ")" // a/b·c is read both ways
	}
	second := s.bracketed(n.args[1], n.precedence()+1)
	if n.args[1].op == opNeg || s.human && n.op <= opDiv && strings.HasPrefix(second, "−") || strings.HasPrefix(second, "-") {
		second = "(" + second + ")"
	}
	return first + s.signs[n.op] + second
}

func (s style) bracketed(n *node, least int) string {
	text := s.write(n)
	if n.precedence() < least || least > 7 && n.op == opName && strings.ContainsAny(text, " -−") {
		return "(" + text + ")"
	}
	return text
}

var superscripts = strings.NewReplacer("-", "⁻", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹")

func (s style) power(n *node) string {
	base, exp := s.bracketed(n.args[0], 9), strconv.Itoa(n.exp)
	if s.human {
		return base + superscripts.Replace(exp)
	}
	return base + "^" + exp
}

// scale writes a unit factor in front and a unit divisor behind, so that
// F/√x·1000 is not misread.
func (s style) scale(n *node) string {
	text := s.bracketed(n.args[0], 6)
	if n.den != 1 && n.args[0].op == opDiv {
		text = "(" + text + ")"
	}
	if n.num != 1 {
		text = s.number(n.num) + s.signs[opMul] + text
	}
	if n.den != 1 {
		text += s.signs[opDiv] + s.number(n.den)
	}
	return text
}

func (s style) call(n *node) string {
	args := make([]string, len(n.args))
	for i, a := range n.args {
		args[i] = s.write(a)
	}
	list := strings.Join(args, ", ")
	switch {
	case n.text == "round":
		list += ", " + strconv.Itoa(n.exp)
	case s.human && n.text == "sqrt":
		return "√(" + list + ")"
	case s.human && n.text == "abs":
		return "|" + list + "|"
	case s.human && n.text == "given":
		return n.args[0].text + " given"
	}
	return n.text + "(" + list + ")"
}

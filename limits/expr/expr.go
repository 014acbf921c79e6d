// Package expr parses the expressions of calculation sheets, checks their units
// and turns the one fitted tree into a Go value, a spreadsheet formula and a
// printed line.
//
// A value is absent when it was not given, or when an operation on it has no
// result (x/0, sqrt(-1)). Whatever is computed from an absent value is absent;
// only given(x), has(list, text) and count(list) never are.
package expr

import (
	"fmt"

	"standclear/limits/quantity"
)

// Kind is the kind of a value; the zero Kind is an absent value.
type Kind uint8

// The kinds of values.
const (
	Number Kind = iota + 1
	Text
	Bool
)

// Type is a kind and, for a Number, its unit.
type Type struct {
	Kind Kind
	Unit quantity.Unit
}

// Value is a number in the unit of its column, a text or a truth value.
type Value struct {
	Kind Kind
	Num  float64
	Text string
	Bool bool
}

// Given tells whether the value is there.
func (v Value) Given() bool { return v.Kind != 0 }

// Scope knows the names an expression may use. A list is a number of columns of
// one type, which only sum, min, max, count and given take.
type Scope interface {
	Lookup(name string) (t Type, list bool, ok bool)
}

// Error is a mistake in an expression. Offset and Width count bytes.
type Error struct {
	Offset, Width     int
	Message, Expected string
}

// Error writes message and expectation on one line.
func (e *Error) Error() string {
	s := fmt.Sprintf("at %d: %s", e.Offset+1, e.Message)
	if e.Expected != "" {
		s += "; expected " + e.Expected
	}
	return s
}

// Tree is a parsed expression.
type Tree struct{ root *node }

// Fitted is an expression whose units agree, with exact unit factors inserted.
type Fitted struct {
	root  *node
	names []string
	needs []string
}

// Names are all names in order of first use.
func (f *Fitted) Names() []string { return append([]string(nil), f.names...) }

// Needs are the names without which the result is absent whatever the others
// are, in order of first use. A name that matters only after `and` or `or`
// is guarded inside the formula and not listed; a list counts as absent when
// none of its members is given.
func (f *Fitted) Needs() []string { return append([]string(nil), f.needs...) }

// op is what a node does.
type op uint8

const (
	opNum op = iota + 1
	opText
	opBool
	opName
	opNeg
	opNot
	opAdd
	opSub
	opMul
	opDiv
	opPow
	opEq
	opNe
	opLt
	opLe
	opGt
	opGe
	opAnd
	opOr
	opCall  // text is the function
	opScale // args[0] · num / den, a unit factor put in by Fit
)

// node is one operation. A Tree's nodes are never changed after parsing.
type node struct {
	op       op
	num, den float64
	exp      int // of opPow; digits of round
	text     string
	truth    bool
	is       Kind // of a fitted name
	list     bool // a name of a list
	args     []*node
	off, end int // bytes in the source
}

func (o op) comparison() bool { return o >= opEq && o <= opGe }

// precedence orders operations for parsing and for brackets in print.
func (n *node) precedence() int {
	switch n.op {
	case opOr:
		return 1
	case opAnd:
		return 2
	case opNot:
		return 3
	case opEq, opNe, opLt, opLe, opGt, opGe:
		return 4
	case opAdd, opSub:
		return 5
	case opMul, opDiv, opScale:
		return 6
	case opNeg:
		return 7
	case opPow:
		return 8
	}
	return 9
}

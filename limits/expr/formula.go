package expr

import (
	"strconv"
	"strings"
)

// Part is a piece of a spreadsheet formula: literal text, or a reference to the
// cell of a name. Index is the member of a list, else -1. List means all
// members of a list, see Expand.
type Part struct {
	Lit   string
	Name  string
	Index int
	List  bool
	Range bool // with List: as one range, first to last member, which stand side by side
}

// Formula is the expression as a spreadsheet formula, without "=", of functions
// that Excel 2007 has. It expects the names of Needs to be given; the caller
// guards them, as in IF(OR(x="",y=""),"",…), a list by COUNT(list)=0. Names
// that matter only after `and` or `or` are guarded within.
//
// A spreadsheet works out both sides of its own AND and OR, so these become IF;
// it reads -a^2 as (-a)^2, so a minus sign is bracketed; it ignores case when
// comparing texts, so these use EXACT.
func (f *Fitted) Formula() []Part {
	return f.formula().parts
}

func (f *Fitted) formula() *formula {
	w := &formula{}
	if f.root.kind() == Bool {
		w.condition(f.root, &yes, &no, f.needs)
	} else {
		w.value(f.root)
	}
	return w
}

// Expand replaces each whole list by its members, comma-joined.
func Expand(parts []Part, size func(list string) int) []Part {
	w := &formula{}
	for _, p := range parts {
		if !p.List || p.Range {
			w.parts = append(w.parts, p)
			continue
		}
		for i := range size(p.Name) {
			if i > 0 {
				w.lit(",")
			}
			w.parts = append(w.parts, Part{Name: p.Name, Index: i})
		}
	}
	return w.parts
}

type formula struct {
	parts []Part
	size  int // about how many characters
}

// Bounds of a formula in Excel 2007, less what the caller's guard takes.
const (
	maxFormula = 7500
	maxNesting = 62
)

// tooLong tells whether the formula is beyond what a spreadsheet takes.
func (w *formula) tooLong() bool {
	depth, deepest := 0, 0
	for _, p := range w.parts {
		for _, r := range p.Lit {
			switch r {
			case '(':
				depth++
			case ')':
				depth--
			}
			deepest = max(deepest, depth)
		}
	}
	return w.size > maxFormula || deepest > maxNesting
}

func (w *formula) lit(s string) {
	w.size += len(s)
	if n := len(w.parts); n > 0 && w.parts[n-1].Name == "" {
		w.parts[n-1].Lit += s
		return
	}
	w.parts = append(w.parts, Part{Lit: s, Index: -1})
}

func (w *formula) ref(n *node) {
	w.size += len("Sheet!A1000")
	w.parts = append(w.parts, Part{Name: n.text, Index: -1, List: n.list})
}

func (w *formula) span(n *node) {
	w.size += 2 * len("Sheet!A1000")
	w.parts = append(w.parts, Part{Name: n.text, Index: -1, List: true, Range: true})
}

var sheetSigns = map[op]string{
	opAdd: "+", opSub: "-", opMul: "*", opDiv: "/",
	opEq: "=", opNe: "<>", opLt: "<", opLe: "<=", opGt: ">", opGe: ">=",
}

// value writes a number or a text.
func (w *formula) value(n *node) {
	switch n.op {
	case opNum:
		w.lit(sheetNumber(n.num))
	case opText:
		w.lit(`"` + strings.ReplaceAll(n.text, `"`, `""`) + `"`)
	case opName:
		w.ref(n)
	case opNeg:
		w.lit("(-")
		w.bracketed(n.args[0], 9)
		w.lit(")")
	case opPow:
		w.bracketed(n.args[0], 9)
		if n.exp < 0 {
			w.lit("^(" + strconv.Itoa(n.exp) + ")")
		} else {
			w.lit("^" + strconv.Itoa(n.exp))
		}
	case opScale:
		w.bracketed(n.args[0], 6)
		if n.num != 1 {
			w.lit("*" + sheetNumber(n.num))
		}
		if n.den != 1 {
			w.lit("/" + sheetNumber(n.den))
		}
	case opCall:
		w.call(n)
	default:
		w.bracketed(n.args[0], n.precedence())
		w.lit(sheetSigns[n.op])
		w.bracketed(n.args[1], n.precedence()+1)
	}
}

// sheetNumber writes a number so that a cell holds the same float.
func sheetNumber(v float64) string {
	if v >= 1 && v < 1e15 {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	return strconv.FormatFloat(v, 'G', -1, 64)
}

// bracketed puts brackets round what binds more loosely than least. A minus
// sign brings its own.
func (w *formula) bracketed(n *node, least int) {
	if n.precedence() >= least || n.op == opNeg {
		w.value(n)
		return
	}
	w.lit("(")
	w.value(n)
	w.lit(")")
}

func (w *formula) call(n *node) {
	if n.text == "count" && len(n.args) == 2 {
		w.lit("COUNTIF(")
		w.span(n.args[0])
		w.lit(",")
		w.value(n.args[1])
		w.lit(")")
		return
	}
	if n.text == "count" && n.args[0].is == Text {
		w.lit("(COLUMNS(") // COUNTA would count a cell that shows nothing
		w.span(n.args[0])
		w.lit(")-COUNTBLANK(")
		w.span(n.args[0])
		w.lit("))")
		return
	}
	w.lit(strings.ToUpper(n.text) + "(")
	for i, a := range n.args {
		if i > 0 {
			w.lit(",")
		}
		w.value(a)
	}
	if n.text == "round" {
		w.lit("," + strconv.Itoa(n.exp))
	}
	w.lit(")")
}

package expr

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	engine "github.com/expr-lang/expr"
	"github.com/expr-lang/expr/ast"
	reader "github.com/expr-lang/expr/parser"
)

// The oracle is an independent engine for the grammar both share. Sources are
// written in ours, without needless brackets, and translated word by word.
var translate = strings.NewReplacer("<>", "!=", "<=", "<=", ">=", ">=", "=", "==")

type source struct{ *rand.Rand }

func (r source) pick(options ...string) string { return options[r.IntN(len(options))] }

func (r source) number(depth int) string {
	if depth <= 0 {
		return r.pick("a", "b", "c", "e", "2.0", "0.5", "17.25", "3.0")
	}
	switch r.IntN(10) {
	case 0:
		return "-" + r.pick("a", "b", "2.0", "(a + b)", "a^2", "-c")
	case 1:
		return r.pick("a", "b", "(-c)", "("+r.number(depth-1)+")", "1.5") + "^" + r.pick("2", "3", "4")
	case 2:
		return r.pick("min", "max") + "(" + r.number(depth-1) + ", " + r.number(depth-1) + ")"
	case 3:
		return "abs(" + r.number(depth-1) + ")"
	case 4:
		return "sqrt(" + r.number(depth-1) + ")"
	case 5:
		return "(" + r.number(depth-1) + ")"
	}
	return r.number(depth-1) + r.pick(" + ", " - ", "*", "/", " - -", "*-") + r.number(depth-2)
}

func (r source) condition(depth int) string {
	if depth <= 0 {
		return r.pick("t", "u", "true", "false", "s = 'x'", "s <> q", "a < b", "q = s")
	}
	switch r.IntN(6) {
	case 0:
		return "not (" + r.condition(depth-1) + ")"
	case 1:
		return "(" + r.condition(depth-1) + ")"
	case 2, 3:
		return r.condition(depth-1) + r.pick(" and ", " or ") + r.condition(depth-2)
	}
	return r.number(depth-1) + r.pick(" = ", " <> ", " < ", " <= ", " > ", " >= ") + r.number(depth-1)
}

var oracleScope = names{"a": "", "b": "", "c": "", "e": "", "s": "text", "q": "text", "t": "bool", "u": "bool"}

func (r source) values() (map[string]Value, map[string]any) {
	ours, theirs := map[string]Value{}, map[string]any{"sqrt": anyRoot}
	for _, name := range []string{"a", "b", "c", "e"} {
		x := math.Exp(r.NormFloat64())
		if r.IntN(4) == 0 {
			x = -x
		}
		ours[name], theirs[name] = num(x), x
	}
	for _, name := range []string{"s", "q"} {
		s := r.pick("x", "y", "X")
		ours[name], theirs[name] = text(s), s
	}
	for _, name := range []string{"t", "u"} {
		b := r.IntN(2) == 0
		ours[name], theirs[name] = boolean(b), b
	}
	return ours, theirs
}

func TestOracle(t *testing.T) {
	r := source{rand.New(rand.NewPCG(7, 11))}
	const rounds = 4000
	skipped, absents := 0, 0
	for i := range rounds {
		src, want := r.number(1+i%6), "1"
		if i%3 == 0 {
			src, want = r.condition(1+i%5), "bool"
		}
		tree, err := Parse(src)
		if err != nil {
			t.Fatalf("%s: %v", src, err)
		}
		if a, b := shape(tree.root), oracleShape(t, src); a != b {
			t.Fatalf("%s: we read %s, the oracle %s", src, a, b)
		}
		f, err := tree.Fit(oracleScope, typeOf(want))
		if err != nil {
			t.Fatalf("%s: %v", src, err)
		}
		ours, theirs := r.values()
		if !conditioned(t, tree.root, theirs) {
			skipped++
			continue
		}
		got, oracle := evaluate(f, ours), ask(t, src, theirs)
		if !got.Given() {
			absents++
		}
		if !agree(got, oracle, !got.Given() && hasNoResult(t, tree.root, theirs)) {
			t.Fatalf("%s: %+v, the oracle says %v, with %v", src, got, oracle, theirs)
		}
	}
	t.Logf("%d expressions, %d ill-conditioned, %d absent", rounds, skipped, absents)
	if skipped > rounds/10 || absents > rounds/3 {
		t.Errorf("too little compared: %d ill-conditioned, %d absent", skipped, absents)
	}
}

// anyRoot takes the oracle's whole numbers too.
func anyRoot(x any) float64 {
	if n, ok := x.(int); ok {
		return math.Sqrt(float64(n))
	}
	return math.Sqrt(x.(float64))
}

func ask(t *testing.T, src string, env map[string]any) any {
	t.Helper()
	program, err := engine.Compile(translate.Replace(src), engine.Env(env))
	if err != nil {
		t.Fatalf("%s: %v", src, err)
	}
	v, err := engine.Run(program, env)
	if err != nil {
		t.Fatalf("%s: %v", src, err)
	}
	if n, ok := v.(int); ok {
		return float64(n)
	}
	return v
}

// agree compares; broken tells that the oracle met a number that is not finite,
// which it carries on and we do not.
func agree(got Value, oracle any, broken bool) bool {
	switch v := oracle.(type) {
	case float64:
		if got.Kind == Number {
			return math.Abs(got.Num-v) <= 1e-12*math.Abs(v)
		}
	case bool:
		if got.Kind == Bool {
			return got.Bool == v
		}
	}
	return !got.Given() && broken
}

// conditioned tells whether no sum or comparison hangs on rounding.
func conditioned(t *testing.T, root *node, env map[string]any) bool {
	t.Helper()
	ok := true
	root.walk(func(n *node) {
		if n.op != opAdd && n.op != opSub && !n.op.comparison() {
			return
		}
		x, isNumber := ask(t, (&Tree{n.args[0]}).String(), env).(float64)
		if !isNumber {
			return
		}
		y := ask(t, (&Tree{n.args[1]}).String(), env).(float64)
		if n.op == opAdd {
			y = -y
		}
		if d := math.Abs(x - y); d < 1e-3*(math.Abs(x)+math.Abs(y)) && (d != 0 || n.op == opEq || n.op == opNe) {
			ok = false
		}
	})
	return ok
}

func hasNoResult(t *testing.T, root *node, env map[string]any) bool {
	t.Helper()
	broken := false
	root.walk(func(n *node) {
		if x, ok := ask(t, (&Tree{n}).String(), env).(float64); ok && (math.IsNaN(x) || math.IsInf(x, 0)) {
			broken = true
		}
	})
	return broken
}

// shape prints every bracket.
func shape(n *node) string {
	switch n.op {
	case opNum:
		return strconv.FormatFloat(n.num, 'g', -1, 64)
	case opText:
		return strconv.Quote(n.text)
	case opBool:
		return fmt.Sprint(n.truth)
	case opName:
		return n.text
	case opNeg:
		return "(-" + shape(n.args[0]) + ")"
	case opNot:
		return "(not " + shape(n.args[0]) + ")"
	case opPow:
		return "(" + shape(n.args[0]) + "^" + strconv.Itoa(n.exp) + ")"
	case opCall:
		args := make([]string, len(n.args))
		for i, a := range n.args {
			args[i] = shape(a)
		}
		if n.text == "round" {
			args = append(args, strconv.Itoa(n.exp))
		}
		return n.text + "(" + strings.Join(args, ",") + ")"
	}
	return "(" + shape(n.args[0]) + strings.TrimSpace(sourceStyle.signs[n.op]) + shape(n.args[1]) + ")"
}

func oracleShape(t *testing.T, src string) string {
	t.Helper()
	tree, err := reader.Parse(translate.Replace(src))
	if err != nil {
		t.Fatalf("%s: %v", src, err)
	}
	return theirShape(t, tree.Node)
}

func theirShape(t *testing.T, n ast.Node) string {
	t.Helper()
	list := func(args []ast.Node) string {
		texts := make([]string, len(args))
		for i, a := range args {
			texts[i] = theirShape(t, a)
		}
		return "(" + strings.Join(texts, ",") + ")"
	}
	switch n := n.(type) {
	case *ast.IntegerNode:
		return strconv.Itoa(n.Value)
	case *ast.FloatNode:
		return strconv.FormatFloat(n.Value, 'g', -1, 64)
	case *ast.StringNode:
		return strconv.Quote(n.Value)
	case *ast.BoolNode:
		return fmt.Sprint(n.Value)
	case *ast.IdentifierNode:
		return n.Value
	case *ast.UnaryNode:
		return "(" + strings.TrimSpace(map[string]string{"not": "not ", "-": "-"}[n.Operator]+theirShape(t, n.Node)) + ")"
	case *ast.BinaryNode:
		sign := map[string]string{"==": "=", "!=": "<>"}[n.Operator]
		if sign == "" {
			sign = n.Operator
		}
		return "(" + theirShape(t, n.Left) + sign + theirShape(t, n.Right) + ")"
	case *ast.BuiltinNode:
		return n.Name + list(n.Arguments)
	case *ast.CallNode:
		return theirShape(t, n.Callee) + list(n.Arguments)
	}
	t.Fatalf("unexpected %T", n)
	return ""
}

package expr

import "math"

type (
	variables = []Value
	numeric   = func(variables) (float64, bool)
	truth     = func(variables) (bool, bool)
	textual   = func(variables) (string, bool)
)

// Compile turns the expression into a function of the values in vars, where
// slot says at which index a name starts and how many members a list has. The
// function allocates nothing and may run on several goroutines at once.
//
// Sums and comparisons use the tolerance of a spreadsheet, see Equal. A result
// that is not finite is absent. A value of another kind than the scope declared
// counts as absent.
func (f *Fitted) Compile(slot func(name string) (first, n int)) func(vars []Value) Value {
	c := compiler(slot)
	switch f.root.kind() {
	case Text:
		fn := c.text(f.root)
		return func(v []Value) Value {
			if s, ok := fn(v); ok {
				return Value{Kind: Text, Text: s}
			}
			return Value{}
		}
	case Bool:
		fn := c.bool(f.root)
		return func(v []Value) Value {
			if b, ok := fn(v); ok {
				return Value{Kind: Bool, Bool: b}
			}
			return Value{}
		}
	}
	fn := c.number(f.root)
	return func(v []Value) Value {
		if x, ok := fn(v); ok {
			return Value{Kind: Number, Num: x}
		}
		return Value{}
	}
}

type compiler func(name string) (first, n int)

// kind is the kind of a fitted node.
func (n *node) kind() Kind {
	switch {
	case n.op == opName:
		return n.is
	case n.op == opText:
		return Text
	case n.op == opBool, n.op == opNot, n.op == opAnd, n.op == opOr, n.op.comparison(), n.op == opCall && (n.text == "given" || n.text == "has"):
		return Bool
	}
	return Number
}

// finite makes a result that is no number absent.
func finite(x float64) (float64, bool) { return x, x-x == 0 }

func (c compiler) number(n *node) numeric {
	switch n.op {
	case opNum:
		v := n.num
		return func(variables) (float64, bool) { return v, true }
	case opName:
		return c.variable(n)
	case opAdd, opSub, opMul, opDiv:
		return arithmetic(n.op, c.number(n.args[0]), c.number(n.args[1]))
	case opCall:
		return c.call(n)
	}
	return c.unary(n)
}

func (c compiler) variable(n *node) numeric {
	i, _ := c(n.text)
	return func(vars variables) (float64, bool) {
		if uint(i) >= uint(len(vars)) || vars[i].Kind != Number {
			return 0, false
		}
		return finite(vars[i].Num)
	}
}

func arithmetic(o op, a, b numeric) numeric {
	calc := map[op]func(x, y float64) float64{
		opAdd: add,
		opSub: func(x, y float64) float64 { return add(x, -y) },
		opMul: func(x, y float64) float64 { return x * y },
		opDiv: func(x, y float64) float64 { return x / y },
	}[o]
	return func(v variables) (float64, bool) {
		x, ok := a(v)
		if !ok {
			return 0, false
		}
		y, ok := b(v)
		if !ok {
			return 0, false
		}
		return finite(calc(x, y))
	}
}

func (c compiler) unary(n *node) numeric {
	a := c.number(n.args[0])
	var calc func(x float64) float64
	switch n.op {
	case opNeg:
		calc = func(x float64) float64 { return 0 - x }
	case opPow:
		calc = power(n.exp)
	case opScale:
		num, den := n.num, n.den
		calc = func(x float64) float64 { return float64(x*num) / den }
	}
	return apply(a, calc)
}

func apply(a numeric, calc func(x float64) float64) numeric {
	return func(v variables) (float64, bool) {
		x, ok := a(v)
		if !ok {
			return 0, false
		}
		return finite(calc(x))
	}
}

func power(n int) func(x float64) float64 {
	if n == 2 {
		return func(x float64) float64 { return x * x }
	}
	e := float64(n)
	return func(x float64) float64 { return math.Pow(x, e) }
}

func (c compiler) call(n *node) numeric {
	switch n.text {
	case "abs":
		return apply(c.number(n.args[0]), math.Abs)
	case "sqrt":
		return apply(c.number(n.args[0]), math.Sqrt)
	case "round":
		digits := n.exp
		return apply(c.number(n.args[0]), func(x float64) float64 { return Round(x, digits) })
	case "sum":
		return c.members(n, func(x, y float64) float64 { return add(x, y) })
	case "count":
		return c.count(n)
	}
	better := math.Min
	if n.text == "max" {
		better = math.Max
	}
	if len(n.args) == 1 {
		return c.members(n, better)
	}
	args := make([]numeric, len(n.args))
	for i, a := range n.args {
		args[i] = c.number(a)
	}
	return func(v variables) (float64, bool) {
		best, ok := args[0](v)
		for i := 1; ok && i < len(args); i++ {
			var x float64
			if x, ok = args[i](v); ok {
				best = better(best, x)
			}
		}
		return best, ok
	}
}

// members folds the given members of a list.
func (c compiler) members(n *node, fold func(x, y float64) float64) numeric {
	each := c.each(n.args[0])
	return func(v variables) (total float64, any bool) {
		for _, m := range each {
			switch x, ok := m(v); {
			case ok && any:
				total = fold(total, x)
			case ok:
				total, any = x, true
			}
		}
		if !any {
			return 0, false
		}
		return finite(total)
	}
}

func (c compiler) count(n *node) numeric {
	first, size := c(n.args[0].text)
	counts := Value.Given
	if len(n.args) == 2 {
		text := n.args[1].text
		counts = func(v Value) bool { return v.Kind == Text && v.Text == text }
	}
	return func(v variables) (float64, bool) {
		count := 0.0
		for i := first; i < first+size; i++ {
			if uint(i) < uint(len(v)) && counts(v[i]) {
				count++
			}
		}
		return count, true
	}
}

// each reads the members of a list.
func (c compiler) each(n *node) []numeric {
	first, count := c(n.text)
	list := make([]numeric, count)
	for i := range list {
		list[i] = compiler(func(string) (int, int) { return first + i, 1 }).variable(n)
	}
	return list
}

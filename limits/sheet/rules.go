package sheet

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"
	"unicode/utf8"

	"standclear/limits/expr"
	"standclear/limits/quantity"
)

// rules collects what can decide a verdict: input errors first, then rules of
// the statement and bounds of the method, worst first.
func (b *builder) rules() {
	for _, c := range b.s.Columns {
		b.inputRules(c)
	}
	if len(b.st.NeedsOne) > 0 {
		b.needsOneRule()
	}
	for i := range b.st.Rules {
		st := &b.st.Rules[i]
		if g := b.fit(st.If, truth, st.At("if")); g != nil {
			b.rule(&rule{verdict: Verdict(st.Verdict), because: st.Because, firm: st.Firm, test: g.is, formula: g.formula(b.s, "FALSE()")})
		}
	}
}

func (b *builder) rule(r *rule) {
	if utf8.RuneCountInString(r.because) > 250 {
		b.ps.Addf(b.st.Pos(), "sheet %s: a reason holds 250 characters at most, as a spreadsheet text does: %s", b.s.ID, r.because)
	}
	b.s.rules = append(b.s.rules, r)
}

func (b *builder) inputRules(c *Column) {
	if c.Role != Input && c.Role != Override {
		return
	}
	if c.List != "" {
		if c.Member == 0 {
			b.listRules(b.s.Lists[c.List])
		}
		return
	}
	slot := c.Slot
	b.rule(b.possibleRule(c))
	if bo := c.Bounds; bo.AppliesFrom != nil || bo.AppliesTo != nil {
		why := fmt.Sprintf("%s is outside what the method covers (%s)", c.Symbol, method(bo).physical(c.Type.Unit))
		if bo.Beyond != "" {
			why += "; " + bo.Beyond
		}
		b.rule(&rule{verdict: Outside, because: why,
			test:    func(v []expr.Value) bool { return v[slot].Given() && !method(bo).possible(v[slot].Num) },
			formula: boundFormula(c.Name, nil, bo.AppliesFrom, bo.AppliesTo)})
	}
	if r, ok := b.s.Ranges[c.Symbol]; ok && r[1] == c {
		b.rangeRule(r[0], r[1])
	}
	if !c.Optional && c.Role == Input {
		b.rule(&rule{verdict: NotDecided, because: fmt.Sprintf("%s is missing: %s", c.Symbol, c.Means),
			test:    func(v []expr.Value) bool { return !v[slot].Given() },
			formula: []Piece{self(c.Name), lit(`=""`)}})
	}
}

// possibleRule is the input error of a value that cannot be.
func (b *builder) possibleRule(c *Column) *rule {
	slot, bo, choice := c.Slot, c.Bounds, c.Choice
	if c.Type.Kind == expr.Number {
		return &rule{verdict: NotDecided, first: true, because: fmt.Sprintf("%s must be %s", c.Symbol, bo.physical(c.Type.Unit)),
			test: func(v []expr.Value) bool {
				return v[slot].Given() && (v[slot].Kind != expr.Number || !bo.possible(v[slot].Num))
			},
			formula: boundFormula(c.Name, bo.Above, bo.From, bo.To)}
	}
	return &rule{verdict: NotDecided, first: true, because: fmt.Sprintf("%s must be one of the choices", c.Symbol),
		test:    func(v []expr.Value) bool { return v[slot].Given() && !slices.Contains(choice, v[slot].Text) },
		formula: b.choiceFormula(c)}
}

// rangeRule: a range that runs backwards is an input error.
func (b *builder) rangeRule(lo, hi *Column) {
	x, y := lo.Slot, hi.Slot
	b.rule(&rule{verdict: NotDecided, first: true, because: fmt.Sprintf("the range %s runs backwards", lo.Symbol),
		test: func(v []expr.Value) bool {
			return v[x].Kind == expr.Number && v[y].Kind == expr.Number && v[x].Num > v[y].Num && !near(v[x].Num, v[y].Num)
		},
		formula: []Piece{lit("IF(AND(ISNUMBER("), self(lo.Name), lit("),ISNUMBER("), self(hi.Name), lit(")),"), self(lo.Name), lit(">"), self(hi.Name), lit(",FALSE())")}})
}

// listRules: one rule for all members, so that a long list stays one condition.
func (b *builder) listRules(list []*Column) {
	var tests []func([]expr.Value) bool
	formula := []Piece{lit("OR(")}
	var because string
	for i, m := range list {
		m := *m
		m.Symbol = m.List
		r := b.possibleRule(&m)
		tests, because = append(tests, r.test), r.because
		if i > 0 {
			formula = append(formula, lit(","))
		}
		formula = join(formula, r.formula)
	}
	b.rule(&rule{verdict: NotDecided, first: true, because: because, formula: append(formula, lit(")")),
		test: func(v []expr.Value) bool {
			for _, t := range tests {
				if t(v) {
					return true
				}
			}
			return false
		}})
	if first := list[0]; !first.Optional {
		b.rule(&rule{verdict: NotDecided, because: fmt.Sprintf("%s is missing: %s", first.List, first.Means),
			test:    func(v []expr.Value) bool { return !v[first.Slot].Given() },
			formula: []Piece{self(first.Name), lit(`=""`)}})
	}
}

func method(bo Bounds) Bounds { return Bounds{From: bo.AppliesFrom, To: bo.AppliesTo} }

// possible tells whether x lies within the physical bounds, borders judged with
// the tolerance of a spreadsheet.
func (bo Bounds) possible(x float64) bool {
	return !(math.IsNaN(x) || math.IsInf(x, 0) ||
		bo.Above != nil && (x < *bo.Above || near(x, *bo.Above)) ||
		bo.From != nil && x < *bo.From && !near(x, *bo.From) ||
		bo.To != nil && x > *bo.To && !near(x, *bo.To))
}

func near(a, b float64) bool { return expr.Equal(a, b) }

// physical says the bounds in words.
func (bo Bounds) physical(u quantity.Unit) string {
	var parts []string
	say := func(word string, x *float64) {
		if x != nil {
			parts = append(parts, strings.TrimSpace(word+" "+quantity.Format(*x, 12)+" "+u.Name))
		}
	}
	say("above", bo.Above)
	say("at least", bo.From)
	say("at most", bo.To)
	return strings.Join(parts, " and ")
}

func boundFormula(name string, above, from, to *float64) []Piece {
	x := self(name)
	out := []Piece{lit("IF("), x, lit(`="",FALSE(),IF(ISNUMBER(`), x, lit("),NOT(AND(TRUE()")}
	limit := func(op string, b *float64) {
		if b != nil {
			out = append(out, lit(","), x, lit(op+number(*b)))
		}
	}
	limit(">", above)
	limit(">=", from)
	limit("<=", to)
	return append(out, lit(")),TRUE()))"))
}

func (b *builder) choiceFormula(c *Column) []Piece {
	x := self(c.Name)
	if c.Of != "" {
		// MATCH takes capitals for small letters and reads * and ?, so what it found is compared
		t := b.s.lib.Table(c.Of)
		keys := Piece{Ref: Ref{Kind: TableColumn, Table: t.ID, Name: t.Key}}
		return []Piece{lit("IF("), x, lit(`="",FALSE(),IFERROR(NOT(EXACT(`), x, lit(",INDEX("), keys, lit(",MATCH("), x, lit(","), keys, lit(",0)))),TRUE()))")}
	}
	out := []Piece{lit("IF("), x, lit(`="",FALSE(),NOT(OR(FALSE()`)}
	for _, o := range c.Choice {
		out = append(out, lit(",EXACT("), x, lit(","+quote(o)+")"))
	}
	return append(out, lit(")))"))
}

// needsOneRule: one of several groups of inputs must be complete.
func (b *builder) needsOneRule() {
	var groups [][]int
	var words []string
	parts := []Piece{lit("NOT(OR(FALSE()")}
	for _, g := range b.st.NeedsOne {
		var slots []int
		parts = append(parts, lit(",AND(TRUE()"))
		for _, name := range g {
			c := b.s.Input(name)
			if c == nil {
				b.ps.Addf(b.st.At("needs_one"), "sheet %s has no input %s", b.s.ID, name)
				return
			}
			slots = append(slots, c.Slot)
			parts = append(parts, lit(","), self(c.Name), lit(`<>""`))
		}
		parts = append(parts, lit(")"))
		groups = append(groups, slots)
		words = append(words, strings.Join(g, " and "))
	}
	b.rule(&rule{verdict: NotDecided, because: missingOneOf + strings.Join(words, ", or "), formula: append(parts, lit("))")),
		test: func(v []expr.Value) bool {
			for _, g := range groups {
				full := true
				for _, i := range g {
					full = full && v[i].Given()
				}
				if full {
					return false
				}
			}
			return true
		}})
}

// verdict reads what must hold, then puts the rules in order, worst first.
func (b *builder) verdict() {
	st := &b.st.Verdict
	b.s.is, b.s.isWhy = Within, st.Why
	if st.Is != "" {
		b.s.is = Verdict(st.Is)
	}
	if st.Use != "" {
		b.s.use = b.fit(st.Use, expr.Type{Kind: expr.Number, Unit: plain}, st.At("use"))
	}
	if st.Holds != "" {
		if g := b.fit(st.Holds, truth, st.At("holds")); g != nil {
			b.holdRules(g)
		}
	}
	sort.SliceStable(b.s.rules, func(i, j int) bool { return b.s.rules[i].place() < b.s.rules[j].place() })
	for _, r := range b.s.rules {
		b.s.Rules = append(b.s.Rules, RuleText{Verdict: r.verdict, Because: r.because, Firm: r.firm})
	}
}

func (b *builder) holdRules(g *guarded) {
	over := b.st.Verdict.Over
	if over == "" {
		over = "does not hold: " + b.st.Verdict.Holds
	}
	b.rule(&rule{verdict: Over, because: over, weighs: true,
		test:    func(v []expr.Value) bool { held := g.value(v); return held.Given() && !held.Bool },
		formula: join(lit("("), g.formula(b.s, "TRUE()"), lit(")=FALSE()"))})
	// also where a part is missing that only matters at times: what cannot be
	// compared is never within
	b.rule(&rule{verdict: NotDecided, weighs: true, because: "not all of " + strings.Join(b.changing(g.f.Names()), ", ") + " is known",
		test:    func(v []expr.Value) bool { return !g.value(v).Given() },
		formula: join(lit("("), noError(g.formula(b.s, `""`), `""`), lit(`)=""`))})
}

// changing leaves the constants out.
func (b *builder) changing(names []string) []string {
	var out []string
	for _, n := range names {
		if c := b.s.byName[n]; c == nil || c.Role != Constant {
			out = append(out, n)
		}
	}
	return out
}

func (r *rule) place() int {
	if r.first {
		return -1
	}
	return r.verdict.Rank()
}

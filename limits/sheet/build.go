package sheet

import (
	"fmt"
	"strings"

	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/source"
	"standclear/limits/table"
)

// Read reads one sheet statement against the tables and constants of lib.
func Read(n *source.Node, lib *Library, ps *source.Problems) *Sheet {
	var st statement
	before := ps.Len()
	source.Decode(n, &st, ps)
	if ps.Len() > before {
		return nil
	}
	b := &builder{st: &st, ps: ps, s: &Sheet{
		ID: st.ID, Title: st.Title, About: st.About, Group: st.Group, Standard: st.Standard,
		Source: st.Source, Standing: table.Standing(st.Standing),
		Lists: map[string][]*Column{}, Ranges: map[string][2]*Column{},
		Differs: st.Differs, byName: map[string]*Column{}, lib: lib,
	}}
	b.build()
	if ps.Len() > before {
		return nil
	}
	return b.s
}

type builder struct {
	st *statement
	s  *Sheet
	ps *source.Problems
}

func (b *builder) build() {
	before := b.ps.Len()
	for i := range b.st.Inputs {
		b.input(b.st.Inputs[i].Key, &b.st.Inputs[i].Value)
	}
	b.numbers()
	b.overrides()
	b.constants()
	b.lookups()
	for i := range b.st.Steps {
		b.declareStep(b.st.Steps[i].Key, &b.st.Steps[i].Value)
	}
	b.verdictColumns()
	b.lookupSlots()
	if b.ps.Len() > before {
		return
	}
	for i := range b.st.Steps {
		b.fitStep(b.st.Steps[i].Key, &b.st.Steps[i].Value)
	}
	for _, w := range b.st.Withhold {
		if g := b.fit(w, truth, b.st.At("withhold")); g != nil {
			b.s.withhold = append(b.s.withhold, g)
		}
	}
	b.arrange()
	b.rules()
	b.verdict()
	b.remarks()
	for _, r := range b.st.Results {
		if c := b.s.byName[r]; c != nil {
			b.s.Results = append(b.s.Results, c)
		} else {
			b.ps.Addf(b.st.At("results"), "sheet %s has no step %s", b.s.ID, r)
		}
	}
	b.worse()
	b.s.spoils = b.s.spoiling()
	for _, e := range b.st.Examples {
		b.s.Examples = append(b.s.Examples, Example{From: e.From, ID: e.ID, Kind: e.Kind})
	}
	b.s.start = make([]expr.Value, b.s.Slots)
	for _, c := range b.s.Consts {
		b.s.start[c.Slot] = b.s.lib.Constant(c.Name, b.s).Value
	}
}

// maxList is how many members a list may have: each is a column.
const maxList = 40

var truth = expr.Type{Kind: expr.Bool}

func (b *builder) add(c *Column, at source.Pos) *Column {
	if b.s.byName[c.Name] != nil {
		b.ps.Addf(at, "sheet %s names %s twice", b.s.ID, c.Name)
	}
	c.Slot = b.s.Slots
	b.s.Slots++
	b.s.byName[c.Name] = c
	if c.Symbol == "" {
		c.Symbol = c.Name
	}
	if c.Role != Constant {
		b.s.Columns = append(b.s.Columns, c)
	} else {
		b.s.Consts = append(b.s.Consts, c)
	}
	return c
}

func (b *builder) unit(text string, at source.Pos) expr.Type {
	if text == "" {
		return expr.Type{Kind: expr.Text}
	}
	u, err := quantity.ParseUnit(text)
	if err != nil {
		b.ps.Addf(at, "%v", err)
	}
	return expr.Type{Kind: expr.Number, Unit: u}
}

func (b *builder) input(name string, st *inputStmt) {
	c := Column{Name: name, Means: st.Means, Role: Input, Type: b.unit(st.Unit, st.At("unit")), Choice: st.Choice, Of: st.Of,
		Optional: st.Optional, Adjust: st.Adjust, Fixed: st.Room == "never",
		Bounds: Bounds{Above: st.Above, From: st.From, To: st.To, AppliesFrom: st.AppliesOn, AppliesTo: st.AppliesTo, Beyond: st.Beyond}}
	if c.Type.Kind == expr.Number && st.Above == nil && st.From == nil {
		b.ps.Addf(st.Pos(), "input %s of sheet %s needs a lower physical bound", name, b.s.ID)
	}
	if c.Type.Kind == expr.Text && len(st.Choice) == 0 && st.Of == "" {
		b.ps.Addf(st.Pos(), "input %s of sheet %s needs a unit, choices or a table of choices", name, b.s.ID)
	}
	if st.Of != "" {
		if c.Choice = b.s.lib.keys(st.Of); c.Choice == nil {
			b.ps.Addf(st.At("of"), "no table %s", st.Of)
		}
	}
	if st.List < 0 || st.List > maxList {
		b.ps.Addf(st.At("list"), "found a list of %d, expected at most %d", st.List, maxList)
		return
	}
	switch {
	case st.Range:
		lo, hi := c, c
		lo.Name, lo.Symbol, lo.Means = name+"_lo", name, c.Means+", lowest"
		hi.Name, hi.Symbol, hi.Means = name+"_hi", name, c.Means+", highest"
		b.s.Ranges[name] = [2]*Column{b.add(&lo, st.Pos()), b.add(&hi, st.Pos())}
	case st.List > 0:
		for i := range st.List {
			m := c
			m.Name = fmt.Sprintf("%s_%d", name, i+1)
			m.List, m.Member, m.Optional = name, i, c.Optional || i > 0
			b.s.Lists[name] = append(b.s.Lists[name], b.add(&m, st.Pos()))
		}
	default:
		b.add(&c, st.Pos())
	}
}

// numbers finds, for inputs of words, the input that takes a number instead.
func (b *builder) numbers() {
	for i := range b.st.Inputs {
		name, st := b.st.Inputs[i].Key, &b.st.Inputs[i].Value
		if st.Number == "" {
			continue
		}
		c, d := b.s.byName[name], b.s.byName[st.Number]
		if c == nil || d == nil || c.Type.Kind != expr.Text || d.Type.Kind != expr.Number {
			b.ps.Addf(st.At("number"), "found number %s for input %s of sheet %s, expected an input of words and one with a unit", st.Number, name, b.s.ID)
			continue
		}
		c.number = d
	}
}

func (b *builder) overrides() {
	for i := range b.st.Steps {
		st := &b.st.Steps[i].Value
		if st.Given == nil {
			continue
		}
		name := b.st.Steps[i].Key
		b.add(&Column{Name: name + givenSuffix, Symbol: name, Means: st.Means + ", own value", Role: Override,
			Type: b.unit(st.Unit, st.At("unit")), Optional: true,
			Bounds: Bounds{Above: st.Given.Above, From: st.Given.From, To: st.Given.To}}, st.Pos())
	}
}

func (b *builder) constants() {
	for i := range b.st.Constants {
		e := &b.st.Constants[i]
		k := b.s.lib.readConstant(b.s.Key(), e.Key, &e.Value, b.ps)
		b.addConstant(k, e.Pos)
	}
	for _, name := range b.st.Shared {
		k := b.s.lib.shared(name)
		if k == nil {
			b.ps.Addf(b.st.At("shared"), "no constant %s for all sheets", name)
			continue
		}
		b.addConstant(k, b.st.At("shared"))
	}
}

func (b *builder) addConstant(k *ConstantValue, at source.Pos) {
	b.add(&Column{Name: k.Name, Means: k.Means, Role: Constant, Type: k.Type, Source: k.Source, Standing: k.Standing, Clause: k.Clause}, at)
}

func (b *builder) declareStep(name string, st *stepStmt) {
	c := &Column{Name: name, Symbol: st.Symbol, Means: st.Means, Role: Step, Type: b.unit(st.Unit, st.At("unit")), step: &step{},
		Source: b.s.Source, Standing: b.s.Standing, Clause: st.Clause}
	if c.Clause == "" {
		c.Clause = b.s.Standard.String()
	}
	if st.Standing != "" {
		c.Source, c.Standing = st.Source, table.Standing(st.Standing)
	}
	b.add(c, st.Pos())
	if st.Given != nil {
		c.step.given = b.s.byName[name+givenSuffix]
		c.step.given.of = c
	}
	if st.Shown != nil {
		way := "rounded down"
		if st.Shown.Round == "up" {
			way = "rounded up"
		}
		b.add(&Column{Name: name + "_shown", Symbol: name, Means: st.Means + ", " + way, Role: Shown, Type: c.Type,
			of: c, Up: st.Shown.Round == "up", Decimals: st.Shown.To}, st.Pos())
	}
}

func (b *builder) fitStep(name string, st *stepStmt) {
	c := b.s.byName[name]
	cases := st.Cases
	if st.Is != "" {
		cases = append(cases, caseStmt{Item: st.Item, Is: st.Is})
	}
	if len(cases) == 0 || (st.Is != "" && len(st.Cases) > 0) {
		b.ps.Addf(st.Pos(), "step %s needs either `is` or `cases`", name)
		return
	}
	for i := range cases {
		var sc stepCase
		if cases[i].If != "" {
			sc.cond = b.fit(cases[i].If, truth, cases[i].At("if"))
		} else if i < len(cases)-1 {
			b.ps.Addf(cases[i].Pos(), "a case without `if` must be the last")
		}
		sc.is = b.fit(cases[i].Is, c.Type, cases[i].At("is"))
		c.step.cases = append(c.step.cases, sc)
	}
}

func (b *builder) fit(text string, want expr.Type, at source.Pos) *guarded {
	tree, err := expr.Parse(text)
	if err == nil {
		var f *expr.Fitted
		if f, err = tree.Fit(b.s, want); err == nil {
			return newGuarded(b.s, f)
		}
	}
	b.ps.Addf(at, "sheet %s, `%s`: %v", b.s.ID, text, err)
	return nil
}

func (b *builder) verdictColumns() {
	num, text := expr.Type{Kind: expr.Number, Unit: plain}, expr.Type{Kind: expr.Text}
	at := b.st.At("verdict")
	b.s.last = b.s.Slots
	b.add(&Column{Name: "rule", Means: "number of the rule that speaks, 0: none", Role: Rule, Type: num}, at)
	b.add(&Column{Name: "verdict", Means: "verdict", Role: Verd, Type: text}, at)
	b.add(&Column{Name: "why", Means: "why", Role: Why, Type: text}, at)
	b.add(&Column{Name: "use", Means: "share of the limit used", Role: Use, Type: num}, at)
}

// arrange puts look-ups and steps into an order in which each stands behind
// what it needs, and refuses circles.
func (b *builder) arrange() {
	state := map[*Column]int{}
	var visit func(c *Column) bool
	visit = func(c *Column) bool {
		if state[c] == 2 || (c.Role != Lookup && c.Role != Step && c.Role != Shown) {
			return true
		}
		if state[c] == 1 {
			b.ps.Addf(b.st.Pos(), "sheet %s: %s needs itself", b.s.ID, c.Name)
			return false
		}
		state[c] = 1
		for _, name := range c.needs() {
			if d := b.s.byName[name]; d != nil && !visit(d) {
				return false
			}
		}
		state[c] = 2
		b.s.order = append(b.s.order, c)
		return true
	}
	for _, g := range b.s.withhold {
		for _, name := range g.f.Names() {
			if d := b.s.byName[name]; d != nil && !visit(d) {
				return
			}
		}
	}
	b.s.free = len(b.s.order)
	for _, c := range b.s.order {
		if c.Role != Lookup {
			b.ps.Addf(b.st.At("withhold"), "sheet %s: withhold rests on %s, which is worked out; expected inputs and look-ups", b.s.ID, c.Name)
		}
	}
	for _, c := range b.s.Columns {
		if !visit(c) {
			return
		}
	}
}

// needs lists the names that a column is worked out from.
func (c *Column) needs() []string {
	var names []string
	switch {
	case c.lookup != nil:
		for _, k := range c.lookup.keys {
			names = append(names, k.name)
		}
	case c.step != nil:
		for _, sc := range c.step.cases {
			if sc.cond != nil {
				names = append(names, sc.cond.f.Names()...)
			}
			if sc.is != nil {
				names = append(names, sc.is.f.Names()...)
			}
		}
	case c.of != nil:
		names = append(names, c.of.Name)
	}
	return names
}

// remarks reads the notes, one for each own value first.
func (b *builder) remarks() {
	for i := range b.st.Steps {
		if st := &b.st.Steps[i].Value; st.Given != nil {
			cond := "given(" + b.st.Steps[i].Key + givenSuffix + ")"
			n := noteStmt{Item: st.Item, If: cond, Text: st.Given.Note, Open: "override"}
			if st.Given.Wanted {
				n.Open = ""
			}
			b.remark(n)
		}
	}
	for _, st := range b.st.Notes {
		b.remark(st)
	}
}

func (b *builder) remark(st noteStmt) {
	n := note{text: strings.TrimSpace(st.Text), open: st.Open}
	if st.If != "" {
		n.cond = b.fit(st.If, truth, st.At("if"))
	}
	b.s.notes = append(b.s.notes, n)
}

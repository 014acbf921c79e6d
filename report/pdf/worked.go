package pdf

import (
	"cmp"
	"slices"
	"strings"

	"standclear/hazards"
	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// mostWorked bounds the worked calculations of a large assessment; the workbook
// holds them all.
const mostWorked = 150

// governing is a check that decides, with the id under which it is linked.
type governing struct {
	id    string
	check *hazards.Check
}

// governings lists the governing check of each contact, and every other check.
func governings(r *hazards.Result) []governing {
	var out []governing
	of := map[string]bool{}
	for i := range r.Contacts {
		c := &r.Contacts[i]
		of[c.ID] = true
		if c.Worst >= 0 && c.Worst < len(r.Checks) {
			out = append(out, governing{c.ID, &r.Checks[c.Worst]})
		}
	}
	for i := range r.Checks {
		if c := &r.Checks[i]; !of[c.Of] && !c.Shadow {
			out = append(out, governing{c.ID, c})
		}
	}
	return out
}

// worked sets the calculations out, symbols, numbers, result and clause.
func (d *doc) worked() {
	d.section("worked")
	all := governings(d.r)
	d.lead(d.w.Sentence("worked_intro"))
	if len(all) == 0 {
		d.put(one(d.w.Label("none"), text))
		return
	}
	shown := worst(all, mostWorked)
	if len(shown) < len(all) {
		d.put(one(d.w.Sentence("worked_cut", len(shown), len(all)), text))
	}
	for _, g := range shown {
		if g.check.Sheet != nil && g.check.Outcome != nil {
			d.calculation(g)
		}
	}
}

// worst keeps the n checks with the worst verdict and the greatest use, in their
// own order.
func worst(all []governing, n int) []governing {
	if len(all) <= n {
		return all
	}
	at := make([]int, len(all))
	for i := range at {
		at[i] = i
	}
	slices.SortStableFunc(at, func(a, b int) int {
		x, y := all[a].check, all[b].check
		return cmp.Or(cmp.Compare(x.Verdict.Rank(), y.Verdict.Rank()), cmp.Compare(useIn(y), useIn(x)))
	})
	at = at[:n]
	slices.Sort(at)
	out := make([]governing, n)
	for i, j := range at {
		out[i] = all[j]
	}
	return out
}

func useIn(c *hazards.Check) float64 {
	if c.Outcome == nil {
		return 0
	}
	return c.Outcome.Use()
}

// calculation is one check: what was put in, what came out line by line, and
// what that means.
func (d *doc) calculation(g governing) {
	c := g.check
	d.calculationHead(g)
	d.inputs(c)
	d.workedLines(c)
	d.outcome(c)
}

func (d *doc) calculationHead(g governing) {
	c := g.check
	ls := d.broken(para{spans: []span{
		linked(g.id, "check:"+g.id, textBold), {text: "  " + c.Sheet.Title, style: text},
	}}, d.width)
	about := joined("  ·  ", joined(", ", c.Area, c.Tool, c.Part), c.Task, c.Sheet.Standard.String())
	as := d.broken(one(about, cellGrey), d.width)
	const above = 5.0
	d.wait(above+tall(ls)+tall(as)+0.8, func() {
		if d.y > topMargin {
			d.y += above
		}
		d.place("worked:" + g.id)
		d.pdf.Bookmark(d.clean(g.id, plain), 1, d.y-2)
		d.lines(ls, sideMargin)
		d.lines(as, sideMargin)
		d.y += 0.8
	})
}

// inputs lists inputs with their origins, and the constants.
func (d *doc) inputs(c *hazards.Check) {
	l := d.w.Label
	t := d.table(col{name: l("symbol"), share: 18}, col{name: l("means"), share: 64}, col{name: l("value"), share: 28, right: true}, col{name: l("origin"), share: 62})
	t.tight, t.lined = true, false
	var rows []row
	for i := range c.Inputs {
		in := &c.Inputs[i]
		column := c.Sheet.Input(in.Name)
		means, value := "", d.inputValue(c.Sheet, in, column)
		if value == "" {
			continue
		}
		if column != nil {
			means = column.Means
		} else if m := members(c.Sheet, in.Name); len(m) > 0 {
			means = m[0].Means
		}
		rows = append(rows, row{cells: []cell{{{spans: symbol(in.Name, cellText)}}, d.richCell(means), of(value, cellText), d.origin(in)}})
	}
	for _, k := range c.Sheet.Consts {
		if v := c.Outcome.Value(k.Name); v.Given() {
			rows = append(rows, row{cells: []cell{{{spans: symbol(k.Symbol, cellText)}}, d.richCell(k.Means), of(firm(pretty(k.Show(v))), cellText), d.cited(k.Clause, string(k.Standing))}})
		}
	}
	t.block(rows, 0)
}

// members are the columns of a list or range.
func members(s *sheet.Sheet, name string) []*sheet.Column {
	if r, ok := s.Ranges[name]; ok {
		return r[:]
	}
	return s.Lists[name]
}

func (d *doc) inputValue(s *sheet.Sheet, in *hazards.Input, c *sheet.Column) string {
	ms := members(s, in.Name)
	if c == nil && len(ms) > 0 {
		c = ms[0]
	}
	if c == nil {
		return in.Text
	}
	if len(in.List) > 0 {
		var out []string
		for _, v := range in.List {
			if v.Given() {
				out = append(out, firm(pretty(c.Show(v))))
			}
		}
		return strings.Join(out, "; ")
	}
	if in.Value.Given() {
		return firm(pretty(c.Show(in.Value)))
	}
	return in.Text
}

// origin says where an input comes from: paths, and the weakest origin.
func (d *doc) origin(in *hazards.Input) cell {
	var paths []string
	for _, t := range in.Terms {
		if t.Path != "" {
			paths = append(paths, t.Path)
		}
	}
	p := para{}
	word := d.w.Origins.Of(in.Origin).Word
	if marks[in.Origin] == doubtful {
		p = state(in.Origin, word)
	} else if in.Origin != "" {
		p.spans = []span{{text: word, style: cellText}}
	}
	if len(paths) > 0 {
		sep := ""
		if len(p.spans) > 0 {
			sep = ": "
		}
		p.spans = append(p.spans, span{text: sep + strings.Join(paths, " + "), style: cellGrey})
	}
	return cell{p}
}

// cited is a clause with its standing, where that is less than confirmed.
func (d *doc) cited(clause, standing string) cell {
	p := d.richPara(clause, cellGrey)
	if marks[standing] == doubtful {
		p.spans = append(p.spans, span{text: "  ", style: cellGrey})
		p.spans = append(p.spans, state(standing, d.w.Standings.Of(standing).Word).spans...)
	}
	return cell{p}
}

// workedLines are the look-ups and steps in the order they were worked out.
func (d *doc) workedLines(c *hazards.Check) {
	lines := c.Sheet.Worked(c.Outcome)
	if len(lines) == 0 {
		return
	}
	d.skip(1.5)
	l := d.w.Label
	t := d.table(col{name: l("symbol"), share: 18}, col{name: l("formula"), share: 74}, col{name: l("result"), share: 28, right: true}, col{name: l("clause"), share: 52})
	t.tight, t.lined = true, false
	var rows []row
	for _, w := range lines {
		formula := cell{}
		if w.Formula != "" {
			formula = append(formula, d.equation(w.Formula))
		}
		if w.Numbers != "" && w.Numbers != w.Formula {
			formula = append(formula, d.equation(w.Numbers))
		}
		if len(formula) == 0 {
			formula = of(w.Means, cellText)
		}
		rows = append(rows, row{cells: []cell{{{spans: symbol(w.Symbol, cellText)}}, formula, d.richCell(firm(w.Result)), d.cited(w.Source, string(w.Standing))}})
	}
	const verdict = 12 // mm, verdict and first note
	t.block(rows, verdict)
}

func (d *doc) equation(s string) para {
	p := d.richPara(s, cellText)
	if !strings.HasPrefix(s, "from ") && s != "own value" {
		p.spans = append([]span{{text: "= ", style: cellText}}, p.spans...)
		p.indent = 0
	}
	return p
}

// outcome says what came of it.
func (d *doc) outcome(c *hazards.Check) {
	p := state(string(c.Verdict), d.w.Verdicts.Of(string(c.Verdict)).Word)
	p.gap = 0.8
	if c.Outcome.Value("use").Kind == expr.Number {
		p.spans = append(p.spans, span{text: "  ·  " + d.w.Label("use") + " " + firm(percent(c.Outcome.Use())), style: cellText})
	}
	if c.Why != "" {
		p.spans = append(p.spans, span{text: "  ·  ", style: cellText})
		p.spans = append(p.spans, d.symbols.rich(c.Why, cellText)...)
	}
	d.put(p)
	for _, n := range c.Outcome.Notes() {
		d.put(d.richPara(n.Text, cellGrey))
	}
	if c.Note != "" {
		d.put(one(c.Note, cellGrey))
	}
}

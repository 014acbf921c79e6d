package pdf

import (
	"cmp"
	"slices"
	"strings"

	"standclear/hazards"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/report/trace"
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

// inputs lists inputs with the values they are made of, and the constants.
func (d *doc) inputs(c *hazards.Check) {
	l := d.w.Label
	t := d.table(col{name: l("symbol"), share: 22}, col{name: l("means"), share: 46}, col{name: l("value"), share: 26, right: true}, col{name: l("origin"), share: 78})
	t.tight, t.lined = true, false
	var rows []row
	for _, in := range trace.Inputs(d.r, c) {
		rows = append(rows, row{cells: []cell{{{spans: symbol(in.Name, cellText)}}, d.richCell(in.Means), of(firm(pretty(in.Value)), cellText), d.madeOf(in.Sign, in.Parts, "", 0)}})
	}
	for _, k := range c.Sheet.Consts {
		if v := c.Outcome.Value(k.Name); v.Given() {
			rows = append(rows, row{cells: []cell{{{spans: symbol(k.Symbol, cellText)}}, d.richCell(k.Means), of(firm(pretty(k.Show(v))), cellText), d.cited(k.Clause, string(k.Standing))}})
		}
	}
	t.block(rows, 0)
}

const stepIn = 3.0 // mm that a part of a part is set in

// madeOf lists parts one below the other, each with its value, origin and
// reference.
func (d *doc) madeOf(sign string, parts []trace.Part, lead string, depth int) cell {
	var out cell
	if sign != trace.Plus && len(parts) > 1 {
		out = append(out, one(sign, cellGrey))
	}
	for i := range parts {
		if i > 0 && sign == trace.Plus {
			lead = "+ "
		}
		p, paths := followed(&parts[i])
		out = append(out, d.part(p, lead+paths, depth))
		out = append(out, d.madeOf(p.Sign, p.Parts, "= ", depth+1)...)
	}
	return out
}

// followed goes from a value that is one other value to that one and gives the
// paths on the way: they share a line.
func followed(p *trace.Part) (*trace.Part, string) {
	paths := p.Path
	for len(p.Parts) == 1 && p.Parts[0].Path != "" {
		p = &p.Parts[0]
		paths += " = " + p.Path
	}
	return p, paths
}

// part is a line of a part that lead names.
func (d *doc) part(p *trace.Part, lead string, depth int) para {
	line := para{indent: float64(depth) * stepIn}
	if p.Path != "" {
		lead += " "
	}
	line.spans = append(line.spans, span{text: lead + pretty(p.Value), style: cellText})
	if p.Origin == "" && p.Ref == "" || len(p.Parts) > 0 {
		return line // said of the parts it is made of
	}
	line.spans = append(line.spans, span{text: "  ", style: cellText})
	word := d.w.Origins.Of(p.Origin).Word
	if marks[p.Origin] == doubtful {
		line.spans = append(line.spans, state(p.Origin, word).spans...)
		word = ""
	}
	if rest := joined(", ", word, strings.ReplaceAll(p.Ref, "p. ", "p.\u00a0")); rest != "" {
		if word == "" && p.Origin != "" {
			rest = ", " + rest
		}
		line.spans = append(line.spans, span{text: rest, style: cellGrey})
	}
	return line
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
	t := d.table(col{name: l("symbol"), share: 22}, col{name: l("formula"), share: 70}, col{name: l("result"), share: 28, right: true}, col{name: l("clause"), share: 52})
	t.tight, t.lined = true, false
	var rows []row
	for _, w := range lines {
		formula := cell{}
		if w.Case != "" {
			formula = append(formula, d.richPara(d.w.Label("case")+" "+w.Case, fine))
		}
		if plain := strings.Trim(w.Formula, "'"); plain != "" && plain != w.Result {
			formula = append(formula, d.equation(w.Formula))
		}
		if n := strings.Trim(w.Numbers, "'"); n != "" && w.Numbers != w.Formula && n != w.Result {
			formula = append(formula, d.equation(w.Numbers))
		}
		if w.Means != "" {
			formula = append(of(w.Means, cellGrey), formula...)
		}
		rows = append(rows, row{cells: []cell{{{spans: symbol(w.Symbol, cellText)}}, formula, d.resultCell(&w), d.cited(w.Source, string(w.Standing))}})
	}
	const verdict = 12 // mm, verdict and first note
	t.block(rows, verdict)
}

// resultCell keeps a value on one line; a reason why there is none may break.
func (d *doc) resultCell(w *sheet.Line) cell {
	if w.Numbers == "" && w.Formula == "" {
		return d.richCell(w.Result)
	}
	return d.richCell(firm(w.Result))
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
	p := d.verdictPara(c)
	p.gap = 0.8
	if c.Outcome.Value("use").Kind == expr.Number {
		p.spans = append(p.spans, span{text: "  ·  " + d.w.Label("use") + " " + firm(percent(c.Outcome.Use())), style: cellText})
	}
	if c.Why != "" {
		p.spans = append(p.spans, span{text: "  ·  ", style: cellText})
		p.spans = append(p.spans, d.symbols.rich(c.Why, cellText)...)
	}
	d.put(p)
	for _, p := range d.advised(d.corner(c), c.Advice, c.Model) {
		d.put(p)
	}
	for _, n := range c.Outcome.Notes() {
		d.put(d.richPara(n.Text, cellGrey))
	}
	if c.Note != "" {
		d.put(one(c.Note, cellGrey))
	}
}

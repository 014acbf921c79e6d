package pdf

import (
	"standclear/hazards"
	"standclear/limits/expr"
	"standclear/limits/quantity"
)

// sideBySide compares the checks of a group that stand in several editions, one
// table for each pair of editions.
func (d *doc) sideBySide(group string) {
	var names [][2]string
	of := map[[2]string][]hazards.Pair{}
	for _, p := range d.r.Pairs() {
		if section(p.First.Sheet) != group {
			continue
		}
		name := [2]string{p.First.Sheet.Edition(), p.Second.Sheet.Edition()}
		if of[name] == nil {
			names = append(names, name)
		}
		of[name] = append(of[name], p)
	}
	if len(names) == 0 {
		return
	}
	d.subsection("editions")
	d.lead(d.w.Sentence("editions_intro"))
	for _, name := range names {
		d.editionTable(name[0], name[1], of[name])
	}
}

func (d *doc) editionTable(a, b string, pairs []hazards.Pair) {
	l := d.w.Label
	t := d.table(col{name: l("check"), share: 38}, col{name: l("by_edition", a), unit: l("unit_length"), share: 21, right: true},
		col{name: l("by_edition", b), unit: l("unit_length"), share: 21, right: true}, col{name: l("difference"), unit: l("unit_length"), share: 18, right: true},
		col{name: l("by_edition", a), share: 24}, col{name: l("by_edition", b), share: 50})
	said := map[string]bool{}
	for i := range pairs {
		p := &pairs[i]
		first := d.editionVerdict(p.First, p)
		second := append(d.editionVerdict(p.Second, p), d.notPublic(p)...)
		for _, s := range append([]string{p.Differs()}, openNotes(p)...) {
			if !said[s] { // once for all checks
				said[s] = true
				second = append(second, d.richPara(s, cellGrey))
			}
		}
		t.row(row{cells: []cell{{{spans: []span{linked(p.Name(), "check:"+p.Name(), cellBold)}}, one(p.First.Sheet.Title, cellGrey)},
			d.askedFor(p.First), d.askedFor(p.Second), d.more(p), first, second}, again: d.again(p.Name() + "/editions")})
	}
	d.skip(2)
}

// askedFor is the distance an edition asks for, rounded up.
func (d *doc) askedFor(c *hazards.Check) cell {
	held, v := c.Held()
	if held == nil || v.Kind != expr.Number {
		return of(d.w.Label("no_value"), cellGrey)
	}
	out := d.figure(figure(c.Outcome, upward, held.Name))
	if !c.Lends() {
		out = append(out, one(d.w.Label("at_least"), cellGrey))
	}
	return out
}

func (d *doc) more(p *hazards.Pair) cell {
	_, v := p.Difference()
	if v.Kind != expr.Number {
		return of(d.w.Label("no_value"), cellGrey)
	}
	return of(pretty(quantity.Format(v.Num, 6)), cellText)
}

// editionVerdict marks the edition that counts.
func (d *doc) editionVerdict(c *hazards.Check, p *hazards.Pair) cell {
	out := cell{d.verdictPara(c)}
	if c.ID == p.Name() {
		out = append(out, one(d.w.Label("counts"), cellGrey))
	}
	return out
}

// openNotes are remarks on the check that does not count that would be open points
// if it did.
func openNotes(p *hazards.Pair) []string {
	var out []string
	for _, n := range p.Beside().Outcome.Notes() {
		if n.Open != "" {
			out = append(out, n.Text)
		}
	}
	return out
}

// notPublic names what has to come from a bought copy, else why nothing is
// decided by the other edition.
func (d *doc) notPublic(p *hazards.Pair) cell {
	c := p.Beside()
	var out cell
	list := c.Sheet.ToCopy(c.Outcome.Values)
	for _, s := range list {
		out = append(out, d.richPara(s, cellText))
	}
	if list == nil && c.Why != "" {
		out = append(out, d.richPara(c.Why, cellText))
	}
	if s := c.IgnoredWords(); s != "" {
		out = append(out, d.richPara(s, cellGrey))
	}
	return out
}

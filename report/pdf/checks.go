package pdf

import (
	"standclear/hazards"
	"standclear/limits/sheet"
)

// checks sets every check with its limit, by kind.
func (d *doc) checks() {
	d.section("checks")
	d.lead(d.w.Sentence("bar"))
	d.contactTable()
	d.ladders()
	d.speeds()
	in := map[string][]*hazards.Check{} // by the group of their sheet
	of := map[string]bool{}
	for i := range d.r.Contacts {
		of[d.r.Contacts[i].ID] = true
	}
	for i := range d.r.Checks {
		if c := &d.r.Checks[i]; !of[c.Of] && c.Sheet != nil {
			in[section(c.Sheet)] = append(in[section(c.Sheet)], c)
		}
	}
	known, plain := split(in["distance"], func(c *hazards.Check) bool { return requiredName(c) != "" })
	d.group("distances", known, d.distanceTable, plain)
	d.sideBySide("distance")
	d.stops()
	known, plain = split(in["functions"], func(c *hazards.Check) bool { return has(c.Sheet, "PFH_sum") })
	d.group("functions", known, d.functionTable, plain)
	d.group("others", nil, nil, in["other"])
}

// section is the part of the checks in which a sheet stands.
func section(s *sheet.Sheet) string {
	if s.Group == "distance" || s.Group == "functions" {
		return s.Group
	}
	return "other"
}

func split(list []*hazards.Check, is func(*hazards.Check) bool) (yes, no []*hazards.Check) {
	for _, c := range list {
		if is(c) {
			yes = append(yes, c)
		} else {
			no = append(no, c)
		}
	}
	return yes, no
}

// group sets the checks of one group: those whose results have columns of their
// own, then all others with their results listed.
func (d *doc) group(heading string, known []*hazards.Check, table func([]*hazards.Check), plain []*hazards.Check) {
	if len(known)+len(plain) == 0 {
		return
	}
	d.subsection(heading)
	if len(known) > 0 {
		table(known)
		d.skip(2)
	}
	if len(plain) > 0 {
		d.resultTable(plain)
	}
}

// contactTable shows the governing variant of each contact.
func (d *doc) contactTable() {
	if len(d.r.Contacts) == 0 {
		return
	}
	d.subsection("contacts")
	d.lead(d.w.Sentence("contacts_intro"))
	l := d.w.Label
	t := d.table(col{name: l("contact"), share: 32}, col{name: l("governing"), share: 27},
		col{name: l("speed"), unit: l("unit_speed"), share: 13, right: true}, col{name: l("force"), unit: l("unit_force"), share: 13, right: true},
		col{name: l("pressure"), unit: l("unit_pressure"), share: 16, right: true}, col{name: l("energy"), unit: l("unit_energy"), share: 16, right: true},
		col{name: l("use"), share: 17}, col{name: l("verdict"), share: 38})
	for i := range d.r.Contacts {
		c := &d.r.Contacts[i]
		t.row(row{cells: d.contactCells(c), anchor: "check:" + c.ID, again: d.again(c.ID)})
		if s := d.shadow(c); s != nil {
			why := s.Why
			if why == c.Why {
				why = ""
			}
			cells := d.numbers(s)
			what := cell{one(d.w.Label("beside"), cellGrey)}
			if s.Sheet != nil {
				what = append(what, one(s.Sheet.Title, cellGrey))
			}
			t.put(append([]cell{nil, what}, append(cells, d.verdictCell(string(s.Verdict), why))...)...)
		}
	}
}

func (d *doc) contactCells(c *hazards.Contact) []cell {
	first := cell{{spans: []span{linked(c.ID, "worked:"+c.ID, cellBold)}}}
	if c.Spec != nil {
		first = append(first, one(c.Spec.Where, cellText))
	}
	first = append(first, one(joined(", ", d.w.Classes.Of(c.Class).Word, c.Task), cellGrey))
	first = append(first, d.rowLinks(c.ID)...)
	if c.Worst < 0 || c.Worst >= len(d.r.Checks) {
		return []cell{first, of(d.w.Label("none"), cellText), nil, nil, nil, nil, nil, d.verdictCell(string(c.Verdict), c.Why)}
	}
	k := &d.r.Checks[c.Worst]
	variant := cell{one(k.Area, cellText)}
	if s := joined(", ", k.Tool, k.Part, k.Spot); s != "" {
		variant = append(variant, one(s, cellText))
	}
	if n := d.variants(c); n > 1 {
		variant = append(variant, one(d.w.Label("variants", n), cellGrey))
	}
	cells := append([]cell{first, variant}, d.numbers(k)...)
	return append(cells, d.advised(append(d.verdictCell(string(c.Verdict), c.Why), d.corner(k)...), c.Advice, true))
}

// variants counts the checks among which the worst governs.
func (d *doc) variants(c *hazards.Contact) int {
	n := 0
	for _, i := range c.Checks {
		if i >= 0 && i < len(d.r.Checks) && !d.r.Checks[i].Shadow {
			n++
		}
	}
	return n
}

// numbers are speed, force, pressure and energy of a contact check beside what is permitted.
func (d *doc) numbers(k *hazards.Check) []cell {
	o := k.Outcome
	return []cell{
		d.valueCell(figure(o, upward, "v"), figure(o, downward, "v_max")),
		d.valueCell(figure(o, upward, "F_peak", "F_grip"), figure(o, downward, "F_limit")),
		d.valueCell(figure(o, upward, "p_peak", "p"), figure(o, downward, "p_limit")),
		d.valueCell(figure(o, upward, "E_b"), figure(o, downward, "E_limit")),
		d.useCell(k),
	}
}

// valueCell is a value with what is permitted below it.
func (d *doc) valueCell(value, limit string) cell {
	c := d.figure(value)
	if limit != "" {
		c = append(c, one("≤\u00a0"+limit, cellGrey))
	}
	return c
}

func (d *doc) figure(s string) cell {
	if s == "" {
		return of(d.w.Label("no_value"), cellGrey)
	}
	return of(s, cellText)
}

// useCell is the share of the limit as a bar with its number.
func (d *doc) useCell(k *hazards.Check) cell {
	if k.Outcome == nil || !k.Outcome.Value("use").Given() {
		return of(d.w.Label("no_value"), cellGrey)
	}
	use := k.Outcome.Use()
	return cell{one(percent(use), cellText), {spans: []span{{mark: barSpace, share: use, style: cellText}}}}
}

// verdictOf is the verdict of a check with its reason.
func (d *doc) verdictOf(c *hazards.Check) cell {
	out := cell{d.verdictPara(c)}
	if c.Why != "" {
		out = append(out, d.richPara(c.Why, cellText))
	}
	return d.advised(append(out, d.corner(c)...), c.Advice, c.Model)
}

// verdictPara is the verdict of a check. Where nothing was compared, the mark is
// neutral and the word says that something was worked out.
func (d *doc) verdictPara(c *hazards.Check) para {
	word := d.w.Verdicts.Of(string(c.Verdict)).Word
	if c.Sheet == nil || c.Sheet.Compares() || c.Verdict != sheet.Within {
		return state(string(c.Verdict), word)
	}
	return para{spans: []span{{text: d.w.Label("worked_out"), style: cellBold}, {text: ", " + word, style: cellGrey}}}
}

func (d *doc) verdictCell(key, why string) cell {
	c := cell{state(key, d.w.Verdicts.Of(key).Word)}
	if why != "" {
		c = append(c, d.richPara(why, cellText))
	}
	return c
}

// shadow is the worst check shown beside a contact claimed free, nil when there
// is none.
func (d *doc) shadow(c *hazards.Contact) *hazards.Check {
	var worst *hazards.Check
	for _, i := range c.Checks {
		if i < 0 || i >= len(d.r.Checks) || !d.r.Checks[i].Shadow {
			continue
		}
		k := &d.r.Checks[i]
		if worst == nil || k.Verdict.Worse(worst.Verdict) ||
			k.Verdict.Rank() == worst.Verdict.Rank() && k.Outcome != nil && worst.Outcome != nil && k.Outcome.Use() > worst.Outcome.Use() {
			worst = k
		}
	}
	return worst
}

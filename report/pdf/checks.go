package pdf

import (
	"standclear/hazards"
)

// checks sets every check with its limit, by kind.
func (d *doc) checks() {
	d.section("checks")
	d.lead(d.w.Sentence("bar"))
	d.contactTable()
	var distances, functions, others []*hazards.Check
	of := map[string]bool{}
	for i := range d.r.Contacts {
		of[d.r.Contacts[i].ID] = true
	}
	for i := range d.r.Checks {
		switch c := &d.r.Checks[i]; {
		case of[c.Of]:
		case requiredName(c) != "":
			distances = append(distances, c)
		case c.Sheet != nil && has(c.Sheet, "PFH_sum"):
			functions = append(functions, c)
		default:
			others = append(others, c)
		}
	}
	d.distanceTable(distances)
	d.functionTable(functions)
	d.otherTable(others)
}

// contactTable shows the governing variant of each contact.
func (d *doc) contactTable() {
	if len(d.r.Contacts) == 0 {
		return
	}
	d.subsection("contacts")
	d.lead(d.w.Sentence("contacts_intro"))
	l := d.w.Label
	t := d.table(col{name: l("contact"), share: 38}, col{name: l("governing"), share: 29},
		col{name: l("speed"), unit: l("unit_speed"), share: 14, right: true}, col{name: l("force"), unit: l("unit_force"), share: 13, right: true},
		col{name: l("pressure"), unit: l("unit_pressure"), share: 18, right: true}, col{name: l("use"), share: 19}, col{name: l("verdict"), share: 41})
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
		return []cell{first, of(d.w.Label("none"), cellText), nil, nil, nil, nil, d.verdictCell(string(c.Verdict), c.Why)}
	}
	k := &d.r.Checks[c.Worst]
	variant := cell{one(k.Area, cellText)}
	if s := joined(", ", k.Tool, k.Part); s != "" {
		variant = append(variant, one(s, cellText))
	}
	if n := d.variants(c); n > 1 {
		variant = append(variant, one(d.w.Label("variants", n), cellGrey))
	}
	cells := append([]cell{first, variant}, d.numbers(k)...)
	return append(cells, d.verdictCell(string(c.Verdict), c.Why))
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

// numbers are speed, force and pressure of a contact check beside what is permitted.
func (d *doc) numbers(k *hazards.Check) []cell {
	o := k.Outcome
	return []cell{
		d.valueCell(figure(o, upward, "v"), figure(o, downward, "v_max")),
		d.valueCell(figure(o, upward, "F_peak", "F_grip"), figure(o, downward, "F_limit")),
		d.valueCell(figure(o, upward, "p_peak", "p"), figure(o, downward, "p_limit")),
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

package pdf

import (
	"standclear/hazards"
	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// requiredNames are the results that are a distance, gap or height to be kept,
// and availableNames what stands against them.
var (
	requiredNames  = []string{"S_p", "S", "s_r", "gap", "c"}
	availableNames = []string{"available"}
)

// requiredName is the result of a check that is compared with a distance
// available, "" when it has none.
func requiredName(c *hazards.Check) string {
	if c.Sheet == nil || !has(c.Sheet, "available") {
		return ""
	}
	for _, n := range requiredNames {
		for _, r := range c.Sheet.Results {
			if r.Name == n && r.UnitName() == "mm" {
				return n
			}
		}
	}
	return ""
}

func (d *doc) distanceTable(list []*hazards.Check) {
	d.lead(d.w.Sentence("distances_intro"))
	l := d.w.Label
	t := d.table(col{name: l("check"), share: 52}, col{name: l("required"), unit: l("unit_length"), share: 17, right: true},
		col{name: l("available"), unit: l("unit_length"), share: 17, right: true}, col{name: l("use"), share: 20}, col{name: l("verdict"), share: 66})
	for _, c := range list {
		t.row(row{cells: []cell{
			d.checkName(c), d.figure(figure(c.Outcome, upward, requiredName(c))), d.figure(figure(c.Outcome, downward, availableNames...)),
			d.useCell(c), d.verdictOf(c),
		}, anchor: "check:" + c.ID, again: d.again(c.ID)})
	}
}

// checkName names a check, its sheet, and the rows that rest on it.
func (d *doc) checkName(c *hazards.Check) cell {
	out := cell{{spans: []span{linked(c.ID, "worked:"+c.ID, cellBold)}}}
	if c.Sheet != nil {
		out = append(out, one(c.Sheet.Title, cellText))
	}
	if c.Task != "" {
		out = append(out, one(c.Task, cellGrey))
	}
	return append(out, d.rowLinks(c.ID, c.Of)...)
}

// functionTable compares level and category reached with what is required.
func (d *doc) functionTable(list []*hazards.Check) {
	d.lead(d.w.Sentence("functions_intro"))
	l := d.w.Label
	t := d.table(col{name: l("function"), share: 62}, col{name: l("required"), share: 22}, col{name: l("reached"), share: 22},
		col{name: "PFH", unit: l("unit_rate"), share: 20, right: true}, col{name: l("verdict"), share: 46})
	does := map[string]string{}
	for i := range d.r.File.Cell.Functions {
		f := &d.r.File.Cell.Functions[i]
		does[f.ID] = f.Does
	}
	for _, c := range list {
		name := d.checkName(c)
		if s := does[c.ID]; s != "" {
			name[1] = one(s, cellText)
		}
		required := d.level(figure(c.Outcome, nearest, "required"), figure(c.Outcome, nearest, "required_category"))
		reached := d.level(figure(c.Outcome, nearest, "PL"), lowestCategory(c.Outcome))
		t.row(row{cells: []cell{name, required, reached, d.figure(figure(c.Outcome, upward, "PFH_sum")), d.verdictOf(c)},
			anchor: "check:" + c.ID, again: d.again(c.ID)})
	}
}

func (d *doc) level(level, category string) cell {
	if level == "" {
		return of(d.w.Label("not_given"), cellGrey)
	}
	c := of(level, cellBold)
	if category != "" {
		c = append(c, one(firm(d.w.Label("category")+" "+category), cellText))
	}
	return c
}

// lowestCategory is the lowest category among the parts, as their sheet found it.
func lowestCategory(o *sheet.Outcome) string {
	if o == nil || o.Sheet == nil {
		return ""
	}
	n := o.Value("n_cat")
	if n.Kind != expr.Number {
		return ""
	}
	if n.Num == 0 {
		return "B"
	}
	return number(n.Num, nearest)
}

// resultTable lists all results of each check.
func (d *doc) resultTable(list []*hazards.Check) {
	l := d.w.Label
	t := d.table(col{name: l("check"), share: 52}, col{name: l("results"), share: 54}, col{name: l("use"), share: 20}, col{name: l("verdict"), share: 46})
	for _, c := range list {
		t.row(row{cells: []cell{d.checkName(c), d.results(c), d.useCell(c), d.verdictOf(c)},
			anchor: "check:" + c.ID, again: d.again(c.ID)})
	}
}

func (d *doc) results(c *hazards.Check) cell {
	if c.Sheet == nil {
		return nil
	}
	var out cell
	for _, r := range c.Sheet.Results {
		if r.Role == sheet.Use {
			continue // has a column of its own
		}
		shown := d.result(c.Outcome, r)
		p := para{spans: append(symbol(r.Symbol, cellText), span{text: " = " + firm(shown), style: cellText})}
		out = append(out, p)
	}
	return out
}

// result is a result with its unit: rounded as its sheet rounds it, and where
// the sheet knows no safe side, not rounded to one.
func (d *doc) result(o *sheet.Outcome, c *sheet.Column) string {
	if o == nil {
		return d.w.Label("no_value")
	}
	v := o.Value(c.Name + "_shown")
	if !v.Given() {
		v = o.Value(c.Name)
	}
	if !v.Given() {
		return d.w.Label("no_value")
	}
	return pretty(c.Show(v))
}

package pdf

import (
	"fmt"
	"strings"

	"standclear/hazards"
)

// reviewItems lists what a licensed or appointed person must look at.
func (d *doc) reviewItems() {
	d.section("review")
	d.lead(d.w.Sentence("review_intro"))
	if len(d.r.Review) == 0 {
		d.put(one(d.w.Sentence("review_none"), text))
		return
	}
	t := d.table(col{name: d.w.Label("place"), share: 16}, col{name: d.w.Label("clause"), share: 34}, col{name: d.w.Label("who"), share: 30},
		col{name: d.w.Label("because"), share: 66}, col{name: d.w.Label("standing"), share: 26})
	for i := range d.r.Review {
		it := &d.r.Review[i]
		t.row(row{cells: []cell{plainCell(it.Place), plainCell(it.Clause), of(it.Who, cellText), d.richCell(it.Because), d.standing(it.Standing)},
			again: d.again(it.Place)})
	}
}

// findings lists the rules that are broken, each with its way out.
func (d *doc) findings() {
	d.section("findings")
	d.lead(d.w.Sentence("findings_intro"))
	if len(d.r.Findings) == 0 {
		d.put(one(d.w.Sentence("findings_none"), text))
		return
	}
	t := d.table(col{name: d.w.Label("about"), share: 42}, col{name: d.w.Label("message"), share: 64}, col{name: d.w.Label("way_out"), share: 66})
	for i := range d.r.Findings {
		f := &d.r.Findings[i]
		rule := f.ID
		if f.Pos.Line > 0 {
			rule = joined(", ", rule, firm(d.w.Label("line", f.Pos.Line)))
		}
		about := cell{{spans: []span{d.ref(f.About, cellBold)}}, one(rule, cellGrey)}
		t.row(row{cells: []cell{about, d.richCell(f.Message), d.richCell(f.WayOut)}, anchor: findingAnchor(f.ID, f.About), again: d.again(f.About)})
	}
}

func findingAnchor(id, about string) string { return "finding:" + id + " " + about }

// ref is an id that leads to where it is printed, a path to its item. What is
// printed nowhere is no link.
func (d *doc) ref(id string, st style) span {
	item := id
	if i := strings.IndexAny(id, "./"); i > 0 {
		item = id[:i]
	}
	for _, name := range []string{id, item} {
		if to, ok := d.places[name]; ok {
			return linked(id, to, st)
		}
	}
	return span{text: id, style: st}
}

// placesOf gives the anchor of every id that is printed somewhere. Variants of a
// contact lead to the contact, measures to their row.
func placesOf(r *hazards.Result) map[string]string {
	to := map[string]string{}
	for i := range r.Contacts {
		to[r.Contacts[i].ID] = "check:" + r.Contacts[i].ID
	}
	for i := range r.Checks {
		if c := &r.Checks[i]; to[c.Of] == "" || c.Of == c.ID {
			to[c.ID] = "check:" + c.ID
		}
	}
	for i := range r.Rows {
		row := &r.Rows[i]
		to[row.ID] = "row:" + row.ID
		if row.Spec == nil {
			continue
		}
		for j := range row.Spec.Measures {
			to[row.Spec.Measures[j].ID] = "row:" + row.ID
		}
	}
	for i := range r.Points {
		to[r.Points[i].ID] = "point:" + r.Points[i].ID
	}
	return to
}

// standing shows how well a value is known; what is not confirmed stands out.
func (d *doc) standing(key string) cell {
	if key == "" {
		return nil
	}
	if d.w.Standings.Has(key) {
		word := d.w.Standings.Of(key).Word
		if marks[key] != doubtful {
			return of(word, cellGrey)
		}
		return cell{state(key, word)}
	}
	// Some data says more than the one word: "memory, confidence medium".
	p := one(key, cellText)
	for _, word := range strings.FieldsFunc(key, func(r rune) bool { return r < 'a' || r > 'z' }) {
		if marks[word] == doubtful {
			p.spans = append([]span{{mark: doubtful, style: cellText}}, p.spans...)
			break
		}
	}
	return cell{p}
}

// again names a row that goes on over a page.
func (d *doc) again(id string) cell {
	return cell{one(id, cellBold.in(grey)), one(fmt.Sprintf("(%s)", d.w.Label("continued")), cellGrey)}
}

package pdf

import (
	"standclear/hazards"
	"standclear/report/trace"
)

// values lists the values of the cell that checks were worked out from, with
// where they come from and where they are written.
func (d *doc) values() {
	d.section("values")
	list := trace.Facts(d.r)
	if len(list) == 0 {
		d.put(one(d.w.Label("none"), text))
		return
	}
	d.lead(d.w.Sentence("values_intro"))
	l := d.w.Label
	t := d.table(col{name: l("path"), share: 44}, col{name: l("value"), share: 50}, col{name: l("origin"), share: 64}, col{name: l("line_of"), share: 14, right: true})
	t.tight = true
	for _, f := range list {
		t.put(of(f.Path, cellText), of(pretty(trace.Fact(d.r, f).Value), cellText), d.factOrigin(f), d.lineOf(f))
	}
}

// factOrigin is the origin of a fact with its reference, or what it is made of.
func (d *doc) factOrigin(f *hazards.Fact) cell {
	p := trace.Fact(d.r, f)
	if len(p.Parts) == 0 {
		p.Path, p.Value = "", ""
		return cell{d.part(&p, "", 0)}
	}
	lead := "= "
	var out para
	for _, of := range p.Parts {
		text := of.Path
		if text == "" {
			text = firm(pretty(of.Value))
		}
		out.spans = append(out.spans, span{text: lead + text, style: cellText})
		lead = " + "
	}
	return cell{out}
}

func (d *doc) lineOf(f *hazards.Fact) cell {
	if f.Pos.Line == 0 {
		return nil
	}
	return of(number(float64(f.Pos.Line), nearest), cellGrey)
}

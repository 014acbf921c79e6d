package pdf

import (
	"slices"
	"strings"

	"standclear/hazards"
	"standclear/limits/expr"
)

// handOver lists what leaves the house with the cell: what to tell whom,
// upkeep, training, papers and declarations.
func (d *doc) handOver() {
	d.section("handover")
	d.tell()
	d.gaps()
	d.upkeep()
	d.training()
	d.asked()
	d.papers("technical_file", d.r.HandOver.Papers)
	d.papers("declarations", d.r.HandOver.Declarations)
}

// tell lists the risks that remain by the people they are told to.
func (d *doc) tell() {
	d.subsection("inform")
	by := map[string][]*hazards.Tell{}
	for i := range d.r.HandOver.Tell {
		t := &d.r.HandOver.Tell[i]
		to := t.To
		if len(to) == 0 {
			to = []string{""}
		}
		for _, who := range to {
			by[who] = append(by[who], t)
		}
	}
	if len(by) == 0 {
		d.put(one(d.w.Sentence("inform_none"), text))
		return
	}
	t := d.table(col{name: d.w.Label("row"), share: 14}, col{name: d.w.Label("harm"), share: 46}, col{name: d.w.Label("remains"), share: 18}, col{name: d.w.Label("tell"), share: 94})
	t.tight = true
	for _, who := range append(d.people(), "") {
		name := who
		if name == "" {
			name = d.w.Label("nobody")
		}
		if len(by[who]) > 0 {
			t.over(one(name, cellBold), "")
		}
		for _, x := range by[who] {
			t.row(row{cells: []cell{d.rowCell(x.Row), plainCell(x.Harm), plainCell(x.Level), d.telling(x)}, again: d.again(x.Row)})
		}
	}
}

func (d *doc) people() []string {
	var ids []string
	for i := range d.r.File.Cell.People {
		ids = append(ids, d.r.File.Cell.People[i].ID)
	}
	return ids
}

func (d *doc) rowCell(id string) cell { return cell{{spans: []span{d.ref(id, cellText)}}} }

func (d *doc) telling(in *hazards.Tell) cell {
	var p para
	for _, x := range [][2]string{{"manual", in.Manual}, {"marking", in.Marking}, {"training", in.Training}, {"ppe", in.Gear}} {
		p.labelled(d, x[0], x[1])
	}
	return cell{p}
}

// labelled adds a text with its label in grey, unless there is none.
func (p *para) labelled(d *doc, label, s string) {
	if s == "" {
		return
	}
	if len(p.spans) > 0 {
		p.spans = append(p.spans, span{text: "; ", style: cellText})
	}
	p.spans = append(p.spans, span{text: d.w.Label(label) + ": ", style: cellGrey}, span{text: s, style: cellText})
}

// gaps lists the rows of which nobody is told, those with the same reason together.
func (d *doc) gaps() {
	gaps := d.r.HandOver.Gaps
	if len(gaps) == 0 {
		return
	}
	d.subsection("gaps")
	t := d.table(col{name: d.w.Label("why"), share: 76}, col{name: d.w.Label("row"), share: 96})
	t.tight = true
	var said []string
	for _, g := range gaps {
		if slices.Contains(said, g.Why) {
			continue
		}
		said = append(said, g.Why)
		var rows []span
		for _, o := range gaps {
			if o.Why == g.Why {
				rows = append(rows, d.ref(o.Row, cellText))
			}
		}
		t.put(cell{state("open", g.Why)}, cell{{spans: list(rows, cellGrey)}})
	}
}

func (d *doc) upkeep() {
	list := d.r.HandOver.Upkeep
	if len(list) == 0 {
		return
	}
	d.subsection("upkeep")
	t := d.table(col{name: d.w.Label("id"), share: 24}, col{name: d.w.Label("every"), share: 24}, col{name: d.w.Label("what"), share: 124})
	t.tight = true
	for i := range list {
		u := &list[i]
		every, what := of(u.Every, cellText), u.What
		if u.Years.Kind == expr.Number {
			every = append(every, of(d.w.Label("within_years", number(u.Years.Num, downward)), cellText)...)
		}
		if len(u.For) > 0 {
			what += " (" + d.w.Label("brakes_of", strings.Join(u.For, ", ")) + ")"
		}
		t.put(cell{{spans: []span{d.ref(u.ID, cellText)}}}, every, of(what, cellText))
	}
}

// training lists what each kind of people is taught, and what they do.
func (d *doc) training() {
	list := d.r.HandOver.Training
	if len(list) == 0 {
		return
	}
	d.subsection("training")
	t := d.table(col{name: d.w.Label("who"), share: 34}, col{name: d.w.Label("training"), share: 38}, col{name: d.w.Label("told"), share: 64}, col{name: d.w.Label("does"), share: 36})
	t.tight = true
	for i := range list {
		p := &list[i]
		written := of(p.Written, cellText)
		if p.Written == "" {
			written = cell{state("open", d.w.Label("not_given"))}
		}
		who := cell{one(p.Person, cellText)}
		if p.Present != "" {
			who = append(who, one(p.Present, cellGrey))
		}
		told := d.told(p.Told)
		if gear := d.told(p.Gear); gear != nil {
			gear[0].spans = append([]span{{text: d.w.Label("ppe") + ": ", style: cellGrey}}, gear[0].spans...)
			told = append(told, gear...)
		}
		t.row(row{cells: []cell{who, written, told, plainCell(strings.Join(p.Tasks, ", "))}, again: d.again(p.Person)})
	}
}

func (d *doc) told(list []hazards.Told) cell {
	var p para
	for i, x := range list {
		if i > 0 {
			p.spans = append(p.spans, span{text: "; ", style: cellText})
		}
		p.spans = append(p.spans, span{text: x.Text + " ", style: cellText}, d.ref(x.Row, cellText))
	}
	if p.spans == nil {
		return nil
	}
	return cell{p}
}

// asked lists what the local rules ask to be handed over with a review.
func (d *doc) asked() {
	list := d.r.HandOver.Asked
	if len(list) == 0 {
		return
	}
	d.subsection("asked")
	t := d.table(col{name: d.w.Label("clause"), share: 62}, col{name: d.w.Label("papers"), share: 110})
	t.tight = true
	place := ""
	for i := range list {
		a := &list[i]
		if a.Place != place {
			place = a.Place
			t.over(one(place, cellBold), "")
		}
		t.row(row{cells: []cell{plainCell(a.Clause), plainCell(strings.Join(a.Papers, "; "))}, again: d.again(a.Clause)})
	}
}

// papers is an index of papers; those of the same kind that are in the same
// place stand together.
func (d *doc) papers(key string, list []hazards.Paper) {
	d.subsection(key)
	if len(list) == 0 {
		d.put(one(d.w.Sentence("review_none"), text))
		return
	}
	t := d.table(col{name: d.w.Label("kind"), share: 33}, col{name: d.w.Label("what"), share: 52}, col{name: d.w.Label("where"), share: 28},
		col{name: d.w.Label("by"), share: 24}, col{name: d.w.Label("asked_in"), share: 18}, col{name: d.w.Label("standing"), share: 17})
	t.tight = true
	for i := 0; i < len(list); {
		p, about := &list[i], []string{}
		for ; i < len(list) && list[i].Kind == p.Kind && list[i].Where == p.Where && slices.Equal(list[i].Places, p.Places); i++ {
			if list[i].About != "" {
				about = append(about, list[i].About)
			}
		}
		what := p.What
		if len(about) > 0 {
			what += ": " + strings.Join(about, ", ")
		}
		where := plainCell(p.Where)
		if p.Where == "" {
			where = cell{state("missing", d.w.Label("missing"))}
		}
		text := of(what, cellText)
		if p.Silent != "" {
			text = append(text, one(d.w.Sentence("if_so", p.Silent), cellGrey))
		}
		t.row(row{cells: []cell{of(p.Kind, cellText), text, where, plainCell(p.By), plainCell(strings.Join(p.Places, ", ")),
			d.standing(p.Standing)}, again: d.again(p.Kind)})
	}
}

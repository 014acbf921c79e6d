package pdf

// open lists what is not known well enough.
func (d *doc) open() {
	d.section("open")
	d.lead(d.w.Sentence("open_intro"))
	if len(d.r.Open) == 0 {
		d.put(one(d.w.Sentence("open_none"), text))
		return
	}
	t := d.table(col{name: d.w.Label("kind"), share: 28}, col{name: d.w.Label("about"), share: 52}, col{name: d.w.Label("what"), share: 92})
	t.tight = true
	for i := range d.r.Open {
		o := &d.r.Open[i]
		kind := state(o.Kind, d.w.Open.Of(o.Kind).Word)
		t.row(row{cells: []cell{{kind}, {{spans: []span{d.ref(o.About, cellText)}}}, d.richCell(o.Message)}, again: d.again(o.About)})
	}
}

// validation lists the validation points with their state.
func (d *doc) validation() {
	d.section("validation")
	d.lead(d.w.Sentence("validation_intro"))
	if len(d.r.Points) == 0 {
		d.put(one(d.w.Sentence("validation_none"), text))
		return
	}
	l := d.w.Label
	t := d.table(col{name: l("point"), share: 17}, col{name: l("of"), share: 30}, col{name: l("test"), share: 20},
		col{name: l("limit"), share: 38}, col{name: l("with"), share: 34}, col{name: l("state"), share: 42})
	t.tight = true
	for i := range d.r.Points {
		p := &d.r.Points[i]
		st := cell{state(p.State, d.w.Points.Of(p.State).Word)}
		if p.Spec != nil && p.Spec.Date != "" {
			st[0].spans = append(st[0].spans, span{text: " " + joined(", ", firm(p.Spec.Date), firm(p.Spec.By)), style: cellText})
		}
		with := d.richCell(p.With)
		if p.Spec != nil && p.Spec.Note != "" {
			with = append(with, one(p.Spec.Note, cellGrey))
		}
		if p.Why != "" {
			st = append(st, d.richPara(p.Why, cellText))
		}
		t.row(row{cells: []cell{of(p.ID, cellBold), {{spans: []span{d.ref(p.Of, cellText)}}},
			plainCell(p.Method), d.richCell(p.Limit), with, st}, anchor: "point:" + p.ID, again: d.again(p.ID)})
	}
}

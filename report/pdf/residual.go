package pdf

import (
	"strings"

	"standclear/hazards/file"
)

// residual lists what to tell whom, upkeep and training.
func (d *doc) residual() {
	d.section("residual")
	d.inform()
	d.upkeep()
	d.training()
}

// inform lists the risks that remain by the people they are told to.
func (d *doc) inform() {
	d.subsection("inform")
	type telling struct {
		row string
		in  *file.Inform
	}
	by := map[string][]telling{}
	var people []string
	for i := range d.r.File.Cell.People {
		people = append(people, d.r.File.Cell.People[i].ID)
	}
	people = append(people, "")
	for i := range d.r.Rows {
		s := d.r.Rows[i].Spec
		if s == nil || s.Residual == nil || s.Residual.Inform == nil {
			continue
		}
		in := s.Residual.Inform
		to := in.To
		if len(to) == 0 {
			to = []string{""}
		}
		for _, who := range to {
			by[who] = append(by[who], telling{d.r.Rows[i].ID, in})
		}
	}
	if len(by) == 0 {
		d.put(one(d.w.Sentence("inform_none"), text))
		return
	}
	t := d.table(col{name: d.w.Label("row"), share: 16}, col{name: d.w.Label("tell"), share: 156})
	t.tight = true
	for _, who := range people {
		if len(by[who]) == 0 {
			continue
		}
		name := who
		if name == "" {
			name = d.w.Label("nobody")
		}
		t.over(one(name, cellBold), "")
		for _, x := range by[who] {
			t.row(row{cells: []cell{{{spans: []span{linked(x.row, "row:"+x.row, cellText)}}}, d.telling(x.in)}, again: d.again(x.row)})
		}
	}
}

func (d *doc) telling(in *file.Inform) cell {
	var p para
	for _, x := range [][2]string{{"manual", in.Manual}, {"marking", in.Marking}, {"training", in.Training}, {"ppe", in.PPE}} {
		if x[1] == "" {
			continue
		}
		if len(p.spans) > 0 {
			p.spans = append(p.spans, span{text: "; ", style: cellText})
		}
		p.spans = append(p.spans, span{text: d.w.Label(x[0]) + ": ", style: cellGrey}, span{text: x[1], style: cellText})
	}
	return cell{p}
}

func (d *doc) upkeep() {
	list := d.r.File.Limits.Time.Upkeep
	if len(list) == 0 {
		return
	}
	d.subsection("upkeep")
	t := d.table(col{name: d.w.Label("id"), share: 24}, col{name: d.w.Label("every"), share: 24}, col{name: d.w.Label("what"), share: 124})
	t.tight = true
	for i := range list {
		t.put(of(list[i].ID, cellText), of(list[i].Every, cellText), of(list[i].What, cellText))
	}
}

func (d *doc) training() {
	list := d.r.File.Cell.People
	if len(list) == 0 {
		return
	}
	d.subsection("training")
	t := d.table(col{name: d.w.Label("who"), share: 24}, col{name: d.w.Label("training"), share: 58}, col{name: d.w.Label("present"), share: 40}, col{name: d.w.Label("what"), share: 50})
	t.tight = true
	for i := range list {
		p := &list[i]
		training := p.Training
		if strings.TrimSpace(training) == "" {
			training = d.w.Label("not_given")
		}
		t.put(of(p.ID, cellText), of(training, cellText), plainCell(p.Present), plainCell(p.Who))
	}
}

package pdf

import "standclear/hazards"

// stops sets the stopping times and distances that checks take, with the
// conditions under which they were taken.
func (d *doc) stops() {
	var list []hazards.Stop
	for _, s := range d.r.Stops() {
		if len(s.Checks) > 0 {
			list = append(list, s)
		}
	}
	if len(list) == 0 {
		return
	}
	d.subsection("stops")
	d.lead(d.w.Sentence("stops_intro"))
	l := d.w.Label
	t := d.table(col{name: l("stop"), share: 40}, col{name: l("stop_category"), share: 18, right: true}, col{name: l("stop_shares"), unit: "%", share: 30},
		col{name: l("stop_time"), unit: l("unit_time"), share: 16, right: true}, col{name: l("stop_distance"), unit: l("unit_length"), share: 18, right: true},
		col{name: l("stop_taken"), share: 50})
	for _, s := range list {
		name := s.Of
		if s.ID != s.Of {
			name += "." + s.ID
		}
		t.put(cell{one(name, cellText), d.factOrigin(d.r.Fact(s.Time))[0]}, of(s.Category, cellText), d.shares(s), d.used(s.Time), d.used(s.Distance),
			of(s.TakenBy(), cellText))
	}
}

// shares are load, speed and reach of a point; a machine has none.
func (d *doc) shares(s hazards.Stop) cell {
	var out []string
	for _, path := range []string{s.Load, s.Speed, s.Reach} {
		if f := d.r.Fact(path); f != nil && f.Used.Given() {
			out = append(out, number(f.Used.Num, downward))
		}
	}
	return of(joined(" · ", out...), cellText)
}

// used is a value of the cell at its worse end.
func (d *doc) used(path string) cell {
	f := d.r.Fact(path)
	if f == nil || !f.Used.Given() {
		return of(d.w.Label("no_value"), cellGrey)
	}
	return of(number(f.Used.Num, upward), cellText)
}

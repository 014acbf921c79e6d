package pdf

import (
	"standclear/hazards"
	"standclear/limits/sheet"
)

// ladders sets the permitted speeds by body region, of each robot for which the
// model gives any.
func (d *doc) ladders() {
	led := false
	for i := range d.r.Ladders {
		l := &d.r.Ladders[i]
		if !l.Speeds() {
			continue
		}
		if !led {
			d.subsection("ladder")
			d.lead(d.w.Sentence("ladder_intro"))
			led = true
		}
		d.ladder(l)
	}
}

func (d *doc) ladder(l *hazards.Ladder) {
	o := worked(l)
	w := d.w.Label
	d.put(one(w("ladder_of", l.Robot, figure(o, upward, "m_R"), l.MassOf, figure(o, downward, "A"), l.AreaOf), text))
	t := d.table(col{name: w("region"), share: 42}, col{name: w("speed_permitted"), unit: w("unit_speed"), share: 26, right: true},
		col{name: w("body_area"), share: 38}, col{name: w("note"), share: 66})
	for i := range l.Rungs {
		r := &l.Rungs[i]
		speed, area := figure(r.Outcome, downward, "v_max"), r.Area
		if speed == "" {
			speed, area = w("not_offered"), ""
		}
		t.put(of(r.Name, cellText), of(speed, cellText), of(area, cellText), of(joined("; ", r.Notes...), cellText))
	}
}

// worked is the first rung that the model speaks for.
func worked(l *hazards.Ladder) *sheet.Outcome {
	for i := range l.Rungs {
		if l.Rungs[i].Speed().Given() {
			return l.Rungs[i].Outcome
		}
	}
	return nil
}

// speeds sets the measured speeds of released tasks; nothing where there are none.
func (d *doc) speeds() {
	if len(d.r.Speeds) == 0 {
		return
	}
	d.subsection("speeds")
	d.lead(d.w.Sentence("speeds_intro"))
	w := d.w.Label
	t := d.table(col{name: w("task"), share: 50}, col{name: w("contact"), share: 60}, col{name: w("speed_measured"), unit: w("unit_speed"), share: 30, right: true},
		col{name: w("point"), share: 32})
	for _, s := range d.r.Speeds {
		t.put(of(s.Task, cellText), of(s.Contact, cellText), of(number(s.Speed, downward), cellText), of(s.Point, cellText))
	}
}

package hazards

import (
	"slices"
	"strings"

	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/quantity"
)

// sensing: what a distance takes for its safeguard is not milder than what the
// safeguard itself states, or than what is worked out for it.
func (d *distance) sensing() {
	for _, id := range d.safeguards(d.spec) {
		for _, own := range []struct{ input, key string }{{"d", "detection"}, {"Z", "supplement"}, {"Z_d", "supplement"}} {
			d.below(own.input, d.r.usedAt(id+"."+own.key), "`"+id+"."+own.key+"`")
		}
		d.height(id)
		if d.takes("Z_d") {
			d.intrusion(id)
		}
	}
}

// below: an input is not less than a value.
func (d *distance) below(name string, least expr.Value, of string) {
	v := d.value(name)
	if v == nil || d.tied(name) || !least.Given() || v.Value.Num >= least.Num || expr.Equal(v.Value.Num, least.Num) {
		return
	}
	d.milderThan(name, v, of+" is "+quantity.Format(least.Num, 6)+" mm")
}

// tied says whether an input is a value of a safeguard, so that it moves with it.
func (d *distance) tied(name string) bool {
	return slices.ContainsFunc(d.adds(d.spec, name).paths, func(path string) bool {
		id, _, _ := strings.Cut(path, ".")
		return d.kindOf(id) == "safeguard"
	})
}

func (d *distance) milderThan(name string, v *Input, what string) {
	d.say("DI-26", name, "input", name, "taken", quantity.Format(v.Value.Num, 6), "what", what)
}

// height: a field is not taken as higher than it is, nor an upper edge.
func (d *distance) height(id string) {
	for _, own := range []struct{ input, key string }{{"H", "height"}, {"b", "upper_edge"}} {
		v, most := d.value(own.input), d.r.usedAt(id+"."+own.key)
		if v != nil && !d.tied(own.input) && most.Given() && v.Value.Num > most.Num && !expr.Equal(v.Value.Num, most.Num) {
			d.milderThan(own.input, v, "`"+id+"."+own.key+"` is "+quantity.Format(most.Num, 6)+" mm")
		}
	}
}

// intrusion: the intrusion distance of speed and separation is the one that a
// distance of the same safeguard works out.
func (d *distance) intrusion(id string) {
	v := d.value("C")
	if v == nil {
		return
	}
	if by, ok := d.intrusions()[id]; ok {
		d.below("C", by.C, "the one that "+by.check+" works out for "+id)
	} else if d.detects(id) {
		d.milderThan("C", v, "no distance of "+id+" works it out")
	}
}

// worked is an intrusion distance and the check that works it out.
type worked struct {
	C     expr.Value
	check string
}

// intrusions are the greatest intrusion distances worked out, by safeguard.
func (f *finder) intrusions() map[string]worked {
	if f.intruded != nil {
		return f.intruded
	}
	f.intruded = map[string]worked{}
	for i := range f.r.Checks {
		c := &f.r.Checks[i]
		_, found, _, _ := f.r.File.Find(c.ID)
		spec, ok := found.(*file.Check)
		if !ok || c.Sheet.Group != "distance" || c.Sheet.Column("C") == nil || c.Sheet.Input("C") != nil || !c.Outcome.Value("C").Given() {
			continue
		}
		x := worked{c.Outcome.Value("C"), c.ID}
		for _, id := range f.safeguards(spec) {
			if by, there := f.intruded[id]; !there || x.C.Num > by.C.Num {
				f.intruded[id] = x
			}
		}
	}
	return f.intruded
}

// detects says whether a safeguard states what it detects.
func (d *distance) detects(id string) bool {
	_, found, _, _ := d.r.File.Find(id)
	g, ok := found.(*file.Safeguard)
	return ok && g.Detection.Set
}

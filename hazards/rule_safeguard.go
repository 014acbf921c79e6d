package hazards

import (
	"slices"
	"strings"

	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/quantity"
)

// guards are the safeguards that the inputs of a check point at, each once.
func (d *distance) guards() []*file.Safeguard {
	var list []*file.Safeguard
	for i := range d.spec.Given {
		for _, t := range d.spec.Given[i].Value.Terms {
			id, _, _ := strings.Cut(t.Path, ".")
			_, found, _, _ := d.r.File.Find(id)
			if g, ok := found.(*file.Safeguard); ok && !slices.Contains(list, g) {
				list = append(list, g)
			}
		}
	}
	return list
}

// fewBeams: few light beams have a reason.
func (d *distance) fewBeams() {
	n := d.c.Outcome.Value("n")
	if d.c.Sheet.ID != "light-beams" || !n.Given() || n.Num > d.w.value("DI-30", "few") {
		return
	}
	if slices.ContainsFunc(d.guards(), func(g *file.Safeguard) bool { return g.WhyFew != "" }) {
		return
	}
	d.say("DI-30", "beams", "beams", count(int(n.Num), "beam"))
}

// apart: the distances of one safeguard and one task are held against the same
// distance, that to the nearest point.
func (f *finder) apart(list []distance) {
	type place struct{ task, guard string }
	seen := map[place][]*distance{} // one for each distance and note
	for i := range list {
		d := &list[i]
		if !d.measured() {
			continue
		}
		said := false
		for _, g := range d.guards() {
			at := place{d.c.Task, g.ID}
			if o := d.unlike(seen[at]); o != nil && !said {
				said = true
				d.say("DI-31", "available", "safeguard", g.ID, "one", millimetres(d), "other", o.c.ID, "two", millimetres(o))
			}
			if !slices.ContainsFunc(seen[at], d.repeats) {
				seen[at] = append(seen[at], d)
			}
		}
	}
}

// unlike is the first of several that is held against another distance, unless
// each says in its note what it measures to.
func (d *distance) unlike(list []*distance) *distance {
	for _, o := range list {
		noted := d.spec.Note != "" && o.spec.Note != "" && d.spec.Note != o.spec.Note
		if !noted && !d.equals(o) {
			return o
		}
	}
	return nil
}

func (d *distance) repeats(o *distance) bool { return d.spec.Note == o.spec.Note && d.equals(o) }

func (d *distance) equals(o *distance) bool {
	return expr.Equal(d.value("available").Value.Num, o.value("available").Value.Num)
}

// measured says whether the check holds a stopping time against the distance
// from a safeguard to the hazard.
func (d *distance) measured() bool { return d.takes("T") && d.value("available") != nil }

func millimetres(d *distance) string {
	return quantity.Format(d.value("available").Value.Num, 6)
}

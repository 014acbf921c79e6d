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

// fewBeams: one or two light beams have a reason.
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
	for i := range list {
		d := &list[i]
		for j := range list[:i] {
			if g := d.differs(&list[j]); g != "" {
				d.say("DI-31", "available", "safeguard", g, "one", millimetres(d), "other", list[j].c.ID, "two", millimetres(&list[j]))
				break
			}
		}
	}
}

// differs names the safeguard from which two checks measure different distances.
func (d *distance) differs(o *distance) string {
	if d.c.Task != o.c.Task || !d.measured() || !o.measured() || expr.Equal(d.value("available").Value.Num, o.value("available").Value.Num) {
		return ""
	}
	if d.spec.Note != "" && o.spec.Note != "" && d.spec.Note != o.spec.Note {
		return "" // each says what it measures to
	}
	for _, g := range d.guards() {
		if slices.Contains(o.guards(), g) {
			return g.ID
		}
	}
	return ""
}

// measured says whether the check holds a stopping time against the distance
// from a safeguard to the hazard.
func (d *distance) measured() bool { return d.takes("T") && d.value("available") != nil }

func millimetres(d *distance) string {
	return quantity.Format(d.value("available").Value.Num, 6)
}

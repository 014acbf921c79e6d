package hazards

import (
	"standclear/hazards/file"
	"standclear/hazards/proof"
	"standclear/limits/quantity"
	"standclear/limits/sheet"
)

// points says how every validation point stands, and plans a measurement for
// each contact that rests on the model or goes beyond it.
func (w *work) points() {
	relied := w.relied()
	for i := range w.a.Validation {
		p := &w.a.Validation[i]
		w.r.Points = append(w.r.Points, w.point(p, relied[p.Of] || relied[p.ID]))
	}
	for i := range w.r.Contacts {
		c := &w.r.Contacts[i]
		if len(c.Spec.Spots) == 0 && c.Verdict != sheet.WithinModel && c.Verdict != sheet.Over {
			continue
		}
		for _, spot := range c.spots() { // no measurement at one point speaks for another
			if k := w.worstAt(c, spot); k != nil && (k.Verdict == sheet.WithinModel || k.Verdict == sheet.Over) {
				w.r.Points = append(w.r.Points, w.planned(c, k, relied[c.ID]))
			}
		}
	}
}

// relied lists what rows rest on whose risk is accepted, and their measures.
func (w *work) relied() map[string]bool {
	out := map[string]bool{}
	for i := range w.r.Rows {
		row := &w.r.Rows[i]
		if !row.Accepts() {
			continue
		}
		for _, id := range row.Rests {
			out[id] = true
		}
		for _, id := range row.Points {
			out[id] = true
		}
		for j := range row.Spec.Measures {
			out[row.Spec.Measures[j].ID] = true
		}
	}
	return out
}

// point judges a validation point of the file.
func (w *work) point(p *file.Point, relied bool) Point {
	out := Point{ID: p.ID, Of: p.Of, Spec: p, Method: p.Method, With: w.with(p)}
	c := w.r.Contact(p.Of)
	if c != nil && c.Worst < 0 {
		c = nil
	}
	switch {
	case c != nil && measured(p):
		w.judge(&out, c)
	case p.Checksum != "" && p.Outcome != "" && !w.released(p.Checksum):
		out.State, out.Why = PointOutOfDate, "tested with "+p.Checksum+", which is no released safety configuration"
	case p.Outcome == "met":
		out.State, out.Why = PointPassed, "outcome as intended"
	case p.Outcome == "not-met":
		out.State, out.Why = PointFailed, "outcome not as intended"
	default:
		out.open(relied)
	}
	if c != nil && p.Method == "force" {
		out.Limit = w.limit(&w.r.Checks[c.Worst])
	}
	return out
}

// open is the state of a point without an outcome.
func (p *Point) open(relied bool) {
	if relied {
		p.State, p.Why = PointMissing, "a row whose risk is accepted rests on it"
		return
	}
	p.State, p.Why = PointPlanned, "no outcome yet"
}

// judge holds a measurement against every check of its contact that counts.
func (w *work) judge(p *Point, c *Contact) {
	covers, n := 0, 0
	var nearest proof.Outcome // of those that do not cover, the one with the fewest differences
	m := ProofMeasured(w.r, p.Spec)
	for _, j := range append([]int{c.Worst}, c.Checks...) { // the worst check speaks first
		k := &w.r.Checks[j]
		if k.Shadow || n > 0 && j == c.Worst {
			continue
		}
		n++
		o := proof.Judge(ProofCase(w.r, k), m)
		switch {
		case o.Verdict == sheet.Over:
			p.State, p.Verdict, p.Why = PointFailed, sheet.Over, k.ID+": "+o.Why
			return
		case !o.Covers:
			if nearest.InWhat == nil || len(o.InWhat) < len(nearest.InWhat) {
				nearest = o
			}
			continue
		}
		covers++
		if o.Force == sheet.WithinMeasured || o.Pressure == sheet.WithinMeasured {
			p.Verdict, p.Why = o.Verdict, o.Why
		}
	}
	switch {
	case covers == 0:
		p.State, p.Why = PointOutOfDate, nearest.Why
	case p.Why == "":
		p.State, p.Why = PointPlanned, "the figures decide nothing"
	default:
		p.State = PointPassed
		if covers < n {
			p.Why += "; covers " + count(covers, "check") + " of " + count(n, "check")
		}
	}
}

// released tells whether a safety configuration of the cell has a checksum.
func (w *work) released(checksum string) bool {
	for i := range w.a.Cell.Robots {
		for _, s := range w.a.Cell.Robots[i].Settings {
			if s.Checksum == checksum {
				return true
			}
		}
	}
	return false
}

// planned is a measurement that the program asks for.
func (w *work) planned(c *Contact, k *Check, relied bool) Point {
	id := "V-" + c.ID
	if k.Spot != "" {
		id += "-" + k.Spot
	}
	p := Point{ID: w.freeID(id), Of: c.ID, Method: "force", Limit: w.limit(k), With: w.worst(c, k)}
	p.open(relied)
	if !relied {
		p.Why = "force and pressure are to be measured"
	}
	return p
}

// freeID gives an id that no item of the file has.
func (w *work) freeID(id string) string {
	for {
		if _, _, _, taken := w.a.Find(id); !taken {
			return id
		}
		id += "-plan"
	}
}

// limit says what a measurement of a check has to stay within, rounded down.
func (w *work) limit(c *Check) string {
	k := ProofCase(w.r, c)
	show := func(v float64, unit string) string { return quantity.Format(quantity.RoundDown(v, 1), 9) + " " + unit }
	force := show(k.ForcePeak, "N") + " up to 0.5 s and " + show(k.ForceSteady, "N") + " after it"
	pressure := k.PressurePeak
	if k.Clamped || k.Jaws {
		pressure = k.PressureSteady
	}
	if k.Jaws {
		force = show(k.ForceSteady, "N")
	}
	return "force at most " + force + ", pressure at most " + show(pressure, "N/cm2") + " (" + c.Area + ")"
}

// with says under which conditions a point was taken.
func (w *work) with(p *file.Point) string {
	var list []string
	if x := w.known[w.ix.PathOf(p.Speed)]; x != nil && x.ok {
		list = append(list, x.value.Text)
	}
	list = addOnce(list, p.Tool)
	list = addOnce(list, p.Part)
	if p.Spot != "" {
		list = append(list, "point "+p.Spot)
	}
	switch p.Clamped {
	case "yes":
		list = append(list, "held")
	case "no":
		list = append(list, "free")
	}
	list = addOnce(list, p.Pose)
	return commas(addOnce(list, p.Checksum))
}

// worst says under which conditions a contact is to be measured.
func (w *work) worst(c *Contact, k *Check) string {
	var list []string
	if v := inputOf(k, "v"); v != nil && k.Sheet.ID != jawSheet {
		list = append(list, "at least "+quantity.Format(quantity.RoundUp(v.Value.Num, 1), 9)+" mm/s")
	}
	list = addOnce(list, k.Tool)
	list = addOnce(list, k.Part)
	if k.Spot != "" {
		list = append(list, "point "+k.Spot)
	}
	list = addOnce(list, c.Spec.Spot(k.Spot).Pose)
	switch k.Sheet.ID {
	case clampedSheet:
		list = append(list, "held")
	case freeSheet:
		list = append(list, "free")
	}
	if k.Sheet.ID != jawSheet {
		for _, e := range limitsOf(w.ix, c.Spec.Spot(k.Spot).Speed) {
			list = append(list, "setting "+e.Item)
			list = addOnce(list, settingAt(w.a, e).Checksum)
		}
	}
	return commas(list)
}

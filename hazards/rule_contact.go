package hazards

import (
	"slices"

	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/source"
)

// contacts: what a contact has to answer before its checks mean anything.
func (f *finder) contacts() {
	for i := range f.r.Contacts {
		c := &f.r.Contacts[i]
		f.class(c)
		f.areasLeftOut(c)
		f.head(c)
		f.touches(c)
		f.missingInputs(c)
		f.variantsLeftOut(c)
		f.padding(c)
		f.spots(c)
	}
}

// class: clamped, free with its gap, or jaws.
func (f *finder) class(c *Contact) {
	switch {
	case c.Spec.Clamped == nil && c.Spec.Free == nil && c.Spec.Jaws == nil:
		f.raise("CO-03", c.ID, positionOf(c.Spec.Item), "contact", c.ID)
	case c.Spec.Free != nil && !c.Spec.Free.Gap.Set:
		f.raise("CO-01", c.ID, c.Spec.At("free"), "contact", c.ID)
	case c.Spec.Free != nil:
		f.gap(c)
	}
}

func (f *finder) gap(c *Contact) {
	gap := amountIn(f.r.File.Index(), c.Spec.Free.Gap, "mm", quantity.Quantity.Low)
	if gap == nil {
		return
	}
	region, least := "", 0.0
	for _, area := range c.Areas {
		g := regionOf(f.r.Library, area)
		if l := cellOf(f.r.Library, "contact-regions", g, "least_gap"); l > least {
			region, least = g, l
		}
	}
	if *gap < least && !expr.Equal(*gap, least) {
		f.raise("CO-02", c.ID, c.Spec.Free.At("gap"), "contact", c.ID, "gap", quantity.Format(*gap, 6), "region", region,
			"least", quantity.Format(least, 6))
	}
}

// areasLeftOut: single areas of a region stand in a contact only with a reason.
func (f *finder) areasLeftOut(c *Contact) {
	if c.Spec.Reason != "" {
		return
	}
	t := f.r.Library.Table("contact-areas")
	var said []string
	for _, listed := range c.Spec.Areas {
		region := regionOf(f.r.Library, listed)
		if t.Exact(listed) < 0 || region == "" || has(said, region) || has(c.Spec.Areas, region) {
			continue
		}
		said = append(said, region)
		var named []string
		out := 0
		for i := range t.Rows {
			switch area := t.RowKey(i); {
			case regionOf(f.r.Library, area) != region:
			case has(c.Spec.Areas, area):
				named = append(named, area)
			default:
				out++
			}
		}
		if out > 0 {
			f.raise("CO-04", c.ID, c.Spec.At("areas"), "contact", c.ID, "areas", few(named),
				"count", quantity.Format(float64(out), 6), "region", region)
		}
	}
}

// head: the answer whether a head can be reached, and areas never permitted.
func (f *finder) head(c *Contact) {
	switch h := c.Spec.Head; {
	case h == nil || h.Reach == "":
		f.raise("CO-05", c.ID, positionOf(c.Spec.Item), "contact", c.ID)
	case h.Reach == source.Yes:
		f.raise("CO-06", c.ID, h.At("reach"), "contact", c.ID)
	}
	t := f.r.Library.Table("contact-areas")
	var never []string
	for _, area := range c.Areas {
		row, col := t.Exact(area), t.Column("permitted")
		if row >= 0 && col >= 0 && t.Rows[row][col].Value.Text == "never" {
			never = append(never, area)
		}
	}
	if never != nil {
		f.raise("CO-14", c.ID, c.Spec.At("areas"), "contact", c.ID, "areas", few(never))
	}
}

// touches: edges, points and heat of what touches, and edges nobody has stated.
func (f *finder) touches(c *Contact) {
	var bad, unknown []string
	for _, k := range f.governing(c) {
		for _, name := range []string{"edges", "theta"} {
			if in := inputOf(k, name); in != nil {
				bad = addOnce(bad, f.badSpot(k, in))
				for _, t := range in.Terms {
					bad = addOnce(bad, f.badSurface(t.Path, k.Outcome.Value("theta_burn")))
				}
			}
		}
		for _, id := range []string{unlessNone(k.Tool), unlessNone(k.Part)} {
			if id != "" && f.edges(id) == "" && c.Spec.Spot(k.Spot).Edges == "" {
				unknown = addOnce(unknown, id)
			}
		}
	}
	if bad != nil {
		f.raise("CO-07", c.ID, positionOf(c.Spec.Item), "contact", c.ID, "what", few(bad))
	}
	if unknown != nil {
		f.raise("CO-15", c.ID, positionOf(c.Spec.Item), "contact", c.ID, "what", few(unknown))
	}
}

// badSurface words a fact that makes a surface one that may not touch, "" for
// any other.
func (f *finder) badSurface(path string, burn expr.Value) string {
	switch fact := f.r.Fact(path); {
	case fact == nil:
	case f.w.looksAt("CO-07", fact.Value.Text):
		return fact.Item + " (" + fact.Value.Text + ")"
	case fact.Key == "temperature" && burn.Given() && fact.Used.Given() && fact.Used.Num >= burn.Num:
		return fact.Item + " (" + quantity.Format(fact.Used.Num, 4) + " degC)"
	}
	return ""
}

func (f *finder) edges(id string) string {
	switch _, found, _, _ := f.r.File.Find(id); it := found.(type) {
	case *file.Tool:
		return it.Edges
	case *file.Part:
		return it.Edges
	}
	return ""
}

// missingInputs: what a check cannot do without.
func (f *finder) missingInputs(c *Contact) {
	at := positionOf(c.Spec.Item)
	if lacking(c.Spec, func(s *file.Spot) bool { return s.Area.Set }) {
		f.raise("CO-09", c.ID, at, "contact", c.ID)
	}
	if c.Class == Jaws {
		if f.greatestForce(c.Spec.Jaws.Tool) {
			return
		}
		f.raise("CO-11", c.ID, c.Spec.Jaws.At("tool"), "contact", c.ID, "tool", c.Spec.Jaws.Tool)
		return
	}
	if lacking(c.Spec, func(s *file.Spot) bool { return s.Speed.Set }) {
		f.raise("CO-10", c.ID, at, "contact", c.ID)
	}
	if c.Class == Clamped && !c.Spec.Push.Set {
		f.raise("CO-08", c.ID, at, "contact", c.ID)
	}
}

func (f *finder) greatestForce(tool string) bool {
	_, found, _, _ := f.r.File.Find(tool)
	t, ok := found.(*file.Tool)
	return ok && t.GreatestForce.Set
}

// variantsLeftOut: every tool and part of the task counts, or a reason says why not.
// Between jaws there is no other tool, and no part with the finger.
func (f *finder) variantsLeftOut(c *Contact) {
	_, found, _, _ := f.r.File.Find(c.Task)
	task, ok := found.(*file.Task)
	if !ok || c.Class == Jaws || c.Spec.WhyThese != "" {
		return
	}
	out := append(without(task.Tools, c.Tools), without(task.Parts, c.Parts)...)
	if len(out) == 0 {
		return
	}
	key := "tools"
	if !c.Spec.Has(key) {
		key = "parts"
	}
	f.raise("CO-12", c.ID, c.Spec.At(key), "contact", c.ID, "what", few(out), "task", task.ID)
}

func without(list, those []string) []string {
	return slices.DeleteFunc(slices.Clone(list), func(s string) bool { return has(those, s) })
}

// padding: pressed beyond its travel it counts no longer, by the impact or by the
// static push, as the sheets judge it.
func (f *finder) padding(c *Contact) {
	deepest, travel, at := 0.0, 0.0, c.Spec.At("padding")
	for _, k := range f.governing(c) {
		stiffness, s := inputOf(k, "k_pad"), inputOf(k, "s_pad")
		if stiffness == nil || s == nil {
			continue
		}
		force := k.Outcome.Value("F_peak").Num
		if push := inputOf(k, "F_hold"); push != nil {
			force = max(force, push.Value.Num)
		}
		depth := force / stiffness.Value.Num
		if depth > s.Value.Num && !expr.Equal(depth, s.Value.Num) && depth > deepest {
			deepest, travel, at = depth, s.Value.Num, s.Pos
		}
	}
	if deepest > 0 {
		f.raise("CO-13", c.ID, at, "contact", c.ID, "depth", quantity.Format(quantity.RoundUp(deepest, 0.1), 6),
			"travel", quantity.Format(travel, 6))
	}
}

package hazards

import (
	"cmp"
	"slices"
	"strings"

	"standclear/hazards/file"
	"standclear/hazards/proof"
	"standclear/limits/quantity"
	"standclear/limits/sheet"
	"standclear/limits/source"
)

// evidence: what a decision rests on is measured, and what is measured counts.
func (f *finder) evidence() {
	for i := range f.r.Rows {
		f.acceptedUnmeasured(&f.r.Rows[i])
	}
	for i := range f.r.File.Validation {
		f.measurement(&f.r.File.Validation[i])
	}
	for i := range f.r.Contacts {
		f.unsetLimits(&f.r.Contacts[i])
		f.borrowed(&f.r.Contacts[i])
	}
	f.settings()
}

// governing are the checks of a contact without those that only stand beside.
func (f *finder) governing(c *Contact) []*Check {
	var list []*Check
	for _, i := range c.Checks {
		if !f.r.Checks[i].Shadow {
			list = append(list, &f.r.Checks[i])
		}
	}
	return list
}

func (f *finder) acceptedUnmeasured(row *Row) {
	if !row.Accepts() {
		return
	}
	for _, id := range row.Rests {
		c := f.r.Contact(id)
		if c == nil {
			continue
		}
		open, all, which := 0, f.governing(c), []string(nil)
		for _, k := range all {
			if k.Verdict != sheet.WithinMeasured {
				open++
				which = addOnce(which, strings.TrimSuffix(k.Tool+"/"+k.Part+"/"+k.Spot, "/"))
			}
		}
		if open > 0 || len(all) == 0 {
			f.raise("EV-01", row.ID, row.Spec.Residual.At("decision"), "row", row.ID, "contact", id,
				"open", quantity.Format(float64(open), 6), "all", quantity.Format(float64(len(all)), 6), "which", few(which))
		}
	}
}

func (f *finder) measurement(p *file.Point) {
	c := f.r.Contact(p.Of)
	if c == nil || !measured(p) {
		return
	}
	m := ProofMeasured(f.r, p)
	var covered []*Check
	var nearest *proof.Outcome
	stiffer := ""
	for _, k := range f.governing(c) {
		o := proof.Judge(ProofCase(f.r, k), m)
		if o.Covers {
			covered = append(covered, k)
			stiffer = cmp.Or(stiffer, o.Stiffer)
		}
		if nearest == nil || len(o.InWhat) < len(nearest.InWhat) {
			nearest = &o
		}
	}
	switch {
	case nearest == nil:
	case len(covered) == 0:
		f.raise("EV-02", p.ID, p.Pos(), "point", p.ID, "contact", c.ID, "what", strings.Join(nearest.InWhat, "; "))
	default:
		f.half(p, c, m, covered)
	}
	if stiffer != "" {
		f.raise("EV-08", p.ID, p.Pos(), "point", p.ID, "contact", c.ID, "what", stiffer)
	}
	f.farFromModel(p, m, f.governing(c))
	f.record(p, c)
}

// half: one of force and pressure is missing, and no other point makes up for it.
func (f *finder) half(p *file.Point, c *Contact, m proof.Measured, covered []*Check) {
	noForce := m.Peak == nil && len(p.Runs) == 0
	if !noForce && m.Pressure != nil {
		return
	}
	for _, k := range covered {
		if f.together(c, k) != "" {
			continue
		}
		what := "no pressure was taken"
		if noForce {
			what = "no peak force was taken"
		}
		f.raise("EV-03", p.ID, p.Pos(), "point", p.ID, "contact", c.ID, "what", what)
		return
	}
}

// together is what all points of a contact say about one of its checks.
func (f *finder) together(c *Contact, k *Check) sheet.Verdict {
	if k.Verdict == sheet.WithinMeasured {
		return k.Verdict
	}
	var all []proof.Outcome
	for i := range f.r.File.Validation {
		if p := &f.r.File.Validation[i]; p.Of == c.ID && measured(p) {
			all = append(all, proof.Judge(ProofCase(f.r, k), ProofMeasured(f.r, p)))
		}
	}
	return proof.Together(all)
}

// farFromModel compares the peak with the model of the same tool and part at
// the speed of the test; force goes with speed in the model.
func (f *finder) farFromModel(p *file.Point, m proof.Measured, checks []*Check) {
	if m.Peak == nil || m.Speed == 0 || p.Note != "" {
		return
	}
	for _, k := range checks {
		v, model := inputOf(k, "v"), k.Outcome.Value("F_peak")
		same := unlessNone(k.Tool) == m.Tool && unlessNone(k.Part) == m.Part && k.Spot == m.Spot && (k.Sheet.ID == clampedSheet) == (m.Clamped == "yes") &&
			(m.Region == "" || m.Region == regionOf(f.r.Library, k.Area))
		if !same || v == nil || v.Value.Num == 0 || !model.Given() || model.Num == 0 {
			continue
		}
		expected := model.Num * m.Speed / v.Value.Num
		if off := *m.Peak/expected - 1; max(off, -off) > f.w.value("EV-07", "share") {
			f.raise("EV-07", p.ID, p.Pos(), "point", p.ID, "check", k.ID, "measured", quantity.Format(*m.Peak, 4),
				"model", quantity.Format(expected, 4))
		}
		return
	}
}

func (f *finder) record(p *file.Point, c *Contact) {
	var missing []string
	if p.Pose == "" {
		missing = append(missing, "the pose")
	}
	if p.Date == "" {
		missing = append(missing, "the date")
	}
	if missing != nil {
		f.raise("EV-09", p.ID, p.Pos(), "point", p.ID, "contact", c.ID, "what", and(missing))
	}
}

// unsetLimits: speed and push come from a safety configuration with a checksum.
func (f *finder) unsetLimits(c *Contact) {
	if c.Class == Jaws {
		return
	}
	for _, s := range speedsOf(c.Spec) {
		f.unset(c, "speed", s)
	}
	if c.Class == Clamped {
		f.unset(c, "push", c.Spec.Push)
	}
}

func (f *finder) unset(c *Contact, key string, a file.Amount) {
	if !a.Set {
		return
	}
	limits := limitsOf(f.r.File.Index(), a)
	how := ""
	if len(limits) == 0 {
		how = "stands in no safety configuration"
	}
	for _, e := range limits {
		if s := settingAt(f.r.File, e); s.Checksum == "" {
			how = "stands in `" + s.ID + "`, which has no checksum"
		}
	}
	if how != "" {
		f.raise("EV-04", c.ID, a.Pos(), "key", key, "contact", c.ID, "how", how)
	}
}

// borrowed: speed and push come from the safety configuration of the task.
func (f *finder) borrowed(c *Contact) {
	_, found, _, _ := f.r.File.Find(c.Task)
	task, ok := found.(*file.Task)
	if !ok || task.Setting == "" || c.Class == Jaws || c.Spec.WhySetting != "" {
		return
	}
	take := func(key string, a file.Amount) {
		if s := settingOf(f.r.File, a); s != nil && task.Setting != s.ID && !strings.HasSuffix(task.Setting, "."+s.ID) {
			f.raise("EV-10", c.ID, a.Pos(), "contact", c.ID, "key", key, "taken", s.ID, "task", task.ID, "setting", task.Setting)
		}
	}
	for _, a := range speedsOf(c.Spec) {
		take("speed", a)
	}
	take("push", c.Spec.Push)
}

// settings: those that are used have checksum, version and tolerances.
func (f *finder) settings() {
	named, limits := f.usedSettings()
	for i := range f.r.File.Cell.Robots {
		robot := &f.r.File.Cell.Robots[i]
		for j := range robot.Settings {
			if s := &robot.Settings[j]; slices.Contains(named, s.ID) || slices.Contains(named, robot.ID+"."+s.ID) {
				f.unnamed(s)
			}
		}
	}
	seen := map[string]bool{}
	for _, u := range limits {
		terms := u.entry.Amount.Terms
		if seen[u.entry.Path] || len(terms) != 1 || terms[0].Path != "" || terms[0].Quantity.Tol != nil {
			continue
		}
		seen[u.entry.Path] = true
		f.raise("EV-06", u.entry.Item, u.entry.Pos, "path", u.entry.Path, "contact", u.contact)
	}
}

type usedLimit struct {
	entry   *file.Entry
	contact string
}

// usedSettings lists the settings that tasks and contacts use, and the limits
// that contacts take from them.
func (f *finder) usedSettings() (named []string, limits []usedLimit) {
	for i := range f.r.File.Tasks {
		named = addOnce(named, f.r.File.Tasks[i].Setting)
	}
	for i := range f.r.File.Contacts {
		c := &f.r.File.Contacts[i]
		for _, a := range append(speedsOf(c), c.Push) {
			for _, e := range limitsOf(f.r.File.Index(), a) {
				named = addOnce(named, e.Item)
				limits = append(limits, usedLimit{e, c.ID})
			}
		}
	}
	return named, limits
}

func (f *finder) unnamed(s *file.Setting) {
	var missing []string
	if s.Checksum == "" {
		missing = append(missing, "checksum")
	}
	if s.Version == "" {
		missing = append(missing, "version")
	}
	if missing != nil {
		f.raise("EV-05", s.ID, positionOf(s.Item), "setting", s.ID, "what", and(missing))
	}
}

// positionOf is where the id of an item stands.
func positionOf(i source.Item) source.Pos { return i.At("id") }

package hazards

import (
	"slices"
	"strings"

	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/quantity"
)

// loads: the shares by which stop data are chosen, and the payload, follow from
// tools and parts.
func (f *finder) loads() {
	for i := range f.r.File.Tasks {
		t := &f.r.File.Tasks[i]
		f.loadShare(t)
		f.unlimited(t)
		f.payload(t)
	}
}

// heaviest is the heaviest tool of a task with what it carries, in kg at the upper
// end of tolerances; a camera or a screwdriver carries no part. ok is false where
// the task has no tools and parts, or a mass is not known.
func (f *finder) heaviest(t *file.Task) (kg float64, names []string, ok bool) {
	part, partKg, ok := f.heaviestPart(t.Parts)
	if !ok {
		return 0, nil, false
	}
	if len(t.Tools) == 0 && part != "" {
		return partKg, []string{part}, true
	}
	for _, id := range t.Tools {
		mass := f.r.usedAt(id + ".mass")
		if mass.Kind != expr.Number {
			return 0, nil, false
		}
		total, with := mass.Num, []string{id}
		if part != "" && f.carries(id) {
			total, with = total+partKg, append(with, part)
		}
		if names == nil || total > kg {
			kg, names = total, with
		}
	}
	return kg, names, names != nil
}

func (f *finder) heaviestPart(ids []string) (heaviest string, kg float64, known bool) {
	for _, id := range ids {
		mass := f.r.usedAt(id + ".mass")
		if mass.Kind != expr.Number {
			return "", 0, false
		}
		if heaviest == "" || mass.Num > kg {
			heaviest, kg = id, mass.Num
		}
	}
	return heaviest, kg, true
}

// carries says whether a tool is of a kind that carries parts.
func (f *finder) carries(tool string) bool {
	_, found, _, _ := f.r.File.Find(tool)
	t, ok := found.(*file.Tool)
	return ok && f.w.looksAt("DI-25", t.Kind)
}

// loadShare: the share of load of a task is not less than that of its heaviest
// tool and part.
func (f *finder) loadShare(t *file.Task) {
	share := f.r.usedAt(f.r.File.Index().PathOf(t.Load))
	kg, names, ok := f.heaviest(t)
	if !share.Given() || !ok {
		return
	}
	for _, id := range robotsOf(f.r.File, t) {
		rated := f.r.usedAt(id + ".rated_payload")
		what := "the rated payload of " + id + " is not stated"
		if rated.Given() {
			if kg <= share.Num/100*rated.Num || expr.Equal(kg, share.Num/100*rated.Num) {
				continue
			}
			what = and(names) + " weigh " + quantity.Format(kg, 6) + " kg, more than " + quantity.Format(share.Num, 6) + " % of " + quantity.Format(rated.Num, 6) + " kg"
		}
		f.raise("DI-25", t.ID, t.At("load"), "task", t.ID, "what", what)
	}
}

// unlimited: a share of speed stands on a limit that the task is released with.
func (f *finder) unlimited(t *file.Task) {
	share := f.r.usedAt(f.r.File.Index().PathOf(t.Speed))
	if !share.Given() || share.Num >= 100 || f.limitOf(t) != nil || !f.drawsGrid(t.ID) {
		return
	}
	f.raise("DI-28", t.ID, t.At("speed"), "about", "the share of speed of "+t.ID, "what", "the task has no setting that limits the speed of the tool")
}

// drawsGrid says whether a check of a task looks up a stopping grid.
func (f *finder) drawsGrid(task string) bool {
	return slices.ContainsFunc(f.r.File.Checks, func(c file.Check) bool {
		return c.Task == task && slices.ContainsFunc(f.adds(&c).paths, func(p string) bool { return (file.Term{Path: p}).IsGrid() })
	})
}

// slower: the speed of the robot in a check is not below the limit that the task
// is released with.
func (d *distance) slower() {
	_, found, _, _ := d.r.File.Find(d.c.Task)
	task, ok := found.(*file.Task)
	if !ok {
		return
	}
	limit := d.limitOf(task)
	for _, name := range []string{"v_r", "v"} {
		v := d.value(name)
		if limit == nil || v == nil || v.Value.Num >= *limit || expr.Equal(v.Value.Num, *limit) {
			continue
		}
		d.say("DI-28", name, "about", name+" of "+d.c.ID, "what",
			quantity.Format(v.Value.Num, 6)+" mm/s is less than the limit of its setting, "+quantity.Format(*limit, 6)+" mm/s")
	}
}

// payload: the heaviest tool and part of a task are looked at by a payload check
// of one of its robots.
func (f *finder) payload(t *file.Task) {
	kg, names, ok := f.heaviest(t)
	robots := robotsOf(f.r.File, t)
	if !ok || !slices.ContainsFunc(robots, func(id string) bool { return f.r.usedAt(id + ".rated_payload").Given() }) {
		return
	}
	most, any := 0.0, false
	for i := range f.r.Checks {
		c := &f.r.Checks[i]
		total := expr.Value{}
		if c.Sheet.ID == payloadSheet && f.ratedBy(c, robots) {
			total = c.Outcome.Value("total")
		}
		if total.Given() {
			most, any = max(most, total.Num), true
		}
	}
	if any && (most >= kg || expr.Equal(most, kg)) {
		return
	}
	what := "no payload check of " + or(robots) + " is written"
	if any {
		what = "payload checks of " + or(robots) + " go up to " + quantity.Format(most, 6) + " kg"
	}
	f.raise("LI-20", t.ID, positionOf(t.Item), "task", t.ID, "what", and(names)+" weigh "+quantity.Format(kg, 6)+" kg and "+what)
}

const payloadSheet = "payload"

// ratedBy says whether a payload check is about one of the robots: by the rated
// payload that it takes, or by its task where that is typed in.
func (f *finder) ratedBy(c *Check, robots []string) bool {
	rated := inputOf(c, "rated")
	if rated == nil {
		return false
	}
	for _, term := range rated.Terms {
		if term.Path != "" {
			id, _, _ := strings.Cut(term.Path, ".")
			return has(robots, id)
		}
	}
	_, found, _, _ := f.r.File.Find(c.Task)
	task, ok := found.(*file.Task)
	return ok && slices.ContainsFunc(robotsOf(f.r.File, task), func(id string) bool { return has(robots, id) })
}

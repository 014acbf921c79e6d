package hazards

import (
	"slices"
	"strings"

	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/source"
	"standclear/limits/stopping"
)

// timeInputs are the inputs that add up to the overall stopping time: T, or for
// speed and separation the reaction and the stop apart.
var timeInputs = []string{"T", "T_r", "T_s"}

// adds is what an input of a check adds up.
type adds struct {
	paths []string // with those that they lead on to
	terms int
	typed bool // a number is typed in
}

// adds follows inputs of a check as written.
func (f *finder) adds(spec *file.Check, names ...string) adds {
	var a adds
	for i := range spec.Given {
		e := &spec.Given[i]
		if names != nil && !has(names, e.Key) {
			continue
		}
		for _, t := range e.Value.Terms {
			a.terms++
			if t.Path == "" {
				a.typed = true
				continue
			}
			a.paths = append(a.paths, f.r.follow(t.Path)...)
		}
	}
	return a
}

// stops lists the robots and machines whose stop is among what is added up.
func (f *finder) stops(a adds) (ids []string) {
	for _, path := range a.paths {
		ids = addOnce(ids, f.r.stopsOf(path))
	}
	return ids
}

// safeguards are those whose values a check takes, itself or by a result of
// another check.
func (f *finder) safeguards(spec *file.Check) (ids []string) {
	for _, path := range f.adds(spec).paths {
		id, _, _ := strings.Cut(path, ".")
		switch _, found, _, _ := f.r.File.Find(id); x := found.(type) {
		case *file.Safeguard:
			ids = addOnce(ids, id)
		case *file.Check: // loading has refused circles
			for _, behind := range f.safeguards(x) {
				ids = addOnce(ids, behind)
			}
		}
	}
	return ids
}

// stopped lists what a function stops: what it names, and robots and machines
// among its parts.
func (f *finder) stopped(fn *file.Function) []string {
	ids := slices.Clone(fn.Stops)
	for i := range fn.Parts {
		if kind := f.kindOf(fn.Parts[i].Uses); kind == "robot" || kind == "machine" {
			ids = addOnce(ids, fn.Parts[i].Uses)
		}
	}
	return ids
}

// times: what a stopping time adds up, for the safeguard that it belongs to.
func (d *distance) times() {
	if !slices.ContainsFunc(timeInputs, d.takes) {
		return
	}
	sum, guards := d.adds(d.spec, timeInputs...), d.safeguards(d.spec)
	d.noStop()
	d.leftOut(sum, guards)
	d.otherStop(sum, guards)
	d.milder()
	d.noDistance()
}

// stopInput is the input that has to hold the stop.
func (d *distance) stopInput() string {
	if d.takes("T_s") {
		return "T_s"
	}
	return "T"
}

// noStop: the stop of what moves is part of the sum.
func (d *distance) noStop() {
	name := d.stopInput()
	sum := d.adds(d.spec, name)
	if sum.terms == 0 || sum.typed || d.stops(sum) != nil {
		return
	}
	for _, path := range sum.paths {
		e, ok := d.r.File.Index().Entry(path)
		if !ok || e.Key != "response" && e.Key != "input_response" {
			return // a result or a time of another kind
		}
	}
	d.say("DI-20", name, "input", name)
}

// leftOut: response times of the safeguard and of the robot are part of the sum.
// A single term, and numbers alone, are another finding.
func (d *distance) leftOut(sum adds, guards []string) {
	if sum.terms < 2 || sum.paths == nil {
		return
	}
	typed := sum.typed
	for _, id := range guards {
		_, found, _, _ := d.r.File.Find(id)
		g := found.(*file.Safeguard)
		if !d.w.looksAt("DI-21", g.Kind) {
			continue
		}
		switch path := id + ".response"; {
		case g.Response.Set && !has(sum.paths, path):
			d.say("DI-21", "T", "what", "does not add `"+path+"`")
		case !g.Response.Set && !typed:
			d.say("DI-21", "T", "what", "cannot add the response time of "+id+", which is not written")
		}
	}
	if guards == nil && d.cellSenses() && (d.takes("T_r") || !typed) {
		d.say("DI-21", "T", "what", "takes no value of the safeguard that sees the person")
	}
	for _, id := range d.stops(sum) {
		_, found, _, _ := d.r.File.Find(id)
		if r, ok := found.(*file.Robot); ok && r.InputResponse.Set && !has(sum.paths, id+".input_response") && !typed {
			d.say("DI-21", "T", "what", "does not add `"+id+".input_response`")
		}
	}
}

// cellSenses says whether a safeguard of the cell sees people.
func (f *finder) cellSenses() bool {
	return slices.ContainsFunc(f.r.File.Cell.Safeguards, func(g file.Safeguard) bool { return f.w.looksAt("DI-21", g.Kind) })
}

// otherStop: the stop is that of something which the safeguard stops.
func (d *distance) otherStop(sum adds, guards []string) {
	var stopped, foreign []string
	for i := range d.r.File.Cell.Functions {
		fn := &d.r.File.Cell.Functions[i]
		if slices.ContainsFunc(fn.Parts, func(p file.FunctionPart) bool { return has(guards, p.Uses) }) {
			for _, id := range d.stopped(fn) {
				stopped = addOnce(stopped, id)
			}
		}
	}
	for _, id := range d.stops(sum) {
		if !has(stopped, id) {
			foreign = append(foreign, id)
		}
	}
	if stopped != nil && foreign != nil {
		d.say("DI-22", d.stopInput(), "taken", and(foreign), "safeguard", and(guards), "stopped", and(stopped))
	}
}

// uncovered: whatever a safeguard stops, a distance of it takes its stop.
func (f *finder) uncovered() {
	covered, typed := map[string][]string{}, map[string]bool{} // by safeguard that a distance names
	for i := range f.r.Checks {
		c := &f.r.Checks[i]
		_, found, _, _ := f.r.File.Find(c.ID)
		spec, ok := found.(*file.Check)
		if !ok || c.Sheet.Group != "distance" {
			continue
		}
		sum := f.adds(spec, timeInputs...)
		if sum.terms == 0 {
			continue
		}
		for _, id := range f.safeguards(spec) {
			typed[id] = typed[id] || sum.typed
			covered[id] = append(covered[id], f.stops(sum)...)
		}
	}
	for i := range f.r.File.Cell.Functions {
		fn := &f.r.File.Cell.Functions[i]
		for k := range fn.Parts {
			guard := fn.Parts[k].Uses
			taken, named := covered[guard]
			if !named {
				continue
			}
			for _, id := range f.stopped(fn) {
				if !has(taken, id) && !(typed[guard] && !f.statesStop(id)) {
					f.raise("DI-23", fn.ID, positionOf(fn.Item), "function", fn.ID, "stopped", id, "safeguard", guard)
				}
			}
		}
	}
}

// statesStop says whether stopping times of a robot or machine are written.
func (f *finder) statesStop(id string) bool {
	_, found, _, _ := f.r.File.Find(id)
	switch x := found.(type) {
	case *file.Robot:
		return len(x.Stopping) > 0
	case *file.Machine:
		return x.StoppingTime.Set
	}
	return false
}

// milder: a point of a grid that is named by its path is not milder than the one
// that governs for the task.
func (d *distance) milder() {
	_, found, _, _ := d.r.File.Find(d.c.Task)
	task, _ := found.(*file.Task)
	for i := range d.spec.Given {
		name := d.spec.Given[i].Key
		for _, path := range d.adds(d.spec, name).paths {
			_, key, robot := d.point(path)
			if robot == nil {
				continue
			}
			point := d.pointOf(path)
			category := point.Category
			if d.spec.StopCategory != "" {
				category = d.spec.StopCategory
			}
			want, _ := d.r.stopCase(task, category)
			points, paths := d.r.stopGrid(robot, key)
			what := "no point of the grid covers category " + category + ", load " + percent(want.Load) + ", speed " + percent(want.Speed) + ", reach " + percent(want.Reach)
			if next, ok := stopping.Next(points, want); ok {
				if point.Category == category && d.r.usedAt(path).Num >= points[next].Value {
					continue
				}
				what = "`" + paths[next] + "` governs for category " + category + ", load " + percent(want.Load) + ", speed " + percent(want.Speed) + ", reach " + percent(want.Reach)
			}
			d.say("DI-24", name, "point", path, "what", what)
		}
	}
}

// point takes the path of a value in a stopping grid apart; robot is nil where it
// is none.
func (f *finder) point(path string) (id, key string, robot *file.Robot) {
	e, ok := f.r.File.Index().Entry(path)
	if !ok || e.Kind != "stopping" || e.Key != "time" && e.Key != "distance" {
		return "", "", nil
	}
	_, found, _, _ := f.r.File.Find(f.r.stopsOf(path))
	robot, _ = found.(*file.Robot)
	return e.Item, e.Key, robot
}

func (f *finder) pointOf(path string) *file.Stopping {
	id, _, _ := f.point(path)
	_, found, _, _ := f.r.File.Find(id)
	p, _ := found.(*file.Stopping)
	return p
}

// takenAt is the speed at which the stopping time was taken: the one that is
// given, or that of the point in the grid where it is less.
func (d *distance) takenAt() expr.Value {
	var at expr.Value
	if v := d.value("v_ref"); v != nil {
		at = v.Value
	}
	v := d.value("T_s")
	if v == nil {
		return at
	}
	for _, t := range v.Terms {
		id, _, robot := d.point(t.Path)
		if robot == nil {
			continue
		}
		share, top := d.r.usedAt(robot.ID+"."+id+".speed"), d.r.usedAt(robot.ID+".greatest_speed")
		if speed := share.Num / 100 * top.Num; share.Given() && top.Given() && (!at.Given() || speed < at.Num) {
			at = expr.Value{Kind: expr.Number, Num: speed}
		}
	}
	return at
}

// noDistance: a stopping distance comes from the point that gives the time.
func (d *distance) noDistance() {
	g := d.given("S_s")
	if g == nil || d.spec.StopCategory == "" {
		return
	}
	_, found, _, _ := d.r.File.Find(d.c.Task)
	task, _ := found.(*file.Task)
	want, _ := d.r.stopCase(task, d.spec.StopCategory)
	for _, t := range g.Terms {
		_, found, _, _ := d.r.File.Find(d.r.stopsOf(t.Path))
		robot, ok := found.(*file.Robot)
		if !ok || !t.IsGrid() {
			continue
		}
		points, paths := d.r.stopGrid(robot, "time")
		if i, ok := stopping.Next(points, want); ok && !d.pointOf(paths[i]).Distance.Set {
			id, _, _ := d.point(paths[i])
			d.say("DI-27", "S_s", "what", d.c.ID+" draws its stopping distance from the grid of "+robot.ID+", and "+id+", the point that governs, states none")
		}
	}
}

// grids: what is worse in load, speed and reach does not stop sooner.
func (f *finder) grids() {
	for i := range f.r.File.Cell.Robots {
		robot := &f.r.File.Cell.Robots[i]
		for _, key := range []string{"time", "distance"} {
			points, paths := f.r.stopGrid(robot, key)
			for k, worse := range points {
				for j, milder := range points {
					if !worse.Worse(milder) || worse.Value >= milder.Value {
						continue
					}
					p := f.pointOf(paths[k])
					f.raise("DI-27", p.ID, positionOf(p.Item), "what", p.ID+" of "+robot.ID+" is worse than "+f.pointOf(paths[j]).ID+
						" in load, speed and reach, and its "+key+" is shorter, "+f.figure(paths[k])+" against "+f.figure(paths[j]))
					break
				}
			}
		}
	}
}

// figure is a value of the cell with its unit.
func (f *finder) figure(path string) string {
	x := f.r.Fact(path)
	return quantity.Format(x.Used.Num, 6) + " " + x.Unit
}

// machineWear: where the stopping time of a machine is used, something finds that it has
// become longer.
func (f *finder) machineWear() {
	for i := range f.r.File.Cell.Machines {
		m := &f.r.File.Cell.Machines[i]
		what := unwatched(m.StoppingMonitored, m.BrakeCheck, "nobody has said whether anything watches its stop",
			"neither the machine nor an upkeep item finds that its stop has become longer")
		if what != "" && f.usesStop(m.ID) {
			f.raise("DI-29", m.ID, positionOf(m.Item), "machine", m.ID, "what", what)
		}
	}
}

// unwatched says that wear is not watched, by the device itself or by an upkeep
// item; "" where it is.
func unwatched(itself source.YesNo, check, silent, none string) string {
	switch {
	case itself == source.Yes || itself == source.No && check != "":
		return ""
	case itself == source.No:
		return none
	}
	return silent
}

// usesStop says whether a check takes the stop of a robot or machine.
func (f *finder) usesStop(id string) bool {
	for i := range f.r.File.Checks {
		if has(f.stops(f.adds(&f.r.File.Checks[i])), id) {
			return true
		}
	}
	return false
}

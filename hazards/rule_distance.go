package hazards

import (
	"strings"
	"unicode"

	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/source"
)

// distances: what a distance has to answer before it decides anything.
func (f *finder) distances() {
	over := f.reachOvers()
	var list []distance
	for i := range f.r.Checks {
		c := &f.r.Checks[i]
		_, found, _, _ := f.r.File.Find(c.ID)
		spec, ok := found.(*file.Check)
		if !ok || c.Sheet.Group != "distance" {
			continue
		}
		d := distance{f, c, spec, over[c.Task]}
		d.available()
		d.curtain()
		d.field()
		d.startsCycle()
		d.stoppingTime()
		d.stopData()
		d.separation()
		d.heights()
		d.compared()
		d.guard()
		d.fewBeams()
		list = append(list, d)
		d.times()
		d.sensing()
		d.slower()
	}
	f.apart(list)
	f.speedShares()
	f.brakes()
	f.uncovered()
	f.grids()
	f.machineWear()
	f.loads()
}

// distance is one check of a distance.
type distance struct {
	*finder
	c    *Check
	spec *file.Check
	over []*Check // what works out reaching over for its task
}

// reachOvers are the checks of reaching over by task.
func (f *finder) reachOvers() map[string][]*Check {
	out := map[string][]*Check{}
	for i := range f.r.Checks {
		if c := &f.r.Checks[i]; c.Sheet.ID == "reach-over" {
			out[c.Task] = append(out[c.Task], c)
		}
	}
	return out
}

func (d *distance) say(id, key string, fill ...string) {
	pos := positionOf(d.spec.Item)
	if g := d.given(key); g != nil {
		pos = g.Pos()
	}
	d.raise(id, d.c.ID, pos, append([]string{"check", d.c.ID}, fill...)...)
}

// given is an input as written, nil where it is not.
func (d *distance) given(name string) *file.Given {
	for i := range d.spec.Given {
		if d.spec.Given[i].Key == name {
			return &d.spec.Given[i].Value
		}
	}
	return nil
}

// takes says whether the sheet has an input.
func (d *distance) takes(name string) bool { return d.c.Sheet.Input(name) != nil }

// asks says whether the sheet has an input that is not written. What is written
// and leads to no value is another matter.
func (d *distance) asks(name string) bool { return d.takes(name) && d.given(name) == nil }

// value is what an input got, nil where it has no value.
func (d *distance) value(name string) *Input {
	if col := d.c.Sheet.Input(name); col != nil {
		return inputOf(d.c, col.Name)
	}
	return nil
}

// result is a number of the outcome, 0 where there is none.
func (d *distance) result(name string) float64 { return d.c.Outcome.Value(name).Num }

func (d *distance) available() {
	if d.asks("available") {
		d.say("DI-01", "")
	}
}

// curtain: reaching over, reaching under, standing behind.
func (d *distance) curtain() {
	if d.asks("C_RO") && (!d.takes("D_DO") || d.asks("D_DO")) {
		d.say("DI-02", "")
	}
	d.answer("DI-03", "under", "reaching under is not answered", "it can be reached under")
	behind := "standing behind is not answered"
	if d.isField() { // it goes up to the hazard as a rule, so that only a yes counts
		behind = ""
	}
	d.answer("DI-04", "behind", behind, "a person can stand behind it unseen")
	d.copied()
}

// copied: the supplement taken is not less than the one worked out for the task.
func (d *distance) copied() {
	taken := d.value("C_RO")
	if taken == nil || d.c.Sheet.ID == "reach-over" {
		return
	}
	for _, o := range d.over {
		if worked := o.Outcome.Value("C_RO"); worked.Given() && taken.Value.Num < worked.Num {
			d.say("DI-16", "C_RO", "taken", quantity.Format(taken.Value.Num, 6), "other", o.ID, "worked", quantity.Format(worked.Num, 6))
		}
	}
}

// answer: a question of yes and no is answered, and by no. open is what is said
// where it is not answered, "" where that is no finding.
func (d *distance) answer(id, name, open, yes string) {
	switch v := d.value(name); {
	case d.asks(name) && open != "":
		d.say(id, "", "what", open)
	case v != nil && v.Text == string(source.Yes):
		d.say(id, name, "what", yes)
	}
}

// isField says whether the check is one of a horizontal field.
func (d *distance) isField() bool { return d.c.Sheet.ID == "parallel-field" }

// field: supplement, height, crawling and the gap behind a horizontal field.
func (d *distance) field() {
	if !d.isField() {
		return
	}
	if gap := d.value("gap"); gap != nil && gap.Value.Num > d.result("gap_most") && !expr.Equal(gap.Value.Num, d.result("gap_most")) {
		d.say("DI-04", "gap", "what", "the gap behind it is wide enough to stand in unseen")
	}
	if d.asks("Z") {
		d.say("DI-05", "")
	}
	height := d.value("H")
	if height == nil {
		return
	}
	h := quantity.Format(height.Value.Num, 6)
	if detection := d.value("d"); detection != nil && height.Value.Num < d.result("H_min") {
		d.say("DI-06", "H", "height", h, "detection", quantity.Format(detection.Value.Num, 6),
			"least", quantity.Format(quantity.RoundUp(d.result("H_min"), 1), 6))
	}
	switch crawl, most := d.value("crawl"), d.result("H_crawl"); {
	case crawl != nil && crawl.Text == string(source.Yes):
		d.say("DI-07", "crawl", "height", h, "what", "a person can crawl beneath it")
	case d.asks("crawl") && height.Value.Num > most:
		d.say("DI-07", "H", "height", h, "what", "above "+quantity.Format(most, 6)+" mm crawling beneath has to be answered")
	}
}

// startsCycle: a curtain whose clearing starts the cycle.
func (d *distance) startsCycle() {
	if d.c.Sheet.ID != "light-curtain" {
		return
	}
	guard := d.startingGuard()
	if guard == "" {
		return
	}
	limit := func(name string) float64 { return d.w.value("DI-08", name) }
	least := limit("distance")
	detection := d.value("d")
	if detection != nil && detection.Value.Num <= limit("fine_detection") {
		least = limit("fine_distance")
	}
	var what []string
	if detection == nil || detection.Value.Num > limit("detection") {
		what = append(what, "does not detect "+quantity.Format(limit("detection"), 6)+" mm or less")
	}
	at := d.result("S")
	if a := d.value("available"); a != nil {
		at = a.Value.Num
	}
	if at < least {
		what = append(what, "stands at "+quantity.Format(at, 6)+" mm, less than "+quantity.Format(least, 6)+" mm")
	}
	if what != nil {
		d.say("DI-08", "d", "safeguard", guard, "what", and(what))
	}
}

// startingGuard is the safeguard that the check points at and that starts the cycle.
func (d *distance) startingGuard() string {
	for _, g := range d.guards() {
		if g.StartsCycle == source.Yes {
			return g.ID
		}
	}
	return ""
}

// stoppingTime: T adds up named parts.
func (d *distance) stoppingTime() {
	g := d.given("T")
	if g == nil || !d.takes("T") || len(g.Terms) == 0 {
		return
	}
	named := false
	for _, t := range g.Terms {
		named = named || t.Path != ""
	}
	if len(g.Terms) > 1 && named || len(g.Terms) == 1 && named && d.isSum(g.Terms[0].Path) {
		return
	}
	d.say("DI-09", "T", "input", "T", "written", words(g.Terms))
}

// isSum says whether a value of the file adds up parts itself.
func (d *distance) isSum(path string) bool {
	e, ok := d.r.File.Index().Entry(path)
	return ok && len(e.Amount.Terms) > 1
}

// stopData: a look-up in a stopping grid that found no point.
func (d *distance) stopData() {
	for i := range d.spec.Given {
		key, g := d.spec.Given[i].Key, &d.spec.Given[i].Value
		for _, t := range g.Terms {
			if t.IsGrid() && d.value(key) == nil {
				robot, _, _ := strings.Cut(t.Path, ".")
				what := "look at stop category, load, speed and reach of the task"
				if len(d.c.lacks) > 0 {
					what = d.c.lacks[0]
				}
				d.say("DI-10", key, "robot", robot, "what", what)
				return
			}
		}
	}
}

// separation: speed of people, stopping distance and reference speed.
func (d *distance) separation() {
	if v := d.value("v_h"); v != nil && v.Value.Num < d.result("K_walk") && !d.namesFunction() {
		d.say("DI-11", "v_h", "speed", quantity.Format(v.Value.Num, 6))
	}
	if d.asks("S_s") {
		d.say("DI-12", "")
	}
	if v := d.takenAt(); v.Given() && d.result("v_max") > v.Num && !expr.Equal(d.result("v_max"), v.Num) {
		d.say("DI-13", "v_ref", "speed", quantity.Format(quantity.RoundDown(d.result("v_max"), 1), 6),
			"reference", quantity.Format(v.Num, 6))
	}
}

// namesFunction says whether the note names, by its id, a safety function of a
// kind that can see how fast people move.
func (d *distance) namesFunction() bool {
	for _, word := range strings.FieldsFunc(d.spec.Note, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '-' }) {
		_, found, _, _ := d.r.File.Find(word)
		if fn, ok := found.(*file.Function); ok && (fn.Kind == "" || d.w.looksAt("DI-11", fn.Kind)) {
			return true
		}
	}
	return false
}

// heights: a range for reaching over.
func (d *distance) heights() {
	if _, ok := d.c.Sheet.Ranges["a"]; ok {
		if g := d.given("a"); g != nil && (g.Range == nil || g.Range[0].Canonical() == g.Range[1].Canonical()) {
			d.say("DI-14", "a", "height", g.Text)
		}
	}
}

// compared: a permitted speed is held against the speed the robot is set to.
func (d *distance) compared() {
	if d.c.Sheet.ID == "ssm-speed" && d.takes("v") && d.given("v") == nil {
		d.say("DI-18", "")
	}
}

// speedShares: the share of speed of a task, by which stop data are chosen, is
// not less than the share of the limit that the task is released with.
func (f *finder) speedShares() {
	ix := f.r.File.Index()
	for i := range f.r.File.Tasks {
		t := &f.r.File.Tasks[i]
		share, robot, limit := amountIn(ix, t.Speed, "%", nil), f.robotOf(t), f.limitOf(t)
		if share == nil || robot == nil || limit == nil {
			continue
		}
		what := "the greatest speed of " + robot.ID + " is not stated"
		if top := amountIn(ix, robot.GreatestSpeed, "mm/s", quantity.Quantity.Low); top != nil {
			if *limit <= *share/100**top || expr.Equal(*limit, *share/100**top) {
				continue
			}
			what = quantity.Format(*limit, 6) + " mm/s is more than " + quantity.Format(*share, 6) + " % of " + quantity.Format(*top, 6) + " mm/s"
		}
		f.raise("DI-17", t.ID, t.At("speed"), "task", t.ID, "setting", t.Setting, "what", what)
	}
}

func (f *finder) robotOf(t *file.Task) *file.Robot {
	id, _, _ := strings.Cut(t.Setting, ".")
	_, found, _, _ := f.r.File.Find(id)
	r, _ := found.(*file.Robot)
	return r
}

// limitOf is the speed limit that a task is released with, its tolerance
// included; nil where it has none.
func (f *finder) limitOf(t *file.Task) *float64 {
	if x := f.r.Fact(t.Setting + ".tcp_speed"); x != nil && x.Used.Given() {
		return &x.Used.Num
	}
	return nil
}

// brakes: where a stopping grid is used, something finds worn brakes.
func (f *finder) brakes() {
	for i := range f.r.File.Cell.Robots {
		robot := &f.r.File.Cell.Robots[i]
		what := unwatched(robot.BrakesMonitored, robot.BrakeCheck, "nobody has said whether the robot finds worn brakes",
			"neither the robot nor an upkeep item finds worn brakes")
		if what != "" && f.usesStop(robot.ID) {
			f.raise("DI-15", robot.ID, positionOf(robot.Item), "robot", robot.ID, "what", what)
		}
	}
}

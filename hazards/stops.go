package hazards

import (
	"slices"
	"strings"

	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/stopping"
)

// stopCase is what a task asks of stop data: its load, speed and reach, at the
// upper end of their tolerance. A share that is not stated counts in full. The
// paths are those of the shares that are stated.
func (r *Result) stopCase(task *file.Task, category string) (c stopping.Case, paths []string) {
	c = stopping.Case{Category: category, Load: 1, Speed: 1, Reach: 1}
	if task == nil {
		return c, nil
	}
	for _, s := range []struct {
		of    file.Amount
		share *float64
	}{{task.Load, &c.Load}, {task.Speed, &c.Speed}, {task.Reach, &c.Reach}} {
		if path := r.File.Index().PathOf(s.of); r.usedAt(path).Given() {
			*s.share, paths = r.usedAt(path).Num/100, append(paths, path)
		}
	}
	return c, paths
}

// usedAt is the value of a fact at its worse end, absent where there is none.
func (r *Result) usedAt(path string) expr.Value {
	if x := r.Fact(path); x != nil {
		return x.Used
	}
	return expr.Value{}
}

// stopGrid lists the points of a robot that state what is asked for, time or
// distance, with the paths of those values. What a measurement covers counts at
// the lower end of its tolerance, and not at all where it is not known.
func (r *Result) stopGrid(robot *file.Robot, key string) (points []stopping.Point, paths []string) {
	ix := r.File.Index()
	for i := range robot.Stopping {
		p := &robot.Stopping[i]
		value := p.Time
		if key == "distance" {
			value = p.Distance
		}
		if path := ix.PathOf(value); r.usedAt(path).Given() {
			share := func(a file.Amount) float64 { return r.usedAt(ix.PathOf(a)).Num / 100 }
			points = append(points, stopping.Point{Category: p.Category, Value: r.usedAt(path).Num,
				Load: share(p.Load), Speed: share(p.Speed), Reach: share(p.Reach)})
			paths = append(paths, path)
		}
	}
	return points, paths
}

// follow lists a path and where it leads on to, through sums of the file, up to
// stop data.
func (r *Result) follow(path string) []string {
	list := []string{path}
	if e, ok := r.File.Index().Entry(path); ok && r.stopsOf(path) == "" {
		for _, t := range e.Amount.Terms { // loading has refused circles
			if t.Path != "" {
				list = append(list, r.follow(t.Path)...)
			}
		}
	}
	return list
}

// stopsOf is the robot or machine whose stop a path speaks of, "" where it
// speaks of none: a look-up in a grid, a point of a grid, or the stopping time of
// a machine.
func (r *Result) stopsOf(path string) string {
	id, _, _ := strings.Cut(path, ".")
	if (file.Term{Path: path}).IsGrid() {
		return id
	}
	e, ok := r.File.Index().Entry(path)
	switch {
	case ok && e.Kind == "stopping" && (e.Key == "time" || e.Key == "distance"):
		return id
	case ok && e.Kind == "machine" && e.Key == "stopping_time":
		return e.Item
	}
	return ""
}

// StopRivals are the values of a grid that could govern for a check beside the one
// that was chosen: those of the other candidates.
func (r *Result) StopRivals(check, path string) (paths []string) {
	_, found, _, _ := r.File.Find(check)
	spec, ok := found.(*file.Check)
	_, found, _, _ = r.File.Find(r.stopsOf(path))
	robot, isRobot := found.(*file.Robot)
	if !ok || !isRobot {
		return nil
	}
	_, found, _, _ = r.File.Find(spec.Task)
	task, _ := found.(*file.Task)
	want, _ := r.stopCase(task, spec.StopCategory)
	points, all := r.stopGrid(robot, path[strings.LastIndex(path, ".")+1:])
	for _, i := range stopping.Candidates(points, want) {
		if all[i] != path {
			paths = append(paths, all[i])
		}
	}
	return paths
}

// Stop is a stopping time of the cell: a point in the grid of a robot, or the
// time of a machine.
type Stop struct {
	ID       string // of the point or machine
	Of       string // of the robot or machine
	Category string
	Load     string // paths; "" where it is not written
	Speed    string
	Reach    string
	Time     string
	Distance string
	Checks   []string // that take its time or distance
}

// TakenBy names the checks that take a stop, of many the first.
func (s *Stop) TakenBy() string {
	const most = 12
	if n := len(s.Checks); n > most {
		return strings.Join(s.Checks[:most], ", ") + " and " + count(n-most, "other")
	}
	return strings.Join(s.Checks, ", ")
}

// Stops lists the stopping times and distances of the cell, and the checks that
// take them.
func (r *Result) Stops() []Stop {
	ix := r.File.Index()
	if ix == nil { // put together, not loaded
		return nil
	}
	takers := map[string][]int{}
	for i := range r.Checks {
		r.Checks[i].each(func(in *Input) {
			for _, t := range in.Terms {
				for _, path := range r.follow(t.Path) {
					if r.stopsOf(path) != "" {
						takers[path] = append(takers[path], i)
					}
				}
			}
		})
	}
	var list []Stop
	add := func(s Stop) {
		by := slices.Concat(takers[s.Time], takers[s.Distance])
		slices.Sort(by)
		for _, i := range slices.Compact(by) {
			s.Checks = append(s.Checks, r.Checks[i].ID)
		}
		list = append(list, s)
	}
	for i := range r.File.Cell.Robots {
		robot := &r.File.Cell.Robots[i]
		for k := range robot.Stopping {
			p := &robot.Stopping[k]
			add(Stop{ID: p.ID, Of: robot.ID, Category: p.Category, Load: ix.PathOf(p.Load), Speed: ix.PathOf(p.Speed), Reach: ix.PathOf(p.Reach),
				Time: ix.PathOf(p.Time), Distance: ix.PathOf(p.Distance)})
		}
	}
	for i := range r.File.Cell.Machines {
		if m := &r.File.Cell.Machines[i]; m.StoppingTime.Set {
			add(Stop{ID: m.ID, Of: m.ID, Time: ix.PathOf(m.StoppingTime)})
		}
	}
	return list
}

package hazards

import (
	"cmp"
	"slices"
	"strings"

	"standclear/hazards/file"
	"standclear/limits/source"
)

// control: what is asked of every cell about stops, restart, modes, loss and
// return of power, release, isolation and access to the safety settings.
func (f *finder) control() {
	c := &f.r.File.Cell.Control
	f.answer("FU-13", "emergency_stop", f.emergencyStop(&c.EmergencyStop)...)
	f.answer("FU-14", "reset", resetSays(&c.Reset)...)
	f.answer("FU-15", "restart", f.restart(c)...)
	f.answer("FU-16", "muting", f.muting(&c.Muting)...)
	f.answer("FU-18", "mode_selection", f.modeSelection(&c.ModeSelection)...)
	f.answer("FU-20", "power_return", startsBy(&c.PowerReturn)...)
	if c.Has("air_return") || f.hasAir() {
		f.answer("FU-21", "air_return", startsBy(&c.AirReturn)...)
	}
	f.answer("FU-22", "release", releaseSays(&c.Release)...)
	f.answer("FU-23", "isolation", f.isolation(&c.Isolation)...)
	f.answer("FU-24", "settings_access", accessSays(&c.SettingsAccess)...)
	f.mutedFunctions(&c.Muting)
	f.enabling()
}

// answer raises a rule when its question is not answered, or when something
// stands against the answer.
func (f *finder) answer(id, key string, against ...string) {
	c := &f.r.File.Cell.Control
	pos := c.KeyPos(key)
	if !c.Has(key) {
		against = []string{"not answered"}
		if pos.Line == 0 { // nothing is answered at all
			pos = f.r.File.KeyPos("cell")
		}
	}
	if len(against) > 0 {
		f.raise(id, "cell.control."+key, pos, "what", strings.Join(against, "; "))
	}
}

// emergencyStop: every robot and every machine with a drive is stopped, by each
// emergency stop alike; a reason names what differs.
func (f *finder) emergencyStop(s *file.EmergencyStop) []string {
	excused := func(id string) bool { return reasoned(s.Because) && strings.Contains(s.Because, id) }
	var against, out []string
	for _, id := range f.r.File.Cell.Unspanned() {
		if !excused(id) {
			out = append(out, id)
		}
	}
	if out != nil {
		against = append(against, "leaves out "+and(out)+" without a reason that names it")
	}
	for i := range f.r.File.Cell.Machines {
		m := &f.r.File.Cell.Machines[i]
		if len(m.EstopSpans) > 0 && !sameSet(m.EstopSpans, s.Spans) && !excused(m.ID) {
			against = append(against, "the emergency stop of "+m.ID+" stops "+and(m.EstopSpans)+", the one of the cell stops "+nothingOr(s.Spans))
		}
	}
	return against
}

func nothingOr(ids []string) string { return cmp.Or(and(ids), "nothing") }

// sameSet compares lists without regard to order.
func sameSet(a, b []string) bool {
	a, b = slices.Sorted(slices.Values(a)), slices.Sorted(slices.Values(b))
	return slices.Equal(a, b)
}

func resetSays(r *file.Reset) []string {
	if r.View == "whole" || r.BlindSpots != "" {
		return nil
	}
	return []string{map[string]string{"part": "only part", "none": "nothing"}[r.View] + " of the cell is seen from it, and the blind spots are not named"}
}

// restart: motion that goes on by itself.
func (f *finder) restart(c *file.Control) []string {
	if c.Restart.Automatic != source.Yes {
		return nil
	}
	var against []string
	if !reasoned(c.Restart.Because) {
		against = append(against, "motion goes on by itself, and nobody says why no one can be hidden there")
	}
	if c.Has("reset") && c.Reset.View != "whole" && !f.sensesPresence() {
		against = append(against, "motion goes on by itself, the reset does not see the whole cell, and no device watches for people inside")
	}
	return against
}

// sensesPresence says whether a device goes on seeing who stays inside; a
// curtain sees only who passes.
func (f *finder) sensesPresence() bool {
	return slices.ContainsFunc(f.r.File.Cell.Safeguards, func(g file.Safeguard) bool { return f.w.looksAt("FU-15", g.Kind) })
}

// muting: who mutes says what, while what and until when; who does not has no
// function that mutes.
func (f *finder) muting(m *file.Muting) []string {
	if m.Used != source.Yes {
		for i := range f.r.File.Cell.Functions {
			if fn := &f.r.File.Cell.Functions[i]; fn.Kind == mutingKind {
				return []string{"nothing is muted, and " + fn.ID + " is a function that mutes"}
			}
		}
		return nil
	}
	var lacks []string
	for _, q := range []struct {
		what string
		said bool
	}{{"which safeguards", len(m.Safeguards) > 0}, {"while what", m.While != ""}, {"what ends it", m.Ends != ""}} {
		if !q.said {
			lacks = append(lacks, q.what)
		}
	}
	if lacks == nil {
		return nil
	}
	return []string{"a safeguard is muted, and nobody says " + and(lacks)}
}

// mutedFunctions: muting takes a function away for a time, so that what carries
// it out reaches the level of that function.
func (f *finder) mutedFunctions(m *file.Muting) {
	if m.Used != source.Yes {
		return
	}
	best, by := "", ""
	for i := range f.r.File.Cell.Functions {
		if fn := &f.r.File.Cell.Functions[i]; fn.Kind == mutingKind && (by == "" || levelOf(fn) > best) {
			best, by = levelOf(fn), fn.ID
		}
	}
	for _, id := range m.Safeguards {
		what := ""
		if by == "" {
			what = "no function of kind `muting` carries that out"
		}
		for _, fn := range f.usersOf(id) {
			if by != "" && fn.Kind != mutingKind && best < levelOf(fn) {
				what = by + " carries that out at level " + cmp.Or(best, "none") + ", and " + fn.ID + " needs " + levelOf(fn)
			}
		}
		if what != "" {
			f.raise("FU-17", id, m.At("safeguards"), "safeguard", id, "what", what)
		}
	}
}

const mutingKind = "muting"

// levelOf is the level a function needs, "" where none is stated.
func levelOf(fn *file.Function) string {
	if fn.Required == nil {
		return ""
	}
	return fn.Required.Level
}

func (f *finder) modeSelection(m *file.ModeSelection) []string {
	if n := len(f.r.File.Cell.Modes); m.By == "none" && n > 1 {
		return []string{"no means, and there are " + count(n, "mode")}
	}
	return nil
}

// enabling: work close to a robot under power is done with an enabling device.
func (f *finder) enabling() {
	for i := range f.r.File.Tasks {
		t := &f.r.File.Tasks[i]
		if !f.w.looksAt("FU-19", t.Kind) || len(t.Robots) == 0 && t.Setting == "" {
			continue
		}
		_, found, _, _ := f.r.File.Find(t.Mode)
		mode, ok := found.(*file.Mode)
		what := ""
		switch {
		case !ok:
			what = "names no mode"
		case mode.EnablingDevice == "" || strings.EqualFold(mode.EnablingDevice, "none"):
			what = "is done in mode " + mode.ID + ", which names no enabling device"
		default:
			continue
		}
		f.raise("FU-19", t.ID, t.At("mode"), "task", t.ID, "kind", t.Kind, "what", what)
	}
}

func startsBy(r *file.Return) []string {
	if r.Starts == source.Yes {
		return []string{"something moves by itself: " + r.What}
	}
	return nil
}

// hasAir says whether a machine or tool lives on air.
func (f *finder) hasAir() bool {
	air := func(kind string) bool { return f.w.looksAt("FU-21", kind) }
	cell := &f.r.File.Cell
	return slices.ContainsFunc(cell.Machines, func(m file.Machine) bool { return slices.ContainsFunc(m.Energies, air) }) ||
		slices.ContainsFunc(cell.Tools, func(t file.Tool) bool { return air(t.Kind) || slices.ContainsFunc(t.Energies, air) })
}

func releaseSays(r *file.Release) []string {
	if r.WithoutPower == source.No {
		return []string{"nobody is freed without drive power"}
	}
	return nil
}

// isolation: every isolator can be locked, and every kind of energy is cut off
// or let off.
func (f *finder) isolation(s *file.Isolation) []string {
	var against []string
	if s.Lockable == source.No {
		against = append(against, "not every isolator can be locked")
	}
	var left []string
	leaves := func(id string, energies ...string) {
		for _, e := range energies {
			if !has(s.Energies, e) {
				left = append(left, e+" ("+id+")")
			}
		}
	}
	cell := &f.r.File.Cell
	for i := range cell.Robots {
		leaves(cell.Robots[i].ID, "electric") // every robot has drives
	}
	for i := range cell.Machines {
		leaves(cell.Machines[i].ID, cell.Machines[i].Energies...)
	}
	for i := range cell.Tools {
		leaves(cell.Tools[i].ID, cell.Tools[i].Energies...)
	}
	if left != nil {
		against = append(against, "leaves out "+few(left))
	}
	return against
}

func accessSays(s *file.SettingsAccess) []string {
	var against []string
	if s.ProtectedBy == "none" {
		against = append(against, "nothing keeps others from changing them")
	}
	if s.Remote == "change" {
		against = append(against, "they can be changed from outside the cell")
	}
	return against
}

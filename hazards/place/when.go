package place

import (
	"fmt"
	"slices"
	"strings"

	"standclear/limits/quantity"
	"standclear/limits/source"
)

// When says when a duty arises. All that is given has to hold. What the file
// does not say counts as met, and is named: nobody knows that it is not.
type When struct {
	source.Item
	Always    source.YesNo `yaml:"always" means:"yes: in every case"`
	Role      []string     `yaml:"role" choice:"maker|integrator|user" means:"roles, one of which is held"`
	DateFrom  string       `yaml:"date_from" means:"first day of putting into service, YYYY-MM-DD"`
	DateTo    string       `yaml:"date_to" means:"last day of putting into service, YYYY-MM-DD"`
	State     []string     `yaml:"state" choice:"new|moved|rebuilt|in-use" means:"states of placing, one of which holds"`
	Robot     source.YesNo `yaml:"robot" means:"yes: the cell has a robot"`
	MotorOver *Power       `yaml:"motor_over" means:"power that a motor of a robot exceeds, such as 80 W"`
	Contact   source.YesNo `yaml:"contact" means:"yes: contact between people and robot is foreseen"`
	Learned   string       `yaml:"learned" choice:"safety-function|motion" means:"what a model learned from data does"`
	Remote    source.YesNo `yaml:"remote_change" means:"yes: safety settings can be changed from outside the cell"`
	Safeguard []string     `yaml:"safeguard" means:"kinds of safeguard, one of which the cell has"`
	Machine   []string     `yaml:"machine" means:"kinds of machine, one of which the cell has; [any]: of whatever kind"`
	Space     []string     `yaml:"space" means:"kinds of space, one of which the cell has"`
	Task      []string     `yaml:"task" means:"kinds of task, one of which is done"`
	Around    []string     `yaml:"around" means:"conditions around the cell, one of which is written"`
}

// anyKind stands for whatever kind.
const anyKind = "any"

// Power is a power in W.
type Power float64

// DecodeNode reads a quantity.
func (p *Power) DecodeNode(n *source.Node, ps *source.Problems) {
	q, err := quantity.Parse(n.Value)
	if err == nil {
		var w quantity.Unit
		if w, err = quantity.ParseUnit("W"); err == nil {
			var v float64
			v, err = q.In(w)
			*p = Power(v)
		}
	}
	if err != nil {
		ps.Add(n.Problem(err.Error(), "a power, such as `80 W`", ""))
	}
}

func (w *When) check(ps *source.Problems) {
	if w.Node() != nil && len(w.Node().Pairs) == 0 {
		ps.Addf(w.Pos(), "found no condition; write `always: yes` if that is meant")
	}
}

// match is how a condition is met: by ids, by words, or because the file is
// silent.
type match struct {
	ids    []string
	words  []string
	silent []string
	not    bool // a condition does not hold
}

// text names what gave rise to a duty, and what is not written.
func (m *match) text() string {
	out := ""
	if here := slices.Concat(m.words, m.ids); len(here) > 0 {
		out = " Here: " + strings.Join(here, ", ") + "."
	}
	if len(m.silent) > 0 {
		out += " Not written, so that it counts as met: " + strings.Join(m.silent, ", ") + "."
	}
	return out
}

// holds matches all conditions with a situation.
func (w *When) holds(s *Situation) match {
	m := match{not: w.Node() == nil} // not read from a file: no condition is known
	w.placing(s, &m)
	w.robots(s, &m)
	if w.Contact == source.Yes {
		m.has(s.Contacts)
	}
	if w.Remote == source.Yes {
		switch s.Remote {
		case "":
			m.silent = append(m.silent, "what can be done to the safety settings from outside (`cell.control.settings_access.remote`)")
		case "change":
			m.words = append(m.words, "safety settings can be changed from outside the cell")
		default:
			m.not = true
		}
	}
	for _, k := range []struct {
		kinds  []string
		things []Thing
	}{{w.Safeguard, s.Safeguards}, {w.Machine, s.Machines}, {w.Space, s.Spaces}, {w.Task, s.Tasks}} {
		if k.kinds != nil {
			m.has(ofKind(k.things, k.kinds))
		}
	}
	if w.Around != nil {
		var found []string
		for _, c := range s.Around {
			if slices.Contains(w.Around, c) {
				found = append(found, c)
			}
		}
		m.not = m.not || found == nil
		m.words = append(m.words, found...)
	}
	return m
}

// placing matches role, date and state.
func (w *When) placing(s *Situation, m *match) {
	if w.Role != nil {
		m.not = m.not || !slices.Contains(w.Role, s.Role)
		m.words = append(m.words, "role "+s.Role)
	}
	if w.DateFrom != "" || w.DateTo != "" {
		m.not = m.not || s.Date < w.DateFrom || w.DateTo != "" && s.Date > w.DateTo
		m.words = append(m.words, "put into service "+s.Date)
	}
	switch {
	case w.State == nil:
	case s.State == "":
		m.silent = append(m.silent, "the state of placing: new, moved, rebuilt or in use (`assessment.placing.state`)")
	default:
		m.not = m.not || !slices.Contains(w.State, s.State)
		m.words = append(m.words, "placed as "+s.State)
	}
}

// robots matches robots, their motors, and what a learned model does.
func (w *When) robots(s *Situation, m *match) {
	if w.Robot == source.Yes {
		var ids []string
		for i := range s.Robots {
			ids = append(ids, s.Robots[i].ID)
		}
		m.has(ids)
	}
	if w.MotorOver != nil {
		var strong, silent []string
		for _, r := range s.Robots {
			switch {
			case r.Power == nil:
				silent = append(silent, "`motor_power` of "+r.ID)
			case *r.Power > float64(*w.MotorOver):
				strong = append(strong, fmt.Sprintf("%s with %v W", r.ID, *r.Power))
			}
		}
		m.either(strong, silent)
	}
	switch w.Learned {
	case "motion":
		m.answers(len(s.Robots), func(i int) (string, source.YesNo) { return s.Robots[i].ID, s.Robots[i].Learned }, "learned_motion")
	case "safety-function":
		if len(s.Functions) == 0 {
			m.silent = append(m.silent, "safety functions (`cell.functions`)")
			return
		}
		m.answers(len(s.Functions), func(i int) (string, source.YesNo) { return s.Functions[i].ID, s.Functions[i].Learned }, "learned")
	}
}

// answers sorts n answers into those that hold and those that nobody gave.
func (m *match) answers(n int, of func(int) (id string, a source.YesNo), key string) {
	var yes, silent []string
	for i := range n {
		switch id, a := of(i); a {
		case source.Yes:
			yes = append(yes, id)
		case "":
			silent = append(silent, id)
		}
	}
	if silent != nil {
		silent = []string{"`" + key + "` of " + strings.Join(silent, ", ")}
	}
	m.either(yes, silent)
}

// has asks for ids.
func (m *match) has(ids []string) {
	m.not = m.not || len(ids) == 0
	m.ids = append(m.ids, ids...)
}

// either asks for something that holds, or for silence about it.
func (m *match) either(words, silent []string) {
	m.not = m.not || len(words) == 0 && len(silent) == 0
	m.words = append(m.words, words...)
	m.silent = append(m.silent, silent...)
}

func ofKind(things []Thing, kinds []string) []string {
	var ids []string
	for _, t := range things {
		if slices.Contains(kinds, t.Kind) || slices.Contains(kinds, anyKind) {
			ids = append(ids, t.ID)
		}
	}
	return ids
}

package place

import (
	"slices"
	"strings"

	"standclear/limits/source"
)

// Situation is what a cell tells about itself.
type Situation struct {
	Date       string // of putting into service, YYYY-MM-DD
	Role       string // maker, integrator or user
	Robots     []string
	Contacts   []string
	Safeguards []Safeguard
}

// Safeguard is a safeguard of the cell.
type Safeguard struct{ ID, Kind string }

// Item is something that a person has to look at.
type Item struct{ Place, Clause, Who, Because, Standing string }

const (
	// NoneFound stands for a place without a rule that is triggered here.
	NoneFound = "none found, confirm locally"
	// Differ closes every list.
	Differ = "Rules of law differ by place and change; confirm locally."

	local = "local authority or a locally licensed professional"
)

// Review lists what people have to look at in the places named, in that order.
// It always ends with the reminder that rules differ and change.
func Review(s Situation, ids []string, places []*Place) []Item {
	var list []Item
	looked := ""
	for _, id := range ids {
		i := slices.IndexFunc(places, func(p *Place) bool { return p.ID == id })
		if i < 0 {
			list = append(list, Item{Place: id, Who: local, Because: NoneFound})
			continue
		}
		list = append(list, places[i].review(s)...)
		if looked == "" || places[i].LookedAt < looked {
			looked = places[i].LookedAt
		}
	}
	because := Differ
	if looked != "" {
		because += " Last looked at in " + looked + "."
	}
	return append(list, Item{Place: "every place", Who: local, Because: because})
}

// review lists the duties of one place that arise.
func (p *Place) review(s Situation) []Item {
	var list []Item
	for i := range p.Duties {
		d := &p.Duties[i]
		if here, ok := d.When.holds(s); ok {
			list = append(list, Item{p.Title, d.Clause, d.Who, d.because(here), d.standing(p.Confidence)})
		}
	}
	if list == nil {
		list = []Item{{Place: p.Title, Who: local, Because: NoneFound}}
	}
	return list
}

// because names besides the reason what in the cell gave rise to it.
func (d *Duty) because(here []string) string {
	if len(here) == 0 {
		return d.Because
	}
	return d.Because + " Here: " + strings.Join(here, ", ") + "."
}

// standing adds to the standing what is known less well.
func (d *Duty) standing(confidence string) string {
	out := string(d.Standing)
	if confidence != "high" {
		out += ", confidence " + confidence
	}
	for _, w := range d.Weak {
		out += "; " + w.What + ": " + string(w.Standing)
	}
	return out
}

// holds says whether all conditions hold, and names what in the cell meets them.
func (w *When) holds(s Situation) (here []string, ok bool) {
	var devices []string
	for _, g := range s.Safeguards {
		if slices.Contains(w.Safeguard, g.Kind) {
			devices = append(devices, g.ID)
		}
	}
	switch {
	case w.Node() == nil, // not read from a file: no condition is known
		w.Safeguard != nil && devices == nil,
		w.Robot == source.Yes && len(s.Robots) == 0,
		w.Contact == source.Yes && len(s.Contacts) == 0,
		w.Role != nil && !slices.Contains(w.Role, s.Role),
		w.DateFrom != "" && s.Date < w.DateFrom,
		w.DateTo != "" && s.Date > w.DateTo:
		return nil, false
	}
	if w.Contact == source.Yes {
		return append(devices, s.Contacts...), true
	}
	return devices, true
}

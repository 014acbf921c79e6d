package place

import (
	"slices"

	"standclear/limits/source"
)

// Situation is what a cell tells about itself.
type Situation struct {
	Date       string // of putting into service, YYYY-MM-DD
	Role       string // maker, integrator or user
	State      string // new, moved, rebuilt, in-use; "" where nobody says
	Robots     []Robot
	Contacts   []string
	Safeguards []Thing
	Machines   []Thing
	Spaces     []Thing
	Tasks      []Thing
	Functions  []Function
	Around     []string // conditions around the cell
	Remote     string   // none, view or change; "" where nobody says
}

// Thing is something of the cell with its kind.
type Thing struct{ ID, Kind string }

// Robot is a robot of the cell.
type Robot struct {
	ID      string
	Power   *float64     // greatest rated power of a motor in W, nil where nobody says
	Learned source.YesNo // whether a learned model chooses its motions
}

// Function is a safety function of the cell.
type Function struct {
	ID      string
	Learned source.YesNo // whether a learned model carries it out
}

// Item is something that a person has to look at.
type Item struct {
	Place, Clause, Who, Because, Standing string
	HandOver, Sources                     []string
}

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
		list = append(list, places[i].review(&s)...)
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
func (p *Place) review(s *Situation) []Item {
	var list []Item
	for i := range p.Duties {
		d := &p.Duties[i]
		if m := d.When.holds(s); !m.not {
			list = append(list, Item{p.Title, d.Clause, d.Who, d.Because + m.text(), p.standing(d), d.HandOver, d.Source})
		}
	}
	if list == nil {
		list = []Item{{Place: p.Title, Who: local, Because: NoneFound}}
	}
	return list
}

// standing says how well a duty is known, part by part.
func (p *Place) standing(d *Duty) string {
	out := string(d.Standing) + ", confidence " + p.Confidence
	for _, w := range d.Weak {
		out += "; " + w.What + ": " + string(w.Standing)
	}
	return out + "; confirm locally"
}

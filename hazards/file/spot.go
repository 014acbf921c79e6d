package file

import (
	"fmt"

	"standclear/limits/source"
)

// Spot is a point of robot, tool or part that can touch in a contact. What it
// leaves out it takes from the contact.
type Spot struct {
	source.Item
	ID            string   `yaml:"id,required" means:"unique id"`
	What          string   `yaml:"what,required" means:"which point of robot, tool or part it is"`
	Area          Amount   `yaml:"area" unit:"cm2" worse:"down" means:"contact area A of this point"`
	Speed         Amount   `yaml:"speed" unit:"mm/s" worse:"up" means:"speed of this point, usually the path of a safety setting"`
	Edges         string   `yaml:"edges" choice:"rounded|blunt|edge|point" means:"worst edge of this point, in place of that of tool and part"`
	WhyEdges      string   `yaml:"why_edges" means:"why the worse edge of tool or part cannot touch there"`
	EffectiveMass Amount   `yaml:"effective_mass" unit:"kg" worse:"up" means:"effective mass of the robot at this point and pose, without tool and part"`
	WhyMass       string   `yaml:"why_mass" means:"why an effective mass below half of the moving mass is right"`
	Pose          string   `yaml:"pose" means:"pose of the robot"`
	Padding       *Padding `yaml:"padding" means:"padding on this point"`
}

// Spot is a point of the contact by id with what it takes from the contact;
// without an id it is the contact itself.
func (c *Contact) Spot(id string) Spot {
	whole := Spot{Item: c.Item, ID: c.ID, What: c.Where, Area: c.Area, Speed: c.Speed, EffectiveMass: c.EffectiveMass, WhyMass: c.WhyMass,
		Pose: c.Pose, Padding: c.Padding}
	for _, s := range c.Spots {
		if s.ID != id {
			continue
		}
		for _, a := range []struct{ own, of *Amount }{{&s.Area, &whole.Area}, {&s.Speed, &whole.Speed}} {
			if !a.own.Set {
				*a.own = *a.of
			}
		}
		if !s.EffectiveMass.Set { // its reason and its pose belong to it
			s.EffectiveMass, s.WhyMass, s.Pose = whole.EffectiveMass, whole.WhyMass, firstOf(s.Pose, whole.Pose)
		}
		if s.Padding == nil {
			s.Padding = whole.Padding
		}
		return s
	}
	return whole
}

func firstOf(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// SpotIDs are the ids of the points of the contact, "" where it is one point.
func (c *Contact) SpotIDs() []string {
	if len(c.Spots) == 0 {
		return []string{""}
	}
	ids := make([]string, len(c.Spots))
	for i := range c.Spots {
		ids[i] = c.Spots[i].ID
	}
	return ids
}

// spots checks that a measurement names a point of the contact it is of.
func (c *checker) spots() {
	for i := range c.a.Validation {
		p := &c.a.Validation[i]
		it, of := c.ix.items[p.Spot], c.ix.items[p.Of]
		if it == nil || it.kind != "contact-point" || of == nil {
			continue
		}
		if contact, ok := of.value.(*Contact); ok && contact.hasSpot(p.Spot) {
			continue
		}
		c.addKey(p.Item, "point", fmt.Sprintf("`%s` is no point of `%s`", p.Spot, p.Of), "a point of the contact that is measured",
			"look at `of`")
	}
}

func (c *Contact) hasSpot(id string) bool {
	for i := range c.Spots {
		if c.Spots[i].ID == id {
			return true
		}
	}
	return false
}

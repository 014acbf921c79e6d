// Package place holds the rules of law by place that ask for a review, a
// declaration or an inspection by somebody, and the papers that go with them.
// They are data; this package matches them with a cell. It never says that
// something is not required.
package place

import (
	"io/fs"
	"slices"
	"strings"

	"standclear/limits/source"
	"standclear/limits/table"
)

// dir is where the places stand in a folder laid out as templates/ is.
const dir = "places"

// Weak is a part of a duty that is known less well than the rest.
type Weak struct {
	source.Item
	What     string         `yaml:"what,required" means:"which part"`
	Standing table.Standing `yaml:"standing,required" choice:"confirmed|single|practice|memory" means:"how well it is known"`
}

// Duty is one rule of a place.
type Duty struct {
	source.Item
	ID       string         `yaml:"id,required" means:"id within the place"`
	When     When           `yaml:"when,required" means:"when it arises"`
	Clause   string         `yaml:"clause,required" means:"law and clause"`
	Who      string         `yaml:"who,required" means:"who has to act"`
	Because  string         `yaml:"because,required" means:"why, in own words"`
	HandOver []string       `yaml:"hand_over,required" means:"papers to hand over to whoever reviews, or to keep"`
	Source   []string       `yaml:"source" means:"keys of public sources"`
	Standing table.Standing `yaml:"standing,required" choice:"confirmed|single|practice|memory" means:"how well it is known"`
	Weak     []Weak         `yaml:"weak" means:"parts known less well"`
}

// Place is a place with its duties.
type Place struct {
	source.Item
	ID         string `yaml:"id,required" means:"id, the name of the file"`
	Title      string `yaml:"title,required" means:"name of the place"`
	LookedAt   string `yaml:"looked_at,required" means:"year and month in which the rules were last looked at"`
	Confidence string `yaml:"confidence,required" choice:"high|medium|low" means:"how sure the collection is"`
	Duties     []Duty `yaml:"duties,required" means:"its rules"`

	TechnicalFile []Paper `yaml:"technical_file" means:"index of the papers about the cell; left out: that of the place other"`
	Declarations  []Paper `yaml:"declarations" means:"declarations that the role gives or keeps"`
}

// Load reads the places from a folder laid out as templates/ is, sorted by id.
func Load(fsys fs.FS) ([]*Place, []source.Problem) {
	var ps source.Problems
	var list []*Place
	source.EachFile(fsys, dir, &ps, func(name string, n *source.Node) {
		p := new(Place)
		source.Decode(n, p, &ps)
		p.check(name, &ps)
		list = append(list, p)
	})
	if len(list) == 0 {
		ps.Addf(source.Pos{File: dir}, "found no places, expected one .yaml file for each")
	}
	slices.SortFunc(list, func(a, b *Place) int { return strings.Compare(a.ID, b.ID) })
	return list, ps.List()
}

// check looks at what the types alone cannot say.
func (p *Place) check(name string, ps *source.Problems) {
	if p.ID != "" && p.ID != name {
		ps.Addf(p.At("id"), "the place `%s` stands in the file of `%s`", p.ID, name)
	}
	for i := range p.Duties {
		p.Duties[i].When.check(ps)
	}
	for _, list := range [][]Paper{p.TechnicalFile, p.Declarations} {
		for i := range list {
			list[i].When.check(ps)
		}
	}
}

// IDs are the ids of the places.
func IDs(places []*Place) []string {
	ids := make([]string, len(places))
	for i, p := range places {
		ids[i] = p.ID
	}
	return ids
}

package place

import (
	"slices"
	"strings"

	"standclear/limits/source"
	"standclear/limits/table"
)

// Paper is a document about the cell, or a declaration.
type Paper struct {
	source.Item
	ID       string         `yaml:"id,required" means:"kind of paper, the same in every place"`
	When     When           `yaml:"when,required" means:"when it belongs to the index"`
	What     string         `yaml:"what,required" means:"what it is"`
	By       string         `yaml:"by,required" means:"who gives it"`
	Each     source.YesNo   `yaml:"each" means:"yes: one for each item that meets the conditions"`
	Here     string         `yaml:"here" choice:"assessment|calculations|tests|told|upkeep|training" means:"part of the assessment that is this paper"`
	Source   []string       `yaml:"source" means:"keys of public sources"`
	Standing table.Standing `yaml:"standing,required" choice:"confirmed|single|practice|memory" means:"how well it is known"`
}

// Wanted is a paper that a place asks for in a situation.
type Wanted struct {
	*Paper
	Places  []string // ids of the places that ask for it
	About   string   // id of the item it is about, "" for the cell
	Because string   // what gave rise to it
	Silent  string   // what is not written, so that nobody knows whether it is wanted
}

// other is the place whose index stands for places without one of their own.
const other = "other"

// Papers lists the technical file and the declarations of the places named. A
// paper that several places ask for stands once, in the words of the first.
func Papers(s Situation, ids []string, places []*Place) (file, declarations []Wanted) {
	find := func(id string) *Place {
		if i := slices.IndexFunc(places, func(p *Place) bool { return p.ID == id }); i >= 0 {
			return places[i]
		}
		return nil
	}
	common := find(other)
	for _, id := range ids {
		p := find(id)
		if p == nil {
			continue
		}
		index := p.TechnicalFile
		if index == nil && common != nil {
			index = common.TechnicalFile
		}
		file = wanted(file, index, id, &s)
		declarations = wanted(declarations, p.Declarations, id, &s)
	}
	return file, declarations
}

func wanted(list []Wanted, papers []Paper, place string, s *Situation) []Wanted {
	for i := range papers {
		p := &papers[i]
		m := p.When.holds(s)
		if m.not {
			continue
		}
		about := []string{""}
		if p.Each == source.Yes && len(m.ids) > 0 {
			about = m.ids
		}
		for _, id := range about {
			if id != "" {
				m.ids = []string{id}
			}
			k := slices.IndexFunc(list, func(o Wanted) bool { return o.ID == p.ID && o.About == id })
			if k < 0 {
				list = append(list, Wanted{Paper: p, About: id, Because: m.text(), Silent: strings.Join(m.silent, ", ")})
				k = len(list) - 1
			}
			if w := &list[k]; !slices.Contains(w.Places, place) {
				w.Places = append(w.Places, place)
			}
		}
	}
	return list
}

// PaperIDs are the kinds of papers that the places know, in order.
func PaperIDs(places []*Place) []string {
	var ids []string
	for _, p := range places {
		for _, list := range [][]Paper{p.TechnicalFile, p.Declarations} {
			for i := range list {
				if !slices.Contains(ids, list[i].ID) {
					ids = append(ids, list[i].ID)
				}
			}
		}
	}
	slices.Sort(ids)
	return ids
}

// Package identify holds the catalogue of hazards and finds which of its entries
// apply to a cell, why, and whether a row answers them. Entries are data; each
// names by a rule what in the cell bears witness.
package identify

import (
	"fmt"
	"io/fs"
	"slices"

	"standclear/limits/source"
	"standclear/limits/table"
)

// Where the catalogue stands in a folder laid out as templates/ is.
const (
	entriesDir     = "catalogue/entries"
	referencesFile = "catalogue/references.yaml"
)

// Entry is one hazard of the catalogue.
type Entry struct {
	source.Item
	ID        string         // its key
	Family    string         `yaml:"family,required" choice:"mechanical|electrical|thermal|noise|vibration|radiation|substance|ergonomic|environment|combination" means:"family, ISO 12100 Annex B"`
	Tasks     []string       `yaml:"tasks,required" choice:"running|hand-over|loading|hand-guiding|teaching|setting|changeover|jam-clearing|fault-finding|cleaning|service|restart|observing" means:"kinds of task in which it happens"`
	Situation string         `yaml:"situation,required" means:"who is where when it happens"`
	Event     string         `yaml:"event,required" means:"what happens"`
	Harm      string         `yaml:"harm,required" means:"harm that can follow"`
	Body      []string       `yaml:"body,required" choice:"head|face|eye|ear|neck|trunk|back|shoulder|arm|hand|finger|leg|knee|foot|skin|lungs|hair|mind|whole-body" means:"parts of the body"`
	Measures  Steps          `yaml:"measures,required" means:"usual measures, in the order of ISO 12100 6.1"`
	Rules     []*Rule        `yaml:"rules,required" means:"when it applies; one that holds is enough"`
	Refs      []string       `yaml:"refs" means:"ids of the reference lists that it covers"`
	Source    []string       `yaml:"source" means:"keys of public sources"`
	Standing  table.Standing `yaml:"standing,required" choice:"confirmed|single|practice|memory" means:"how well it is known"`
}

// Steps are the usual measures, step by step.
type Steps struct {
	source.Item
	Design      string `yaml:"design" means:"by design, ISO 12100 6.2"`
	Safeguard   string `yaml:"safeguard" means:"by guard, sensing or safety function, ISO 12100 6.3"`
	Information string `yaml:"information" means:"by information, ISO 12100 6.4"`
}

// Reference is one line of a list that the catalogue is held against.
type Reference struct {
	source.Item
	Family string `yaml:"family,required" means:"family, ISO 12100 Annex B"`
	What   string `yaml:"what,required" means:"what it is, in own words"`
}

// Catalogue is all entries in the order of the data, and the reference lists.
type Catalogue struct {
	Entries    []*Entry
	References source.Map[Reference]
}

// Get gives an entry by id, nil when there is none.
func (c *Catalogue) Get(id string) *Entry {
	for _, e := range c.Entries {
		if e.ID == id {
			return e
		}
	}
	return nil
}

// IDs are the ids of all entries.
func (c *Catalogue) IDs() []string {
	ids := make([]string, len(c.Entries))
	for i, e := range c.Entries {
		ids[i] = e.ID
	}
	return ids
}

// Load reads the catalogue from a folder laid out as templates/ is.
func Load(fsys fs.FS) (*Catalogue, []source.Problem) {
	var ps source.Problems
	c := new(Catalogue)
	c.references(fsys, &ps)
	source.EachFile(fsys, entriesDir, &ps, func(_ string, n *source.Node) {
		var st struct {
			source.Item
			Entries source.Map[Entry] `yaml:"entries,required" means:"entries by id"`
		}
		source.Decode(n, &st, &ps)
		for i := range st.Entries {
			e := &st.Entries[i].Value
			e.ID = st.Entries[i].Key
			if c.Get(e.ID) != nil {
				ps.Addf(st.Entries[i].Pos, "the entry `%s` stands in the catalogue already", e.ID)
			}
			c.check(e, &ps)
			c.Entries = append(c.Entries, e)
		}
	})
	return c, ps.List()
}

func (c *Catalogue) references(fsys fs.FS, ps *source.Problems) {
	data, err := fs.ReadFile(fsys, referencesFile)
	if err != nil {
		ps.Addf(source.Pos{File: referencesFile}, "cannot read the reference lists: %v", err)
		return
	}
	var st struct {
		source.Item
		References source.Map[Reference] `yaml:"references,required" means:"lines by id"`
	}
	source.Decode(source.Parse(referencesFile, data, ps), &st, ps)
	c.References = st.References
}

// check looks at what the types alone cannot say.
func (c *Catalogue) check(e *Entry, ps *source.Problems) {
	for _, id := range e.Refs {
		if !slices.ContainsFunc(c.References, func(r source.Entry[Reference]) bool { return r.Key == id }) {
			ps.Addf(e.At("refs"), "entry %s: no reference `%s`", e.ID, id)
		}
	}
	if len(e.Source) > 0 == (e.Standing == table.Practice) {
		ps.Addf(e.At("standing"), "entry %s: standing `%s` with %d sources; `practice` is what has none", e.ID, e.Standing, len(e.Source))
	}
	if e.Measures.Design+e.Measures.Safeguard+e.Measures.Information == "" {
		ps.Addf(e.At("measures"), "entry %s names no usual measure", e.ID)
	}
	for _, r := range e.Rules {
		if err := r.compile(); err != nil {
			ps.Addf(r.Pos(), "%s", fmt.Sprintf("entry %s: %v", e.ID, err))
		}
	}
}

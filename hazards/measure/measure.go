// Package measure holds the kinds of measure: the step of ISO 12100 each
// belongs to, what it may lower, and the proof that earns it. The kinds are data.
package measure

import (
	"io/fs"
	"slices"

	"standclear/limits/source"
	"standclear/limits/table"
)

// file is where the kinds stand in a folder laid out as templates/ is.
const file = "catalogue/measures.yaml"

// Need is one group of proofs; one of Any has to be named.
type Need struct {
	source.Item
	Words string   `yaml:"words,required" means:"what has to be shown, in words"`
	Any   []string `yaml:"any,required" means:"contact, check, function, point, or ids of calculation sheets"`
}

// Kind is one kind of measure.
type Kind struct {
	source.Item
	ID            string         // its key
	Title         string         `yaml:"title,required" means:"name in words"`
	Step          string         `yaml:"step,required" choice:"design|safeguard|information" means:"step of ISO 12100 6.1"`
	Complementary source.YesNo   `yaml:"complementary" means:"yes: complementary protective measure, ISO 12100 6.3.5"`
	MayLower      []string       `yaml:"may_lower,required" choice:"severity|exposure|occurrence|avoidance" means:"what it may lower"`
	Needs         []Need         `yaml:"needs" means:"proof without which it earns nothing"`
	Condition     string         `yaml:"condition" means:"when it may be used"`
	OperatorOnly  source.YesNo   `yaml:"operator_only" means:"yes: protects only who operates it"`
	Source        []string       `yaml:"source" means:"keys of public sources"`
	Standing      table.Standing `yaml:"standing,required" choice:"confirmed|single|practice|memory" means:"how well it is known"`
}

// Lowers says whether a kind may lower severity, exposure, occurrence or avoidance.
func (k *Kind) Lowers(what string) bool { return slices.Contains(k.MayLower, what) }

// Missing gives the words of each need that none of the proofs meets. A proof
// is contact, check, function or point, or the id of a sheet.
func (k *Kind) Missing(proofs []string) []string {
	var list []string
	for _, n := range k.Needs {
		if !slices.ContainsFunc(n.Any, func(p string) bool { return slices.Contains(proofs, p) }) {
			list = append(list, n.Words)
		}
	}
	return list
}

// Kinds are all kinds in the order of the data.
type Kinds []*Kind

// Get gives a kind by id, nil when there is none.
func (ks Kinds) Get(id string) *Kind {
	for _, k := range ks {
		if k.ID == id {
			return k
		}
	}
	return nil
}

// IDs are the ids of all kinds.
func (ks Kinds) IDs() []string {
	ids := make([]string, len(ks))
	for i, k := range ks {
		ids[i] = k.ID
	}
	return ids
}

type statement struct {
	source.Item
	Kinds source.Map[Kind] `yaml:"kinds,required" means:"kinds of measure by id"`
}

// Load reads the kinds of measure from a folder laid out as templates/ is.
func Load(fsys fs.FS) (Kinds, []source.Problem) {
	var ps source.Problems
	data, err := fs.ReadFile(fsys, file)
	if err != nil {
		ps.Addf(source.Pos{File: file}, "cannot read the kinds of measure: %v", err)
		return nil, ps.List()
	}
	var st statement
	source.Decode(source.Parse(file, data, &ps), &st, &ps)
	var list Kinds
	for i := range st.Kinds {
		k := &st.Kinds[i].Value
		k.ID = st.Kinds[i].Key
		list = append(list, k)
	}
	return list, ps.List()
}

package file

import (
	"slices"
	"strings"

	"standclear/limits/source"
)

// Known are the names the library knows. A nil list is not checked.
type Known struct {
	Sheets, Methods, Places, Areas, Regions, MeasureKinds []string
	Papers                                                []string            // kinds of papers of the hand-over
	Entries                                               []string            // of the hazard catalogue
	Editions                                              map[string][]string // by key of basis: contact, distance, functions
}

// of gives the names that a known tag asks for, and what they are.
func (k Known) of(tag string) (names []string, what string) {
	if key, ok := strings.CutPrefix(tag, "edition."); ok {
		return k.Editions[key], "an edition"
	}
	switch tag {
	case "sheet":
		return k.Sheets, "a sheet"
	case "method":
		return k.Methods, "a method"
	case "place":
		return k.Places, "a place"
	case "area":
		return k.Areas, "a body area"
	case "area|region":
		if k.Areas == nil || k.Regions == nil {
			return nil, ""
		}
		return slices.Concat(k.Regions, k.Areas), "a body region or body area"
	case "measure":
		return k.MeasureKinds, "a kind of measure"
	case "paper":
		return k.Papers, "a kind of paper"
	case "entry":
		return k.Entries, "an entry of the catalogue"
	}
	return nil, ""
}

// CheckNames checks the names that belong to the library and not to the file:
// sheets, methods, places, body areas and regions, kinds of measures, catalogue
// entries, editions.
func (a *Assessment) CheckNames(k Known) []source.Problem {
	var ps source.Problems
	for f := range fields(recordsOf(a), func(k *keyInfo) bool { return k.known != "" }) {
		names, what := k.of(f.known)
		if names == nil {
			continue
		}
		list := f.scalars()
		for i, n := range list {
			switch {
			case !slices.Contains(names, n.Value):
				ps.Add(n.Problem("`"+clip(n.Value)+"` is not "+what+" that is known here",
					"one of: "+source.Quoted(names), source.DidYouMean(n.Value, names)))
			case twice(list, i):
				ps.Add(n.Problem("`"+n.Value+"` stands twice in this list", "each name once", "delete one of them"))
			}
		}
	}
	return ps.List()
}

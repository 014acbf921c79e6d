package hazards_test

import (
	"io/fs"
	"os"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"

	"standclear/hazards/file"
	"standclear/limits/source"
	"standclear/templates"
)

// judged is what a reviewer said of each suggestion for one cell.
type judged struct {
	source.Item
	Cell    string              `yaml:"cell,required"`
	Entries source.Map[verdict] `yaml:"entries,required"`
}

type verdict struct {
	source.Item
	Wanted  source.YesNo `yaml:"wanted,required"`
	Because string       `yaml:"because,required"`
}

// leastWanted is the share of suggestions that a reviewer has to want.
const leastWanted = 0.9

// Every suggestion for the demo and the starter cells has been judged, and at
// least nine in ten are wanted.
func TestSuggestionsAreWanted(t *testing.T) {
	for _, cell := range cells(t) {
		name := strings.TrimSuffix(path.Base(cell), ".yaml")
		t.Run(name, func(t *testing.T) {
			j := readJudged(t, "../testdata/suggest/"+name+".yaml")
			if j.Cell != cell {
				t.Errorf("the list is of %s", j.Cell)
			}
			wanted, asked := 0, suggested(t, cell)
			for _, e := range j.Entries {
				if !slices.Contains(asked, e.Key) {
					t.Errorf("%s is judged and not suggested any more", e.Key)
				}
				if e.Value.Wanted == source.Yes {
					wanted++
				}
			}
			for _, id := range asked {
				if !slices.ContainsFunc(j.Entries, func(e source.Entry[verdict]) bool { return e.Key == id }) {
					t.Errorf("%s is suggested and not judged", id)
				}
			}
			share := float64(wanted) / float64(len(j.Entries))
			t.Logf("%d of %d wanted, %.0f %%", wanted, len(j.Entries), 100*share)
			if share < leastWanted {
				t.Errorf("%d of %d wanted", wanted, len(j.Entries))
			}
		})
	}
}

// cells are the demo and the starter cells.
func cells(t *testing.T) []string {
	t.Helper()
	list := []string{"cells/demo.yaml"}
	starters, err := fs.Glob(templates.FS, "cells/start/*.yaml")
	if err != nil || len(starters) == 0 {
		t.Fatal("no starter cells", err)
	}
	return append(list, starters...)
}

func readJudged(t *testing.T, name string) *judged {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	var ps source.Problems
	j := new(judged)
	source.Decode(source.Parse(name, data, &ps), j, &ps)
	if ps.Len() > 0 {
		t.Fatal(ps.List())
	}
	return j
}

// suggested are the ids of the entries that apply to an embedded cell.
func suggested(t *testing.T, cell string) []string {
	t.Helper()
	data, err := templates.FS.ReadFile(cell)
	if err != nil {
		t.Fatal(err)
	}
	r := result(t, data)
	var ids []string
	for i := range r.Hazards {
		ids = append(ids, r.Hazards[i].Entry.ID)
	}
	return ids
}

// A cell without a tool is never asked about it.
func TestNothingIsAskedThatTheCellCannotHave(t *testing.T) {
	for _, tt := range []struct{ kind, words string }{
		{"vacuum", `(?i)\b(suction|cups?|ejectors?|vacuum)\b`},
		{"screwdriver", `(?i)\b(screwdriver|bit)\b`},
		{"torch", `(?i)\b(torch|arc|welding)\b`},
	} {
		words := regexp.MustCompile(tt.words)
		for _, cell := range cells(t) {
			data, err := templates.FS.ReadFile(cell)
			if err != nil {
				t.Fatal(err)
			}
			r := result(t, data)
			if slices.ContainsFunc(r.File.Cell.Tools, func(x file.Tool) bool { return x.Kind == tt.kind }) {
				continue
			}
			for i := range r.Hazards {
				s := &r.Hazards[i]
				if w := words.FindString(s.Entry.Situation + " " + s.Why()); w != "" {
					t.Errorf("%s has no %s and is asked %s: %s (%s)", cell, tt.kind, s.Entry.ID, s.Entry.Situation, s.Why())
				}
			}
		}
	}
}

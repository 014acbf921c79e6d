package identify_test

import (
	"reflect"
	"regexp"
	"testing"

	"standclear/hazards/file"
	"standclear/hazards/identify"
	"standclear/limits/sheet"
	"standclear/templates"
)

func catalogue(t *testing.T) *identify.Catalogue {
	t.Helper()
	c, problems := identify.Load(templates.FS)
	for _, p := range problems {
		t.Errorf("%s: %s", p.Pos, p.Message)
	}
	if len(problems) > 0 {
		t.FailNow()
	}
	return c
}

func TestEveryReferenceIsCovered(t *testing.T) {
	c := catalogue(t)
	covered, families := map[string]bool{}, map[string]bool{}
	for _, e := range c.Entries {
		families[e.Family] = true
		for _, r := range e.Refs {
			covered[r] = true
		}
	}
	for _, r := range c.References {
		if !covered[r.Key] {
			t.Errorf("no entry covers %s: %s", r.Key, r.Value.What)
		}
		if !families[r.Value.Family] {
			t.Errorf("no entry of family %s", r.Value.Family)
		}
	}
	if len(c.Entries) < 120 {
		t.Errorf("%d entries, at least 120 are meant", len(c.Entries))
	}
}

func TestSourcesAreListed(t *testing.T) {
	lib, problems := sheet.Load(templates.FS)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	for _, e := range catalogue(t).Entries {
		for _, key := range e.Source {
			if _, ok := lib.Source(key); !ok {
				t.Errorf("%s: no source %s", e.ID, key)
			}
		}
	}
}

// Texts of the catalogue stand in documents, which never say that something is
// safe or that a cell has passed.
func TestCatalogueUsesNoWordOfApproval(t *testing.T) {
	word := regexp.MustCompile(`(?i)\b(pass|safe|certified|compliant)\b`)
	for _, e := range catalogue(t).Entries {
		texts := []string{e.Situation, e.Event, e.Harm, e.Measures.Design, e.Measures.Safeguard, e.Measures.Information}
		for _, r := range e.Rules {
			texts = append(texts, r.Because)
		}
		for _, text := range texts {
			if w := word.FindString(text); w != "" {
				t.Errorf("%s says %q: %s", e.ID, w, text)
			}
		}
	}
}

// Kinds of task and families are those of the assessment file.
func TestCatalogueUsesTheWordsOfTheFile(t *testing.T) {
	for _, tt := range []struct {
		entry, of reflect.Type
		field, as string
	}{
		{reflect.TypeFor[identify.Entry](), reflect.TypeFor[file.Task](), "Tasks", "Kind"},
		{reflect.TypeFor[identify.Entry](), reflect.TypeFor[file.Hazard](), "Family", "Family"},
	} {
		a, _ := tt.entry.FieldByName(tt.field)
		b, _ := tt.of.FieldByName(tt.as)
		if got, want := a.Tag.Get("choice"), b.Tag.Get("choice"); got != want || got == "" {
			t.Errorf("%s: %s, want %s", tt.field, got, want)
		}
	}
}

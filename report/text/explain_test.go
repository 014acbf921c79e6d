package text_test

import (
	"slices"
	"strings"
	"testing"

	"standclear/hazards"
	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/report/text"
	"standclear/templates"
)

func library(t *testing.T) *sheet.Library {
	t.Helper()
	lib, problems := sheet.Load(templates.FS)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return lib
}

func demo(t *testing.T) *hazards.Result {
	t.Helper()
	data, err := templates.FS.ReadFile("cells/demo.yaml")
	if err != nil {
		t.Fatal(err)
	}
	a, problems := file.Load("demo.yaml", data)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	r, problems := hazards.Assess(a, data, library(t), hazards.Options{Name: "demo", Version: "1"})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return r
}

func explained(t *testing.T, r *hazards.Result, id string) string {
	t.Helper()
	var b strings.Builder
	if !text.ExplainIn(&b, r, id) {
		t.Fatalf("nothing called %s", id)
	}
	return b.String()
}

// An input that is a sum names its addends with value, origin and reference;
// nothing is empty and no number is bare of its unit.
func TestExplainTracesInputs(t *testing.T) {
	r := demo(t)
	got := explained(t, r, "aisle-scanner-distance")
	for _, want := range []string{
		"T = 0.374 s\n    = scanner.response 0.08 s (datasheet, scanner manual",
		"\n    + arm.c1-100-33.time 0.28 s (measured, SR-417-2, run 3)\n",
		"available = 1850 mm (measured",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is missing in\n%s", want, got)
		}
	}
	for i := range r.Checks {
		if out := explained(t, r, r.Checks[i].ID); strings.Contains(out, "()") || strings.Contains(out, "%!") {
			t.Errorf("%s: something is empty:\n%s", r.Checks[i].ID, out)
		}
	}
}

func TestExplainSheetListsConstants(t *testing.T) {
	lib := library(t)
	var b strings.Builder
	text.Shelf{Library: lib, Findings: &hazards.FindingTexts{}}.Explain(&b, "contact-transient")
	c := lib.Sheet("contact-transient").Column("theta_burn")
	src, ok := lib.Source(c.Source[0])
	if !ok {
		t.Fatal("no source")
	}
	for _, want := range []string{"theta_burn = 43 degC", "ISO 13732-1 (confirmed)", src.Title} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("%q is missing in\n%s", want, b.String())
		}
	}
}

// A requirement is worked out; the word of the contract praises nothing alone.
func TestRequirementIsWorkedOut(t *testing.T) {
	s := library(t).Sheet("required-level")
	vals := s.Blank()
	for name, word := range map[string]string{"S": "S2", "F": "F2", "P": "P1"} {
		vals[s.Input(name).Slot] = expr.Value{Kind: expr.Text, Text: word}
	}
	o := s.Evaluate(vals)
	var b strings.Builder
	text.Calc(&b, &sheet.Corner{Outcome: o})
	for _, want := range []string{"verdict: within (worked out: PL_r = d)", "S = 'S2' and F = 'F1'? no\n          S = 'S2' and F = 'F2'? yes"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("%q is missing in\n%s", want, b.String())
		}
	}
	r := demo(t)
	b.Reset()
	text.Check(&b, r)
	lines := strings.Split(b.String(), "\n")
	if !slices.ContainsFunc(lines, func(l string) bool {
		return strings.Contains(l, "level-press-stop") && strings.Contains(l, "worked out: PL_r = d")
	}) {
		t.Error("the list of checks does not say what was worked out")
	}
}

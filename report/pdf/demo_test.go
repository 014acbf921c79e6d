package pdf

import (
	"strings"
	"testing"

	"standclear/hazards"
	"standclear/hazards/file"
	"standclear/limits/sheet"
	"standclear/templates"
)

// demo is the result of the assessment that ships with the program.
func demo(t testing.TB) *hazards.Result {
	t.Helper()
	data, err := templates.FS.ReadFile("cells/demo.yaml")
	if err != nil {
		t.Fatal(err)
	}
	a, problems := file.Load("demo.yaml", data)
	if len(problems) > 0 {
		t.Fatalf("%s: %s", problems[0].Pos, problems[0].Message)
	}
	lib, problems := sheet.Load(templates.FS)
	if len(problems) > 0 {
		t.Fatalf("%s: %s", problems[0].Pos, problems[0].Message)
	}
	r, problems := hazards.Assess(a, data, lib, hazards.Options{Name: "demo", Version: "1.0"})
	if len(problems) > 0 {
		t.Fatalf("%s: %s", problems[0].Pos, problems[0].Message)
	}
	return r
}

func TestDemo(t *testing.T) {
	r := demo(t)
	for _, paper := range []string{"A4", "Letter"} {
		pages := traced(t, Options{Paper: paper}, r)
		withinMargins(t, pages, papers[paper])
		all := everything(pages)
		for n := range len(pages) {
			for _, s := range pages[n+1] {
				if m := never.FindString(s.text); m != "" && !cites(r, s.text) {
					t.Errorf("page %d: found %q as a word of the summary", n+1, m)
				}
			}
		}
		if strings.Contains(all, "⟨") || strings.ContainsRune(all, substitute) {
			t.Error("a text is missing in the wording, or a character in the font")
		}
		for i := range r.Rows {
			if !strings.Contains(all, r.Rows[i].ID) {
				t.Errorf("row %s is not printed", r.Rows[i].ID)
			}
		}
		for i := range r.Findings {
			if !strings.Contains(all, r.Findings[i].ID) {
				t.Errorf("finding %s is not printed", r.Findings[i].ID)
			}
		}
	}
}

// cites tells whether a text is part of the name or address of a source.
func cites(r *hazards.Result, text string) bool {
	for i := range r.Sources {
		if strings.Contains(r.Sources[i].Title, text) || strings.Contains(r.Sources[i].Address, text) {
			return true
		}
	}
	return false
}

func BenchmarkDemo(b *testing.B) {
	r := demo(b)
	for b.Loop() {
		write(b, Options{}, r)
	}
}

package book

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"standclear/hazards"
	"standclear/hazards/file"
	"standclear/limits/sheet"
	"standclear/limits/source"
	"standclear/templates"
)

// demo is the text of the worked assessment that the program carries.
func demo(t testing.TB) []byte {
	t.Helper()
	data, err := templates.FS.ReadFile("cells/demo.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// assess works out an assessment from its text.
func assess(t testing.TB, data []byte) *hazards.Result {
	t.Helper()
	lib, problems := sheet.Load(templates.FS)
	report(t, data, problems)
	path := filepath.Join(t.TempDir(), "demo.yaml")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	a, data, problems := file.Open(path)
	report(t, data, problems)
	r, problems := hazards.Assess(a, data, lib, hazards.Options{Name: "demo", Version: "test"})
	report(t, data, problems)
	return r
}

func report(t testing.TB, data []byte, problems []source.Problem) {
	t.Helper()
	if len(problems) == 0 {
		return
	}
	var out strings.Builder
	source.Render(&out, problems, func(string) []byte { return data })
	t.Fatal(out.String())
}

// written is the workbook of a result as a file.
func written(t testing.TB, r *hazards.Result) string {
	t.Helper()
	var buf bytes.Buffer
	if err := Write(&buf, r); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "demo.xlsx")
	if err := os.WriteFile(path, buf.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	if keep := os.Getenv("STANDCLEAR_KEEP"); keep != "" {
		if err := os.WriteFile(filepath.Join(keep, "demo.xlsx"), buf.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return path
}

func TestWrite(t *testing.T) {
	written(t, assess(t, demo(t)))
}

// opened is the workbook of a result laid out, written, and open for edits.
func opened(t testing.TB, r *hazards.Result) (*layout, string, *excelize.File) {
	t.Helper()
	l, err := lay(Plan(r))
	if err != nil {
		t.Fatal(err)
	}
	path := written(t, r)
	f, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return l, path, f
}

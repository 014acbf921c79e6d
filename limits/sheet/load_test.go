package sheet_test

import (
	"os"
	"strings"
	"sync"
	"testing"

	"standclear/limits/sheet"
	"standclear/limits/source"
	"standclear/templates"
)

// loaded reads the embedded data once; a library does not change after that.
var loaded = sync.OnceValues(func() (*sheet.Library, []source.Problem) { return sheet.Load(templates.FS) })

// library loads the embedded data; every problem in it fails the test.
func library(t testing.TB) *sheet.Library {
	t.Helper()
	lib, problems := loaded()
	if len(problems) > 0 {
		var b strings.Builder
		source.Render(&b, problems, func(file string) []byte {
			data, _ := os.ReadFile("../../templates/" + file)
			return data
		})
		t.Fatalf("the embedded data does not load:\n%s", b.String())
	}
	return lib
}

func TestEmbeddedDataLoads(t *testing.T) {
	lib := library(t)
	if len(lib.Sheets) < 12 {
		t.Fatalf("%d sheets", len(lib.Sheets))
	}
}

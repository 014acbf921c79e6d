package file

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"standclear/limits/source"
)

var update = flag.Bool("update", false, "write the .out files anew; read the difference before keeping it")

const testdata = "../../testdata"

// someNames are enough of the library's names for the files under testdata.
var someNames = Known{
	Sheets:       []string{"contact-transient", "contact-clamped", "light-curtain", "parallel-field", "reach-over", "least-gap", "level-chain"},
	Methods:      []string{"hybrid", "matrix", "graph", "product"},
	Places:       []string{"eu", "ca-on"},
	Areas:        []string{"palm-d", "back-of-hand-d", "forefinger-pad-d", "shin", "kneecap"},
	Regions:      []string{"hands-fingers", "lower-arms", "lower-legs"},
	MeasureKinds: []string{"force-and-speed-limit", "training", "guard"},
	Entries:      []string{"arm-presses-part-onto-place", "hot-part"},
	Papers:       []string{"robot-incorporation", "instructions"},
	Editions: map[string][]string{
		"contact": {"iso-ts-15066-2016"}, "distance": {"iso-13855-2010", "iso-13855-2024"}, "functions": {"iso-13849-1-2023"},
	},
}

func TestOK(t *testing.T) {
	for _, path := range files(t, "ok") {
		a, data, problems := Open(path)
		if problems == nil {
			problems = a.CheckNames(someNames)
		}
		if len(problems) > 0 {
			t.Errorf("%s:\n%s", path, render(problems, data))
		}
	}
}

func TestErr(t *testing.T) {
	list := files(t, "err")
	if len(list) < 45 {
		t.Errorf("%d files, want 45 or more", len(list))
	}
	for _, path := range list {
		t.Run(filepath.Base(path), func(t *testing.T) {
			data, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			a, problems := Load(filepath.Base(path), data)
			if a != nil {
				problems = a.CheckNames(someNames)
			}
			if len(problems) == 0 {
				t.Fatal("loads without a problem")
			}
			checkPositions(t, problems, data)
			compareOut(t, strings.TrimSuffix(path, ".yaml")+".out", render(problems, data))
		})
	}
}

// compareOut compares with a neighbour file, or writes it.
func compareOut(t *testing.T, path, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("got:\n%s\nwant:\n%s", got, want)
	}
}

// checkPositions checks that every problem stands inside the data.
func checkPositions(t *testing.T, problems []source.Problem, data []byte) {
	t.Helper()
	lines := strings.Split(string(data), "\n")
	for _, p := range problems {
		switch {
		case p.Message == "":
			t.Errorf("%v: no message", p.Pos)
		case p.Pos.Line == 0 && p.Pos.Col == 0: // the file as a whole
		case p.Pos.Line < 1 || p.Pos.Line > len(lines) || p.Pos.Col < 1 || p.Pos.Col > len(lines[p.Pos.Line-1])+1:
			t.Errorf("%v is not in the file: %s", p.Pos, p.Message)
		}
	}
}

func render(problems []source.Problem, data []byte) string {
	var b bytes.Buffer
	source.Render(&b, problems, func(string) []byte { return data })
	return b.String()
}

// files lists the YAML files of a folder under testdata.
func files(t *testing.T, folder string) []string {
	t.Helper()
	list, err := filepath.Glob(filepath.Join(testdata, folder, "*.yaml"))
	if err != nil || len(list) == 0 {
		t.Fatalf("no files in %s: %v", folder, err)
	}
	return list
}

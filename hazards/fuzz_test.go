package hazards_test

import (
	"os"
	"strings"
	"testing"

	"standclear/hazards"
	"standclear/hazards/file"
)

// A line or two left out of an assessment gives problems or a result, never a panic.
func TestLinesLeftOut(t *testing.T) {
	lib := library(t)
	lines := strings.Split(string(cell(t)), "\n")
	assessed := 0
	for i := range lines {
		for _, n := range []int{1, 2} {
			text := strings.Join(append(append([]string{}, lines[:i]...), lines[min(i+n, len(lines)):]...), "\n")
			a, problems := file.Load("cell.yaml", []byte(text))
			if len(problems) > 0 {
				continue
			}
			assessed++
			if r, problems := hazards.Assess(a, []byte(text), lib, hazards.Options{}); (r == nil) == (len(problems) == 0) {
				t.Fatalf("without line %d: a result and problems, or neither", i+1)
			}
		}
	}
	if assessed < 40 {
		t.Errorf("only %d of the shortened files load", assessed)
	}
}

func FuzzAssess(f *testing.F) {
	data, err := os.ReadFile("../testdata/ok/small.yaml")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(data)
	f.Add(cell(f))
	f.Add(linked(f, tray+wear+pair+valve+curtain("face", "tray.C_RO + 1 cm"), "{uses: bolt of the guard, level: d, category: 3}", "{uses: bolt of the guard, by: valve}"))
	lib := library(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		a, problems := file.Load("cell.yaml", data)
		if len(problems) > 0 {
			return
		}
		hazards.Assess(a, data, lib, hazards.Options{})
	})
}

package book

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"standclear/hazards/hazardstest"
	"standclear/limits/expr"
	"standclear/report/officetest"
)

// gridCell is a small assessment with a grid in which two points are candidates
// for its one check, stop-low and stop-side; the first stops later.
func gridCell(t *testing.T) []byte {
	t.Helper()
	s := string(hazardstest.YAML(hazardstest.Size{Hazards: 1, Checks: 1}))
	for _, e := range [][2]string{
		{"        - {id: stop-low,", "        - {id: stop-side, category: 1, load: 50 %, speed: 50 %, reach: 95 %, time: 0.18 s, distance: 50 mm, from: measured}\n" +
			"        - {id: stop-light, category: 1, load: 20 %, speed: 40 %, reach: 80 %, time: 0.12 s, distance: 30 mm, from: measured}\n" +
			"        - {id: stop-now, category: 0, load: 100 %, speed: 100 %, reach: 100 %, time: 0.1 s, distance: 30 mm, from: measured}\n" +
			"        - {id: stop-low,"},
		{"available: {is: 1500 mm", "available: {is: 2500 mm"},
	} {
		if strings.Count(s, e[0]) != 1 {
			t.Fatalf("%q stands %d times", e[0], strings.Count(s, e[0]))
		}
		s = strings.Replace(s, e[0], e[1], 1)
	}
	return []byte(s)
}

// TestStopsBlock: every stopping time of the cell stands there with its values
// looked up, and names the checks that take it.
func TestStopsBlock(t *testing.T) {
	r := assess(t, demo(t))
	var b *Block
	for _, s := range Plan(r).Sheets {
		for _, x := range s.Blocks {
			if x.ID == stopsBlock {
				b = x
			}
		}
	}
	if b == nil || len(b.Rows) != len(r.File.Cell.Robots[0].Stopping)+len(r.File.Cell.Machines) {
		t.Fatalf("%+v", b)
	}
	taken := map[string]string{"arm.c1-100-33": "aisle-scanner-distance", "arm.c1-33-33": "", "press.stopping_time": "press-curtain-distance"}
	for _, row := range b.Rows {
		if want, ok := taken[row.ID]; ok {
			checks := row.Cells[b.Column("checks")].Value.Text
			if want == "" && checks != "" || !strings.Contains(checks, want) {
				t.Errorf("%s is taken by %q", row.ID, checks)
			}
			delete(taken, row.ID)
		}
		if c := row.Cells[b.Column("time")]; c.Value.Kind != expr.Number || c.Formula == nil || c.Edit {
			t.Errorf("%s: time %+v", row.ID, c)
		}
	}
	if len(taken) > 0 {
		t.Errorf("not shown: %v", taken)
	}
}

// TestChosenPointIsBuilt: a point that the program chose counts as long as it is
// the one that governs. Where the task asks for something else, where a point of
// the grid moves or another candidate becomes worse, nothing is decided by it.
func TestChosenPointIsBuilt(t *testing.T) {
	r := assess(t, gridCell(t))
	l, err := lay(Plan(r))
	if err != nil {
		t.Fatal(err)
	}
	edit := func(path string, value any) []typed { return []typed{{factsBlock, path, "value", value}} }
	tests := []struct {
		edits []typed
		want  string
	}{
		{[]typed{
			{factsBlock, "arm.stop-low.time", "value", 0.2},     // is followed
			{factsBlock, "arm.stop-side.time", "value", 0.199},  // still the milder candidate
			{factsBlock, "arm.stop-light.time", "value", 0.9},   // does not cover the task
			{factsBlock, "arm.stop-top.time", "value", 0.01},    // other points are nearer
			{factsBlock, "arm.stop-now.load", "value", 50},      // another category
			{factsBlock, "arm.stop-low.distance", "value", 100}, // not asked for
			{factsBlock, "arm.stop-low.load", "value", 33.0},    // as built
			{factsBlock, "arm.input_response", "value", 0.02},   // no part of the choice
		}, "within"},
		{edit("arm.stop-low.time", 0.17), "not-decided"}, // less than the other candidate
		{edit("arm.stop-side.time", 0.191), "not-decided"},
		{edit("arm.stop-side.time", "?"), "not-decided"},
		{edit("arm.stop-light.load", 40), "not-decided"}, // could cover it
		{edit("arm.stop-low.speed", 49), "not-decided"},  // no longer covers it
		{edit("arm.stop-side.reach", nil), "not-decided"},
		{edit("set-tins.load", 45), "not-decided"},
		{edit("set-tins.speed", 20), "not-decided"}, // another point could be nearer
		{edit("set-tins.reach", "far"), "not-decided"},
	}
	var paths []string
	for i, tt := range tests {
		path := filepath.Join(t.TempDir(), fmt.Sprintf("stop-%d.xlsx", i))
		if err := os.Rename(written(t, r), path); err != nil {
			t.Fatal(err)
		}
		f, err := excelize.OpenFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range tt.edits {
			name, at := l.cellOf(t, e.block, e.row, e.key)
			if err := f.SetCellValue(name, at, e.value); err != nil {
				t.Fatal(err)
			}
		}
		if err := f.Save(); err != nil {
			t.Fatal(err)
		}
		f.Close()
		paths = append(paths, path)
	}
	for i, again := range officetest.Convert(t, "xlsx", paths...) {
		name, at := l.cellOf(t, "parallel-field", "D-1", "verdict")
		if got := cells(t, again)[name][at]; got != tests[i].want {
			t.Errorf("%v: D-1 is %q, want %q", tests[i].edits, got, tests[i].want)
		}
	}
}

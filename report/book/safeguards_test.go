package book

import (
	"os"
	"strings"
	"testing"

	"standclear/report/officetest"
)

// Beams, two-hand controls, mats and interlocked guards in a workbook: what an
// independent engine makes of their formulas is what Go gives, the heights of
// the beams as text among it.
func TestRecalculatedSafeguards(t *testing.T) {
	data, err := os.ReadFile("../../testdata/rules/find-base.yaml")
	if err != nil {
		t.Fatal(err)
	}
	const before = "  - {id: gap-at-bench"
	checks := []string{
		`{id: four-beams, sheet: light-beams, task: pack, stop_category: 1, given: {T: curtain.response + arm.stopping.time, beams: 4, C_RO: 900 mm, lowest: 300 mm, highest: 1200 mm, under: no, behind: no, available: 2000 mm}}`,
		`{id: one-beam, sheet: light-beams, task: pack, given: {T: 0.2 s, beams: 1}}`,
		`{id: buttons, sheet: two-hand, task: pack, stop_category: 1, given: {T: curtain.response + arm.stopping.time, shrouded: yes, available: 400 mm}}`,
		`{id: step, sheet: mat, task: pack, given: {T: 0.2 s, H: 180 mm, width: 740 mm, available: 2000 mm}}`,
		`{id: door, sheet: interlocked-guard, task: pack, given: {T: 0.2 s, e: 35 mm, shape: square, t_open: 0.05 s, available: 500 mm}}`,
		`{id: gate, sheet: interlocked-guard, task: pack, given: {T: 0.2 s, e: 121 mm, shape: round, available: 500 mm}}`,
		`{id: tilted, sheet: parallel-field, task: pack, given: {T: 0.2 s, H: 320 mm, d: 30 mm, Z: 0 mm, angle: 20 deg, crawl: no, gap: 50 mm, available: 2000 mm}}`,
	}
	text := strings.Replace(string(data), before, "  - "+strings.Join(checks, "\n  - ")+"\n"+before, 1)
	path := written(t, assess(t, []byte(text)))
	was := cells(t, path)
	for _, d := range differences(was, cells(t, officetest.Recalculate(t, path))) {
		t.Error(d)
	}
	seen := map[string]bool{}
	for _, v := range was["Distance"] {
		seen[v] = true
	}
	for _, want := range []string{"300, 600, 900, 1200", "750", "four-beams", "buttons", "step", "door", "gate", "tilted"} {
		if !seen[want] {
			t.Errorf("no %q in the sheet Distance", want)
		}
	}
}

package book

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/xuri/excelize/v2"

	"standclear/hazards/hazardstest"
	"standclear/report/officetest"
)

// parity is the greatest relative difference between a value of Go and of the
// spreadsheet.
const parity = 1e-9

// cells reads every raw value of a workbook, by sheet and address.
func cells(t testing.TB, path string) map[string]map[string]string {
	t.Helper()
	f, err := excelize.OpenFile(path, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	out := map[string]map[string]string{}
	for _, s := range f.GetSheetList() {
		rows, err := f.GetRows(s, excelize.Options{RawCellValue: true})
		if err != nil {
			t.Fatal(err)
		}
		out[s] = map[string]string{}
		for r, row := range rows {
			for c, v := range row {
				name, _ := excelize.CoordinatesToCellName(c+1, r+1)
				if v != "" {
					out[s][name] = v
				}
			}
		}
	}
	return out
}

// alike tells whether two raw values are the same, numbers but for noise.
func alike(a, b string) bool {
	if a == b {
		return true
	}
	x, errX := strconv.ParseFloat(a, 64)
	y, errY := strconv.ParseFloat(b, 64)
	return errX == nil && errY == nil && math.Abs(x-y) <= parity*math.Max(math.Abs(x), math.Abs(y))
}

// differences lists the cells of two workbooks that differ.
func differences(a, b map[string]map[string]string) []string {
	var out []string
	for s := range a {
		for name, v := range a[s] {
			if !alike(v, b[s][name]) {
				out = append(out, s+"!"+name+": "+v+" against "+b[s][name])
			}
		}
		for name, v := range b[s] {
			if _, ok := a[s][name]; !ok {
				out = append(out, s+"!"+name+": nothing against "+v)
			}
		}
	}
	return out
}

// TestRecalculatedSmall does the same for assessments that lack one thing or
// another.
func TestRecalculatedSmall(t *testing.T) {
	sizes := []hazardstest.Size{
		{},
		{Hazards: 3},
		{Hazards: 3, Contacts: 3, Points: 2},
		{Hazards: 3, Checks: 3},
		{Hazards: 12, Contacts: 9, Checks: 7, Points: 4},
	}
	var paths []string
	for i, size := range sizes {
		path := filepath.Join(t.TempDir(), fmt.Sprintf("size-%d.xlsx", i))
		if err := os.Rename(written(t, assess(t, hazardstest.YAML(size))), path); err != nil {
			t.Fatal(err)
		}
		paths = append(paths, path)
	}
	for i, again := range officetest.Convert(t, "xlsx", paths...) {
		for _, d := range differences(cells(t, paths[i]), cells(t, again)) {
			t.Errorf("%+v: %s", sizes[i], d)
		}
	}
}

// TestRecalculated holds every value of Go against what an independent engine
// makes of the formulas.
func TestRecalculated(t *testing.T) {
	path := written(t, assess(t, demo(t)))
	before := cells(t, path)
	diff := differences(before, cells(t, officetest.Recalculate(t, path)))
	for i, d := range diff {
		if i == 30 {
			break
		}
		t.Error(d)
	}
	n := 0
	for _, s := range before {
		n += len(s)
	}
	t.Logf("%d cells, %d differ", n, len(diff))
	if n < 5000 {
		t.Errorf("only %d cells compared", n)
	}
}

package book

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"standclear/report/officetest"
)

// A value keeps its sign when it is shown, and nothing shows as nothing.
func TestExactFormatKeepsTheSign(t *testing.T) {
	f := excelize.NewFile()
	defer f.Close()
	exact := exactFormat
	style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &exact})
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]string{"A1": "-13.000", "B1": "13.000", "C1": "0", "D1": "-0.500", "E1": "0.011", "F1": "-0.002"}
	for cell, x := range map[string]float64{"A1": -13, "B1": 13, "C1": 0, "D1": -0.5, "E1": 0.011, "F1": -0.002} {
		if err := f.SetCellValue("Sheet1", cell, x); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.SetCellStyle("Sheet1", "A1", "F1", style); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "format.xlsx")
	if err := f.SaveAs(path); err != nil {
		t.Fatal(err)
	}
	shown, err := os.ReadFile(officetest.Convert(t, "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true", path)[0])
	if err != nil {
		t.Fatal(err)
	}
	got := strings.Split(strings.TrimSpace(string(shown)), ",")
	for i, cell := range []string{"A1", "B1", "C1", "D1", "E1", "F1"} {
		if i >= len(got) || got[i] != want[cell] {
			t.Errorf("%s: shown as %q, want %s", cell, shown, want[cell])
		}
	}
}

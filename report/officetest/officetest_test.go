package officetest_test

import (
	"path/filepath"
	"testing"

	"github.com/xuri/excelize/v2"

	"standclear/report/officetest"
)

// TestRecalculate plants wrong values behind formulas: a conversion that trusts
// the file would keep them.
func TestRecalculate(t *testing.T) {
	f := excelize.NewFile()
	w, err := f.NewStreamWriter("Sheet1")
	if err != nil {
		t.Fatal(err)
	}
	cells := []any{
		excelize.Cell{Formula: "1+2", Value: 777},
		excelize.Cell{Formula: `IF(A1=3,"three","other")`, Value: "wrong"},
		excelize.Cell{Formula: "A1=3", Value: false},
	}
	if err := w.SetRow("A1", cells); err != nil {
		t.Fatal(err)
	}
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "planted.xlsx")
	if err := f.SaveAs(path); err != nil {
		t.Fatal(err)
	}
	again, err := excelize.OpenFile(officetest.Recalculate(t, path))
	if err != nil {
		t.Fatal(err)
	}
	defer again.Close()
	for cell, want := range map[string]string{"A1": "3", "B1": "three", "C1": "1"} {
		if got, _ := again.GetCellValue("Sheet1", cell, excelize.Options{RawCellValue: true}); got != want {
			t.Errorf("%s is %q, want %q", cell, got, want)
		}
	}
}

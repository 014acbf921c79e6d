package book

import (
	"bytes"
	"math/rand"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"standclear/hazards/file"
	"standclear/report/officetest"
)

// awkward are files with everything that spreadsheet programs change on saving.
func awkward() []file.Read {
	random := make([]byte, 40000)
	rand.New(rand.NewSource(1)).Read(random)
	return []file.Read{
		{Name: "cell.yaml", Data: []byte("a: 1\r\nb: 2\n\n  trailing   \n\ttab\t\n= 1+1\n=1+1\n'x\n+4 -4 @a\n007\n\"quoted\" \\ \\n\n")},
		{Name: "house/gate.yaml", Data: []byte("no line break at the end, _x0041_ _x005F_ _xHHHH_ __x0041_ <a> & &amp; ]]> %d")},
		{Name: "empty.yaml", Data: nil},
		{Name: "breaks.yaml", Data: []byte("\n\n\r\r\n\n\n")},
		{Name: "letters/ä ö *?~.yaml", Data: []byte("\ufeffäöü ß 力 😀 \u00a0\u2028\u2029\u0085 \x7f\x01\x0b\x1f\ufffd\uffff\n")},
		{Name: "long.yaml", Data: []byte("x: " + strings.Repeat("wörter_x0041_ ", 9000) + "\ny: 1\n")},
		{Name: "random.bin", Data: random},
		{Name: "large.yaml", Data: bytes.Repeat([]byte("- {id: row, text: \"a line of a large file\"}\n"), 30000)},
		{Name: `"_x0041_ .yaml`, Data: []byte("a: b")},
		{Name: "blank.yaml", Data: []byte("   ")},
	}
}

func carrying(t *testing.T, files []file.Read) string {
	t.Helper()
	data, err := os.ReadFile("../../testdata/ok/small.yaml")
	if err != nil {
		t.Fatal(err)
	}
	r := assess(t, data)
	r.Files = files
	return written(t, r)
}

// sameFiles compares what a workbook carries with what it was built from.
func sameFiles(t *testing.T, path string, want []file.Read) {
	t.Helper()
	got, err := Carried(path)
	if err != nil {
		t.Fatal(err)
	}
	if len(got) != len(want) {
		t.Fatalf("%d files, want %d", len(got), len(want))
	}
	for i, f := range got {
		if f.Name != want[i].Name || !bytes.Equal(f.Data, want[i].Data) {
			t.Errorf("%s: %d bytes, want %s with %d", f.Name, len(f.Data), want[i].Name, len(want[i].Data))
		}
	}
}

// What a workbook carries comes back byte for byte.
func TestCarried(t *testing.T) {
	sameFiles(t, carrying(t, awkward()), awkward())
	data := demo(t)
	sameFiles(t, written(t, assess(t, data)), []file.Read{{Name: "demo.yaml", Data: data}})
}

// It comes back from a workbook that another program has saved.
func TestCarriedSavedByLibreOffice(t *testing.T) {
	saved := officetest.Recalculate(t, carrying(t, awkward()))
	sameFiles(t, saved, awkward())
}

func TestCarriedSavedByOpenpyxl(t *testing.T) {
	python := "/usr/bin/python3"
	if exec.Command(python, "-c", "import openpyxl").Run() != nil {
		python = officetest.Need(t, "python3")
	}
	if exec.Command(python, "-c", "import openpyxl").Run() != nil {
		officetest.Without(t, "not installed: openpyxl, a library of python3")
	}
	saved := filepath.Join(t.TempDir(), "saved.xlsx")
	const script = "import sys, openpyxl; openpyxl.load_workbook(sys.argv[1]).save(sys.argv[2])"
	if out, err := exec.Command(python, "-c", script, carrying(t, awkward()), saved).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	sameFiles(t, saved, awkward())
	sameFiles(t, officetest.Recalculate(t, saved), awkward())
}

// A file of the greatest size that is read is carried too.
func TestCarriedLargest(t *testing.T) {
	data := bytes.Repeat([]byte("- {id: row-000, situation: a hand lies on the rack while the arm sets a part down}\n"), (32<<20)/80)[:32<<20]
	for i := range data { // no two lines alike
		if data[i] == '0' {
			data[i] = byte('0' + (i/7)%10)
		}
	}
	path := carrying(t, []file.Read{{Name: "cell.yaml", Data: data}})
	if info, err := os.Stat(path); err != nil || info.Size() > 20<<20 {
		t.Errorf("the workbook has %v bytes, %v", info.Size(), err)
	}
	sameFiles(t, path, []file.Read{{Name: "cell.yaml", Data: data}})
}

// The sheet is the last one, hidden but not beyond reach, and its cells are locked.
func TestCarriedSheet(t *testing.T) {
	f, err := excelize.OpenFile(carrying(t, awkward()))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	list := f.GetSheetList()
	if list[len(list)-1] != "Carried" {
		t.Errorf("the last sheet is %s", list[len(list)-1])
	}
	for _, s := range f.WorkBook.Sheets.Sheet {
		if want := map[bool]string{true: "hidden"}[s.Name == "Carried"]; s.State != want {
			t.Errorf("the state of %s is %q, want %q", s.Name, s.State, want)
		}
	}
	if _, err := f.GetSheetProtection("Carried"); err != nil {
		t.Error(err)
	}
}

// What was changed, lost or doubled is said and not handed out.
func TestCarriedThatWasChanged(t *testing.T) {
	path := carrying(t, awkward())
	find := func(f *excelize.File, id string) int {
		rows, err := f.GetRows("Carried", excelize.Options{RawCellValue: true})
		if err != nil {
			t.Fatal(err)
		}
		for i, r := range rows {
			if len(r) > 0 && r[0] == id {
				return i + 1
			}
		}
		t.Fatalf("no row %s", id)
		return 0
	}
	at := func(column string, row int) string {
		cell, err := excelize.JoinCellName(column, row)
		if err != nil {
			t.Fatal(err)
		}
		return cell
	}
	for _, tt := range []struct {
		name, want string
		change     func(f *excelize.File) error
	}{
		{"a letter", "cell.yaml, as carried: it was changed", func(f *excelize.File) error {
			return f.SetCellStr("Carried", at("C", find(f, "carried:1.1")), `"a: 2\r\n"`)
		}},
		{"no quotes", "piece 1 is no quoted text", func(f *excelize.File) error {
			return f.SetCellStr("Carried", at("C", find(f, "carried:1.1")), "a: 1")
		}},
		{"a piece less", "house/gate.yaml, as carried: found 0 pieces, expected 1", func(f *excelize.File) error {
			return f.RemoveRow("Carried", find(f, "carried:2.1"))
		}},
		{"a piece from the middle", "piece 2 is missing", func(f *excelize.File) error {
			return f.RemoveRow("Carried", find(f, "carried:1.2"))
		}},
		{"a piece twice", "piece 2 is missing, or stands there twice", func(f *excelize.File) error {
			return f.SetCellStr("Carried", at("A", find(f, "carried:1.2")), "carried:1.1")
		}},
		{"a file less", "file 2 of those carried is missing", func(f *excelize.File) error {
			return f.RemoveRow("Carried", find(f, "carried:2"))
		}},
		{"a size", "found \"-1\" bytes", func(f *excelize.File) error {
			return f.SetCellStr("Carried", at("D", find(f, "carried:1")), "-1")
		}},
		{"a form", "found the form \"zip\"", func(f *excelize.File) error {
			return f.SetCellStr("Carried", at("E", find(f, "carried:1")), "zip")
		}},
		{"packed", "it cannot be unpacked", func(f *excelize.File) error {
			return f.SetCellStr("Carried", at("C", find(f, "carried:7.1")), "AAAA")
		}},
		{"a strange row", "which is none of a file", func(f *excelize.File) error {
			return f.SetCellStr("Carried", at("A", find(f, "carried:2")), "carried:x")
		}},
		{"the sheet", "carries no files", func(f *excelize.File) error { return f.DeleteSheet("Carried") }},
	} {
		f, err := excelize.OpenFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := tt.change(f); err != nil {
			t.Fatal(err)
		}
		changed := filepath.Join(t.TempDir(), "changed.xlsx")
		if err := f.SaveAs(changed); err != nil {
			t.Fatal(err)
		}
		f.Close()
		if _, err := Carried(changed); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v\nwant %s", tt.name, err, tt.want)
		}
	}
	for _, bad := range []string{"", "PK\x03\x04", "no workbook"} {
		name := filepath.Join(t.TempDir(), "bad.xlsx")
		if err := os.WriteFile(name, []byte(bad), 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := Carried(name); err == nil {
			t.Errorf("%q is read as a workbook", bad)
		}
	}
	if _, err := Carried(filepath.Join(t.TempDir(), "none.xlsx")); err == nil {
		t.Error("a workbook that is not there is read")
	}
}

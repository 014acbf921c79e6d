package book

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"encoding/xml"
	"io"
	"math"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"standclear/limits/expr"
	"standclear/report/officetest"
)

// TestSameBytes: the same result gives the same file, on every run.
func TestSameBytes(t *testing.T) {
	var sums [2][32]byte
	for i := range sums {
		var buf bytes.Buffer
		if err := Write(&buf, assess(t, demo(t))); err != nil {
			t.Fatal(err)
		}
		sums[i] = sha256.Sum256(buf.Bytes())
	}
	if sums[0] != sums[1] {
		t.Errorf("two files of one assessment differ: %x and %x", sums[0], sums[1])
	}
}

// TestCachedValues: every formula carries its value, of the right type, and
// names only cells that are planned.
func TestCachedValues(t *testing.T) {
	r := assess(t, demo(t))
	l, err := lay(Plan(r))
	if err != nil {
		t.Fatal(err)
	}
	in := read(t, written(t, r))
	n := 0
	for _, p := range l.places {
		for i, row := range p.block.Rows {
			for k, cell := range row.Cells {
				if !cell.Live {
					continue
				}
				n++
				at := p.column[p.block.Columns[k].Key] + strconv.Itoa(p.first+i)
				checkCached(t, p.sheet.Name+"!"+at, in[p.sheet.Name][at], cell.Value)
			}
		}
	}
	if n < 5000 {
		t.Errorf("only %d formulas", n)
	}
}

func checkCached(t *testing.T, at string, got cellXML, want expr.Value) {
	t.Helper()
	switch {
	case got.F == "":
		t.Errorf("%s holds no formula", at)
	case want.Kind == expr.Number:
		x, err := strconv.ParseFloat(got.V, 64)
		if err != nil || got.T != "" || math.Abs(x-want.Num) > 1e-12*math.Abs(want.Num) {
			t.Errorf("%s keeps %q of type %q, want the number %v", at, got.V, got.T, want.Num)
		}
	case want.Kind == expr.Bool:
		if got.T != "b" {
			t.Errorf("%s keeps type %q, want a truth value", at, got.T)
		}
	default:
		if got.T != "str" || got.V != want.Text {
			t.Errorf("%s keeps %q of type %q, want the text %q", at, got.V, got.T, want.Text)
		}
	}
}

type cellXML struct {
	R  string `xml:"r,attr"`
	S  int    `xml:"s,attr"`
	T  string `xml:"t,attr"`
	F  string `xml:"f"`
	V  string `xml:"v"`
	IS string `xml:"is>t"`
}

// read gives the cells as they stand in the file, by sheet and address.
func read(t *testing.T, path string) map[string]map[string]cellXML {
	t.Helper()
	f, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := zip.OpenReader(path)
	if err != nil {
		t.Fatal(err)
	}
	defer z.Close()
	out := map[string]map[string]cellXML{}
	for i, name := range f.GetSheetList() {
		in, err := z.Open("xl/worksheets/sheet" + strconv.Itoa(i+1) + ".xml")
		if err != nil {
			t.Fatal(err)
		}
		var sheet struct {
			Rows []struct {
				Cells []cellXML `xml:"c"`
			} `xml:"sheetData>row"`
		}
		if err := xml.NewDecoder(in).Decode(&sheet); err != nil {
			t.Fatal(err)
		}
		in.Close()
		out[name] = map[string]cellXML{}
		for _, r := range sheet.Rows {
			for _, c := range r.Cells {
				out[name][c.R] = c
			}
		}
	}
	return out
}

// TestFeaturesSurvive reopens the file: what was set too late would be missing
// without an error.
func TestFeaturesSurvive(t *testing.T) {
	path := written(t, assess(t, demo(t)))
	f, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for _, s := range f.GetSheetList() {
		panes, err := f.GetPanes(s)
		if err != nil || !panes.Freeze || panes.XSplit != 2 {
			t.Errorf("%s: panes are not frozen: %+v %v", s, panes, err)
		}
		layout, err := f.GetPageLayout(s)
		if err != nil || layout.Orientation == nil || *layout.Orientation != "landscape" || *layout.Size != 9 {
			t.Errorf("%s: no A4 landscape: %+v %v", s, layout, err)
		}
		props, err := f.GetSheetProps(s)
		if err != nil || props.FitToPage == nil || !*props.FitToPage {
			t.Errorf("%s does not fit the page", s)
		}
		if hf, err := f.GetHeaderFooter(s); err != nil || !strings.Contains(hf.OddFooter, "&P of &N") {
			t.Errorf("%s: no page numbers: %v %v", s, hf, err)
		}
		if visible, err := f.GetColVisible(s, "A"); err != nil || visible {
			t.Errorf("%s shows the ids of its rows", s)
		}
	}
	if dv, err := f.GetDataValidations("Hazards"); err != nil || len(dv) < 5 {
		t.Errorf("Hazards offers %d lists of choices", len(dv))
	}
	if cf, err := f.GetConditionalFormats("Hazards"); err != nil || len(cf) == 0 {
		t.Errorf("Hazards colours no words: %v", err)
	}
}

// TestProtected: sheets are guarded, inputs are not, written so that every
// reader sees it.
func TestProtected(t *testing.T) {
	path := written(t, assess(t, demo(t)))
	z, err := zip.OpenReader(path)
	if err != nil {
		t.Fatal(err)
	}
	defer z.Close()
	sheets := 0
	for _, part := range z.File {
		in, err := part.Open()
		if err != nil {
			t.Fatal(err)
		}
		body, _ := io.ReadAll(in)
		in.Close()
		if bytes.Contains(body, []byte("<hyperlink ")) {
			t.Errorf("%s has a link to a fixed cell", part.Name)
		}
		if strings.HasPrefix(part.Name, "xl/worksheets/sheet") {
			sheets++
			columnsInOrder(t, part.Name, body)
			if !bytes.Contains(body, []byte(`<sheetProtection sheet="1"`)) || bytes.Contains(body, []byte("password=")) {
				t.Errorf("%s is not guarded, or by a password", part.Name)
			}
		}
		if strings.HasPrefix(part.Name, "xl/") && attribute.Match(body) && !bytes.Contains(body, []byte("theme")) {
			t.Errorf("%s writes true or false where some readers look for 1 and 0", part.Name)
		}
		if part.Name == "xl/styles.xml" && !bytes.Contains(body, []byte(`locked="0"`)) {
			t.Error("no cell is unlocked")
		}
	}
	if sheets != 17 { // with one of nominal values and one that carries the files
		t.Errorf("%d sheets", sheets)
	}
}

var columnMin = regexp.MustCompile(`<col min="(\d+)"`)

// columnsInOrder: some readers take a file for damaged whose columns are not
// listed from left to right.
func columnsInOrder(t *testing.T, name string, body []byte) {
	t.Helper()
	last := 0
	for _, m := range columnMin.FindAllSubmatch(body, -1) {
		n, _ := strconv.Atoi(string(m[1]))
		if n <= last {
			t.Errorf("%s lists column %d after %d", name, n, last)
			return
		}
		last = n
	}
	if last == 0 {
		t.Errorf("%s lists no columns", name)
	}
}

// TestOpenpyxl: another reader opens the file and finds values and choices.
func TestOpenpyxl(t *testing.T) {
	python := officetest.Need(t, "python3")
	for _, candidate := range []string{"/usr/bin/python3", python} {
		if exec.Command(candidate, "-c", "import openpyxl").Run() == nil {
			python = candidate
		}
	}
	if exec.Command(python, "-c", "import openpyxl").Run() != nil {
		officetest.Without(t, "not installed: openpyxl, a library of python3")
	}
	script := `
import sys, openpyxl
v = openpyxl.load_workbook(sys.argv[1], data_only=True)
f = openpyxl.load_workbook(sys.argv[1])
print(len(v.sheetnames), v["Summary"]["C5"].value, f["Summary"]["C5"].value[:3], f["Cell"].protection.sheet)
print(len(f.defined_names.definedName) if hasattr(f.defined_names, "definedName") else len(f.defined_names))
`
	out, err := exec.Command(python, "-c", script, written(t, assess(t, demo(t)))).CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	if !strings.HasPrefix(string(out), "17 not-ready =IF True\n") {
		t.Errorf("openpyxl reads\n%s", out)
	}
}

func TestValueRefuses(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if _, err := value(num(x), ""); err == nil {
			t.Errorf("%v is written", x)
		}
	}
	if _, err := value(text(strings.Repeat("a", mostText+1)), ""); err == nil {
		t.Error("a text that would be cut is written")
	}
	if v, _ := value(text("_x0041_"), ""); v != "_x005F_x0041_" {
		t.Errorf("_x0041_ is written as %v and read as A", v)
	}
	if v, _ := value(num(0.7*3), ""); v != 2.1 {
		t.Errorf("0.7*3 is written as %v", v)
	}
	if v, _ := value(expr.Value{}, "1+1"); v != "" {
		t.Errorf("a formula without value keeps %v", v)
	}
}

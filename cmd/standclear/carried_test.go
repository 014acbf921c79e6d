package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"standclear/report/book"
	"standclear/report/officetest"
)

const carriedCell = `assessment:
  title: Cell
  number: T-1
  revision: A
  date: 2026-11-25
  prepared_by: {name: A. Writer, role: engineer}
  placing: {put_into_service: 2027-02-15, role: integrator, scope: assembly}
  places: [eu]
  method: hybrid
  basis: {sheets: [own/sheets], tables: [own/tables], contact_data: foot.yaml}   
cell:
  people: [{id: packer, kind: operator}]
  robots: [{id: arm}]
tasks:
  - {id: pack, name: pack, kind: running, people: [packer], how_often: always}
checks:
  - {id: gate, sheet: house-gate, given: {reach: 700 mm, available: 900 mm}}
hazards: []
`

// carriedFolder writes an assessment with everything that a house may bring, in
// line breaks of either kind.
func carriedFolder(t *testing.T) (dir string, files map[string]string) {
	t.Helper()
	files = map[string]string{
		"cell.yaml":               strings.ReplaceAll(carriedCell, "\n", "\r\n"),
		"own/sheets/gate.yaml":    "# =1+1\nid: house-gate\ntitle: Gate\ngroup: other\nstandard: {id: house rule 12}\nstanding: practice\ninputs:\n  reach: {unit: mm, means: reach, above: 0, to: 5000}\n  available: {unit: mm, means: height, above: 0, to: 5000}\nsteps:\n  h: {unit: mm, means: least height, is: 2*reach}\nverdict: {holds: available >= h, over: too low, why: high enough}\nresults: [h]\n",
		"own/tables/sources.yaml": "sources: {shelf: {title: House rules, address: shelf 4}}\n",
		"own/tables/house.yaml":   "id: house-table\ntitle: Table\nstandard: {id: house rule 3}\nkey: part\ncolumns:\n  part: {means: part}\n  gap: {unit: mm, means: gap, source: [shelf], standing: single}\nrows:\n  - {part: hand, gap: 110}\n",
		"foot.yaml":               "title: Foot\nown: report 7 _x0041_\nstanding: single\nareas: [{area: palm-d, p_s: 250 N/cm2}]\n",
	}
	dir = t.TempDir()
	for name, text := range files {
		writeText(t, filepath.Join(dir, name), text)
	}
	writeText(t, filepath.Join(dir, "own/sheets/notes.txt"), "not read")
	return dir, files
}

func built(t *testing.T, args ...string) {
	t.Helper()
	var both bytes.Buffer
	if code := run(args, &both, &both); code != exitDone {
		t.Fatalf("%v: code %d\n%s", args, code, both.String())
	}
}

// Every file that an assessment was built from is in the workbook and beside the
// summary, whatever folder the program was started in.
func TestBuiltFromIsCarried(t *testing.T) {
	dir, files := carriedFolder(t)
	built(t, "build", filepath.Join(dir, "cell.yaml"), "-o", filepath.Join(dir, "a"))
	t.Chdir(dir)
	built(t, "build", "cell.yaml", "-o", "b")
	for _, name := range []string{"cell.xlsx", "cell.pdf", "cell.json"} {
		a, err := os.ReadFile(filepath.Join("a", name))
		if err != nil {
			t.Fatal(err)
		}
		if b, err := os.ReadFile(filepath.Join("b", name)); err != nil || !bytes.Equal(a, b) {
			t.Errorf("%s differs with the folder that the program was started in (%v)", name, err)
		}
	}
	carried, err := book.Carried("b/cell.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	if len(carried) != len(files) || carried[0].Name != "cell.yaml" {
		t.Errorf("%d files are carried, want %d, the assessment first", len(carried), len(files))
	}
	for _, f := range carried {
		if want, ok := files[f.Name]; !ok || want != string(f.Data) {
			t.Errorf("%s: carried\n%q\nwant\n%q", f.Name, f.Data, want)
		}
	}
	attached(t, "b/cell.pdf", files)
}

// attached holds the attachments of the summary against the files.
func attached(t *testing.T, pdf string, files map[string]string) {
	t.Helper()
	if out, err := exec.Command(officetest.Need(t, "qpdf"), "--check", pdf).CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
	out := t.TempDir()
	if said, err := exec.Command(officetest.Need(t, "pdfdetach"), "-saveall", "-o", out, pdf).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	for name, want := range files {
		got, err := os.ReadFile(filepath.Join(out, strings.ReplaceAll(name, "/", "_")))
		if err != nil || string(got) != want {
			t.Errorf("attached %s: %q, %v", name, got, err)
		}
	}
}

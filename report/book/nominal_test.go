package book

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"standclear/hazards/hazardstest"
	"standclear/report/officetest"
)

// looseChecks have tolerances of every kind: one value of the cell at its upper
// end in one check and at its lower end in another, in sums with numbers, typed
// into checks, making a range wider, behind results that others take, and in lists.
const looseChecks = `  - {id: carries, sheet: payload, given: {rated: {is: 30 kg, from: datasheet}, tool: arm.moving_mass, part: {is: 1 kg, from: measured}}}
  - {id: carried, sheet: payload, given: {rated: arm.moving_mass + 1 kg ± 0.2 kg, tool: {is: 2 kg ± 0.3 kg, from: measured}, part: {is: 1 kg, from: measured}}}
  - {id: typed, sheet: payload, given: {rated: {is: 10 kg ± 0.4 kg, from: measured}, tool: {is: 2 kg ± 0.3 kg, from: measured}, part: {is: 1 kg, from: measured}, offset: {is: 70 mm ± 5 mm, from: measured}}}
  - {id: tray, sheet: reach-over, given: {T: {is: 0.1 s, from: measured}, a: 1300 mm ± 50 mm, b: {is: 1301 mm ± 2 mm, from: measured}}}
  - {id: face, sheet: light-curtain, given: {T: {is: 0.1 s, from: measured}, d: {is: 30 mm, from: datasheet}, C_RO: tray.C_RO, under: no, behind: no, available: {is: 1.5 m, from: measured}}}
  - {id: beyond, sheet: light-curtain, given: {T: {is: 0.1 s ± 0.01 s, from: measured}, d: {is: 30 mm ± 1 mm, from: datasheet}, C_RO: face.C + 1 cm, under: no, behind: no, available: {is: 1.5 m, from: measured}}}
  - {id: wear, sheet: b10, given: {B10D: {is: 2e6 ± 1e5, from: datasheet}, days: 220, hours: 16, cycle: {is: 12 s, from: measured}}}
  - {id: valve, sheet: level-estimate, given: {category: 3, DC: medium, MTTFD: wear.MTTFD, CCF: {is: 75, from: measured}}}
  - {id: sub-chain, sheet: level-chain, given: {PFH: [valve.PFH, {is: 1e-8 ± 1e-9, from: datasheet}], levels: [valve.PL, e], categories: [3, 3], required: d}}
  - {id: firm, sheet: payload, given: {rated: {is: 10 kg, from: datasheet}, tool: {is: 2 kg, from: measured}, part: {is: 1 kg, from: measured}}}
`

// loose is an assessment with tolerances, after changes.
func loose(t testing.TB, changes ...string) []byte {
	t.Helper()
	s := string(hazardstest.YAML(hazardstest.Size{Hazards: 2, Checks: 2}))
	at := strings.Index(s, "moving_mass: {is: ")
	if at < 0 {
		t.Fatal("no moving mass")
	}
	n := at + strings.Index(s[at:], ",")
	s = s[:at] + "moving_mass: {is: 12 kg ± 1 kg" + s[n:]
	for changes := append([]string{"checks:\n", "checks:\n" + looseChecks}, changes...); len(changes) > 0; changes = changes[2:] {
		if !strings.Contains(s, changes[0]) {
			t.Fatalf("no %q", changes[0])
		}
		s = strings.Replace(s, changes[0], changes[1], 1)
	}
	return []byte(s)
}

var looseEdits = []struct {
	name    string
	edits   []typed
	changes []string
	stale   []string // checks whose corner may no longer be the worst
	kept    []string
}{
	{"value of the cell", []typed{{factsBlock, "arm.moving_mass", "value", 14}}, []string{"12 kg ± 1 kg", "14 kg ± 1 kg"},
		[]string{"payload/carries", "payload/carried"}, []string{"payload/typed", "reach-over/tray"}},
	{"tolerance of the cell", []typed{{factsBlock, "arm.moving_mass", "tol", 2.5}}, []string{"12 kg ± 1 kg", "12 kg ± 2.5 kg"},
		[]string{"payload/carries", "payload/carried"}, []string{"payload/typed"}},
	{"value typed into a check", []typed{{typedBlock, "typed.rated", "value", 8}}, []string{"10 kg ± 0.4 kg", "8 kg ± 0.4 kg"},
		[]string{"payload/typed"}, []string{"payload/carries", "payload/carried"}},
	{"tolerance typed into a check", []typed{{typedBlock, "typed.rated", "tol", 8}, {typedBlock, "carried.tool", "tol", 0.1}}, []string{"10 kg ± 0.4 kg", "10 kg ± 8 kg", "2 kg ± 0.3 kg", "2 kg ± 0.1 kg"},
		[]string{"payload/typed", "payload/carried"}, []string{"payload/carries"}},
	{"tolerance gone", []typed{{typedBlock, "beyond.T", "tol", 0}}, []string{"0.1 s ± 0.01 s", "0.1 s"}, []string{"light-curtain/beyond"}, []string{"light-curtain/face"}},
	{"range wider", []typed{{typedBlock, "tray.a_lo", "tol", 150}, {typedBlock, "tray.a_hi", "tol", 150}}, []string{"1300 mm ± 50 mm", "1300 mm ± 150 mm"},
		[]string{"reach-over/tray", "light-curtain/face", "light-curtain/beyond"}, []string{"payload/typed"}},
	{"behind a result of a result", []typed{{typedBlock, "wear.B10D", "tol", 8e5}}, []string{"2e6 ± 1e5", "2e6 ± 8e5"},
		[]string{"b10/wear", "level-estimate/valve", "level-chain/sub-chain"}, []string{"light-curtain/face"}},
	{"value without a tolerance", []typed{{"payload", "typed", "part", 3}}, []string{"tool: {is: 2 kg ± 0.3 kg, from: measured}, part: {is: 1 kg, from: measured}, offset", "tool: {is: 2 kg ± 0.3 kg, from: measured}, part: {is: 3 kg, from: measured}, offset"},
		[]string{"payload/typed"}, []string{"payload/carried"}},
}

// TestTolerancesRecalculated: worst corner and nominal values are live. Workbook
// and program agree as built and after edits of values and tolerances, as long as
// the corner stays; the cell that names the corner says that it may not.
func TestTolerancesRecalculated(t *testing.T) {
	r := assess(t, loose(t))
	for id, want := range map[string]string{"carries": "at tool 13 kg (upper end)", "carried": "at rated 11.8 kg (lower end), tool 2.3 kg (upper end)",
		"typed": "at rated 9.6 kg (lower end), tool 2.3 kg (upper end)", "tray": "at a 1250 mm (lower end), a 1350 mm (upper end), b 1299 mm (lower end)"} {
		if got := r.Check(id).Corner; got != want {
			t.Errorf("%s: %q, want %q", id, got, want)
		}
	}
	l, err := lay(Plan(r))
	if err != nil {
		t.Fatal(err)
	}
	paths := []string{written(t, r)}
	for _, e := range looseEdits {
		path := filepath.Join(t.TempDir(), strings.ReplaceAll(e.name, " ", "-")+".xlsx")
		if err := os.Rename(written(t, r), path); err != nil {
			t.Fatal(err)
		}
		f, err := excelize.OpenFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range e.edits {
			name, at := l.cellOf(t, x.block, x.row, x.key)
			if err := f.SetCellValue(name, at, x.value); err != nil {
				t.Fatal(err)
			}
		}
		if err := f.Save(); err != nil {
			t.Fatal(err)
		}
		f.Close()
		paths = append(paths, path)
	}
	again := officetest.Convert(t, "xlsx", paths...)
	for _, d := range differences(cells(t, paths[0]), cells(t, again[0])) {
		t.Errorf("as built: %s", d)
	}
	for i, e := range looseEdits {
		got := cells(t, again[i+1])
		compared, changed := l.compare(t, Plan(assess(t, loose(t, e.changes...))), got)
		if compared < 300 || changed < 3 {
			t.Errorf("%s: %d compared, %d changed", e.name, compared, changed)
		}
		for _, row := range e.stale {
			block, id, _ := strings.Cut(row, "/")
			l.expect(t, e.name, got, []typed{{block, id, cornerKey, cornerOutOfDate}})
		}
		for _, row := range e.kept {
			block, id, _ := strings.Cut(row, "/")
			l.expect(t, e.name, got, []typed{{block, id, cornerKey, r.Check(id).Corner}})
		}
	}
}

// A tolerance that cannot be is no tolerance of nothing.
func TestImpossibleTolerance(t *testing.T) {
	r := assess(t, loose(t))
	l, path, f := opened(t, r)
	for _, x := range []typed{{typedBlock, "typed.rated", "tol", "some"}, {typedBlock, "carried.tool", "tol", -1}, {factsBlock, "arm.moving_mass", "tol", "?"}} {
		name, at := l.cellOf(t, x.block, x.row, x.key)
		if err := f.SetCellValue(name, at, x.value); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
	f.Close()
	got := cells(t, officetest.Recalculate(t, path))
	for _, id := range []string{"typed", "carried", "carries"} {
		l.expect(t, "impossible", got, []typed{{"payload", id, "verdict", "not-decided"}})
	}
}

// Without tolerances there is neither the sheet nor a column for it.
func TestNominalOnlyWhereNeeded(t *testing.T) {
	r := assess(t, loose(t))
	r.Nominal = nil
	for _, s := range Plan(r).Sheets {
		for _, b := range s.Blocks {
			if s.Name == "Nominal" || b.Column(cornerKey) >= 0 {
				t.Errorf("%s, %s", s.Name, b.ID)
			}
		}
	}
	with := map[string]bool{}
	for _, s := range Plan(assess(t, loose(t))).Sheets {
		for _, b := range s.Blocks {
			with[b.ID] = b.Column(cornerKey) >= 0
		}
	}
	if !with["payload"] || with["required-level"] || with["nominal:payload"] {
		t.Errorf("%v", with)
	}
}

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

// lentChecks take results of each other: over two sheets, within one sheet, in
// sums and other units, words, with nothing lent, and for safety functions: with
// rates, with a part whose check lends nothing, and with levels that are counted.
const lentChecks = `  - {id: face, sheet: light-curtain, given: {T: {is: 0.1 s, from: measured}, d: {is: 30 mm, from: datasheet}, C_RO: tray.C_RO, under: no, behind: no, available: {is: 1.5 m, from: measured}}}
  - {id: back, sheet: light-curtain, given: {T: {is: 0.1 s, from: measured}, d: {is: 30 mm, from: datasheet}, C_RO: tray.C_RO + 1 cm, under: no, behind: no, available: {is: 1.5 m, from: measured}}}
  - {id: behind-face, sheet: light-curtain, given: {T: {is: 0.1 s, from: measured}, d: {is: 30 mm, from: datasheet}, C_RO: face.C, under: no, behind: no, available: {is: 1.5 m, from: measured}}}
  - {id: tray, sheet: reach-over, given: {T: {is: 0.1 s, from: measured}, a: 1200..1400 mm, b: {is: 1300 mm, from: measured}}}
  - {id: lost, sheet: reach-over, given: {T: {is: 0.1 s, from: measured}, a: 1200..1400 mm, b: {is: 800 mm, from: measured}}}
  - {id: nowhere, sheet: light-curtain, given: {T: {is: 0.1 s, from: measured}, d: {is: 30 mm, from: datasheet}, C_RO: lost.C_RO, under: no, behind: no, available: {is: 1.5 m, from: measured}}}
  - {id: wear, sheet: b10, given: {B10D: {is: 2e6, from: datasheet}, days: 220, hours: 16, cycle: {is: 12 s, from: measured}}}
  - {id: doubled, sheet: two-channels, given: {C1: wear.MTTFD, C2: {is: 60, from: datasheet}}}
  - {id: again, sheet: two-channels, given: {C1: doubled.MTTFD, C2: doubled.MTTFD + 1}}
  - {id: valve, sheet: level-estimate, given: {category: 3, DC: medium, MTTFD: again.MTTFD, CCF: {is: 75, from: measured}}}
  - {id: doubtful, sheet: b10, given: {B10D: {is: 2e6, from: datasheet}, days: 220, hours: 16, cycle: {is: 12 s, from: measured}, stated: 1}}
  - {id: confirmed, sheet: b10, given: {B10D: {is: 2e6, from: datasheet}, days: 220, hours: 16, cycle: {is: 12 s, from: measured}, stated: doubtful.MTTFD}}
  - {id: lock, sheet: level-estimate, given: {category: 3, DC: medium, MTTFD: {is: 62, from: measured}}}
  - {id: latch, sheet: level-estimate, given: {category: 3, DC: medium, MTTFD_band: high, CCF: {is: 75, from: measured}}}
  - {id: need, sheet: required-level, given: {S: S2, F: F1, P: P2}}
  - {id: sub-chain, sheet: level-chain, given: {PFH: [valve.PFH, {is: 1e-8, from: datasheet}], levels: [valve.PL, e], categories: [3, 3], required: need.PL_r}}
`

// lentFunctions stand behind that of the base.
const lentFunctions = `    - id: hold-lid
      does: holds the lid shut
      kind: guard-interlock
      required: {level: d, category: 3, because: S2 F1 P2}
      parts:
        - {uses: scanner, pfh: {is: 8.0e-8, from: datasheet}, level: e, category: 4}
        - {uses: bolt, by: lock}
        - {uses: hinge, by: valve}
    - id: hold-flap
      does: holds the flap shut
      kind: guard-interlock
      required: {level: c, category: 3, because: S2 F1 P1}
      parts:
        - {uses: scanner, level: d, category: 3}
        - {uses: tongue, by: latch}
    - id: hold-door
      does: holds the door shut
      kind: guard-interlock
      required: {level: c, category: 3, because: S2 F1 P1}
      parts:
        - {uses: hook, by: latch}
        - {uses: hinge, by: valve}
`

// lent is an assessment whose checks take results, after changes.
func lent(t testing.TB, changes ...string) []byte {
	t.Helper()
	s := string(hazardstest.YAML(hazardstest.Size{Hazards: 2, Checks: 2}))
	changes = append([]string{"checks:\n", "checks:\n" + lentChecks, "{uses: arm, pfh: {is: 1.8e-7, from: datasheet}, level: d, category: 3}", "{uses: arm, by: valve}",
		"  control:\n", lentFunctions + "  control:\n"}, changes...)
	for i := 0; i < len(changes); i += 2 {
		if !strings.Contains(s, changes[i]) {
			t.Fatalf("no %q", changes[i])
		}
		s = strings.Replace(s, changes[i], changes[i+1], 1)
	}
	return []byte(s)
}

// lentEdits are edits of what is behind results, with the same change of the file.
var lentEdits = []struct {
	name    string
	edits   []typed
	changes []string
	want    []typed
}{
	{"edge of the tray higher", []typed{{"reach-over", "tray", "b", 1900}}, []string{"b: {is: 1300 mm", "b: {is: 1900 mm"},
		[]typed{{"light-curtain", "face", "verdict", "within"}}},
	{"edge of the tray too low to count", []typed{{"reach-over", "tray", "b", 800}}, []string{"b: {is: 1300 mm", "b: {is: 800 mm"},
		[]typed{{"light-curtain", "face", "verdict", "not-decided"}, {"light-curtain", "behind-face", "verdict", "not-decided"}}},
	{"the lost edge found", []typed{{"reach-over", "lost", "b", 1400}}, []string{"b: {is: 800 mm", "b: {is: 1400 mm"},
		[]typed{{"light-curtain", "nowhere", "verdict", "within"}}},
	{"typed over", []typed{{"light-curtain", "nowhere", "C_RO", 0}, {"reach-over", "tray", "available", 100}}, []string{"C_RO: lost.C_RO", "C_RO: 0 mm", "b: {is: 1300 mm, from: measured}", "b: {is: 1300 mm, from: measured}, available: 100 mm"},
		[]typed{{"light-curtain", "nowhere", "verdict", "within"}, {"light-curtain", "face", "verdict", "within"}}},
	{"faster wear", []typed{{"b10", "wear", "cycle", 6}}, []string{"cycle: {is: 12 s", "cycle: {is: 6 s"},
		[]typed{{"level-chain", "stop-on-scanner", "verdict", "within"}}},
	{"worn out", []typed{{"b10", "wear", "cycle", 0.1}}, []string{"cycle: {is: 12 s", "cycle: {is: 0.1 s"},
		[]typed{{"level-chain", "stop-on-scanner", "verdict", "not-decided"}, {"level-estimate", "valve", "verdict", "not-decided"}}},
	{"another category and a score too few", []typed{{"level-estimate", "valve", "category", "1"}, {"level-estimate", "valve", "DC", "none"}}, []string{"category: 3, DC: medium", "category: 1, DC: none"},
		[]typed{{"level-chain", "stop-on-scanner", "verdict", "over"}}},
	{"score missing", []typed{{"level-estimate", "valve", "CCF", nil}}, []string{", CCF: {is: 75, from: measured}", ""},
		append(silent("stop-on-scanner"), silent("sub-chain")...)},
	{"score of the lock found", []typed{{"level-estimate", "lock", "CCF", 80}}, []string{"MTTFD: {is: 62, from: measured}}", "MTTFD: {is: 62, from: measured}, CCF: 80}"},
		[]typed{{"level-chain", "hold-lid", "verdict", "within"}, {"level-chain", "hold-lid", "PL", "d"}}},
	{"years where levels are counted", []typed{{"level-estimate", "latch", "MTTFD_band", nil}, {"level-estimate", "latch", "MTTFD", 62}}, []string{"MTTFD_band: high", "MTTFD: 62"},
		append(silent("hold-flap"), typed{"level-chain", "hold-door", "verdict", "within"})},
	{"doubt gone", []typed{{"b10", "doubtful", "stated", nil}}, []string{", stated: 1}", "}"},
		[]typed{{"b10", "confirmed", "verdict", "within"}}},
	{"less needed", []typed{{"required-level", "need", "S", "S1"}}, []string{"S: S2", "S: S1"}, nil},
}

// silent: a chain of which some part has no figures gives neither sum nor level.
func silent(id string) []typed {
	return []typed{{"level-chain", id, "verdict", "not-decided"}, {"level-chain", id, "PFH_sum", ""}, {"level-chain", id, "PL", ""},
		{"level-chain", id, "PFH_1", ""}, {"level-chain", id, "levels_1", ""}, {"level-chain", id, "PFH_2", ""}, {"level-chain", id, "levels_2", ""}}
}

// TestLentRecalculated: what checks take from each other is live. Workbook and
// program agree as built, and after edits of what is behind.
func TestLentRecalculated(t *testing.T) {
	r := assess(t, lent(t))
	l, err := lay(Plan(r))
	if err != nil {
		t.Fatal(err)
	}
	save := func(name string, edits []typed) string {
		path := filepath.Join(t.TempDir(), name+".xlsx")
		if err := os.Rename(written(t, r), path); err != nil {
			t.Fatal(err)
		}
		f, err := excelize.OpenFile(path)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		for _, e := range edits {
			name, at := l.cellOf(t, e.block, e.row, e.key)
			if err := f.SetCellValue(name, at, e.value); err != nil {
				t.Fatal(err)
			}
		}
		if err := f.Save(); err != nil {
			t.Fatal(err)
		}
		return path
	}
	paths := []string{written(t, r)}
	for _, e := range lentEdits {
		paths = append(paths, save(strings.ReplaceAll(e.name, " ", "-"), e.edits))
	}
	// a row that is no longer where it was gives nothing to a check of its own sheet
	paths = append(paths, save("sorted", []typed{{"two-channels", "doubled", idKey, "elsewhere"}}))
	again := officetest.Convert(t, "xlsx", paths...)
	for _, d := range differences(cells(t, paths[0]), cells(t, again[0])) {
		t.Errorf("as built: %s", d)
	}
	l.expect(t, "as built", cells(t, again[0]), append(append(silent("hold-lid"), silent("hold-door")...),
		typed{"level-chain", "hold-flap", "verdict", "within"}, typed{"level-chain", "hold-flap", "PL", "d"}))
	for i, e := range lentEdits {
		got := cells(t, again[i+1])
		compared, changed := l.compare(t, Plan(assess(t, lent(t, e.changes...))), got)
		if compared < 300 || changed < 3 {
			t.Errorf("%s: %d compared, %d changed", e.name, compared, changed)
		}
		l.expect(t, e.name, got, e.want)
	}
	l.expect(t, "sorted", cells(t, again[len(again)-1]), []typed{{"two-channels", "again", "verdict", "not-decided"}, {"level-estimate", "valve", "verdict", "not-decided"}})
}

func (l *layout) expect(t *testing.T, name string, got map[string]map[string]string, want []typed) {
	t.Helper()
	for _, w := range want {
		sheet, at := l.cellOf(t, w.block, w.row, w.key)
		if v := got[sheet][at]; v != w.value {
			t.Errorf("%s: %s, %s, %s is %q, want %q", name, w.block, w.row, w.key, v, w.value)
		}
	}
}

// Blocks whose results nobody takes have no column for it.
func TestLendsOnlyWhereTaken(t *testing.T) {
	with := map[string]bool{}
	for _, s := range Plan(assess(t, lent(t))).Sheets {
		for _, b := range s.Blocks {
			if b.Column(lendsKey) >= 0 {
				with[b.ID] = true
			}
		}
	}
	for id, want := range map[string]bool{"reach-over": true, "light-curtain": true, "b10": true, "two-channels": true, "level-estimate": true, "required-level": true, "level-chain": false, "payload": false} {
		if with[id] != want {
			t.Errorf("%s: %v", id, with[id])
		}
	}
}

package book

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"standclear/hazards"
	"standclear/limits/sheet"
	"standclear/report/officetest"
)

// typed is what somebody types into a cell; nil empties it.
type typed struct {
	block, row, key string
	value           any
}

// doubts are edits after which something must no longer be held for good, each
// group in a workbook of its own. want gives verdicts and states by row.
var doubts = []struct {
	name  string
	edits []typed
	want  []typed
}{
	{"push, gap, grid, head, acceptance, words", []typed{
		{factsBlock, "arm.shelf.force", "value", 175}, // 200 N with its tolerance
		{factsBlock, "arm-at-shelf.free.gap", "value", 50},
		{factsBlock, "run.speed", "value", 40},
		{contactsBlock, "finger-in-jaws", "head", nil},
		{hazardsBlock, "H-06", "by", nil},
		{hazardsBlock, "H-08", "decision", "agree"},
		{hazardsBlock, "H-12", "decision", "Accept"},
		{hazardsBlock, "H-19", "by", "  "},
		{measuresBlock, "H-20-1", "state", "soon"},
		{measuresBlock, "H-22-1", "state", nil},
		{factsBlock, "arm.guide.force", "tol", "abc"},
	}, []typed{
		{contactsBlock, "hand-at-shelf", "verdict", "over"},
		{"contact-clamped", "hand-at-shelf/palm-d/jaws/base-half", finalKey, "over"},
		{contactsBlock, "arm-at-shelf", "verdict", "not-decided"},
		{"parallel-field", "aisle-scanner-distance", "verdict", "not-decided"},
		{"ssm", "aisle-separation", "verdict", "not-decided"},
		{"ssm-speed", "clear-speed-with-new-bench", "verdict", "not-decided"},
		{"reach-over", "tray-reach-over", "verdict", "within"}, // of another task
		{contactsBlock, "finger-in-jaws", "verdict", "not-decided"},
		{hazardsBlock, "H-01", "status", "refused"},
		{hazardsBlock, "H-02", "status", "open"},
		{hazardsBlock, "H-06", "status", "open"},
		{hazardsBlock, "H-08", "status", "open"},
		{hazardsBlock, "H-12", "status", "open"},
		{hazardsBlock, "H-19", "status", "open"},
		{hazardsBlock, "H-20", "status", "refused"},
		{hazardsBlock, "H-22", "status", "refused"},
		{contactsBlock, "hand-while-guiding", "verdict", "not-decided"},
	}},
	{"edges, gap and tolerance", []typed{
		{wordsBlock, "jaws.edges", "used", nil},
		{factsBlock, "arm-at-shelf.free.gap", "value", nil},
		{factsBlock, "arm.guide.force", "tol", -25},
		{factsBlock, "run.load", "value", nil}, // the point was chosen by it
	}, []typed{
		{contactsBlock, "hand-at-shelf", "verdict", "not-decided"},
		{contactsBlock, "hand-at-nest", "verdict", "over"},
		{contactsBlock, "arm-at-shelf", "verdict", "not-decided"},
		{contactsBlock, "hand-while-guiding", "verdict", "not-decided"},
		{"parallel-field", "aisle-scanner-distance", "verdict", "not-decided"},
	}},
	{"temperature, share asked less, speed typed over", []typed{
		{factsBlock, "base-half.temperature", "value", "warm"},
		{factsBlock, "run.load", "value", 50},
		{factsBlock, "hand-while-guiding.speed", "value", 900},
		{pointsBlock, "V-02", "method", "review"},
		{pointsBlock, "V-04", "pressure", "n/a"},
	}, []typed{
		{"contact-transient", "arm-at-shelf/deltoid/jaws/base-half", finalKey, "not-decided"},
		{"contact-clamped", "hand-at-shelf/palm-d/jaws/base-half", finalKey, "not-decided"},
		{"contact-clamped", "hand-at-shelf/palm-d/jaws/long-base", finalKey, "within-model"},
		{"contact-clamped", "hand-at-shelf/palm-d/cup-bar/long-base", finalKey, "within-model"},
		{"parallel-field", "aisle-scanner-distance", "verdict", "not-decided"},
		{contactsBlock, "hand-while-guiding", "verdict", "over"},
	}},
	{"pressure, peak and body part", []typed{
		{pointsBlock, "V-02", "pressure", -3},
		{pointsBlock, "V-02", "peak", "?"},
		{pointsBlock, "V-04", "peak", 0},
		{pointsBlock, "V-01", "steady", "low"},
		{pointsBlock, "V-03", "body_area", "paw"},
	}, []typed{
		{contactsBlock, "hand-at-shelf", "verdict", "within-model"},
		{"contact-clamped", "hand-at-shelf/palm-d/jaws/long-base", finalKey, "within-model"},
		{"contact-clamped", "hand-at-shelf/palm-d/cup-bar/long-base", finalKey, "within-model"},
		{"contact-clamped", "hand-at-shelf/palm-d/jaws/base-half", finalKey, "within-model"},
		{"contact-clamped", "hand-at-shelf/palm-d/cup-bar/base-half", finalKey, "within-model"},
	}},
}

// TestDoubts: an edit that leaves something unanswered or impossible never ends
// in a milder verdict than the file would get.
func TestDoubts(t *testing.T) {
	r := assess(t, demo(t))
	l, err := lay(Plan(r))
	if err != nil {
		t.Fatal(err)
	}
	var paths []string
	for i, d := range doubts {
		path := filepath.Join(t.TempDir(), fmt.Sprintf("doubt-%d.xlsx", i))
		if err := os.Rename(written(t, r), path); err != nil {
			t.Fatal(err)
		}
		f, err := excelize.OpenFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range d.edits {
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
		got := cells(t, again)
		for _, w := range doubts[i].want {
			name, at := l.cellOf(t, w.block, w.row, w.key)
			if v := got[name][at]; v != w.value {
				t.Errorf("%s: %s, %s, %s is %q, want %q", doubts[i].name, w.block, w.row, w.key, v, w.value)
			}
		}
	}
}

// TestDoubtsAlike holds the verdicts wanted against those of the program, where
// a file can say the same.
func TestDoubtsAlike(t *testing.T) {
	s := strings.Replace(string(demo(t)), "gap: {is: 180 mm", "gap: {is: 50 mm", 1)
	at := strings.Index(s, "id: shelf, mode")
	n := strings.Index(s[at:], "force: 75 N")
	if n < 0 {
		t.Fatal("the demo has no such force")
	}
	s = s[:at+n] + "force: 175 N" + s[at+n+len("force: 75 N"):]
	r := assess(t, []byte(s))
	for id, want := range map[string]sheet.Verdict{"hand-at-shelf": sheet.Over, "arm-at-shelf": sheet.NotDecided} {
		if c := r.Contact(id); c.Verdict != want {
			t.Errorf("%s is %s: %s", id, c.Verdict, c.Why)
		}
	}
	if i := slices.IndexFunc(r.Rows, func(x hazards.Row) bool { return x.ID == "H-01" }); r.Rows[i].Status != hazards.RowRefused {
		t.Errorf("H-01 is %s", r.Rows[i].Status)
	}
}

// TestUseRoundsUp: what is used of a limit is never shown as less.
func TestUseRoundsUp(t *testing.T) {
	n := 0
	for _, s := range Plan(assess(t, demo(t))).Sheets {
		for _, b := range s.Blocks {
			shown, exact := b.Column(shownUseKey), b.Column("use")
			if shown < 0 {
				continue
			}
			for _, row := range b.Rows {
				up, use := row.Cells[shown].Value, row.Cells[exact].Value
				if up.Num < use.Num-1e-9 || up.Num > use.Num+0.001 || up.Kind != use.Kind {
					t.Errorf("%s, %s shows %s of %s", b.ID, row.ID, strconv.FormatFloat(up.Num, 'g', -1, 64), strconv.FormatFloat(use.Num, 'g', -1, 64))
				}
				n++
			}
		}
	}
	if n < 100 {
		t.Errorf("only %d checks", n)
	}
}

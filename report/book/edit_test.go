package book

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"standclear/hazards"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/report/officetest"
)

// change is one edit: of an input cell, and of the same thing in the file.
type change struct {
	block, row, key string
	value           any
	after           string // the text to change stands behind this
	from, to        string
}

// changes are edits of every kind of input.
var changes = []change{
	{factsBlock, "arm.moving_mass", "value", 14.1, "moving_mass: {is: ", "12.4 kg", "14.1 kg"},
	{factsBlock, "jaws.mass", "value", 1.31, "what: electric two-jaw gripper", "1.15 kg", "1.31 kg"},
	{factsBlock, "long-base.mass", "value", 1.5, "id: long-base", "1.35 kg", "1.5 kg"},
	{factsBlock, "hand-at-nest.area", "value", 0.9, "id: hand-at-nest", "0.62 cm2", "0.9 cm2"},
	{factsBlock, "arm.shelf.tcp_speed", "value", 132, "id: shelf, mode", "tcp_speed: 140 mm/s ± 10 mm/s", "tcp_speed: 132 mm/s ± 4 mm/s"},
	{factsBlock, "arm.shelf.tcp_speed", "tol", 4, "", "", ""},
	{factsBlock, "arm.guide.force", "value", 70, "id: guide, mode", "force: 60 N ± 25 N", "force: 70 N ± 12 N"},
	{factsBlock, "arm.guide.force", "tol", 12, "", "", ""},
	{factsBlock, "scanner.response", "value", 0.09, "id: scanner", "0.08 s", "0.09 s"},
	{factsBlock, "arm.input_response", "value", 0.02, "input_response: {is: ", "0.014 s", "0.02 s"},
	{factsBlock, "arm.c1-100-33.time", "value", 0.33, "id: c1-100-33", "0.28 s", "0.33 s"},
	{factsBlock, "arm.c1-100-33.distance", "value", 104, "id: c1-100-33", "96 mm", "104 mm"},
	{factsBlock, "scanner.height", "value", 320, "id: scanner", "280 mm", "320 mm"},
	{factsBlock, "scanner.supplement", "value", 120, "id: scanner", "supplement: {is: 100 mm", "supplement: {is: 120 mm"},
	{factsBlock, "tray-curtain.upper_edge", "value", 1410, "id: tray-curtain", "1810 mm", "1410 mm"},
	{factsBlock, "cover-half.temperature", "value", 45, "id: cover-half", "24 degC", "45 degC"},
	{"b10", "press-valve-wear", "cycle", 4, "id: press-valve-wear", "5.5 s", "4 s"},
	{wordsBlock, "base-half.edges", "used", "blunt", "weighing 2026-10-12\"},\n", "edges: rounded", "edges: blunt"},
	{"parallel-field", "aisle-scanner-distance", "available", 2000, "id: aisle-scanner-distance", "1850 mm", "2000 mm"},
	{"light-curtain", "press-curtain-distance", "available", 260, "id: press-curtain-distance", "230 mm", "260 mm"},
	{"light-curtain", "press-curtain-distance", "T", 0.121, "id: press-curtain-distance", "press-curtain.response + 0.020 s + press.stopping_time", "0.121 s"},
	{"light-curtain", "tray-curtain-distance", "behind", "no", "id: tray-curtain-distance", "under: no", "under: no\n      behind: no"},
	{"least-gap", "gap-at-shelf", "part", "arm", "id: gap-at-shelf", "part: hand", "part: arm"},
	{"ssm", "aisle-separation", "v_h", 1700, "id: aisle-separation", "1600 mm/s", "1700 mm/s"},
	{"payload", "payload-jaws", "offset", 85, "id: payload-jaws", "70 mm", "85 mm"},
	{"required-level", "level-scanner-stop", "F", "F1", "id: level-scanner-stop", "F: F2", "F: F1"},
	{"level-chain", "stop-on-door", "required", "e", "id: stop-on-door", "level: d, category: 3, because", "level: e, category: 3, because"},
	{contactsBlock, "finger-in-jaws", "head", "yes", "id: finger-in-jaws", "reach: no", "reach: yes"},
	{hazardsBlock, "H-03", after + "Se", 2, "id: H-03\n", "after: {Se: 1", "after: {Se: 2"},
	{hazardsBlock, "H-06", before + "Fr", 3, "id: H-06\n", "before: {Se: 2, Fr: 5", "before: {Se: 2, Fr: 3"},
	{hazardsBlock, "H-06", after + "Pr", 3, "id: H-06\n", "after: {Se: 2, Fr: 5, Pr: 1", "after: {Se: 2, Fr: 5, Pr: 3"},
	{hazardsBlock, "H-03", "decision", "accept", "id: H-03\n", "decision: reduce", "decision: accept"},
	{hazardsBlock, "H-08", "by", "I. Varga", "id: H-08\n", "by: S. Lindqvist", "by: I. Varga"},
	{hazardsBlock, "H-09", "second", "S. Lindqvist", "id: H-09\n", "name: M. Oyelaran", "name: S. Lindqvist"},
	{measuresBlock, "H-17-1", "state", "in-place", "id: H-17-1", "state: planned", "state: in-place"},
	{pointsBlock, "V-07", "pressure", 180, "id: V-07", "203 N/cm2", "180 N/cm2"},
	{pointsBlock, "V-03", "speed", 120, "id: V-03", "speed: 152 mm/s", "speed: 120 mm/s"},
	{pointsBlock, "V-06", "checksum", "C05B-66E1", "id: V-06", "5A18-D704", "C05B-66E1"},
	{pointsBlock, "V-01", "peak", 290, "id: V-01", "peak: 109 N,", "peak: 290 N,"},
	{pointsBlock, "V-24", "outcome", "met", "id: V-24", "outcome: not-met", "outcome: met"},
}

// edited makes the changes in the text of the file.
func edited(t *testing.T, data []byte) []byte {
	t.Helper()
	s := string(data)
	for _, c := range changes {
		if c.from == "" {
			continue
		}
		at := strings.Index(s, c.after)
		if at < 0 {
			t.Fatalf("the demo has no %q", c.after)
		}
		n := strings.Index(s[at:], c.from)
		if n < 0 || n > 1500 {
			t.Fatalf("the demo has no %q behind %q", c.from, c.after)
		}
		s = s[:at+n] + c.to + s[at+n+len(c.from):]
	}
	return []byte(s)
}

// address is where a plan puts a cell.
func (l *layout) cellOf(t *testing.T, block, row, key string) (sheetName, at string) {
	t.Helper()
	p := l.places[block]
	if p == nil || p.column[key] == "" || p.row[row] == 0 {
		t.Fatalf("no cell %s, %s, %s", block, row, key)
	}
	return p.sheet.Name, p.column[key] + strconv.Itoa(p.row[row])
}

// TestEdited types changes into the workbook, lets an independent engine work
// it out, and compares every formula with what the program makes of the same
// changes in the file.
func TestEdited(t *testing.T) {
	if len(changes) < 20 {
		t.Fatal("too few changes")
	}
	r := assess(t, demo(t))
	l, path, f := opened(t, r)
	for _, c := range changes {
		name, at := l.cellOf(t, c.block, c.row, c.key)
		if err := f.SetCellValue(name, at, c.value); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
	f.Close()
	got := cells(t, officetest.Recalculate(t, path))
	again := Plan(assess(t, edited(t, demo(t))))
	compared, changed := l.compare(t, again, got)
	t.Logf("%d formulas compared, %d changed", compared, changed)
	if compared < 5000 || changed < 300 {
		t.Errorf("%d formulas compared, of which %d changed", compared, changed)
	}
	name, at := l.cellOf(t, summaryState, "edited", "value")
	if n, _ := strconv.Atoi(got[name][at]); n < 20 {
		t.Errorf("%d edited rows are noticed", n)
	}
}

// asBuilt are cells that tell of the build, not of the inputs.
func asBuilt(block, row, key string) bool {
	return key == changedKey || key == adviceKey || key == cornerKey || block == summaryState && (row == "edited" || row == "again" || row == "findings" || row == "open" || row == "hazards") || block == identBlock
}

// compare holds every formula of a plan against the values in a file laid out by
// l; changed counts those that differ from l's own plan.
func (l *layout) compare(t *testing.T, b *Book, got map[string]map[string]string) (compared, changed int) {
	t.Helper()
	old := map[string]expr.Value{}
	l.each(l.book, func(block, row, key string, c Cell) { old[block+"|"+row+"|"+key] = c.Value })
	bad := 0
	l.each(b, func(block, row, key string, c Cell) {
		p := l.places[block]
		if !c.Live || asBuilt(block, row, key) || p == nil || p.row[row] == 0 {
			return
		}
		name, at := l.cellOf(t, block, row, key)
		compared++
		if old[block+"|"+row+"|"+key] != c.Value {
			changed++
		}
		if want, v := c.Value, got[name][at]; !sameValue(want, v) && bad < 40 {
			bad++
			t.Errorf("%s, %s, %s (%s!%s) is %q, want %+v", block, row, key, name, at, v, want)
		}
	})
	return compared, changed
}

func (l *layout) each(b *Book, visit func(block, row, key string, c Cell)) {
	for _, s := range b.Sheets {
		for _, bl := range s.Blocks {
			for _, r := range bl.Rows {
				for i, c := range r.Cells {
					visit(bl.ID, r.ID, bl.Columns[i].Key, c)
				}
			}
		}
	}
}

func sameValue(want expr.Value, got string) bool {
	if want.Kind != expr.Number {
		return got == want.Text
	}
	x, err := strconv.ParseFloat(got, 64)
	return err == nil && math.Abs(x-want.Num) <= parity*math.Max(math.Abs(x), math.Abs(want.Num))
}

// TestBodyArea chooses another body area for a check; the row must follow as the
// sheet works it out.
func TestBodyArea(t *testing.T) {
	r := assess(t, demo(t))
	l, path, f := opened(t, r)
	areas := []string{"shin", "thigh-muscle", "larynx", "foot", "neck-muscle", "forefinger-pad-nd"}
	var checks []*hazards.Check
	for i := range r.Checks {
		if c := &r.Checks[i]; c.Area != "" && len(checks) < len(areas) && i%7 == 0 {
			name, at := l.cellOf(t, c.Sheet.ID, c.ID, "area")
			if err := f.SetCellValue(name, at, areas[len(checks)]); err != nil {
				t.Fatal(err)
			}
			checks = append(checks, c)
		}
	}
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
	f.Close()
	got := cells(t, officetest.Recalculate(t, path))
	for i, c := range checks {
		vals := append([]expr.Value(nil), c.Outcome.Values...)
		vals[c.Sheet.Column("area").Slot].Text = areas[i]
		o := c.Sheet.Evaluate(vals)
		for _, col := range c.Sheet.Columns {
			if col.Role == sheet.Input || col.Role == sheet.Override {
				continue
			}
			name, at := l.cellOf(t, c.Sheet.ID, c.ID, col.Name)
			if v := got[name][at]; !sameValue(o.Values[col.Slot], v) {
				t.Errorf("%s with %s: %s is %q, want %+v", c.ID, areas[i], col.Name, v, o.Values[col.Slot])
			}
		}
	}
	if len(checks) < len(areas) {
		t.Errorf("only %d checks", len(checks))
	}
}

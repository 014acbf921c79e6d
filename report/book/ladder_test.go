package book

import (
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"standclear/report/officetest"
)

// points is the cell whose contacts have several points, changed in some ways.
func points(t testing.TB, changes ...string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "ok", "points.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for i := 0; i < len(changes); i += 2 {
		if !strings.Contains(text, changes[i]) {
			t.Fatalf("%q is not in the cell", changes[i])
		}
		text = strings.Replace(text, changes[i], changes[i+1], 1)
	}
	return []byte(text)
}

// TestPointsRecalculated holds every value of contacts with several points, and
// of the speeds by body region, against an independent engine.
func TestPointsRecalculated(t *testing.T) {
	path := written(t, assess(t, points(t)))
	for _, d := range differences(cells(t, path), cells(t, officetest.Recalculate(t, path))) {
		t.Error(d)
	}
}

// TestPointsEdited edits points, measurements and the speeds by body region, and
// compares with what the program makes of the same edits.
func TestPointsEdited(t *testing.T) {
	l, path, f := opened(t, assess(t, points(t)))
	for _, e := range []typed{
		{factsBlock, "hand-at-bench.jaw-tip.effective_mass", "value", 9.4},
		{factsBlock, "hand-at-bench.jaw-tip.area", "value", 0.3},
		{factsBlock, "hand-at-bench.jaw-back.padding.stiffness", "value", 12},
		{factsBlock, "tall-jar.mass", "value", 0.7},
		{pointsBlock, "V-02", spotKey, "jaw-back"},
		{pointsBlock, "V-04", "peak", 300},
	} {
		name, at := l.cellOf(t, e.block, e.row, e.key)
		if err := f.SetCellValue(name, at, e.value); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
	f.Close()
	got := cells(t, officetest.Recalculate(t, path))
	again := Plan(assess(t, points(t, "effective_mass: {is: 8.1 kg", "effective_mass: {is: 9.4 kg", "tip of a jaw, area: {is: 1.4 cm2", "tip of a jaw, area: {is: 0.3 cm2",
		"stiffness: {is: 30 N/mm", "stiffness: {is: 12 N/mm", "id: tall-jar, mass: 0.6 kg", "id: tall-jar, mass: 0.7 kg", "point: heel, ", "point: jaw-back, ",
		"peak: 66 N", "peak: 300 N")))
	if compared, changed := l.compare(t, again, got); compared < 3000 || changed < 300 {
		t.Errorf("%d formulas compared, of which %d changed", compared, changed)
	}
	for _, c := range []typed{
		{ladderOf, ladderID("arm"), "m_R_given", 9.4 + 0.2 + 1 + 0.7},
		{ladderOf, ladderID("arm"), "A", 0.3},
		{ladderBlock, "arm palm-nd", "v_max", nil}, // not the worst area of its region
		{ladderBlock, "arm back-of-hand-nd", "v_max", 380 * 0.3 / math.Sqrt(75e3/(1/0.6+1/11.3)) * 1e3},
		{ladderBlock, "arm temple", "v_max", ""},
		{ladderBlock, "arm larynx", "v_max", nil},
		{speedsBlock, "refill hand-at-tray V-04", "speed", ""}, // measured over
	} {
		place := l.places[c.block]
		if c.value == nil {
			if place.row[c.row] != 0 {
				t.Errorf("%s has a row %s", c.block, c.row)
			}
			continue
		}
		if c.row == "arm temple" && place.row[c.row] == 0 {
			c.row = "arm forehead"
		}
		name, at := l.cellOf(t, c.block, c.row, c.key)
		want, isNumber := c.value.(float64)
		v, err := strconv.ParseFloat(got[name][at], 64)
		if isNumber && (err != nil || math.Abs(v-want) > 1e-9*want) || !isNumber && got[name][at] != c.value {
			t.Errorf("%s %s %s is %q, want %v", c.block, c.row, c.key, got[name][at], c.value)
		}
	}
}

// TestLadderIsEdited types another mass and area into the cells that are there
// for it; the speeds of every region follow.
func TestLadderIsEdited(t *testing.T) {
	l, path, f := opened(t, assess(t, points(t)))
	for _, e := range []typed{{ladderOf, ladderID("lifter"), "A", 0.5}, {ladderOf, ladderID("lifter"), "m_L", 5}} {
		name, at := l.cellOf(t, e.block, e.row, e.key)
		if err := f.SetCellValue(name, at, e.value); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
	f.Close()
	got := cells(t, officetest.Recalculate(t, path))
	name, at := l.cellOf(t, ladderBlock, "lifter sternum", "v_max")
	want := 240 * 0.5 / math.Sqrt(25e3/(1/40.0+1/20.0)) * 1e3
	if v, err := strconv.ParseFloat(got[name][at], 64); err != nil || math.Abs(v-want) > 1e-9*want {
		t.Errorf("%s, want %v", got[name][at], want)
	}
}

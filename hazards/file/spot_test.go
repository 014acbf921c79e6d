package file

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Points of contacts have ids of their own, and a measurement names one of the
// contact it is of.
func TestProblemsOfPoints(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(testdata, "ok", "points.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	if _, problems := Load("points.yaml", data); len(problems) > 0 {
		t.Fatal(problems)
	}
	for _, c := range []struct{ from, to, want string }{
		{"point: heel, ", "point: elbow, ", "`elbow` is no point of `hand-at-bench`"},
		{"point: heel, ", "point: jaws, ", "`jaws` is a tool"},
		{"point: heel, ", "point: hell, ", "did you mean `heel`?"},
		{"{id: elbow,", "{id: heel,", "the id `heel` is used twice, first for a point of a contact"},
		{"what: heel of the jar", "edges: blunt", "`what`"},
		{"effective_mass: {is: 6.2 kg,", "effective_mass: {is: 6.2 mm,", "6.2 mm"},
	} {
		text := strings.Replace(string(data), c.from, c.to, 1)
		if text == string(data) {
			t.Fatalf("no %q in the file", c.from)
		}
		_, problems := Load("points.yaml", []byte(text))
		if got := string(render(problems, []byte(text))); len(problems) != 1 || !strings.Contains(got, c.want) {
			t.Errorf("%q for %q: %d problems, no %q in\n%s", c.to, c.from, len(problems), c.want, got)
		}
	}
}

// A point keeps what it says, and takes the rest from its contact.
func TestSpot(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(testdata, "ok", "points.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	a, problems := Load("points.yaml", data)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	_, found, _, _ := a.Find("hand-at-bench")
	c := found.(*Contact)
	heel, tip, whole := c.Spot("heel"), c.Spot("jaw-tip"), c.Spot("")
	path := a.Index().PathOf
	for _, x := range [][2]string{
		{path(heel.Area), "hand-at-bench.area"}, {path(heel.EffectiveMass), "hand-at-bench.effective_mass"}, {heel.Pose, "low in front"},
		{path(tip.Area), "hand-at-bench.jaw-tip.area"}, {path(tip.EffectiveMass), "hand-at-bench.jaw-tip.effective_mass"}, {tip.Pose, "near the base"},
		{path(tip.Speed), "hand-at-bench.speed"}, {path(whole.Area), "hand-at-bench.area"}, {whole.ID, "hand-at-bench"},
	} {
		if x[0] != x[1] {
			t.Errorf("%q, want %q", x[0], x[1])
		}
	}
	if heel.Padding != nil || c.Spot("jaw-back").Padding == nil {
		t.Error("the padding is not at the back of the jaw alone")
	}
	if _, _, _, ok := a.Find("jaw-tip"); !ok {
		t.Error("a point of a contact is not found by its id")
	}
}

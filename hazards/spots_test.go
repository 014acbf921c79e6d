package hazards_test

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"standclear/hazards"
	"standclear/limits/sheet"
)

const pointsFile = "../testdata/ok/points.yaml"

// points is the cell whose contacts have several points, changed in some ways.
func points(t testing.TB, changes ...string) *hazards.Result {
	t.Helper()
	data, err := os.ReadFile(pointsFile)
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
	return result(t, []byte(text))
}

// Each point takes its own area, speed, edges, padding and effective mass, and
// what it leaves out from the contact.
func TestPointsOfAContact(t *testing.T) {
	r := points(t)
	for _, c := range []struct {
		id   string
		want map[string]float64
	}{
		{"hand-at-bench/palm-d/jaws/tall-jar/heel", map[string]float64{"A": 1.5, "v": 110, "m_R": 6.2 + 1.6, "F_hold": 100}},
		{"hand-at-bench/palm-d/jaws/tall-jar/jaw-tip", map[string]float64{"A": 1.4, "v": 110, "m_R": 8.3 + 1.6}},
		{"hand-at-bench/palm-d/jaws/jar/jaw-back", map[string]float64{"A": 4, "v": 110, "m_R": 6.2 + 1.4, "k_pad": 30, "s_pad": 6}},
		{"arm-at-bench/arm-nerve/jaws/jar/elbow", map[string]float64{"A": 9, "v": 130, "m_R": 12.0/2 + 1.4}},
		{"arm-at-bench/arm-nerve/jaws/jar/wrist", map[string]float64{"A": 3, "v": 110, "m_R": 12.0/2 + 1.4}},
	} {
		k := r.Check(c.id)
		if k == nil {
			t.Fatalf("no check %s", c.id)
		}
		for name, want := range c.want {
			if got := k.Outcome.Value(name); !got.Given() || math.Abs(got.Num-want) > 1e-12*want {
				t.Errorf("%s: %s is %v, want %v", c.id, name, got, want)
			}
		}
	}
	for id, want := range map[string]string{"heel": "rounded", "jaw-tip": "blunt"} {
		if got := r.Check("hand-at-bench/palm-d/jaws/jar/" + id).Outcome.Value("edges").Text; got != want {
			t.Errorf("%s: edges %q, want %q", id, got, want)
		}
	}
	if got, want := len(r.Contact("hand-at-bench").Checks), 9*2*3; got != want {
		t.Errorf("%d checks, want %d: areas, parts and points", got, want)
	}
}

// A point with no effective mass beside the contact's own, and the note that the
// mass is a stated one.
func TestEffectiveMassIsADeparture(t *testing.T) {
	r := points(t)
	stated := func(id string) bool {
		return slices.ContainsFunc(r.Check(id).Outcome.Notes(), func(n sheet.Note) bool { return strings.Contains(n.Text, "m_R is a value of your own") })
	}
	if !stated("hand-at-bench/palm-d/jaws/jar/heel") || stated("arm-at-bench/arm-nerve/jaws/jar/wrist") {
		t.Error("the note about a stated mass stands where it should not, or is missing")
	}
	has := func(about string) bool {
		return slices.ContainsFunc(r.Open, func(o hazards.OpenPoint) bool { return o.About == about })
	}
	if has("hand-at-bench.effective_mass") {
		t.Error("a measured effective mass is an open point")
	}
	r = points(t, "effective_mass: {is: 6.2 kg, from: measured, ref: pendulum test}", "effective_mass: 6.2 kg",
		"stiffness: {is: 30 N/mm, from: measured}", "stiffness: 30 N/mm")
	for _, about := range []string{"hand-at-bench.effective_mass", "hand-at-bench.jaw-back.padding.stiffness"} {
		if !has(about) {
			t.Errorf("%s has no origin and is no open point", about)
		}
	}
}

// A measurement speaks for the point it names; the plan asks for the others.
func TestMeasurementOfAPoint(t *testing.T) {
	verdicts := func(r *hazards.Result, contact string) map[string]sheet.Verdict {
		out := map[string]sheet.Verdict{}
		for _, j := range r.Contact(contact).Checks {
			k := &r.Checks[j]
			if v, ok := out[k.Spot]; !ok || k.Verdict.Worse(v) {
				out[k.Spot] = k.Verdict
			}
		}
		return out
	}
	r := points(t)
	got := verdicts(r, "hand-at-bench")
	if got["heel"] != sheet.WithinMeasured || got["jaw-tip"] != sheet.WithinMeasured || got["jaw-back"] != sheet.WithinModel {
		t.Errorf("points of hand-at-bench: %v", got)
	}
	if c := r.Contact("hand-at-bench"); c.Verdict != sheet.WithinModel || r.Checks[c.Worst].Spot != "jaw-back" {
		t.Errorf("%s by %s", c.Verdict, r.Checks[c.Worst].ID)
	}
	var planned []string
	for _, p := range r.Points {
		if p.Spec == nil {
			planned = append(planned, p.ID)
		}
	}
	if want := []string{"V-hand-at-bench-jaw-back", "V-arm-at-bench-elbow", "V-finger-in-jaws"}; !slices.Equal(planned, want) {
		t.Errorf("planned %v, want %v", planned, want)
	}
	r = points(t, "point: heel, ", "")
	if got := verdicts(r, "hand-at-bench"); got["heel"] != sheet.WithinModel {
		t.Errorf("a measurement that names no point covers heel: %v", got)
	}
}

// A task whose contacts are all measured is listed with the speed of the test.
func TestMeasuredSpeeds(t *testing.T) {
	r := points(t)
	if want := []hazards.MeasuredSpeed{{Task: "refill", Contact: "hand-at-tray", Point: "V-04", Speed: 86}}; !slices.Equal(r.Speeds, want) {
		t.Errorf("%v, want %v", r.Speeds, want)
	}
	for name, r := range map[string]*hazards.Result{
		"over":            points(t, "peak: 66 N, steady: 50 N", "peak: 166 N, steady: 150 N"),
		"of another tool": points(t, "speed: 86 mm/s, tool: jaws", "speed: 86 mm/s, tool: cups"),
		"row open":        points(t, "decision: accept, by: B. Owner, role: plant safety, date: 2026-10-06, why: bruise at most, inform: {manual: section 4, to: [packer]}}\n  - id: H-02", "decision: reduce, by: B. Owner, role: plant safety, date: 2026-10-06, why: later}\n  - id: H-02"),
	} {
		if len(r.Speeds) > 0 {
			t.Errorf("%s: %v", name, r.Speeds)
		}
	}
}

package hazards

import (
	"slices"
	"strings"
	"testing"

	"standclear/limits/sheet"
)

// A stop names the checks that take it, by a look-up or by its path.
func TestStops(t *testing.T) {
	lib, _ := ruleLibrary(t)
	text := strings.Replace(ruleBase(t), "arm.stopping.time, d: curtain.detection", "arm.stop-full.time, d: curtain.detection", 1)
	text = strings.Replace(text, "  tools:\n    - {id: jaws", "  machines:\n    - {id: press, kind: press, stopping_time: 0.2 s}\n  tools:\n    - {id: jaws", 1)
	got := map[string][]string{}
	for _, s := range assessText(t, text, lib).Stops() {
		got[s.ID] = s.Checks
	}
	for id, want := range map[string][]string{
		"stop-half": {"scanner-distance", "over-curtain", "separation", "speed-at-distance"},
		"stop-full": {"curtain-distance"},
		"press":     nil,
	} {
		if checks, ok := got[id]; !ok || !slices.Equal(checks, want) {
			t.Errorf("%s is taken by %q, want %q", id, checks, want)
		}
	}
}

// A stop that many checks take names the first of them.
func TestTakenBy(t *testing.T) {
	s := Stop{Checks: strings.Split("a b c d e f g h i j k l", " ")}
	if got := s.TakenBy(); got != "a, b, c, d, e, f, g, h, i, j, k, l" {
		t.Error(got)
	}
	s.Checks = append(s.Checks, "m", "n")
	if got := s.TakenBy(); got != "a, b, c, d, e, f, g, h, i, j, k, l and 2 others" {
		t.Error(got)
	}
	if got := (&Stop{}).TakenBy(); got != "" {
		t.Error(got)
	}
}

// Candidates beside the one that governs are those that no other point is nearer
// than.
func TestStopRivals(t *testing.T) {
	lib, _ := ruleLibrary(t)
	text := strings.Replace(ruleBase(t), "        - {id: stop-half,", "        - {id: stop-side, category: 1, load: 80 %, speed: 40 %, reach: 95 %, time: 0.18 s, from: measured}\n        - {id: stop-half,", 1)
	r := assessText(t, text, lib)
	for path, want := range map[string][]string{
		"arm.stop-half.time":     {"arm.stop-side.time"},
		"arm.stop-half.distance": nil, // the other one states none
		"curtain.response":       nil,
		"none":                   nil,
	} {
		if got := r.StopRivals("scanner-distance", path); !slices.Equal(got, want) {
			t.Errorf("%s: %q, want %q", path, got, want)
		}
	}
}

// Without a stopping distance, half of speed times time is an estimate: it is
// worked out, named as one, and decides nothing.
func TestStoppingDistanceEstimated(t *testing.T) {
	lib, _ := ruleLibrary(t)
	r := assessText(t, strings.Replace(ruleBase(t), "S_s: arm.stopping.distance, ", "", 1), lib)
	c := r.Check("separation")
	if s := c.Outcome.Value("S_s"); c.Verdict != sheet.NotDecided || s.Num < 10.99 || s.Num > 11.01 { // 0.5 * 110 mm/s * 0.2 s
		t.Errorf("%s, S_s %v", c.Verdict, s)
	}
	found := false
	for _, o := range r.Open {
		found = found || o.Kind == OpenEstimate && o.About == "separation" && strings.Contains(o.Message, "19 to 41 %")
	}
	if !found {
		t.Errorf("no estimate among the open points: %+v", r.Open)
	}
}

package hazards_test

import (
	"strings"
	"testing"

	"standclear/hazards"
	"standclear/hazards/file"
)

func TestInputRef(t *testing.T) {
	r := result(t, cell(t,
		"given: {T: 0.4 s, d: scanner.detection, H: scanner.height, Z: scanner.supplement, available: {is: 1.5 m, from: measured}",
		"given: {T: 0.4 s, d: scanner.detection, H: scanner.height, Z: scanner.supplement, available: {is: 1.5 m, from: measured, ref: SM-9}"))
	for _, tt := range []struct{ check, input, want string }{
		{"hand/palm-d/jaws/tin", "M", "p. 4"},
		{"hand/palm-d/jaws/full-tin", "m_L", ""},
		{"near-field", "available", "SM-9"},
		{"near-field", "T", ""},
	} {
		for _, in := range r.Check(tt.check).Inputs {
			if in.Name == tt.input && in.Ref != tt.want {
				t.Errorf("%s of %s: %q, want %q", tt.input, tt.check, in.Ref, tt.want)
			}
		}
	}
}

// Assessing leaves the loaded file alone, so that it may be assessed again and
// from several places at once.
func TestAssessLeavesTheFileAlone(t *testing.T) {
	data := cell(t)
	a, problems := file.Load("cell.yaml", data)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if _, problems := hazards.Assess(a, data, library(t), hazards.Options{Name: "cell"}); len(problems) > 0 {
		t.Fatal(problems)
	}
	for i := range a.Checks {
		for _, g := range a.Checks[i].Given {
			for _, m := range g.Value.List {
				if m.From != "" {
					t.Errorf("%s of %s has an origin that is not in the file", g.Key, a.Checks[i].ID)
				}
			}
		}
	}
}

func TestSeveralRobots(t *testing.T) {
	second := []string{"  machines:", "    - {id: arm-2, moving_mass: 30 kg}\n  machines:"}
	text := string(cell(t))
	if !strings.Contains(text, second[0]) {
		second = []string{"  tools:\n", "    - {id: arm-2, moving_mass: 30 kg}\n  tools:\n"}
	}
	data := cell(t, append(second, "robots: [arm]", "robots: [arm, arm-2]")...)
	r, problems := assess(t, data)
	if r != nil || len(problems) == 0 || !strings.Contains(problems[0].Message, "names no robot") || !strings.Contains(problems[0].Expected, "`arm`, `arm-2`") {
		t.Errorf("%s", render(problems, data))
	}
}

func TestImpossibleValueIsQuoted(t *testing.T) {
	data := cell(t, "moving_mass: {is: 12 kg", "moving_mass: {is: 0 kg")
	_, problems := assess(t, data)
	if len(problems) == 0 || !strings.Contains(problems[0].Message, "found `0 kg` for `M`") {
		t.Errorf("%s", render(problems, data))
	}
}

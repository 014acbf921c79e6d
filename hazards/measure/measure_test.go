package measure_test

import (
	"slices"
	"testing"
	"testing/fstest"

	"standclear/hazards/measure"
	"standclear/limits/sheet"
	"standclear/templates"
)

func kinds(t *testing.T) measure.Kinds {
	t.Helper()
	ks, problems := measure.Load(templates.FS)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return ks
}

func TestOrderAndNames(t *testing.T) {
	want := []string{"eliminate", "substitute-or-design", "ergonomic-layout", "force-and-speed-limit", "fixed-guard",
		"interlocked-guard", "presence-sensing", "speed-and-separation", "reduced-speed", "space-limit", "enabling-device",
		"two-hand-control", "holding-on-power-loss", "emergency-stop", "energy-isolation", "release-of-trapped-person",
		"awareness", "procedure", "training", "protective-equipment"}
	if got := kinds(t).IDs(); !slices.Equal(got, want) {
		t.Errorf("got %q", got)
	}
}

// Guards and sensing never lower severity; an emergency stop earns nothing.
func TestCredit(t *testing.T) {
	ks := kinds(t)
	for _, id := range []string{"fixed-guard", "interlocked-guard", "presence-sensing", "speed-and-separation", "enabling-device",
		"two-hand-control", "emergency-stop", "energy-isolation", "awareness", "procedure", "training"} {
		if ks.Get(id).Lowers("severity") {
			t.Errorf("%s lowers severity", id)
		}
	}
	if k := ks.Get("emergency-stop"); len(k.MayLower) != 0 {
		t.Errorf("an emergency stop earns %q", k.MayLower)
	}
	for _, id := range []string{"eliminate", "substitute-or-design", "force-and-speed-limit"} {
		if !ks.Get(id).Lowers("severity") {
			t.Errorf("%s does not lower severity", id)
		}
	}
	if ks.Get("no-such-kind") != nil {
		t.Error("found a kind that is none")
	}
}

func TestMissing(t *testing.T) {
	k := kinds(t).Get("presence-sensing")
	for _, tt := range []struct {
		proofs []string
		want   int
	}{
		{nil, 2},
		{[]string{"function"}, 1},
		{[]string{"check", "parallel-field"}, 1},
		{[]string{"function", "check", "parallel-field"}, 0},
		{[]string{"contact", "point"}, 2},
	} {
		if got := k.Missing(tt.proofs); len(got) != tt.want {
			t.Errorf("%q: missing %q", tt.proofs, got)
		}
	}
}

// What a need names exists: a kind of proof or a calculation sheet; sources are listed.
func TestNeedsNameSheets(t *testing.T) {
	lib, problems := sheet.Load(templates.FS)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	for _, k := range kinds(t) {
		for _, n := range k.Needs {
			for _, id := range n.Any {
				if !slices.Contains([]string{"contact", "check", "function", "point"}, id) && lib.Sheet(id) == nil {
					t.Errorf("%s needs %s, which is no sheet", k.ID, id)
				}
			}
		}
		for _, key := range k.Source {
			if _, ok := lib.Source(key); !ok {
				t.Errorf("%s: no source %s", k.ID, key)
			}
		}
	}
}

func TestLoadReports(t *testing.T) {
	for name, data := range map[string]string{
		"unknown key":   "kinds:\n  a: {title: A, step: design, may_lower: [], standing: practice, x: 1}\n",
		"wrong factor":  "kinds:\n  a: {title: A, step: design, may_lower: [luck], standing: practice}\n",
		"no step":       "kinds:\n  a: {title: A, may_lower: [], standing: practice}\n",
		"not a mapping": "- a\n",
		"empty":         "",
	} {
		fsys := fstest.MapFS{"catalogue/measures.yaml": {Data: []byte(data)}}
		if _, problems := measure.Load(fsys); len(problems) == 0 {
			t.Errorf("%s: loads", name)
		}
	}
	if _, problems := measure.Load(fstest.MapFS{}); len(problems) != 1 {
		t.Errorf("no file: %v", problems)
	}
}

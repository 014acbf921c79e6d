package proof

import (
	"strings"
	"testing"

	"standclear/limits/sheet"
)

// A measurement covers the point of the contact that it was taken at, and no
// other; where a limit is exceeded at another point, that says nothing either.
func TestPoint(t *testing.T) {
	for _, c := range []struct {
		of, at string
		covers bool
		gap    string
	}{
		{"", "", true, ""}, {"", "jaw-tip", true, ""}, {"jaw-tip", "jaw-tip", true, ""},
		{"jaw-tip", "", false, "point: not said, `jaw-tip` can touch"},
		{"jaw-tip", "heel", false, "point: `heel` measured, `jaw-tip` can touch"},
	} {
		k, m := held(), taken()
		k.Spot, m.Spot = c.of, c.at
		o := Judge(k, m)
		if o.Covers != c.covers || !strings.Contains(strings.Join(o.InWhat, "; "), c.gap) {
			t.Errorf("%q measured at %q: covers %v (%v)", c.of, c.at, o.Covers, o.InWhat)
		}
		if want := map[bool]sheet.Verdict{true: sheet.WithinMeasured, false: ""}[c.covers]; o.Verdict != want {
			t.Errorf("%q measured at %q: %q, want %q", c.of, c.at, o.Verdict, want)
		}
		m.Peak = p(900)
		if over := Judge(k, m).Verdict == sheet.Over; over != c.covers {
			t.Errorf("%q measured at %q beyond the limit: over is %v", c.of, c.at, over)
		}
	}
}

package hazards_test

import (
	"slices"
	"testing"

	"standclear/hazards"
	"standclear/limits/sheet"
)

// What stands against release comes worst first: refused rows, limits exceeded,
// failed points, broken rules, open rows, what is not decided.
func TestAgainst(t *testing.T) {
	r := result(t, cell(t))
	group := func(s hazards.Stand) int {
		switch s.Kind {
		case hazards.StandRow:
			return map[string]int{hazards.RowRefused: 0, hazards.RowOpen: 4, hazards.RowOutOfDate: 4}[s.Word]
		case hazards.StandPoint:
			return 2
		case hazards.StandFinding:
			return 3
		}
		if slices.Contains([]sheet.Verdict{sheet.NotPermitted, sheet.Over, sheet.Outside}, sheet.Verdict(s.Word)) {
			return 1
		}
		return 5
	}
	if !slices.IsSortedFunc(r.Against, func(a, b hazards.Stand) int { return group(a) - group(b) }) {
		t.Errorf("not in order: %v", r.Against)
	}
	has := func(kind, word string) bool {
		return slices.ContainsFunc(r.Against, func(s hazards.Stand) bool { return s.Kind == kind && s.Word == word && s.ID != "" && s.Why != "" })
	}
	for _, want := range [][2]string{{"row", "refused"}, {"row", "open"}, {"contact", "not-permitted"}, {"check", "over"}, {"point", "failed"}, {"check", "not-decided"}} {
		if !has(want[0], want[1]) {
			t.Errorf("no %s that is %s", want[0], want[1])
		}
	}
	n := 0
	for _, s := range r.Against {
		if s.Kind == hazards.StandFinding {
			n++
		}
		if c := r.Check(s.ID); c != nil && s.Kind == hazards.StandCheck && (c.Shadow || c.Verdict.Holds()) {
			t.Errorf("%s holds or only stands beside", s.ID)
		}
	}
	if n != len(r.Findings) {
		t.Errorf("%d findings of %d", n, len(r.Findings))
	}
}

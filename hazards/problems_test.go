package hazards_test

import (
	"strings"
	"testing"
)

// Input errors that only the library can tell, each with its place and what
// belongs there.
func TestProblems(t *testing.T) {
	for _, tt := range []struct{ name, find, put, at, message, expected, hint string }{
		{"sheet", "id: gap, sheet: least-gap", "id: gap, sheet: least-gab", "least-gab", "is not a sheet", "one of", "`least-gap`"},
		{"method", "method: hybrid", "method: hybrit", "hybrit", "is not a method", "one of", "`hybrid`"},
		{"area", "areas: [thenar]", "areas: [thener]", "thener", "is not a body region or body area", "one of", "`thenar`"},
		{"edition", "contact: iso-ts-15066-2016", "contact: iso-ts-15066-2061", "iso-ts-15066-2061", "is not an edition", "one of", "`iso-ts-15066-2016`"},
		{"input", "Z: scanner.supplement, available: {is: 2 m", "zz: scanner.supplement, available: {is: 2 m", "zz", "has no input `zz`", "`T`", "`Z`"},
		{"unit of a number", "given: {T: 0.4 s", "given: {T: 400 mm", "400 mm", "found `400 mm` for `T`", "a quantity in s", ""},
		{"unit of a path", "given: {T: 0.4 s, d: scanner.detection", "given: {T: scanner.height, d: scanner.detection", "scanner.height", "found `scanner.height` for `T`", "a quantity in s", ""},
		{"plain number", "given: {T: 0.4 s", "given: {T: 0.4", "0.4", "found `0.4` for `T`", "a quantity in s", ""},
		{"word for a number", "H: 280 mm, Z", "H: low, Z", "low", "found `low` for `H`", "a quantity in mm", ""},
		{"list for a number", "H: 280 mm, Z", "H: [280 mm], Z", "[280 mm]", "found a list for `H`", "a quantity in mm", ""},
		{"range for a number", "H: 280 mm, Z", "H: 280..300 mm, Z", "280..300 mm", "a range, for `H`", "a quantity in mm", ""},
		{"below its physical bound", "given: {T: 0.4 s", "given: {T: 0 s", "0 s", "found `0 s` for `T`", "above 0 s", ""},
		{"beyond its physical bound", "given: {T: 0.4 s", "given: {T: 11 s", "11 s", "found `11 s` for `T`", "at most 10 s", ""},
		{"area of a contact", "areas: [thenar], area: {is: 0.4 cm2", "areas: [thenar], area: {is: 2000 cm2", "{is: 2000 cm2", "for `A`", "at most 1000 cm2", ""},
		{"choice", "given: {part: hand,", "given: {part: hant,", "hant", "found `hant` for `part`", "one of", "`hand`"},
		{"choice in a list", `levels: "d, e"`, `levels: "d, f"`, `"d, f"`, "found `f` for `levels`", "one of", ""},
		{"too many members", "categories: [3, 4]", "categories: [3, 4, 3, 3, 3, 3, 3, 3, 3, 3, 3, 3, 3]", "", "13 values for `categories`", "at most 12 values", ""},
		{"factor", "before: {Se: 3, Fr: 5, Pr: 3}", "before: {Se: 3, Fr: 5, Px: 3}", "Px", "has no factor `Px`", "`Se`, `Fr`, `Pr`, `Av`", "`Pr`"},
		{"factor of another method beside those of this one", "before: {Se: 3, Fr: 5, Pr: 3}", "before: {Se: 3, Fr: 5, severity: minor}", "severity", "has no factor `severity`", "`Se`, `Fr`, `Pr`, `Av`", ""},
		{"factor of another method with a score that is none", "before: {Se: 3, Fr: 5, Pr: 3}", "before: {severity: mild}", "severity", "has no factor `severity`", "`Se`, `Fr`, `Pr`, `Av`", ""},
		{"score", "before: {Se: 3, Fr: 5, Pr: 3}", "before: {Se: 3, Fr: 5, Pr: 3, Av: 4}", "4}", "found `4` for Av", "`5`, `3`, `1`", ""},
	} {
		data := cell(t, tt.find, tt.put)
		r, problems := assess(t, data)
		if r != nil || len(problems) == 0 {
			t.Errorf("%s: no problem", tt.name)
			continue
		}
		p := problems[0]
		if len(problems) != 1 || !strings.Contains(p.Message, tt.message) || !strings.Contains(p.Expected, tt.expected) || !strings.Contains(p.Hint, tt.hint) {
			t.Errorf("%s:\n%s", tt.name, render(problems, data))
		}
		lines := strings.Split(string(data), "\n")
		if at := string([]rune(lines[p.Pos.Line-1])[p.Pos.Col-1:]); !strings.HasPrefix(at, tt.at) {
			t.Errorf("%s: points at %q, want %q", tt.name, at[:min(20, len(at))], tt.at)
		}
	}
}

func TestAllProblemsAtOnce(t *testing.T) {
	data := cell(t, "id: gap, sheet: least-gap", "id: gap, sheet: least-gab", "method: hybrid", "method: hybrit", "given: {T: 0.4 s", "given: {T: 400 mm")
	if _, problems := assess(t, data); len(problems) != 3 {
		t.Errorf("%d problems:\n%s", len(problems), render(problems, data))
	}
}

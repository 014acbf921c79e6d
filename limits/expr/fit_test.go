package expr

import (
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"
)

// TestFactors pins the unit factors that fitting puts in.
func TestFactors(t *testing.T) {
	for _, c := range []struct{ src, want, formula string }{
		{"max(0, 8*(d - d_0))", "mm", "MAX(0,8*(d-d_0))"},
		{"K_hand*T + C", "mm", "K_hand*T+C"},
		{"F/sqrt(mu*K)", "mm/s", "F/SQRT(mu*K*1000)*1000"},
		{"v*sqrt(mu*K)", "N", "v*SQRT(mu*K*1000)/1000"},
		{"p*A", "N", "p*A"},
		{"F/A", "N/mm2", "F/A/100"},
		{"v*t", "mm", "v*t/1000"},
		{"d + D", "mm", "d+D*1000"},
		{"D + d", "mm", "(D+d/1000)*1000"},
		{"d - v*t", "mm", "d-v*t/1000"},
		{"speed*T", "m", "speed*T*5/18"},
		{"speed", "mm/s", "speed*2500/9"},
		{"mu*v^2/2", "J", "mu*v^2/2/1000000"},
		{"sqrt(2*mu*v^2/mu)", "mm/s", "SQRT(2*mu*v^2/mu)"},
		{"sqrt(A)", "mm", "SQRT(A)*10"},
		{"1 - share", "", "1-share/100"},
		{"share - 1", "%", "share-100"},
		{"0.5", "%", "50"},
		{"0", "mm", "0"},
		{"max(0, 0)", "mm/s", "MAX(0,0)"},
		{"0 - d", "m", "(0-d)/1000"},
		{"round(d*2, 1)", "m", "ROUND(d*2/1000,1)"},
		{"round(share, 0)*d", "mm", "ROUND(share,0)*d/100"},
		{"max(d, D, 0, C)", "mm", "MAX(d,D*1000,0,C)"},
		{"sum(PFH)", "1/h", "SUM(PFH)"},
		{"count(PFH)*d", "mm", "COUNT(PFH)*d"},
		{"d > D", "bool", "d>D*1000"},
		{"0 < D and D < d", "bool", `IF(0<D,IF(d="","",D<d/1000),FALSE())`},
		{"abs(d - D)", "mm", "ABS(d-D*1000)"},
		{"1/T", "1/h", "1/T*3600"},
	} {
		if got := sheetText(fitted(t, c.src, c.want)); got != c.formula {
			t.Errorf("%s in %s is %s, want %s", c.src, c.want, got, c.formula)
		}
	}
}

func TestFitErrors(t *testing.T) {
	for _, c := range []struct {
		src, want         string
		off, width        int
		message, expected string
	}{
		{"d + F", "mm", 4, 1, "cannot add mm and N", "mm"},
		{"d - F*T", "mm", 4, 3, "cannot subtract kg*mm/s from mm", "mm"},
		{"d < 40", "bool", 4, 2, "cannot compare mm and a plain number", "mm"},
		{"max(0, d, T)", "mm", 10, 1, "cannot take max of mm and s", "mm"},
		{"2 + d", "mm", 4, 1, "cannot add a plain number and mm", "a plain number"},
		{"d*T", "mm", 0, 3, "the result is mm*s", "mm"},
		{"d", "", 0, 1, "the result is mm", "a plain number"},
		{"d > 0", "mm", 0, 5, "the result is a condition", "mm"},
		{"d", "bool", 0, 1, "the result is mm", "a condition"},
		{"shape", "mm", 0, 5, "the result is a text", "mm"},
		{"sqrt(d)", "mm", 0, 7, "the root of mm has no unit", "even"},
		{"shape + 1", "", 0, 5, "cannot add a number and a text", "a number"},
		{"d*shape", "mm", 2, 5, "a text where a number is needed", "a number"},
		{"-shape", "", 1, 5, "a text where a number", "a number"},
		{"shape = d", "bool", 8, 1, "cannot compare a text and mm", "a text"},
		{"d = 'x'", "bool", 4, 3, "cannot compare a number and a text", "a number"},
		{"shape < 'x'", "bool", 0, 11, "texts have no order", "= or <>"},
		{"holds = true", "bool", 0, 5, "conditions cannot be compared", "not a"},
		{"d and holds", "bool", 0, 1, "mm where a condition is needed", "a condition"},
		{"not d", "bool", 4, 1, "mm where a condition is needed", "a condition"},
		{"speling*2", "", 0, 7, "unknown name `speling`", "an input"},
		{"given(speling)", "bool", 6, 7, "unknown name", "an input"},
		{"given(d + 1)", "bool", 6, 5, "given takes a name", "the name"},
		{"given(words)", "bool", 6, 5, "is a list of texts", "numbers"},
		{"PFH*2", "1/h", 0, 3, "`PFH` is a list", "sum"},
		{"sum(rate)", "1/h", 4, 4, "sum of one thing", "a list"},
		{"sum(words)", "", 4, 5, "sum of one thing", "list of numbers"},
		{"max(d)", "mm", 4, 1, "max of one thing", "two arguments"},
		{"count(PFH, 'd')", "", 6, 3, "no list of texts", "a list of texts"},
		{"count(words, shape)", "", 0, 19, "count takes a list of texts and a text", "count(list, 'text')"},
		{"count(speling, 'd')", "", 6, 7, "unknown name", "an input"},
		{"count(words, 'd')", "mm", 0, 17, "the result is a plain number", "mm"},
		{"has(words)", "bool", 0, 10, "has takes a list of texts and a text", "has(list, 'text')"},
		{"round(d*T, 1)", "mm*s2", 0, 13, "no telling in which unit", "plain number"},
		{"(d^9)^9", "mm", 1, 6, "power too high", ""},
		{"((((share^9)^9)^9)^9)", "", 4, 13, "unit factor too long", ""},
	} {
		tree, err := Parse(c.src)
		if err != nil {
			t.Fatalf("%s: %v", c.src, err)
		}
		f, err := tree.Fit(cell, typeOf(c.want))
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("%s: no *Error but %v, %v", c.src, f, err)
			continue
		}
		if e.Offset != c.off || e.Width != c.width || !strings.Contains(e.Message, c.message) || !strings.Contains(e.Expected, c.expected) {
			t.Errorf("%s: %d+%d %s; expected %s", c.src, e.Offset, e.Width, e.Message, e.Expected)
		}
	}
}

func TestTooLongForACell(t *testing.T) {
	src := "given(d) and d > 0"
	for range 40 {
		src = "(" + src + " or holds and given(C)) and (T > 0 or C > d)"
	}
	tree, err := Parse(src)
	if err != nil {
		t.Fatal(err)
	}
	if _, err = tree.Fit(cell, typeOf("bool")); err == nil || !strings.Contains(err.Error(), "too long or too deep") {
		t.Errorf("got %v", err)
	}
}

func TestNames(t *testing.T) {
	for _, c := range []struct {
		src, want    string
		names, needs []string
	}{
		{"K_hand*T + C*T/T", "mm", []string{"K_hand", "T", "C"}, []string{"K_hand", "T", "C"}},
		{"given(d) and d > C", "bool", []string{"d", "C"}, nil},
		{"d > 0 and C > d", "bool", []string{"d", "C"}, []string{"d"}},
		{"not (holds or ready)", "bool", []string{"holds", "ready"}, []string{"holds"}},
		{"count(PFH)*d", "mm", []string{"PFH", "d"}, []string{"d"}},
		{"sum(PFH)", "1/h", []string{"PFH"}, []string{"PFH"}},
		{"count(words, 'd')*d", "mm", []string{"words", "d"}, []string{"d"}},
		{"shape = 'x'", "bool", []string{"shape"}, []string{"shape"}},
	} {
		f := fitted(t, c.src, c.want)
		if !reflect.DeepEqual(f.Names(), c.names) && len(f.Names())+len(c.names) > 0 {
			t.Errorf("%s names %v, want %v", c.src, f.Names(), c.names)
		}
		if !reflect.DeepEqual(f.Needs(), c.needs) && len(f.Needs())+len(c.needs) > 0 {
			t.Errorf("%s needs %v, want %v", c.src, f.Needs(), c.needs)
		}
	}
}

// TestFitDoesNotChangeTheTree fits one tree twice, to different units.
func TestFitDoesNotChangeTheTree(t *testing.T) {
	tree, err := Parse("d + D + 0")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		unit string
		want float64
	}{{"m", 2.25}, {"mm", 2250}, {"m", 2.25}} {
		f, err := tree.Fit(cell, typeOf(c.unit))
		if err != nil {
			t.Fatal(err)
		}
		got := evaluate(f, map[string]Value{"d": num(250), "D": num(2)})
		if math.Abs(got.Num-c.want) > 1e-12 {
			t.Errorf("%s: got %v, want %v", c.unit, got, c.want)
		}
	}
	if tree.String() != "d + D + 0" {
		t.Errorf("tree became %s", tree)
	}
}

package expr

import (
	"math"
	"testing"
)

func TestValues(t *testing.T) {
	given := map[string]Value{
		"d": num(30), "d_0": num(14), "C": num(128), "T": num(0.5), "K_hand": num(2000), "v": num(150), "mu": num(2),
		"K": num(75), "F": num(140), "n": num(-3), "shape": text("Slot"), "holds": boolean(true), "ready": boolean(false),
		"PFH": num(1e-7), "PFH3": num(2e-7), "share": num(66),
	}
	for _, c := range []struct {
		src, unit string
		want      Value
	}{
		{"8*(d - d_0)", "mm", num(128)},
		{"K_hand*T + C", "mm", num(1128)},
		{"-n^2", "", num(-9)},
		{"(-n)^2", "", num(9)},
		{"n^-2*9", "", num(1)},
		{"2*n^3", "", num(-54)},
		{"abs(n) + 1", "", num(4)},
		{"d*share", "mm", num(19.8)},
		{"v*sqrt(mu*K)", "N", num(150 * math.Sqrt(2*75*1000) / 1000)},
		{"min(d, d_0, C)", "mm", num(14)},
		{"max(d, d_0, C)", "mm", num(128)},
		{"sum(PFH)", "1/h", num(1e-7 + 2e-7)},
		{"max(PFH)", "1/h", num(2e-7)},
		{"min(PFH)", "1/h", num(1e-7)},
		{"count(PFH)", "", num(2)},
		{"given(PFH)", "bool", boolean(true)},
		{"shape = 'Slot'", "bool", boolean(true)},
		{"shape = 'slot'", "bool", boolean(false)},
		{"shape <> 'slot'", "bool", boolean(true)},
		{"shape", "text", text("Slot")},
		{"holds and not ready", "bool", boolean(true)},
		{"given(under)", "bool", boolean(false)},
		{"given(shape)", "bool", boolean(true)},

		{"under = 'yes'", "bool", absent()},
		{"under", "text", absent()},
		{"D + d", "mm", absent()},
		{"0*D", "m", absent()},
		{"max(D, d)", "mm", absent()},
		{"d > D", "bool", absent()},
		{"not (d > D)", "bool", absent()},
		{"n/0", "", absent()},
		{"min(1, n/0)", "", absent()},
		{"sqrt(n)", "", absent()},
		{"(n - n)^-1", "", absent()},
		{"n/0 > 1", "bool", absent()},
		{"ready and D > d", "bool", boolean(false)},
		{"holds and D > d", "bool", absent()},
		{"D > d and ready", "bool", absent()},
		{"holds or D > d", "bool", boolean(true)},
		{"ready or D > d", "bool", absent()},
		{"given(D) and D > d", "bool", boolean(false)},
		{"not given(D) or D > d", "bool", boolean(true)},
		{"ready and n/0 > 1", "bool", boolean(false)},
	} {
		got := evaluate(fitted(t, c.src, c.unit), given)
		if !same(got, c.want) && !(got.Kind == Number && c.want.Kind == Number && math.Abs(got.Num-c.want.Num) <= 1e-12*math.Abs(c.want.Num)) {
			t.Errorf("%s is %+v, want %+v", c.src, got, c.want)
		}
	}
}

// count(list, 'text') counts the members that are this text, letter by letter.
func TestCountOfAText(t *testing.T) {
	given := map[string]Value{"words": text("d"), "words2": text("D"), "words3": text("d")}
	for src, want := range map[string]Value{
		"count(words, 'd')": num(2), "count(words, 'D')": num(1), "count(words, 'e')": num(0), "count(words)": num(3), "2*count(words, 'd') + 1": num(5),
	} {
		if got := evaluate(fitted(t, src, ""), given); !same(got, want) {
			t.Errorf("%s is %+v, want %+v", src, got, want)
		}
		if got := evaluate(fitted(t, src, ""), nil); !got.Given() {
			t.Errorf("%s of nothing is absent", src)
		}
	}
}

func TestEmptyList(t *testing.T) {
	for src, want := range map[string]Value{
		"sum(PFH) > 0": absent(), "max(PFH) > 0": absent(), "count(PFH) = 0": boolean(true), "given(PFH)": boolean(false),
	} {
		if got := evaluate(fitted(t, src, "bool"), nil); !same(got, want) {
			t.Errorf("%s of nothing is %+v, want %+v", src, got, want)
		}
	}
}

// TestForeignValues gives values that the scope did not promise.
func TestForeignValues(t *testing.T) {
	for _, v := range []Value{text("30"), boolean(true), num(math.NaN()), num(math.Inf(1)), absent()} {
		if got := evaluate(fitted(t, "d + 1*d", "mm"), map[string]Value{"d": v}); got.Given() {
			t.Errorf("%+v gives %+v", v, got)
		}
	}
	run := fitted(t, "d > 0 and shape = 'x' and holds", "bool").Compile(func(string) (int, int) { return 7, 1 })
	if got := run(nil); got.Given() {
		t.Errorf("slots beyond the values give %+v", got)
	}
}

// TestBorders compares numbers around the tolerance 2^-48.
func TestBorders(t *testing.T) {
	const step = 1.0 / (1 << 48)
	for _, c := range []struct {
		a, b            float64
		equal, less, le bool
	}{
		{1, 1, true, false, true},
		{1, 1 + step/2, true, false, true},
		{1 + step/2, 1, true, false, true},
		{1, 1 + step, false, true, true},
		{1, 1 - step, false, false, false},
		{1, 1 + 2*step, false, true, true},
		{0.1 + 0.2, 0.3, true, false, true},
		{1545.6, 1.5456 * 1000, true, false, true},
		{0, 0, true, false, true},
		{0, 1e-300, false, true, true},
		{-1, -1 - step/2, true, false, true},
		{-1, 1, false, true, true},
		{3e5, 3e5 + 1e-8, false, true, true},
		{3e5, 3e5 + 1e-9, true, false, true},
	} {
		given := map[string]Value{"n": num(c.a), "m": num(c.b)}
		for src, want := range map[string]bool{
			"n = m": c.equal, "n <> m": !c.equal, "n < m": c.less, "n <= m": c.le, "n > m": !c.le, "n >= m": !c.less,
		} {
			if got := evaluate(fitted(t, src, "bool"), given); !same(got, boolean(want)) {
				t.Errorf("%s with %v and %v is %+v", src, c.a, c.b, got)
			}
		}
	}
	if got := evaluate(fitted(t, "0.3 - 0.2 - 0.1", ""), nil); got.Num != 0 {
		t.Errorf("0.3 - 0.2 - 0.1 is %v, in a cell 0", got.Num)
	}
}

// TestRound pins what the spreadsheets' ROUND gives.
func TestRound(t *testing.T) {
	for _, c := range []struct {
		x        float64
		decimals int
		want     float64
	}{
		{2.675, 2, 2.68}, {1.005, 2, 1.01}, {-2.675, 2, -2.68}, {2.5, 0, 3}, {-2.5, 0, -3}, {0.5, 0, 1}, {0.49999999999, 0, 0},
		{1545.6, -2, 1500}, {1550, -2, 1600}, {49, -2, 0}, {50, -2, 100}, {4.9, -2, 0}, {0, 3, 0}, {1e-20, 3, 0},
		{0.49999999999999994, 0, 0}, {114.49999999999999, 0, 114}, {114.49999999999999, -1, 110}, {11.449999999999999, 1, 11.5}, {0.285, 2, 0.29}, {1.0049999999, 2, 1}, {9.995, 2, 10}, {999.5, 0, 1000}, {1e22, 2, 1e22}, {123456.789, 15, 123456.789},
		{8.345, 2, 8.35}, {0.045, 2, 0.05}, {1.115, 2, 1.12}, {33.335, 2, 33.34}, {math.Pi, 10, 3.1415926536},
	} {
		if got := Round(c.x, c.decimals); got != c.want {
			t.Errorf("Round(%v, %d) = %v, want %v", c.x, c.decimals, got, c.want)
		}
	}
}

package text_test

import (
	"strings"
	"testing"

	"standclear/report/text"
)

// Where editions differ a line says so, and explain shows both.
func TestEditions(t *testing.T) {
	r := demo(t)
	var b strings.Builder
	text.Check(&b, r)
	_, list, ok := strings.Cut(b.String(), "\nEditions side by side\n")
	if !ok {
		t.Fatal("no editions side by side")
	}
	list, _, _ = strings.Cut(list, "\n\n")
	for _, want := range []string{
		"aisle-scanner-distance: ISO 13855:2010 S = 1787 mm, within; ISO 13855:2024 S = 1899 mm, over; +112 mm",
		"tray-reach-over: ISO 13855:2010 S = 506 mm, within; ISO 13855:2024 no value, needs-copy",
		"ISO 13855:2024 S = 634 mm at least, needs-copy; no difference in what is known",
	} {
		if !strings.Contains(list, want) {
			t.Errorf("%q is not in\n%s", want, list)
		}
	}
	if strings.Contains(list, "gap-at-shelf") {
		t.Error("a check of one edition is listed")
	}
	out := explained(t, r, "aisle-scanner-distance")
	for _, want := range []string{"Beside it, by ISO 13855:2024; it does not count", "1200 mm at every height", "K_walk_2024·T_all + C", "+112 mm"} {
		if !strings.Contains(out, want) {
			t.Errorf("%q is not in\n%s", want, out)
		}
	}
	if out := explained(t, r, "tray-reach-over"); !strings.Contains(out, "D_DO for reaching over, ISO 13855:2024, is not public") {
		t.Error("what is not public is not named")
	}
}

package pdf

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"standclear/hazards"
)

// flat is what stands on pages, blanks of either kind alike.
func flat(pages map[int][]spot, n ...int) string {
	kept := pages
	if len(n) > 0 {
		kept = map[int][]spot{1: pages[n[0]]}
	}
	return strings.Join(strings.Fields(strings.ReplaceAll(everything(kept), "\u00a0", " ")), " ")
}

// The worked part names the addends of a sum with their sources, the case that
// was taken, and the place of a look-up; a section lists the values used.
func TestNumbersAreTraceable(t *testing.T) {
	r := demo(t)
	all := flat(traced(t, Options{}, r))
	for _, want := range []string{
		"scanner.response 0.08 s", "+ arm.input_response 0.014 s", "+ arm.c1-100-33.time 0.28 s", "SR-417-2, run 3",
		"hand-at-shelf.speed = arm.shelf.tcp_speed 150 mm/s (140 mm/s ± 10 mm/s)",
		"from contact-areas, row back-of-hand-nd", "otherwise", "? no", "Values of the cell used",
	} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not printed", want)
		}
	}
	f := r.Fact("scanner.response")
	if !strings.Contains(all, "table 12, two scans "+strconv.Itoa(f.Pos.Line)) {
		t.Error("a value is printed without the line of the file")
	}
}

// The group of a sheet decides where its checks stand, not the names of results.
func TestGroupsOfChecks(t *testing.T) {
	r := demo(t)
	all := flat(traced(t, Options{}, r))
	after := func(text, what string) string {
		i := strings.Index(text, what)
		if i < 0 {
			t.Fatalf("%q is not printed", what)
		}
		return text[i:]
	}
	checks := after(all, r.Checks[0].Of+" ")
	checks = after(checks, "Required distances are rounded up")
	functions := strings.Index(checks, "The level reached is the lower")
	others := strings.Index(checks, "Other checks")
	ssm, level, load := strings.Index(checks, "clear-speed-with-new-bench"), strings.Index(checks, "level-press-stop"), strings.Index(checks, "payload-cup-bar")
	if !(0 < ssm && ssm < functions && functions < level && level < others && others < load) {
		t.Errorf("found ssm-speed at %d, functions %d, level %d, others %d, payload %d", ssm, functions, level, others, load)
	}
	o := r.Check("clear-speed-with-new-bench").Outcome
	down := "max = " + strconv.FormatFloat(math.Floor(o.Value("v_max").Num), 'f', -1, 64) + " mm/s"
	if o.Value("v_max").Num == math.Floor(o.Value("v_max").Num) || !strings.Contains(checks[ssm:functions], down) {
		t.Errorf("a permitted speed of %v is not rounded down to %q", o.Value("v_max").Num, down)
	}
	if !strings.Contains(checks[level:others], "worked out , within") {
		t.Errorf("a requirement is praised: %s", checks[level:others])
	}
}

// The first page warns of characters that are not printed and names the texts.
func TestMissingGlyphIsSaidFirst(t *testing.T) {
	r := fixture(t)
	r.File.Head.PreparedBy.Name = "Kim \uae40\ubbfc"
	first := flat(traced(t, Options{}, r), 1)
	for _, want := range []string{"The font lacks 2 characters", "U+AE40", "Texts affected: “Kim □□"} {
		if !strings.Contains(first, want) {
			t.Errorf("%q is not on the first page: %s", want, first)
		}
	}
	if sound := flat(traced(t, Options{}, fixture(t)), 1); strings.Contains(sound, "The font lacks") {
		t.Error("warned of nothing")
	}
	r.Rows[0].Spec.Situation = strings.Repeat("\uae40\xff", 4000)
	withinMargins(t, traced(t, Options{}, r), papers["A4"])
}

// Points of the file and points that the program plans are counted apart.
func TestPointsAreCountedApart(t *testing.T) {
	r := fixture(t)
	r.Points = append(r.Points, hazards.Point{ID: "P-1", Of: "face-at-belt"}, hazards.Point{ID: "P-2", Of: "face-at-belt"})
	first := flat(traced(t, Options{}, r), 1)
	for _, want := range []string{"Validation points in the file 1", "Points planned by the program 2"} {
		if !strings.Contains(first, want) {
			t.Errorf("%q is not on the first page: %s", want, first)
		}
	}
}

// Nothing of a contact that is not permitted is worked out for the reader.
func TestWithheldInPDF(t *testing.T) {
	all := flat(traced(t, Options{}, fixture(t)))
	if !strings.Contains(all, "withheld: no value is offered for a contact that is not permitted") {
		t.Error("a withheld value is not called so")
	}
	if strings.Contains(all, "is missing") {
		t.Error("something withheld is called missing")
	}
}

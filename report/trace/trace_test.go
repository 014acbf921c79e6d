package trace_test

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"standclear/hazards"
	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/report/trace"
	"standclear/templates"
)

// demo is the demo cell, after changes of its text.
func demo(t *testing.T, changes ...string) *hazards.Result {
	t.Helper()
	data, err := templates.FS.ReadFile("cells/demo.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for i := 0; i < len(changes); i += 2 {
		data = bytes.Replace(data, []byte(changes[i]), []byte(changes[i+1]), 1)
	}
	a, problems := file.Load("demo.yaml", data)
	lib, more := sheet.Load(templates.FS)
	if problems = append(problems, more...); len(problems) > 0 {
		t.Fatal(problems)
	}
	r, problems := hazards.Assess(a, data, lib, hazards.Options{Name: "demo", Version: "1"})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return r
}

func input(t *testing.T, r *hazards.Result, check, name string) trace.Input {
	t.Helper()
	c := r.Check(check)
	if c == nil {
		t.Fatalf("no check %s", check)
	}
	list := trace.Inputs(r, c)
	i := slices.IndexFunc(list, func(in trace.Input) bool { return in.Name == name })
	if i < 0 {
		t.Fatalf("check %s has no input %s", check, name)
	}
	return list[i]
}

func TestAddends(t *testing.T) {
	r := demo(t)
	in := input(t, r, "aisle-scanner-distance", "T")
	var got []string
	for _, p := range in.Parts {
		got = append(got, p.String())
	}
	want := []string{
		"scanner.response 0.08 s (datasheet, scanner manual, table 12, two scans)",
		"arm.input_response 0.014 s (datasheet, arm safety manual, table 4)",
		"arm.c1-100-33.time 0.28 s (measured, SR-417-2, run 3)",
	}
	if !slices.Equal(got, want) || in.Value != "0.374 s" || in.Sign != trace.Plus {
		t.Errorf("got %s %s %q", in.Value, in.Sign, got)
	}
}

func TestTypedInHasUnitAndOrigin(t *testing.T) {
	r := demo(t)
	in := input(t, r, "aisle-scanner-distance", "available")
	if len(in.Parts) != 1 || in.Parts[0].Path != "" || in.Parts[0].Value != "1850 mm" || in.Parts[0].Origin != "measured" {
		t.Errorf("got %+v", in.Parts)
	}
}

// A value that leads on is followed, and a tolerance shows both ends.
func TestFollowsPathsAndTolerances(t *testing.T) {
	r := demo(t)
	in := input(t, r, "hand-at-shelf/thenar/cup-bar/long-base", "v")
	if len(in.Parts) != 1 || len(in.Parts[0].Parts) != 1 {
		t.Fatalf("got %+v", in.Parts)
	}
	last := in.Parts[0].Parts[0].String()
	if in.Value != "150 mm/s" || !strings.HasPrefix(last, "arm.shelf.tcp_speed 150 mm/s (140 mm/s ± 10 mm/s) (configuration") {
		t.Errorf("%s = %s", in.Value, last)
	}
	if in := input(t, r, "hand-at-shelf/thenar/cup-bar/long-base", "edges"); in.Sign != trace.Worst || len(in.Parts) != 2 {
		t.Errorf("edges: %+v", in)
	}
}

// A value is shown at the end of its tolerance at which the check takes it, a
// number typed in with its tolerance.
func TestEndsOfTolerances(t *testing.T) {
	r := demo(t, "checks:\n", "checks:\n  - {id: carried, sheet: payload, given: {rated: jaws.mass + 1 kg ± 0.2 kg, tool: 1 kg, part: 0.1 kg}}\n"+
		"  - {id: carries, sheet: payload, given: {rated: 9 kg, tool: jaws.mass, part: 0.1 kg}}\n",
		"1.15 kg, from", "1.15 kg ± 0.05 kg, from")
	low, high := input(t, r, "carried", "rated"), input(t, r, "carries", "tool")
	if low.Value != "1.9 kg" || len(low.Parts) != 2 || low.Parts[0].Value != "1.1 kg (1.15 kg ± 0.05 kg)" || low.Parts[1].Value != "1 kg ± 0.2 kg" {
		t.Errorf("%+v", low)
	}
	if high.Value != "1.2 kg" || high.Parts[0].Value != "1.2 kg (1.15 kg ± 0.05 kg)" {
		t.Errorf("%+v", high)
	}
}

// A circle, which loading refuses, does not hang the writers.
func TestCircleEnds(t *testing.T) {
	r := demo(t)
	f := r.Fact("arm.mass")
	if f == nil {
		f = &r.Facts[0]
	}
	f.Terms = []hazards.Term{{Path: f.Path, Factor: 1}}
	f.Used = expr.Value{Kind: expr.Number, Num: 1}
	if p := trace.Fact(r, f); len(p.Parts) != 1 {
		t.Errorf("got %+v", p)
	}
}

// Only facts that a check was worked out from are listed, with those behind them.
func TestFactsAreThoseUsed(t *testing.T) {
	r := demo(t)
	listed := map[string]bool{}
	for _, f := range trace.Facts(r) {
		listed[f.Path] = true
	}
	for _, want := range []string{"scanner.response", "hand-at-shelf.speed", "arm.shelf.tcp_speed"} {
		if !listed[want] {
			t.Errorf("%s is not listed", want)
		}
	}
	if listed["arm.c0-100-100.time"] || r.Fact("arm.c0-100-100.time") == nil {
		t.Error("a fact that nothing uses is listed, or is gone")
	}
}

// A result of another check is named with the check it comes from and the
// weakest origin behind it; where nothing is lent there is no value.
func TestResultsOfOtherChecks(t *testing.T) {
	const checks = `checks:
  - {id: high-edge, sheet: reach-over, given: {T: {is: 0.1 s, from: measured}, a: 1200..1400 mm, b: {is: 1300 mm, from: measured}}}
  - {id: low-edge, sheet: reach-over, given: {T: {is: 0.1 s, from: measured}, a: 1200..1400 mm, b: {is: 800 mm, from: measured}}}
  - {id: takes-high, sheet: light-curtain, given: {T: 0.1 s, d: 30 mm, C_RO: high-edge.C_RO + 1 cm, under: no, behind: no}}
  - {id: takes-low, sheet: light-curtain, given: {T: 0.1 s, d: 30 mm, C_RO: low-edge.C_RO, under: no, behind: no}}
`
	r := demo(t, "\nchecks:\n", "\n"+checks)
	for check, want := range map[string]string{"takes-high": "910 mm = from high-edge.C_RO 900 mm (assumed, weakest input of what is worked out) + 10 mm (assumed)", "takes-low": "not given = from low-edge.C_RO"} {
		in := input(t, r, check, "C_RO")
		var parts []string
		for _, p := range in.Parts {
			parts = append(parts, p.String())
		}
		if got := in.Value + " = " + strings.Join(parts, " + "); got != want {
			t.Errorf("%s: %s, want %s", check, got, want)
		}
	}
}

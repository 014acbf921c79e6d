package sheet_test

import (
	"math"
	"strings"
	"testing"

	"standclear/limits/sheet"
	"standclear/limits/table/tabletest"
)

// The distances of beams, two-hand controls, mats and interlocked guards.

func init() {
	bases["light-beams"] = "T=0.3 s; beams=3; C_RO=0 mm; lowest=300 mm; highest=1100 mm; under=no; behind=no; available=1500 mm"
	bases["two-hand"] = "T=0.3 s; shrouded=no; available=800 mm"
	bases["mat"] = "T=0.3 s; H=0 mm; width=1000 mm; available=2000 mm"
	bases["interlocked-guard"] = "T=0.3 s; e=25 mm; shape=square; available=700 mm"

	twins["light-beams"] = beamsTwin
	twins["two-hand"] = twoHandTwin
	twins["mat"] = matTwin
	twins["interlocked-guard"] = guardTwin

	ruleCases["light-beams"] = []ruleCase{
		{"it can be crept or reached under", "under=yes", "under=no"},
		{"a person can stand behind it", "behind=yes", "behind="},
		{"the lowest beam is not at a height", "lowest=300.001 mm", "lowest=300 mm"},
		{"the lowest beam is not at a height", "beams=2; highest=900 mm; lowest=400.001 mm", "beams=2; highest=900 mm; lowest=400 mm"},
		{"the lowest beam is not at a height", "beams=1; available=2000 mm; highest=750 mm; lowest=749 mm", "beams=1; available=2000 mm; highest=750 mm; lowest=750 mm"},
		{"the lowest beam is not at a height", "beams=1; available=2000 mm; highest=750 mm; lowest=751 mm", "beams=1; available=2000 mm; highest=750 mm; lowest="},
		{"the highest beam is not at a height", "highest=899.999 mm", "highest=900 mm"},
		{"the highest beam is not at a height", "beams=1; available=2000 mm; lowest=750 mm; highest=751 mm", "beams=1; available=2000 mm; lowest=750 mm; highest=750 mm"},
		{"the highest beam is not at a height", "beams=1; available=2000 mm; lowest=750 mm; highest=749 mm", "beams=1; available=2000 mm; lowest=750 mm; highest="},
		{"reaching over is not answered", "C_RO=", "C_RO=0 mm"},
		{underText, "available=1329.9 mm", "available=1330 mm"},
		{underText, "C_RO=1100 mm; available=1579.9 mm", "C_RO=1100 mm; available=1580 mm"},
		{underText, "beams=1; lowest=750 mm; highest=750 mm; available=1679.9 mm", "beams=1; lowest=750 mm; highest=750 mm; available=1680 mm"},
		{unknown, "available=", ""},
	}
	ruleCases["two-hand"] = []ruleCase{
		{underText, "available=729.9 mm", "available=730 mm"},
		{underText, "shrouded=yes; T=0.05 s; available=99.9 mm", "shrouded=yes; T=0.05 s; available=100 mm"},
		{unknown, "available=", ""},
	}
	ruleCases["mat"] = []ruleCase{
		{"a person can stand between the mat", "behind=yes", "behind=no"},
		{"the mat is less than 750 mm wide", "width=749.999 mm", "width=750 mm"},
		{underText, "available=1679.9 mm", "available=1680 mm"},
		{underText, "H=200 mm; width=; available=1599.9 mm", "H=200 mm; width=; available=1600 mm"},
		{unknown, "available=", ""},
	}
	ruleCases["interlocked-guard"] = []ruleCase{
		{underText, "available=599.9 mm", "available=600 mm"},
		{underText, "shape=slot; available=1329.9 mm", "shape=slot; available=1330 mm"},
		{underText, "e=0 mm; t_open=0.1 s; available=319.9 mm", "e=0 mm; t_open=0.1 s; available=320 mm"},
		{unknown, "available=", ""},
	}
	ruleCases["light-curtain"] = append(ruleCases["light-curtain"],
		ruleCase{"an approach at less than 30 degrees", "angle=29.999 deg", "angle=30 deg"})
	ruleCases["reach-over"] = append(ruleCases["reach-over"],
		ruleCase{"an approach at less than 30 degrees", "angle=29.999 deg", "angle=30 deg"})
	ruleCases["parallel-field"] = append(ruleCases["parallel-field"],
		ruleCase{"an approach at 30 degrees or more", "angle=30 deg", "angle=29.999 deg"},
		ruleCase{"a person can crawl beneath", "crawl=yes", "crawl=no"},
		ruleCase{"the plane is above 300 mm and crawling", "crawl=; H=300.001 mm", "crawl=; H=300 mm"},
		ruleCase{"a person can stand between it", "behind=yes", "behind=no"},
		ruleCase{"the gap behind the field", "gap=75.001 mm; H=375 mm", "gap=75 mm; H=375 mm"},
		ruleCase{"the gap behind the field", "gap=50.001 mm; H=374.999 mm", "gap=50 mm; H=374.999 mm"})

	meetings["light-beams"] = []meet{{"", "available", "S"}, {"C_RO=1100 mm", "available", "S"}, {"beams=1; lowest=; highest=", "available", "S"}}
	meetings["two-hand"] = []meet{{"", "available", "S"}, {"shrouded=yes", "available", "S"}}
	meetings["mat"] = []meet{{"", "available", "S"}, {"H=137.7 mm", "available", "S"}}
	meetings["interlocked-guard"] = []meet{{"", "available", "S"}, {"e=0 mm; t_open=0.07 s", "available", "S"}}

	exactTexts["light-beams"] = []string{"beams=1; lowest=; highest=", "beams=2", "beams=4; lowest=; highest=", "lowest=1101 mm; highest=1100 mm", "beams=1; lowest=750 mm; highest=750 mm",
		"beams=1; lowest=750.0000001 mm; highest=750 mm", "under=; behind=", "C_RO=850 mm", "C_RO=850.0000001 mm", "lowest=300.0000000001 mm", "highest=899.9999999999 mm"}
	exactTexts["two-hand"] = []string{"shrouded=yes; T=0.0625 s", "shrouded=yes; T=0.0625000001 s", "shrouded=yes; T=0.01 s; available=100 mm"}
	exactTexts["mat"] = []string{"width=750 mm", "width=749.9999999 mm", "H=1000 mm", "width="}
	exactTexts["interlocked-guard"] = guardTexts()
	exactTexts["light-curtain"] = append(exactTexts["light-curtain"], "angle=30 deg", "angle=29.9999999999 deg", "angle=35 deg", "angle=85 deg", "angle=90 deg", "angle=0 deg")
	exactTexts["parallel-field"] = append(exactTexts["parallel-field"], "angle=30 deg", "angle=29.9999999999 deg", "angle=5 deg", "H=300 mm; crawl=", "H=300.0000001 mm; crawl=",
		"H=375 mm; gap=75 mm", "H=374.9999999 mm; gap=75 mm", "gap=50 mm; H=300 mm", "behind=yes; gap=0 mm")
}

// guardTexts are the borders of every row of the openings, for every shape.
func guardTexts() []string {
	var out []string
	for _, shape := range []string{"slot", "square", "round"} {
		for _, e := range []string{"0", "0.0000001", "4", "4.0000001", "6", "6.0000001", "8", "8.0000001", "10", "10.0000001", "12", "12.0000001", "20", "20.0000001",
			"30", "30.0000001", "40", "40.0000001", "120", "120.0000001", "121"} {
			out = append(out, "shape="+shape+"; e="+e+" mm")
		}
	}
	return append(out, "T=0.3 s; t_open=0.3 s", "t_open=0.31 s", "t_open=0 s", "shape=")
}

func beamsTwin(_ *tabletest.Reference, g given) results {
	C, heights := 850.0, map[string]string{"1": "750", "2": "400, 900", "3": "300, 700, 1100", "4": "300, 600, 900, 1200"}[g.text("beams")]
	if g.text("beams") == "1" {
		C = 1200
	}
	C = math.Max(C, or(g.num("C_RO"), 0))
	return results{"C": C, "S": 1600*g.num("T") + C, "heights": heights}
}

func twoHandTwin(_ *tabletest.Reference, g given) results {
	way := 1600 * g.num("T")
	if g.text("shrouded") == "no" {
		return results{"S": way + 250}
	}
	return results{"S": math.Max(way, 100)}
}

func matTwin(_ *tabletest.Reference, g given) results {
	return results{"S": 1600*g.num("T") + 1200 - 0.4*g.num("H")}
}

// openings are the reaches through a slot, a square and a round opening, by the
// greatest opening of each step.
var openings = []struct {
	to    float64
	reach map[string]float64
}{
	{120, map[string]float64{"slot": 850, "square": 850, "round": 850}},
	{40, map[string]float64{"slot": 850, "square": 200, "round": 120}},
	{30, map[string]float64{"slot": 850, "square": 120, "round": 120}},
	{20, map[string]float64{"slot": 120, "square": 120, "round": 120}},
	{12, map[string]float64{"slot": 100, "square": 80, "round": 80}},
	{10, map[string]float64{"slot": 80, "square": 25, "round": 20}},
	{8, map[string]float64{"slot": 20, "square": 15, "round": 5}},
	{6, map[string]float64{"slot": 10, "square": 5, "round": 5}},
	{4, map[string]float64{"slot": 2, "square": 2, "round": 2}},
}

func guardTwin(_ *tabletest.Reference, g given) results {
	reach := math.NaN()
	for _, o := range openings {
		if g.num("e") <= o.to {
			reach = o.reach[g.text("shape")]
		}
	}
	if g.num("e") == 0 {
		reach = 0
	}
	time := math.Max(0, g.num("T")-or(g.num("t_open"), 0))
	return results{"C": reach, "S": 1600*time + reach}
}

// More time, more opening and more reach never shorten a distance; more of what
// is available never makes a verdict worse.
func TestMoreTimeNeverShortensADistanceOfAGuard(t *testing.T) {
	for id, inputs := range map[string][]string{"light-beams": {"T", "C_RO"}, "two-hand": {"T"}, "mat": {"T"}, "interlocked-guard": {"T", "e"}} {
		for _, input := range inputs {
			pairs(t, id, input, func(less, more *sheet.Outcome) string { return sinks("S", less, more) })
			if input == "T" { // too great an opening is outside, not over
				pairs(t, id, input, verdictNeverBetter)
			}
		}
		pairs(t, id, "available", verdictNeverWorse)
	}
	pairs(t, "interlocked-guard", "t_open", func(less, more *sheet.Outcome) string { return rises("S", less, more) })
	pairs(t, "mat", "H", func(less, more *sheet.Outcome) string { return rises("S", less, more) })
}

// The inputs and results that other programs rely on are there.
func TestNamesOfDistances(t *testing.T) {
	for id, names := range map[string][2]string{
		"light-beams":       {"T:s beams C_RO:mm available:mm", "C:mm S:mm heights"},
		"two-hand":          {"T:s shrouded available:mm", "S:mm"},
		"mat":               {"T:s H:mm available:mm", "S:mm"},
		"interlocked-guard": {"T:s e:mm shape available:mm", "C:mm S:mm"},
	} {
		s := library(t).Sheet(id)
		if s == nil {
			t.Fatalf("no sheet %s", id)
		}
		for _, in := range strings.Fields(names[0]) {
			name, unit, _ := strings.Cut(in, ":")
			if c := s.Input(name); c == nil || c.UnitName() != unit {
				t.Errorf("sheet %s: no input %s in %q", id, name, unit)
			}
		}
		for _, out := range strings.Fields(names[1]) {
			name, unit, _ := strings.Cut(out, ":")
			if c := s.Column(name); c == nil || c.UnitName() != unit || !listed(s, c) {
				t.Errorf("sheet %s: no result %s in %q", id, name, unit)
			}
		}
	}
}

// An angle decides which sheet serves: at each angle a curtain or a field is
// left, never both and never none.
func TestAngleLeavesOneSheet(t *testing.T) {
	curtain, field := library(t).Sheet("light-curtain"), library(t).Sheet("parallel-field")
	for _, angle := range []string{"0", "5", "25", "29.999", "30", "30.001", "35", "60", "85", "90"} {
		a, b := with(t, curtain, "angle="+angle+" deg"), with(t, field, "angle="+angle+" deg")
		if a.Verdict.Holds() == b.Verdict.Holds() {
			t.Errorf("at %s degrees the curtain is %s and the field %s", angle, a.Verdict, b.Verdict)
		}
	}
}

// Of an opening that the table does not hold no distance is given.
func TestNoDistanceBeyondTheOpenings(t *testing.T) {
	s := library(t).Sheet("interlocked-guard")
	if o := with(t, s, "e=121 mm"); o.Verdict != sheet.Outside || o.Value("C").Given() || o.Value("S").Given() {
		t.Errorf("%s, C %v, S %v", o.Verdict, o.Value("C"), o.Value("S"))
	}
}

// At the border of each row, for each shape, the reach is that of the table
// keyed apart.
func TestReachAtTheBordersOfTheOpenings(t *testing.T) {
	s := library(t).Sheet("interlocked-guard")
	for _, text := range guardTexts() {
		if text == "shape=" {
			continue
		}
		o := with(t, s, text)
		want := guardTwin(nil, given{s, o.Values})
		for _, name := range []string{"C", "S"} {
			if !same(o.Value(name), want[name], s.ID) {
				t.Errorf("%s: %s is %v, keyed apart %v", text, name, o.Value(name), want[name])
			}
		}
	}
}

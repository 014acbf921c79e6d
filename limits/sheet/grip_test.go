package sheet_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/limits/table/tabletest"
)

func init() {
	bases["vacuum-hold"] = "cups=4; diameter=40 mm; dp=60 kPa; mass=3 kg; a=5 m/s2; mu=0.5; orientation=side; required=2"
	bases["jaw-hold"] = "F_grip=120 N; jaws=2; mu=0.4; mass=2 kg; a=6 m/s2; required=2"
	bases["touch"] = "surface=plastic; temperature=40 degC; time=1 s"
	ruleCases["vacuum-hold"] = []ruleCase{
		{"the safety factor required is missing", "required=", ""},
		{"the cups hold with less", "required=3.265", "required=3.264"},
	}
	ruleCases["jaw-hold"] = []ruleCase{
		{"the safety factor required is missing", "required=", ""},
		{"the jaws hold with less", "required=3.04", "required=3.03"},
	}
	ruleCases["touch"] = []ruleCase{
		{"no public source has the threshold", "surface=coated-metal; time=0.5 s", "surface=coated-metal; time=0.501 s"},
		{"the surface is at or above", "temperature=86 degC", "temperature=85.999 degC"},
	}
	ruleCases["payload"] = append(ruleCases["payload"], ruleCase{"tool and part are heavier", "rated_at_offset=4.999 kg", "rated_at_offset=5 kg"})
	for _, id := range []string{"vacuum-hold", "jaw-hold", "touch"} {
		nets[id] = true
	}
	twins["vacuum-hold"], twins["jaw-hold"], twins["touch"] = cupsTwin, jawsTwin, touchTwin
	twins["payload"] = func(_ *tabletest.Reference, g given) results {
		total := g.num("tool") + g.num("part")
		return results{"total": total, "use": total / math.Min(g.num("rated"), or(g.num("rated_at_offset"), math.Inf(1)))}
	}
	spreads["touch"] = func(r *rand.Rand, s *sheet.Sheet, vals []expr.Value) {
		if r.IntN(2) == 0 {
			vals[s.Input("time").Slot] = number([]float64{0.5, 0.7, 1, 1.001, 10, 60, 61, 600, 3600, 28800}[r.IntN(10)])
		}
	}
	meetings["vacuum-hold"] = []meet{{"", "required", "safety"}, {"orientation=down-level", "required", "safety"}, {"orientation=down-vertical; mu=1", "required", "safety"}}
	meetings["jaw-hold"] = []meet{{"", "required", "safety"}, {"a=0 m/s2; jaws=3", "required", "safety"}}
	meetings["touch"] = []meet{{"", "temperature", "threshold"}, {"surface=wood; time=60 s", "temperature", "threshold"}}
	meetings["payload"] = append(meetings["payload"], meet{"tool=0.1 kg; part=0.2 kg; rated_at_offset=1 kg", "rated_at_offset", "total"})
	exactTexts["vacuum-hold"] = []string{"required=", "dp=0 kPa", "mu=1", "mu=1.0000001", "a=0 m/s2", "a=0 m/s2; orientation=down-level", "orientation=", "mu=; orientation=down-vertical", "cups=1; diameter=2000 mm"}
	exactTexts["jaw-hold"] = []string{"required=", "F_grip=0 N", "jaws=3", "a=0 m/s2", "mu=5"}
	exactTexts["touch"] = []string{"time=0.5 s", "time=0.4999999 s", "time=0.5000001 s; surface=coated-metal", "time=0.5 s; surface=coated-metal", "time=1 s", "time=1.0000001 s", "time=60 s; surface=wood",
		"time=600 s", "time=601 s", "time=28800 s", "time=28800.1 s", "time=0.4 s; surface=coated-metal", "temperature=0 degC", "temperature=-1 degC", "surface=", "time="}
	exactTexts["payload"] = append(exactTexts["payload"], "offset=100 mm", "offset=100 mm; rated_at_offset=4 kg", "rated_at_offset=20 kg", "rated_at_offset=0 kg", "rated_at_offset=0 kg; tool=0 kg; part=0 kg")
}

const standardGravity = 9.80665

// cupsTwin works in SI units: atmospheres push, friction carries.
func cupsTwin(_ *tabletest.Reference, g given) results {
	radius := g.num("diameter") / 2e3
	hold := g.num("cups") * math.Pi * radius * radius * g.num("dp") * 1e3
	weight, stop := g.num("mass")*standardGravity, g.num("mass")*g.num("a")
	need := weight + stop
	switch g.text("orientation") {
	case "down-level": // the stop is held by friction of what presses beyond the weight
		need = weight + stop*math.Hypot(1, 1/g.num("mu"))
	case "side":
		need = weight/g.num("mu") + stop*math.Hypot(1, 1/g.num("mu"))
	}
	return results{"F_hold": hold, "F_need": need, "safety": hold / need}
}

func jawsTwin(_ *tabletest.Reference, g given) results {
	return results{"safety": g.num("mu") * g.num("F_grip") * g.num("jaws") / g.num("mass") / (standardGravity + g.num("a"))}
}

func touchTwin(_ *tabletest.Reference, g given) results {
	values, time := burnOf(g.text("surface")), g.num("time")
	for i, longest := range []float64{0.5, 1, 60, 600, math.Inf(1)} {
		if time <= longest {
			if values[i] < 0 {
				break
			}
			return results{"threshold": values[i], "left": values[i] - g.num("temperature")}
		}
	}
	return results{"threshold": math.NaN(), "left": math.NaN()}
}

func TestGripNeverBetterByLess(t *testing.T) {
	safety := func(less, more *sheet.Outcome) string { return sinks("safety", less, more) }
	worse := func(less, more *sheet.Outcome) string { return rises("safety", less, more) }
	for _, input := range []string{"cups", "diameter", "dp", "mu"} {
		pairs(t, "vacuum-hold", input, safety)
	}
	for _, input := range []string{"F_grip", "jaws", "mu"} {
		pairs(t, "jaw-hold", input, safety)
	}
	for _, id := range []string{"vacuum-hold", "jaw-hold"} {
		for _, input := range []string{"mass", "a"} {
			pairs(t, id, input, worse)
			pairs(t, id, input, verdictNeverBetter)
		}
		pairs(t, id, "required", verdictNeverBetter)
	}
	pairs(t, "touch", "time", func(less, more *sheet.Outcome) string { return rises("threshold", less, more) })
	pairs(t, "payload", "rated_at_offset", verdictNeverWorse)
}

// The force needed is that of the worst direction of the stop, found by trying
// directions: pulling off the cups and along them share the stop.
func TestCupsHoldInTheWorstDirection(t *testing.T) {
	s := library(t).Sheet("vacuum-hold")
	for _, mu := range []float64{0.1, 0.5, 0.8, 1} {
		for orientation, weight := range map[string]float64{"down-level": 1, "side": 1 / mu} {
			vals := inputs(t, s, "mass=2.3 kg; a=20 m/s2; orientation="+orientation)
			vals[s.Input("mu").Slot] = number(mu)
			worst := 0.0
			for i := range 100001 {
				sin, cos := math.Sincos(float64(i) * math.Pi / 2 / 100000)
				worst = max(worst, 2.3*(standardGravity*weight+20*sin+20*cos/mu))
			}
			out := s.Evaluate(vals)
			if need := out.Value("F_need").Num; math.Abs(need-worst) > 1e-6*worst {
				t.Errorf("%s, friction %v: %v, the worst direction needs %v", orientation, mu, need, worst)
			}
		}
	}
}

// With friction of 1 or less, a part on cups that face down needs no more than
// one that hangs sideways, and movement up and down alone no more than any.
func TestCupsBoundEveryDirection(t *testing.T) {
	s := library(t).Sheet("vacuum-hold")
	r := rand.New(rand.NewPCG(13857, 3))
	for range 10000 {
		vals := randomRow(r, s)
		vals[s.Input("mu").Slot] = number(0.01 + 0.99*r.Float64())
		need := map[string]float64{}
		for _, o := range s.Input("orientation").Choice {
			vals[s.Input("orientation").Slot] = word(o)
			out := s.Evaluate(vals)
			need[o] = out.Value("F_need").Num
		}
		if near := 1 + 1e-12; need["down-vertical"] > need["down-level"]*near || need["down-level"] > need["side"]*near {
			t.Fatalf("%v: %s", need, shown(s, vals))
		}
	}
}

// Skin burns at the threshold itself, as in the contact sheets.
func TestTouchAtTheThreshold(t *testing.T) {
	s := library(t).Sheet("touch")
	for text, want := range map[string]sheet.Verdict{"temperature=43 degC": sheet.Over, "temperature=42.999 degC": sheet.Within} {
		if o := with(t, s, "time=28800 s; "+text); o.Verdict != want {
			t.Errorf("%s: %s", text, o.Verdict)
		}
		jaw := with(t, library(t).Sheet("jaw-pinch"), "theta"+text[len("temperature"):])
		if hot := jaw.Verdict == sheet.NotPermitted; hot != (want == sheet.Over) {
			t.Errorf("%s: contact %s", text, jaw.Verdict)
		}
	}
}

func TestGripNotes(t *testing.T) {
	for _, c := range []struct{ sheet, change, says, open, silent string }{
		{"payload", "", "compare total and offset", "", "rated_at_offset"},
		{"payload", "offset=100 mm", "rated_at_offset is not given", "estimate", "compare total"},
		{"vacuum-hold", "required=", "1.5 for smooth", "", ""},
		{"vacuum-hold", "orientation=down-vertical", "is down-level", "", "1.5 for smooth"},
		{"jaw-hold", "", "pinches harder", "", "2 and more"},
		{"touch", "time=10 s", "curves alone", "", "EN 563"},
		{"touch", "", "EN 563", "", "curves alone"},
	} {
		checkNotes(t, with(t, library(t).Sheet(c.sheet), c.change), c.change, c.says, c.open, c.silent)
	}
	if o := with(t, library(t).Sheet("payload"), "offset=100 mm; rated_at_offset=6 kg"); len(o.Notes()) != 0 || o.Verdict != sheet.Within {
		t.Errorf("%s, %v", o.Verdict, o.Notes())
	}
}

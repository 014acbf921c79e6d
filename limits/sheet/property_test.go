package sheet_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// pairs are two rows of a sheet that differ in one input: the second has more.
func pairs(t *testing.T, id, input string, check func(less, more *sheet.Outcome) string) {
	t.Helper()
	s := keyed(t, id)
	r := rand.New(rand.NewPCG(uint64(len(id)), uint64(len(input))))
	c := s.Input(input)
	compared := 0
	for range 10000 {
		less := randomRow(r, s)
		less[c.Slot] = random(r, c)
		more := append([]expr.Value(nil), less...)
		more[c.Slot] = random(r, c)
		if less[c.Slot].Num > more[c.Slot].Num {
			less, more = more, less
		}
		a, b := s.Evaluate(less), s.Evaluate(more)
		if wrong := check(&a, &b); wrong != "" {
			t.Fatalf("sheet %s, %s from %v up: %s; %s", id, input, less[c.Slot].Num, wrong, shown(s, more))
		}
		if a.Verdict.Holds() || b.Verdict.Holds() {
			compared++
		}
	}
	if compared < 30 && s.Column("available") == nil {
		t.Errorf("sheet %s, %s: only %d of 10000 rows hold", id, input, compared)
	}
}

// sinks gives a complaint when a result is less in more than in less.
func sinks(name string, less, more *sheet.Outcome) string {
	a, b := less.Value(name), more.Value(name)
	if a.Given() && b.Given() && b.Num < a.Num*(1-1e-12) {
		return name + " sinks"
	}
	return ""
}

func rises(name string, less, more *sheet.Outcome) string {
	if sinks(name, more, less) != "" {
		return name + " rises"
	}
	return ""
}

func TestMoreSpeedMassAndStiffnessNeverHelp(t *testing.T) {
	for _, id := range []string{"contact-transient", "contact-clamped"} {
		for _, input := range []string{"v", "M", "m_L", "K", "m_R", "k_pad"} {
			pairs(t, id, input, func(less, more *sheet.Outcome) string {
				if w := sinks("F_peak", less, more); w != "" {
					return w
				}
				// more stiffness of the padding lets it travel less, so that it bottoms out later
				if more.Verdict.Rank() > less.Verdict.Rank() && input != "k_pad" {
					return "verdict turns from " + string(less.Verdict) + " to " + string(more.Verdict)
				}
				if input == "k_pad" {
					return ""
				}
				return rises("v_max", less, more)
			})
		}
		pairs(t, id, "A", func(less, more *sheet.Outcome) string { return sinks("v_max", less, more) })
	}
	for _, input := range []string{"F_hold"} {
		pairs(t, "contact-clamped", input, verdictNeverBetter)
	}
	pairs(t, "jaw-pinch", "F_grip", verdictNeverBetter)
}

func verdictNeverBetter(less, more *sheet.Outcome) string {
	if more.Verdict.Rank() > less.Verdict.Rank() {
		return "verdict turns from " + string(less.Verdict) + " to " + string(more.Verdict)
	}
	return ""
}

func verdictNeverWorse(less, more *sheet.Outcome) string { return verdictNeverBetter(more, less) }

func TestMoreTimeNeverShortensADistance(t *testing.T) {
	for id, inputs := range map[string][]string{"light-curtain": {"T", "C_RO", "d"}, "reach-over": {"T"}, "parallel-field": {"T", "Z"}} {
		for _, input := range inputs {
			pairs(t, id, input, func(less, more *sheet.Outcome) string { return sinks("S", less, more) })
			if input == "T" {
				pairs(t, id, input, verdictNeverBetter)
			}
		}
		pairs(t, id, "available", verdictNeverWorse)
	}
	for _, input := range []string{"T_r", "T_s", "v_h", "v_r", "C", "Z_d", "Z_r", "S_s"} {
		pairs(t, "ssm", input, func(less, more *sheet.Outcome) string { return sinks("S_p", less, more) })
		pairs(t, "ssm", input, verdictNeverBetter)
	}
	for _, input := range []string{"T_r", "T_s", "v_h", "C", "Z_d", "Z_r"} {
		pairs(t, "ssm-speed", input, func(less, more *sheet.Outcome) string { return rises("v_max", less, more) })
	}
	pairs(t, "ssm-speed", "D", func(less, more *sheet.Outcome) string { return sinks("v_max", less, more) })
	pairs(t, "parallel-field", "H", func(less, more *sheet.Outcome) string { return rises("S", less, more) })
	pairs(t, "reach-over", "b", func(less, more *sheet.Outcome) string { return rises("C_RO", less, more) })
}

// A body part that is held is never permitted more speed than a free one.
func TestClampedIsNeverFaster(t *testing.T) {
	lib := library(t)
	free, held := lib.Sheet("contact-transient"), lib.Sheet("contact-clamped")
	r := rand.New(rand.NewPCG(1, 2))
	for range 10000 {
		f := randomRow(r, free)
		h := held.Blank()
		for _, c := range held.Columns {
			if d := free.Column(c.Name); takes(c) && d != nil {
				h[c.Slot] = f[d.Slot]
			}
		}
		a, b := free.Evaluate(f), held.Evaluate(h)
		if va, vb := a.Value("v_max"), b.Value("v_max"); va.Given() != vb.Given() || va.Num < vb.Num {
			t.Fatalf("free %v, held %v: %s", va, vb, shown(free, f))
		}
	}
}

// A body part that is heavy against the robot moves as little as one that is held.
func TestHeavyBodyPart(t *testing.T) {
	s := library(t).Sheet("contact-transient")
	r := rand.New(rand.NewPCG(3, 4))
	for range 10000 {
		vals := inputs(t, s, "m_R=1 kg; m_H=200 kg")
		m := 1e-6 * math.Pow(10, 4*r.Float64())
		vals[s.Input("m_R").Slot] = number(m)
		o := s.Evaluate(vals)
		if mu := o.Value("mu").Num; mu > m || mu < m*(1-m/200)*(1-1e-12) {
			t.Fatalf("mu is %v, m_R %v", mu, m)
		}
	}
}

// What is not permitted, and what nobody published, carries no speed, force or
// area, and no other number of the model.
func TestNotPermittedCarriesNothing(t *testing.T) {
	lib := library(t)
	for _, id := range []string{"contact-transient", "contact-clamped", "jaw-pinch"} {
		s := lib.Sheet(id)
		r := rand.New(rand.NewPCG(5, uint64(len(id))))
		seen := 0
		for range 10000 {
			vals := randomRow(r, s)
			o := s.Evaluate(vals)
			if o.Verdict != sheet.NotPermitted && o.Verdict != sheet.NeedsCopy {
				continue
			}
			seen++
			for _, c := range s.Columns {
				if (c.Role == sheet.Step || c.Role == sheet.Shown || c.Role == sheet.Use) && o.Values[c.Slot].Given() {
					t.Fatalf("sheet %s, %s: %s is %s; %s", id, o.Verdict, c.Name, c.Show(o.Values[c.Slot]), shown(s, vals))
				}
			}
		}
		if seen < 1000 {
			t.Errorf("sheet %s: only %d rows", id, seen)
		}
	}
}

// without is the input in whose absence a sheet may hold without a result: a level
// that is counted, or comes from a word, has no failure rate.
var without = map[string]string{"level-chain PFH_sum": "PFH", "level-estimate PFH": "MTTFD"}

func absentWith(s *sheet.Sheet, result string, vals []expr.Value) bool {
	input, ok := without[s.Key()+" "+result]
	for _, c := range called(s, input) {
		ok = ok && !vals[c.Slot].Given()
	}
	return ok
}

// A verdict that holds stands on known numbers: nothing that is a result is absent.
func TestWithinMeansKnown(t *testing.T) {
	for _, s := range library(t).Sheets {
		r := rand.New(rand.NewPCG(8, uint64(len(s.ID))))
		allowed := map[sheet.Verdict]bool{}
		for _, v := range sheet.Order {
			allowed[v] = true
		}
		for range 3000 {
			vals := randomRow(r, s)
			o := s.Evaluate(vals)
			if !allowed[o.Verdict] || o.Why == "" {
				t.Fatalf("sheet %s: verdict %q, why %q", s.ID, o.Verdict, o.Why)
			}
			for _, c := range s.Results {
				if o.Verdict.Holds() && !o.Values[c.Slot].Given() && !absentWith(s, c.Name, vals) {
					t.Fatalf("sheet %s holds without %s: %s", s.ID, c.Name, shown(s, vals))
				}
			}
		}
	}
}

// The shown value lies on the safe side of the exact one, within its step.
func TestShownIsOnTheSafeSide(t *testing.T) {
	for _, s := range library(t).Sheets {
		r := rand.New(rand.NewPCG(9, uint64(len(s.ID))))
		for range 1000 {
			vals := randomRow(r, s)
			o := s.Evaluate(vals)
			for _, c := range s.Columns {
				if c.Role != sheet.Shown {
					continue
				}
				exact, safe := o.Value(c.Name[:len(c.Name)-len("_shown")]), o.Values[c.Slot]
				off, step := safe.Num-exact.Num, math.Pow(10, -float64(c.Decimals))
				if !c.Up {
					off = -off
				}
				if exact.Given() != safe.Given() || math.Abs(exact.Num) < 1e9 && (off < -1e-6 || off >= step+1e-6) {
					t.Fatalf("sheet %s: %s is %v, shown %v", s.ID, c.Name, exact, safe)
				}
			}
		}
	}
}

// Better parts, better tests and fewer cycles never make a level worse.
func TestLevelNeverWorseByBetterParts(t *testing.T) {
	s := library(t).Sheet("level-estimate")
	r := rand.New(rand.NewPCG(13849, 1))
	order := "edcba"
	compared := 0
	for range 20000 {
		less := randomRow(r, s)
		spreadEstimate(r, s, less)
		more := append([]expr.Value(nil), less...)
		name := []string{"MTTFD", "DC_share"}[r.IntN(2)]
		c := s.Input(name)
		if !less[c.Slot].Given() {
			continue
		}
		if more[c.Slot] = number(less[c.Slot].Num * (1 + 2*r.Float64())); name == "DC_share" {
			more[c.Slot] = number(min(1, more[c.Slot].Num))
		}
		a, b := s.Evaluate(less), s.Evaluate(more)
		was, now := a.Value("PFH"), b.Value("PFH")
		if !was.Given() || !now.Given() {
			continue
		}
		compared++
		if now.Num > was.Num || strings.Index(order, a.Value("PL").Text) < strings.Index(order, b.Value("PL").Text) {
			t.Fatalf("%s: PFH from %v to %v, level from %s to %s; %s", name, was.Num, now.Num, a.Value("PL").Text, b.Value("PL").Text, shown(s, more))
		}
	}
	if compared < 2000 {
		t.Errorf("only %d of 20000 rows compared", compared)
	}
}

// One more part at the lowest level never raises a counted level, nor does a
// failure rate that is added.
func TestChainNeverBetterByAPart(t *testing.T) {
	s := library(t).Sheet("level-chain")
	r := rand.New(rand.NewPCG(13849, 2))
	for range 20000 {
		less := randomRow(r, s)
		spreadChain(r, s, less)
		more := append([]expr.Value(nil), less...)
		list := s.Lists["levels"]
		n := 0
		for n < len(list) && less[list[n].Slot].Given() {
			n++
		}
		if n == 0 || n == len(list) {
			continue
		}
		more[list[n].Slot] = word(string("abcde"[r.IntN(5)]))
		a, b := s.Evaluate(less), s.Evaluate(more)
		was, now := a.Value("n"), b.Value("n")
		if was.Given() && now.Given() && now.Num > was.Num {
			t.Fatalf("level from %v to %v by one more part: %s", was.Num, now.Num, shown(s, more))
		}
	}
}

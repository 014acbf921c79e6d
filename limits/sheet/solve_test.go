package sheet_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// answers are what would make a sheet hold at its base with a change, by input.
func answers(t testing.TB, id, change string) (sheet.Outcome, map[string]sheet.Answer) {
	t.Helper()
	o := with(t, library(t).Sheet(id), change)
	out := map[string]sheet.Answer{}
	for _, a := range advice(&o) {
		out[a.Column.Name] = a
	}
	return o, out
}

func close12(a, b float64) bool { return math.Abs(a-b) <= 2e-12*math.Abs(b) }

// The solver knows no formula; where there is a closed form it comes to the same.
func TestSolverAgainstClosedForms(t *testing.T) {
	cases := []struct {
		sheet, change, input string
		want                 func(o *sheet.Outcome) float64
		shown                float64
	}{
		{"contact-transient", "v=3000 mm/s", "v", func(o *sheet.Outcome) float64 { return o.Value("v_max").Num }, 0},
		{"contact-transient", "v=900 mm/s; A=0.3 cm2", "v", func(o *sheet.Outcome) float64 { return o.Value("v_max").Num }, 0},
		{"contact-transient", "v=3000 mm/s; k_pad=20 N/mm; s_pad=10 mm", "v", func(o *sheet.Outcome) float64 { return o.Value("v_max").Num }, 0},
		{"contact-clamped", "v=900 mm/s", "v", func(o *sheet.Outcome) float64 { return o.Value("v_max").Num }, 0},
		{"contact-clamped", "A=0.2 cm2; F_hold=20 N", "A", func(o *sheet.Outcome) float64 {
			return max(o.Value("F_peak").Num, 20) / o.Value("p_limit").Num
		}, 0},
		{"contact-clamped", "F_hold=900 N; A=100 cm2", "F_hold", func(o *sheet.Outcome) float64 { return o.Value("F_limit").Num }, 140},
		{"jaw-pinch", "F_grip=900 N; A=0.5 cm2", "F_grip", func(o *sheet.Outcome) float64 { return o.Value("p_limit").Num * 0.5 }, 0},
		// 2000 T + 128 <= 400
		{"light-curtain", "available=400 mm", "T", func(*sheet.Outcome) float64 { return (400 - 128.0) / 2000 }, 0.136},
		// beyond the kink at 500 mm: 1600 T + 128 <= 700
		{"light-curtain", "available=700 mm; T=0.5 s", "T", func(*sheet.Outcome) float64 { return (700 - 128.0) / 1600 }, 0.357},
		// at the kink both lines stop at 500 mm: up to T of (500-128)/1600
		{"light-curtain", "available=500 mm; T=0.5 s", "T", func(*sheet.Outcome) float64 { return (500 - 128.0) / 1600 }, 0.232},
		{"light-curtain", "available=100 mm; T=0.5 s; d=14 mm", "T", func(*sheet.Outcome) float64 { return 0.05 }, 0.05},
		{"light-curtain", "available=", "available", func(o *sheet.Outcome) float64 { return o.Value("S").Num }, 0},
		{"parallel-field", "available=1500 mm", "T", func(*sheet.Outcome) float64 { return (1500 - 100 - (1200 - 0.4*400)) / 1600 }, 0.225},
		{"parallel-field", "available=1700 mm", "H", func(*sheet.Outcome) float64 { return (1200 + 100 + 1600*0.4 - 1700) / 0.4 }, 600},
		{"parallel-field", "available=", "available", func(o *sheet.Outcome) float64 { return o.Value("S").Num }, 1780},
		{"parallel-field", "H=1200 mm", "H", func(*sheet.Outcome) float64 { return 1000 }, 1000},
		{"least-gap", "available=60 mm", "available", func(*sheet.Outcome) float64 { return 100 }, 100},
		{"ssm", "available=1000 mm", "T_r", func(*sheet.Outcome) float64 {
			return (1000 - 200 - 100 - 50 - 90 - 1600*0.3) / (1600 + 500)
		}, 0},
		{"ssm-speed", "v=2500 mm/s", "v", func(o *sheet.Outcome) float64 { return o.Value("v_max").Num }, 0},
		{"payload", "tool=8.25 kg", "tool", func(*sheet.Outcome) float64 { return 7 }, 7},
		{"payload", "tool=8.25 kg", "part", func(*sheet.Outcome) float64 { return 1.75 }, 1.7},
		{"reach-over", "available=700 mm; b=1000 mm; a=700 mm", "b", func(*sheet.Outcome) float64 { return 1600 }, 1600},
	}
	for _, k := range cases {
		o, got := answers(t, k.sheet, k.change)
		a, ok := got[k.input]
		if !ok {
			t.Errorf("%s, %s: no answer for %s, %s: %v", k.sheet, k.change, k.input, o.Verdict, got)
			continue
		}
		if want := k.want(&o); !close12(a.Border, want) || k.shown != 0 && a.Value != k.shown {
			t.Errorf("%s, %s: %s of %v, shown %v; want %v, shown %v", k.sheet, k.change, k.input, a.Border, a.Value, want, k.shown)
		}
	}
}

// Of a tight verdict it is said how far it may go, of one that is not nothing.
func TestRoomOfATightVerdict(t *testing.T) {
	o, got := answers(t, "parallel-field", "available=1900 mm") // S is 1780 mm
	if !o.Tight() || len(got) != 3 {
		t.Fatalf("use %v: %v", o.Use(), got)
	}
	for name, want := range map[string]float64{"available": 1780, "T": 0.475, "H": 300} { // H: 15 (70 - 50)
		if a := got[name]; !a.Room || a.Value != want {
			t.Errorf("%s may go to %v, want %v", name, a.Value, want)
		}
	}
	if o, got := answers(t, "parallel-field", "available=2000 mm"); o.Tight() || len(got) > 0 {
		t.Errorf("use %v: %v", o.Use(), got)
	}
}

// S_s was taken at the speed and with the stopping time there are: more of either
// would make it longer, so that it is not said how far they may go.
func TestNoRoomForWhatOthersWereTakenAt(t *testing.T) {
	o, got := answers(t, "ssm", "available=1200 mm")
	if !o.Tight() || len(got) != 2 || !got["available"].Room || !got["T_r"].Room {
		t.Errorf("use %v: %v", o.Use(), got)
	}
	if _, got = answers(t, "ssm", "available=1110 mm"); got["v_r"].Value != 300 || got["T_s"].Value != 0.287 {
		t.Errorf("%+v", got)
	}
}

// It is said where it ends to hold, and no way out leads against the direction in
// which an input may be adjusted.
func TestAnswersThatEnd(t *testing.T) {
	_, got := answers(t, "parallel-field", "available=1700 mm; d=70 mm")
	if a := got["H"]; !a.Ends || a.Until != 1000 || a.Down {
		t.Errorf("a height above 1000 mm is outside: %+v", a)
	}
	_, got = answers(t, "parallel-field", "H=1200 mm; d=70 mm")
	if a := got["H"]; !a.Ends || a.Until != 300 || !a.Down {
		t.Errorf("a height below H_min is outside: %+v", a)
	}
	// v_max above v_ref: a longer stopping time or less distance would hide that
	if o, got := answers(t, "ssm-speed", "v_ref=100 mm/s"); o.Verdict != sheet.Outside || len(got) > 0 {
		t.Errorf("%s: %v", o.Verdict, got)
	}
}

// Nothing is offered for what is not permitted, whatever the inputs, nor where
// something else is missing.
func TestNoAnswer(t *testing.T) {
	for id, changes := range map[string][]string{
		"contact-transient": {"area=larynx; v=900 mm/s", "edges=edge; v=900 mm/s", "theta=50 degC", "head=yes; v=900 mm/s", "area=foot", "m_L=", "k_pad=20 N/mm; v=900 mm/s", ""},
		"contact-clamped":   {"area=eye", "v="},
		"light-curtain":     {"behind=", "under=yes; available=200 mm", "d=80 mm; available=200 mm", ""},
		"level-chain":       {"PFH=1e-3"},
	} {
		for _, change := range changes {
			o, got := answers(t, id, change)
			if change == "v=" || change == "m_L=" { // a single number is missing, and any of them is found
				if len(got) == 1 && o.Verdict == sheet.NotDecided {
					continue
				}
			} else if len(got) == 0 {
				continue
			}
			t.Errorf("%s, %q: %s, %v", id, change, o.Verdict, got)
		}
	}
}

const hair = 1e-9

// holdsAt works a row out with one input at x.
func holdsAt(s *sheet.Sheet, vals []expr.Value, c *sheet.Column, x float64) bool {
	row := slices.Clone(vals)
	row[c.Slot] = expr.Value{Kind: expr.Number, Num: x}
	o := s.Evaluate(row)
	return o.Verdict.Holds()
}

// What is said holds, and a hair beyond the border it does not; on the way to the
// present value nothing tried holds. The same rows give the same answers.
func TestAnswersOfRandomRows(t *testing.T) {
	rows := 10000
	if testing.Short() {
		rows = 500
	}
	for _, s := range library(t).Sheets {
		if len(s.Adjustable()) == 0 {
			continue
		}
		r := rand.New(rand.NewPCG(uint64(len(s.ID)), 142))
		found, rooms := 0, 0
		for i := range rows {
			vals := failing(r, t, s)
			o := s.Evaluate(vals)
			list := advice(&o)
			if o.Verdict == sheet.NotPermitted && len(list) > 0 {
				t.Fatalf("%s: %v for what is not permitted: %s", s.ID, list, shown(s, vals))
			}
			for _, a := range list {
				found++
				if a.Room {
					rooms++
				}
				if wrong := doubt(s, vals, a, r); wrong != "" {
					t.Fatalf("sheet %s: %s of %s; border %v, answer %+v: %s", s.ID, wrong, a.Column.Name, a.Border, a, shown(s, vals))
				}
			}
			if i%100 == 0 && !slices.Equal(list, advice(&o)) {
				t.Fatalf("%s: other answers the second time: %s", s.ID, shown(s, vals))
			}
		}
		t.Logf("%-18s %5d answers to %d rows, %d of them room", s.ID, found, rows, rooms)
		if found < rows/400 {
			t.Errorf("sheet %s: only %d answers", s.ID, found)
		}
	}
}

// failing is a row near the base of its sheet with one or two inputs at random.
func failing(r *rand.Rand, t *testing.T, s *sheet.Sheet) []expr.Value {
	vals := randomRow(r, s)
	if r.IntN(4) > 0 {
		vals = inputs(t, s, "")
		for range 1 + r.IntN(3) {
			c := s.Columns[r.IntN(len(s.Columns))]
			if takes(c) {
				vals[c.Slot] = random(r, c)
			}
		}
	}
	if list := s.Adjustable(); r.IntN(8) == 0 {
		vals[list[r.IntN(len(list))].Slot] = expr.Value{}
	}
	return vals
}

// doubt tells what is wrong with an answer, "" for nothing.
func doubt(s *sheet.Sheet, vals []expr.Value, a sheet.Answer, r *rand.Rand) string {
	c := a.Column
	lo, hi := ends(c)
	side := 1.0
	if a.Down {
		side = -1
	}
	switch now := vals[c.Slot]; {
	case !holdsAt(s, vals, c, a.Value):
		return "does not hold at the value"
	case !holdsAt(s, vals, c, a.Border):
		return "does not hold at the border"
	case (a.Value-a.Border)*side < -1e-15*a.Border:
		return "rounded to the wrong side"
	case a.Room && (a.Value-now.Num)*side > 0:
		return "less than there is"
	case a.Border > lo && a.Border < hi && holdsAt(s, vals, c, a.Border*(1-side*hair)) && (now.Given() || a.Border != lo):
		return "still holds beyond the border"
	case a.Ends && !holdsAt(s, vals, c, a.Until):
		return "does not hold at the other end"
	}
	for range 10 {
		x := a.Value + side*r.Float64()*r.Float64()*(hi-lo)
		if a.Room {
			x = a.Value + r.Float64()*(vals[c.Slot].Num-a.Value)
		} else if a.Ends {
			x = a.Value + r.Float64()*(a.Until-a.Value)
		}
		if x > lo && x < hi && !holdsAt(s, vals, c, x) {
			return "does not hold within what is said"
		}
	}
	return ""
}

func BenchmarkSolve(b *testing.B) {
	for _, id := range []string{"contact-clamped", "light-curtain"} {
		s := library(b).Sheet(id)
		vals := inputs(b, s, map[string]string{"contact-clamped": "v=900 mm/s", "light-curtain": "available=400 mm"}[id])
		o := s.Evaluate(vals)
		for _, c := range s.Adjustable() {
			if _, ok := sheet.SolveAll([]sheet.Case{{Sheet: s, Values: o.Values}}, c.Name); !ok {
				continue
			}
			b.Run(id+"/"+c.Name, func(b *testing.B) {
				for b.Loop() {
					sheet.SolveAll([]sheet.Case{{Sheet: s, Values: o.Values}}, c.Name)
				}
			})
		}
	}
}

// advice is what is said of an outcome without tolerances.
func advice(o *sheet.Outcome) []sheet.Answer {
	return sheet.AdviceOn([]sheet.Case{{Sheet: o.Sheet, Values: o.Values}})
}

package sheet_test

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// bases hold, for each sheet, inputs that no rule speaks against.
var bases = map[string]string{
	"contact-transient": "area=palm-d; M=18 kg; m_L=1.5 kg; A=1.4 cm2; v=250 mm/s",
	"contact-clamped":   "area=palm-d; M=18 kg; m_L=1.5 kg; A=1.4 cm2; v=100 mm/s; F_hold=60 N",
	"jaw-pinch":         "area=palm-d; F_grip=60 N; A=1.4 cm2",
	"light-curtain":     "T=0.311 s; d=30 mm; C_RO=0 mm; under=no; behind=no; available=2000 mm",
	"reach-over":        "T=0.3 s; a=700..1200 mm; b=1800 mm; available=700 mm",
	"parallel-field":    "T=0.4 s; H=400 mm; d=70 mm; Z=100 mm; crawl=no; available=2000 mm",
	"least-gap":         "part=hand; available=120 mm",
	"ssm":               "v_h=1600 mm/s; v_r=500 mm/s; T_r=0.1 s; T_s=0.3 s; S_s=90 mm; C=200 mm; Z_d=100 mm; Z_r=50 mm; available=1300 mm",
	"ssm-speed":         "D=1500 mm; v_h=1600 mm/s; T_r=0.1 s; T_s=0.3 s; v_ref=2200 mm/s; C=200 mm; Z_d=100 mm; Z_r=50 mm",
	"payload":           "rated=10 kg; tool=2 kg; part=3 kg",
	"required-level":    "S=S2; F=F1; P=P2",
	"level-chain":       "PFH=4.3e-8, 4.9e-9, 2.47e-8; levels=d, e, e; categories=3, 4, 4; required=d; required_category=3",
	"level-estimate":    "category=3; DC=medium; MTTFD=62; CCF=70; required=d",
	"b10":               "B10D=2e7; days=360; hours=16; cycle=30 s",
	"two-channels":      "C1=20; C2=80; category=3",
}

// with works a sheet out at its base, changed by "name=value; name=" where
// nothing behind the sign takes the input away.
func with(t testing.TB, s *sheet.Sheet, change string) sheet.Outcome {
	t.Helper()
	return s.Evaluate(inputs(t, s, change))
}

func inputs(t testing.TB, s *sheet.Sheet, change string) []expr.Value {
	t.Helper()
	base, ok := bases[s.Key()]
	if !ok {
		t.Fatalf("no base for sheet %s", s.Key())
	}
	vals := s.Blank()
	for part := range strings.SplitSeq(base+"; "+change, ";") {
		name, text, ok := strings.Cut(strings.TrimSpace(part), "=")
		if !ok {
			continue
		}
		for _, c := range called(s, name) {
			vals[c.Slot] = expr.Value{}
		}
		if text == "" {
			continue
		}
		if err := s.Set(vals, name, text); err != nil {
			t.Fatalf("sheet %s: %v", s.ID, err)
		}
	}
	return vals
}

// called lists the columns behind what a user calls name.
func called(s *sheet.Sheet, name string) []*sheet.Column {
	if l, ok := s.Lists[name]; ok {
		return l
	}
	if r, ok := s.Ranges[name]; ok {
		return r[:]
	}
	if c := s.Input(name); c != nil {
		return []*sheet.Column{c}
	}
	return nil
}

func TestBasesHold(t *testing.T) {
	for _, s := range library(t).Sheets {
		if o := with(t, s, ""); !o.Verdict.Holds() || o.Value("rule").Num != 0 {
			t.Errorf("sheet %s: %s, %s", s.ID, o.Verdict, o.Why)
		}
	}
}

// number is a number that a file of 15 digits keeps.
func number(x float64) expr.Value {
	x, _ = strconv.ParseFloat(strconv.FormatFloat(x, 'g', 15, 64), 64)
	return expr.Value{Kind: expr.Number, Num: x}
}

func word(s string) expr.Value { return expr.Value{Kind: expr.Text, Text: s} }

// takes tells whether a column takes an input.
func takes(c *sheet.Column) bool { return c.Role == sheet.Input || c.Role == sheet.Override }

// ends are the least and greatest value of a number that may be.
func ends(c *sheet.Column) (lo, hi float64) {
	switch b := c.Bounds; {
	case b.From != nil:
		lo = *b.From
	case b.Above != nil:
		lo = *b.Above + 1e-6
	}
	hi = 1e6
	if c.Bounds.To != nil {
		hi = *c.Bounds.To
	}
	return lo, hi
}

// random gives a value that may be, small ones as often as great ones.
func random(r *rand.Rand, c *sheet.Column) expr.Value {
	if c.Type.Kind == expr.Text {
		return word(c.Choice[r.IntN(len(c.Choice))])
	}
	lo, hi := ends(c)
	if b := c.Bounds; r.IntN(4) > 0 {
		if b.AppliesFrom != nil {
			lo = *b.AppliesFrom
		}
		if b.AppliesTo != nil {
			hi = *b.AppliesTo
		}
	}
	x := lo + (hi-lo)*r.Float64()
	if r.IntN(4) > 0 {
		x = lo + (hi-lo)*math.Pow(10, -5*r.Float64())
	}
	return number(x)
}

// randomRow fills a row with values that may be; optional ones are there three
// times in four.
func randomRow(r *rand.Rand, s *sheet.Sheet) []expr.Value {
	vals := s.Blank()
	for _, c := range s.Columns {
		if takes(c) && (!c.Optional || r.IntN(4) > 0) && (c.Role == sheet.Input || r.IntN(3) == 0) {
			vals[c.Slot] = random(r, c)
		}
	}
	for _, e := range s.Ranges {
		if lo, hi := e[0].Slot, e[1].Slot; vals[lo].Num > vals[hi].Num {
			vals[lo], vals[hi] = vals[hi], vals[lo]
		}
	}
	return vals
}

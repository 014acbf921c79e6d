package sheet_test

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/limits/source"
	"standclear/limits/table/tabletest"
)

// The twins work the sheets out a second time, in plain Go and SI units, from
// the published relations and from tables keyed apart. They know nothing of the
// sheets but the names of inputs and results.

// given reads inputs; what is absent is NaN or "".
type given struct {
	s    *sheet.Sheet
	vals []expr.Value
}

func (g given) num(name string) float64 {
	c := g.s.Input(name)
	if c == nil {
		c = g.s.Column(name)
	}
	if v := g.vals[c.Slot]; v.Kind == expr.Number {
		return v.Num
	}
	return math.NaN()
}

func (g given) text(name string) string { return g.vals[g.s.Column(name).Slot].Text }

func (g given) numbers(list string) (out []float64) {
	for _, c := range g.s.Lists[list] {
		if v := g.vals[c.Slot]; v.Given() {
			out = append(out, v.Num)
		}
	}
	return out
}

func (g given) words(list string) string {
	var out []string
	for _, c := range g.s.Lists[list] {
		if v := g.vals[c.Slot]; v.Given() {
			out = append(out, v.Text)
		}
	}
	return strings.Join(out, "")
}

func or(x, otherwise float64) float64 {
	if math.IsNaN(x) {
		return otherwise
	}
	return x
}

type results map[string]any

var twins = map[string]func(p *tabletest.Reference, g given) results{
	"contact-transient": func(p *tabletest.Reference, g given) results { return contactTwin(p, g, false) },
	"contact-clamped":   func(p *tabletest.Reference, g given) results { return contactTwin(p, g, true) },
	"jaw-pinch":         jawTwin,
	"light-curtain":     curtainTwin,
	"reach-over":        reachTwin,
	"parallel-field":    fieldTwin,
	"least-gap":         func(p *tabletest.Reference, g given) results { return results{"gap": of(p.Gaps, g.text("part"))} },
	"ssm":               ssmTwin,
	"ssm-speed":         ssmSpeedTwin,
	"payload": func(_ *tabletest.Reference, g given) results {
		return results{"total": g.num("tool") + g.num("part"), "use": (g.num("tool") + g.num("part")) / g.num("rated")}
	},
	"required-level": func(_ *tabletest.Reference, g given) results {
		n := 0 // each of S, F, P by its weight on the graph
		n += map[string]int{"S1": 0, "S2": 2}[g.text("S")] + map[string]int{"F1": 0, "F2": 1}[g.text("F")] + map[string]int{"P1": 0, "P2": 1}[g.text("P")]
		if g.text("rare") == "yes" {
			n = max(n-1, 0)
		}
		return results{"PL_r": string("abcde"[n])}
	},
	"level-chain":    chainTwin,
	"level-estimate": estimateTwin,
	"b10":            wearTwin,
	"two-channels":   channelsTwin,
}

func of(m source.Map[float64], key string) float64 {
	for _, e := range m {
		if e.Key == key {
			return e.Value
		}
	}
	return math.NaN()
}

// limits gives force N, pressure Pa, spring N/m and mass kg of a body area, NaN
// where none is permitted or published.
func limits(p *tabletest.Reference, area string) (F, P, K, m float64) {
	for _, a := range p.Areas {
		for _, r := range p.Regions {
			if a.Key == area && a.Value.Region == r.Key && a.Value.Factor != nil {
				return r.Value.F, a.Value.P * 1e4, r.Value.K * 1e3, r.Value.M
			}
		}
	}
	return math.NaN(), math.NaN(), math.NaN(), math.NaN()
}

// contactTwin: two masses on a spring; E = F²/2K = ½·mu·v².
func contactTwin(p *tabletest.Reference, g given, held bool) results {
	F, P, K, mH := limits(p, g.text("area"))
	out := g.text("head") == "yes" || g.text("edges") == "edge" || g.text("edges") == "point" || g.num("theta") >= 43 || math.IsNaN(F)
	mR := or(g.num("m_R"), g.num("M")/2+g.num("m_L"))
	K, mH = or(g.num("K")*1e3, K), or(g.num("m_H"), mH)
	area, v := g.num("A")*1e-4, g.num("v")/1e3
	mu := mH * mR / (mH + mR)
	if held {
		mu = mR
	} else {
		F, P = 2*F, 2*P
	}
	Kc := K
	if pad := g.num("k_pad") * 1e3; !math.IsNaN(pad) {
		Kc = K * pad / (K + pad)
	}
	E := math.Pow(math.Min(F, P*area), 2) / (2 * K)
	vF, vp := F/math.Sqrt(mu*Kc), P*area/math.Sqrt(mu*Kc)
	vMax := math.Min(vF, vp)
	if pad, travel := g.num("k_pad")*1e3, g.num("s_pad")/1e3; !math.IsNaN(pad) && !math.IsNaN(travel) {
		vMax = math.Min(vMax, pad*travel/math.Sqrt(mu*Kc)) // beyond this the padding is pressed flat
	}
	peak := v * math.Sqrt(mu*Kc)
	r := results{"m_R": mR, "m_H": mH, "K": K / 1e3, "mu": mu, "F_limit": F, "p_limit": P / 1e4, "E_limit": E, "v_F": vF * 1e3, "v_p": vp * 1e3,
		"v_max": vMax * 1e3, "F_peak": peak, "p_peak": peak / area / 1e4,
		"E": mu * v * v / 2, "E_b": peak * peak / (2 * K), "E_use": math.Pow(peak/math.Min(F, P*area), 2)}
	if out {
		for name := range r {
			r[name] = math.NaN()
		}
	}
	return r
}

func jawTwin(p *tabletest.Reference, g given) results {
	F, P, _, _ := limits(p, g.text("area"))
	if g.text("head") == "yes" || g.text("edges") == "edge" || g.text("edges") == "point" || g.num("theta") >= 43 || math.IsNaN(F) {
		return results{"F_limit": math.NaN(), "p_limit": math.NaN(), "p": math.NaN()}
	}
	return results{"F_limit": F, "p_limit": P / 1e4, "p": g.num("F_grip") / g.num("A")}
}

// hand is the distance with the two speeds of approach, in mm.
func hand(T, C, least float64) float64 {
	if S := 2000*T + C; S <= 500 {
		return math.Max(S, least)
	}
	return math.Max(1600*T+C, 500)
}

func curtainTwin(_ *tabletest.Reference, g given) results {
	T, d := g.num("T"), g.num("d")
	least := 100.0
	if g.text("starts") == "yes" {
		least = 150
	}
	if d > 40 {
		C := math.Max(850, or(g.num("C_RO"), 0))
		return results{"C": C, "S": 1600*T + C}
	}
	through := math.Max(0, 8*(d-14))
	over := or(g.num("C_RO"), 0)
	return results{"C": math.Max(through, over), "S": math.Max(hand(T, through, least), hand(T, over, least))}
}

func reachTwin(p *tabletest.Reference, g given) results {
	lo, hi, b := g.num("a_lo"), g.num("a_hi"), g.num("b")
	edge := -1
	for i, e := range p.ReachOver.Edges {
		if e <= b {
			edge = i
		}
	}
	if edge < 0 {
		return results{"C_RO": math.NaN(), "S": math.NaN()}
	}
	// the rows between the neighbours below and above, the rows stand from top to bottom
	worst, above := 0.0, math.Inf(1)
	for _, e := range p.ReachOver.Rows {
		a, _ := strconv.ParseFloat(e.Key, 64)
		if a >= hi {
			above = math.Min(above, a)
		}
	}
	for i, e := range p.ReachOver.Rows {
		a, _ := strconv.ParseFloat(e.Key, 64)
		next := math.Inf(1)
		if i > 0 {
			next, _ = strconv.ParseFloat(p.ReachOver.Rows[i-1].Key, 64)
		}
		if a <= above && next > lo {
			worst = math.Max(worst, e.Value[edge])
		}
	}
	return results{"C_RO": worst, "S": hand(g.num("T"), worst, 100)}
}

func fieldTwin(_ *tabletest.Reference, g given) results {
	C := math.Max(850, 1200-0.4*g.num("H"))
	return results{"C": C, "H_min": math.Max(0, 15*(g.num("d")-50)), "S": 1600*g.num("T") + C + or(g.num("Z"), 0)}
}

func ssmTwin(_ *tabletest.Reference, g given) results {
	Sh, Sr := g.num("v_h")*(g.num("T_r")+g.num("T_s")), g.num("v_r")*g.num("T_r")
	Ss := or(g.num("S_s"), g.num("v_r")*g.num("T_s")/2)
	return results{"S_h": Sh, "S_r": Sr, "S_s": Ss, "S_p": Sh + Sr + Ss + g.num("C") + g.num("Z_d") + g.num("Z_r")}
}

// ssmSpeedTwin seeks the speed whose distance is D by halving.
func ssmSpeedTwin(_ *tabletest.Reference, g given) results {
	a, Ts, Tr, vh := g.num("a"), g.num("T_s"), g.num("T_r"), g.num("v_h")
	need := func(v float64) float64 {
		S := g.num("C") + g.num("Z_d") + g.num("Z_r") + (v+vh)*Tr
		if !math.IsNaN(a) {
			return S + v*v/(2*a) + vh*v/a
		}
		return S + v*Ts/2 + vh*Ts
	}
	if math.IsNaN(a) && math.IsNaN(Ts) {
		return results{}
	}
	lo, hi := 0.0, 1e9
	if need(0) >= g.num("D") {
		return results{"v_max": 0.0}
	}
	for range 200 {
		if mid := (lo + hi) / 2; need(mid) > g.num("D") {
			hi = mid
		} else {
			lo = mid
		}
	}
	return results{"v_max": lo}
}

func TestTwins(t *testing.T) {
	p := tabletest.Read(t)
	for _, s := range library(t).Sheets {
		twin := twins[s.Key()]
		if twin == nil {
			t.Errorf("sheet %s has no twin", s.Key())
			continue
		}
		r := rand.New(rand.NewPCG(12100, 7))
		seen := map[string]bool{}
		for range 10000 {
			vals := randomRow(r, s)
			if spread := spreads[s.Key()]; spread != nil {
				spread(r, s, vals)
			}
			o := s.Evaluate(vals)
			if o.Verdict == sheet.NotDecided && strings.Contains(o.Why, "missing") {
				continue
			}
			want := twin(p, given{s, vals})
			for _, c := range s.Results {
				w, ok := want[c.Name]
				if !ok {
					continue
				}
				seen[c.Name] = true
				if !same(o.Value(c.Name), w, s.ID) {
					t.Fatalf("sheet %s: %s is %s, worked out apart %v; %v", s.Key(), c.Name, c.Show(o.Value(c.Name)), w, shown(s, vals))
				}
			}
		}
		for _, c := range s.Results {
			if !seen[c.Name] {
				t.Errorf("sheet %s: %s is never compared", s.Key(), c.Name)
			}
		}
	}
}

// same compares to twelve digits; the search of the speed gives nine.
func same(v expr.Value, want any, id string) bool {
	if text, ok := want.(string); ok {
		return v.Kind == expr.Text && v.Text == text
	}
	x := want.(float64)
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return !v.Given()
	}
	near := 1e-12
	if id == "ssm-speed" {
		near = 1e-9
	}
	return v.Kind == expr.Number && math.Abs(v.Num-x) <= near*math.Max(math.Abs(x), math.Abs(v.Num))+1e-300 || id == "ssm-speed" && math.Abs(v.Num-x) < 1e-6
}

// shown writes the inputs of a row for a message.
func shown(s *sheet.Sheet, vals []expr.Value) string {
	var out []string
	for _, c := range s.Columns {
		if takes(c) && vals[c.Slot].Given() {
			out = append(out, c.Name+"="+c.Show(vals[c.Slot]))
		}
	}
	return strings.Join(out, "; ")
}

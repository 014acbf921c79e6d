package sheet_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"standclear/limits/expr"
	"standclear/limits/sheet"
)

func near(a, b, share float64) bool { return math.Abs(a-b) <= share*math.Max(math.Abs(a), math.Abs(b)) }

// The energy view says what the force view says: the share of the energy limit is
// the square of the greater share of the limits of force and pressure, with
// padding and without. The padding takes up what the body part does not.
func TestEnergyAgreesWithForce(t *testing.T) {
	for _, id := range []string{"contact-transient", "contact-clamped"} {
		s := library(t).Sheet(id)
		r := rand.New(rand.NewPCG(15066, uint64(len(id))))
		compared, padded := 0, 0
		for range 40000 {
			vals := randomRow(r, s)
			o := s.Evaluate(vals)
			E, body, share := numberOf(&o, "E"), numberOf(&o, "E_b"), numberOf(&o, "E_use")
			if math.IsNaN(share) {
				continue
			}
			compared++
			v, mu, K := numberOf(&o, "v"), numberOf(&o, "mu"), numberOf(&o, "K")
			F := numberOf(&o, "F_peak")
			use := math.Max(F/numberOf(&o, "F_limit"), numberOf(&o, "p_peak")/numberOf(&o, "p_limit"))
			if !near(share, use*use, 1e-9) || !near(E, mu*v*v/2e6, 1e-9) || !near(body, F*F/(2*K)/1e3, 1e-9) {
				t.Fatalf("sheet %s: E %v, E_b %v, E_use %v, use %v; %s", id, E, body, share, use, shown(s, vals))
			}
			pad := numberOf(&o, "k_pad")
			rest := 0.0
			if !math.IsNaN(pad) {
				padded++
				rest = F * F / (2 * pad) / 1e3
			}
			if !near(E, body+rest, 1e-9) {
				t.Fatalf("sheet %s: E %v, body part %v, padding %v; %s", id, E, body, rest, shown(s, vals))
			}
		}
		if compared < 4000 || padded < 3000 {
			t.Errorf("sheet %s: %d rows compared, %d with padding", id, compared, padded)
		}
	}
}

// More speed or mass never lowers an energy, and a larger area never uses more of
// the limit or permits less speed.
func TestEnergyNeverSinks(t *testing.T) {
	for _, id := range []string{"contact-transient", "contact-clamped"} {
		for _, input := range []string{"v", "M", "m_L", "m_R"} {
			pairs(t, id, input, func(less, more *sheet.Outcome) string {
				for _, name := range []string{"E", "E_b", "E_use"} {
					if w := sinks(name, less, more); w != "" {
						return w
					}
				}
				return ""
			})
		}
		pairs(t, id, "A", func(less, more *sheet.Outcome) string {
			if w := sinks("v_max", less, more); w != "" {
				return w
			}
			return rises("E_use", less, more)
		})
	}
	pairs(t, "contact-transient", "m_H", func(less, more *sheet.Outcome) string {
		if w := sinks("F_peak", less, more); w != "" {
			return w
		}
		return rises("v_max", less, more)
	})
}

// Against a partner without bound the other mass alone counts.
func TestVeryHeavyPartner(t *testing.T) {
	lib := library(t)
	free, held := lib.Sheet("contact-transient"), lib.Sheet("contact-clamped")
	r := rand.New(rand.NewPCG(15066, 9))
	for range 10000 {
		m, v := math.Pow(10, 4*r.Float64()-2), 2000*r.Float64()
		work := func(s *sheet.Sheet, mR, mH float64) *sheet.Outcome {
			vals := inputs(t, s, "M=; m_L=")
			for name, x := range map[string]float64{"m_R": mR, "m_H": mH, "v": v} {
				vals[s.Input(name).Slot] = expr.Value{Kind: expr.Number, Num: x}
			}
			o := s.Evaluate(vals)
			return &o
		}
		huge := 1e9 * math.Max(1, m)
		wall, robot := work(free, m, huge), work(free, huge, m)
		for name, o := range map[string]*sheet.Outcome{"body part": wall, "robot": robot} {
			K := numberOf(o, "K") * 1e3
			if mu := numberOf(o, "mu"); !near(mu, m, 1e-6) {
				t.Fatalf("%s without bound: mu %v, the other mass %v", name, mu, m)
			}
			if F := numberOf(o, "F_peak"); !near(F, v/1e3*math.Sqrt(m*K), 1e-6) {
				t.Fatalf("%s without bound: %v N", name, F)
			}
		}
		if F, G := numberOf(wall, "F_peak"), numberOf(work(held, m, 1), "F_peak"); !near(F, G, 1e-6) {
			t.Fatalf("a body part without bound feels %v N, one that is held %v N", F, G)
		}
	}
}

// numberOf is a number of an outcome, NaN where there is none.
func numberOf(o *sheet.Outcome, name string) float64 {
	if v := o.Value(name); v.Kind == expr.Number {
		return v.Num
	}
	return math.NaN()
}

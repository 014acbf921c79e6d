package sheet_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// parityRow is one case that Go and a spreadsheet both work out. Of a slip only
// the verdict counts: a spreadsheet takes the text 12 for the number.
type parityRow struct {
	name string
	vals []expr.Value
	slip bool
}

// parityRows are the corners of the inputs, exact borders of the verdict,
// absences, own values, slips of the hand and random rows.
func parityRows(t testing.TB, s *sheet.Sheet) []parityRow {
	var rows []parityRow
	add := func(name string, vals []expr.Value) { rows = append(rows, parityRow{name: name, vals: vals}) }
	base := inputs(t, s, "")
	change := func(name string, c *sheet.Column, v expr.Value) {
		row := append([]expr.Value(nil), base...)
		row[c.Slot] = v
		add(name+" "+c.Name, row)
	}
	add("base", base)
	add("nothing", s.Blank())
	for _, c := range s.Columns {
		if !takes(c) {
			continue
		}
		change("absent", c, expr.Value{})
		for _, x := range borders(c) {
			change(fmt.Sprint("border ", x), c, number(x))
		}
		for _, x := range c.Choice {
			change("choice "+x, c, word(x))
		}
		for _, v := range slips(c) {
			change(fmt.Sprintf("slip %q%v", v.Text, v.Num), c, v)
			rows[len(rows)-1].slip = true
		}
	}
	r := rand.New(rand.NewPCG(15066, uint64(len(s.ID))))
	for i := range 60 {
		add(fmt.Sprint("corner ", i), corner(r, s))
	}
	for i := range 200 {
		add(fmt.Sprint("random ", i), randomRow(r, s))
	}
	for i, vals := range exactBorders(t, s, r) {
		add(fmt.Sprint("exact ", i), vals)
	}
	return rows
}

// borders are the bounds of a number, and what lies just inside and outside.
func borders(c *sheet.Column) []float64 {
	var out []float64
	for _, b := range []*float64{c.Bounds.Above, c.Bounds.From, c.Bounds.To, c.Bounds.AppliesFrom, c.Bounds.AppliesTo} {
		if b != nil {
			out = append(out, *b, *b*(1+1e-12), *b*(1-1e-12), *b+1e-6, *b-1e-6)
		}
	}
	return out
}

// slips are what a hand or a clipboard may leave in a cell.
func slips(c *sheet.Column) []expr.Value {
	if c.Type.Kind == expr.Text {
		return []expr.Value{word("YES"), word("*"), word("?alm-d"), word("Palm-d"), word("palm-d "), word("~")}
	}
	return []expr.Value{word("abc"), word("12"), word(" "), number(-1), number(1e12)}
}

// corner puts every input at one end of what may be.
func corner(r *rand.Rand, s *sheet.Sheet) []expr.Value {
	vals := s.Blank()
	for _, c := range s.Columns {
		switch lo, hi := ends(c); {
		case !takes(c) || c.Role == sheet.Override && r.IntN(3) > 0 || c.List != "" && c.Member > 1:
		case c.Type.Kind == expr.Text:
			vals[c.Slot] = random(r, c)
		case r.IntN(2) == 0:
			vals[c.Slot] = number(lo)
		default:
			vals[c.Slot] = number(hi)
		}
	}
	return vals
}

// meet puts an input at what another column comes to, and just beside it.
type meet struct{ change, input, column string }

var meetings = map[string][]meet{
	"contact-transient": {{"", "v", "v_max"}, {"k_pad=20 N/mm; s_pad=10 mm", "s_pad", "way"}, {"A=0.3 cm2", "v", "v_max"}},
	"contact-clamped":   {{"", "v", "v_max"}, {"", "F_hold", "F_limit"}, {"A=0.3 cm2", "F_hold", "push"}},
	"jaw-pinch":         {{"", "F_grip", "F_limit"}, {"A=0.3 cm2", "F_grip", "push"}},
	"light-curtain":     {{"", "available", "S"}, {"d=14 mm; T=0.01 s", "available", "S"}, {"d=60 mm", "available", "S"}},
	"reach-over":        {{"", "available", "S"}, {"a=1600 mm; b=1600 mm", "available", "S"}},
	"parallel-field":    {{"", "available", "S"}, {"d=63.3 mm", "H", "H_min"}},
	"least-gap":         {{"", "available", "gap"}},
	"ssm":               {{"", "available", "S_p"}, {"S_s=", "available", "S_p"}},
	"ssm-speed":         {{"", "v_ref", "v_max"}, {"", "D", "fixed"}},
	"level-estimate":    {{"category=2; test_ratio=100; MTTFD_test=60", "MTTFD_test", "half"}},
	"b10":               {{"", "stated", "most"}, {"days=220; cycle=7 s", "stated", "most"}},
	"payload":           {{"tool=0.1 kg; part=0.2 kg", "rated", "total"}},
}

// derived are columns of meet that no sheet has.
var derived = map[string]func(o *sheet.Outcome) float64{
	"half":  func(o *sheet.Outcome) float64 { return o.Value("MTTFD_most").Num / 2 },
	"most":  func(o *sheet.Outcome) float64 { return o.Value("MTTFD").Num * 1.05 },
	"way":   func(o *sheet.Outcome) float64 { return o.Value("F_peak").Num / o.Value("k_pad").Num },
	"push":  func(o *sheet.Outcome) float64 { return o.Value("p_limit").Num * o.Value("A").Num },
	"fixed": func(o *sheet.Outcome) float64 { return o.Value("C_tot").Num + o.Value("v_h").Num*o.Value("T_r").Num },
}

func exactBorders(t testing.TB, s *sheet.Sheet, r *rand.Rand) [][]expr.Value {
	var out [][]expr.Value
	for _, m := range meetings[s.Key()] {
		for i := range 6 {
			vals := inputs(t, s, m.change)
			if c := s.Input("T"); c != nil && i > 0 {
				vals[c.Slot] = number(0.01 + r.Float64())
			}
			if c := s.Input("A"); c != nil && i > 0 && m.change == "" {
				vals[c.Slot] = number(vals[c.Slot].Num * (0.5 + r.Float64()))
			}
			o := s.Evaluate(vals)
			x := o.Value(m.column).Num
			if f := derived[m.column]; f != nil {
				x = f(&o)
			}
			for _, k := range []float64{1, 1 + 1e-13, 1 - 1e-13, 1 + 1e-9, 1 - 1e-9} {
				row := append([]expr.Value(nil), vals...)
				row[s.Input(m.input).Slot] = number(x * k)
				out = append(out, row)
			}
		}
	}
	for _, change := range exactTexts[s.Key()] {
		vals := inputs(t, s, change)
		for i, v := range vals {
			if v.Kind == expr.Number {
				vals[i] = number(v.Num)
			}
		}
		out = append(out, vals)
	}
	return out
}

// exactTexts are borders written out.
var exactTexts = map[string][]string{
	"contact-transient": {"theta=43 degC", "theta=42.9999999 degC", "area=foot", "area=larynx; M=; m_L=", "head=yes", "edges=edge", "m_R=5 kg; M=; m_L=", "k_pad=10 N/mm", "k_pad=10 N/mm; s_pad=0 mm"},
	"contact-clamped":   {"theta=43 degC", "area=foot", "head=yes; F_hold=", "F_hold=", "m_R=5 kg; M=; m_L="},
	"jaw-pinch":         {"theta=43 degC", "area=eye", "area=foot"},
	"light-curtain": {"d=14 mm; T=0.25 s", "d=40 mm; T=0.146 s", "d=30 mm; T=0.186 s", "d=30 mm; T=0.1860000001 s", "d=14 mm; T=0.05 s", "d=40.0000001 mm", "d=70 mm",
		"d=70.0000001 mm", "starts=yes", "starts=yes; d=30.0000001 mm", "starts=yes; d=14 mm; T=0.02 s", "starts=no; d=14 mm; T=0.02 s", "available=0 mm"},
	"reach-over": {"a=1600 mm; b=1600 mm", "a=1599.9999999999998 mm; b=1600 mm", "a=1600.0000000000002 mm; b=1600 mm", "a=1600 mm; b=1599.9999999999998 mm", "a=0 mm", "a=2600 mm", "a=2601 mm",
		"a=0..3000 mm; b=900 mm", "b=899.999 mm", "b=5000 mm", "a=1001..1001 mm; b=1000 mm", "a=200..400 mm; b=900 mm", "T=0.25 s; a=0 mm"},
	"parallel-field": {"H=875 mm", "H=1000 mm", "H=1000.0001 mm", "H=0 mm; d=50 mm", "Z=", "d="},
	"level-chain": {"PFH=1e-8, 2e-8, 3e-8, 4e-8; levels=e, e, e, e; categories=4, 4, 4, 4; required=e", "PFH=1e-7; levels=e; categories=4", "PFH=9.99999999999999e-8; levels=e; categories=4; required=e",
		"PFH=1e-6; levels=d; categories=3", "PFH=1e-6, 2e-6; levels=c, c; categories=1, 1; required=c; required_category=1", "PFH=1e-5; levels=b; categories=B; required=b; required_category=B",
		"PFH=1e-4", "PFH=3e-5, 7e-5; levels=a, a; categories=B, B; required=a; required_category=", "PFH=0; levels=e; categories=2; required_category=3", "levels=; categories=",
		"PFH=1e-8, 1e-8, 1e-8, 1e-8, 1e-8, 1e-8, 1e-8, 1e-8, 1e-8, 1e-8; levels=; categories=", "levels=a, b, c; categories=1, 2, 3", "required=",
		"PFH=; levels=a, a, a, d; categories=B, B, B, 3; required=a; required_category=", "PFH=; levels=a, a, a, a; categories=B, B, B, B; required=a; required_category=",
		"PFH=; levels=b, b; categories=1, 1; required=b; required_category=", "PFH=; levels=b, b, b, e; categories=1, 1, 1, 4; required=b; required_category=",
		"PFH=; levels=c, c, d; categories=1, 1, 3; required=c; required_category=1", "PFH=; levels=c, c, c; categories=1, 1, 1; required=c; required_category=1",
		"PFH=; levels=d, d, d; required=d", "PFH=; levels=d, d, d, d; categories=3, 3, 3, 3; required=d", "PFH=; levels=e, e, e; required=e", "PFH=; levels=e, e, e, e; categories=4, 4, 4, 4; required=e",
		"PFH=; required=", "PFH=; categories=", "PFH=; levels=; categories=", "PFH=0, 0, 0", "PFH=1e-30, 0, 1e-8"},
	"level-estimate": levelTexts(),
	"b10":            {"stated=289.35", "cycle=1e-9 s", "days=220; hours=8; cycle=3600 s; stated=1", "B10D=1e12; days=1e-6", "B10D=13824000", "B10D=13823999", "stated="},
	"two-channels": {"C1=3; C2=100", "C1=100; C2=100", "C1=100.000000001; C2=9000", "C1=2500; C2=9000; category=4", "C1=2; C2=2", "category=", "C1=1e-9; C2=1e6", "category=B",
		"C1=100; C2=101; category=3", "C1=2501; C2=2501; category=4"},
	"required-level": {"S=S1; F=F1; P=P1; rare=yes", "S=S1; F=F1; P=P2; rare=yes", "S=S1; F=F2; P=P1; rare=yes", "S=S1; F=F2; P=P2; rare=yes", "S=S2; F=F1; P=P1; rare=yes",
		"S=S2; F=F2; P=P1; rare=yes", "S=S2; F=F2; P=P2; rare=yes", "S=S2; F=F2; P=P2; rare=no"},
	"ssm-speed": {"a=2000 mm/s2", "a=2000 mm/s2; T_s=; v_ref=", "a=2000 mm/s2; T_s=; v_ref=; D=510 mm", "a=2000 mm/s2; T_s=; v_ref=; D=509.999 mm", "T_s=; a=", "v_ref="},
	"payload":   {"rated=0.3 kg; tool=0.1 kg; part=0.2 kg", "rated=0.3 kg; tool=0.1 kg; part=0.2000000001 kg"},
}

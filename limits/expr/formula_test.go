package expr

import (
	"reflect"
	"testing"
)

func TestFormula(t *testing.T) {
	for _, c := range []struct{ src, want, formula string }{
		{"-n^2", "", "(-(n^2))"},
		{"(-n)^2", "", "(-n)^2"},
		{"n^-2", "", "n^(-2)"},
		{"-n*m", "", "(-n)*m"},
		{"n - -m", "", "n-(-m)"},
		{"-(n + m)", "", "(-(n+m))"},
		{"n - (m - 1)", "", "n-(m-1)"},
		{"n/(m*2)", "", "n/(m*2)"},
		{"round(n, 2)", "", "ROUND(n,2)"},
		{"n*1e-7", "", "n*1E-07"},
		{"shape = 'say \"x\"'", "bool", `EXACT(shape,"say ""x""")`},
		{"shape <> under", "bool", "NOT(EXACT(shape,under))"},
		{"n <> 1", "bool", "n<>1"},
		{"not (n > 1)", "bool", "NOT(n>1)"},
		{"true", "bool", "TRUE()"},
		{"holds", "bool", "holds"},
		{"not holds", "bool", "NOT(holds)"},
		{"given(d)", "bool", `d<>""`},
		{"not given(d)", "bool", `NOT(d<>"")`},
		{"given(PFH)", "bool", "COUNT(PFH)>0"},
		{"count(words, 'd')", "", `COUNTIF(words,"d")`},
		{"count(words, 'd') > 1", "bool", `COUNTIF(words,"d")>1`},
		{"holds and n > 1 and holds", "bool", `IF(holds,IF(n="","",IF(n>1,holds,FALSE())),FALSE())`},
		{"n > 1 and n < 2", "bool", "IF(n>1,n<2,FALSE())"},
		{"n > 1 or n < 0", "bool", "IF(n>1,TRUE(),n<0)"},
		{"not (n > 1 or n < 0)", "bool", "IF(n>1,FALSE(),NOT(n<0))"},
		{"(n > 1 and n < 2) or n < 0", "bool", "IF(IF(n>1,n<2,FALSE()),TRUE(),n<0)"},
		{"given(d) and d > 0", "bool", `IF(d<>"",d>0,FALSE())`},
		{"not given(d) or d > 0", "bool", `IF(d<>"",d>0,TRUE())`},
		{"holds or d > C", "bool", `IF(holds,TRUE(),IF(OR(d="",C=""),"",d>C))`},
		{"holds and sum(PFH) < rate", "bool", `IF(holds,IF(OR(COUNT(PFH)=0,rate=""),"",SUM(PFH)<rate),FALSE())`},
		{"shape", "text", "shape"},
	} {
		if got := sheetText(fitted(t, c.src, c.want)); got != c.formula {
			t.Errorf("%s is %s, want %s", c.src, got, c.formula)
		}
	}
}

func TestExpand(t *testing.T) {
	got := Expand(fitted(t, "sum(PFH) + rate", "1/h").Formula(), func(string) int { return 2 })
	want := []Part{
		{Lit: "SUM(", Index: -1}, {Name: "PFH", Index: 0}, {Lit: ",", Index: -1}, {Name: "PFH", Index: 1},
		{Lit: ")+", Index: -1}, {Name: "rate", Index: -1},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v", got)
	}
}

func TestPrinted(t *testing.T) {
	show := func(name string) string {
		return map[string]string{
			"d": "30 mm", "d_0": "14 mm", "F": "140 N", "mu": "2 kg", "K": "75 N/mm", "n": "−3", "m": "4",
			"PFH": "1e-7 1/h, 2e-7 1/h", "shape": "slot", "T": "0.5 s",
		}[name]
	}
	for _, c := range []struct{ src, want, symbols, numbers string }{
		{"8*(d - d_0)", "mm", "8·(d − d_0)", "8 · (30 mm − 14 mm)"},
		{"F/sqrt(mu*K)", "mm/s", "1000·F/√(1000·mu·K)", "1000 · 140 N / √(1000 · 2 kg · 75 N/mm)"},
		{"d^2", "mm2", "d²", "(30 mm)²"},
		{"m/n*m", "", "(m/n)·m", "(4 / (−3)) · 4"},
		{"m - n", "", "m − n", "4 − (−3)"},
		{"-n^-2", "", "−n⁻²", "−(−3)⁻²"},
		{"abs(n)", "", "|n|", "|−3|"},
		{"sum(PFH)", "1/h", "sum(PFH)", "sum(1e-7 1/h, 2e-7 1/h)"},
		{"shape = 'slot' or given(T) and n >= 1", "bool", "shape = 'slot' or T given and n ≥ 1", "slot = 'slot' or T given and −3 ≥ 1"},
		{"round(m/3, 2)", "", "round(m/3, 2)", "round(4 / 3, 2)"},
		{"mu*K/K/2", "g", "1000·mu·K/K/2", "1000 · 2 kg · 75 N/mm / 75 N/mm / 2"},
		{"F/2", "kN", "(F/2)/1000", "(140 N / 2) / 1000"},
	} {
		f := fitted(t, c.src, c.want)
		if got := f.Symbols(); got != c.symbols {
			t.Errorf("%s prints %s, want %s", c.src, got, c.symbols)
		}
		if got := f.Numbers(show); got != c.numbers {
			t.Errorf("%s prints %s, want %s", c.src, got, c.numbers)
		}
	}
}

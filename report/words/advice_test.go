package words

import (
	"strings"
	"testing"

	"standclear/hazards"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/templates"
)

func TestAdviceInWords(t *testing.T) {
	lib, problems := sheet.Load(templates.FS)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	contact, curtain := lib.Sheet("contact-clamped"), lib.Sheet("light-curtain")
	one := func(s *sheet.Sheet, name string, a hazards.Advice, now float64) hazards.Advice {
		a.Column = s.Column(name)
		if now > 0 {
			a.Now = expr.Value{Kind: expr.Number, Num: now}
		}
		return a
	}
	less := func(x float64) hazards.Advice { return hazards.Advice{Answer: sheet.Answer{Value: x, Down: true}} }
	more := func(x float64) hazards.Advice { return hazards.Advice{Answer: sheet.Answer{Value: x}} }
	room := func(a hazards.Advice) hazards.Advice { a.Room = true; return a }
	path := func(a hazards.Advice, p string, tol bool) hazards.Advice { a.Path, a.Tolerance = p, tol; return a }
	sum := func(a hazards.Advice) hazards.Advice { a.Sum = true; return a }
	ends := func(a hazards.Advice, x float64) hazards.Advice { a.Ends, a.Until = true, x; return a }
	for _, k := range []struct {
		list  []hazards.Advice
		model bool
		want  string
	}{
		{nil, true, ""},
		{[]hazards.Advice{one(contact, "v", less(142), 250), one(contact, "A", more(2.6), 1.4)}, true,
			"holds by the model at 142 mm/s or less (v), or with 2.6 cm2 or more (A); the measurement decides"},
		{[]hazards.Advice{one(contact, "v", path(less(142), "arm.bench.tcp_speed", true), 250)}, false,
			"holds at 142 mm/s or less (v, arm.bench.tcp_speed with its tolerance)"},
		{[]hazards.Advice{one(contact, "v", path(less(142), "", true), 250)}, false, "holds at 142 mm/s or less (v, tolerance included)"},
		{[]hazards.Advice{one(curtain, "T", sum(less(0.31)), 0.415)}, false, "holds with 0.31 s or less (T in all, 0.105 s less than now)"},
		{[]hazards.Advice{one(curtain, "T", sum(less(0.31)), 0)}, false, "holds with 0.31 s or less (T in all)"},
		{[]hazards.Advice{one(curtain, "available", sum(more(700)), 600)}, false, "holds with 700 mm or more (available in all, 100 mm more than now)"},
		{[]hazards.Advice{one(contact, "v", room(less(205)), 200), one(curtain, "available", room(more(690)), 700)}, false,
			"holds up to 205 mm/s (v), or down to 690 mm (available)"},
		{[]hazards.Advice{one(curtain, "T", room(sum(less(0.31))), 0.3)}, false, "holds up to 0.31 s (T in all)"},
		{[]hazards.Advice{one(curtain, "available", ends(more(600), 1000), 500)}, false, "holds with 600 mm to 1000 mm (available)"},
		{[]hazards.Advice{one(curtain, "available", ends(less(1000), 600), 1200)}, false, "holds with 600 mm to 1000 mm (available)"},
	} {
		if got := Default().Advice(k.list, k.model); got != k.want {
			t.Errorf("\n got %q\nwant %q", got, k.want)
		}
	}
	four := make([]hazards.Advice, 4)
	for i := range four {
		four[i] = one(contact, []string{"v", "A", "F_hold", "M"}[i], room(less(9)), 8)
	}
	if got := Default().Advice(four, true); strings.Contains(got, "(M)") || !strings.Contains(got, "(F_hold)") {
		t.Errorf("room of more than three inputs: %q", got)
	}
}

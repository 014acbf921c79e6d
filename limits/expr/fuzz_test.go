package expr

import (
	"errors"
	"testing"
)

func FuzzParse(f *testing.F) {
	for _, src := range []string{
		"8*(d - d_0)", "-a^2", "a - (b - c)", "given(x) and not (x <> 1.5) or shape = 'it''s'", "round(a, -2)", "max(0, a)*-b",
		"1_000", "0x1F", "a^b^c", "1 < 2 < 3", "sum(PFH)/1e-7", "'", "((", "--a", "not not a", "v*sqrt(mu*K)", "max(d, D) > 0 and given(PFH)",
	} {
		f.Add(src)
	}
	f.Fuzz(func(t *testing.T, src string) {
		tree, err := Parse(src)
		if err != nil {
			var e *Error
			if !errors.As(err, &e) || e.Offset < 0 || e.Offset > len(src) || e.Width < 1 || e.Message == "" {
				t.Fatalf("%q: bad error %#v", src, err)
			}
			return
		}
		printed := tree.String()
		again, err := Parse(printed)
		if err != nil && len(printed) <= maxSource {
			var e *Error
			if errors.As(err, &e) && e.Message == "expression is nested more than 60 deep" {
				return // print brackets a minus sign
			}
			t.Fatalf("%q prints %q: %v", src, printed, err)
		}
		if err == nil && shape(tree.root) != shape(again.root) {
			t.Fatalf("%q prints %q: %s became %s", src, printed, shape(tree.root), shape(again.root))
		}
		for _, want := range []string{"bool", "mm", "1", "N", "text"} {
			fit, err := tree.Fit(cell, typeOf(want))
			if err != nil {
				var e *Error
				if !errors.As(err, &e) || e.Offset < 0 || e.Offset+e.Width > len(src)+1 {
					t.Fatalf("%q: bad error %#v", src, err)
				}
				continue
			}
			fit.Formula()
			fit.Symbols()
			fit.Numbers(func(name string) string { return name })
			evaluate(fit, map[string]Value{"d": num(3), "shape": text("x"), "holds": boolean(true), "n": num(0)})
		}
	})
}

package expr

import "testing"

// contact is a transient contact as one expression.
const contact = "min(v, F/sqrt(mu*K), p*A/sqrt(1/(1/mu + 1/mu)*K)) + max(0, 8*(d - d_0))/T"

func contactCheck(t testing.TB) (func([]Value) Value, []Value) {
	f := fitted(t, contact, "mm/s")
	slots := map[string]int{}
	for i, name := range f.Names() {
		slots[name] = i
	}
	vars := make([]Value, len(slots))
	for i := range vars {
		vars[i] = num(float64(10 + i))
	}
	return f.Compile(func(name string) (int, int) { return slots[name], 1 }), vars
}

func TestNoAllocation(t *testing.T) {
	run, vars := contactCheck(t)
	if !run(vars).Given() {
		t.Fatal("no result")
	}
	if n := testing.AllocsPerRun(100, func() { run(vars) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
	round := fitted(t, "round(n, 2) > 1 and shape = 'x' and sum(PFH) < 1/T", "bool")
	check := round.Compile(func(name string) (int, int) { return map[string]int{"n": 0, "shape": 1, "PFH": 2, "T": 4}[name], 2 })
	vars = []Value{num(2.675), text("x"), num(1e-7), num(2e-7), num(0.5)}
	if got := check(vars); !same(got, boolean(true)) {
		t.Fatalf("got %+v", got)
	}
	if n := testing.AllocsPerRun(100, func() { check(vars) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func BenchmarkContact(b *testing.B) {
	run, vars := contactCheck(b)
	b.ReportAllocs()
	for b.Loop() {
		run(vars)
	}
}

func BenchmarkFit(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		tree, err := Parse(contact)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := tree.Fit(cell, typeOf("mm/s")); err != nil {
			b.Fatal(err)
		}
	}
}

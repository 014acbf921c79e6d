package hazards_test

import (
	"testing"

	"standclear/hazards"
	"standclear/hazards/hazardstest"
)

// BenchmarkAdvice reports how many sentences of advice 10,000 checks come to, of
// how many different cases; equal ones are solved once.
func BenchmarkAdvice(b *testing.B) {
	lib, data := library(b), hazardstest.YAML(many)
	a := load(b, data)
	r, problems := hazards.Assess(a, data, lib, hazards.Options{Name: "many"})
	if len(problems) > 0 {
		b.Fatal(problems[0])
	}
	n := 0
	for i := range r.Checks {
		if len(r.Checks[i].Advice) > 0 {
			n++
		}
	}
	solved := 0
	for b.Loop() {
		solved = hazards.Advise(r)
	}
	b.ReportMetric(float64(n), "advised")
	b.ReportMetric(float64(solved), "solved")
}

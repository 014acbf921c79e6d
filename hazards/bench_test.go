package hazards_test

import (
	"runtime"
	"testing"

	"standclear/hazards"
	"standclear/hazards/file"
	"standclear/hazards/hazardstest"
)

// many is 10,000 hazards that rest on 10,000 checks, half of them contacts.
var many = hazardstest.Size{Hazards: 10000, Contacts: 5000, Checks: 5000, Points: 1000}

func load(b *testing.B, data []byte) *file.Assessment {
	a, problems := file.Load("many.yaml", data)
	if len(problems) > 0 {
		b.Fatal(problems[0])
	}
	return a
}

func BenchmarkLoadAndAssess(b *testing.B) {
	lib, data := library(b), hazardstest.YAML(many)
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, problems := hazards.Assess(load(b, data), data, lib, hazards.Options{Name: "many"}); len(problems) > 0 {
			b.Fatal(problems[0])
		}
	}
}

// BenchmarkAssess leaves out the loading; it reports the memory that file and
// result hold together.
func BenchmarkAssess(b *testing.B) {
	lib, data := library(b), hazardstest.YAML(many)
	a := load(b, data)
	var r *hazards.Result
	for b.Loop() {
		r, _ = hazards.Assess(a, data, lib, hazards.Options{Name: "many"})
	}
	var m runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&m)
	b.ReportMetric(float64(m.HeapAlloc)/1e6, "MB-held")
	runtime.KeepAlive(a)
	runtime.KeepAlive(r)
}

// BenchmarkContact is one contact check: expanding, reading inputs, working out.
func BenchmarkContact(b *testing.B) {
	lib, data := library(b), hazardstest.YAML(hazardstest.Size{Contacts: 1000})
	a := load(b, data)
	for b.Loop() {
		if _, problems := hazards.Assess(a, data, lib, hazards.Options{Name: "many"}); len(problems) > 0 {
			b.Fatal(problems[0])
		}
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/1000, "µs/contact")
}

package sheet_test

import (
	"testing"

	"standclear/limits/sheet"
	"standclear/templates"
)

// Compiling every sheet and table of the embedded data.
func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		if lib, _ := sheet.Load(templates.FS); len(lib.Sheets) == 0 {
			b.Fatal("no sheets")
		}
	}
}

// One check of a contact that is free, 33 columns and 30 rules.
func BenchmarkContact(b *testing.B) { evaluate(b, "contact-transient") }

func BenchmarkCurtain(b *testing.B) { evaluate(b, "light-curtain") }

func evaluate(b *testing.B, id string) {
	s := library(b).Sheet(id)
	vals := inputs(b, s, "")
	b.ReportAllocs()
	for b.Loop() {
		if o := s.Evaluate(vals); !o.Verdict.Holds() {
			b.Fatal(o.Why)
		}
	}
}

// A check allocates nothing.
func TestEvaluateAllocatesNothing(t *testing.T) {
	for _, s := range library(t).Sheets {
		vals := inputs(t, s, "")
		if n := testing.AllocsPerRun(100, func() { s.Evaluate(vals) }); n > 0 {
			t.Errorf("sheet %s: %v allocations", s.ID, n)
		}
	}
}

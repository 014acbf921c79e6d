package pdf

import (
	"fmt"
	"io"
	"testing"
	"time"

	"standclear/hazards"
)

// many is an assessment of n rows and n checks.
func many(t testing.TB, n int) *hazards.Result {
	r := fixture(t)
	base := r.Rows[0]
	checks := r.Checks
	r.Rows, r.Contacts, r.Checks = nil, nil, nil
	for i := range n {
		row := base
		row.ID = fmt.Sprintf("H-%05d", i)
		c := checks[[]int{0, 3, 4, 5, 6}[i%5]]
		c.ID = fmt.Sprintf("check-%05d", i)
		c.Of = c.ID
		row.Rests = []string{c.ID}
		r.Rows = append(r.Rows, row)
		r.Checks = append(r.Checks, c)
	}
	return r
}

func TestLargeAssessment(t *testing.T) {
	r := many(t, 2_000)
	start := time.Now()
	if err := Write(io.Discard, r); err != nil {
		t.Fatal(err)
	}
	// Generous: it is to catch work that grows with the square of the rows.
	if took := time.Since(start); took > 10*time.Second {
		t.Errorf("2,000 rows took %v", took)
	}
}

func BenchmarkWrite(b *testing.B) {
	for _, n := range []int{80, 10_000} {
		r := many(b, n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := Write(io.Discard, r); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkSmall(b *testing.B) {
	r := fixture(b)
	for b.Loop() {
		if err := Write(io.Discard, r); err != nil {
			b.Fatal(err)
		}
	}
}

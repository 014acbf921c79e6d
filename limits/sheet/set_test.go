package sheet_test

import (
	"errors"
	"testing"

	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// Of a tolerance the worse end counts; where the sheet does not say which that
// is, it is refused.
func TestSetTolerance(t *testing.T) {
	lib := library(t)
	for _, tt := range []struct {
		sheet, input, text string
		want               []float64 // nil: refused
	}{
		{"light-curtain", "T", "0.31 s ± 0.02 s", []float64{0.33}},
		{"light-curtain", "available", "900 mm ± 200 mm", []float64{700}},
		{"light-curtain", "available", "900 mm ± 0 mm", []float64{900}},
		{"light-curtain", "d", "30 mm ± 2 mm", nil},
		{"reach-over", "a", "1000 mm ± 50 mm", []float64{950, 1050}},
		{"reach-over", "a", "700..2000 mm", []float64{700, 2000}},
	} {
		s := lib.Sheet(tt.sheet)
		vals := s.Blank()
		err := s.Set(vals, tt.input, tt.text)
		if tt.want == nil {
			var e *sheet.InputError
			if !errors.As(err, &e) || e.Hint != "give the worse end" {
				t.Errorf("%s %s: %v, want it refused", tt.sheet, tt.text, err)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s %s: %v", tt.sheet, tt.text, err)
			continue
		}
		columns := []*sheet.Column{s.Input(tt.input)}
		if r, ok := s.Ranges[tt.input]; ok {
			columns = r[:]
		}
		for i, c := range columns {
			if got := vals[c.Slot].Num; !expr.Equal(got, tt.want[i]) {
				t.Errorf("%s %s: %v, want %v", tt.sheet, tt.text, got, tt.want[i])
			}
		}
	}
}

package sheet_test

import (
	"strings"
	"testing"

	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// Of a tolerance the end is put that the sheet expects to be the worse one; where
// it does not say, the value as it is.
func TestSetTolerance(t *testing.T) {
	lib := library(t)
	for _, tt := range []struct {
		sheet, input, text string
		want               []float64
	}{
		{"light-curtain", "T", "0.31 s ± 0.02 s", []float64{0.33}},
		{"light-curtain", "available", "900 mm ± 200 mm", []float64{700}},
		{"light-curtain", "available", "900 mm ± 0 mm", []float64{900}},
		{"light-curtain", "d", "30 mm ± 2 mm", []float64{30}},
		{"reach-over", "a", "1000 mm ± 50 mm", []float64{950, 1050}},
		{"reach-over", "a", "700..2000 mm", []float64{700, 2000}},
	} {
		s := lib.Sheet(tt.sheet)
		vals := s.Blank()
		err := s.Set(vals, tt.input, tt.text)
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

// Of a thing that may be said in a word or as a number, the number goes to the
// input of the number.
func TestSetWordOrNumber(t *testing.T) {
	s := library(t).Sheet("level-estimate")
	for text, want := range map[string]float64{"0.978": 0.978, "97.8 %": 0.978, "medium": 0} {
		vals := s.Blank()
		if err := s.Set(vals, "DC", text); err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		word, share := vals[s.Input("DC").Slot], vals[s.Input("DC_share").Slot]
		if share.Num != want || word.Given() == share.Given() {
			t.Errorf("%s: word %+v, share %+v", text, word, share)
		}
	}
	for text, want := range map[string]string{"1.1": "at least 0 and at most 1", "0.9 mm": "a plain number", "middling": "one of none, low, medium, high", "0,9": "none, low"} {
		if err := s.Set(s.Blank(), "DC", text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", text, err, want)
		}
	}
}

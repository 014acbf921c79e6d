package sheet_test

import (
	"testing"

	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// Results are lent where they are worked out in full, whatever they are held
// against; not where an answer is missing or the method does not cover the case.
func TestLends(t *testing.T) {
	lib := library(t)
	for _, tt := range []struct {
		sheet, change string
		verdict       sheet.Verdict
		lends         bool
	}{
		{"reach-over", "", sheet.Within, true},
		{"reach-over", "available=", sheet.NotDecided, true},
		{"reach-over", "available=1 mm", sheet.Over, true},
		{"reach-over", "b=899 mm", sheet.Outside, false},
		{"reach-over", "b=899 mm; available=1 mm", sheet.Outside, false},
		{"reach-over", "T=", sheet.NotDecided, false},
		{"light-curtain", "available=", sheet.NotDecided, true},
		{"light-curtain", "behind=", sheet.NotDecided, false},
		{"light-curtain", "C_RO=", sheet.NotDecided, false},
		{"light-curtain", "C_RO=; available=1 mm", sheet.Over, false}, // over even so, and S may be more
		{"light-curtain", "C_RO=; available=", sheet.NotDecided, false},
		{"parallel-field", "Z=; available=1 mm", sheet.Over, false},
		{"level-estimate", "required=", sheet.NotDecided, true},
		{"level-estimate", "MTTFD=56; required=e", sheet.Over, true},
		{"level-estimate", "CCF=", sheet.NotDecided, false},
		{"level-estimate", "CCF=; required=", sheet.NotDecided, false},
		{"b10", "", sheet.Within, true},
		{"b10", "stated=1", sheet.NotDecided, false}, // two figures for one thing
		{"two-channels", "C2=2.9", sheet.Outside, false},
		{"required-level", "", sheet.Within, true},
		{"ssm", "S_s=", sheet.NotDecided, false},
	} {
		s := lib.Sheet(tt.sheet)
		o := s.Evaluate(inputs(t, s, tt.change))
		if got, _ := s.Lends(o.Values); got != tt.lends || o.Verdict != tt.verdict {
			t.Errorf("%s with %q: lends %v, want %v; %s, want %s: %s", tt.sheet, tt.change, got, tt.lends, o.Verdict, tt.verdict, o.Why)
		}
	}
}

// Where results are lent, each that is given stays as it is whatever they are
// held against.
func TestLentResultsDoNotDependOnTheCriterion(t *testing.T) {
	lib := library(t)
	for _, s := range lib.Sheets {
		for _, row := range parityRows(t, s) {
			o := s.Evaluate(row.vals)
			if lends, _ := s.Lends(o.Values); o.Verdict != sheet.NotDecided || !lends {
				continue
			}
			for _, c := range s.Columns {
				if c.Role != sheet.Input || !c.Optional || o.Values[c.Slot].Given() || c.Name != "available" && c.Name != "required" {
					continue
				}
				vals := append([]expr.Value(nil), row.vals...)
				vals[c.Slot] = expr.Value{Kind: expr.Number, Num: 1}
				if c.Type.Kind == expr.Text {
					vals[c.Slot] = expr.Value{Kind: expr.Text, Text: c.Choice[0]}
				}
				other := s.Evaluate(vals)
				for _, res := range s.Results {
					if o.Values[res.Slot] != other.Values[res.Slot] {
						t.Errorf("%s, %s: %s depends on %s", s.ID, row.name, res.Name, c.Name)
					}
				}
			}
		}
	}
}

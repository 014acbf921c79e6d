package sheet_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// Advice that is taken holds at every corner of the tolerances that stay, also
// where another corner is the worst one there.
func TestAdviceHoldsAtEveryCorner(t *testing.T) {
	for _, s := range library(t).Sheets {
		if len(s.Adjustable()) == 0 {
			continue
		}
		r := rand.New(rand.NewPCG(uint64(len(s.Key())), 143))
		said := 0
		for range 400 {
			vals := failing(r, t, s)
			loose := loosen(r, s, vals)
			k := s.Worst(vals, loose)
			for _, a := range sheet.AdviceAt(&k) {
				said++
				row := slices.Clone(vals)
				row[a.Column.Slot] = expr.Value{Kind: expr.Number, Num: a.Value}
				others := slices.DeleteFunc(slices.Clone(loose), func(l sheet.Loose) bool { return l.Column == a.Column })
				if w := s.Worst(row, others); !w.Verdict.Holds() {
					t.Fatalf("%s: %s of %v gives %s, %s; %s", s.Key(), a.Column.Name, a.Value, w.Verdict, w.Why, shown(s, vals))
				}
			}
		}
		t.Logf("%s: %d answers", s.Key(), said)
	}
}

// loosen gives some numbers of a row a tolerance of a few per cent.
func loosen(r *rand.Rand, s *sheet.Sheet, vals []expr.Value) (list []sheet.Loose) {
	for _, c := range s.Columns {
		v := vals[c.Slot]
		if !takes(c) || v.Kind != expr.Number || len(list) == 3 || r.IntN(3) > 0 {
			continue
		}
		low, high := number(v.Num*0.96), number(v.Num*1.04)
		if c.Possible(low) != nil || c.Possible(high) != nil {
			continue
		}
		l := sheet.Loose{Column: c, Rest: v}
		l.Ends, l.Known = c.Ends(low, high)
		list = append(list, l)
	}
	return list
}

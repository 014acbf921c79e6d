package sheet_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// tolerances puts random tolerances on up to most inputs of a row, at ends that
// may be.
func tolerances(r *rand.Rand, s *sheet.Sheet, vals []expr.Value, most int) []sheet.Loose {
	lowest, highest := map[*sheet.Column]bool{}, map[*sheet.Column]bool{}
	for _, e := range s.Ranges {
		lowest[e[0]], highest[e[1]] = true, true
	}
	var columns []*sheet.Column
	for _, c := range s.Columns {
		if takes(c) && vals[c.Slot].Kind == expr.Number {
			columns = append(columns, c)
		}
	}
	r.Shuffle(len(columns), func(i, j int) { columns[i], columns[j] = columns[j], columns[i] })
	var out []sheet.Loose
	for _, c := range columns[:min(most, len(columns))] {
		v := vals[c.Slot].Num
		by := v * r.Float64() * 0.5
		low, high := number(v-by), number(v+by)
		if by == 0 || c.Possible(low) != nil || c.Possible(high) != nil {
			continue
		}
		if lowest[c] || highest[c] {
			out = append(out, c.Wider(lowest[c], vals[c.Slot], low, high))
			continue
		}
		ends, known := c.Ends(low, high)
		out = append(out, sheet.Loose{Column: c, Rest: vals[c.Slot], Ends: ends, Known: known})
	}
	return out
}

// worseThan says it by verdict and use alone, in its own words.
func worseThan(a, b *sheet.Outcome) bool {
	i, j := slices.Index(sheet.Order, a.Verdict), slices.Index(sheet.Order, b.Verdict)
	if i = min(i, len(sheet.Order)-2); i != min(j, len(sheet.Order)-2) {
		return i < j
	}
	return a.Use() > b.Use()*(1+1e-12)
}

// The worst corner is never milder than the nominal row, nor than any other
// corner; it is one of them, and the same each time.
func TestWorstCornerIsTheWorst(t *testing.T) {
	for _, s := range library(t).Sheets {
		t.Run(s.ID, func(t *testing.T) {
			t.Parallel()
			r := rand.New(rand.NewPCG(7, uint64(len(s.ID))))
			tried, moved := 0, 0
			for range 10000 {
				vals := randomRow(r, s)
				if s.ID == "two-channels" { // else nearly all are capped
					vals[s.Column("C1").Slot], vals[s.Column("C2").Slot] = number(1+150*r.Float64()), number(1+150*r.Float64())
				}
				loose := tolerances(r, s, vals, 3)
				nominal := s.Evaluate(slices.Clone(vals))
				k := s.Worst(vals, loose)
				if worseThan(&nominal, &k.Outcome) {
					t.Fatalf("%s, %v of the nominal row, is better than %s, %v: %s", k.Verdict, k.Use(), nominal.Verdict, nominal.Use(), shown(s, vals))
				}
				if len(loose) == 0 {
					continue
				}
				tried++
				if slices.ContainsFunc(k.At, func(at int) bool { return at >= 0 }) {
					moved++
				}
				if again := s.At(slices.Clone(vals), loose, k.At); again.Verdict != k.Verdict || again.Use() != k.Use() {
					t.Fatalf("the corner named gives %s, not %s", again.Verdict, k.Verdict)
				}
				for bits := range 1 << len(loose) {
					at := slices.Clone(vals)
					for i, l := range loose {
						at[l.Column.Slot] = l.Ends[bits>>i&1*min(1, len(l.Ends)-1)].Value
					}
					if o := s.Evaluate(at); worseThan(&o, &k.Outcome) {
						t.Fatalf("%s, %v of a corner, is worse than %s, %v: %s", o.Verdict, o.Use(), k.Verdict, k.Use(), shown(s, at))
					}
				}
			}
			if numbers := slices.ContainsFunc(s.Columns, func(c *sheet.Column) bool { return takes(c) && c.Type.Kind == expr.Number }); numbers && (tried < 3000 || moved < 50) {
				t.Errorf("%d rows with tolerances, of which %d moved", tried, moved)
			}
		})
	}
}

// Beyond eight tolerances not every corner is tried. Rates of a chain add up, so
// that there the worst is known.
func TestManyTolerances(t *testing.T) {
	s := library(t).Sheet("level-chain")
	vals := s.Blank()
	var loose []sheet.Loose
	for i, c := range s.Lists["PFH"][:12] {
		v := 1e-8 * float64(i+1)
		vals[c.Slot], vals[s.Lists["levels"][i].Slot], vals[s.Lists["categories"][i].Slot] = number(v), word("e"), word("4")
		ends, known := c.Ends(number(v*0.9), number(v*1.1))
		loose = append(loose, sheet.Loose{Column: c, Rest: number(v), Ends: ends, Known: known})
	}
	vals[s.Column("required").Slot] = word("d")
	k := s.Worst(vals, loose)
	sum, nominal := k.Value("PFH_sum").Num, k.Nominal.Value("PFH_sum").Num
	if !expr.Equal(nominal, 78e-8) || !expr.Equal(sum, 78e-8*1.1) {
		t.Errorf("sum %v, at nominal %v", sum, nominal)
	}
	r := rand.New(rand.NewPCG(1, 1))
	n := 0
	for range 2000 {
		s := library(t).Sheet("ssm")
		vals := randomRow(r, s)
		loose := tolerances(r, s, vals, 20)
		if len(loose) < 9 {
			continue
		}
		n++
		if k := s.Worst(vals, loose); worseThan(k.Nominal, &k.Outcome) {
			t.Fatalf("%s is better than %s: %s", k.Verdict, k.Nominal.Verdict, shown(s, vals))
		}
	}
	if n < 100 {
		t.Errorf("only %d rows with nine tolerances or more", n)
	}
}

// One input counts at the upper end in one sheet and at the lower end in another,
// whatever is expected; what does not matter stays as it is expected.
func TestCornerIsNamed(t *testing.T) {
	for _, tt := range []struct{ sheet, input, text, words string }{
		{"payload", "tool", "2 kg ± 0.5 kg", "at tool 2.5 kg (upper end)"},
		{"payload", "rated", "10 kg ± 0.5 kg", "at rated 9.5 kg (lower end)"},
		{"light-curtain", "d", "30 mm ± 2 mm", "at d 32 mm (upper end)"},
		{"payload", "offset", "70 mm ± 5 mm", "at the nominal values"},
		{"b10", "B10D", "2e7 ± 1e6", "at B10D 1.9e7 (lower end)"},
		{"contact-transient", "M", "18 kg ± 0.4 kg", "at M 18.4 kg (upper end)"},
		{"reach-over", "a", "1000 mm ± 50 mm", "at a 950 mm (lower end), a 1050 mm (upper end)"},
		{"payload", "part", "3 kg ± 0 kg", ""},
	} {
		s := library(t).Sheet(tt.sheet)
		vals := inputs(t, s, "") // the base
		if err := s.Set(vals, tt.input, tt.text); err != nil {
			t.Errorf("%s: %v", tt.text, err)
			continue
		}
		loose, err := s.Loosen(tt.input, tt.text)
		if err != nil {
			t.Errorf("%s: %v", tt.text, err)
			continue
		}
		k := s.Worst(vals, loose)
		if got := k.Words(); got != tt.words {
			t.Errorf("%s, %s %s: %q, want %q", tt.sheet, tt.input, tt.text, got, tt.words)
		}
	}
}

// Both ends of a tolerance have to be possible.
func TestLoosenRefuses(t *testing.T) {
	s := library(t).Sheet("payload")
	for text, wrong := range map[string]bool{"10 kg ± 11 kg": true, "4999 kg ± 2 kg": true, "10 kg ± 9 kg": false} {
		if _, err := s.Loosen("rated", text); (err != nil) != wrong {
			t.Errorf("%s: %v", text, err)
		}
	}
}

package sheet_test

import (
	"slices"
	"strings"
	"testing"

	"standclear/limits/sheet"
)

func line(t *testing.T, s *sheet.Sheet, o sheet.Outcome, symbol string) sheet.Line {
	t.Helper()
	for _, l := range s.Worked(&o) {
		if l.Symbol == symbol {
			return l
		}
	}
	t.Fatalf("sheet %s: no line %s", s.ID, symbol)
	return sheet.Line{}
}

// A step with cases names the conditions it asked, with numbers, up to the one
// that applies.
func TestCaseIsShown(t *testing.T) {
	s := library(t).Sheet("light-curtain")
	for change, want := range map[string]string{
		"T=0.311 s; d=30 mm; C_RO=0 mm": "d > d_fine? no (30 mm > 40 mm); K_hand·T + C ≤ S_turn? no (2000 mm/s · 0.311 s + 128 mm ≤ 500 mm); otherwise",
		"T=0.1 s; d=30 mm; C_RO=0 mm":   "d > d_fine? no (30 mm > 40 mm); K_hand·T + C ≤ S_turn? yes (2000 mm/s · 0.1 s + 128 mm ≤ 500 mm)",
		"T=0.1 s; d=50 mm; C_RO=0 mm":   "d > d_fine? yes (50 mm > 40 mm)",
		"T=; d=30 mm; C_RO=0 mm":        "d > d_fine? no (30 mm > 40 mm); K_hand·T + C ≤ S_turn? not known (2000 mm/s · T + 128 mm ≤ 500 mm)",
	} {
		if got := line(t, s, with(t, s, change), "S").Case; got != want {
			t.Errorf("%s:\n got %s\nwant %s", change, got, want)
		}
	}
	if got := line(t, s, with(t, s, "C_RO="), "C").Case; got != "C_RO not given? yes" {
		t.Error(got)
	}
	s = library(t).Sheet("required-level")
	if got := line(t, s, with(t, s, "S=S2; F=F2; P=P1"), "branch").Case; strings.Count(got, "? no") != 3 || !strings.HasSuffix(got, "S = 'S2' and F = 'F2'? yes") {
		t.Error(got)
	}
	s = library(t).Sheet("level-chain")
	if got := line(t, s, with(t, s, ""), "n_low").Case; !strings.Contains(got, "levels has 'a'? no") {
		t.Error(got)
	}
	s = library(t).Sheet("contact-transient")
	if got := line(t, s, with(t, s, "area=thenar"), "mu").Case; got != "" {
		t.Errorf("a step without cases shows %s", got)
	}
}

// A look-up names its table, the rows and columns it reads, and what counts.
func TestLookupNamesItsPlace(t *testing.T) {
	s := library(t).Sheet("reach-over")
	o := with(t, s, "a=1300..1650 mm; b=1450 mm")
	l := line(t, s, o, "C_RO")
	want := "from reach-over-electro, rows 1200 to 1800 mm (a = 1300 mm to 1650 mm, worst-between), column 1400 mm (b = 1450 mm, next-down); worst in row "
	at, ok := strings.CutPrefix(l.Formula, want)
	if !ok {
		t.Fatalf("got %s", l.Formula)
	}
	tab := library(t).Table("reach-over-electro")
	row, _, _ := strings.Cut(at, ",")
	found := false
	for i := range tab.Rows {
		if tab.RowKey(i) == row {
			c := tab.HeadAt(1400) + tab.First
			found = o.Value("C_RO") == tab.Rows[i][c].Value
		}
	}
	if !found {
		t.Errorf("the value does not stand where the line says: %s = %s", l.Formula, l.Result)
	}
	if got := line(t, s, with(t, s, "b="), "C_RO"); got.Formula == "" || !strings.Contains(got.Formula, "no column for b, which is missing") || got.Result != "no value" {
		t.Errorf("%+v", got)
	}
	s = library(t).Sheet("least-gap")
	if got := line(t, s, with(t, s, "part=hand"), "gap").Formula; got != "from least-gap, row hand, column gap" {
		t.Error(got)
	}
}

// A look-up by an input that may be left out is not shown where it is.
func TestLookupNotAsked(t *testing.T) {
	s := library(t).Sheet("level-estimate")
	lines := func(change string) string {
		o := with(t, s, change)
		var out []string
		for _, l := range s.Worked(&o) {
			if strings.HasPrefix(l.Formula, "from ") {
				out = append(out, l.Symbol+" "+l.Formula)
			}
		}
		return strings.Join(out, "; ")
	}
	for change, want := range map[string]string{
		"":                       "PFH from level-by-mttfd, row 62 (MTTFD_used = 62, next-down), column 32",
		"MTTFD=67":               "PFH from level-by-mttfd, row 62 (MTTFD_used = 67, next-down), column 32",
		"MTTFD=; MTTFD_band=low": "PL_word from level-by-word, row low, column 32",
		"MTTFD=2; MTTFD_band=":   "PFH from level-by-mttfd: no row for MTTFD_used = 2",
	} {
		if got := lines(change); got != want {
			t.Errorf("%s: %s, want %s", change, got, want)
		}
	}
}

// Where a contact is not permitted no value is offered, of the table either.
func TestWithheldOffersNoValue(t *testing.T) {
	for _, id := range []string{"contact-transient", "contact-clamped", "jaw-pinch"} {
		s := library(t).Sheet(id)
		for _, change := range []string{"area=temple", "area=thenar; edges=point", "area=thenar; head=yes", "area=thenar; theta=60 degC"} {
			o := with(t, s, change)
			if o.Verdict != sheet.NotPermitted {
				t.Fatalf("%s, %s: %s", id, change, o.Verdict)
			}
			l := line(t, s, o, "limits")
			if l.Result != "withheld: no value is offered for a contact that is not permitted" || !strings.Contains(l.Case, "? yes") {
				t.Errorf("%s, %s: %+v", id, change, l)
			}
			for _, l := range s.Worked(&o) {
				if strings.Contains(l.Result, "missing") || strings.Contains(l.Result, "N/cm2") || strings.HasSuffix(l.Result, " N") {
					t.Errorf("%s, %s: %s = %s", id, change, l.Symbol, l.Result)
				}
			}
		}
	}
}

func TestCompares(t *testing.T) {
	for _, s := range library(t).Sheets {
		if s.Group != "method" && s.Compares() != !slices.Contains([]string{"required-level", "b10", "two-channels"}, s.ID) {
			t.Errorf("sheet %s: compares %v", s.ID, s.Compares())
		}
	}
}

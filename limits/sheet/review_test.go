package sheet_test

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/sheet"
	"standclear/limits/source"
	"standclear/limits/table"
	"standclear/templates"
)

// Every source that a sheet, a constant or a table names is there, and what is
// better known than from memory or practice names one.
func TestSourcesExist(t *testing.T) {
	lib := library(t)
	known := func(where string, keys []string, st table.Standing) {
		t.Helper()
		for _, k := range keys {
			if _, ok := lib.Source(k); !ok {
				t.Errorf("%s: no source %s", where, k)
			}
		}
		if need := map[table.Standing]int{table.Confirmed: 2, table.Single: 1}[st]; len(keys) < need {
			t.Errorf("%s: %s, and names %d sources", where, st, len(keys))
		}
		if st == table.Memory && len(keys) > 0 {
			t.Errorf("%s: from memory, and names a source", where)
		}
	}
	for _, s := range lib.Sheets {
		known(s.ID, s.Source, s.Standing)
	}
	for _, k := range lib.Constants {
		known(k.Of+" "+k.Name, k.Source, k.Standing)
	}
	for _, tab := range lib.Tables {
		for i, c := range tab.Columns {
			if c.Type.Kind == expr.Number && tab.Column(tab.Key) != i || len(c.Source) > 0 {
				known(tab.ID+" "+c.ID, c.Source, c.Standing)
				if c.Standing == "" {
					t.Errorf("%s: column %s has no standing", tab.ID, c.ID)
				}
			}
		}
	}
	seen := map[string]bool{}
	for _, s := range lib.Sources {
		if seen[s.Key] || s.Title == "" || s.Address == "" {
			t.Errorf("source %s stands there twice or has no title or address", s.Key)
		}
		seen[s.Key] = true
	}
}

// No text of a sheet uses the words that are never a result, and no reason is
// longer than a formula takes.
func TestWording(t *testing.T) {
	never := regexp.MustCompile(`(?i)\b(safe|safely|pass|passes|certified|compliant|compliance)\b`)
	for _, s := range library(t).Sheets {
		texts := []string{s.Title, s.About}
		for _, c := range append(append([]*sheet.Column(nil), s.Columns...), s.Consts...) {
			texts = append(texts, c.Means)
			if strings.TrimSpace(c.Means) == "" {
				t.Errorf("sheet %s: %s has no meaning in words", s.ID, c.Name)
			}
		}
		for _, r := range s.Rules {
			texts = append(texts, r.Because)
		}
		o := s.Evaluate(s.Blank())
		texts = append(texts, o.Why)
		for _, n := range o.Notes() {
			texts = append(texts, n.Text)
		}
		for _, text := range texts {
			if w := never.FindString(text); w != "" {
				t.Errorf("sheet %s says %q: %s", s.ID, w, text)
			}
		}
	}
}

// What a statement says, the sheet does: the inputs and results that other
// programs rely on are there, by name and unit.
func TestInputsAndResults(t *testing.T) {
	want := map[string][2]string{
		"contact-transient": {"area M:kg m_L:kg m_R:kg A:cm2 v:mm/s m_H:kg K:N/mm k_pad:N/mm s_pad:mm", "m_R:kg m_H:kg K:N/mm mu:kg F_limit:N p_limit:N/cm2 E_limit:J v_F:mm/s v_p:mm/s v_max:mm/s F_peak:N p_peak:N/cm2"},
		"contact-clamped":   {"area M:kg m_L:kg m_R:kg A:cm2 v:mm/s m_H:kg K:N/mm k_pad:N/mm s_pad:mm F_hold:N", "m_R:kg m_H:kg K:N/mm mu:kg F_limit:N p_limit:N/cm2 E_limit:J v_F:mm/s v_p:mm/s v_max:mm/s F_peak:N p_peak:N/cm2"},
		"jaw-pinch":         {"area F_grip:N A:cm2", "F_limit:N p_limit:N/cm2 p:N/cm2"},
		"light-curtain":     {"T:s d:mm available:mm C_RO:mm under behind", "C:mm S:mm"},
		"reach-over":        {"T:s a_lo:mm a_hi:mm b:mm available:mm", "C_RO:mm S:mm"},
		"parallel-field":    {"T:s H:mm d:mm Z:mm available:mm", "C:mm S:mm H_min:mm"},
		"least-gap":         {"part available:mm", "gap:mm"},
		"ssm":               {"v_h:mm/s v_r:mm/s T_r:s T_s:s C:mm Z_d:mm Z_r:mm S_s:mm available:mm", "S_h:mm S_r:mm S_s:mm S_p:mm"},
		"ssm-speed":         {"D:mm v_h:mm/s T_r:s C:mm Z_d:mm Z_r:mm a:mm/s2 T_s:s v_ref:mm/s", "v_max:mm/s"},
		"payload":           {"rated:kg tool:kg part:kg offset:mm", "total:kg use"},
		"required-level":    {"S F P rare", "PL_r"},
		"level-chain":       {"PFH_1 levels_1 categories_1 required required_category", "PFH_sum PL"},
		"level-estimate":    {"category DC DC_share MTTFD MTTFD_band CCF test_ratio tested_on_demand MTTFD_test required", "PFH PL"},
		"b10":               {"B10D days hours cycle:s stated", "n_op MTTFD T10D"},
		"two-channels":      {"C1 C2 category", "MTTFD"},
	}
	lib := library(t)
	for id, names := range want {
		s := lib.Sheet(id)
		if s == nil {
			t.Errorf("no sheet %s", id)
			continue
		}
		for _, in := range strings.Fields(names[0]) {
			name, unit, _ := strings.Cut(in, ":")
			if c := s.Input(name); c == nil || c.UnitName() != unit {
				t.Errorf("sheet %s: no input %s in %q", id, name, unit)
			}
		}
		for _, out := range strings.Fields(names[1]) {
			name, unit, _ := strings.Cut(out, ":")
			c := s.Column(name)
			if c == nil || c.UnitName() != unit || !listed(s, c) {
				t.Errorf("sheet %s: no result %s in %q", id, name, unit)
			}
		}
	}
}

func listed(s *sheet.Sheet, c *sheet.Column) bool {
	for _, r := range s.Results {
		if r == c {
			return true
		}
	}
	return false
}

// An adjustable input is one an engineer can turn: never the speed of a person,
// a body part, or whether an event is rare; and turning it the way it says never
// makes a verdict worse. The permitted speed by distance is left out: more speed
// may go beyond the one at which the stop was taken.
func TestAdjust(t *testing.T) {
	for _, s := range library(t).Sheets {
		for _, c := range s.Columns {
			if c.Adjust == "" {
				continue
			}
			if c.Name == "v_h" || c.Of != "" || c.Role != sheet.Input || c.Type.Kind != expr.Number {
				t.Errorf("sheet %s: %s is not to be turned", s.ID, c.Name)
			}
			if s.ID != "ssm-speed" {
				turn(t, s, c)
			}
		}
	}
}

func turn(t *testing.T, s *sheet.Sheet, c *sheet.Column) {
	t.Helper()
	r := rand.New(rand.NewPCG(uint64(c.Slot), 3))
	for range 2000 {
		vals := randomRow(r, s)
		from, to := random(r, c), random(r, c)
		if (from.Num > to.Num) == (c.Adjust == "up") {
			from, to = to, from
		}
		if beyondMethod(c, from) || beyondMethod(c, to) {
			continue
		}
		if c := s.Column("crawl"); c != nil { // a higher plane asks for an answer
			vals[c.Slot] = word("no")
		}
		vals[c.Slot] = from
		was := s.Evaluate(vals)
		if was.Verdict == sheet.Outside { // says nothing yet
			continue
		}
		vals[c.Slot] = to
		if now := s.Evaluate(vals); now.Verdict.Worse(was.Verdict) {
			t.Fatalf("sheet %s, %s from %v: %s turns to %s; %s", s.ID, c.Name, from.Num, was.Verdict, now.Verdict, shown(s, vals))
		}
	}
}

func beyondMethod(c *sheet.Column, v expr.Value) bool {
	b := c.Bounds
	return b.AppliesTo != nil && v.Num > *b.AppliesTo || b.AppliesFrom != nil && v.Num < *b.AppliesFrom
}

// Every unit of every sheet is one that a user may type.
func TestUnitsCanBeTyped(t *testing.T) {
	for _, s := range library(t).Sheets {
		for _, c := range s.Columns {
			if c.Type.Kind != expr.Number {
				continue
			}
			text := strings.TrimSpace("1 " + c.UnitName())
			if q, err := quantity.Parse(text); err != nil {
				t.Errorf("sheet %s, %s: %v", s.ID, c.Name, err)
			} else if x, err := q.In(c.Type.Unit); err != nil || x != 1 {
				t.Errorf("sheet %s, %s: %s is %v, %v", s.ID, c.Name, text, x, err)
			}
		}
	}
}

// Each line that is worked out has a formula with the numbers put in, and says
// where it comes from.
func TestWorkedLines(t *testing.T) {
	for _, s := range library(t).Sheets {
		o := with(t, s, "")
		for _, l := range s.Worked(&o) {
			if l.Symbol == "" || l.Formula == "" || l.Source == "" || l.Result == "" {
				t.Errorf("sheet %s: %+v", s.ID, l)
			}
		}
	}
	s := library(t).Sheet("light-curtain")
	o := with(t, s, "")
	lines := s.Worked(&o)
	last := lines[len(lines)-1]
	got := fmt.Sprint(last.Symbol, " = ", last.Numbers, " = ", last.Result)
	if !strings.Contains(got, "1600 mm/s") || !strings.Contains(got, "0.311 s") || !strings.HasSuffix(got, "= 625.6 mm") {
		t.Error(got)
	}
	o = with(t, s, "T=")
	for _, l := range s.Worked(&o) {
		if l.Symbol == "S" && l.Result != "not worked out: T is missing" {
			t.Error(l.Result)
		}
	}
}

// Slips in a statement are refused with a reason, not carried into a sheet.
func TestReadRefuses(t *testing.T) {
	data, err := fs.ReadFile(templates.FS, "sheets/20-light-curtain.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for _, c := range []struct{ old, new, want string }{
		{"above: 0, to: 10, adjust: down}", "to: 10, adjust: down}", "needs a lower physical bound"},
		{"unit: s, means", "unit: furlong, means", "furlong"},
		{`"d <= d_fine"`, `"d <= T"`, "mm"},
		{`"d <= d_fine"`, `"d <= d_find"`, "d_find"},
		{`"max(0, f_d*(d - d_0))"`, `"max(0, f_d*(C - d_0))"`, "needs itself"},
		{"results: [C, S]", "results: [C, S_x]", "no step S_x"},
		{`choice: ["yes", "no"], optional: true}`, "optional: true}", "needs a unit, choices or a table"},
		{`choice: ["yes", "no"], optional: true}`, "of: nowhere, optional: true}", "no table nowhere"},
		{"shared: [K_hand", "shared: [K_leg, K_hand", "no constant K_leg"},
		{"verdict: outside, if", "verdict: perhaps, if", "perhaps"},
		{"steps:\n", "withhold: [\"C_RT > S_low\"]\nsteps:\n", "withhold rests on C_RT"},
		{"steps:\n", "lookups:\n  x: {table: reach-over-electro, by: {z: exact, d: exact}}\nsteps:\n", "has no z"},
		{"steps:\n", "lookups:\n  x: {table: reach-over-electro, by: {T: next-up, d: exact}}\nsteps:\n", "found T, a number in s; expected a number in mm"},
		{"steps:\n", "lookups:\n  x: {table: contact-areas, column: p_s, by: {d: exact}}\nsteps:\n", "expected a text"},
		{"steps:\n", "lookups:\n  x: {table: contact-areas, column: p_s, by: {under: next-up}}\nsteps:\n", "expected exact"},
		{"above: 0, to: 10, adjust: down}", "above: 0, list: 4000}", "at most 40"},
		{`choice: ["yes", "no"], optional: true}`, `choice: ["yes", "no"], optional: true, number: nowhere}`, "expected an input of words and one with a unit"},
	} {
		if !strings.Contains(text, c.old) {
			t.Fatalf("no %q in the statement", c.old)
		}
		var ps source.Problems
		n := source.Parse("x.yaml", []byte(strings.Replace(text, c.old, c.new, 1)), &ps)
		lib := *library(t)
		lib.Constants = append([]*sheet.ConstantValue(nil), lib.Constants...)
		if s := sheet.Read(n, &lib, &ps); s != nil || ps.Len() == 0 {
			t.Errorf("%s is taken", c.new)
			continue
		}
		var all []string
		for _, p := range ps.List() {
			all = append(all, p.Message+" "+p.Expected+" "+p.Hint)
		}
		if got := strings.Join(all, "; "); !strings.Contains(got, c.want) {
			t.Errorf("%s: %s", c.new, got)
		}
	}
}

// Inputs as typed: units, bounds, choices, ranges and lists, and what is wrong
// with them.
func TestSet(t *testing.T) {
	lib := library(t)
	for _, c := range []struct{ sheet, name, text, want string }{
		{"light-curtain", "T", "311 ms", ""},
		{"light-curtain", "T", "0.311", "expected a number with its unit"},
		{"light-curtain", "T", "0 s", "above 0 s and at most 10 s"},
		{"light-curtain", "T", "11 s", "above 0 s and at most 10 s"},
		{"light-curtain", "T", "30 mm", "such as `1 s`"},
		{"light-curtain", "T", "NaN s", "NaN"},
		{"light-curtain", "under", "maybe", "one of yes, no"},
		{"light-curtain", "unter", "yes", "did you mean"},
		{"contact-transient", "area", "palm", "palm-d"},
		{"contact-transient", "m_R", "-1 kg", "above 0 kg"},
		{"contact-transient", "m_R_given", "1 kg", "no such input"},
		{"reach-over", "a", "0.7..2 m", ""},
		{"reach-over", "a", "2..0.7 m", "downwards"},
		{"level-chain", "PFH", "1e-8, 2e-8", ""},
		{"level-chain", "PFH", "1e-8, x", "x"},
		{"level-chain", "PFH", strings.Repeat("1e-8, ", 12) + "1e-8", "at most 12"},
		{"level-chain", "levels", "d, f", "one of a, b, c, d, e"},
	} {
		s := lib.Sheet(c.sheet)
		err := s.Set(s.Blank(), c.name, c.text)
		if (err == nil) != (c.want == "") || err != nil && !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s %s=%s: %v, want %q", c.sheet, c.name, c.text, err, c.want)
		}
	}
}

package hazards_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"standclear/hazards"
	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/sheet"
)

const (
	tray   = "  - {id: tray, sheet: reach-over, given: {T: {is: 0.1 s, from: measured}, a: 1200..1400 mm, b: {is: 1300 mm, from: measured}}}\n"
	wear   = "  - {id: wear, sheet: b10, given: {B10D: {is: 2e6, from: datasheet}, days: 220, hours: 16, cycle: {is: 12 s, from: measured}}}\n"
	pair   = "  - {id: pair, sheet: two-channels, given: {C1: wear.MTTFD, C2: {is: 60, from: datasheet}}}\n"
	valve  = "  - {id: valve, sheet: level-estimate, given: {category: 3, DC: medium, MTTFD: pair.MTTFD, CCF: {is: 75, from: measured}}}\n"
	guards = "under: no, behind: no, available: {is: 2 m, from: measured}"
)

// curtain is a light curtain that takes C_RO from somewhere.
func curtain(id, from string) string {
	return "  - {id: " + id + ", sheet: light-curtain, given: {T: {is: 0.1 s, from: measured}, d: {is: 30 mm, from: datasheet}, C_RO: " + from + ", " + guards + "}}\n"
}

// linked puts checks before those of the cell, and makes other changes.
func linked(t testing.TB, checks string, changes ...string) []byte {
	t.Helper()
	return cell(t, append([]string{"checks:\n", "checks:\n" + checks}, changes...)...)
}

func TestResultsAsInputs(t *testing.T) {
	for _, tt := range []struct {
		name, checks, check, input string
		want                       float64
		origin                     string
		verdict                    sheet.Verdict
		why                        string
	}{
		{"number", tray + curtain("face", "tray.C_RO"), "face", "C_RO", 900, file.Assumed, sheet.Within, ""},
		{"the source behind", curtain("face", "tray.C_RO") + tray, "face", "C_RO", 900, file.Assumed, sheet.Within, ""},
		{"in a sum and another unit", tray + curtain("face", "tray.C_RO + 1 cm"), "face", "C_RO", 910, file.Assumed, sheet.Within, ""},
		{"long form", tray + curtain("face", "{is: tray.C_RO}"), "face", "C_RO", 900, file.Assumed, sheet.Within, ""},
		{"by name where the symbol is another", strings.Replace(tray+curtain("face", "tray.S"), "b: {is: 1300 mm, from: measured}", "b: {is: 2700 mm, from: measured}", 1), "face", "C_RO", 200, file.Assumed, sheet.Within, ""},
		{"over lends", strings.Replace(tray, "}}\n", ", available: 100 mm}}\n", 1) + curtain("face", "tray.C_RO"), "face", "C_RO", 900, file.Assumed, sheet.Within, ""},
		{"outside lends nothing", strings.Replace(tray, "b: {is: 1300", "b: {is: 800", 1) + curtain("face", "tray.C_RO"), "face", "C_RO", 0, file.Assumed, sheet.NotDecided, "tray is outside and gives no C_RO: b is outside"},
		{"an answer missing lends nothing", strings.Replace(curtain("side", "0 mm"), "behind: no, ", "", 1) + curtain("face", "side.C"), "face", "C_RO", 0, "", sheet.NotDecided, "side is not-decided and gives no C: standing behind is not answered"},
		{"over with an answer missing lends nothing", strings.NewReplacer("C_RO: 0 mm, ", "", "2 m", "1 mm").Replace(curtain("side", "0 mm")) + curtain("face", "side.C"), "face", "C_RO", 0, "", sheet.NotDecided, "side is over and gives no C: reaching over is not answered"},
		{"what takes nothing lends nothing", strings.Replace(tray, "b: {is: 1300", "b: {is: 800", 1) + curtain("side", "tray.C_RO") + curtain("face", "side.C"), "face", "C_RO", 0, "", sheet.NotDecided, "side is not-decided and gives no C"},
		{"over two checks", wear + pair, "pair", "C1", 2e6 / (0.1 * 220 * 16 * 3600 / 12), file.Assumed, sheet.Within, ""},
		{"word", "  - {id: need, sheet: required-level, given: {S: S2, F: F1, P: P2}}\n  - {id: links, sheet: level-chain, given: {PFH: {is: [8e-8], from: datasheet}, levels: d, categories: 3, required: need.PL_r}}\n",
			"links", "required", 0, "", sheet.Within, ""},
		{"a word that is none of the choices", "  - {id: many, sheet: level-chain, given: {PFH: {is: [3e-5, 9e-5], from: datasheet}, levels: [a, a], categories: [B, B], required: a}}\n  - {id: links, sheet: level-chain, given: {PFH: {is: [8e-8], from: datasheet}, levels: [many.PL], categories: 3, required: a}}\n",
			"links", "levels_1", 0, "", sheet.NotDecided, "many is over and gives no PL: the sum is above"},
		{"list", wear + pair + valve + "  - {id: links, sheet: level-chain, given: {PFH: [valve.PFH, 1e-8], levels: [valve.PL, d], categories: [3, 3], required: d}}\n", "links", "PFH_1", 0, file.Assumed, "", ""},
		{"range", "  - {id: low, sheet: least-gap, given: {part: hand}}\n  - {id: over-2, sheet: reach-over, given: {T: 0.1 s, a: low.gap, b: 1300 mm}}\n", "over-2", "a_lo", 100, "", sheet.NotDecided, ""},
		{"a share where a word may be", strings.Replace(wear+pair+valve, "DC: medium", "DC: {is: 97 %, from: datasheet}", 1), "valve", "DC_share", 0.97, file.Datasheet, sheet.NotDecided, "the required level is missing"},
		{"more than can be", "  - {id: slow, sheet: b10, given: {B10D: 1e12, days: 1, hours: 1, cycle: 100000000 s}}\n  - {id: pair-2, sheet: two-channels, given: {C1: slow.MTTFD, C2: 10}}\n", "pair-2", "C1", 0, file.Assumed, sheet.NotDecided, "C1 must be"},
	} {
		r := result(t, linked(t, tt.checks))
		c := r.Check(tt.check)
		if tt.verdict != "" && c.Verdict != tt.verdict || !strings.HasPrefix(c.Why, tt.why) {
			t.Errorf("%s: %s, %s; want %s, %s", tt.name, c.Verdict, c.Why, tt.verdict, tt.why)
		}
		v := c.Outcome.Values[c.Sheet.Column(tt.input).Slot]
		if tt.want != 0 && !expr.Equal(v.Num, tt.want) {
			t.Errorf("%s: %s is %v, want %v", tt.name, tt.input, v.Num, tt.want)
		}
		for _, in := range c.Inputs {
			if in.Name == tt.input && tt.origin != "" && in.Origin != tt.origin {
				t.Errorf("%s: origin %q, want %q", tt.name, in.Origin, tt.origin)
			}
		}
	}
}

// The origin of what is taken is the weakest behind it, and its open points come
// along.
func TestOpenPointsOfResults(t *testing.T) {
	measured := strings.Replace(tray, "a: 1200..1400 mm", "a: {is: 1200..1400 mm, from: measured}", 1)
	r := result(t, linked(t, measured+curtain("face", "tray.C_RO")))
	c := r.Check("face")
	for _, in := range c.Inputs {
		if in.Name == "C_RO" && in.Origin != file.Measured {
			t.Errorf("origin %q", in.Origin)
		}
	}
	if slices.Contains(c.Open, "tray.a") {
		t.Errorf("open: %v", c.Open)
	}
	r = result(t, linked(t, curtain("back", "face.C")+curtain("face", "tray.C_RO")+tray))
	for _, id := range []string{"tray", "face", "back"} {
		if c := r.Check(id); !slices.Contains(c.Open, "tray.a") {
			t.Errorf("%s does not carry tray.a: %v", id, c.Open)
		}
	}
	n := 0
	for _, o := range r.Open {
		if o.About == "tray.a" && o.Kind == hazards.OpenAssumed {
			n++
		}
	}
	if n != 1 {
		t.Errorf("tray.a is %d open points", n)
	}
}

// An input that takes nothing never makes a check hold, whatever the sheet makes
// of an absence.
func TestNothingTakenNeverHolds(t *testing.T) {
	for _, tt := range []struct{ name, need, verdict string }{
		{"stated", "{S: S2, F: F1, P: P1}", "within"},
		{"not stated", "{S: S2, F: F1}", "not-decided"},
	} {
		checks := "  - {id: need, sheet: required-level, given: " + tt.need + "}\n" +
			"  - {id: brake, sheet: b10, given: {B10D: 2e6, days: 220, hours: 16, cycle: 12 s, stated: {is: 189, from: datasheet}}}\n" +
			"  - {id: links, sheet: level-chain, given: {PFH: {is: [8e-8], from: datasheet}, levels: d, categories: 3, required: need.PL_r}}\n"
		if c := result(t, linked(t, checks)).Check("links"); string(c.Verdict) != tt.verdict {
			t.Errorf("%s: %s, %s", tt.name, c.Verdict, c.Why)
		}
	}
	// the sheet itself would hold: `stated` may be left out
	checks := "  - {id: other, sheet: b10, given: {B10D: 2e6, days: 220, hours: 16, cycle: 12 s, stated: 1}}\n" +
		"  - {id: brake, sheet: b10, given: {B10D: 2e6, days: 220, hours: 16, cycle: 12 s, stated: other.MTTFD}}\n"
	c := result(t, linked(t, checks)).Check("brake")
	if c.Verdict != sheet.NotDecided || c.Outcome.Verdict != sheet.NotDecided || !strings.HasPrefix(c.Why, "other is not-decided and gives no MTTFD: the stated MTTFD") {
		t.Errorf("%s, %s, %s", c.Verdict, c.Outcome.Verdict, c.Why)
	}
	if v := c.Outcome.Value("verdict"); v.Text != string(sheet.NotDecided) {
		t.Errorf("the row says %s", v.Text)
	}
}

// A tolerance behind a result counts at the end that is worse for who takes it,
// or is refused.
func TestToleranceBehindAResult(t *testing.T) {
	speed := "  - {id: clear, sheet: ssm-speed, given: {D: %s, v_h: 1600 mm/s, T_r: 0.1 s, C: 0 mm, Z_d: 0 mm, Z_r: 0 mm, a: 2000 mm/s2, v: 100 mm/s}}\n"
	gap := "  - {id: gap-2, sheet: ssm, given: {v_h: 1600 mm/s, v_r: clear.v_max, T_r: 0.1 s, T_s: 0.2 s, C: 0 mm, Z_d: 0 mm, Z_r: 0 mm, S_s: 100 mm, available: 2 m}}\n"
	if _, problems := assess(t, linked(t, fmt.Sprintf(speed, "900 mm")+gap)); len(problems) > 0 {
		t.Fatal(problems)
	}
	data := linked(t, fmt.Sprintf(speed, "900 mm ± 50 mm")+gap)
	_, problems := assess(t, data)
	if len(problems) != 1 || !strings.Contains(problems[0].Message, "another check for `v_r` that is the worse one here at another corner") {
		t.Errorf("%s", render(problems, data))
	}
	r := result(t, linked(t, strings.Replace(tray, "b: {is: 1300 mm,", "b: {is: 1301 mm ± 2 mm,", 1)+curtain("face", "tray.C_RO")))
	if got := value(t, r, "face", "C_RO"); got != value(t, r, "tray", "C_RO") || value(t, r, "tray", "b") != 1299 {
		t.Errorf("takes %v, of an edge at %v", got, value(t, r, "tray", "b"))
	}
}

// A row rests on all that is behind the results it takes.
func TestFingerprintsReachBehindResults(t *testing.T) {
	rests := []string{"shown_by: [gap]}", "shown_by: [face]}"}
	print := func(checks string) *hazards.Row {
		r := result(t, linked(t, checks, rests...))
		return &r.Rows[2]
	}
	base := print(tray + curtain("face", "tray.C_RO"))
	for _, want := range []string{"face.C_RO = tray.C_RO", "tray.b = 1300 mm, measured", "tray.verdict = not-decided", "tray.sheet = reach-over"} {
		if !slices.ContainsFunc(base.Evidence, func(l string) bool { return strings.HasPrefix(l, want) }) {
			t.Errorf("no line %q in\n%s", want, strings.Join(base.Evidence, "\n"))
		}
	}
	for _, tt := range []struct {
		name, checks string
		same         bool
	}{
		{"order", curtain("face", "tray.C_RO") + tray, true},
		{"input behind, same result", strings.Replace(tray, "b: {is: 1300", "b: {is: 1310", 1) + curtain("face", "tray.C_RO"), false},
		{"origin behind", strings.Replace(tray, "b: {is: 1300 mm, from: measured", "b: {is: 1300 mm, from: datasheet", 1) + curtain("face", "tray.C_RO"), false},
		{"typed", tray + curtain("face", "850 mm"), false},
	} {
		if got := print(tt.checks); (got.Fingerprint == base.Fingerprint) != tt.same {
			t.Errorf("%s: same %v", tt.name, !tt.same)
		}
	}
}

// So does a row that rests on a safety function with a part by a check.
func TestFingerprintsReachBehindParts(t *testing.T) {
	print := func(cycle string) *hazards.Row {
		checks := strings.Replace(wear+pair+valve, "cycle: {is: 12 s", "cycle: {is: "+cycle, 1)
		r := result(t, linked(t, checks, "{uses: bolt of the guard, level: d, category: 3}", "{uses: bolt of the guard, by: valve}", "shown_by: [gap]}", "shown_by: [hold-guard]}"))
		return &r.Rows[2]
	}
	row := print("12 s")
	for _, want := range []string{"hold-guard.part-1.by = valve", "hold-guard.PFH_1 = valve.PFH", "valve.MTTFD = pair.MTTFD", "wear.cycle = 12 s, measured"} {
		if !slices.Contains(row.Evidence, want) && !slices.ContainsFunc(row.Evidence, func(l string) bool { return strings.HasPrefix(l, want+",") }) {
			t.Errorf("no line %q in\n%s", want, strings.Join(row.Evidence, "\n"))
		}
	}
	if same := print("12000 ms"); same.Fingerprint != row.Fingerprint {
		t.Error("another way to write the same moves the fingerprint")
	}
	if other := print("12.1 s"); other.Fingerprint == row.Fingerprint {
		t.Error("another cycle does not move the fingerprint")
	}
}

// The order in which checks are written makes no difference to any of them.
func TestOrderOfChecksDoesNotMatter(t *testing.T) {
	checks := []string{tray, wear, pair, valve, curtain("face", "tray.C_RO"), curtain("back", "face.C + 10 mm"), curtain("lost", "far.C_RO"),
		strings.NewReplacer("id: tray", "id: far", "1300 mm", "800 mm").Replace(tray)}
	part := []string{"{uses: bolt of the guard, level: d, category: 3}", "{uses: bolt of the guard, by: valve}", "shown_by: [gap]}", "shown_by: [gap, back, lost, valve]}"}
	said := func(r *hazards.Result) map[string]string {
		out := map[string]string{}
		for _, c := range r.Checks {
			open := slices.Sorted(slices.Values(c.Open))
			out[c.ID] = fmt.Sprint(c.Verdict, c.Why, c.Outcome.Values, open)
		}
		for _, row := range r.Rows {
			out[row.ID] = row.Status + row.Fingerprint
		}
		return out
	}
	want := said(result(t, linked(t, strings.Join(checks, ""), part...)))
	random := rand.New(rand.NewPCG(13849, 1))
	for range 20 {
		random.Shuffle(len(checks), func(i, j int) { checks[i], checks[j] = checks[j], checks[i] })
		got := said(result(t, linked(t, strings.Join(checks, ""), part...)))
		for id, w := range want {
			if got[id] != w {
				t.Fatalf("%s\n got %s\nwant %s", id, got[id], w)
			}
		}
	}
}

func TestPartsByACheck(t *testing.T) {
	by := func(text string) []string {
		return []string{"{uses: bolt of the guard, level: d, category: 3}", text}
	}
	band := strings.Replace(valve, "MTTFD: pair.MTTFD", "MTTFD_band: high", 1)
	for _, tt := range []struct {
		name, checks, part, arm, verdict, why string
		pl                                    string
	}{
		{"all from the check", wear + pair + valve, "{uses: bolt of the guard, by: valve}", "", "within", "level", "d"},
		{"the check lends nothing", wear + pair + strings.Replace(valve, ", CCF: {is: 75, from: measured}", "", 1), "{uses: bolt of the guard, by: valve}", "", "not-decided", "valve is not-decided and gives no PL: the score against", ""},
		{"what it takes lends nothing", strings.Replace(wear, "hours: 16", "hours: 16, stated: 1", 1) + pair + valve, "{uses: bolt of the guard, by: valve}", "", "not-decided", "valve is not-decided and gives no PL", ""},
		{"a level without a rate beside a rate", band, "{uses: bolt of the guard, by: valve}", "", "not-decided", "valve gives a level without a failure rate, and other parts have a rate", ""},
		{"levels counted, and a check that gives nothing", strings.Replace(band, ", CCF: {is: 75, from: measured}", "", 1), "{uses: bolt of the guard, by: valve}", "{uses: arm, level: d, category: 3}", "not-decided", "the failure rate of arm is missing", ""},
		{"two checks, one gives nothing", wear + pair + valve + strings.NewReplacer("id: valve", "id: lock", ", CCF: {is: 75, from: measured}", "").Replace(valve), "{uses: bolt of the guard, by: valve}", "{uses: arm, by: lock}", "not-decided", "lock is not-decided and gives no PL", ""},
		{"two checks, one without a rate", wear + pair + valve + strings.NewReplacer("id: valve", "id: lock", "MTTFD: pair.MTTFD", "MTTFD_band: high").Replace(valve), "{uses: bolt of the guard, by: valve}", "{uses: arm, by: lock}", "not-decided", "lock gives a level without a failure rate", ""},
		{"levels alone", band, "{uses: bolt of the guard, by: valve}", "{uses: arm, level: d, category: 3}", "within", "level", "d"},
		{"levels typed in", "", "{uses: bolt of the guard, level: d, category: 3}", "{uses: arm, level: d, category: 3}", "within", "level", "d"},
		{"neither rate nor level", "", "{uses: bolt of the guard, category: 3}", "{uses: arm, level: d, category: 3}", "not-decided", "neither failure rate nor level of bolt of the guard", ""},
		{"nothing of one part", "", "{uses: bolt of the guard}", "", "not-decided", "the failure rate of bolt of the guard is missing", ""},
		{"rate of one and level of the other", "", "{uses: bolt of the guard, pfh: 1e-8}", "{uses: arm, level: d, category: 3}", "not-decided", "the failure rate of arm is missing", ""},
		{"nothing at all", "", "{uses: bolt of the guard}", "{uses: arm}", "not-decided", "the failure rate of bolt of the guard is missing; the failure rate of arm", ""},
	} {
		changes := by(tt.part)
		if tt.arm != "" { // the second, since another function has the same part
			changes = append(changes, "        - "+tt.part+"\n        - {uses: arm, pfh: {is: 1.3e-7, from: datasheet}, level: d, category: 3}", "        - "+tt.part+"\n        - "+tt.arm)
		}
		c := result(t, linked(t, tt.checks, changes...)).Check("hold-guard")
		if string(c.Verdict) != tt.verdict || !strings.HasPrefix(c.Why, tt.why) {
			t.Errorf("%s: %s, %s", tt.name, c.Verdict, c.Why)
		}
		if tt.pl != "" && c.Outcome.Value("PL").Text != tt.pl {
			t.Errorf("%s: level %s", tt.name, c.Outcome.Value("PL").Text)
		}
		for _, name := range []string{"PFH_sum", "PL"} { // a sum of some parts looks better than the function is
			if v := c.Outcome.Value(name); tt.verdict == "not-decided" && v.Given() {
				t.Errorf("%s: %s is %v", tt.name, name, v)
			}
		}
	}
}

// A chain of the file gives no sum either while it takes something that is not lent.
func TestNoSumOfSomeParts(t *testing.T) {
	chain := "  - {id: links, sheet: level-chain, given: {PFH: [valve.PFH, 1e-8], levels: [%s, d], categories: [3, 3], required: d}}\n"
	lost := strings.Replace(valve, ", CCF: {is: 75, from: measured}", "", 1)
	for _, tt := range []struct {
		name, checks string
		given        bool
	}{
		{"lent", valve + fmt.Sprintf(chain, "valve.PL"), true},
		{"not lent", lost + fmt.Sprintf(chain, "valve.PL"), false},
		{"not lent, level typed in", lost + fmt.Sprintf(chain, "d"), false},
	} {
		c := result(t, linked(t, wear+pair+tt.checks)).Check("links")
		for _, name := range []string{"PFH_sum", "PL"} {
			if v := c.Outcome.Value(name); v.Given() != tt.given {
				t.Errorf("%s: %s is %v, %s", tt.name, name, v, c.Why)
			}
		}
	}
}

func TestProblemsOfResults(t *testing.T) {
	for _, tt := range []struct{ name, checks, part, message, expected, hint string }{
		{"no such result", tray + curtain("face", "tray.C_R0"), "", "check `tray`, of sheet `reach-over`, has no result `C_R0`", "one of: `C_RO`, `S`", "did you mean `C_RO`?"},
		{"unit", tray + wear + curtain("face", "wear.MTTFD"), "", "found `wear.MTTFD` for `C_RO`", "a quantity in mm", ""},
		{"unit in a sum", tray + curtain("face", "1 s + tray.C_RO"), "", "found `1 s` for `C_RO`", "a quantity in mm", ""},
		{"a word for a number", "  - {id: need, sheet: required-level, given: {S: S2, F: F1, P: P1}}\n" + curtain("face", "need.PL_r"), "", "found `need.PL_r` for `C_RO`", "a quantity in mm", ""},
		{"a number for a word", tray + "  - {id: links, sheet: level-chain, given: {levels: d, categories: 3, required: tray.C_RO}}\n", "", "found `tray.C_RO`, which is no word, for `required`", "one of: `a`", ""},
		{"of the contact model", "  - {id: touch, sheet: contact-transient, given: {area: palm-d, M: 12 kg, m_L: 1 kg, A: 1 cm2, v: 100 mm/s}}\n  - {id: gap-2, sheet: ssm, given: {v_h: 1600 mm/s, v_r: touch.v_max, T_r: 0.1 s, T_s: 0.2 s, C: 0 mm, Z_d: 0 mm, Z_r: 0 mm}}\n", "",
			"`touch.v_max` comes from the contact model", "nothing is measured for", "write the number"},
		{"a part by a check that gives no level", tray, "{uses: bolt of the guard, by: tray}", "check `tray` is of sheet `reach-over`", "`PFH` and `PL`", "`level-estimate`"},
	} {
		changes := []string{}
		if tt.part != "" {
			changes = []string{"{uses: bolt of the guard, level: d, category: 3}", tt.part}
		}
		data := linked(t, tt.checks, changes...)
		r, problems := assess(t, data)
		if r != nil || len(problems) != 1 || !strings.Contains(problems[0].Message, tt.message) || !strings.Contains(problems[0].Expected, tt.expected) || !strings.Contains(problems[0].Hint, tt.hint) {
			t.Errorf("%s: %s", tt.name, render(problems, data))
		} else if problems[0].Pos.Line == 0 || problems[0].Pos.Col < 2 {
			t.Errorf("%s: at %v", tt.name, problems[0].Pos)
		}
	}
}

// DI-16 speaks where a supplement was typed in too low, not where it is taken.
func TestTakenSupplementIsNotTooLow(t *testing.T) {
	for from, want := range map[string]bool{"tray.C_RO": false, "0 mm": true, "far.C_RO": false} {
		checks := strings.Replace(tray, "sheet: reach-over,", "sheet: reach-over, task: set-tins,", 1) +
			strings.NewReplacer("id: tray", "id: far", "1300 mm", "800 mm").Replace(tray) +
			strings.Replace(curtain("face", from), "sheet: light-curtain,", "sheet: light-curtain, task: set-tins,", 1)
		r := result(t, linked(t, checks))
		got := slices.ContainsFunc(r.Findings, func(f hazards.Finding) bool { return f.ID == "DI-16" && f.About == "face" })
		if got != want {
			t.Errorf("C_RO: %s: DI-16 %v", from, got)
		}
	}
}

// Ten times the checks take about ten times as long, also where each takes from
// the one before or from the same one.
func TestLinkedChecksStayLinear(t *testing.T) {
	took := func(n int) time.Duration {
		var b strings.Builder
		b.WriteString(tray)
		for i := range n {
			from := "tray.C_RO"
			if i%50 > 0 {
				from = fmt.Sprintf("face-%d.C", i-1)
			}
			b.WriteString(curtain(fmt.Sprintf("face-%d", i), from))
		}
		data := linked(t, b.String())
		start := time.Now()
		r := result(t, data)
		if c := r.Check(fmt.Sprintf("face-%d", n-1)); c.Verdict != sheet.Within {
			t.Fatalf("%s: %s", c.Verdict, c.Why)
		}
		return time.Since(start)
	}
	took(100)
	var few, many time.Duration
	for range 3 { // other work on the machine may hold one attempt up
		if few, many = took(1000), took(10000); many < 40*few {
			return
		}
	}
	t.Errorf("1000 checks take %v, 10000 take %v", few, many)
}

package hazards_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"standclear/hazards"
)

func handOver(t *testing.T, changes ...string) *hazards.HandOver {
	t.Helper()
	return &result(t, cell(t, changes...)).HandOver
}

const (
	firstInform  = "inform: {manual: section 4, to: [packer]}}\n  - {id: H-02"
	sixthDecided = "date: 2026-10-06, why: costs, inform: {manual: section 4, to: [packer]}}"
)

// What remains goes to those it is addressed to, with the level as scored.
func TestTell(t *testing.T) {
	h := handOver(t, firstInform, "inform: {manual: section 4, marking: hand sign, training: keep off, protective_equipment: gloves, to: [packer, walker]}}\n  - {id: H-02")
	if len(h.Tell) != 8 || len(h.Gaps) != 0 {
		t.Fatalf("%d tell, gaps %+v", len(h.Tell), h.Gaps)
	}
	got := h.Tell[0]
	if got.Row != "H-01" || got.Level != "low" || got.Harm != "bruise" || got.Manual != "section 4" || got.Marking != "hand sign" ||
		got.Training != "keep off" || got.Gear != "gloves" || strings.Join(got.To, " ") != "packer walker" {
		t.Errorf("%+v", got)
	}
	if l := h.Tell[2]; l.Row != "H-06" || l.Level != "high" || l.Action != "required" {
		t.Errorf("%+v", l)
	}
}

// A risk for which action is asked and of which nobody is told is a gap; so is
// a text without people, and people without a text. A low one is none.
func TestGaps(t *testing.T) {
	for name, c := range map[string]struct{ from, to, row, why string }{
		"nobody told": {sixthDecided, "date: 2026-10-06, why: costs}", "H-06", "nobody is told"},
		"nobody told of a medium one": {"after: {Se: 3, Fr: 5, Pr: 2, Av: 3},\n     residual: {decision: accept, by: B. Owner, role: plant safety, second: {name: C. Second, role: works council}, " + sixthDecided,
			"after: {Se: 2, Fr: 5, Pr: 2, Av: 3},\n     residual: {decision: accept, by: B. Owner, role: plant safety, date: 2026-10-06, why: costs}", "H-06", "action is recommended"},
		"told no one":  {firstInform, "inform: {manual: section 4}}\n  - {id: H-02", "H-01", "whom to tell"},
		"told nothing": {firstInform, "inform: {to: [packer]}}\n  - {id: H-02", "H-01", "what to tell"},
	} {
		h := handOver(t, c.from, c.to)
		if len(h.Gaps) != 1 || h.Gaps[0].Row != c.row || !strings.Contains(h.Gaps[0].Why, c.why) {
			t.Errorf("%s: %+v", name, h.Gaps)
		}
	}
	if h := handOver(t, ", inform: {manual: section 4, to: [packer]}}\n  - {id: H-02", "}\n  - {id: H-02"); len(h.Gaps) != 0 {
		t.Errorf("a low risk: %+v", h.Gaps)
	}
}

const life = "  time: {life: 10 years}"

// The upkeep of the file comes first, with the robots whose brakes it minds; a
// part that wears out within the mission time follows, with the years of its check.
func TestUpkeep(t *testing.T) {
	h := handOver(t, life, "  time: {life: 10 years, upkeep: [{id: U-stop, what: stop again, every: 6 months}]}",
		"      rated_payload: {is: 5 kg", "      brakes_monitored: no\n      brake_check: U-stop\n      rated_payload: {is: 5 kg",
		"hazards:\n", worn+"hazards:\n")
	if len(h.Upkeep) != 2 {
		t.Fatalf("%+v", h.Upkeep)
	}
	if u := h.Upkeep[0]; u.ID != "U-stop" || u.Every != "6 months" || strings.Join(u.For, " ") != "arm" || u.Years.Given() {
		t.Errorf("%+v", u)
	}
	// 2e6 cycles, 250 days of 16 h, a cycle every 10 s: 1.44e6 cycles a year.
	u := h.Upkeep[1]
	if u.ID != "valve-life" || u.Check != "valve-life" || math.Abs(u.Years.Num-2e6/1.44e6) > 1e-12 || !strings.Contains(u.What, "press valve") {
		t.Errorf("%+v", u)
	}
	for _, u := range h.Upkeep {
		if u.ID == "relay-life" {
			t.Error("a relay that lasts longer than the mission time")
		}
	}
}

// A part that an item of the file exchanges in time has no row of its own: the
// valve lasts 1.38 years.
func TestUpkeepExchangesInTime(t *testing.T) {
	for every, rows := range map[string]int{"16 months": 1, "1 year": 1, "70 weeks": 1, "500 days": 1, "1 shift": 1, "1.3 years": 1, "every 2 months": 1,
		"17 months": 2, "2 years": 2, "73 weeks": 2, "510 days": 2, "from time to time": 2, "100 hours": 2, "0 years": 2, "yearly": 2, "1 year or so": 2} {
		h := handOver(t, life, "  time: {life: 10 years, upkeep: [{id: U-valve, what: exchange, of: [valve-life], every: "+every+"}]}", "hazards:\n", worn+"hazards:\n")
		if len(h.Upkeep) != rows {
			t.Errorf("every %s: %+v", every, h.Upkeep)
		}
		if u := h.Upkeep[0]; u.ID != "U-valve" || u.Check != "valve-life" || math.Abs(u.Years.Num-2e6/1.44e6) > 1e-12 {
			t.Errorf("every %s: the item does not say when the valve is worn out: %+v", every, u)
		}
	}
}

// The relay makes a tenth of the cycles that would wear it out in 20 years.
const worn = `  - {id: valve-life, sheet: b10, note: press valve, given: {B10D: {is: 2000000, from: datasheet}, days: {is: 250, from: measured}, hours: {is: 16, from: measured}, cycle: {is: 10 s, from: measured}}}
  - {id: relay-life, sheet: b10, given: {B10D: {is: 288000000, from: datasheet}, days: {is: 250, from: measured}, hours: {is: 16, from: measured}, cycle: {is: 10 s, from: measured}}}
`

// Training is told to those it is addressed to, besides what the file says of them.
func TestTraining(t *testing.T) {
	h := handOver(t, firstInform, "inform: {training: keep off, protective_equipment: gloves, to: [packer]}}\n  - {id: H-02",
		"{id: packer, kind: operator}", "{id: packer, kind: operator, training: instructed, present: whole shift}")
	p, w := h.Training[0], h.Training[1]
	if p.Person != "packer" || p.Written != "instructed" || p.Present != "whole shift" || strings.Join(p.Tasks, " ") != "set-tins heavy" ||
		len(p.Told) != 1 || p.Told[0] != (hazards.Told{Row: "H-01", Text: "keep off"}) || len(p.Gear) != 1 || p.Gear[0].Text != "gloves" {
		t.Errorf("%+v", p)
	}
	if w.Person != "walker" || w.Written != "" || len(w.Told)+len(w.Gear) != 0 || strings.Join(w.Tasks, " ") != "watch" {
		t.Errorf("%+v", w)
	}
}

func paperOf(list []hazards.Paper, kind, about string) *hazards.Paper {
	for i := range list {
		if list[i].Kind == kind && list[i].About == about {
			return &list[i]
		}
	}
	return nil
}

// A paper is where the file says, in this assessment, or missing.
func TestPapers(t *testing.T) {
	h := handOver(t)
	for kind, want := range map[string]string{"risk-assessment": "RA-0200 revision A", "drawings": "", "requirements": "", "instructions": ""} {
		if p := paperOf(h.Papers, kind, ""); p == nil || p.Where != want {
			t.Errorf("%s: %+v", kind, p)
		}
	}
	done, r := 0, result(t, cell(t))
	for _, p := range r.Points {
		switch p.State {
		case hazards.PointPassed, hazards.PointFailed, hazards.PointOutOfDate:
			done++
		}
	}
	if p := paperOf(h.Papers, "test-records", ""); p == nil || p.Where != fmt.Sprintf("RA-0200 revision A, %d of %d points done", done, len(r.Points)) || done == len(r.Points) {
		t.Errorf("%+v", p)
	}
	if p := paperOf(h.Declarations, "robot-incorporation", "arm"); p == nil || p.Where != "" || p.By != "maker of the robot" || p.Standing != "memory" {
		t.Errorf("%+v", p)
	}
	h = handOver(t, "  method: hybrid\n", "  method: hybrid\n  papers:\n"+
		"    - {kind: robot-incorporation, of: [arm], where: \"folder 4, rev 2\"}\n    - {kind: component-declaration, of: [arm], where: folder 5}\n    - {kind: drawings, where: folder 6}\n")
	if p := paperOf(h.Declarations, "robot-incorporation", "arm"); p == nil || p.Where != "folder 4, rev 2" {
		t.Errorf("%+v", p)
	}
	if p := paperOf(h.Declarations, "component-declaration", "scanner"); p == nil || p.Where != "" {
		t.Errorf("a paper about another item: %+v", p)
	}
	if p := paperOf(h.Papers, "drawings", ""); p == nil || p.Where != "folder 6" {
		t.Errorf("%+v", p)
	}
}

func TestUnknownPaper(t *testing.T) {
	_, problems := assess(t, cell(t, "  method: hybrid\n", "  method: hybrid\n  papers: [{kind: drawing, where: folder 6}]\n"))
	if len(problems) != 1 || !strings.Contains(problems[0].Message, "`drawing` is not a kind of paper") || !strings.Contains(problems[0].Hint, "drawings") {
		t.Errorf("%+v", problems)
	}
}

// The regime of the papers follows date and role; what was not tested is missing.
func TestPapersFollowThePlacing(t *testing.T) {
	h := handOver(t, "put_into_service: 2027-02-15", "put_into_service: 2026-12-15")
	if p := paperOf(h.Declarations, "conformity", ""); p == nil || !strings.Contains(p.What, "2006/42/EC") {
		t.Errorf("%+v", p)
	}
	h = handOver(t, "role: integrator", "role: user")
	if p := paperOf(h.Declarations, "conformity-received", ""); p == nil || paperOf(h.Declarations, "robot-incorporation", "arm") != nil {
		t.Errorf("%+v", h.Declarations)
	}
}

// What the file says of motors, state, learning and remote access reaches the rules.
func TestSituation(t *testing.T) {
	because := func(clause string, changes ...string) string {
		for _, i := range result(t, cell(t, changes...)).Review {
			if strings.Contains(i.Clause, clause) {
				return i.Because
			}
		}
		return ""
	}
	japan := []string{"places: [eu]", "places: [jp]"}
	motor := func(w string) []string {
		return append([]string{"      rated_payload: {is: 5 kg", "      motor_power: " + w + "\n      rated_payload: {is: 5 kg"}, japan...)
	}
	if b := because("150-3", japan...); !strings.Contains(b, "`motor_power` of arm") {
		t.Errorf("not written: %q", b)
	}
	if b := because("150-3", motor("0.2 kW")...); !strings.Contains(b, "arm with 200 W") {
		t.Errorf("200 W: %q", b)
	}
	if b := because("150-3", motor("78 W ± 1 W")...); b != "" {
		t.Errorf("78 W: %q", b)
	}
	if b := because("150-3", motor("79 W ± 2 W")...); b == "" {
		t.Error("79 W and its tolerance reach above 80 W")
	}
	placed := "scope: assembly of machines"
	if b := because("substantial", placed, placed+", state: new"); b != "" {
		t.Errorf("new: %q", b)
	}
	if b := because("substantial", placed, placed+", state: rebuilt"); !strings.Contains(b, "placed as rebuilt") {
		t.Errorf("rebuilt: %q", b)
	}
	learned := "      does: stops the arm\n"
	if b := because("Part A", learned, learned+"      learned: yes\n"); !strings.Contains(b, "stop-on-scanner") {
		t.Errorf("learned: %q", b)
	}
	control := func(remote string) []string {
		return []string{"  spaces:\n", "  control: {settings_access: {who: setter, protected_by: password, remote: " + remote + "}}\n  spaces:\n"}
	}
	if b := because("1.1.9", control("view")...); b != "" {
		t.Errorf("view: %q", b)
	}
	if b := because("1.1.9", control("change")...); !strings.Contains(b, "from outside") {
		t.Errorf("change: %q", b)
	}
}

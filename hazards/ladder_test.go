package hazards_test

import (
	"math"
	"strings"
	"testing"

	"standclear/hazards"
)

func ladder(t *testing.T, r *hazards.Result, robot string) *hazards.Ladder {
	t.Helper()
	for i := range r.Ladders {
		if r.Ladders[i].Robot == robot {
			return &r.Ladders[i]
		}
	}
	t.Fatalf("no speeds of %s", robot)
	return nil
}

func rung(t *testing.T, l *hazards.Ladder, region string) *hazards.Rung {
	t.Helper()
	for i := range l.Rungs {
		if l.Rungs[i].Region == region {
			return &l.Rungs[i]
		}
	}
	t.Fatalf("no rung %s", region)
	return nil
}

// The heaviest effective mass and the smallest area of the contacts of a robot
// count, and of each region the worst body area.
func TestLadder(t *testing.T) {
	r := points(t)
	l := ladder(t, r, "arm")
	if l.MassOf != "hand-at-bench, jaw-tip, jaws, tall-jar" || l.AreaOf != "hand-at-bench, jaw-tip" {
		t.Errorf("mass of %q, area of %q", l.MassOf, l.AreaOf)
	}
	speed := func(F, K, mH, mR float64) float64 { return F / math.Sqrt(1/(1/mH+1/mR)*K*1e3) * 1e3 }
	for _, c := range []struct {
		region, area string
		v            float64
	}{ // 1.4 cm2: the pressure governs where its limit is below F/A
		{"hands-fingers", "back-of-hand-nd", speed(280, 75, 0.6, 9.9)},
		{"lower-arms", "forearm-muscle", speed(320, 40, 2, 9.9)},
		{"neck", "neck-muscle", speed(300, 50, 1.2, 9.9)},
		{"chest", "sternum", speed(280, 25, 40, 9.9)},
		{"thighs-knees", "kneecap", speed(440, 50, 75, 9.9)},
	} {
		g := rung(t, l, c.region)
		if got := g.Speed(); g.Area != c.area || !got.Given() || math.Abs(got.Num-c.v) > 1e-9*c.v {
			t.Errorf("%s: %v by %s, want %v by %s", c.region, got, g.Area, c.v, c.area)
		}
	}
	for _, region := range []string{"skull-forehead", "face", ""} {
		if g := rung(t, l, region); g.Speed().Given() || len(g.Notes) != 1 {
			t.Errorf("%q: %v offered, %v", region, g.Speed(), g.Notes)
		}
	}
	if n := rung(t, l, "neck").Notes; len(n) != 1 || !strings.Contains(n[0], "larynx") {
		t.Errorf("neck: %v", n)
	}
	if n := rung(t, l, "chest").Notes; n != nil {
		t.Errorf("chest: %v", n)
	}
}

// By the published rule where no contact states a greater effective mass.
func TestLadderOfTheMovingMass(t *testing.T) {
	r := points(t, "effective_mass: {is: 6.2 kg, from: measured, ref: pendulum test}", "effective_mass: {is: 5.7 kg, from: measured, ref: pendulum test}",
		"effective_mass: {is: 8.1 kg ± 0.2 kg, from: measured}", "effective_mass: {is: 5.1 kg, from: measured}")
	l := ladder(t, r, "arm")
	if m := rung(t, l, "chest").Outcome.Value("m_R"); l.MassOf != "arm, jaws and tall-jar" || !m.Given() || math.Abs(m.Num-7.6) > 1e-12 {
		t.Errorf("%v of %q", m, l.MassOf)
	}
	idle := ladder(t, r, "lifter")
	if m := rung(t, idle, "chest").Outcome.Value("m_R"); idle.Speeds() || m.Given() || idle.MassOf != "lifter, tool not known" {
		t.Errorf("lifter without a tool: m_R %v of %q, speeds %v", m, idle.MassOf, idle.Speeds())
	}
	idle = ladder(t, points(t, "robots: [arm], tools: [jaws], parts: [jar], setting: arm.slow", "robots: [lifter], tools: [cups], parts: [tall-jar], setting: arm.slow",
		"task: refill\n    where", "task: refill\n    robot: arm\n    where"), "lifter")
	if m := rung(t, idle, "chest").Outcome.Value("m_R"); idle.Speeds() || !m.Given() || math.Abs(m.Num-16.1) > 1e-12 {
		t.Errorf("lifter without contacts: m_R %v of %q, speeds %v", m, idle.MassOf, idle.Speeds())
	}
}

// Whatever mass and area, no body area of a region permits less than the one
// that the ladder names for it.
func TestLadderTakesTheWorstArea(t *testing.T) {
	r := points(t)
	lib := r.Library
	s, areas := lib.Sheet("contact-transient"), lib.Table("contact-areas")
	region := areas.Column("region")
	worst := map[string]string{}
	for _, g := range ladder(t, r, "arm").Rungs {
		worst[g.Region] = g.Area
	}
	speed := func(area, mass, contact string) float64 {
		vals := s.Blank()
		for name, text := range map[string]string{"area": area, "m_R": mass, "A": contact} {
			if err := s.Set(vals, name, text); err != nil {
				t.Fatal(err)
			}
		}
		o := s.Evaluate(vals)
		if v := o.Value("v_max"); v.Given() {
			return v.Num
		}
		return math.Inf(1)
	}
	for _, mass := range []string{"0.5 kg", "9.9 kg", "200 kg"} {
		for _, contact := range []string{"0.1 cm2", "0.7 cm2", "1 cm2", "1.4 cm2", "30 cm2"} {
			for i := range areas.Rows {
				area := areas.RowKey(i)
				w := worst[areas.Rows[i][region].Value.Text]
				if a, b := speed(area, mass, contact), speed(w, mass, contact); a < b && !math.IsInf(b, 1) {
					t.Errorf("%s, %s: %s permits %v, %s %v", mass, contact, area, a, w, b)
				}
			}
		}
	}
}

// The upper end of a mass and the lower end of an area count, also where nothing
// moves the verdict of the check that they are of.
func TestLadderTakesEndsOfTolerances(t *testing.T) {
	area := []string{"area: {is: 1.4 cm2, from: measured}, effective_mass: {is: 8.1 kg", "area: {is: 1.4 cm2 ± 0.2 cm2, from: measured}, effective_mass: {is: 8.1 kg"}
	want := map[string]float64{"m_R": 9.9, "A": 1.2}
	for _, head := range []string{"head: {reach: no, because: plane below 1050 mm}", "head: {reach: yes, because: low seat}"} {
		l := ladder(t, points(t, append(area, "head: {reach: no, because: plane below 1050 mm}", head)...), "arm")
		for i := range l.Inputs {
			if in := &l.Inputs[i]; in.Name == "A" || strings.HasPrefix(in.Name, "m_R") {
				name := map[bool]string{true: "A", false: "m_R"}[in.Name == "A"]
				if math.Abs(in.Value.Num-want[name]) > 1e-9 {
					t.Errorf("%s: %s is %v, want %v", head, name, in.Value.Num, want[name])
				}
			}
		}
	}
}

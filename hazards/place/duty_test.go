package place_test

import (
	"strings"
	"testing"

	"standclear/hazards/place"
)

// change turns the cell into another one.
type change func(*place.Situation)

// Changes that several cases share.
func role(r string) change  { return func(s *place.Situation) { s.Role = r } }
func day(d string) change   { return func(s *place.Situation) { s.Date = d } }
func state(w string) change { return func(s *place.Situation) { s.State = w } }
func guard(kind string) change {
	return func(s *place.Situation) { s.Safeguards = []place.Thing{{ID: "device", Kind: kind}} }
}
func machine(kind string) change {
	return func(s *place.Situation) { s.Machines = []place.Thing{{ID: "unit", Kind: kind}} }
}
func task(kind string) change {
	return func(s *place.Situation) { s.Tasks = []place.Thing{{ID: "work", Kind: kind}} }
}
func power(w float64) change { return func(s *place.Situation) { s.Robots[0].Power = &w } }
func as(*place.Situation)    {}
func noRobot(s *place.Situation) {
	s.Robots = nil
}
func noContact(s *place.Situation)   { s.Contacts = nil }
func noMachine(s *place.Situation)   { s.Machines = nil }
func learnedStop(s *place.Situation) { s.Functions[0].Learned = "yes" }
func learnedPick(s *place.Situation) { s.Robots[0].Learned = "yes" }
func both(a, b change) change        { return func(s *place.Situation) { a(s); b(s) } }

// duties is a table of situations: one in which a duty arises with its witness,
// and one that is close to it in which it does not. A duty that always arises
// has no such second.
var duties = map[string]struct {
	fires   change
	witness string
	near    change
}{
	"au/general":      {as, "arm", noRobot},
	"au/registration": {as, "role integrator", role("user")},
	"au/listed-plant": {machine("lift"), "unit", machine("conveyor")},

	"br/safety-system": {guard("mat"), "device", guard("fixed-guard")},
	"br/robots":        {as, "arm", noRobot},
	"br/collaborative": {as, "hand-at-shelf", noContact},

	"ca-mb/robots":    {as, "arm", noRobot},
	"ca-other/varies": {as, "arm", noRobot},

	"ca-on/pre-start-review":   {both(guard("light-curtain"), state("moved")), "device", both(guard("light-curtain"), state("in-use"))},
	"ca-on/protective-element": {guard("fixed-guard"), "device", guard("area-scanner")},
	"ca-on/racks":              {func(s *place.Situation) { s.Spaces[0].Kind = "storage" }, "shelf", as},
	"ca-on/other-rows":         {state("rebuilt"), "placed as rebuilt", state("in-use")},
	"ca-on/test-stage":         {as, "placed as new", state("in-use")},
	"ca-on/electrical":         {as, "", nil},

	"ca-qc/missing-data": {role("user"), "role user", role("maker")},
	"ca-qc/change":       {state("rebuilt"), "placed as rebuilt", state("moved")},
	"ca-qc/statement":    {role("maker"), "arm", role("user")},

	"eu/directive":              {day("2027-01-19"), "put into service 2027-01-19", day("2027-01-20")},
	"eu/between":                {day("2027-01-14"), "put into service 2027-01-14", day("2027-01-13")},
	"eu/regulation":             {day("2027-01-20"), "put into service 2027-01-20", day("2027-01-19")},
	"eu/annex-one":              {as, "arm", noRobot},
	"eu/learned-function":       {learnedStop, "stop-on-scanner", learnedPick},
	"eu/learned-motion":         {learnedPick, "arm", learnedStop},
	"eu/requirements":           {role("maker"), "role maker", role("user")},
	"eu/remote-change":          {func(s *place.Situation) { s.Remote = "change" }, "from outside", func(s *place.Situation) { s.Remote = "view" }},
	"eu/shared-space":           {as, "hand-at-shelf", noContact},
	"eu/requirements-directive": {day("2026-12-01"), "put into service 2026-12-01", as},
	"eu/papers":                 {as, "arm", role("user")},
	"eu/modification":           {both(role("user"), state("rebuilt")), "placed as rebuilt", both(role("user"), state("moved"))},
	"eu/users":                  {role("user"), "role user", as},
	"eu/users-told":             {as, "role integrator", role("user")},

	"jp/enclosure": {power(80.1), "arm with 80.1 W", power(80)},
	"jp/education": {task("teaching"), "work", task("loading")},

	"kr/barrier":    {as, "arm", noRobot},
	"kr/inspection": {as, "arm", noRobot},

	"other/law":               {as, "", nil},
	"other/review-before-use": {state("moved"), "placed as moved", state("in-use")},
	"other/devices":           {as, "scanner", guard("fixed-guard")},
	"other/electrical":        {as, "", nil},
	"other/shared-work":       {as, "hand-at-shelf", noContact},
	"other/education":         {task("service"), "work", task("running")},
	"other/listed":            {as, "belt", noMachine},
	"other/learned":           {learnedStop, "stop-on-scanner", learnedPick},

	"uk/supply":     {as, "role integrator", role("user")},
	"uk/own-use":    {role("user"), "role user", both(role("user"), state("moved"))},
	"uk/inspection": {state("moved"), "placed as moved", state("in-use")},
	"uk/wear":       {state("in-use"), "", nil},
	"uk/assessment": {role("user"), "role user", as},

	"us/general":    {as, "arm", noRobot},
	"us/lock-out":   {task("jam-clearing"), "work", task("running")},
	"us/consensus":  {as, "arm", noRobot},
	"us/electrical": {as, "", nil},
}

// arises gives the item of a duty in a situation.
func arises(t *testing.T, p *place.Place, d *place.Duty, how change) (place.Item, bool) {
	t.Helper()
	s := cell()
	how(&s)
	for _, i := range place.Review(s, []string{p.ID}, []*place.Place{p}) {
		if strings.HasPrefix(i.Because, d.Because) {
			return i, true
		}
	}
	return place.Item{}, false
}

func TestEveryDuty(t *testing.T) {
	reached := 0
	for _, p := range places(t) {
		for i := range p.Duties {
			d := &p.Duties[i]
			name := p.ID + "/" + d.ID
			c, ok := duties[name]
			if !ok {
				t.Errorf("%s has no case", name)
				continue
			}
			reached++
			item, ok := arises(t, p, d, c.fires)
			if !ok {
				t.Errorf("%s does not arise", name)
			}
			if here := strings.TrimPrefix(item.Because, d.Because); !strings.Contains(here, c.witness) || strings.Contains(here, "Not written") {
				t.Errorf("%s names %q, expected %q", name, here, c.witness)
			}
			if len(item.HandOver) == 0 || item.Who == "" || !strings.HasSuffix(item.Standing, "confirm locally") || !strings.Contains(item.Standing, "confidence "+p.Confidence) {
				t.Errorf("%s: %+v", name, item)
			}
			if c.near == nil {
				if d.When.Always != "yes" || len(d.When.Node().Pairs) != 1 {
					t.Errorf("%s can fail to arise and has no near miss", name)
				}
				continue
			}
			if item, ok := arises(t, p, d, c.near); ok {
				t.Errorf("%s arises in the near miss: %s", name, item.Because)
			}
		}
	}
	if reached != len(duties) {
		t.Errorf("%d cases, %d of them of a duty", len(duties), reached)
	}
}

// What is not written counts as met, and the item names the key.
func TestSilence(t *testing.T) {
	for name, c := range map[string]struct {
		silent change
		names  string
	}{
		"ca-on/pre-start-review": {state(""), "assessment.placing.state"},
		"uk/inspection":          {state(""), "assessment.placing.state"},
		"jp/enclosure":           {func(s *place.Situation) { s.Robots[0].Power = nil }, "`motor_power` of arm"},
		"eu/learned-function":    {func(s *place.Situation) { s.Functions[0].Learned = "" }, "`learned` of stop-on-scanner"},
		"eu/learned-motion":      {func(s *place.Situation) { s.Robots[0].Learned = "" }, "`learned_motion` of arm"},
		"eu/remote-change":       {func(s *place.Situation) { s.Remote = "" }, "cell.control.settings_access.remote"},
		"other/learned":          {func(s *place.Situation) { s.Functions = nil }, "cell.functions"},
	} {
		id, duty, _ := strings.Cut(name, "/")
		found := false
		for _, p := range places(t) {
			for i := range p.Duties {
				if d := &p.Duties[i]; p.ID == id && d.ID == duty {
					item, ok := arises(t, p, d, c.silent)
					found = ok && strings.Contains(item.Because, "Not written") && strings.Contains(item.Because, c.names)
				}
			}
		}
		if !found {
			t.Errorf("%s does not name %s", name, c.names)
		}
	}
}

// Silence about one thing does not stand for another.
func TestSilenceIsNotCatching(t *testing.T) {
	s := cell()
	s.Functions[0].Learned, s.Remote, s.State = "", "", ""
	for _, i := range place.Review(s, []string{"jp"}, places(t)) {
		if strings.Contains(i.Clause, "150-3") {
			t.Errorf("a motor of 60 W: %s", i.Because)
		}
	}
}

// A second robot whose motor is written decides, and the silent one is named.
func TestTwoRobots(t *testing.T) {
	s := cell()
	s.Robots = []place.Robot{{ID: "arm", Power: watts(200)}, {ID: "helper"}}
	b := place.Review(s, []string{"jp"}, places(t))[0].Because
	if !strings.Contains(b, "arm with 200 W") || !strings.Contains(b, "`motor_power` of helper") {
		t.Error(b)
	}
}

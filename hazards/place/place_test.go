package place_test

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"standclear/hazards/place"
	"standclear/limits/sheet"
	"standclear/templates"
)

func places(t *testing.T) []*place.Place {
	t.Helper()
	list, problems := place.Load(templates.FS)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return list
}

func TestPlaces(t *testing.T) {
	want := []string{"au", "br", "ca-mb", "ca-on", "ca-other", "ca-qc", "eu", "jp", "kr", "other", "uk", "us"}
	if got := place.IDs(places(t)); !slices.Equal(got, want) {
		t.Errorf("got %q", got)
	}
}

func TestSourcesAreListed(t *testing.T) {
	lib, problems := sheet.Load(templates.FS)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	for _, p := range places(t) {
		check := func(id, standing string, source []string) {
			for _, key := range source {
				if _, ok := lib.Source(key); !ok {
					t.Errorf("%s/%s: no source %s", p.ID, id, key)
				}
			}
			switch n := len(source); {
			case n == 0 && standing != "memory" && standing != "practice", n == 1 && standing == "confirmed", n > 0 && standing == "practice":
				t.Errorf("%s/%s: %d sources and standing %s", p.ID, id, n, standing)
			}
		}
		for _, d := range p.Duties {
			check(d.ID, string(d.Standing), d.Source)
		}
		for _, list := range [][]place.Paper{p.TechnicalFile, p.Declarations} {
			for _, d := range list {
				check(d.ID, string(d.Standing), d.Source)
			}
		}
	}
}

// cell is a cell of which everything is written: a robot with small motors, a
// contact, a scanner behind a fence, a conveyor, and nothing learned.
func cell() place.Situation {
	return place.Situation{Date: "2027-03-01", Role: "integrator", State: "new",
		Robots: []place.Robot{{ID: "arm", Power: watts(60), Learned: "no"}}, Contacts: []string{"hand-at-shelf"},
		Safeguards: []place.Thing{{ID: "scanner", Kind: "area-scanner"}, {ID: "fence", Kind: "fixed-guard"}},
		Machines:   []place.Thing{{ID: "belt", Kind: "conveyor"}},
		Spaces:     []place.Thing{{ID: "shelf", Kind: "shared"}},
		Tasks:      []place.Thing{{ID: "pack", Kind: "running"}},
		Functions:  []place.Function{{ID: "stop-on-scanner", Learned: "no"}},
		Remote:     "none"}
}

func watts(w float64) *float64 { return &w }

func clauses(items []place.Item) string {
	var list []string
	for _, i := range items {
		list = append(list, i.Clause)
	}
	return strings.Join(list, "\n")
}

// The regime follows the date of putting into service and the role.
func TestRegimeFollowsDateAndRole(t *testing.T) {
	for _, tt := range []struct {
		date, role string
		has, lacks []string
	}{
		{"2026-12-01", "integrator", []string{"Directive 2006/42/EC"}, []string{"Regulation (EU) 2023/1230"}},
		{"2027-01-13", "maker", []string{"Directive 2006/42/EC"}, []string{"Regulation (EU) 2023/1230"}},
		{"2027-01-16", "maker", []string{"Directive 2006/42/EC", "date of application"}, []string{"Art. 25"}},
		{"2027-01-20", "maker", []string{"Art. 25", "Part B", "Annex III"}, []string{"Directive 2006/42/EC", "date of application"}},
		{"2027-03-01", "user", []string{"Directive 2009/104/EC"}, []string{"Art. 25", "Directive 2006/42/EC"}},
	} {
		s := cell()
		s.Date, s.Role = tt.date, tt.role
		got := clauses(place.Review(s, []string{"eu"}, places(t)))
		for _, want := range tt.has {
			if !strings.Contains(got, want) {
				t.Errorf("%s %s: no %q in\n%s", tt.date, tt.role, want, got)
			}
		}
		for _, not := range tt.lacks {
			if strings.Contains(got, not) {
				t.Errorf("%s %s: %q in\n%s", tt.date, tt.role, not, got)
			}
		}
	}
}

func TestDatesDifferIsSaid(t *testing.T) {
	for _, date := range []string{"2026-12-01", "2027-03-01"} {
		s := cell()
		s.Date = date
		items := place.Review(s, []string{"eu"}, places(t))
		if b := items[0].Because; !strings.Contains(b, "20 January 2027") || !strings.Contains(b, "14 January") || !strings.Contains(b, "differ") {
			t.Errorf("%s: %s", date, b)
		}
	}
}

func TestOntario(t *testing.T) {
	items := place.Review(cell(), []string{"ca-on"}, places(t))
	if !strings.Contains(items[0].Clause, "Reg. 851") || !strings.Contains(items[0].Who, "engineer") || !strings.HasSuffix(items[0].Because, "Here: placed as new, scanner.") {
		t.Errorf("%+v", items[0])
	}
	if s := items[0].Standing; !strings.Contains(s, "memory") || !strings.HasPrefix(s, "confirmed, confidence high") || !strings.HasSuffix(s, "confirm locally") {
		t.Errorf("standing %q", items[0].Standing)
	}
	s := cell()
	s.Safeguards = nil
	for _, i := range place.Review(s, []string{"ca-on"}, places(t)) {
		if strings.HasPrefix(i.Who, "professional engineer") {
			t.Errorf("a review without a safeguard: %+v", i)
		}
	}
}

func TestContactTriggers(t *testing.T) {
	s := cell()
	if got := clauses(place.Review(s, []string{"br"}, places(t))); !strings.Contains(got, "Nota Tecnica") {
		t.Errorf("with a contact:\n%s", got)
	}
	s.Contacts = nil
	if got := clauses(place.Review(s, []string{"br"}, places(t))); strings.Contains(got, "Nota Tecnica") {
		t.Errorf("without:\n%s", got)
	}
}

// Nothing triggered is never said to be not required.
func TestNoneFound(t *testing.T) {
	for _, id := range []string{"ca-mb", "atlantis"} {
		items := place.Review(place.Situation{Date: "2027-03-01", Role: "maker"}, []string{id}, places(t))
		if len(items) != 2 || items[0].Because != place.NoneFound {
			t.Errorf("%s: %+v", id, items)
		}
	}
}

func TestReminderCloses(t *testing.T) {
	for _, ids := range [][]string{nil, {"eu"}, {"ca-on", "eu"}} {
		items := place.Review(cell(), ids, places(t))
		if last := items[len(items)-1]; !strings.HasPrefix(last.Because, place.Differ) {
			t.Errorf("%q ends with %+v", ids, last)
		}
	}
	items := place.Review(cell(), []string{"ca-on", "eu"}, places(t))
	if items[0].Place != "Ontario, Canada" || items[len(items)-2].Place != "European Union / EEA" {
		t.Error("not in the order of the file")
	}
}

func TestNothingIsRuledOut(t *testing.T) {
	for _, p := range places(t) {
		for _, i := range place.Review(cell(), []string{p.ID}, places(t)) {
			if text := strings.ToLower(i.Because + i.Who); strings.Contains(text, "not required") || strings.Contains(text, "not needed") {
				t.Errorf("%s: %s", p.ID, text)
			}
		}
	}
}

func TestLoadReports(t *testing.T) {
	const duty = "id: xx\ntitle: X\nlooked_at: 2026-11\nconfidence: high\nduties:\n  - {id: a, when: %s, clause: c, who: w, because: b, hand_over: [p], standing: single}\n"
	for name, when := range map[string]string{
		"no condition": "{}",
		"unknown key":  "{moon: full}",
		"unknown role": "{role: [owner]}",
		"no unit":      "{motor_over: 80}",
		"other unit":   "{motor_over: 80 N}",
	} {
		fsys := fstest.MapFS{"places/xx.yaml": {Data: []byte(strings.Replace(duty, "%s", when, 1))}}
		if _, problems := place.Load(fsys); len(problems) == 0 {
			t.Errorf("%s: loads", name)
		}
	}
	good := fstest.MapFS{"places/xx.yaml": {Data: []byte(strings.Replace(duty, "%s", "{always: yes}", 1))}}
	if _, problems := place.Load(good); len(problems) > 0 {
		t.Error(problems)
	}
	wrong := fstest.MapFS{"places/yy.yaml": good["places/xx.yaml"]}
	if _, problems := place.Load(wrong); len(problems) == 0 {
		t.Error("a place in the file of another loads")
	}
	if _, problems := place.Load(fstest.MapFS{}); len(problems) == 0 {
		t.Error("no places at all load")
	}
}

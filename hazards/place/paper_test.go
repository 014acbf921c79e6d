package place_test

import (
	"slices"
	"strings"
	"testing"

	"standclear/hazards/place"
)

func kinds(list []place.Wanted) string {
	var out []string
	for _, w := range list {
		out = append(out, strings.TrimSuffix(w.ID+" of "+w.About, " of "))
	}
	return strings.Join(out, ", ")
}

// The declarations follow role and date, one for each thing they are about.
func TestDeclarations(t *testing.T) {
	for _, tt := range []struct {
		date, role, want string
	}{
		{"2026-12-01", "integrator", "conformity, robot-incorporation of arm, machine-declaration of belt, component-declaration of scanner"},
		{"2027-03-01", "maker", "conformity, robot-incorporation of arm, machine-declaration of belt, component-declaration of scanner"},
		{"2027-03-01", "user", "conformity-received"},
	} {
		s := cell()
		s.Date, s.Role = tt.date, tt.role
		_, list := place.Papers(s, []string{"eu"}, places(t))
		if got := kinds(list); got != tt.want {
			t.Errorf("%s %s: got %s\nwant %s", tt.date, tt.role, got, tt.want)
		}
		if law := list[0].What; tt.role != "user" && strings.Contains(law, "2006/42/EC") != (tt.date < "2027-01-20") {
			t.Errorf("%s: %s", tt.date, law)
		}
	}
}

// One of several papers of a kind names the item it is about, and the place it is
// asked for in.
func TestOneForEach(t *testing.T) {
	s := cell()
	s.Machines = append(s.Machines, place.Thing{ID: "press", Kind: "press"})
	_, list := place.Papers(s, []string{"eu"}, places(t))
	var about []string
	for _, w := range list {
		if w.ID == "machine-declaration" {
			about = append(about, w.About+w.Because)
		}
	}
	if want := []string{"belt Here: role integrator, belt.", "press Here: role integrator, press."}; !slices.Equal(about, want) {
		t.Errorf("got %q", about)
	}
	s.Functions[0].Learned = ""
	_, list = place.Papers(s, []string{"eu"}, places(t))
	if w := list[len(list)-1]; w.ID != "certificate" || w.Silent != "`learned` of stop-on-scanner" {
		t.Errorf("%+v", w)
	}
}

// A place without an index of its own takes the common one; what two places ask
// for stands once, with both of them.
func TestIndex(t *testing.T) {
	list := func(ids ...string) []place.Wanted { f, _ := place.Papers(cell(), ids, places(t)); return f }
	common := list("other")
	if got := list("jp"); kinds(got) != kinds(common) || len(got) < 8 {
		t.Errorf("got %s", kinds(got))
	}
	if got := list("jp", "kr", "other"); len(got) != len(common) || len(got[0].Places) != 3 {
		t.Errorf("got %s", kinds(got))
	}
	if got := kinds(list("eu", "ca-on")); strings.Count(got, "drawings") != 1 || strings.Count(got, "upkeep-plan") != 1 {
		t.Errorf("got %s", got)
	}
	eu := kinds(list("eu"))
	for _, want := range []string{"requirements", "risk-assessment", "drawings", "calculations", "test-records", "instructions", "assembly-instructions of arm"} {
		if !strings.Contains(eu, want) {
			t.Errorf("no %s in %s", want, eu)
		}
	}
	if got := list("atlantis"); got != nil {
		t.Errorf("got %s", kinds(got))
	}
	ids := place.PaperIDs(places(t))
	for _, w := range common {
		if !slices.Contains(ids, w.ID) {
			t.Errorf("%s is not a kind that a file may name", w.ID)
		}
	}
}

// Every paper of every place is asked for in some situation.
func TestEveryPaper(t *testing.T) {
	for _, p := range places(t) {
		for _, list := range [][]place.Paper{p.TechnicalFile, p.Declarations} {
			for i := range list {
				d := &list[i]
				reached := false
				for _, how := range []change{as, role("user"), both(role("user"), state("rebuilt")), state("rebuilt"), day("2026-12-01"), learnedStop, power(81)} {
					s := cell()
					how(&s)
					f, g := place.Papers(s, []string{p.ID}, []*place.Place{p})
					for _, w := range append(f, g...) {
						reached = reached || w.What == d.What
					}
				}
				if !reached {
					t.Errorf("%s/%s is never asked for", p.ID, d.ID)
				}
			}
		}
	}
}

package pdf

import (
	"strings"
	"testing"

	"standclear/hazards"
	"standclear/hazards/file"
	"standclear/limits/expr"
)

// handed is a result with one of each to hand over.
func handed(t testing.TB) *hazards.Result {
	r := fixture(t)
	r.HandOver = hazards.HandOver{
		Tell: []hazards.Tell{{Row: "H-01", Harm: "bruise", Level: "low", Manual: "section 4", Training: "reach from the left", To: []string{"packer", "walker"}},
			{Row: "H-02", Harm: "burn", Level: "medium", Marking: "hot-surface sign"}},
		Gaps:     []hazards.Gap{{Row: "H-03", Level: "high", Why: "nobody is told of it"}, {Row: "H-04", Level: "high", Why: "nobody is told of it"}},
		Upkeep:   []hazards.Upkeep{{ID: "U-stop", What: "measure the stop again", Every: "12 months", For: []string{"arm"}}, {ID: "valve-life", What: "press valve", Years: expr.Value{Kind: expr.Number, Num: 6.999}, Check: "valve-life"}},
		Training: []hazards.Training{{Person: "packer", Written: "instructed", Tasks: []string{"pack"}, Told: []hazards.Told{{Row: "H-01", Text: "reach from the left"}}}, {Person: "walker"}},
		Asked:    []hazards.Asked{{Place: "Ontario, Canada", Clause: "Reg. 851, s. 7", Papers: []string{"sealed report", "drawings of the guards"}}},
		Papers: []hazards.Paper{{Places: []string{"eu"}, Kind: "drawings", What: "drawings", By: "integrator", Standing: "memory"},
			{Places: []string{"eu"}, Kind: "risk-assessment", What: "assessment", By: "integrator", Where: "RA-2207 revision D", Standing: "memory"}},
		Declarations: []hazards.Paper{{Places: []string{"eu"}, Kind: "robot-incorporation", About: "arm", What: "declaration of incorporation", By: "maker of the robot", Standing: "memory"},
			{Places: []string{"eu"}, Kind: "robot-incorporation", About: "helper", What: "declaration of incorporation", By: "maker of the robot", Standing: "memory"},
			{Places: []string{"eu"}, Kind: "certificate", What: "certificate", By: "notified body", Standing: "single", Silent: "`learned` of stop-on-curtain"}},
	}
	return r
}

func TestHandOver(t *testing.T) {
	pages := traced(t, Options{}, handed(t))
	withinMargins(t, pages, papers["A4"])
	all := strings.Join(strings.Fields(everything(pages)), " ")
	for _, want := range []string{"Hand-over", "reach from the left", "hot-surface sign", "nobody named yet", "nobody is told of it", "H-03 , H-04", "replace before 6.99 years",
		"finds worn brakes of arm", "not given", "sealed report; drawings of the guards", "RA-2207 revision D", "missing",
		"incorporation: arm, helper", "asked for as long as this is not written"} {
		if !strings.Contains(all, want) && !strings.Contains(squeezed(all), squeezed(want)) {
			t.Errorf("%q is not printed", want)
		}
	}
	// packer and walker are told of H-01, each under their name.
	if n := strings.Count(all, "reach from the left"); n != 3 {
		t.Errorf("what training tells is printed %d times, expected 3", n)
	}
}

// Nothing to hand over is said, and never that it is not required.
func TestNothingToHandOver(t *testing.T) {
	all := everything(traced(t, Options{}, fixture(t)))
	if !strings.Contains(all, "No row says yet what to tell whom") || strings.Count(all, "None found, confirm locally.") < 2 || strings.Contains(all, "not required") {
		t.Error("an empty hand-over is not said")
	}
}

// page gives the texts of the page on which a text stands.
func pageOf(pages map[int][]spot, text string) string {
	for n := len(pages); n > 0; n-- {
		if all := everything(map[int][]spot{1: pages[n]}); strings.Contains(all, text) {
			return all
		}
	}
	return ""
}

// Whoever is named is printed with the date; lines are left for the rest. The
// scope of the review and the room for a seal stand with the reviewer.
func TestSignatures(t *testing.T) {
	r := fixture(t)
	all := pageOf(traced(t, Options{}, r), "Signature")
	for _, want := range []string{"Prepared by", "R. Okonjo", "2026-11-23", "Checked by", "Approved by", "Licensed review by", "Relied on", "Not reviewed", "Visited", "room for a seal", "Licence"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not printed", want)
		}
	}
	r.File.Head.Reviewer = &file.Reviewer{Name: "T. Abernathy", Role: "professional engineer", Licence: "Ontario, 7", RelyOn: "data sheets of the arm", NotReviewed: "the building", Visited: "2026-11-20"}
	pages := traced(t, Options{}, r)
	all = pageOf(pages, "T. Abernathy")
	for _, want := range []string{"Licence Ontario, 7", "data sheets of the arm", "the building", "2026-11-20", "room for a seal"} {
		if !strings.Contains(strings.ReplaceAll(all, "\u00a0", " "), want) {
			t.Errorf("%q is not printed in\n%s", want, all)
		}
	}
	if strings.Count(all, "Signature\n") < 4 {
		t.Errorf("not four lines to sign on:\n%s", all)
	}
}

// Long names and a scope longer than a page stay within the paper, whole.
func TestLongSignatures(t *testing.T) {
	word := strings.Repeat("Donaudampfschifffahrt", 12)
	long := strings.Repeat("what was relied on without a look of one's own ", 300)
	for _, paper := range []string{"A4", "Letter"} {
		r := fixture(t)
		h := &r.File.Head
		h.PreparedBy.Name, h.PreparedBy.Firm = word, word
		h.CheckedBy = &file.Person{Name: word, Role: word, Firm: word, Licence: word, Date: "2026-11-24"}
		h.Reviewer = &file.Reviewer{Name: word, Role: word, Firm: word, Licence: word, RelyOn: long, NotReviewed: word, Visited: long}
		pages := traced(t, Options{Paper: paper}, r)
		withinMargins(t, pages, papers[paper])
		all := everything(pages)
		if n := strings.Count(squeezed(all), squeezed("a look of one's own")); n < 590 {
			t.Errorf("%s: %d of 600 sentences of the scope", paper, n)
		}
		if !strings.Contains(pageOf(pages, "room for a seal"), "Signature\n") {
			t.Errorf("%s: the seal stands apart from the line to sign on", paper)
		}
	}
}

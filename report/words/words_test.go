package words

import (
	"regexp"
	"strings"
	"testing"

	"standclear/hazards"
	"standclear/limits/sheet"
	"standclear/templates"
)

func TestLoad(t *testing.T) {
	_, problems := Load(templates.FS)
	for _, p := range problems {
		t.Errorf("%s: %s; expected %s %s", p.Pos, p.Message, p.Expected, p.Hint)
	}
}

func TestEveryWordOfTheContractHasPlainWords(t *testing.T) {
	w := Default()
	for _, v := range sheet.Order {
		if !w.Verdicts.Has(string(v)) {
			t.Errorf("no words for verdict %s", v)
		}
	}
	for _, s := range []string{hazards.NotReady, hazards.ReadyToMeasure, hazards.ReadyForReview, hazards.Reviewed} {
		if !w.Document.Has(s) || w.Document.Of(s).Footer == "" {
			t.Errorf("no words or no footer for document state %s", s)
		}
	}
	for _, s := range []string{hazards.RowOpen, hazards.RowProvisional, hazards.RowReduced, hazards.RowAccepted, hazards.RowRefused, hazards.RowOutOfDate} {
		if !w.Rows.Has(s) {
			t.Errorf("no words for row state %s", s)
		}
	}
	for _, s := range []string{hazards.PointPlanned, hazards.PointMissing, hazards.PointPassed, hazards.PointFailed, hazards.PointOutOfDate} {
		if !w.Points.Has(s) {
			t.Errorf("no words for the state %s of a point", s)
		}
	}
}

// forbidden words are never printed as a result.
var forbidden = regexp.MustCompile(`(?i)\b(safe|pass|passes|passed|certified|compliant)\b`)

func TestNoForbiddenWord(t *testing.T) {
	w := Default()
	check := func(where, text string) {
		if m := forbidden.FindString(text); m != "" {
			t.Errorf("%s: found %q in %q", where, m, text)
		}
	}
	for _, v := range []Vocabulary{w.Verdicts, w.Document, w.Rows, w.Points, w.Open, w.Standings, w.Origins, w.Steps, w.Decisions, w.Actions, w.Classes} {
		for _, e := range v {
			check(e.Key, e.Value.Word)
			check(e.Key, e.Value.Means)
			check(e.Key, e.Value.Footer)
		}
	}
	for _, texts := range []Texts{w.Headings, w.Labels, w.Sentences} {
		for _, e := range texts {
			check(e.Key, e.Value)
		}
	}
	for _, c := range w.Cautions {
		check("cautions", c)
	}
	if !forbidden.MatchString("the cell is safe") {
		t.Error("the check for forbidden words finds none")
	}
}

func TestMissingTextShows(t *testing.T) {
	w := Default()
	if got := w.Label("no such label"); !strings.Contains(got, "no such label") || !strings.HasPrefix(got, "⟨") {
		t.Errorf("got %q", got)
	}
	if got := w.Verdicts.Of("no-such-verdict").Word; got != "no-such-verdict" {
		t.Errorf("got %q", got)
	}
}

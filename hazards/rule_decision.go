package hazards

import (
	"slices"
	"strings"
	"unicode"

	"standclear/hazards/estimate"
)

// decisions: scores, and who may accept what.
func (f *finder) decisions() {
	for i := range f.r.Rows {
		row := &f.r.Rows[i]
		f.scores(row)
		if row.Accepts() {
			f.level(row)
			f.who(row)
			f.second(row)
			f.planned(row)
		}
	}
}

// scores: before and after, each factor; only before where the method knows no
// residual risk.
func (f *finder) scores(row *Row) {
	if f.r.Method == nil {
		return
	}
	if !f.r.Method.Residual {
		if len(row.Spec.After) > 0 {
			f.raise("DE-07", row.ID, row.Spec.KeyPos("after"), "row", row.ID, "method", f.r.Method.ID)
		}
	} else if len(row.Spec.Measures) > 0 || row.Spec.Residual != nil {
		f.missingScores(row, &row.After, "after", row.Spec.Has("after"))
	}
	f.missingScores(row, &row.Before, "before", row.Spec.Has("before"))
}

func (f *finder) missingScores(row *Row, e *Estimate, when string, written bool) {
	var missing []string
	for i, factor := range f.r.Method.Factors {
		if i >= len(e.Scores) || !e.Scores[i].Given() {
			missing = append(missing, factor.ID)
		}
	}
	if missing == nil {
		return
	}
	pos := positionOf(row.Spec.Item)
	if written {
		pos = row.Spec.KeyPos(when)
	}
	what := "score of " + and(missing) + " " + when + " measures"
	if e.Of != "" {
		what += "; the scores written are those of method " + e.Of
	}
	f.raise("DE-05", row.ID, pos, "row", row.ID, "what", what)
}

// level: what the level that remains allows and asks for.
func (f *finder) level(row *Row) {
	r := row.Spec.Residual
	switch row.After.Action {
	case estimate.Required:
		f.raise("DE-01", row.ID, r.At("decision"), "row", row.ID, "level", row.After.Level)
	case estimate.Recommended:
		what := ""
		switch in := r.Inform; {
		case in == nil:
			what = "tells nobody"
		case in.Manual+in.Marking+in.Training+in.PPE == "":
			what = "does not say what to tell"
		case len(in.To) == 0:
			what = "does not say whom to tell"
		case !slices.ContainsFunc(in.To, func(id string) bool { return has(row.People, id) }):
			what = "tells nobody who is there"
		}
		if what != "" {
			f.raise("DE-04", row.ID, r.At("inform"), "row", row.ID, "level", row.After.Level, "what", what)
		}
	}
}

// who: the one who drafted does not accept.
func (f *finder) who(row *Row) {
	if r := row.Spec.Residual; SamePerson(r.By, f.r.File.Head.PreparedBy.Name) {
		f.raise("DE-02", row.ID, r.At("by"), "row", row.ID, "name", r.By)
	}
}

// NameMarks are what makes no difference between two names of one person.
const NameMarks = " .,'-"

// SamePerson compares names of people as a reader would, without regard to case,
// spaces and marks.
func SamePerson(a, b string) bool { return strings.EqualFold(bare(a), bare(b)) }

func bare(name string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(NameMarks, r) || unicode.IsSpace(r) {
			return -1
		}
		return r
	}, name)
}

// second: harm that cannot be undone and remains.
func (f *finder) second(row *Row) {
	if !f.irreversible(row) {
		return
	}
	r := row.Spec.Residual
	what := ""
	switch {
	case r.Second == nil:
		what = "no second person agrees"
	case SamePerson(r.Second.Name, r.By):
		what = "the second person is the first"
	case SamePerson(r.Second.Name, f.r.File.Head.PreparedBy.Name):
		what = "the second person drafted it"
	default:
		return
	}
	f.raise("DE-03", row.ID, r.At("second"), "row", row.ID, "what", what)
}

// irreversible says whether harm that remains cannot be undone, by `after`.
// Where the method knows no state after measures nothing says that the harm got
// milder, and `before` counts.
func (f *finder) irreversible(row *Row) bool {
	m := f.r.Method
	if m == nil {
		return false
	}
	scores := row.After.Scores
	if !m.Residual {
		scores = row.Before.Scores
	}
	for i := range scores {
		if m.Irreversible(&m.Factors[i], scores[i]) {
			return true
		}
	}
	return false
}

func (f *finder) planned(row *Row) {
	for i := range row.Spec.Measures {
		if m := &row.Spec.Measures[i]; m.State == "planned" {
			f.raise("DE-06", row.ID, m.At("state"), "row", row.ID, "measure", m.ID)
		}
	}
}

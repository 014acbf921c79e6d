package hazards

import (
	"standclear/hazards/estimate"
	"standclear/limits/quantity"
	"standclear/limits/source"
)

// guard: heights of guards that rest on slight harm, or on more than the guard.
func (d *distance) guard() {
	if d.c.Sheet.ID != "guard-height" {
		return
	}
	if risk := d.value("risk"); risk != nil && risk.Text == "low" {
		if what := d.notSlight(); what != "" {
			d.say("DI-40", "risk", "what", what)
		}
	}
	if height, least := d.value("b"), d.result("b_alone"); height != nil && height.Value.Num < least {
		if what := d.alone(); what != "" {
			d.say("DI-41", "b", "height", quantity.Format(height.Value.Num, 6), "least", quantity.Format(least, 6), "what", what)
		}
	}
}

// alone says what is not answered about a low structure, "" where all is: that
// nothing else keeps people out is for the verdict of the check.
func (d *distance) alone() string {
	switch further := d.value("further"); {
	case d.asks("further"):
		return "does not say whether anything else keeps people out"
	case further != nil && further.Text == string(source.Yes) && d.spec.Note == "":
		return "does not say in its note what else keeps people out"
	}
	return ""
}

// notSlight says which rows that rest on the check score harm above the mildest
// score of the method, "" where none does. Harm is that before measures, since a
// guard never lowers it. A score that is missing is a finding of its own.
func (d *distance) notSlight() string {
	if d.r.Method == nil {
		return ""
	}
	rests := false
	var rows []string
	for i := range d.r.Rows {
		row := &d.r.Rows[i]
		if !has(row.Rests, d.c.ID) {
			continue
		}
		rests = true
		for j := range d.r.Method.Factors {
			factor := &d.r.Method.Factors[j]
			rank := d.rank(row, j, false)
			if factor.May(estimate.Severity) && rank >= 0 && rank < len(factor.Scores)-1 {
				rows = append(rows, row.ID+" scores "+factor.ID+" "+factor.Scores[rank].Score)
			}
		}
	}
	if !rests {
		return "no row rests on it, so that nothing says how slight the harm is"
	}
	return few(rows)
}

package hazards

import (
	"slices"
	"strings"

	"standclear/hazards/estimate"
	"standclear/limits/sheet"
)

// states says how every row and the document stand.
func (w *work) states(texts *FindingTexts) {
	points := map[string][]*Point{} // by what they are of
	byID := map[string]*Point{}
	for i := range w.r.Points {
		p := &w.r.Points[i]
		points[p.Of] = append(points[p.Of], p)
		byID[p.ID] = p
	}
	found := w.findings()
	for i := range w.r.Rows {
		row := &w.r.Rows[i]
		j := judgement{work: w, row: row}
		j.findings(found, texts)
		j.estimates()
		j.decision()
		j.rests()
		j.tests(points, byID)
		row.Status, row.Why = j.status()
	}
	w.r.Document = w.document()
}

// Accepts tells whether somebody decided to accept the risk that remains.
func (row *Row) Accepts() bool {
	return row.Spec.Residual != nil && row.Spec.Residual.Decision == "accept"
}

// judgement gathers what stands against a row.
type judgement struct {
	*work
	row       *Row
	refused   []string // acceptance is not allowed
	open      []string // something is missing or does not hold
	model     []string // a measurement or test is still to come
	undecided string   // nobody has decided
}

func (j *judgement) status() (status, why string) {
	switch {
	case len(j.refused) > 0:
		return RowRefused, strings.Join(append(j.refused, j.open...), "; ")
	case len(j.open) > 0 || j.undecided != "" && len(j.model) == 0:
		return RowOpen, strings.Join(addOnce(j.open, j.undecided), "; ")
	case len(j.model) > 0:
		return RowProvisional, strings.Join(j.model, "; ")
	}
	return RowReduced, "accepted by " + j.row.Spec.Residual.By + "; awaits review"
}

// findings by what they are about: a row, a contact, a check or a point; those
// about a point also by what the point is of.
func (w *work) findings() map[string][]*Finding {
	of := map[string]string{}
	for i := range w.a.Validation {
		of[w.a.Validation[i].ID] = w.a.Validation[i].Of
	}
	found := map[string][]*Finding{}
	for i := range w.r.Findings {
		f := &w.r.Findings[i]
		found[f.About] = append(found[f.About], f)
		if what := of[f.About]; what != "" {
			found[what] = append(found[what], f)
		}
	}
	return found
}

// findings names those about the row and about what it rests on. Some forbid
// that the risk is accepted.
func (j *judgement) findings(found map[string][]*Finding, texts *FindingTexts) {
	for _, id := range slices.Concat([]string{j.row.ID}, j.row.Rests, j.row.Points) {
		for _, f := range found[id] {
			j.row.Findings = addOnce(j.row.Findings, f.ID)
			if !texts.Refuses(f.ID) {
				continue
			}
			if j.row.Accepts() {
				j.refused = addOnce(j.refused, f.Message)
			} else {
				j.open = addOnce(j.open, f.Message)
			}
		}
	}
}

func (j *judgement) estimates() {
	for _, e := range []struct {
		name string
		*Estimate
	}{{"before", &j.row.Before}, {"after", &j.row.After}} {
		if e.Done || e.name == "after" && j.r.Method != nil && !j.r.Method.Residual {
			continue
		}
		if missing := e.Missing(j.r.Method); len(missing) > 0 {
			j.open = append(j.open, "the estimate "+e.name+" measures lacks "+and(missing))
		} else {
			j.open = append(j.open, "the estimate "+e.name+" measures has no level")
		}
	}
}

// decision judges what was decided; who may accept what is a matter of findings.
// A row that waits for a measurement cannot be decided yet.
func (j *judgement) decision() {
	r := j.row.Spec.Residual
	switch {
	case r == nil:
		j.undecided = "nobody has decided about the risk that remains"
	case r.Decision == "reduce":
		j.open = append(j.open, r.By+" decided to reduce the risk further: "+r.Why)
	case r.Decision == "refuse":
		j.refused = append(j.refused, r.By+" refused the risk: "+r.Why)
	}
	if j.row.After.Action == estimate.Required && !j.row.Accepts() {
		j.open = append(j.open, "the level after measures ("+j.row.After.Level+") needs action")
	}
}

// rests looks at the contacts, checks and functions the row rests on. What does
// not hold forbids acceptance; what holds by the model leaves the row provisional.
func (j *judgement) rests() {
	for _, id := range j.row.Rests {
		verdict, why := sheet.NotDecided, "the function names no parts"
		if c := j.r.Contact(id); c != nil {
			verdict, why = c.Verdict, c.Why
		} else if c := j.r.Check(id); c != nil {
			verdict, why = c.Verdict, c.Why
		}
		switch {
		case !verdict.Holds() && j.row.Accepts():
			j.refused = append(j.refused, "accepted, and "+id+" is "+string(verdict)+": "+why)
		case !verdict.Holds():
			j.open = append(j.open, id+" is "+string(verdict)+": "+why)
		case verdict == sheet.WithinModel:
			j.model = append(j.model, id+" is within the model and awaits measurement")
		}
	}
}

// tests looks at the validation points the row rests on, and at those of its
// measures, functions and checks. Measurements of contacts have spoken through
// the contact already.
func (j *judgement) tests(of map[string][]*Point, byID map[string]*Point) {
	var list []*Point
	for _, id := range j.row.Points {
		if p := byID[id]; p != nil {
			list = append(list, p)
		}
	}
	for i := range j.row.Spec.Measures {
		list = append(list, of[j.row.Spec.Measures[i].ID]...)
	}
	for _, id := range j.row.Rests {
		if j.r.Contact(id) == nil {
			list = append(list, of[id]...)
		}
	}
	seen := map[*Point]bool{}
	for _, p := range list {
		if seen[p] {
			continue
		}
		seen[p] = true
		switch p.State {
		case PointFailed, PointOutOfDate:
			j.open = append(j.open, p.ID+" is "+p.State+": "+p.Why)
		case PointPlanned, PointMissing:
			j.model = append(j.model, p.ID+" is still to be done")
		}
	}
}

// document: nothing may stand against release but measurements that are still
// to come. A check that only stands beside never counts.
func (w *work) document() string {
	state := ReadyForReview
	if len(w.r.Findings) > 0 || len(w.r.Rows) == 0 || len(w.r.OpenHazards()) > 0 {
		return NotReady
	}
	for i := range w.r.Rows {
		switch w.r.Rows[i].Status {
		case RowProvisional:
			state = ReadyToMeasure
		case RowOpen, RowRefused, RowOutOfDate:
			return NotReady
		}
	}
	for i := range w.r.Checks {
		switch c := &w.r.Checks[i]; {
		case c.Shadow:
		case !c.Verdict.Holds():
			return NotReady
		case c.Verdict == sheet.WithinModel:
			state = ReadyToMeasure
		}
	}
	return state
}

// counts are the numbers of the first page, every word in its order.
func (w *work) counts() {
	rows, checks := map[string]int{}, map[string]int{}
	for i := range w.r.Rows {
		rows[w.r.Rows[i].Status]++
	}
	for i := range w.r.Checks {
		if c := &w.r.Checks[i]; !c.Shadow {
			checks[string(c.Verdict)]++
		}
	}
	n := &w.r.Counts
	for _, s := range []string{RowOpen, RowRefused, RowProvisional, RowReduced, RowAccepted, RowOutOfDate} {
		n.Rows = append(n.Rows, Count{Word: s, N: rows[s]})
	}
	for _, v := range sheet.Order {
		n.Checks = append(n.Checks, Count{Word: string(v), N: checks[string(v)]})
	}
	n.Findings, n.Open = len(w.r.Findings), len(w.r.Open)
	n.Hazards, n.OpenHazards = len(w.r.Hazards), len(w.r.OpenHazards())
}

package book

import (
	"standclear/hazards"
	"standclear/hazards/estimate"
	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// Helper columns of hazard rows.
const (
	builtKey = "status-as-built"
	rankKey  = "status-rank"

	besidesKey = "besides-the-formulas"
)

// statusColumns work out the status of a row as hazards does: what refuses an
// acceptance, then what stands open, then what awaits a measurement or test,
// then whether somebody has decided. A review holds as long as nothing was
// edited. What the formulas do not follow, such as a finding that forbids
// acceptance, stands beside as built.
func (p *planner) statusColumns() []*Column {
	reviewed := formula("AND(", edits(), "=0,OR(", own(builtKey), `="accepted",`, own(builtKey), `="out-of-date"))`)
	return []*Column{
		{Key: rankKey, Head: "Rank of the status", Means: "3: refused, 2: open, 1: provisional, 0: reduced, -1: reviewed", Width: 9, Hidden: true, Look: Count,
			Formula: formula("IF(", own(refKey), `="","",IF(`, reviewed, ",-1,IF(OR(", p.refusals(), "),3,IF(OR(", p.openings(), "),2,IF(OR(", p.awaits(),
				"),1,IF(", own("decision"), `="",2,0))))))`)},
		{Key: builtKey, Head: "Status as built", Width: 12, Hidden: true, Look: Quiet},
		{Key: besidesKey, Head: "Besides the formulas", Width: 12, Hidden: true, Look: Quiet},
	}
}

// statusFormula puts the rank into words. A reviewed row that was edited is out
// of date.
func statusFormula() Formula {
	return formula("IF(", own(refKey), `="","",CHOOSE(`, own(rankKey), "+2,", own(builtKey), ",IF(", own(builtKey),
		`="accepted","out-of-date","reduced"),"provisional","open","refused"))`)
}

// rankOf is the rank behind a status.
func rankOf(status string) expr.Value {
	for rank, s := range []string{hazards.RowReduced, hazards.RowProvisional, hazards.RowOpen, hazards.RowRefused} {
		if s == status {
			return num(float64(rank))
		}
	}
	return num(-1)
}

// edits is the number of inputs edited since the workbook was built.
func edits() Part { return Part{Ref: Ref{Kind: At, Block: summaryState, Row: "edited", Key: "value"}} }

// refusals forbid an acceptance: a level that needs action, who drafted the
// row, harm that cannot be undone without a second person, something it rests
// on that does not hold, a measure still planned.
func (p *planner) refusals() Formula {
	person := func(key string) Formula { return bareName(own(key)) }
	drafter := bareName(Part{Ref: Ref{Kind: At, Block: "signatures", Row: "prepared", Key: "name"}})
	f := formula(own("decision"), `="refuse",`, own(besidesKey), `="refused",AND(`, own("decision"), `="accept",OR(`, p.needsAction(), person("by"), "=", drafter,
		",AND(", p.irreversible(), ",OR(", person("second"), `="",`, person("second"), "=", person("by"), ",", person("second"), "=", drafter, "))",
		",ISNUMBER(MATCH(", own(idKey), ",", all(measuresBlock, plannedKey), ",0))")
	for i := range p.rests() {
		f = f.plus(",AND(", own(restKey(i)+".verdict"), `<>"",NOT(`, p.holds(restKey(i)+".verdict"), "))")
	}
	return formula(f, "))")
}

// needsAction tests, with a comma behind, whether the level that remains needs
// action; nothing where the method knows none.
func (p *planner) needsAction() Formula {
	if !p.residual() {
		return nil
	}
	return formula(own(after+"action"), "=", quoted(estimate.Required), ",")
}

// irreversible tests the severity that remains against the scores from which
// on harm cannot be undone. Where the method knows no state after measures, that
// before counts.
func (p *planner) irreversible() Formula {
	f := formula("OR(FALSE()")
	m := p.r.Method
	if m == nil {
		return append(f, lit(")"))
	}
	prefix := after
	if !m.Residual {
		prefix = before
	}
	for i := range m.Factors {
		for _, v := range scoreValues(&m.Factors[i]) {
			if m.Irreversible(&m.Factors[i], v) {
				f = f.plus(",", holdsValue(prefix+m.Factors[i].ID, v))
			}
		}
	}
	return append(f, lit(")"))
}

// accepted tests that somebody accepts what remains: the very word, and a name.
func accepted() Formula {
	return formula("AND(EXACT(", own("decision"), `,"accept"),TRIM(`, own("by"), `)<>"")`)
}

func (p *planner) openings() Formula {
	f := formula(own(besidesKey), `="open",AND(`, own("decision"), `<>"",NOT(`, accepted(), "))")
	if p.r.Method != nil {
		prefixes := []string{before}
		if p.residual() {
			prefixes = append(prefixes, after)
			f = f.plus(",", own(after+"action"), "=", quoted(estimate.Required))
		}
		for _, prefix := range prefixes {
			f = f.plus(",", own(prefix+"action"), `="",NOT(`, p.holds(prefix+"verdict"), ")")
			for i := range p.r.Method.Factors {
				f = f.plus(",", own(prefix+p.r.Method.Factors[i].ID), `=""`)
			}
		}
	} else {
		f = f.plus(",TRUE()")
	}
	for i := range p.rests() {
		f = f.plus(",AND(", own(restKey(i)+".verdict"), `<>"",NOT(`, p.holds(restKey(i)+".verdict"), "))")
	}
	if len(p.tests) > 0 {
		f = f.plus(",ISNUMBER(MATCH(", own(idKey), ",", all(testsBlock, "row|bad"), ",0))")
	}
	return f
}

func (p *planner) holds(key string) Formula {
	return formula("OR(", own(key), `="within",`, own(key), `="within-model",`, own(key), `="within-measured")`)
}

func (p *planner) awaits() Formula {
	f := formula("FALSE()")
	for i := range p.rests() {
		f = f.plus(",", own(restKey(i)+".verdict"), `="within-model"`)
	}
	if len(p.tests) > 0 {
		f = f.plus(",ISNUMBER(MATCH(", own(idKey), ",", all(testsBlock, "row|pending"), ",0))")
	}
	return f
}

// besides is the status that a row has as built although the formulas would
// give it a milder one.
func (p *planner) besides(r *hazards.Row) string {
	if s := rankOf(r.Status).Num; (r.Status == hazards.RowRefused || r.Status == hazards.RowOpen) && p.followed(r) < s {
		return r.Status
	}
	return ""
}

// followed is the rank that the formulas give a row as built.
func (p *planner) followed(r *hazards.Row) float64 {
	d := r.Spec.Residual
	if d != nil && (d.Decision == "refuse" || d.Decision == "accept" && p.forbidden(r)) {
		return 3
	}
	needs := r.After.Action == estimate.Required
	open, awaits := !r.Before.Done || p.residual() && !r.After.Done || needs || d != nil && d.Decision == "reduce", false
	for _, id := range r.Rests {
		v := p.verdictOf(id)
		open, awaits = open || !v.Holds(), awaits || v == sheet.WithinModel
	}
	for _, i := range p.testsOf[r] {
		if t := p.tests[i]; t.counts {
			s := t.point.State
			open = open || s == hazards.PointFailed || s == hazards.PointOutOfDate
			awaits = awaits || s == hazards.PointPlanned || s == hazards.PointMissing
		}
	}
	switch {
	case open, !awaits && d == nil:
		return 2
	case awaits:
		return 1
	}
	return 0
}

// forbidden tells whether the refusals that formulas follow forbid the
// acceptance of a row as built.
func (p *planner) forbidden(r *hazards.Row) bool {
	d := r.Spec.Residual
	drafter := p.r.File.Head.PreparedBy.Name
	if r.After.Action == estimate.Required || hazards.SamePerson(d.By, drafter) {
		return true
	}
	for i := range r.Spec.Measures {
		if r.Spec.Measures[i].State == "planned" {
			return true
		}
	}
	for _, id := range r.Rests {
		if !p.verdictOf(id).Holds() {
			return true
		}
	}
	scores := r.After.Scores
	if !p.residual() {
		scores = r.Before.Scores
	}
	for i, v := range scores {
		if m := p.r.Method; m.Irreversible(&m.Factors[i], v) {
			return d.Second == nil || hazards.SamePerson(d.Second.Name, d.By) || hazards.SamePerson(d.Second.Name, drafter)
		}
	}
	return false
}

// holdsValue tests that a cell of the row holds a score.
func holdsValue(key string, v expr.Value) Formula {
	if v.Kind == expr.Number {
		return formula(own(key), "="+plainNumber(v.Num))
	}
	return formula("EXACT(", own(key), ","+quoted(v.Text)+")")
}

// bareName leaves out of a name what makes no difference between two names of
// one person; the spreadsheet compares without regard to case.
func bareName(name Part) Formula {
	f := formula(name)
	for _, mark := range hazards.NameMarks {
		f = formula("SUBSTITUTE(", f, ","+quoted(string(mark))+`,"")`)
	}
	return f
}

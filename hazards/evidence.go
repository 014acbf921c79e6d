package hazards

import (
	"standclear/hazards/file"
	"standclear/hazards/proof"
	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// evidence lets measurements decide what the contact model planned.
func (w *work) evidence() {
	points := map[string][]*file.Point{}
	for i := range w.a.Validation {
		if p := &w.a.Validation[i]; measured(p) {
			points[p.Of] = append(points[p.Of], p)
		}
	}
	for i := range w.r.Checks {
		c := &w.r.Checks[i]
		if c.Model && !c.Shadow && c.Verdict != sheet.NotPermitted {
			w.prove(c, points[c.Of])
		}
	}
}

// measured tells whether a point holds figures of a force or pressure measurement.
func measured(p *file.Point) bool {
	return p.Method == "force" && (p.Force != nil || p.Pressure != nil)
}

// prove holds a check against the measurements of its contact. One above a limit
// stands against any verdict; those within take the place of what the model says,
// not of an answer that is missing, and not of a rule that stands besides the
// model, such as the static push.
func (w *work) prove(c *Check, points []*file.Point) {
	if len(points) == 0 {
		return
	}
	k := ProofCase(w.r, c)
	var all []proof.Outcome
	var over string
	for _, p := range points {
		o := proof.Judge(k, ProofMeasured(w.r, p))
		all = append(all, o)
		if o.Covers || o.Verdict == sheet.Over {
			c.Points = append(c.Points, p.ID)
		}
		if o.Verdict == sheet.Over && over == "" {
			over = p.ID + ": " + o.Why
		}
	}
	model := c.Verdict == sheet.WithinModel || c.Verdict == sheet.Over && !c.Outcome.Firm
	switch together := proof.Together(all); {
	case together == sheet.Over:
		c.Verdict, c.Why = sheet.Over, over
	case together == sheet.WithinMeasured && model:
		c.Verdict, c.Why = sheet.WithinMeasured, "force and pressure measured within the limits: "+and(c.Points)
	}
}

// govern finds the worst check of each contact: the worst verdict, then the
// highest use of the pressure limit, then the order of the table. Checks that
// only stand beside do not count.
func (w *work) govern() {
	for i := range w.r.Contacts {
		k := &w.r.Contacts[i]
		for _, j := range k.Checks {
			if c := &w.r.Checks[j]; !c.Shadow && (k.Worst < 0 || worse(c, &w.r.Checks[k.Worst])) {
				k.Worst = j
			}
		}
		if k.Worst < 0 {
			k.Verdict, k.Why = sheet.NotDecided, "no body area is named"
			continue
		}
		k.Verdict, k.Why = w.r.Checks[k.Worst].Verdict, w.r.Checks[k.Worst].Why
		if k.Class == Free && w.r.Checks[k.Worst].Sheet.ID == clampedSheet {
			k.Why += "; judged as held, since no gap shows it free"
		}
		if open := w.unanswered(k); open != "" && k.Verdict.Holds() {
			k.Verdict, k.Why = sheet.NotDecided, open
		}
	}
}

// unanswered is a question of a contact that nobody has answered and without
// which its checks decide nothing.
func (w *work) unanswered(k *Contact) string {
	if k.Spec.Head == nil {
		return "whether a head can be reached is not answered"
	}
	if k.OwnEdges() {
		return ""
	}
	for _, id := range k.Tools {
		if _, found, _, _ := w.a.Find(id); edgeless(found) {
			return "the edges of " + id + " are not stated"
		}
	}
	for _, id := range k.Parts {
		if _, found, _, _ := w.a.Find(id); edgeless(found) {
			return "the edges of " + id + " are not stated"
		}
	}
	return ""
}

func edgeless(item any) bool {
	switch item := item.(type) {
	case *file.Tool:
		return item.Edges == ""
	case *file.Part:
		return item.Edges == ""
	}
	return false
}

func worse(c, than *Check) bool {
	if c.Verdict.Rank() != than.Verdict.Rank() {
		return c.Verdict.Worse(than.Verdict)
	}
	a, b := pressureUse(c), pressureUse(than)
	return a > b && !expr.Equal(a, b)
}

// pressureUse is the share of the pressure limit that is used, 0 where it is
// not worked out.
func pressureUse(c *Check) float64 {
	name := "p_peak"
	if c.Sheet.Column(name) == nil {
		name = "p"
	}
	p, limit := c.Outcome.Value(name), c.Outcome.Value("p_limit")
	if !p.Given() || !limit.Given() {
		return 0
	}
	return p.Num / limit.Num
}

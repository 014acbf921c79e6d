package text

import (
	"fmt"
	"io"
	"strings"

	"standclear/hazards"
	"standclear/hazards/identify"
	"standclear/limits/sheet"
	"standclear/report/trace"
	"standclear/report/words"
)

// ExplainIn writes what a row, contact, check or fact of an assessment rests
// on; false when nothing has this id.
func ExplainIn(w io.Writer, r *hazards.Result, id string) bool {
	for i := range r.Rows {
		if r.Rows[i].ID == id {
			row(w, r, &r.Rows[i])
			return true
		}
	}
	for i := range r.Contacts {
		if r.Contacts[i].ID == id {
			contact(w, r, &r.Contacts[i])
			return true
		}
	}
	for i := range r.Checks {
		if r.Checks[i].ID == id {
			check(w, r, &r.Checks[i])
			return true
		}
	}
	for i := range r.Facts {
		if f := &r.Facts[i]; f.Path == id {
			fact(w, r, f)
			return true
		}
	}
	for i := range r.Hazards {
		if s := &r.Hazards[i]; s.Entry.ID == id {
			witnesses(w, s)
			return true
		}
	}
	return false
}

// witnesses writes why a hazard of the catalogue applies, and what answers it.
func witnesses(w io.Writer, s *identify.Suggestion) {
	fmt.Fprintf(w, "%s: %s; %s; %s\n%s\n\n", s.Entry.ID, s.Entry.Situation, s.Entry.Event, s.Entry.Harm, answer(s))
	for _, x := range s.Witnesses {
		fmt.Fprintf(w, "  %s\n", x.Why)
		switch {
		case x.NotHere != "":
			fmt.Fprintf(w, "      set aside: %s\n", x.NotHere)
		case len(x.Rows) > 0:
			fmt.Fprintf(w, "      answered by %s\n", strings.Join(x.Rows, ", "))
		case x.Near != "":
			fmt.Fprintf(w, "      open: %s\n", x.Near)
		default:
			fmt.Fprintln(w, "      open")
		}
	}
}

// fact writes one value of the cell, and what it is made of.
func fact(w io.Writer, r *hazards.Result, f *hazards.Fact) {
	p := trace.Fact(r, f)
	fmt.Fprintf(w, "%s: %s\n  %s\n", f.Path, f.Means, f.Exact)
	addends(w, p.Sign, p.Parts, 4)
	if origin := p.From(); origin != "" {
		fmt.Fprintf(w, "  origin: %s\n", origin)
	}
	fmt.Fprintf(w, "  %s\n", f.Pos)
}

func row(w io.Writer, r *hazards.Result, h *hazards.Row) {
	fmt.Fprintf(w, "%s: %s\n  %s\n  %s\n  harm: %s\n\nstatus: %s\n   why: %s\nbefore: %s\n after: %s\n",
		h.ID, h.Task, h.Spec.Situation, h.Spec.Event, h.Spec.Harm, h.Status, h.Why, level(h.Before), level(h.After))
	for i := range h.Spec.Measures {
		m := &h.Spec.Measures[i]
		fmt.Fprintf(w, "measure %s (%s, %s): %s\n", m.ID, m.Step, m.Kind, m.What)
	}
	if len(h.Rests) > 0 {
		fmt.Fprintf(w, "rests on: %s\n", strings.Join(h.Rests, ", "))
	}
	for _, f := range r.Findings {
		if f.About == h.ID {
			fmt.Fprintf(w, "finding %s: %s\n", f.ID, f.Message)
		}
	}
	fmt.Fprintf(w, "\nEvidence, fingerprint %s\n", h.Fingerprint)
	for _, e := range h.Evidence {
		fmt.Fprintf(w, "  %s\n", e)
	}
}

func contact(w io.Writer, r *hazards.Result, c *hazards.Contact) {
	fmt.Fprintf(w, "%s: %s\n\nverdict: %s\n    why: %s\n", c.ID, c.Spec.Where, c.Verdict, c.Why)
	if a := words.Default().Advice(c.Advice, true); a != "" {
		fmt.Fprintf(w, " advice: %s\n", a)
	}
	fmt.Fprintf(w, "\n%d checks:\n", len(c.Checks))
	for _, i := range c.Checks {
		k := &r.Checks[i]
		beside := ""
		if k.Shadow {
			beside = " (beside, does not govern)"
		}
		fmt.Fprintf(w, "  %-14s %s %s%s\n", k.Verdict, k.ID, percent(k.Outcome.Use()), beside)
	}
	if c.Worst >= 0 {
		fmt.Fprintln(w, "\nThe governing check")
		check(w, r, &r.Checks[c.Worst])
	}
}

func check(w io.Writer, r *hazards.Result, c *hazards.Check) {
	fmt.Fprintf(w, "%s\n", c.ID)
	traced(w, r, c)
	fmt.Fprintln(w)
	var beside *sheet.Outcome
	corner := ""
	if n := r.NominalOf(c.ID); n != nil {
		beside, corner = n.Outcome, c.Corner
	}
	calculation(w, c.Outcome, words.Default().Advice(c.Advice, c.Model), corner, beside)
	switch {
	case c.Verdict != c.Outcome.Verdict:
		fmt.Fprintf(w, "\nwith evidence: %s\n          why: %s\n", c.Verdict, c.Why)
	case c.Why != c.Outcome.Why: // what an input lacks
		fmt.Fprintf(w, "   since: %s\n", c.Why)
	}
	for _, o := range c.Open {
		fmt.Fprintf(w, "    open: %s\n", o)
	}
	if s := c.IgnoredWords(); s != "" {
		fmt.Fprintf(w, " ignored: %s\n", s)
	}
	besides(w, r, c)
}

// traced writes where each input comes from: the values behind it with their
// units and origins.
func traced(w io.Writer, r *hazards.Result, c *hazards.Check) {
	for _, t := range trace.Inputs(r, c) {
		if len(t.Parts) == 1 && t.Parts[0].Path == "" { // typed in
			fmt.Fprintf(w, "  %s = %s\n", t.Name, t.Parts[0])
			continue
		}
		fmt.Fprintf(w, "  %s = %s\n", t.Name, t.Value)
		addends(w, t.Sign, t.Parts, 4)
	}
}

// addends writes parts one below the other, and below each what it is made of.
func addends(w io.Writer, sign string, parts []trace.Part, indent int) {
	lead, next := "= ", "+ "
	if sign != trace.Plus && len(parts) > 1 {
		fmt.Fprintf(w, "%*s= %s\n", indent, "", sign)
		lead, next = "  ", "  "
	}
	for _, p := range parts {
		fmt.Fprintf(w, "%*s%s%s\n", indent, "", lead, p)
		addends(w, p.Sign, p.Parts, indent+4)
		lead = next
	}
}

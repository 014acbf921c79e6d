package text

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"standclear/hazards"
	"standclear/limits/sheet"
)

// Check writes what stands against release: state, counts, findings, open
// points, then rows and checks.
func Check(w io.Writer, r *hazards.Result) {
	h := r.File.Head
	fmt.Fprintf(w, "%s %s, revision %s: %s\n", h.Number, h.Title, h.Revision, r.Document)
	countLine(w, "rows", r.Counts.Rows)
	countLine(w, "checks", r.Counts.Checks)
	fmt.Fprintf(w, "findings: %d   open points: %d\n", r.Counts.Findings, r.Counts.Open)
	fmt.Fprintln(w, HazardCount(r))
	checkTable(w, r)
	editions(w, r)
	rowTable(w, r)
	findings(w, r)
	openHazards(w, r)
	openPoints(w, r)
}

func countLine(w io.Writer, name string, cs []hazards.Count) {
	var parts []string
	for _, c := range cs {
		if c.N > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", c.N, c.Word))
		}
	}
	fmt.Fprintf(w, "%s: %s\n", name, strings.Join(parts, ", "))
}

// checkTable lists contacts by their governing check, and every other check.
func checkTable(w io.Writer, r *hazards.Result) {
	fmt.Fprintln(w, "\nChecks")
	tw := tabwriter.NewWriter(w, 0, 8, 2, ' ', 0)
	for i := range r.Contacts {
		c := &r.Contacts[i]
		id := c.ID
		if c.Worst >= 0 {
			id = r.Checks[c.Worst].ID
		}
		fmt.Fprintf(tw, "  %s\t%s\t%s%s\n", c.Verdict, id, c.Why, cornerOf(r, id))
		adviceLine(tw, c.Advice, true)
	}
	for i := range r.Checks {
		if c := &r.Checks[i]; r.Contact(c.Of) == nil {
			fmt.Fprintf(tw, "  %s\t%s\t%s\n", c.Verdict, c.ID, whyOf(c)+cornerOf(r, c.ID))
			adviceLine(tw, c.Advice, c.Model)
		}
	}
	tw.Flush()
}

// cornerOf names the worst corner of tolerances, with what comes out at the
// values as written; "" where there are none.
func cornerOf(r *hazards.Result, id string) string {
	n := r.NominalOf(id)
	if n == nil {
		return ""
	}
	c := r.Check(id)
	at := c.Corner
	if u := c.Outcome.Value("use"); u.Given() {
		at += " " + percent(u.Num) + " of the limit"
	}
	return "; " + at + "; at nominal values " + nominal(n.Outcome)
}

// whyOf is the reason of a verdict, behind what was worked out where there was
// nothing to compare.
func whyOf(c *hazards.Check) string {
	if o := c.Outcome; o != nil && !o.Sheet.Compares() && c.Verdict == sheet.Within {
		return "worked out: " + results(o) + "; " + c.Why
	}
	return c.Why
}

func rowTable(w io.Writer, r *hazards.Result) {
	fmt.Fprintln(w, "\nRows")
	tw := tabwriter.NewWriter(w, 0, 8, 2, ' ', 0)
	for i := range r.Rows {
		h := &r.Rows[i]
		fmt.Fprintf(tw, "  %s\t%s\t%s\t%s\n", h.ID, h.Status, levels(h), h.Why)
	}
	tw.Flush()
}

// levels are those before and after measures; before alone where the method
// knows no state after them.
func levels(h *hazards.Row) string {
	if h.After.Outcome == nil {
		return level(h.Before)
	}
	return level(h.Before) + " → " + level(h.After)
}

func level(e hazards.Estimate) string {
	if !e.Done {
		return "?"
	}
	return strings.TrimSpace(e.Score + " " + e.Level)
}

func findings(w io.Writer, r *hazards.Result) {
	if len(r.Findings) == 0 {
		return
	}
	fmt.Fprintln(w, "\nFindings")
	for _, f := range r.Findings {
		fmt.Fprintf(w, "  %s  %s\n      %s\n", f.ID, f.Message, f.Pos)
		if f.WayOut != "" {
			fmt.Fprintf(w, "      way out: %s\n", f.WayOut)
		}
	}
}

// openHazards lists the entries of the catalogue that nothing answers.
func openHazards(w io.Writer, r *hazards.Result) {
	open := r.OpenHazards()
	if len(open) == 0 {
		return
	}
	fmt.Fprintln(w, "\nHazards not answered")
	tw := tabwriter.NewWriter(w, 0, 8, 2, ' ', 0)
	for _, s := range open {
		fmt.Fprintf(tw, "  %s\t%s\n", s.Entry.ID, s.Why())
	}
	tw.Flush()
}

func openPoints(w io.Writer, r *hazards.Result) {
	if len(r.Open) == 0 {
		return
	}
	fmt.Fprintln(w, "\nOpen points")
	tw := tabwriter.NewWriter(w, 0, 8, 2, ' ', 0)
	for _, p := range r.Open {
		fmt.Fprintf(tw, "  %s\t%s\t%s\n", p.Kind, p.About, p.Message)
	}
	tw.Flush()
}

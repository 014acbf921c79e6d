package text

import (
	"fmt"
	"io"
	"strings"

	"standclear/hazards"
	"standclear/limits/expr"
	"standclear/limits/quantity"
)

// editions writes a line for each check that comes to something else by another
// edition of its sheet.
func editions(w io.Writer, r *hazards.Result) {
	head := "\nEditions side by side\n"
	for _, p := range r.Pairs() {
		if p.Same() {
			continue
		}
		fmt.Fprintf(w, "%s  %s: %s; %s%s\n", head, p.Name(), byEdition(p.First), byEdition(p.Second), change(&p))
		head = ""
	}
}

// byEdition is what an edition asks for, and its verdict.
func byEdition(c *hazards.Check) string {
	asks := "no value"
	if col, v := c.Held(); v.Kind == expr.Number {
		asks = col.Symbol + " = " + c.ShownHeld()
		if !c.Lends() {
			asks += " at least"
		}
	}
	return c.Sheet.Edition() + " " + asks + ", " + string(c.Verdict)
}

func change(p *hazards.Pair) string {
	col, v := p.Difference()
	if v.Kind != expr.Number {
		return ""
	}
	known := ""
	if !p.First.Lends() || !p.Second.Lends() {
		known = " in what is known"
	}
	if expr.Equal(v.Num, 0) {
		return "; no difference" + known
	}
	sign := "+"
	if v.Num < 0 {
		sign = "-"
	}
	return "; " + sign + strings.TrimSpace(quantity.Format(max(v.Num, -v.Num), 6)+" "+col.UnitName()) + known
}

// besides writes a check by the other editions of its sheet.
func besides(w io.Writer, r *hazards.Result, c *hazards.Check) {
	for _, p := range r.Pairs() {
		if p.Name() != c.ID {
			continue
		}
		other := p.Beside()
		fmt.Fprintf(w, "\nBeside it, by %s; it does not count\n", other.Sheet.Edition())
		fmt.Fprintln(w, wrap("Other in "+p.Second.Sheet.Edition()+": "+p.Differs()+".", 88))
		if s := other.IgnoredWords(); s != "" {
			fmt.Fprintln(w, s+".")
		}
		fmt.Fprintln(w)
		calculation(w, other.Outcome, "", "", nil)
		if other.Why != other.Outcome.Why { // what an input lacks
			fmt.Fprintf(w, "   since: %s\n", other.Why)
		}
		if s := change(&p); s != "" {
			fmt.Fprintf(w, "\n%s against %s%s\n", p.Second.Sheet.Edition(), p.First.Sheet.Edition(), strings.Replace(s, ";", ":", 1))
		}
	}
}

// Package text writes results for a terminal.
package text

import (
	"cmp"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"standclear/hazards"
	"standclear/limits/quantity"
	"standclear/limits/sheet"
	"standclear/report/words"
)

// Calc writes one outcome: result lines with symbol, formula, numbers and
// source, then verdict, reason and notes. Where inputs have tolerances it is that
// of the worst corner, which is named, with the nominal one beside it.
func Calc(w io.Writer, k *sheet.Corner) {
	calculation(w, &k.Outcome, words.Default().Advice(hazards.AdviceOf(k), k.Sheet.Group == "contact"), k.Words(), k.Nominal)
}

func calculation(w io.Writer, o *sheet.Outcome, advice, corner string, beside *sheet.Outcome) {
	s := o.Sheet
	fmt.Fprintf(w, "%s\n%s, %s\n\n", s.Title, s.ID, s.Standard)
	inputs(w, o)
	worked(w, o)
	fmt.Fprintf(w, "\nverdict: %s\n     why: %s\n", verdict(o, o.Verdict), o.Why)
	if v := o.Value("use"); v.Given() {
		fmt.Fprintf(w, "     use: %s of the limit\n", percent(v.Num))
	}
	if advice != "" {
		fmt.Fprintf(w, "  advice: %s\n", advice)
	}
	if beside != nil {
		fmt.Fprintf(w, "  corner: %s\n nominal: %s\n", corner, nominal(beside))
	}
	for _, n := range o.Notes() {
		fmt.Fprintf(w, "    note: %s\n", n.Text)
	}
	for _, m := range o.FromMemory() {
		fmt.Fprintf(w, "    open: %s\n", m)
	}
}

// verdict is the word of a verdict. Where a sheet has nothing to compare, what it
// worked out stands beside the word, so that the word praises nothing.
func verdict(o *sheet.Outcome, v sheet.Verdict) string {
	if o == nil || o.Sheet.Compares() || v != sheet.Within {
		return string(v)
	}
	return string(v) + " (worked out: " + results(o) + ")"
}

// nominal is what comes out at the values as written.
func nominal(o *sheet.Outcome) string {
	if u := o.Value("use"); u.Given() {
		return string(o.Verdict) + ", " + percent(u.Num) + " of the limit"
	}
	return verdict(o, o.Verdict)
}

// results lists the results with their values.
func results(o *sheet.Outcome) string {
	var out []string
	for _, c := range o.Sheet.Results {
		if v := o.Values[c.Slot]; v.Given() {
			out = append(out, c.Symbol+" = "+c.Show(v))
		}
	}
	return strings.Join(out, ", ")
}

// inputs lists what was given.
func inputs(w io.Writer, o *sheet.Outcome) {
	tw := tabwriter.NewWriter(w, 0, 8, 2, ' ', 0)
	for _, c := range o.Sheet.Columns {
		if v := o.Values[c.Slot]; v.Given() && (c.Role == sheet.Input || c.Role == sheet.Override) {
			fmt.Fprintf(tw, "%s\t= %s\t%s\n", c.Symbol, c.Show(v), c.Means)
		}
	}
	tw.Flush()
}

// worked lists the worked lines.
func worked(w io.Writer, o *sheet.Outcome) {
	for _, l := range o.Sheet.Worked(o) {
		fmt.Fprintf(w, "\n%s  %s\n", l.Symbol, l.Means)
		if l.Case != "" {
			fmt.Fprintf(w, "    case: %s\n", strings.ReplaceAll(l.Case, "; ", "\n          "))
		}
		if l.Formula != "" {
			fmt.Fprintf(w, "    = %s\n", l.Formula)
		}
		if l.Numbers != "" && l.Numbers != l.Formula && l.Numbers != l.Result {
			fmt.Fprintf(w, "    = %s\n", l.Numbers)
		}
		fmt.Fprintf(w, "    = %s\n", l.Result)
		fmt.Fprintf(w, "    %s\n", sourceLine(l))
	}
	shown(w, o)
}

// shown lists the values rounded to the safe side.
func shown(w io.Writer, o *sheet.Outcome) {
	for _, c := range o.Sheet.Columns {
		if v := o.Values[c.Slot]; c.Role == sheet.Shown && v.Given() {
			fmt.Fprintf(w, "\n%s  %s: %s\n", c.Symbol, c.Means, c.Show(v))
		}
	}
}

func sourceLine(l sheet.Line) string {
	if l.Standing == "" {
		return "source: " + l.Source
	}
	return fmt.Sprintf("source: %s (%s)", l.Source, l.Standing)
}

// percent writes a share, rounded up so that nothing over looks within.
func percent(x float64) string {
	return quantity.Format(quantity.RoundUp(x*100, 0.1), 6) + " %"
}

// Sheets lists the calculations.
func Sheets(w io.Writer, lib *sheet.Library) {
	tw := tabwriter.NewWriter(w, 0, 8, 2, ' ', 0)
	fmt.Fprintln(tw, "sheet\twhat\tstandard\tedition\tclause\tstanding\tchecks")
	for _, s := range lib.Sheets {
		fmt.Fprintf(tw, "%s\t%s\t%s\t%s\t%s\t%s\t%d\n", s.ID, s.Title, s.Standard.ID, orDash(s.Standard.Edition), orDash(s.Standard.Clause), s.Standing, s.PublishedChecks())
	}
	tw.Flush()
	fmt.Fprintln(w, "\nstanding: confirmed by two public sources or more; single: one; practice: common practice, no source; memory: known from memory only.\nchecks: published cases, or cases from published figures, that the sheet is tested against; those from memory do not count.")
}

func orDash(s string) string { return cmp.Or(s, "-") }

// explainSheet explains one calculation: what it takes, how it works, where from.
func explainSheet(w io.Writer, lib *sheet.Library, s *sheet.Sheet) {
	fmt.Fprintf(w, "%s: %s\n%s (%s)\n\n%s\n\nTakes\n", s.ID, s.Title, s.Standard, s.Standing, wrap(s.About, 88))
	tw := tabwriter.NewWriter(w, 0, 8, 2, ' ', 0)
	seen := map[string]bool{}
	for _, c := range s.Columns {
		if (c.Role != sheet.Input && c.Role != sheet.Override) || seen[c.Symbol+c.List] || c.Member > 0 {
			continue
		}
		name, means := c.Symbol, c.Means
		if c.List != "" {
			name, means = c.List, means+"; several with commas between them"
		}
		if r, ok := s.Ranges[c.Symbol]; ok {
			if c == r[1] {
				continue
			}
			means = strings.TrimSuffix(means, ", lowest") + "; a range is written `700..1300 " + c.UnitName() + "`"
		}
		fmt.Fprintf(tw, "  %s\t%s\t%s\n", optional(name, c.Optional), takes(c), means)
	}
	tw.Flush()
	if s.Differs != "" {
		fmt.Fprintf(w, "\nOther than in %s\n%s\n", lib.Sheet(s.ID).Edition(), wrap(s.Differs, 88))
	}
	constants(w, lib, s)
	fmt.Fprintln(w, "\nDecides")
	for _, r := range s.Rules {
		fmt.Fprintf(w, "  %-13s %s\n", r.Verdict, r.Because)
	}
	for _, e := range s.Examples {
		fmt.Fprintf(w, "\nTested against %s, case %s", e.From, e.ID)
		if e.Kind != "" && e.Kind != "published" {
			fmt.Fprintf(w, " (%s)", e.Kind)
		}
	}
	fmt.Fprintln(w)
}

// constants lists the constants of a sheet with clause, standing and the public
// sources they were read in.
func constants(w io.Writer, lib *sheet.Library, s *sheet.Sheet) {
	if len(s.Consts) == 0 {
		return
	}
	vals := s.Blank()
	fmt.Fprintln(w, "\nConstants")
	for _, c := range s.Consts {
		fmt.Fprintf(w, "  %s = %s: %s\n", c.Symbol, c.Show(vals[c.Slot]), c.Means)
		at := c.Clause
		if at != "" {
			at += " "
		}
		fmt.Fprintf(w, "      %s(%s)\n", at, c.Standing)
		for _, key := range c.Source {
			if src, ok := lib.Source(key); ok {
				fmt.Fprintf(w, "      %s\n", src.Title)
			}
		}
	}
}

func optional(name string, yes bool) string {
	if yes {
		return "[" + name + "]"
	}
	return name
}

func takes(c *sheet.Column) string {
	switch {
	case c.Of != "":
		return "id"
	case len(c.Choice) > 0:
		return strings.Join(c.Choice, ", ")
	case c.UnitName() == "":
		return "number"
	}
	return c.UnitName()
}

// wrap breaks text at blanks.
func wrap(s string, width int) string {
	var b strings.Builder
	n := 0
	for i, word := range strings.Fields(s) {
		if i > 0 && n+1+len(word) > width {
			b.WriteByte('\n')
			n = 0
		} else if i > 0 {
			b.WriteByte(' ')
			n++
		}
		b.WriteString(word)
		n += len(word)
	}
	return b.String()
}

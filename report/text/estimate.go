package text

import (
	"fmt"
	"io"
	"text/tabwriter"

	"standclear/hazards/estimate"
	"standclear/report/words"
)

// Estimate writes one estimate by a method: scores in words, how they lead to the
// level, what the level asks for, and what an estimate is not.
func Estimate(w io.Writer, m *estimate.Method, o *estimate.Outcome) {
	fmt.Fprintf(w, "%s\n%s, %s\n", m.Title, m.ID, standardOf(m))
	for _, s := range m.Settings {
		fmt.Fprintf(w, "%s: %s\n", s.Title, s.Value)
	}
	fmt.Fprintln(w)
	scores(w, m, o)
	worked(w, &o.Sheet)
	fmt.Fprintln(w)
	if o.Score != "" {
		fmt.Fprintf(w, " score: %s\n", o.Score)
	}
	fmt.Fprintf(w, " level: %s\n", o.Level)
	if a := m.Asks(o.Level); a != nil {
		fmt.Fprintf(w, "action: %s: %s%s\n", a.Action, a.Means, known(a.Standing))
	}
	fmt.Fprintln(w)
	for _, key := range cautions(m) {
		fmt.Fprintf(w, "%s\n", wrap(words.Default().Sentence(key), 88))
	}
}

// cautions are keys of sentences.
func cautions(m *estimate.Method) []string {
	keys := []string{"estimate_team", "estimate_people"}
	if !m.Residual {
		keys = append(keys, "estimate_no_residual")
	}
	return keys
}

func scores(w io.Writer, m *estimate.Method, o *estimate.Outcome) {
	tw := tabwriter.NewWriter(w, 0, 8, 2, ' ', 0)
	for i := range m.Factors {
		f := &m.Factors[i]
		v := o.Sheet.Value(f.ID)
		fmt.Fprintf(tw, "%s\t= %s\t%s: %s\n", f.ID, m.Sheet.Column(f.ID).Show(v), f.Title, f.Means(v))
		if f.Note != "" {
			fmt.Fprintf(tw, "\t\t%s\n", f.Note)
		}
	}
	tw.Flush()
}

// standardOf is the standard of a method with clause and standing.
func standardOf(m *estimate.Method) string {
	s := m.Standard
	if m.Clause != "" {
		s += ", " + m.Clause
	}
	return s + known(m.Standing)
}

func known(standing string) string {
	if standing == "" {
		return ""
	}
	return " (" + standing + ")"
}

// method explains a method: factors and scores in words, levels and actions.
func method(w io.Writer, m *estimate.Method) {
	fmt.Fprintf(w, "%s: %s\n%s\n", m.ID, m.Title, standardOf(m))
	for _, f := range m.Factors {
		fmt.Fprintf(w, "\n%s  %s\n", f.ID, f.Title)
		for _, s := range f.Scores {
			fmt.Fprintf(w, "  %3s  %s\n", s.Score, s.Means)
		}
		if f.Note != "" {
			fmt.Fprintf(w, "  %s\n", f.Note)
		}
	}
	fmt.Fprintln(w)
	for _, a := range m.Actions {
		fmt.Fprintf(w, "%s  %s: %s%s\n", a.Level, a.Action, a.Means, known(a.Standing))
	}
	if !m.Residual {
		fmt.Fprintf(w, "\n%s\n", wrap(words.Default().Sentence("estimate_no_residual"), 88))
	}
}

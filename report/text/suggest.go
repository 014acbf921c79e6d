package text

import (
	"fmt"
	"io"
	"strings"

	"standclear/hazards"
	"standclear/hazards/identify"
)

// Suggest writes the entries of the catalogue that apply, family by family, with
// the reason, and whether a row answers them; without all only those that are open.
func Suggest(w io.Writer, r *hazards.Result, all bool) {
	fmt.Fprintf(w, "%s %s: %s\n", r.File.Head.Number, r.File.Head.Title, HazardCount(r))
	family := ""
	for i := range r.Hazards {
		s := &r.Hazards[i]
		if s.Answered() && !all {
			continue
		}
		if s.Entry.Family != family {
			family = s.Entry.Family
			fmt.Fprintf(w, "\n%s\n", family)
		}
		suggestion(w, s)
	}
	if len(r.OpenHazards()) > 0 {
		fmt.Fprintln(w, "\nAnswer each by a row that names it in `covers`, or set it aside in `not_applicable` with the reason.")
	}
	fmt.Fprintln(w, "The list helps to think; it does not replace looking at the cell with the people who work there.")
}

// HazardCount says how many entries of the catalogue apply and how many are open.
func HazardCount(r *hazards.Result) string {
	return fmt.Sprintf("hazards of the catalogue: %d apply, %d open", r.Counts.Hazards, r.Counts.OpenHazards)
}

func suggestion(w io.Writer, s *identify.Suggestion) {
	e := s.Entry
	fmt.Fprintf(w, "  %s  %s\n", e.ID, answer(s))
	fmt.Fprintf(w, "      why: %s\n", s.Why())
	fmt.Fprintf(w, "      %s; %s; %s\n", e.Situation, e.Event, e.Harm)
	fmt.Fprintf(w, "      in tasks of kind: %s\n", strings.Join(e.Tasks, ", "))
	if near := s.Near(); near != "" {
		fmt.Fprintf(w, "      near: %s\n", near)
	}
	steps(w, e.Measures)
}

// steps lists the usual measures of an entry that is open to be thought about.
func steps(w io.Writer, m identify.Steps) {
	for _, step := range [][2]string{{"design", m.Design}, {"safeguard", m.Safeguard}, {"information", m.Information}} {
		if step[1] != "" {
			fmt.Fprintf(w, "      %s: %s\n", step[0], step[1])
		}
	}
}

// answer says how an entry stands.
func answer(s *identify.Suggestion) string {
	switch {
	case !s.Answered():
		return "open"
	case s.NotApplicable():
		return "set aside: " + s.Aside()
	}
	return "answered by " + strings.Join(s.Rows(), ", ")
}

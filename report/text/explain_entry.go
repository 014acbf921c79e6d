package text

import (
	"fmt"
	"io"
	"strings"

	"standclear/hazards/identify"
)

// entry writes a hazard of the catalogue: what happens, when it applies, and
// where it comes from.
func (s Shelf) entry(w io.Writer, e *identify.Entry) {
	fmt.Fprintf(w, "%s: hazard of the catalogue, family %s\n\n", e.ID, e.Family)
	fmt.Fprintf(w, "situation: %s\n    event: %s\n     harm: %s\n     body: %s\n tasks of: %s\n\nUsual measures\n",
		e.Situation, e.Event, e.Harm, strings.Join(e.Body, ", "), strings.Join(e.Tasks, ", "))
	steps(w, e.Measures)
	fmt.Fprintln(w, "\nIt applies where one of these holds")
	for _, r := range e.Rules {
		where := ""
		if r.Where != "" {
			where = " where " + r.Where
		}
		fmt.Fprintf(w, "      each of %s%s: %s\n", r.Each, where, r.Because)
	}
	fmt.Fprintf(w, "\nstanding: %s\n", e.Standing)
	for _, key := range e.Source {
		if src, ok := s.Library.Source(key); ok {
			fmt.Fprintf(w, "  %s, %s\n", src.Title, src.Address)
		}
	}
	for _, id := range e.Refs {
		for _, r := range s.Catalogue.References {
			if r.Key == id {
				fmt.Fprintf(w, "  covers %s: %s\n", r.Key, r.Value.What)
			}
		}
	}
}

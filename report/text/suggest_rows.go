package text

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"standclear/hazards"
	"standclear/hazards/identify"
)

// SuggestRows writes a row for each open entry of the catalogue, to be put under
// hazards in the assessment file. Scores, measures and decision are left to
// whoever assesses, so that each row stays open until it is thought through.
func SuggestRows(w io.Writer, r *hazards.Result) {
	next := 0
	for _, s := range r.OpenHazards() {
		for _, task := range tasksOf(s) {
			next = free(r, next+1)
			suggestedRow(w, fmt.Sprintf("H-%02d", next), task, s.Entry)
		}
	}
}

// tasksOf are the tasks whose rows would answer the open witnesses, each once.
func tasksOf(s *identify.Suggestion) []string {
	var list []string
	seen := map[string]bool{}
	for i := range s.Witnesses {
		if w := &s.Witnesses[i]; !w.Answered() && !seen[w.Task] {
			seen[w.Task] = true
			list = append(list, w.Task)
		}
	}
	return list
}

// free is the first number from n on that is no id of a row yet.
func free(r *hazards.Result, n int) int {
	for {
		if kind, _, _, _ := r.File.Find(fmt.Sprintf("H-%02d", n)); kind == "" {
			return n
		}
		n++
	}
}

func suggestedRow(w io.Writer, id, task string, e *identify.Entry) {
	fmt.Fprintf(w, "  - id: %s\n", id)
	if task == "" {
		fmt.Fprintf(w, "    task: to-be-written                   # of kind %s; or `where:` with space and people\n", strings.Join(e.Tasks, ", "))
	} else {
		fmt.Fprintf(w, "    task: %s\n", task)
	}
	fmt.Fprintf(w, "    family: %s\n    covers: [%s]\n    situation: %s\n    event: %s\n    harm: %s\n", e.Family, e.ID,
		strconv.Quote(e.Situation), strconv.Quote(e.Event), strconv.Quote(e.Harm))
	for _, m := range [][2]string{{"design", e.Measures.Design}, {"safeguard", e.Measures.Safeguard}, {"information", e.Measures.Information}} {
		if m[1] != "" {
			fmt.Fprintf(w, "    # usual %s: %s\n", m[0], m[1])
		}
	}
}

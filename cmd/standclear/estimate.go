package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"standclear/hazards/estimate"
	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/source"
	"standclear/report/json"
	"standclear/report/text"
)

func estimateCommand() *cobra.Command {
	var asJSON bool
	var house []string
	c := &cobra.Command{
		Use:   "estimate METHOD factor=score…",
		Short: "Estimate one risk by a method",
		Long: `estimate works one method of risk estimation out for scores on the command line and shows what each
score says, how the scores lead to the level, and what the level asks for. Methods of the house are
the .yaml files of the folder that --methods names, with the tables they look up in its folder tables;
an assessment names such folders under basis, methods. See ` + "`standclear explain METHOD`" + ` for factors
and scores.`,
		Example: `  standclear estimate hybrid Se=3 Fr=5 Pr=3 Av=3
  standclear estimate matrix severity=serious probability=unlikely
  standclear estimate graph S=S2 F=F1 P=P2
  standclear estimate product-b-4 LO=5 FE=2.5 DPH=4 NP=1 --json`,
		Args: cobra.MinimumNArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			shelf, err := stock(ownFolders{methods: folders(house)}, new(file.Kept))
			if err != nil {
				return err
			}
			m, o, err := estimated(shelf, args[0], args[1:])
			if err != nil {
				return err
			}
			if !asJSON {
				text.Estimate(c.OutOrStdout(), m, o)
				return nil
			}
			if err := json.Estimate(c.OutOrStdout(), m, o); err != nil {
				return writeFailure(err)
			}
			return nil
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "write JSON")
	c.Flags().StringArrayVar(&house, "methods", nil, "folder with methods of the house; may be given several times")
	return c
}

// estimated reads the scores, all problems at once, and works the method out.
func estimated(shelf estimate.Shelf, id string, given []string) (*estimate.Method, *estimate.Outcome, error) {
	m := estimate.Find(shelf.Methods, id)
	if m == nil {
		ids := estimate.IDs(shelf.Methods)
		hint := ""
		if n := source.Nearest(id, ids); n != "" {
			hint = "; did you mean " + n + "?"
		}
		return nil, nil, inputFailure("no method %s: expected one of %s%s", id, strings.Join(ids, ", "), hint)
	}
	scores := make([]expr.Value, len(m.Factors))
	var wrong []string
	seen := map[string]bool{}
	for _, g := range given {
		name, value, ok := strings.Cut(g, "=")
		name, value = strings.TrimSpace(name), strings.TrimSpace(value)
		switch {
		case !ok:
			wrong = append(wrong, fmt.Sprintf("%s: found no `=`; expected factor=score", g))
		case seen[name]:
			wrong = append(wrong, name+": given twice; expected once")
		default:
			if w := setScore(m, scores, name, value); w != "" {
				wrong = append(wrong, w)
			}
		}
		seen[name] = true
	}
	for i := range m.Factors {
		if f := &m.Factors[i]; !seen[f.ID] {
			wrong = append(wrong, fmt.Sprintf("missing: %s (%s); expected one of %s", f.ID, strings.ToLower(f.Title), strings.Join(f.ScoreNames(), ", ")))
		}
	}
	if len(wrong) > 0 {
		return nil, nil, inputFailure("%s", strings.Join(wrong, "\nstandclear: "))
	}
	o := m.Evaluate(scores)
	if !o.Done {
		return nil, nil, inputFailure("method %s gives no level for these scores: %s", m.ID, o.Sheet.Why)
	}
	return m, &o, nil
}

// setScore puts a score in its place, or says what is wrong with it.
func setScore(m *estimate.Method, scores []expr.Value, name, value string) string {
	f := m.Factor(name)
	if f == nil {
		return fmt.Sprintf("%s: method %s has no such factor; expected one of %s%s", name, m.ID, strings.Join(m.FactorIDs(), ", "), nearest(name, m.FactorIDs()))
	}
	v, ok := f.Read(value)
	if !ok {
		return fmt.Sprintf("%s: found `%s`; expected one of %s%s", name, value, strings.Join(f.ScoreNames(), ", "), nearest(value, f.ScoreNames()))
	}
	for i := range m.Factors {
		if &m.Factors[i] == f {
			scores[i] = v
		}
	}
	return ""
}

func nearest(text string, allowed []string) string {
	if n := source.Nearest(text, allowed); n != "" {
		return " (did you mean " + n + "?)"
	}
	return ""
}

package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"standclear/hazards"
	"standclear/hazards/estimate"
	"standclear/hazards/identify"
	"standclear/limits/source"
	"standclear/report/text"
	"standclear/templates"
)

func explainCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "explain [FILE] ID",
		Short: "Explain a sheet, a finding, a method or a hazard of the catalogue; with a file, one of its rows, contacts, checks or values",
		Example: `  standclear explain light-curtain
  standclear explain CO-01
  standclear explain cell.yaml H-07`,
		Args: cobra.RangeArgs(1, 2),
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) == 1 {
				return explain(c.OutOrStdout(), args[0])
			}
			r, _, err := assess(args[0])
			if err != nil {
				return err
			}
			if text.ExplainIn(c.OutOrStdout(), r, args[1]) {
				return nil
			}
			return inputFailure("%s: found nothing called %s; expected the id of a row, contact or check, or the path of a value such as arm.mass", args[0], args[1])
		},
	}
}

func explain(w io.Writer, id string) error {
	s := shelf()
	if s.Explain(w, id) {
		return nil
	}
	hint := ""
	if n := source.Nearest(id, s.IDs()); n != "" {
		hint = "; did you mean " + n + "?"
	}
	return inputFailure("nothing is called %s: expected the id of a sheet, finding, method, table, constant, kind of measure or hazard of the catalogue%s", id, hint)
}

// shelf loads what can be explained. A problem in it is an internal error.
func shelf() text.Shelf {
	s := text.Shelf{Library: library()}
	methods, problems := estimate.Load(templates.FS, s.Library)
	texts, more := hazards.LoadFindingTexts(templates.FS)
	catalogue, most := identify.Load(templates.FS)
	if problems = append(append(problems, more...), most...); len(problems) > 0 {
		panic(fmt.Sprintf("embedded data: %s: %s", problems[0].Pos, problems[0].Message))
	}
	s.Methods, s.Findings, s.Catalogue = methods, texts, catalogue
	return s
}

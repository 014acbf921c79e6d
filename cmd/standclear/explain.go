package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"standclear/hazards"
	"standclear/hazards/estimate"
	"standclear/hazards/file"
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
			own, err := stock(ownOf(args[0], r.File), new(file.Kept))
			if err != nil {
				return err
			}
			if shelf(own).Explain(c.OutOrStdout(), args[1]) {
				return nil
			}
			return inputFailure("%s: found nothing called %s; expected the id of a row, contact or check, the path of a value such as arm.mass, or what `explain` knows without a file", args[0], args[1])
		},
	}
}

func explain(w io.Writer, id string) error {
	s := shelf(estimate.Shelf{})
	if s.Explain(w, id) {
		return nil
	}
	hint := ""
	if n := source.Nearest(id, s.IDs()); n != "" {
		hint = "; did you mean " + n + "?"
	}
	return inputFailure("nothing is called %s: expected the id of a sheet, finding, method, table, constant, kind of measure or hazard of the catalogue%s", id, hint)
}

// shelf loads what can be explained: with the library and methods of an
// assessment, or those built in. A problem in the embedded data is an internal
// error.
func shelf(own estimate.Shelf) text.Shelf {
	if own.Library == nil {
		own, _ = stock(ownFolders{}, new(file.Kept))
	}
	texts, problems := hazards.LoadFindingTexts(templates.FS)
	catalogue, more := identify.Load(templates.FS)
	if problems = append(problems, more...); len(problems) > 0 {
		panic(fmt.Sprintf("embedded data: %s: %s", problems[0].Pos, problems[0].Message))
	}
	return text.Shelf{Library: own.Library, Methods: own.Methods, Findings: texts, Catalogue: catalogue}
}

package main

import (
	"github.com/spf13/cobra"

	"standclear/report/json"
	"standclear/report/text"
)

func suggestCommand() *cobra.Command {
	var all, asJSON, asRows bool
	c := &cobra.Command{
		Use:   "suggest FILE",
		Short: "List the hazards of the catalogue that apply to a cell and are not answered",
		Long: `suggest holds the catalogue of hazards against the cell of an assessment file. Each entry names what in
the cell bears witness. An entry is answered by a row that names it in ` + "`covers`" + ` and belongs to a fitting
kind of task, or set aside in ` + "`not_applicable`" + ` with a reason. While one is open the document is not ready.`,
		Example: "  standclear suggest cell.yaml\n  standclear suggest cell.yaml --all --json\n  standclear suggest cell.yaml --rows",
		Args:    cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			r, _, err := assess(args[0])
			if err != nil {
				return err
			}
			switch {
			case asRows && (asJSON || all):
				return inputFailure("found --rows with --json or --all; expected --rows alone")
			case asRows:
				text.SuggestRows(c.OutOrStdout(), r)
			case asJSON:
				if err := json.Suggest(c.OutOrStdout(), r, all); err != nil {
					return writeFailure(err)
				}
			default:
				text.Suggest(c.OutOrStdout(), r, all)
			}
			if r.Counts.OpenHazards > 0 {
				return findings
			}
			return nil
		},
	}
	c.Flags().BoolVar(&all, "all", false, "list those that are answered too")
	c.Flags().BoolVar(&asJSON, "json", false, "write JSON")
	c.Flags().BoolVar(&asRows, "rows", false, "write the open ones as rows of an assessment file, to be scored and decided")
	return c
}

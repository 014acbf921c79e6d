package main

import (
	"github.com/spf13/cobra"

	"standclear/hazards"
	"standclear/report/json"
	"standclear/report/text"
)

func checkCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:     "check FILE",
		Short:   "Judge an assessment file and list what stands against release",
		Example: "  standclear check cell.yaml\n  standclear check cell.yaml --json",
		Args:    cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			r, _, err := assess(args[0])
			if err != nil {
				return err
			}
			if asJSON {
				if err := json.Check(c.OutOrStdout(), r, nil); err != nil {
					return writeFailure(err)
				}
			} else {
				text.Check(c.OutOrStdout(), r)
			}
			if r.Document == hazards.Reviewed && r.Counts.Findings+r.Counts.Open == 0 {
				return nil
			}
			return findings
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "write JSON")
	return c
}

package main

import (
	"github.com/spf13/cobra"

	"standclear/report/json"
	"standclear/report/text"
)

func sheetsCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "sheets",
		Short: "List the calculations with standard, clause and standing",
		Args:  cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			if !asJSON {
				text.Sheets(c.OutOrStdout(), library())
				return nil
			}
			if err := json.Sheets(c.OutOrStdout(), library()); err != nil {
				return writeFailure(err)
			}
			return nil
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "write JSON")
	return c
}

func versionCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "Print the version",
		Args:  cobra.NoArgs,
		Run:   func(c *cobra.Command, _ []string) { c.Println("standclear " + Version) },
	}
}

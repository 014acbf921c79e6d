package main

import (
	"io"
	"path/filepath"

	"github.com/spf13/cobra"

	"standclear/hazards/file"
	"standclear/templates"
)

func demoCommand() *cobra.Command {
	var dir string
	var overwrite bool
	c := &cobra.Command{
		Use:     "demo",
		Short:   "Write the embedded demo cell: assessment file, workbook, summary and JSON",
		Example: "  standclear demo -o out",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			data, err := templates.FS.ReadFile("cells/demo.yaml")
			if err != nil {
				return writeFailure(err)
			}
			path := filepath.Join(dir, "demo.yaml")
			a, problems := file.Load(path, data)
			if len(problems) > 0 {
				return refused(path, data, problems)
			}
			r, err := assessLoaded(path, a, data)
			if err != nil {
				return err
			}
			return write(c.OutOrStdout(), r, outputs{dir: dir, overwrite: overwrite, data: data,
				also: []output{{"demo.yaml", func(w io.Writer) error { _, err := w.Write(data); return err }}}})
		},
	}
	c.Flags().StringVarP(&dir, "output", "o", "standclear-demo", "folder for the outputs")
	c.Flags().BoolVar(&overwrite, "overwrite", false, "replace a workbook even if it was edited since it was built")
	return c
}

package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/limits/source"
	"standclear/report/json"
	"standclear/report/text"
)

func calcCommand() *cobra.Command {
	var asJSON bool
	var edition string
	var sheets, tables, contact []string
	c := &cobra.Command{
		Use:   "calc SHEET name=\"value unit\"…",
		Short: "Work out one calculation sheet",
		Long: `calc works out one sheet from inputs on the command line and shows symbol, formula, numbers,
result and source. A dimensional input needs its unit; one with a tolerance, such as
M="18.2 kg ± 0.4 kg", counts at the end that is the worse one. See ` + "`standclear sheets`" + ` for the sheets
and ` + "`standclear explain SHEET`" + ` for the inputs of one.`,
		Example: `  standclear calc light-curtain T="0.311 s" d="30 mm" available="700 mm" C_RO="0 mm" under=no behind=no
  standclear calc contact-transient area=palm-d M="18.2 kg" m_L="1.3 kg" A="1.4 cm2" v="250 mm/s"`,
		Args: cobra.MinimumNArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			shelf, err := stock(ownFolders{sheets: folders(sheets), tables: folders(tables), contact: folders(contact)}, new(file.Kept))
			if err != nil {
				return err
			}
			k, err := calculate(shelf.Library, args[0], edition, args[1:])
			if err != nil {
				return err
			}
			if asJSON {
				if err := json.Calc(c.OutOrStdout(), k); err != nil {
					return writeFailure(err)
				}
				return nil
			}
			text.Calc(c.OutOrStdout(), k)
			return nil
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "write JSON")
	c.Flags().StringVar(&edition, "edition", "", "edition of the standard, such as iso-13855-2010")
	c.Flags().StringArrayVar(&sheets, "sheets", nil, "folder with sheets of the house; may be given several times")
	c.Flags().StringArrayVar(&tables, "tables", nil, "folder with tables of the house; may be given several times")
	c.Flags().StringArrayVar(&contact, "contact-data", nil, "file or folder with contact data of the house; may be given several times")
	return c
}

// calculate sets the inputs, all problems at once, and works the sheet out at the
// worst corner of their tolerances.
func calculate(lib *sheet.Library, id, edition string, given []string) (*sheet.Corner, error) {
	s, err := pickSheet(lib, id, edition)
	if err != nil {
		return nil, err
	}
	vals := s.Blank()
	var wrong []string
	var loose []sheet.Loose
	seen := map[string]bool{}
	for _, g := range given {
		name, value, ok := strings.Cut(g, "=")
		name = strings.TrimSpace(name)
		switch {
		case !ok:
			wrong = append(wrong, fmt.Sprintf("%s: found no `=`; expected name=\"value unit\"", g))
		case seen[name]:
			wrong = append(wrong, name+": given twice; expected once")
		default:
			ends, err := s.Loosen(name, value)
			if first := s.Set(vals, name, value); first != nil {
				err = first
			}
			if err != nil {
				wrong = append(wrong, err.Error())
			}
			loose = append(loose, ends...)
		}
		seen[name] = true
	}
	if len(wrong) == 0 {
		wrong = missing(s, vals)
	}
	if len(wrong) > 0 {
		return nil, inputFailure("%s", strings.Join(wrong, "\nstandclear: "))
	}
	k := s.Worst(vals, loose)
	return &k, nil
}

func missing(s *sheet.Sheet, vals []expr.Value) []string {
	var out []string
	for _, m := range s.Unset(vals) {
		out = append(out, "missing: "+m)
	}
	return out
}

func pickSheet(lib *sheet.Library, id, edition string) (*sheet.Sheet, error) {
	s := lib.Sheet(id)
	if s == nil {
		hint := ""
		if n := source.Nearest(id, sheetIDs(lib)); n != "" {
			hint = "; did you mean " + n + "?"
		}
		return nil, inputFailure("no sheet %s%s\nTry `standclear sheets`.", id, hint)
	}
	if edition == "" {
		return s, nil
	}
	if of := lib.SheetOf(id, edition); of != nil {
		return of, nil
	}
	return nil, inputFailure("sheet %s: found edition %s, expected %s", id, edition, strings.Join(lib.EditionNames(id), " or "))
}

func sheetIDs(lib *sheet.Library) []string {
	var ids []string
	for _, s := range lib.Sheets {
		ids = append(ids, s.ID)
	}
	return ids
}

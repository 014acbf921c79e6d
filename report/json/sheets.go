package json

import (
	"io"

	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// Sheets writes the calculations with their inputs and results.
func Sheets(w io.Writer, lib *sheet.Library) error {
	out := []object{}
	for _, s := range lib.Sheets {
		var in, res []object
		for _, name := range s.InputNames() {
			c := columns(s, name)[0]
			o := object{{"name", name}, {"means", c.Means}, {"optional", c.Optional}}
			if c.Type.Kind == expr.Number {
				o = append(o, member{"unit", c.UnitName()})
			} else {
				o = append(o, member{"choice", list(c.Choice)})
			}
			in = append(in, o)
		}
		for _, c := range s.Results {
			o := object{{"name", c.Symbol}, {"means", c.Means}}
			if c.Type.Kind == expr.Number {
				o = append(o, member{"unit", c.UnitName()})
			}
			res = append(res, o)
		}
		out = append(out, object{
			{"sheet", s.ID}, {"title", s.Title}, {"standard", s.Standard.ID}, {"edition", s.Standard.Edition},
			{"clause", s.Standard.Clause}, {"standing", s.Standing}, {"published_checks", s.PublishedChecks()},
			{"inputs", list(in)}, {"results", list(res)},
		})
	}
	return encode(w, out)
}

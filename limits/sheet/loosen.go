package sheet

import (
	"strings"

	"standclear/limits/expr"
	"standclear/limits/quantity"
)

// Loosen reads the tolerances in a text that Set has taken: one for an input,
// several for a list, both ends of a range, which a tolerance makes wider. Both
// ends of a tolerance have to be possible.
func (s *Sheet) Loosen(name, text string) ([]Loose, error) {
	if r, ok := s.Ranges[name]; ok {
		return wider(r, text)
	}
	columns, items := s.Lists[name], []string{text}
	if columns != nil {
		items = strings.Split(text, ",")
	} else if c := s.Input(name); c != nil {
		columns = []*Column{c}
	}
	var out []Loose
	for i, item := range items[:min(len(items), len(columns))] {
		c := columns[i]
		if c.number != nil {
			c = c.number
		}
		q, err := quantity.Parse(strings.TrimSpace(item))
		if err != nil || q.Tol == nil || q.Tol.Sign() == 0 || c.Type.Kind != expr.Number {
			continue
		}
		low, high, err := c.ends(q)
		if err != nil {
			return nil, err
		}
		q.Tol = nil
		rest, _ := q.In(c.Type.Unit)
		ends, known := c.Ends(low, high)
		out = append(out, Loose{Column: c, Rest: expr.Value{Kind: expr.Number, Num: rest}, Ends: ends, Known: known})
	}
	return out, nil
}

// ends are both ends of a tolerance as values.
func (c *Column) ends(q quantity.Quantity) (low, high expr.Value, err error) {
	vals := make([]expr.Value, c.Slot+1)
	if err = c.setQuantity(vals, q.Low()); err != nil {
		return low, high, err
	}
	low = vals[c.Slot]
	err = c.setQuantity(vals, q.High())
	return low, vals[c.Slot], err
}

// wider is a range whose ends have tolerances.
func wider(r [2]*Column, text string) ([]Loose, error) {
	lo, hi, err := quantity.ParseRange(text)
	if err != nil {
		return nil, inputError(r[0].Symbol, err, r[0])
	}
	var out []Loose
	for i, q := range []quantity.Quantity{lo, hi} {
		if q.Tol == nil || q.Tol.Sign() == 0 {
			continue
		}
		low, high, err := r[i].ends(q)
		if err != nil {
			return nil, err
		}
		q.Tol = nil
		rest, _ := q.In(r[i].Type.Unit)
		out = append(out, r[i].Wider(i == 0, expr.Value{Kind: expr.Number, Num: rest}, low, high))
	}
	return out, nil
}

// Wider is an end of a range with a tolerance: only what makes the range wider counts.
func (c *Column) Wider(lowest bool, rest, low, high expr.Value) Loose {
	e := End{high, "up"}
	if lowest {
		e = End{low, "down"}
	}
	return Loose{Column: c, Rest: rest, Ends: []End{e}, Known: true}
}

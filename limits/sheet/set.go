package sheet

import (
	"fmt"
	"slices"
	"strings"

	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/source"
)

// InputError says what is wrong with an input that was typed in.
type InputError struct{ Name, Message, Expected, Hint string }

// Error gives message, expectation and hint on one line.
func (e *InputError) Error() string {
	s := e.Name + ": " + e.Message
	if e.Expected != "" {
		s += "; expected " + e.Expected
	}
	if e.Hint != "" {
		s += " (" + e.Hint + ")"
	}
	return s
}

// Set puts a text such as "0.31 s", "700..2000 mm" or "d, e" at the input that
// a user calls name. A dimensional input needs its unit.
func (s *Sheet) Set(vals []expr.Value, name, text string) error {
	text = strings.TrimSpace(text)
	if list, ok := s.Lists[name]; ok {
		return setList(vals, name, list, text)
	}
	if r, ok := s.Ranges[name]; ok {
		return setRange(vals, name, r, text)
	}
	c := s.Input(name)
	if c == nil {
		names := s.InputNames()
		return &InputError{Name: name, Message: "sheet " + s.ID + " has no such input", Expected: "one of " + strings.Join(names, ", "), Hint: nearest(name, names)}
	}
	return c.Set(vals, text)
}

func setList(vals []expr.Value, name string, list []*Column, text string) error {
	items := strings.Split(text, ",")
	if len(items) > len(list) {
		return &InputError{Name: name, Message: fmt.Sprintf("found %d members", len(items)), Expected: fmt.Sprintf("at most %d", len(list))}
	}
	for i, item := range items {
		if err := list[i].Set(vals, strings.TrimSpace(item)); err != nil {
			return err
		}
	}
	return nil
}

func setRange(vals []expr.Value, name string, r [2]*Column, text string) error {
	lo, hi, err := quantity.ParseRange(text)
	if err != nil {
		return inputError(name, err, r[0])
	}
	for i, q := range []quantity.Quantity{lo.Low(), hi.High()} { // a tolerance makes the range wider
		if err := r[i].setQuantity(vals, q); err != nil {
			return err
		}
	}
	return nil
}

// Set puts a text at the column, after checking unit, bounds and choice. Where a
// word or a number may be given, a number goes to the column of the number. Of a
// tolerance the end is put that the sheet expects to be the worse one; Loosen
// tells of both, and Worst finds the one that is.
func (c *Column) Set(vals []expr.Value, text string) error {
	if c.Type.Kind == expr.Text {
		if _, err := quantity.Parse(text); err == nil && c.number != nil {
			return c.number.Set(vals, text)
		}
		if !slices.Contains(c.Choice, text) {
			return &InputError{Name: c.Symbol, Message: "found " + show(text), Expected: "one of " + strings.Join(c.Choice, ", "), Hint: nearest(text, c.Choice)}
		}
		vals[c.Slot] = expr.Value{Kind: expr.Text, Text: text}
		return nil
	}
	q, err := quantity.Parse(text)
	if err != nil {
		return inputError(c.Symbol, err, c)
	}
	return c.setQuantity(vals, c.firstEnd(q))
}

// firstEnd is a quantity at the end of its tolerance that the sheet expects to be
// the worse one; as it is where the sheet does not say.
func (c *Column) firstEnd(q quantity.Quantity) quantity.Quantity {
	switch {
	case c.Adjust == "up":
		return q.Low()
	case c.Adjust == "down":
		return q.High()
	}
	return q
}

// ForNumber is the column that takes a number where this one takes a word of the
// same thing, nil where there is none.
func (c *Column) ForNumber() *Column { return c.number }

// setQuantity puts a quantity at the column, after checking unit and bounds.
func (c *Column) setQuantity(vals []expr.Value, q quantity.Quantity) error {
	x, err := q.In(c.Type.Unit)
	if err != nil {
		return &InputError{Name: c.Symbol, Message: "found " + q.Text, Expected: c.expects()}
	}
	v := expr.Value{Kind: expr.Number, Num: x}
	if err := c.Possible(v); err != nil {
		return err
	}
	vals[c.Slot] = v
	return nil
}

// Possible gives an InputError for a value outside the physical bounds.
func (c *Column) Possible(v expr.Value) error {
	if v.Kind == expr.Number && !c.Bounds.possible(v.Num) {
		return &InputError{Name: c.Symbol, Message: "found " + c.Show(v), Expected: c.Bounds.physical(c.Type.Unit)}
	}
	return nil
}

// expects names the unit of the column in words.
func (c *Column) expects() string {
	if u := c.UnitName(); u != "" {
		return "a number with its unit, such as `1 " + u + "`"
	}
	return "a plain number without unit"
}

func inputError(name string, err error, c *Column) error {
	e := &InputError{Name: name, Message: err.Error(), Expected: c.expects()}
	if qe, ok := err.(*quantity.Error); ok {
		e.Message, e.Hint = qe.Message, qe.Hint
	}
	return e
}

func show(text string) string {
	if text == "" {
		return "nothing"
	}
	return "`" + text + "`"
}

func nearest(text string, allowed []string) string {
	if n := source.Nearest(text, allowed); n != "" {
		return "did you mean " + n + "?"
	}
	return ""
}

// Unset lists required inputs that have no value, in words.
func (s *Sheet) Unset(vals []expr.Value) []string {
	var out []string
	for _, c := range s.Columns {
		if c.Role == Input && !c.Optional && !vals[c.Slot].Given() {
			name := c.Symbol
			if c.List != "" {
				name = c.List
			}
			out = append(out, strings.TrimSpace(name+" ("+c.Means+") "+c.UnitName()))
		}
	}
	for _, r := range s.rules {
		if r.verdict == NotDecided && strings.HasPrefix(r.because, missingOneOf) && r.test(vals) {
			out = append(out, strings.TrimPrefix(r.because, missingOneOf))
		}
	}
	return out
}

const missingOneOf = "missing: "

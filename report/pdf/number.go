package pdf

import (
	"math"

	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/sheet"
)

// side is the side to which a number is rounded for display.
type side int8

const (
	nearest side = iota
	upward
	downward
)

// digits of a number that no sheet rounds itself; numbers from 100 on are whole.
const digits = 3

// number shows v with three digits, rounded to a side.
func number(v float64, s side) string {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return quantity.Format(v, digits)
	}
	power := math.Floor(math.Log10(math.Abs(v)))
	step := math.Pow(10, math.Min(power-digits+1, 0))
	switch s {
	case upward:
		v = quantity.RoundUp(v, step)
	case downward:
		v = quantity.RoundDown(v, step)
	default:
		v = math.Round(v/step) * step
	}
	return pretty(quantity.Format(v, 12))
}

// figure shows a result or input of a check by name, "" when there is none. The
// sheet's own display rounded to the safe side goes before any other rounding.
func figure(o *sheet.Outcome, s side, names ...string) string {
	if o == nil || o.Sheet == nil {
		return ""
	}
	for _, n := range names {
		for _, name := range []string{n + "_shown", n, n + "_given"} {
			v := o.Value(name)
			switch {
			case v.Kind == expr.Number && name == n+"_shown":
				return pretty(quantity.Format(v.Num, 12))
			case v.Kind == expr.Number:
				return number(v.Num, s)
			case v.Kind == expr.Text:
				return v.Text
			}
		}
	}
	return ""
}

// has tells whether a sheet has a column of the name.
func has(s *sheet.Sheet, name string) bool { return s != nil && s.Column(name) != nil }

// percent shows a share of a limit, rounded up.
func percent(share float64) string {
	return quantity.Format(quantity.RoundUp(share*100, 1), 12) + " %"
}

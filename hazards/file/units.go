package file

import (
	"cmp"
	"fmt"
	"math/big"
	"regexp"
	"strings"

	"standclear/limits/quantity"
)

// amounts checks every amount against the unit its key asks for.
func (c *checker) amounts() {
	for _, e := range c.ix.entries {
		for _, t := range e.Amount.Terms {
			c.amountTerm(e, t)
		}
		if e.Amount.From != "" && onlyPaths(e.Amount.Terms) {
			c.originOfPath(e.Amount.Node())
		}
	}
}

func onlyPaths(terms []Term) bool {
	for _, t := range terms {
		if t.Path == "" {
			return false
		}
	}
	return len(terms) > 0
}

func (c *checker) amountTerm(e *Entry, t Term) {
	switch {
	case t.Path == "":
		if message, expected, hint := unfit(t.Quantity, e.Unit); message != "" {
			c.addAt(t, message, expected, hint)
		} else if message, expected := senseless(t.Quantity, e); message != "" {
			c.addAt(t, message, expected, "")
		}
	case c.isResult(t):
		c.resultPath(e, t)
	default:
		u, ok := c.path(t)
		if ok && !sameKind(u, e.Unit) {
			c.addAt(t, "`"+t.Path+"` is "+describe(u), describe(e.Unit), "")
		}
	}
}

// unfit says why a quantity does not fit a unit; the message is "" when it does.
func unfit(q quantity.Quantity, want quantity.Unit) (message, expected, hint string) {
	number := numberOf(q)
	found := "found `" + clip(q.Text) + "`"
	switch {
	case want.Name == "" && q.Unit.Name != "":
		return found + ", a quantity with a unit", "a plain number such as `" + number + "`", ""
	case want.Name == "":
		return "", "", ""
	case want.Name == "%" && q.Unit.Name != "%":
		return found, "a share such as `66 %`", ""
	case q.Unit.Name == "" && want.Dim != q.Unit.Dim:
		return found, "a number with a unit such as `" + number + " " + want.Name + "`", ""
	case q.Unit.Dim != want.Dim:
		return found + ", " + describe(q.Unit), describe(want) + " such as `" + number + " " + want.Name + "`", unitHint(q, want)
	}
	return "", "", ""
}

// numberText is a number at the start of a quantity as it was written.
var numberText = regexp.MustCompile(`^[+-]?[0-9]+(\.[0-9]+)?([eE][+-]?[0-9]+)?`)

// numberOf is the number of a quantity as it was written.
func numberOf(q quantity.Quantity) string {
	return cmp.Or(numberText.FindString(q.Text), quantity.Decimal(q.Num))
}

// unitHint finds the unit of which the end was left out: mm for mm/s.
func unitHint(q quantity.Quantity, want quantity.Unit) string {
	for _, end := range []string{"/s", "2", "/mm", "/cm2", "/mm2"} {
		if u, err := quantity.ParseUnit(q.Unit.Name + end); err == nil && u.Dim == want.Dim {
			return "did you mean `" + numberOf(q) + " " + u.Name + "`?"
		}
	}
	return ""
}

// coldest is absolute zero; SI brochure, 273.15 K by definition of degC.
var coldest = mustQuantity("-273.15 degC")

// senseless says why a quantity cannot be, whatever the cell.
func senseless(q quantity.Quantity, e *Entry) (message, expected string) {
	found := "found `" + clip(q.Text) + "`"
	switch low := value(q.Low()); {
	case e.Unit.Dim == coldest.Unit.Dim:
		if low.Cmp(value(coldest)) < 0 {
			return found + ", colder than anything can be", "a temperature such as `22 degC`"
		}
	case e.signed:
	case q.Num.Sign() < 0:
		return found + ", which is negative", noun(e.Unit) + " of zero or more"
	case low.Sign() < 0:
		return found + ", whose tolerance is larger than its value", "a tolerance below the value"
	}
	if e.below != nil && value(q.High()).Cmp(value(*e.below)) >= 0 {
		return found, "a number below " + e.below.Text + ", such as `8.0e-8`"
	}
	return "", ""
}

// value is the exact value in base units.
func value(q quantity.Quantity) *big.Rat { return new(big.Rat).Mul(q.Num, q.Unit.Scale) }

// sameKind says whether a value of one unit can stand where the other is asked
// for. A share is not a plain number.
func sameKind(a, b quantity.Unit) bool {
	return a.Dim == b.Dim && (a.Name == "%") == (b.Name == "%")
}

// nouns name dimensions by a unit that has them.
var nouns = []struct{ unit, noun string }{
	{"mm", "a length"}, {"kg", "a mass"}, {"s", "a time"}, {"mm/s", "a speed"}, {"mm/s2", "an acceleration"},
	{"N", "a force"}, {"cm2", "an area"}, {"N/mm", "a stiffness"}, {"N/cm2", "a pressure"}, {"degC", "a temperature"},
	{"deg", "an angle"}, {"J", "an energy"}, {"1/h", "a rate"}, {"mm3", "a volume"}, {"W", "a power"},
}

// noun names the dimension of a unit.
func noun(u quantity.Unit) string {
	if u.Name == "%" {
		return "a share"
	}
	if u.Dim == quantity.One.Dim {
		return "a plain number"
	}
	for _, n := range nouns {
		if mustUnit(n.unit).Dim == u.Dim {
			return n.noun
		}
	}
	return "a quantity"
}

// describe names a unit with its dimension: "a speed in mm/s".
func describe(u quantity.Unit) string {
	switch {
	case u.Name == "%":
		return "a share in %"
	case u.Dim == quantity.One.Dim:
		return "a plain number"
	}
	return fmt.Sprintf("%s in %s", noun(u), strings.TrimSpace(u.Name))
}

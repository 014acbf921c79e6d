package quantity

import (
	"fmt"
	"math/big"
	"strings"
)

// Quantity is an exact number with a unit. Tol, in the same unit, is nil where
// no tolerance was stated. Text is the quantity as written.
type Quantity struct {
	Num  *big.Rat
	Unit Unit
	Tol  *big.Rat
	Text string
}

// In is the float64 nearest to the exact value in u. The error is an *Error and
// says that the dimensions differ.
func (q Quantity) In(u Unit) (float64, error) {
	if q.Unit.Dim != u.Dim {
		return 0, differ(q.Unit, u)
	}
	r := new(big.Rat).Mul(q.Num, q.Unit.Scale)
	f, _ := r.Quo(r, u.Scale).Float64()
	return f, nil
}

// Add is the sum in the unit of q; tolerances add up, the worst case. The error
// is an *Error and says that the dimensions differ.
func (q Quantity) Add(o Quantity) (Quantity, error) {
	if q.Unit.Dim != o.Unit.Dim {
		return Quantity{}, differ(o.Unit, q.Unit)
	}
	ratio := new(big.Rat).Quo(o.Unit.Scale, q.Unit.Scale)
	sum := Quantity{Unit: q.Unit, Tol: q.Tol, Text: q.Text + " + " + o.Text}
	sum.Num = new(big.Rat).Mul(o.Num, ratio)
	sum.Num.Add(sum.Num, q.Num)
	if o.Tol != nil {
		t := new(big.Rat).Mul(o.Tol, ratio)
		if q.Tol != nil {
			t.Add(t, q.Tol)
		}
		sum.Tol = t
	}
	return sum, nil
}

// High is the quantity at the upper end of its tolerance.
func (q Quantity) High() Quantity { return q.end((*big.Rat).Add) }

// Low is the quantity at the lower end of its tolerance.
func (q Quantity) Low() Quantity { return q.end((*big.Rat).Sub) }

func (q Quantity) end(op func(z, x, y *big.Rat) *big.Rat) Quantity {
	if q.Tol != nil {
		q.Num = op(new(big.Rat), q.Num, q.Tol)
		q.Tol = nil
		q.Text = strings.TrimSpace(Decimal(q.Num) + " " + q.Unit.Name)
	}
	return q
}

// Describe names the unit in a sentence.
func (u Unit) Describe() string {
	if u.Name == "" {
		return "a plain number"
	}
	return u.Name
}

func differ(found, wanted Unit) error {
	e := &Error{
		Message:  fmt.Sprintf("%s cannot be turned into %s", found.Describe(), wanted.Describe()),
		Expected: "a quantity in " + wanted.Name,
	}
	switch {
	case wanted.Name == "":
		e.Expected = "a plain number"
	case found.Name == "":
		e.Message = "unit missing"
	}
	return e
}

package quantity

import (
	"fmt"
	"math/big"
	"strings"
)

// CanonicalUnit is the unit in which evidence states a dimension: products of
// mm, kg, s, N, degC and deg, with N wherever a mass meets an acceleration.
func CanonicalUnit(d Dim) Unit {
	l, m, t, n := int(d[0]), int(d[1]), int(d[2]), 0
	for m > 0 && t <= -2 {
		n, m, l, t = n+1, m-1, l-1, t+2
	}
	for m < 0 && t >= 2 {
		n, m, l, t = n-1, m+1, l+1, t-2
	}
	names := []string{"N", "kg", "mm", "s", "degC", "deg"}
	exps := []int{n, m, l, t, int(d[3]), int(d[4])}
	var top, bottom []string
	for i, e := range exps {
		switch {
		case e > 0:
			top = append(top, power1(names[i], e))
		case e < 0:
			bottom = append(bottom, power1(names[i], -e))
		}
	}
	u := Unit{Dim: d, Scale: RatPow(big.NewRat(1, 1000), l), Name: strings.Join(top, "*")}
	if len(bottom) == 0 {
		return u
	}
	if u.Name == "" {
		u.Name = "1"
	}
	below := strings.Join(bottom, "*")
	if len(bottom) > 1 {
		below = "(" + below + ")"
	}
	u.Name += "/" + below
	return u
}

// power1 writes a power as the unit grammar has it; powers above its reach are
// written as a product.
func power1(name string, e int) string {
	switch {
	case e == 1:
		return name
	case e <= maxExponent:
		return fmt.Sprintf("%s%d", name, e)
	}
	return fmt.Sprintf("%s%d*%s", name, maxExponent, power1(name, e-maxExponent))
}

// Canonical writes the exact value in canonical units, with its tolerance: a
// plain decimal where it has one, else p/q. Equal values have equal texts.
func (q Quantity) Canonical() string {
	u := CanonicalUnit(q.Unit.Dim)
	s := canonical(q.Num, q.Unit, u)
	if q.Tol != nil && q.Tol.Sign() != 0 {
		s += " ± " + canonical(q.Tol, q.Unit, u)
	}
	return s
}

func canonical(v *big.Rat, from, to Unit) string {
	r := new(big.Rat).Mul(v, from.Scale)
	s := Decimal(r.Quo(r, to.Scale))
	if to.Name == "" {
		return s
	}
	return s + " " + to.Name
}

// Decimal writes r exactly: a plain decimal where it has one, else p/q.
func Decimal(r *big.Rat) string {
	if n, finite := r.FloatPrec(); finite {
		return r.FloatString(n)
	}
	return r.String()
}

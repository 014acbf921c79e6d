// Package quantity reads, converts and prints quantities exactly.
//
// A quantity stays a rational number until it enters a formula, so 1545.6 mm
// and 1.5456 m are one value, whichever way it was written.
package quantity

import (
	"fmt"
	"math/big"
	"sort"
	"strings"
)

// Dim holds the exponents of length, mass, time, temperature and angle.
// Temperature and angle are dimensions of their own: a temperature is never
// offset, an angle is never mistaken for a plain number.
type Dim [5]int8

// Unit is a named unit. One of it is Scale base units (m, kg, s, degC, deg and
// their products).
type Unit struct {
	Name  string
	Dim   Dim
	Scale *big.Rat
}

// One is the unit of a plain number.
var One = Unit{Scale: big.NewRat(1, 1)}

// Error tells what was found, what was expected and, where one can be given,
// what to write instead.
type Error struct {
	Message, Expected, Hint string
}

// Error joins the parts into one line.
func (e *Error) Error() string {
	s := e.Message
	if e.Expected != "" {
		s += "; expected " + e.Expected
	}
	if e.Hint != "" {
		s += "; " + e.Hint
	}
	return s
}

// maxExponent bounds the power of one unit, so that dimensions cannot overflow.
const maxExponent = 9

type atom struct {
	dim      Dim
	num, den int64
}

// atoms are the units that may be combined, by name. Sources: the SI brochure
// for the definitions; a year is 365 days, the 8760 h of reliability figures,
// and a month a twelfth of it.
var atoms = map[string]atom{
	"nm": {length, 1, 1e9}, "um": {length, 1, 1e6}, "mm": {length, 1, 1000}, "cm": {length, 1, 100},
	"m": {length, 1, 1}, "km": {length, 1000, 1},
	"mg": {mass, 1, 1e6}, "g": {mass, 1, 1000}, "kg": {mass, 1, 1}, "t": {mass, 1000, 1},
	"us": {time, 1, 1e6}, "ms": {time, 1, 1000}, "s": {time, 1, 1}, "min": {time, 60, 1}, "h": {time, 3600, 1},
	"day": {time, 86400, 1}, "month": {time, 2628000, 1}, "year": {time, 31536000, 1},
	"Hz": {Dim{0, 0, -1}, 1, 1}, "kHz": {Dim{0, 0, -1}, 1000, 1},
	"mN": {force, 1, 1000}, "N": {force, 1, 1}, "kN": {force, 1000, 1},
	"Pa": {pressure, 1, 1}, "hPa": {pressure, 100, 1}, "kPa": {pressure, 1000, 1}, "MPa": {pressure, 1e6, 1},
	"mbar": {pressure, 100, 1}, "bar": {pressure, 100000, 1},
	"mJ": {energy, 1, 1000}, "J": {energy, 1, 1}, "kJ": {energy, 1000, 1},
	"mW": {power, 1, 1000}, "W": {power, 1, 1}, "kW": {power, 1000, 1},
	"degC": {Dim{0, 0, 0, 1}, 1, 1}, "deg": {Dim{0, 0, 0, 0, 1}, 1, 1},
	"%": {Dim{}, 1, 100}, "1": {Dim{}, 1, 1},
}

var (
	length   = Dim{1}
	mass     = Dim{0, 1}
	time     = Dim{0, 0, 1}
	force    = Dim{1, 1, -2}
	pressure = Dim{-1, 1, -2}
	energy   = Dim{2, 1, -2}
	power    = Dim{2, 1, -3}
)

// aliases are other spellings of atoms.
var aliases = map[string]string{
	"µm": "um", "μm": "um", "µs": "us", "μs": "us", "°C": "degC", "°": "deg", "hour": "h", "hours": "h",
	"d": "day", "days": "day", "months": "month", "years": "year", "sec": "s",
}

var superscripts = strings.NewReplacer("²", "2", "³", "3", "·", "*")

// ParseUnit reads a unit: names from the table, each with an optional power,
// joined by * and at most one /, as in "N/mm2", "N*m", "1/h", "kg/(m*s2)".
// "" and "1" are the plain number. The error is an *Error.
func ParseUnit(s string) (Unit, error) {
	text := strings.TrimSpace(s)
	if text == "" || text == "1" {
		return One, nil
	}
	top, bottom, divided := strings.Cut(superscripts.Replace(text), "/")
	u := Unit{Scale: big.NewRat(1, 1)}
	name, err := u.product(top, 1, s)
	if err != nil {
		return Unit{}, err
	}
	if divided {
		below, err := u.product(trimBrackets(bottom), -1, s)
		if err != nil {
			return Unit{}, err
		}
		if strings.Contains(below, "*") {
			below = "(" + below + ")"
		}
		name += "/" + below
	}
	u.Name = name
	return u, nil
}

func trimBrackets(s string) string {
	s = strings.TrimSpace(s)
	if strings.HasPrefix(s, "(") && strings.HasSuffix(s, ")") && strings.Contains(s, "*") {
		return s[1 : len(s)-1]
	}
	if strings.Contains(s, "*") {
		return "" // N/mm*s says two things
	}
	return s
}

// product multiplies the factors of s into u, each to the power sign, and
// returns their normalised names.
func (u *Unit) product(s string, sign int, whole string) (string, error) {
	var names []string
	for _, f := range strings.Split(s, "*") {
		name, exp, ok := factor(strings.TrimSpace(f))
		if !ok {
			return "", unknownUnit(whole, strings.TrimSpace(f))
		}
		a := atoms[name]
		for i, d := range a.dim {
			e := int(u.Dim[i]) + int(d)*exp*sign
			if e > 60 || e < -60 {
				return "", &Error{Message: fmt.Sprintf("unit `%s` has too high a power", clip(whole)), Expected: unitExamples}
			}
			u.Dim[i] = int8(e)
		}
		u.Scale.Mul(u.Scale, RatPow(big.NewRat(a.num, a.den), exp*sign))
		if exp != 1 {
			name += fmt.Sprint(exp)
		}
		names = append(names, name)
	}
	if len(names) > 8 {
		return "", &Error{Message: fmt.Sprintf("unit `%s` has too many factors", clip(whole)), Expected: unitExamples}
	}
	return strings.Join(names, "*"), nil
}

// factor splits "mm2" or "mm^2" into its name and power.
func factor(f string) (name string, exp int, ok bool) {
	exp = 1
	if n := len(f); n > 1 && f[n-1] >= '2' && f[n-1] <= '0'+maxExponent {
		exp = int(f[n-1] - '0')
		f = strings.TrimSuffix(f[:n-1], "^")
	}
	if other, found := aliases[f]; found {
		f = other
	}
	_, ok = atoms[f]
	return f, exp, ok && (exp == 1 || f != "1" && f != "%")
}

const unitExamples = "a unit such as mm, mm/s, kg, N, N/mm, N/cm2, s, 1/h, degC, %"

func unknownUnit(whole, part string) error {
	whole = strings.TrimSpace(whole)
	e := &Error{Message: fmt.Sprintf("unknown unit `%s`", clip(whole)), Expected: unitExamples}
	switch near := nearestUnit(part); {
	case strings.HasPrefix(whole, "/"):
		e.Hint = "write `1" + clip(whole) + "`"
	case strings.Count(whole, "/") > 1 || part == "":
		e.Hint = "one / only, with brackets round what follows, as in `N/(mm*s)`"
	case near != "":
		e.Hint = "did you mean `" + near + "`?"
	}
	return e
}

// nearestUnit is the unit written like s but for case, or else one letter away.
func nearestUnit(s string) string {
	names := make([]string, 0, len(atoms))
	for name := range atoms {
		names = append(names, name)
	}
	sort.Strings(names)
	s = strings.TrimRight(s, "0123456789^")
	for _, name := range names {
		if strings.EqualFold(name, s) {
			return name
		}
	}
	for _, name := range names {
		if len(s) > 1 && len(name) > 1 && oneEdit(s, name) {
			return name
		}
	}
	return ""
}

// oneEdit tells whether dropping, adding, changing or swapping one letter of a gives b.
func oneEdit(a, b string) bool {
	i := 0
	for i < len(a) && i < len(b) && a[i] == b[i] {
		i++
	}
	a, b = a[i:], b[i:]
	switch {
	case len(a) == len(b):
		return len(a) > 0 && (a[1:] == b[1:] || len(a) > 1 && a[0] == b[1] && a[1] == b[0] && a[2:] == b[2:])
	case len(a) == len(b)+1:
		return a[1:] == b
	case len(b) == len(a)+1:
		return b[1:] == a
	}
	return false
}

// clip keeps a quoted piece of input short.
func clip(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}

// RatPow is r to the power n; r is not zero where n is negative.
func RatPow(r *big.Rat, n int) *big.Rat {
	if n < 0 {
		return RatPow(new(big.Rat).Inv(r), -n)
	}
	e := big.NewInt(int64(n))
	return new(big.Rat).SetFrac(new(big.Int).Exp(r.Num(), e, nil), new(big.Int).Exp(r.Denom(), e, nil))
}

package quantity

import (
	"fmt"
	"math/big"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Bounds of a written number: more digits or a wider exponent than any
// measured thing has is a slip of the pen, and would cost time and memory.
const (
	maxDigits      = 40
	maxPower       = 30
	maxText        = 400
	numberExamples = "a number with its unit, such as 150 mm/s or 1.4 cm2"
)

var (
	numeral  = regexp.MustCompile(`^[0-9]+(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?`)
	fraction = regexp.MustCompile(`^[0-9]+/[0-9]+`)
	notANum  = regexp.MustCompile(`(?i)^\.?(nan|inf)`)
	comma    = regexp.MustCompile(`^[0-9]+,[0-9]+`)
	badForm  = regexp.MustCompile(`^(?:0[xXoObB][0-9a-fA-F]+|[0-9]+_[0-9_]*)`)
)

// Parse reads "150 mm/s", "150 mm/s ± 5 mm/s" (also +/-), "66 %", "4.3e-8" or
// an exact fraction such as "1/3 mm". A bare number is a quantity in One; the
// caller refuses it where a unit is needed. The error is an *Error.
func Parse(s string) (Quantity, error) { return parse(s, maxDigits) }

func parse(s string, digits int) (Quantity, error) {
	if !utf8.ValidString(s) {
		return Quantity{}, &Error{Message: "text is not UTF-8", Expected: numberExamples}
	}
	if len(s) > maxText*digits/maxDigits {
		return Quantity{}, &Error{Message: fmt.Sprintf("`%s` is too long", clip(s)), Expected: numberExamples}
	}
	head, tail, toleranced := strings.Cut(strings.ReplaceAll(s, "+/-", "±"), "±")
	q, err := parseOne(head, digits)
	if err != nil {
		return Quantity{}, err
	}
	q.Text = strings.TrimSpace(s)
	if !toleranced {
		return q, nil
	}
	return q, q.tolerance(tail, digits)
}

// tolerance reads what follows ± into q.
func (q *Quantity) tolerance(s string, digits int) error {
	t, err := parseOne(s, digits)
	if err != nil {
		return err
	}
	if t.Unit.Dim != q.Unit.Dim || (t.Unit.Name == "") != (q.Unit.Name == "") {
		return &Error{
			Message:  fmt.Sprintf("tolerance `%s` does not fit %s", clip(strings.TrimSpace(s)), q.Unit.Describe()),
			Expected: "a tolerance with a unit like that of the value, as in 150 mm/s ± 5 mm/s",
		}
	}
	if t.Num.Sign() < 0 {
		return &Error{Message: "negative tolerance", Expected: "a tolerance of zero or more"}
	}
	q.Tol = t.Num.Mul(t.Num, t.Unit.Scale)
	q.Tol.Quo(q.Tol, q.Unit.Scale)
	return nil
}

// parseOne reads a number and its unit.
func parseOne(s string, digits int) (Quantity, error) {
	num, rest, err := parseNumber(strings.TrimSpace(s), digits)
	if err != nil {
		return Quantity{}, err
	}
	u, err := ParseUnit(rest)
	if err != nil {
		return Quantity{}, err
	}
	return Quantity{Num: num, Unit: u}, nil
}

// parseNumber reads a number at the start of s and returns what follows it.
func parseNumber(s string, digits int) (*big.Rat, string, error) {
	body, negative := s, false
	for _, sign := range []string{"-", "−", "+"} {
		if after, ok := strings.CutPrefix(s, sign); ok {
			body, negative = after, sign != "+"
			break
		}
	}
	text := fraction.FindString(body)
	if text == "" {
		text = numeral.FindString(body)
	}
	rest := body[len(text):]
	if err := refuseForm(s, body, rest); err != nil {
		return nil, "", err
	}
	if err := refuseSize(text, digits); err != nil {
		return nil, "", err
	}
	r, ok := new(big.Rat).SetString(text)
	if !ok {
		return nil, "", &Error{Message: fmt.Sprintf("`%s` is not a number", clip(text)), Expected: numberExamples}
	}
	if negative {
		r.Neg(r)
	}
	return r, rest, nil
}

// refuseForm refuses numbers that another program might read differently.
func refuseForm(whole, body, rest string) error {
	e := &Error{Expected: numberExamples}
	switch {
	case body == "":
		e.Message = "number missing"
	case notANum.MatchString(body):
		e.Message = fmt.Sprintf("`%s` is not a number", clip(whole))
	case badForm.MatchString(body):
		e.Message = fmt.Sprintf("`%s` is not a plain decimal number", clip(badForm.FindString(body)))
		e.Hint = "write the digits only, without _ or 0x"
	case comma.MatchString(body):
		e.Message = fmt.Sprintf("decimal comma in `%s`", clip(comma.FindString(body)))
		e.Hint = "write `" + clip(strings.Replace(comma.FindString(body), ",", ".", 1)) + "`, with no mark between thousands"
	case body[0] == '.':
		e.Message = fmt.Sprintf("no digit before the point in `%s`", clip(whole))
		e.Hint = "write `0" + clip(body) + "`"
	case body[0] < '0' || body[0] > '9':
		e.Message = fmt.Sprintf("`%s` does not start with a number", clip(whole))
	case rest != "" && rest[0] == '.':
		e.Message = fmt.Sprintf("stray point in `%s`", clip(whole))
	case rest != "" && rest[0] >= '0' && rest[0] <= '9':
		e.Message = fmt.Sprintf("`%s` is not a number", clip(whole))
	default:
		return nil
	}
	return e
}

// refuseSize refuses more digits or wider exponents than a quantity can have.
func refuseSize(text string, digits int) error {
	mantissa, exponent, _ := strings.Cut(strings.ToLower(text), "e")
	significant := strings.Trim(strings.ReplaceAll(mantissa, ".", ""), "0")
	if len(significant) > digits || len(mantissa) > 3*digits {
		return &Error{Message: fmt.Sprintf("more than %d digits", digits), Expected: numberExamples}
	}
	if exponent == "" {
		return nil
	}
	if n, err := strconv.Atoi(exponent); err != nil || n > maxPower || n < -maxPower {
		return &Error{
			Message:  fmt.Sprintf("exponent `e%s` is beyond any quantity", clip(exponent)),
			Expected: fmt.Sprintf("an exponent from -%d to %d", maxPower, maxPower),
		}
	}
	return nil
}

// ParseRange reads "700..2000 mm" or "0.7 m..2000 mm". A single quantity is a
// range whose ends are equal. The error is an *Error.
func ParseRange(s string) (lo, hi Quantity, err error) {
	head, tail, ranged := strings.Cut(s, "..")
	if !ranged {
		lo, err = Parse(s)
		return lo, lo, err
	}
	if hi, err = Parse(tail); err != nil {
		return Quantity{}, Quantity{}, err
	}
	if lo, err = Parse(head); err != nil {
		return Quantity{}, Quantity{}, err
	}
	if lo.Unit.Name == "" && hi.Unit.Name != "" {
		lo.Unit = hi.Unit
		lo.Text += " " + hi.Unit.Name
	}
	if err := checkRange(s, lo, hi); err != nil {
		return Quantity{}, Quantity{}, err
	}
	return lo, hi, nil
}

func checkRange(s string, lo, hi Quantity) error {
	const expected = "a range such as 700..2000 mm"
	if lo.Tol != nil || hi.Tol != nil {
		return &Error{Message: "tolerance within a range", Expected: expected}
	}
	if lo.Unit.Dim != hi.Unit.Dim {
		return differ(lo.Unit, hi.Unit)
	}
	a, b := new(big.Rat).Mul(lo.Num, lo.Unit.Scale), new(big.Rat).Mul(hi.Num, hi.Unit.Scale)
	if a.Cmp(b) > 0 {
		return &Error{Message: fmt.Sprintf("range `%s` runs downwards", clip(strings.TrimSpace(s))), Expected: expected}
	}
	return nil
}

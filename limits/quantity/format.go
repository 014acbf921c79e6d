package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Format writes v with the given number of significant digits, trailing zeros
// dropped, without exponent from 1e-4 up to 1e7.
func Format(v float64, digits int) string {
	digits = max(digits, 1)
	if v == 0 {
		return "0" // also minus zero
	}
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return strconv.FormatFloat(v, 'g', -1, 64)
	}
	e := strconv.FormatFloat(v, 'e', digits-1, 64)
	mantissa, power, _ := strings.Cut(e, "e")
	p, _ := strconv.Atoi(power)
	if p < -4 || p >= 7 {
		return trimZeros(mantissa) + "e" + strconv.Itoa(p)
	}
	rounded, _ := strconv.ParseFloat(e, 64)
	return trimZeros(strconv.FormatFloat(rounded, 'f', max(digits-1-p, 0), 64))
}

func trimZeros(s string) string {
	if !strings.Contains(s, ".") {
		return s
	}
	return strings.TrimRight(strings.TrimRight(s, "0"), ".")
}

// noise is how far, in steps, a value may lie beyond a step and still count as
// on it: a float that should be 200 may be 200.00000000000003.
const noise = 1e-9

// RoundUp is the smallest multiple of step not below v.
func RoundUp(v, step float64) float64 { return toStep(v, step, math.Ceil) }

// RoundDown is the largest multiple of step not above v.
func RoundDown(v, step float64) float64 { return toStep(v, step, math.Floor) }

func toStep(v, step float64, to func(float64) float64) float64 {
	n := v / step
	if !(step > 0) || math.IsNaN(n) || math.IsInf(n, 0) {
		return v
	}
	if near := math.Round(n); math.Abs(n-near) <= noise+1e-15*math.Abs(n) {
		n = near
	} else {
		n = to(n)
	}
	if n == 0 {
		return 0
	}
	// Dividing by a whole number keeps 3 steps of 0.1 at 0.3.
	if inv := math.Round(1 / step); step < 1 && math.Abs(inv*step-1) < 1e-12 {
		return n / inv
	}
	return n * step
}

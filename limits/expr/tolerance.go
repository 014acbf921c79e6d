package expr

import (
	"math"
	"strconv"
)

// closeness is the relative distance below which a spreadsheet takes two
// numbers for one.
const closeness = 1.0 / (1 << 48)

// Equal compares as the open spreadsheets do, so that an exact border falls on
// the same side in Go and in the workbook.
func Equal(a, b float64) bool {
	return a == b || math.Abs(a-b) < math.Abs(a)*closeness
}

// add is a+b, and 0 where a and -b are equal by the spreadsheet's tolerance:
// 0.3 - 0.2 - 0.1 is 0 in a cell.
func add(a, b float64) float64 {
	if a != 0 && a > 0 != (b > 0) && Equal(a, -b) {
		return 0
	}
	return a + b
}

// Round rounds half away from zero to the given number of decimals (negative:
// before the point) as ROUND of the open spreadsheets does: on the 15 digits
// that they show, so that 2.675 to two decimals is 2.68 though the nearest float
// lies below the half; to whole numbers on the float as it is.
func Round(x float64, decimals int) float64 {
	if decimals == 0 {
		return math.Round(x)
	}
	if x == 0 || x-x != 0 {
		return x
	}
	var buf [32]byte
	s := strconv.AppendFloat(buf[:0], math.Abs(x), 'e', maxDigits-1, 64) // d.dddddddddddddde±xx
	power, _ := strconv.Atoi(string(s[maxDigits+2:]))
	var digits [maxDigits]byte
	digits[0] = s[0]
	copy(digits[1:], s[2:maxDigits+1])
	keep := power + 1 + decimals // digits in front of the rounding place
	if keep >= maxDigits {
		return x
	}
	var n int64
	for i := 0; i < keep; i++ {
		n = n*10 + int64(digits[i]-'0')
	}
	if keep >= 0 && digits[keep] >= '5' {
		n++
	}
	out := strconv.AppendInt(buf[:0], n, 10)
	out = append(out, 'e')
	out = strconv.AppendInt(out, int64(-decimals), 10)
	r, _ := strconv.ParseFloat(string(out), 64)
	return math.Copysign(r, x)
}

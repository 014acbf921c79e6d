package expr

// Equal tells whether a spreadsheet takes a and b for one number.
func Equal(a, b float64) bool { return equal(a, b) }

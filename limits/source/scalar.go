package source

import (
	"regexp"
	"strings"
)

var (
	wholeNumber  = regexp.MustCompile(`^[+-]?(0|[1-9][0-9]*)$`)
	plainNumber  = regexp.MustCompile(`^[+-]?(0|[1-9][0-9]*)(\.[0-9]+)?([eE][+-]?[0-9]+)?$`)
	notANumber   = regexp.MustCompile(`^([+-]?\.(inf|Inf|INF)|\.(nan|NaN|NAN))$`)
	namedNumber  = regexp.MustCompile(`^[+-]?(?i:nan|inf|infinity)$`)
	underscored  = regexp.MustCompile(`^[+-]?[0-9][0-9_]*_[0-9_]*(\.[0-9_]*)?([eE][+-]?[0-9]+)?$|^[+-]?[0-9]+\.[0-9]*_[0-9_]*$`)
	otherBase    = regexp.MustCompile(`^[+-]?0([xX][0-9a-fA-F_]+|[bB][01_]+)$`)
	octal        = regexp.MustCompile(`^[+-]?0[oO][0-7_]+$`)
	decimalComma = regexp.MustCompile(`^[+-]?[0-9]+,[0-9]+([eE][+-]?[0-9]+)?$`)
	commaGroups  = regexp.MustCompile(`^[+-]?[1-9][0-9]{0,2}(,[0-9]{3})+(\.[0-9]+)?$`)
	bareFraction = regexp.MustCompile(`^[+-]?(\.[0-9]+|[0-9]+\.)([eE][+-]?[0-9]+)?$`)
	leadingZero  = regexp.MustCompile(`^[+-]?0+[0-9]+(\.[0-9]+)?([eE][+-]?[0-9]+)?$`)
)

// PlainNumberProblem says what is wrong with a number that YAML or a spreadsheet would read in its own way. Only the first word of s is
// judged, so that `1,5 mm` gets the hint `1.5 mm`. The message is "" when there is nothing to say: the word is a plain
// number such as -1.5e-3, or does not look like a number at all.
func PlainNumberProblem(s string) (message, hint string) {
	word, rest := s, ""
	if i := strings.IndexByte(s, ' '); i >= 0 {
		word, rest = s[:i], s[i:]
	}
	mean := func(number string) string { return "did you mean `" + number + rest + "`?" }
	switch {
	case plainNumber.MatchString(word):
		return "", ""
	case notANumber.MatchString(word), namedNumber.MatchString(word):
		return "found `" + word + "`, which is not a finite number", "write the number itself"
	case underscored.MatchString(word):
		return "found `" + word + "`, a number with underscores", mean(strings.ReplaceAll(word, "_", ""))
	case otherBase.MatchString(word):
		return "found `" + word + "`, a number in another base", "write it in decimal"
	case octal.MatchString(word):
		return "found `" + word + "`, an octal number", "write it in decimal"
	case commaGroups.MatchString(word):
		plain := strings.ReplaceAll(word, ",", "")
		if strings.Count(word, ",") == 1 && !strings.Contains(word, ".") {
			return "found `" + word + "`, a number with a comma",
				"write `" + strings.Replace(word, ",", ".", 1) + rest + "` or `" + plain + rest + "`, whichever is meant"
		}
		return "found `" + word + "`, a number with commas", mean(plain)
	case decimalComma.MatchString(word):
		return "found `" + word + "`, a number with a decimal comma", mean(strings.Replace(word, ",", ".", 1))
	case bareFraction.MatchString(word):
		return "found `" + word + "`, a number with a digit missing beside the point", mean(fillPoint(word))
	case leadingZero.MatchString(word):
		return "found `" + word + "`, a number that begins with 0", mean(trimZeros(word))
	}
	return "", ""
}

// fillPoint writes .5 as 0.5 and 5. as 5.
func fillPoint(s string) string {
	sign, digits := splitSign(s)
	if strings.HasPrefix(digits, ".") {
		return sign + "0" + digits
	}
	return sign + strings.Replace(digits, ".", "", 1)
}

// trimZeros writes 007 as 7 and 00.5 as 0.5.
func trimZeros(s string) string {
	sign, digits := splitSign(s)
	digits = strings.TrimLeft(digits, "0")
	if digits == "" || digits[0] < '0' || digits[0] > '9' {
		digits = "0" + digits
	}
	return sign + digits
}

func splitSign(s string) (sign, rest string) {
	if s != "" && (s[0] == '+' || s[0] == '-') {
		return s[:1], s[1:]
	}
	return "", s
}

// hiddenNumber says whether YAML reads the unquoted text as a number that a reader would not expect. Such text is
// refused wherever it stands: as text it needs quotes, as a number it needs plain digits.
func hiddenNumber(s string) bool {
	if s == "" || strings.IndexByte("+-.0123456789", s[0]) < 0 || len(s) > 1 && !strings.ContainsAny(s, "_xXbB.") {
		return false
	}
	return notANumber.MatchString(s) || underscored.MatchString(s) || otherBase.MatchString(s)
}

// switchWord says whether older YAML reads the unquoted word as true or false, so that a reader cannot be sure that
// text is meant.
func switchWord(s string) bool {
	switch strings.ToLower(s) {
	case "yes", "no", "on", "off", "y", "n", "true", "false":
		return true
	}
	return false
}

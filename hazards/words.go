package hazards

import (
	"strconv"
	"strings"
)

// count is "1 row", "3 rows".
func count(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return strconv.Itoa(n) + " " + word + "s"
}

// and joins words: "a", "a and b", "a, b and c".
func and(words []string) string { return joined(words, " and ") }

// or joins words: "a", "a or b", "a, b or c".
func or(words []string) string { return joined(words, " or ") }

func joined(words []string, last string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + last + words[len(words)-1]
}

func commas(words []string) string { return strings.Join(words, ", ") }

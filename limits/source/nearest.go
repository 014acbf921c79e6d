package source

import "strings"

// longestName bounds the work of Nearest; names in files are far shorter.
const longestName = 64

// Nearest is the allowed name that word was probably meant to be, or "" when nothing is near. Case and the choice
// between - and _ and a space count for nothing. Of equally near names the first is taken.
func Nearest(word string, allowed []string) string {
	w := plainName(word)
	if len(w) == 0 || len(w) > longestName {
		return ""
	}
	best, least := "", 1+max(1, len(w)/3)
	for _, name := range allowed {
		a := plainName(name)
		if len(a) == 0 || len(a) > longestName || len(a)-len(w) >= least || len(w)-len(a) >= least {
			continue
		}
		d := distance(w, a)
		if d < least && d < max(len(w), len(a)) { // a wholly different short word is not near
			best, least = name, d
		}
	}
	return best
}

func plainName(s string) []rune {
	if len(s) > longestName*4 {
		s = s[:longestName*4+1]
	}
	return []rune(strings.NewReplacer("-", "_", " ", "_").Replace(strings.ToLower(s)))
}

// distance counts the letters to insert, drop, change or swap with their neighbour (optimal string alignment).
func distance(a, b []rune) int {
	before, above, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range above {
		above[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := 1
			if a[i-1] == b[j-1] {
				change = 0
			}
			row[j] = min(above[j]+1, row[j-1]+1, above[j-1]+change)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, above, row = above, row, before
	}
	return above[len(b)]
}

// mostNear is how many names are searched for a near one.
const mostNear = 2000

// DidYouMean is the hint for the nearest name, "" when there is none.
func DidYouMean(word string, allowed []string) string {
	if near := Nearest(word, allowed[:min(len(allowed), mostNear)]); near != "" {
		return "did you mean `" + near + "`?"
	}
	return ""
}

// mostNames is how many names a message lists; more do not help a reader.
const mostNames = 24

// Quoted lists names in a message.
func Quoted(names []string) string {
	more := ""
	if len(names) > mostNames {
		names, more = names[:mostNames], " …"
	}
	if len(names) == 0 {
		return ""
	}
	return "`" + strings.Join(names, "`, `") + "`" + more
}

package hazards

import (
	"regexp"
	"strconv"
	"strings"

	"standclear/hazards/file"
)

// An interval of upkeep is read where it is a number and a unit of the calendar.
// A shift counts as a day, the longest it can be apart from the next; a week is
// taken as a 52nd of a year and so a little long, which is the worse end.
var (
	intervalWords = regexp.MustCompile(`^(?:every )?([0-9]+(?:\.[0-9]+)?) *(year|month|week|day|shift)s?$`)
	inAYear       = map[string]float64{"year": 1, "month": 12, "week": 52, "day": 365, "shift": 365}
)

// yearsOf reads an interval in years; false for words that cannot be counted.
func yearsOf(every string) (float64, bool) {
	m := intervalWords.FindStringSubmatch(strings.ToLower(strings.Join(strings.Fields(every), " ")))
	if m == nil {
		return 0, false
	}
	n, err := strconv.ParseFloat(m[1], 64)
	return n / inAYear[m[2]], err == nil && n > 0
}

// notExchanged says why upkeep does not exchange the part of a check within some
// years, "" where an item that names the check does.
func notExchanged(a *file.Assessment, check string, years float64) string {
	var why []string
	for i := range a.Limits.Time.Upkeep {
		u := &a.Limits.Time.Upkeep[i]
		if !has(u.Of, check) {
			continue
		}
		switch every, read := yearsOf(u.Every); {
		case !read:
			why = append(why, "the interval of "+u.ID+", `"+u.Every+"`, cannot be counted")
		case every > years:
			why = append(why, u.ID+" comes only every "+u.Every)
		default:
			return ""
		}
	}
	if why == nil {
		return "no upkeep item names it"
	}
	return and(why)
}

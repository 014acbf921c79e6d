package hazards

import (
	"math"

	"standclear/limits/expr"
	"standclear/limits/quantity"
)

// Sheets about parts of safety functions that rules look at.
const (
	channelsSheet = "two-channels"
	estimateSheet = "level-estimate"
)

// Names of the result that says when a part is worn out, and of the constant
// that says how long parts of safety functions are taken to last. Both in years.
const (
	WornOut = "T10D"
	mission = "T_mission"
)

// wornOut gives the life of a part, and whether it ends before the mission time.
func (c *Check) wornOut() (life, lasts expr.Value, worn bool) {
	if c.Outcome == nil {
		return life, lasts, false
	}
	life, lasts = c.Outcome.Value(WornOut), c.Outcome.Value(mission)
	return life, lasts, life.Given() && lasts.Given() && life.Num < lasts.Num
}

// wear: a part that wears out before the mission time is exchanged before then.
func (f *finder) wear(c *Check) {
	life, lasts, worn := c.wornOut()
	if !worn {
		return
	}
	if how := notExchanged(f.r.File, c.ID, life.Num); how != "" {
		f.raise("FU-11", c.ID, c.Pos, "check", c.ID, "years", twoDigits(life.Num), "mission", quantity.Format(lasts.Num, 6), "how", how)
	}
}

// twoDigits is a number above 0 with two digits that count, rounded down.
func twoDigits(v float64) string {
	return quantity.Format(quantity.RoundDown(v, math.Pow(10, math.Floor(math.Log10(v))-1)), 6)
}

// capped: how much of a channel counts depends on the category. An MTTFD worked
// out of channels under the higher cap says too much of a part under the lower one.
func (f *finder) capped(c *Check) {
	in := inputOf(c, "MTTFD")
	own := c.Outcome.Value("cap")
	if c.Sheet.ID != estimateSheet || in == nil || !own.Given() {
		return
	}
	for _, t := range in.Terms {
		from := f.r.Check(t.Check)
		if t.Check == "" || from == nil || from.Sheet.ID != channelsSheet {
			continue
		}
		if most := max(from.Outcome.Value("C1_used").Num, from.Outcome.Value("C2_used").Num); most > own.Num {
			f.raise("FU-26", c.ID, in.Pos, "check", c.ID, "category", c.Outcome.Value("category").Text, "from", from.ID,
				"other", from.Outcome.Value("category").Text, "years", quantity.Format(most, 6), "cap", quantity.Format(own.Num, 6))
		}
	}
}

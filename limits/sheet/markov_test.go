package sheet_test

import (
	"math"
	"strings"
	"testing"

	"standclear/limits/table"
)

// hoursAYear is the year of reliability figures, 365 days.
const hoursAYear = 8760.0

// missionYears and commonCause are what the table assumes: 20 years of use, and
// 2 % of the failures of a channel taking the other one with it.
const (
	missionYears = 20
	commonCause  = 0.02
)

// twoChannels works out, from state equations alone, how often in an hour on the
// average of its mission a function of two like channels fails dangerously.
//
// Assumptions:
//   - each channel fails dangerously at the constant rate 1/MTTFD;
//   - of these failures the share commonCause hits both channels at once;
//   - of the failures of one channel alone the share coverage is found by the
//     tests at once: the function stops, is repaired and starts as new, in no time
//     against the MTTFD;
//   - the rest stays hidden. The other channel then carries the function alone, and
//     its next failure, found or not, is a dangerous failure of the function: a test
//     can no longer stop it by the channel that has failed;
//   - after a dangerous failure of the function both channels are repaired;
//   - all is new at the start, and the demand is frequent, so that each dangerous
//     failure counts.
//
// States: whole, and one channel failed and hidden, with the probabilities 1-x and
// x. The equation is integrated by the midpoint rule.
func twoChannels(years, coverage float64) float64 {
	rate := 1 / (years * hoursAYear)
	hide := 2 * (1 - commonCause) * rate * (1 - coverage) // whole to hidden
	both := commonCause * rate                            // whole to failed, repaired to whole
	last := rate                                          // hidden to failed, repaired to whole
	const steps = 20000
	mission := missionYears * hoursAYear
	dt := mission / steps
	slope := func(x float64) float64 { return hide*(1-x) - last*x }
	x, failures := 0.0, 0.0
	for range steps {
		mid := x + slope(x)*dt/2
		failures += (both*(1-mid) + last*mid) * dt
		x += slope(mid) * dt
	}
	return failures / mission
}

// The integration is held against the closed form of the same equation.
func TestTwoChannelsAgainstClosedForm(t *testing.T) {
	for _, years := range []float64{3, 10, 47, 100, 2500} {
		for _, coverage := range []float64{0, 0.6, 0.9, 0.99} {
			rate, mission := 1/(years*hoursAYear), missionYears*hoursAYear
			hide := 2 * (1 - commonCause) * rate * (1 - coverage)
			ends := hide / (hide + rate) // what x goes to
			speed := (hide + rate) * mission
			average := ends * (1 - (1-math.Exp(-speed))/speed)
			want := commonCause*rate*(1-average) + rate*average
			if got := twoChannels(years, coverage); math.Abs(got/want-1) > 1e-6 {
				t.Errorf("%v years, coverage %v: %v, closed form %v", years, coverage, got, want)
			}
		}
	}
}

// A function of one channel fails dangerously as often as its channel.
func oneChannel(years float64) float64 { return 1 / (years * hoursAYear) }

// The table by MTTFD is held against models of failures wherever one of two like
// channels, or of one, is possible. The other columns have none here:
//   - Category 2 is one channel that a second one tests. How often it fails depends
//     on rates of test and demand and on the MTTFD of the test channel, which are
//     no part of the table;
//   - Category 3 with a low coverage: with the low end of its band, 60 %, the model
//     meets the column at 100 years and lies up to 26 % above it at fewer, so the
//     column rests on more than the two channels above. It is only held between the
//     models for 60 and for 90 %.
func TestLevelTableAgainstModels(t *testing.T) {
	tab := library(t).Table("level-by-mttfd")
	model := map[string]struct {
		rate func(years float64) float64
		near float64
	}{
		"catB_none":   {oneChannel, 0.005},
		"cat1_none":   {oneChannel, 0.005},
		"cat3_medium": {func(y float64) float64 { return twoChannels(y, 0.9) }, 0.05},
		"cat4_high":   {func(y float64) float64 { return twoChannels(y, 0.99) }, 0.05},
	}
	for id, m := range model {
		worst, at := 0.0, ""
		each(tab, id, func(years, rate float64, key string) {
			if off := math.Abs(m.rate(years)/rate - 1); off > worst {
				worst, at = off, key
			}
		})
		t.Logf("%s: farthest from the model by %.2f %%, at %s years", id, 100*worst, at)
		if worst > m.near || at == "" {
			t.Errorf("%s: %.2f %% from the model at %s years, at most %v %%", id, 100*worst, at, 100*m.near)
		}
	}
	each(tab, "cat3_low", func(years, rate float64, key string) {
		if above, below := twoChannels(years, 0.6), twoChannels(years, 0.9); rate <= below || rate >= above*1.01 {
			t.Errorf("Category 3 low at %s years: %v is not between %v and %v", key, rate, below, above)
		}
	})
	for _, c := range tab.Columns[tab.First:] {
		if _, has := model[c.ID]; !has && c.ID != "cat3_low" && !strings.HasPrefix(c.ID, "cat2_") {
			t.Errorf("column %s is held against nothing", c.ID)
		}
	}
}

func each(tab *table.Table, column string, do func(years, rate float64, key string)) {
	j, key := tab.Column(column), tab.Column(tab.Key)
	for i, row := range tab.Rows {
		if row[j].Value.Given() {
			do(row[key].Value.Num, row[j].Value.Num, tab.RowKey(i))
		}
	}
}

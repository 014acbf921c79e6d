package sheet_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"sync"
	"testing"

	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/limits/source"
	"standclear/limits/table"
	"standclear/limits/table/tabletest"
)

// guards are the tables of guards and of hot surfaces, keyed a second time.
var guards = sync.OnceValue(func() *tabletest.Guards {
	g, err := tabletest.LoadGuards()
	if err != nil {
		panic(err)
	}
	return g
})

func init() {
	bases["guard-height"] = "a=1000..1800 mm; b=2000 mm; available=700 mm"
	bases["guard-opening"] = "e=12 mm; shape=slot; length=200 mm; available=150 mm"
	ruleCases["guard-height"] = []ruleCase{
		{"a structure below 1400 mm", "further=no; b=1399.9 mm; available=2000 mm", "further=no; b=1400 mm; available=2000 mm"},
		{"a structure below 1400 mm", "further=no; b=1000 mm; risk=low; available=2000 mm", "further=yes; b=1000 mm; risk=low; available=2000 mm"},
		{"the hazard is nearer", "available=599.9 mm", "available=600 mm"},
		{unknown, "available=", ""},
	}
	ruleCases["guard-opening"] = []ruleCase{
		{"above 120 mm", "e=120.001 mm; shape=square; available=900 mm", "e=120 mm; shape=square; available=900 mm"},
		{"above 120 mm", "e=121 mm; limb=upper; available=900 mm", "e=121 mm; limb=lower; available=1200 mm"},
		{"a slot above 180 mm", "limb=lower; e=180.001 mm; length=300 mm; available=1200 mm", "limb=lower; e=180 mm; length=300 mm; available=1200 mm"},
		{"an opening above 240 mm", "limb=lower; shape=round; e=240.001 mm; available=1200 mm", "limb=lower; shape=round; e=240 mm; available=1200 mm"},
		{"an opening above 240 mm", "limb=lower; shape=square; e=300 mm; available=1200 mm", "limb=lower; shape=square; e=200 mm; available=1200 mm"},
		{"a slot is at least", "length=11.999 mm", "length=12 mm"},
		{"the opening is nearer", "available=99.9 mm", "available=100 mm"},
		{unknown, "available=", ""},
	}
	twins["guard-height"] = func(_ *tabletest.Reference, g given) results {
		return results{"c": heightTwin(g)}
	}
	twins["guard-opening"] = func(_ *tabletest.Reference, g given) results {
		return results{"s_r": openingTwin(g)}
	}
	spreads["guard-height"] = func(r *rand.Rand, s *sheet.Sheet, vals []expr.Value) {
		lo := float64(r.IntN(29)) * 100
		hi := lo
		if r.IntN(2) == 0 {
			hi += 1000 * r.Float64()
		}
		vals[s.Ranges["a"][0].Slot], vals[s.Ranges["a"][1].Slot] = number(lo), number(hi)
		vals[s.Input("b").Slot] = number(float64(r.IntN(20))*100 + 900)
	}
	spreads["guard-opening"] = func(r *rand.Rand, s *sheet.Sheet, vals []expr.Value) {
		vals[s.Input("e").Slot] = number(float64(1 + r.IntN(250)))
		if c := s.Input("length"); vals[c.Slot].Given() {
			vals[c.Slot] = number(float64(1 + r.IntN(120)))
		}
	}
	meetings["guard-height"] = []meet{{"", "available", "c"}, {"risk=low; b=1400 mm; a=0..500 mm", "available", "c"}}
	meetings["guard-opening"] = []meet{{"", "available", "s_r"}, {"limb=lower; e=60 mm", "available", "s_r"}}
	exactTexts["guard-height"] = heightTexts()
	exactTexts["guard-opening"] = openingTexts()
}

func heightTexts() []string {
	out := []string{"a=0 mm; available=0 mm; b=2700 mm", "a=1600.0000000000002 mm", "a=1599.9999999999998 mm", "b=1999.9999999999998 mm", "b=999.999 mm", "b=1000 mm; further=no",
		"b=1400 mm; further=no", "b=1399.9999999 mm; further=no", "b=1399.9999999 mm; further=yes", "a=0..9000 mm; b=1000 mm", "a=1401..1401 mm; b=1400 mm; risk=low", "risk="}
	for _, risk := range []string{"", "high", "low"} {
		for _, a := range []string{"0", "100", "200", "1000..1800", "2400", "2500", "2501", "2600", "2699", "2700", "2800"} {
			for _, b := range []string{"1000", "1300", "2450", "2500", "2600", "2700", "5000"} {
				out = append(out, fmt.Sprintf("risk=%s; a=%s mm; b=%s mm", risk, a, b))
			}
		}
	}
	return out
}

func openingTexts() []string {
	out := []string{"limb=", "e=12.000000000000002 mm", "e=11.999999999999998 mm", "length=", "shape=; limb=lower", "available=0 mm; limb=lower; e=3 mm", "e=25 mm; length=65.0000001 mm", "e=25 mm; length=20 mm"}
	for _, limb := range []string{"", "upper", "lower"} {
		for _, shape := range []string{"slot", "square", "round"} {
			for _, e := range []string{"4", "5", "12.1", "15", "15.1", "20", "20.0000001", "25", "30", "30.0000001", "35", "36", "60", "120", "120.0000001", "180", "181", "240", "241"} {
				for _, length := range []string{"50", "65", "75", "300"} {
					out = append(out, fmt.Sprintf("limb=%s; shape=%s; e=%s mm; length=%s mm", limb, shape, e, length))
				}
			}
		}
	}
	return out
}

// heightTwin takes the worst of all rows that the range touches, its neighbours
// included, at the tallest structure that is not taller.
func heightTwin(g given) float64 {
	tab := &guards().High
	if g.text("risk") == "low" {
		tab = &guards().Low
	}
	col := -1
	for i, b := range tab.Heights {
		if b <= g.num("b") {
			col = i
		}
	}
	if col < 0 {
		return math.NaN()
	}
	lo, hi := g.num("a_lo"), g.num("a_hi")
	below, above := math.Inf(-1), math.Inf(1) // the rows at or beyond the ends
	for _, e := range tab.Rows {
		a, _ := strconv.ParseFloat(e.Key, 64)
		if a <= lo {
			below = math.Max(below, a)
		}
		if a >= hi {
			above = math.Min(above, a)
		}
	}
	worst := 0.0
	for _, e := range tab.Rows {
		if a, _ := strconv.ParseFloat(e.Key, 64); a >= below && a <= above {
			worst = math.Max(worst, e.Value[col])
		}
	}
	return worst
}

func openingTwin(g given) float64 {
	e, shape := g.num("e"), g.text("shape")
	rows, col := guards().Openings.Upper, map[string]int{"slot": 0, "square": 1, "round": 2}[shape]
	lower := g.text("limb") == "lower"
	if lower {
		rows, col = guards().Openings.Lower, min(col, 1)
	}
	if length := g.num("length"); shape == "slot" {
		switch {
		case !lower && e > 20 && e <= 30 && length <= 65:
			return 200
		case lower && e > 15 && e <= 35 && length <= 75:
			return 50
		}
	}
	for _, r := range rows {
		if most, _ := strconv.ParseFloat(r.Key, 64); e <= most {
			if r.Value[col] < 0 {
				break
			}
			return r.Value[col]
		}
	}
	return math.NaN()
}

func TestGuardsNeverBetterByMore(t *testing.T) {
	pairs(t, "guard-opening", "e", func(less, more *sheet.Outcome) string { return sinks("s_r", less, more) })
	pairs(t, "guard-opening", "available", verdictNeverWorse)
	pairs(t, "guard-height", "b", func(less, more *sheet.Outcome) string { return rises("c", less, more) })
	pairs(t, "guard-height", "available", verdictNeverWorse)
}

// A range of heights is never milder than a height in it, and low risk is never
// farther than high risk.
func TestGuardHeightRanges(t *testing.T) {
	s := library(t).Sheet("guard-height")
	r := rand.New(rand.NewPCG(13857, 1))
	for range 10000 {
		vals := randomRow(r, s)
		spreads[s.ID](r, s, vals)
		wide := s.Evaluate(vals)
		lo, hi := s.Ranges["a"][0].Slot, s.Ranges["a"][1].Slot
		one := append([]expr.Value(nil), vals...)
		one[lo] = number(vals[lo].Num + (vals[hi].Num-vals[lo].Num)*r.Float64())
		one[hi] = one[lo]
		if in := s.Evaluate(one); in.Value("c").Num > wide.Value("c").Num {
			t.Fatalf("c %v within, %v over the range: %s", in.Value("c").Num, wide.Value("c").Num, shown(s, vals))
		}
		farther := func(risk string) float64 {
			vals[s.Input("risk").Slot] = word(risk)
			o := s.Evaluate(vals)
			return o.Value("c").Num
		}
		if high, low := farther("high"), farther("low"); low > high {
			t.Fatalf("c %v at low, %v at high risk: %s", low, high, shown(s, vals))
		}
	}
}

// Only the table that counts is looked up, so that the other one's standing is
// no open point.
func TestGuardsLookUpOneCell(t *testing.T) {
	for change, want := range map[string]string{"risk=low": "guard-height-low: a 1000, structure of 2000 mm", "risk=high": "guard-height-high: a 1800, structure of 2000 mm", "risk=": "guard-height-high: a 1800, structure of 2000 mm"} {
		o := with(t, library(t).Sheet("guard-height"), change)
		if cells := o.Cells(); len(cells) != 1 || cells[0].Name() != want {
			t.Errorf("%s: %v", change, cells)
		}
	}
	for change, want := range map[string]string{"": "openings-upper: slot of 12", "shape=round": "openings-upper: round of 12", "limb=lower": "openings-lower: slot of 15", "limb=lower; shape=square": "openings-lower: square_or_round of 15"} {
		o := with(t, library(t).Sheet("guard-opening"), change)
		if cells := o.Cells(); len(cells) != 1 || cells[0].Name() != want {
			t.Errorf("%s: %v", change, cells)
		}
	}
}

const ownHeights = `id: guard-height-high
title: Distances of the house
standard: {id: bought copy}
key: a
columns:
  a: {unit: mm, means: height of the hazard}
  b1800: {unit: mm, at: 1800 mm, means: structure of 1800 mm, source: [house], standing: single}
  b2200: {unit: mm, at: 2200 mm, means: structure of 2200 mm, source: [house], standing: single}
rows:
  - {a: 0, b1800: 10, b2200: 5}
  - {a: 2000, b1800: 910, b2200: 505}
`

// A table of the user takes the place of the one for high risk, with structures
// of its own, and what was from memory is so no more.
func TestOwnGuardHeights(t *testing.T) {
	lib, problems := loadOwn(t, map[string]string{"heights.yaml": ownHeights, "sources.yaml": ownSources})
	if problems != "" {
		t.Fatal(problems)
	}
	s := lib.Sheet("guard-height")
	o := s.Evaluate(inputs(t, s, "a=1200 mm; b=2000 mm"))
	if c := o.Value("c").Num; c != 910 {
		t.Errorf("c is %v, want that of the user's table", c)
	}
	if cells := o.Cells(); len(cells) != 1 || cells[0].Table.Own != "mine/heights.yaml" || cells[0].Standing != table.Single {
		t.Errorf("%+v", cells)
	}
	ours := library(t).Sheet("guard-height")
	before := ours.Evaluate(inputs(t, ours, "a=2000 mm; b=2000 mm"))
	if cells := before.Cells(); len(cells) != 1 || cells[0].Standing != table.Memory {
		t.Errorf("%+v", cells)
	}
	o = s.Evaluate(inputs(t, s, "a=1200 mm; b=2000 mm; risk=low"))
	if c := o.Value("c").Num; c != 0 {
		t.Errorf("low risk: c is %v, the table for high risk alone was replaced", c)
	}
}

func TestGuardNotes(t *testing.T) {
	for _, c := range []struct {
		sheet, change, says string
		open                string
		silent              string
	}{
		{"guard-opening", "limb=lower; e=25 mm; length=75 mm", "from memory", "memory", "limb = lower besides"},
		{"guard-opening", "limb=lower; e=25 mm; length=76 mm", "gap below a guard", "", "from memory"},
		{"guard-opening", "", "limb = lower besides", "", "gap below"},
		{"guard-height", "b=1399 mm", "Below 1400 mm", "", "slight harm"},
		{"guard-height", "b=1399 mm; further=yes; risk=low", "slight harm", "", "Below 1400 mm"},
		{"guard-height", "b=1000 mm; a=100..300 mm; risk=low", "one source has 1200 mm", "", "c is 0"},
		{"guard-height", "b=1200 mm; a=100..300 mm; risk=low", "slight harm", "", "one source has 1200 mm"},
		{"guard-height", "a=2700..2900 mm", "c is 0", "", "Below 1400 mm"},
	} {
		checkNotes(t, with(t, library(t).Sheet(c.sheet), c.change), c.change, c.says, c.open, c.silent)
	}
}

// checkNotes looks for a note that says something and is an open point of a
// kind, and for one that must not be there.
func checkNotes(t *testing.T, o sheet.Outcome, change, says, open, silent string) {
	t.Helper()
	found := false
	for _, n := range o.Notes() {
		found = found || strings.Contains(n.Text, says) && n.Open == open
		if silent != "" && strings.Contains(n.Text, silent) {
			t.Errorf("sheet %s, %s: %s", o.Sheet.ID, change, n.Text)
		}
	}
	if !found {
		t.Errorf("sheet %s, %s: no note says %q, open %q: %v", o.Sheet.ID, change, says, open, o.Notes())
	}
}

// What other programs rely on, by name and unit.
func TestGuardAndGripNames(t *testing.T) {
	for id, names := range map[string][2]string{
		"guard-opening": {"e:mm shape length:mm limb available:mm", "s_r:mm"},
		"guard-height":  {"a_lo:mm a_hi:mm b:mm risk further available:mm", "c:mm"},
		"vacuum-hold":   {"cups diameter:mm dp:kPa mass:kg a:m/s2 mu orientation required", "F_hold:N F_need:N safety"},
		"jaw-hold":      {"F_grip:N jaws mu mass:kg a:m/s2 required", "safety"},
		"touch":         {"surface temperature:degC time:s", "threshold:degC"},
		"payload":       {"rated:kg tool:kg part:kg offset:mm rated_at_offset:kg", "total:kg use"},
	} {
		s := library(t).Sheet(id)
		if s == nil {
			t.Errorf("no sheet %s", id)
			continue
		}
		for _, in := range strings.Fields(names[0]) {
			name, unit, _ := strings.Cut(in, ":")
			if c := s.Input(name); c == nil || c.UnitName() != unit {
				t.Errorf("sheet %s: no input %s in %q", id, name, unit)
			}
		}
		for _, out := range strings.Fields(names[1]) {
			name, unit, _ := strings.Cut(out, ":")
			if c := s.Column(name); c == nil || c.UnitName() != unit || !listed(s, c) {
				t.Errorf("sheet %s: no result %s in %q", id, name, unit)
			}
		}
	}
}

func burnOf(surface string) []float64 { return ofList(guards().Burn, surface) }

func ofList(m source.Map[[]float64], key string) []float64 {
	for _, e := range m {
		if e.Key == key {
			return e.Value
		}
	}
	return nil
}

// The borders of short slots belong to them.
func TestShortSlots(t *testing.T) {
	s := library(t).Sheet("guard-opening")
	for change, want := range map[string]float64{
		"e=20 mm; length=65 mm": 120, "e=20.001 mm; length=65 mm": 200, "e=30 mm; length=65 mm": 200, "e=30 mm; length=65.001 mm": 850, "e=30.001 mm; length=65 mm": 850, "e=25 mm; length=": 850,
		"limb=lower; e=15 mm; length=75 mm": 10, "limb=lower; e=15.001 mm; length=75 mm": 50, "limb=lower; e=35 mm; length=75 mm": 50,
		"limb=lower; e=35 mm; length=75.001 mm": 80, "limb=lower; e=35.001 mm; length=75 mm": 180, "shape=square; e=25 mm; length=25 mm": 120,
	} {
		if o := with(t, s, change); o.Value("s_r").Num != want {
			t.Errorf("%s: s_r is %v, want %v", change, o.Value("s_r").Num, want)
		}
	}
}

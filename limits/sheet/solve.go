package sheet

import (
	"math"
	"slices"

	"standclear/limits/expr"
	"standclear/limits/quantity"
)

// What would make a verdict hold is found by trying: an input is put at points
// over all that it may be, and between a point that holds and one that does not
// the border is closed in on. Nothing is assumed about how the verdict depends
// on the input, so that one solver serves every sheet. Only inputs that their
// sheet marks with `adjust` are turned, and in that direction: raising a stopping
// time until nothing can be said any more is no way out.

// Case is a calculation that has to hold: a sheet worked out, at the worst corner
// of what may be more than one value.
type Case struct {
	Sheet  *Sheet
	Values []expr.Value
	Loose  []Loose
}

// Answer is the value of one input at which a verdict holds.
type Answer struct {
	Column *Column
	Value  float64 // rounded to the safe side of Border
	Border float64 // where it begins to hold, as far as it was closed in on
	Down   bool    // it holds at Value or less, else at Value or more
	Until  float64 // where it ends to hold in that direction, rounded to the safe side
	Ends   bool    // it ends at Until, and not only at what is possible
	Room   bool    // it holds as it is: Value is how far it may go
	Now    expr.Value
}

// SolveAll finds the value of one adjustable input, nearest to the present one, at
// which all cases hold that have it; the others have to hold as they are. It is
// false where there is none. Where all hold already it is how far the
// input may go.
func SolveAll(cases []Case, name string) (Answer, bool) {
	v := newSolver(cases, name)
	if v == nil {
		return Answer{}, false
	}
	if v.now.Given() && v.asIs() {
		return v.room()
	}
	return v.wayOut()
}

// solver tries values of one input in all cases.
type solver struct {
	c      *Column
	lib    *Library
	cases  []Case
	slots  []int // of the input in each case, -1: it has none
	now    expr.Value
	lo, hi float64 // what is possible
	tries  [][]expr.Value
	used   float64   // share of the limit at the value tried last
	at     []float64 // values at which something may change: bounds of the method, keys of tables
}

func newSolver(cases []Case, name string) *solver {
	v := &solver{}
	for _, k := range cases {
		slot := -1
		if c := k.Sheet.adjustable(name); c != nil {
			v.take(k, c)
			slot = c.Slot
		}
		v.cases, v.slots = append(v.cases, k), append(v.slots, slot)
		v.tries = append(v.tries, slices.Clone(k.Values))
	}
	if v.c == nil || v.lo >= v.hi {
		return nil
	}
	return v
}

// take notes the input of a case: the worst of several present values counts.
func (v *solver) take(k Case, c *Column) {
	lo, hi := c.span()
	now := k.Values[c.Slot]
	if now.Kind != expr.Number || now.Num < lo || now.Num > hi { // a slip is no place to begin at
		now = expr.Value{}
	}
	if v.c == nil {
		v.c, v.lib, v.lo, v.hi, v.now = c, k.Sheet.lib, lo, hi, now
	} else {
		v.lo, v.hi = max(v.lo, lo), min(v.hi, hi)
		switch {
		case !now.Given() || !v.now.Given():
			v.now = expr.Value{}
		case v.down() == (now.Num > v.now.Num):
			v.now = now
		}
	}
	v.at = append(v.at, k.Sheet.turns(c)...)
}

// adjustable is an input that may be turned, nil where there is none of that name.
func (s *Sheet) adjustable(name string) *Column {
	c := s.byName[name]
	if c == nil || c.Role != Input || c.Adjust == "" || c.Type.Kind != expr.Number || c.List != "" || s.Ranges[c.Symbol][0] != nil {
		return nil
	}
	return c
}

// Adjustable lists the inputs that an engineer can turn.
func (s *Sheet) Adjustable() []*Column {
	var out []*Column
	for _, c := range s.Columns {
		if s.adjustable(c.Name) == c {
			out = append(out, c)
		}
	}
	return out
}

const (
	justAbove = 1e-9 // of what is possible: how far above a bound that is not possible itself is tried
	farthest  = 1e9  // where no upper bound is stated
)

// span is the least and the greatest value that an input can have.
func (c *Column) span() (lo, hi float64) {
	hi = farthest
	if c.Bounds.To != nil {
		hi = *c.Bounds.To
	}
	switch {
	case c.Bounds.From != nil:
		lo = *c.Bounds.From
	case c.Bounds.Above != nil:
		lo = *c.Bounds.Above + (hi-*c.Bounds.Above)*justAbove
	}
	return lo, hi
}

// turns are values of an input at which something may change: bounds of the
// method, and keys of tables that are read by it.
func (s *Sheet) turns(c *Column) []float64 {
	var out []float64
	for _, b := range []*float64{c.Bounds.AppliesFrom, c.Bounds.AppliesTo} {
		if b != nil {
			out = append(out, *b)
		}
	}
	for _, d := range s.order {
		if d.lookup == nil {
			continue
		}
		for i, k := range d.lookup.keys {
			if k.name == c.Name {
				out = append(out, d.lookup.numbers(i)...)
			}
		}
	}
	return out
}

// numbers are the keys that a look-up reads key i by: of rows, or of a grid's heads.
func (l *lookup) numbers(i int) []float64 {
	if i > 0 {
		return l.table.Heads
	}
	var out []float64
	key := l.table.Column(l.table.Key)
	for _, row := range l.table.Rows {
		if row[key].Value.Kind == expr.Number {
			out = append(out, row[key].Value.Num)
		}
	}
	return out
}

func (v *solver) down() bool { return v.c.Adjust == "down" }

// good and bad are the ends of what is possible in and against the direction in
// which the input may be adjusted.
func (v *solver) good() float64 {
	if v.down() {
		return v.lo
	}
	return v.hi
}

func (v *solver) bad() float64 {
	if v.down() {
		return v.hi
	}
	return v.lo
}

// holds tells whether all cases hold with the input at x. The case that said no
// last is asked first.
func (v *solver) holds(x float64) bool {
	v.used = 0
	for i := range v.cases {
		vals := append(v.tries[i][:0], v.cases[i].Values...)
		if v.slots[i] >= 0 {
			vals[v.slots[i]] = expr.Value{Kind: expr.Number, Num: x}
		}
		o := v.cases[i].Sheet.Evaluate(vals)
		if v.used = max(v.used, o.Use()); !o.Verdict.Holds() {
			v.cases[0], v.cases[i] = v.cases[i], v.cases[0]
			v.slots[0], v.slots[i] = v.slots[i], v.slots[0]
			v.tries[0], v.tries[i] = v.tries[i], v.tries[0]
			return false
		}
	}
	return true
}

// asIs tells whether all cases hold with the inputs they have.
func (v *solver) asIs() bool {
	for i := range v.cases {
		vals := append(v.tries[i][:0], v.cases[i].Values...)
		if o := v.cases[i].Sheet.Evaluate(vals); !o.Verdict.Holds() {
			return false
		}
	}
	return true
}

// wayOut looks for the nearest value in the direction of adjusting. Where the
// present one is beyond what the method covers, that bound may be on its other side.
func (v *solver) wayOut() (Answer, bool) {
	if !v.now.Given() {
		return v.seek(v.bad(), v.good())
	}
	from, b := v.now.Num, v.c.Bounds
	switch {
	case b.AppliesTo != nil && from > *b.AppliesTo:
		return v.seek(from, v.lo)
	case b.AppliesFrom != nil && from < *b.AppliesFrom:
		return v.seek(from, v.hi)
	}
	return v.seek(from, v.good())
}

// seek goes from a value that does not hold towards an end.
func (v *solver) seek(from, end float64) (Answer, bool) {
	a := Answer{Column: v.c, Down: end < from, Now: v.now}
	points := append([]float64{from}, v.points(from, end)...)
	i := slices.IndexFunc(points, v.holds)
	if i < 0 {
		return a, false
	}
	if a.Border = points[i]; i > 0 {
		a.Border = v.close(points[i], points[i-1])
	}
	far, whole := v.lasts(points[i:])
	var ok bool
	if a.Value, ok = v.say(a.Border, a.Border, far); !ok {
		return a, false
	}
	if !whole {
		a.Ends = true
		if a.Until, ok = v.say(far, a.Value, far); !ok {
			return a, false
		}
	}
	return a, true
}

// room is how far an input may go against the direction of adjusting.
func (v *solver) room() (Answer, bool) {
	a := Answer{Column: v.c, Down: v.down(), Room: true, Now: v.now}
	if v.c.Fixed {
		return a, false
	}
	far, whole := v.lasts(append([]float64{v.now.Num}, v.points(v.now.Num, v.bad())...))
	if whole {
		return a, false
	}
	a.Border = far
	var ok bool
	a.Value, ok = v.say(far, v.now.Num, far)
	return a, ok
}

// lasts follows points of which the first holds, and gives the last value before
// one that does not; whole where all hold.
func (v *solver) lasts(points []float64) (far float64, whole bool) {
	for i := 1; i < len(points); i++ {
		if !v.holds(points[i]) {
			return v.close(points[i-1], points[i]), false
		}
	}
	return points[len(points)-1], true
}

// halvings is how often the way to an end is halved, from both sides.
const halvings = 14

// points are values on the way from a value to an end, in order: closer where
// something near may change, and close to the end, where 0 may be.
func (v *solver) points(from, end float64) []float64 {
	out := make([]float64, 0, 2*halvings+1+len(v.at))
	way := end - from
	for k := halvings; k > 1; k-- {
		out = append(out, from+math.Ldexp(way, -k))
	}
	for k := 1; k <= halvings; k++ {
		out = append(out, end-math.Ldexp(way, -k))
	}
	out = append(out, end)
	for _, x := range v.at {
		if (x-from)*way > 0 && (end-x)*way > 0 {
			out = append(out, x)
		}
	}
	slices.Sort(out)
	if way < 0 {
		slices.Reverse(out)
	}
	return slices.Compact(out)
}

const (
	mostHalvings = 400
	borderNoise  = 1e-12 // how close a border is closed in on, relative
	nothing      = 1e-18 // of what is possible: where a border lies at 0
)

// close closes in on the border between a value that holds and one that does not,
// and gives the one that holds next to it. The share of the limit that is used
// tells where the border may be, and is often right at once; halving the way makes
// sure of it.
func (v *solver) close(yes, no float64) float64 {
	least, most := v.usedAt(yes), v.usedAt(no)
	floor := nothing * (v.hi - v.lo)
	for range mostHalvings {
		if math.Abs(yes-no) <= max(borderNoise*math.Abs(yes), floor) {
			break
		}
		guess := yes + (no-yes)*(1-least)/(most-least)
		near := math.Copysign(borderNoise/3*math.Abs(guess), no-yes)
		mid := yes + (no-yes)/2
		if mid == yes || mid == no {
			break
		}
		for _, x := range [3]float64{guess - near, guess + near, mid} {
			switch between := min(yes, no) < x && x < max(yes, no); {
			case !between || math.Abs(yes-no) <= borderNoise*math.Abs(yes):
			case v.holds(x):
				yes, least = x, v.used
			default:
				no, most = x, v.used
			}
		}
	}
	return v.snap(yes)
}

func (v *solver) usedAt(x float64) float64 {
	v.holds(x)
	return v.used
}

// snap takes the noise off a border that is a number of nine digits.
func (v *solver) snap(x float64) float64 {
	if x == 0 {
		return x
	}
	unit := math.Pow(10, math.Floor(math.Log10(math.Abs(x)))-8)
	y := quantity.RoundDown(x+unit/2, unit)
	if math.Abs(y-x) < 2*borderNoise*math.Abs(x) && v.holds(y) {
		return y
	}
	return x
}

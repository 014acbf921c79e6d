package sheet

import (
	"math"

	"standclear/limits/quantity"
)

// say rounds a border to the safe side. What is said holds and lies between near
// and far, ends included; where the step is too coarse for that a finer one is
// taken, down to what is printed. Nothing is not a value that can be set.
func (v *solver) say(border, near, far float64) (float64, bool) {
	lo, hi := min(near, far), max(near, far)
	round := quantity.RoundUp
	if border == hi {
		round = quantity.RoundDown
	}
	for step := v.step(border); step >= math.Abs(border)*leastStep && step > 0; step /= 10 {
		if x := round(border, step); x > 0 && x >= lo && x <= hi && v.holds(x) {
			return x, true
		}
	}
	return 0, false
}

// leastStep is the share of a value that its last printed digit stands for.
const leastStep = 1e-6

// step is how fine a value is said: by its unit, with two digits where it is less
// than ten such steps, and with three where the unit has no step.
func (v *solver) step(x float64) float64 {
	if x == 0 {
		return 0
	}
	first := math.Pow(10, math.Floor(math.Log10(math.Abs(x)))) // of the first digit
	if step, _, ok := v.lib.stepOf(v.c); ok {
		return min(step, first/10)
	}
	return first / 100
}

// stepsTable holds steps by unit, in the order in which values are said.
const stepsTable = "solver-steps"

// stepOf gives the step of the unit of a column and the place of that unit.
func (l *Library) stepOf(c *Column) (step float64, place int, ok bool) {
	t := l.Table(stepsTable)
	if t == nil {
		return 0, 0, false
	}
	row, col := t.Exact(c.Type.Unit.Name), t.Column("step")
	if row < 0 || col < 0 || !t.Rows[row][col].Value.Given() {
		return 0, len(t.Rows), false
	}
	return t.Rows[row][col].Value.Num, row, true
}

package sheet

import (
	"slices"
	"strconv"
	"strings"

	"standclear/limits/expr"
)

// End is an end of a tolerance.
type End struct {
	Value expr.Value
	Name  string // "up", "down", or "" for another value that may be
}

// Loose is an input that may be more than one value.
type Loose struct {
	Column *Column
	Rest   expr.Value // without its tolerance
	Ends   []End
	Known  bool // the first end is known to be the worse one, and is tried first
}

// Corner is the worst outcome over the ends of all tolerances.
type Corner struct {
	Outcome
	Loose   []Loose
	At      []int    // for each of Loose: the end that counts, -1 for none of them
	Nominal *Outcome // without tolerances, nil where there are none
}

// mostCorners bounds the corners that are all tried: eight tolerances have 256.
const mostCorners = 256

// Worst works a row out at the worst corner of its tolerances. Which end is the
// worse one is found by trying: a force that is too high may pinch, too low may
// let go. The corner that the sheet expects comes first and only a worse one
// takes its place; then every end goes back to what is expected where that makes
// nothing milder, so that only ends that matter are named. The corner is never
// milder than the row without tolerances, which is tried as well.
func (s *Sheet) Worst(vals []expr.Value, loose []Loose) Corner {
	if len(loose) == 0 {
		return Corner{Outcome: s.Evaluate(vals)}
	}
	x := &search{s: s, base: vals, loose: loose}
	rest := x.fill(-1)
	nominal := x.at(rest)
	x.try(x.expected())
	x.try(rest)
	if corners(loose) <= mostCorners {
		Each(loose, func(at []int) { x.try(at) })
	} else {
		x.climb()
	}
	x.relax()
	return Corner{Outcome: x.best, Loose: loose, At: x.where, Nominal: &nominal}
}

// Each visits every corner, in one order. at is only lent.
func Each(loose []Loose, visit func(at []int)) {
	at := make([]int, len(loose))
	for {
		visit(at)
		i := len(at) - 1
		for ; i >= 0 && at[i] == len(loose[i].Ends)-1; i-- {
			at[i] = 0
		}
		if i < 0 {
			return
		}
		at[i]++
	}
}

// corners counts the corners, up to what is too many.
func corners(loose []Loose) int {
	n := 1
	for i := range loose {
		if n *= len(loose[i].Ends); n > mostCorners {
			break
		}
	}
	return n
}

// Corners works a row out at every corner; where there are too many, with one
// input at another end each.
func (s *Sheet) Corners(vals []expr.Value, loose []Loose, visit func(Outcome)) {
	x := &search{s: s, base: vals, loose: loose}
	if len(loose) == 0 {
		return
	}
	if corners(loose) <= mostCorners {
		Each(loose, func(at []int) { visit(x.at(at)) })
		return
	}
	for i := range loose {
		at := x.fill(-1)
		for at[i] = range loose[i].Ends {
			visit(x.at(at))
		}
	}
}

// search looks for the worst corner.
type search struct {
	s     *Sheet
	base  []expr.Value
	loose []Loose
	best  Outcome
	where []int
	spare []expr.Value // no longer used
}

// fill is one choice for all.
func (x *search) fill(k int) []int {
	at := make([]int, len(x.loose))
	for i := range at {
		at[i] = k
	}
	return at
}

// expected is the corner that the sheet expects to be the worst.
func (x *search) expected() []int {
	at := x.fill(-1)
	for i := range at {
		at[i] = x.loose[i].first()
	}
	return at
}

func (l *Loose) first() int {
	if l.Known {
		return 0
	}
	return -1
}

// value is an end, or what there is without the tolerance.
func (l *Loose) value(k int) expr.Value {
	if k < 0 {
		return l.Rest
	}
	return l.Ends[k].Value
}

// at works the row out somewhere, in a row of values of its own.
func (x *search) at(at []int) Outcome {
	return x.s.At(append([]expr.Value(nil), x.base...), x.loose, at)
}

// At works a row out at some ends, in place.
func (s *Sheet) At(vals []expr.Value, loose []Loose, at []int) Outcome {
	for i := range loose {
		vals[loose[i].Column.Slot] = loose[i].value(at[i])
	}
	return s.Evaluate(vals)
}

// try takes a corner that is worse than the worst so far.
func (x *search) try(at []int) bool {
	o := x.s.At(append(x.spare[:0], x.base...), x.loose, at)
	if x.where != nil && !o.WorseThan(&x.best) {
		x.spare = o.Values
		return false
	}
	x.take(o, at)
	return true
}

func (x *search) take(o Outcome, at []int) {
	x.spare, x.best = x.best.Values, o
	x.where = append(x.where[:0], at...)
}

// climb tries the worst end of each tolerance alone, all of those together, and
// from the worst found so far one other end after the other, until nothing gets
// worse. Every step makes the outcome worse, so that it comes to an end; the
// number of rounds is bounded all the same.
func (x *search) climb() {
	together := x.fill(-1)
	for i := range x.loose {
		alone := &search{s: x.s, base: x.base, loose: x.loose}
		at := x.fill(-1)
		for k := -1; k < len(x.loose[i].Ends); k++ {
			at[i] = k
			alone.try(at)
		}
		together[i] = alone.where[i]
	}
	x.try(together)
	for range 2 * len(x.loose) {
		if !x.round() {
			return
		}
	}
}

func (x *search) round() (worse bool) {
	for i := range x.loose {
		for k := range x.loose[i].Ends {
			at := slices.Clone(x.where)
			at[i] = k
			worse = x.try(at) || worse
		}
	}
	return worse
}

// relax puts ends back to what is expected where that makes nothing milder.
func (x *search) relax() {
	for i := range x.loose {
		first := x.loose[i].first()
		if x.where[i] == first {
			continue
		}
		at := slices.Clone(x.where)
		at[i] = first
		if o := x.at(at); !x.best.WorseThan(&o) {
			x.take(o, at)
		}
	}
}

// WorseThan compares verdicts, then how much of the limit is used. Where both
// are alike, as in a sheet that compares nothing, results decide of which the
// sheet says how they get worse: one rounded up is the worse the greater it is.
func (o *Outcome) WorseThan(b *Outcome) bool {
	if o.Verdict.Rank() != b.Verdict.Rank() {
		return o.Verdict.Worse(b.Verdict)
	}
	if !expr.Equal(o.Use(), b.Use()) {
		return o.Use() > b.Use()
	}
	for _, w := range o.Sheet.worse {
		u, v := o.Values[w.slot], b.Values[w.slot]
		if u.Kind == expr.Number && v.Kind == expr.Number && !expr.Equal(u.Num, v.Num) {
			return (u.Num > v.Num) == w.up
		}
	}
	return false
}

// worseWay is the direction in which a value gets worse.
type worseWay struct {
	slot int
	up   bool
}

// worse lists the directions that the sheet states, then those of what it rounds
// to the safe side.
func (b *builder) worse() {
	for _, e := range b.st.Worse {
		c := b.s.byName[e.Key]
		if c == nil || !slices.Contains(b.s.Results, c) || c.Type.Kind != expr.Number || e.Value != "up" && e.Value != "down" {
			b.ps.Addf(b.st.At("worse"), "found %s: %s under worse of sheet %s, expected a result that is a number, and up or down", e.Key, e.Value, b.s.ID)
			continue
		}
		b.s.worse = append(b.s.worse, worseWay{c.Slot, e.Value == "up"})
	}
	for _, c := range b.s.Columns {
		if c.Role == Shown {
			b.s.worse = append(b.s.worse, worseWay{c.of.Slot, c.Up})
		}
	}
}

// Words says at which ends the corner is, "" where nothing has a tolerance.
func (k *Corner) Words() string {
	var ends []string
	for i := range k.Loose {
		if l := &k.Loose[i]; k.At[i] >= 0 {
			ends = append(ends, l.Column.EndWords(l.Ends[k.At[i]]))
		}
	}
	return CornerWords(ends, len(k.Loose) > 0)
}

// EndWords is an input at an end of its tolerance.
func (c *Column) EndWords(e End) string {
	return c.label() + " " + c.Show(e.Value) + " (" + map[string]string{"up": "upper end", "down": "lower end", "": "another value"}[e.Name] + ")"
}

// label is the name of an input; members of lists are counted.
func (c *Column) label() string {
	if c.List != "" {
		return c.List + " " + strconv.Itoa(c.Member+1)
	}
	return c.Symbol
}

// CornerWords strings the ends of a corner together.
func CornerWords(ends []string, some bool) string {
	switch {
	case len(ends) > 0:
		return "at " + strings.Join(ends, ", ")
	case some:
		return "at the nominal values"
	}
	return ""
}

// Ends are the ends of a tolerance of an input, the one that the sheet expects
// to be the worse first.
func (c *Column) Ends(low, high expr.Value) (ends []End, known bool) {
	up, down := End{high, "up"}, End{low, "down"}
	if c.Adjust == "up" {
		return []End{down, up}, true
	}
	return []End{up, down}, c.Adjust == "down"
}

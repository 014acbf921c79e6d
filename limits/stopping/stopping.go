// Package stopping looks up stopping times and distances in a measured grid.
// Standards let nobody interpolate: the next worse point is taken.
package stopping

// Point is one measured point. Load, Speed and Reach are shares of the rated
// load, the greatest speed and the greatest reach, 1 for 100 %. Value is what
// is asked for, in any one unit: stopping time or stopping distance.
type Point struct {
	Category           string // stop category, IEC 60204-1
	Load, Speed, Reach float64
	Value              float64
}

// Case is what the stop is asked for.
type Case struct {
	Category           string
	Load, Speed, Reach float64
}

// covers tells whether p was taken in the stop category of c, at its load,
// speed and reach or worse.
func (p Point) covers(c Case) bool {
	return p.Category == c.Category && p.Load >= c.Load && p.Speed >= c.Speed && p.Reach >= c.Reach
}

// nearer tells whether p is nowhere worse than o and somewhere milder.
func (p Point) nearer(o Point) bool {
	return p.Load <= o.Load && p.Speed <= o.Speed && p.Reach <= o.Reach &&
		(p.Load < o.Load || p.Speed < o.Speed || p.Reach < o.Reach)
}

// Next gives the index of the next worse point, false when no point covers the
// case. There can be several candidates, as neither load nor speed nor reach ranks
// above the others; the one with the greatest value governs, the first of equals.
func Next(points []Point, c Case) (index int, ok bool) {
	index = -1
	for _, i := range Candidates(points, c) {
		if index < 0 || points[i].Value > points[index].Value {
			index = i
		}
	}
	return index, index >= 0
}

// Candidates are the points that cover the case and than which no other covering
// point is nearer in load, speed and reach alike.
func Candidates(points []Point, c Case) (list []int) {
	for i, p := range points {
		if p.covers(c) && nearest(points, p, c) {
			list = append(list, i)
		}
	}
	return list
}

func nearest(points []Point, p Point, c Case) bool {
	for _, o := range points {
		if o.covers(c) && o.nearer(p) {
			return false
		}
	}
	return true
}

// Worse tells whether p was taken in the stop category of o and is nowhere milder
// than o and somewhere worse, so that its stop cannot well be shorter.
func (p Point) Worse(o Point) bool { return p.Category == o.Category && o.nearer(p) }

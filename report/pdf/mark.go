package pdf

import (
	"math"

	"github.com/go-pdf/fpdf"
)

// mark is a small shape beside a word. It repeats the word and adds nothing.
type mark uint8

const (
	noMark   mark = iota
	stop          // full diamond: not permitted, refused
	beyond        // full triangle, point up: over
	unknown       // open square: outside, needs a copy
	open          // open ring: not decided, open
	stale         // ring with a bar: out of date
	model         // half disc: within by the model, provisional
	holds         // full disc: within, accepted
	doubtful      // open triangle: memory, one source
	barSpace      // room for a bar of use
)

// marks of all words of the contract.
var marks = map[string]mark{
	"not-permitted": stop, "refused": stop, "refuse": stop, "not-ready": stop,
	"over": beyond, "failed": beyond, "required": beyond,
	"outside": unknown, "needs-copy": unknown, "missing": unknown,
	"not-decided": open, "open": open, "planned": open, "recommended": open, "reduce": open, "ready-to-measure": open,
	"out-of-date":  stale,
	"within-model": model, "provisional": model, "reduced": model, "ready-for-review": model,
	"within": holds, "within-measured": holds, "accepted": holds, "accept": holds, "passed": holds, "reviewed": holds, "none": holds,
	"memory": doubtful, "single": doubtful, "practice": doubtful, "assumed": doubtful, "estimate": doubtful, "override": doubtful, "tolerance": doubtful,
}

func (m mark) colour() colour {
	switch m {
	case stop, beyond:
		return rust
	case unknown, open, stale, doubtful:
		return amber
	case model:
		return blue
	case holds:
		return light
	}
	return black
}

const (
	markRoom = 3.1 // mm, shape and the space behind it
	barWide  = 15.0
)

// mark draws a shape on the base line y.
func (k *ink) mark(m mark, x, y float64) {
	const r = 0.95
	cx, cy := x+r, y-0.98
	p, c := k.pdf, m.colour()
	p.SetLineWidth(0.28)
	p.SetDrawColor(int(c.r), int(c.g), int(c.b))
	k.filled(c, func() {
		switch m {
		case stop:
			p.Polygon(around(cx, cy, r*1.2, 0, 90, 180, 270), "F")
		case beyond:
			p.Polygon(around(cx, cy+0.15, r*1.25, 90, 210, 330), "F")
		case doubtful:
			p.Polygon(around(cx, cy+0.15, r*1.1, 90, 210, 330), "D")
		case unknown:
			p.Rect(cx-0.8, cy-0.8, 1.6, 1.6, "D")
		case open:
			p.Circle(cx, cy, 0.85, "D")
		case stale:
			p.Circle(cx, cy, 0.85, "D")
			p.Line(cx-0.85, cy, cx+0.85, cy)
		case model:
			p.Circle(cx, cy, 0.85, "D")
			p.Polygon(halfDisc(cx, cy, 0.85), "F")
		case holds:
			p.Circle(cx, cy, r, "F")
		}
	})
	k.seen(x, y-2, markRoom, 2)
}

func around(cx, cy, r float64, degrees ...float64) []fpdf.PointType {
	var out []fpdf.PointType
	for _, d := range degrees {
		a := d * math.Pi / 180
		out = append(out, fpdf.PointType{X: cx + float64(r*math.Cos(a)), Y: cy - float64(r*math.Sin(a))})
	}
	return out
}

func halfDisc(cx, cy, r float64) []fpdf.PointType {
	var d []float64
	for a := 180.0; a <= 360; a += 15 {
		d = append(d, a)
	}
	return around(cx, cy, r, d...)
}

// bar draws the share of a limit that is used. The tick stands at the limit, at
// four fifths of the room; what goes beyond the room is cut at its end.
func (k *ink) bar(share, x, y float64) {
	const full, thick = barWide * 0.8, 1.5
	k.area(x, y-thick-0.25, barWide, thick, mist)
	c := light
	if share > 1 {
		c = rust
	}
	if w := math.Min(math.Max(share, 0)*full, barWide); w > 0 {
		k.area(x, y-thick-0.25, w, thick, c)
	}
	k.pdf.SetLineWidth(0.3)
	k.pdf.SetDrawColor(int(black.r), int(black.g), int(black.b))
	k.pdf.Line(x+full, y-thick-0.7, x+full, y+0.2)
}

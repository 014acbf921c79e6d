package book

import (
	"math"
	"strings"
)

// Widths of the letters of a common sans-serif face in thousandths of its size,
// from ' ' to '~' (the widths published with the PDF standard font Helvetica).
var letters = [95]int{
	278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
	556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
	1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
	667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
	333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
	556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
}

const (
	wider      = 1.06 // room for a face that a reader puts in place of ours
	otherGlyph = 700  // letters beyond ASCII
	pixels     = 96.0 / 72
	unitPixels = 7.0  // of one character of column width, as spreadsheets count it
	padPixels  = 15.0 // between text and the borders of its cell, indent included
)

// textPixels is the width of a text in pixels at a size in points.
func textPixels(s string, size float64) float64 {
	sum := 0
	for _, r := range s {
		if r >= ' ' && r <= '~' {
			sum += letters[r-' ']
		} else {
			sum += otherGlyph
		}
	}
	return float64(sum) / 1000 * size * pixels * wider
}

// lines is the number of lines that a text takes in a column, broken at blanks
// and, in long words, anywhere.
func lines(s string, width, size float64) int {
	room := math.Max(width*unitPixels-padPixels, 8)
	blank := textPixels(" ", size)
	n := 0
	for _, line := range strings.Split(s, "\n") {
		n++
		at := 0.0
		for _, word := range strings.Fields(line) {
			w := textPixels(word, size)
			if at > 0 && at+blank+w <= room {
				at += blank + w
				continue
			}
			if at > 0 {
				n++
			}
			n += int(math.Ceil(w/room)) - 1
			at = math.Mod(w, room)
		}
	}
	return n
}

// lineHeight is the height of one line in points.
func lineHeight(size float64) float64 { return math.Ceil(size*1.33*4) / 4 }

// height of a row that holds n lines, within what a spreadsheet allows.
func height(n int, size float64) float64 {
	return math.Min(float64(max(n, 1))*lineHeight(size)+3, 409)
}

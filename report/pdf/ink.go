package pdf

import (
	"bytes"
	"math"
	"strconv"

	"github.com/go-pdf/fpdf"
)

// style is how text looks: face, size in points and colour.
type style struct {
	face face
	size float64
	ink  colour
}

// colour is red, green, blue, 0 to 255.
type colour struct{ r, g, b uint8 }

// The palette. Lightness falls from what holds to what does not, so that a grey
// print keeps the order, and no meaning rests on red against green; a shape
// always says the same as the colour.
var (
	black = colour{22, 24, 28}
	grey  = colour{96, 100, 106}
	faint = colour{196, 199, 203}
	mist  = colour{236, 237, 239}
	rust  = colour{142, 43, 24}
	amber = colour{168, 92, 10}
	blue  = colour{24, 88, 140}
	light = colour{96, 148, 190}
)

// The type scale: four sizes, in points.
const (
	small = 8.0
	body  = 9.0
	head  = 11.0
	title = 15.0
)

var (
	text      = style{plain, body, black}
	textBold  = style{bold, body, black}
	cellText  = style{plain, small, black}
	cellBold  = style{bold, small, black}
	cellGrey  = style{plain, small, grey}
	fine      = style{plain, small - 1, grey}
	cellMono  = style{mono, small - 1, black}
	headText  = style{bold, head, black}
	titleText = style{bold, title, black}
)

// sub is the style of a subscript.
func (st style) sub() style {
	st.size *= 0.72
	return st
}

func (st style) in(c colour) style {
	st.ink = c
	return st
}

// spot is where a test sees ink land, in mm from the upper left corner.
type spot struct {
	page       int
	x, y, w, h float64
	text       string // "" for lines and shapes
}

// ink draws on the current page. It remembers what fpdf has set, so that a page
// holds no more than it needs.
type ink struct {
	pdf   *fpdf.Fpdf
	known [faces][]uint16 // widths by character, in 1/1000 of the size, plus one; 0: not asked yet
	font  style
	// lacking are characters of the input that no face draws, and affected the
	// texts in which they stand.
	lacking  []rune
	affected []string

	drawn [faces][1 << 16 / 64]uint64 // characters that fpdf knows as used
	buf   []byte
	out   bytes.Reader
	cuts  []piece // room used again from paragraph to paragraph
	now   []piece
	trace func(spot)
}

func newInk(p *fpdf.Fpdf, trace func(spot)) *ink {
	k := &ink{pdf: p, trace: trace}
	for f := range fonts {
		p.AddUTF8FontFromBytes(fonts[f].family, fonts[f].style, bytes.Clone(fonts[f].data)) // fpdf writes into them when it takes the letters in use
		k.known[f] = make([]uint16, 1<<16)
	}
	return k
}

// width gives the width of text in mm, by the widths that fpdf writes into the
// document. The text is printable.
func (k *ink) width(s string, st style) float64 {
	n := 0
	known := k.known[st.face]
	for _, r := range s {
		if known[r&0xffff] == 0 {
			k.ask(r, st.face)
		}
		n += int(known[r&0xffff]) - 1
	}
	return float64(n) * st.size / 1000 * mmPerPoint
}

func (k *ink) ask(r rune, f face) {
	k.pdf.SetFont(fonts[f].family, fonts[f].style, body)
	k.known[f][r&0xffff] = uint16(k.pdf.GetStringSymbolWidth(string(r)) + 1)
	k.font = style{}
}

// fresh tells that a page was begun or gone back to: its state is not known.
func (k *ink) fresh() {
	k.font = style{}
	k.pdf.SetFillColor(int(black.r), int(black.g), int(black.b))
	k.pdf.SetDrawColor(int(black.r), int(black.g), int(black.b))
}

// write puts text with its base line at y.
func (k *ink) write(x, y float64, s string, st style) {
	if s == "" {
		return
	}
	if k.font.face != st.face || k.font.size != st.size {
		k.pdf.SetFont(fonts[st.face].family, fonts[st.face].style, st.size)
	}
	if k.font.ink != st.ink || k.font.size == 0 {
		k.pdf.SetTextColor(int(st.ink.r), int(st.ink.g), int(st.ink.b))
	}
	k.font = st
	if k.used(s, st.face) {
		k.fast(x, y, s, st)
	} else {
		k.pdf.Text(x, y, s)
	}
	if k.trace != nil {
		up := st.size * mmPerPoint
		k.trace(spot{k.pdf.PageNo(), x, y - 0.76*up, k.width(s, st), up, s})
	}
}

// used tells whether fpdf has drawn every character of s in the face before, and
// notes those it has not.
func (k *ink) used(s string, f face) bool {
	all := true
	set := &k.drawn[f]
	for _, r := range s {
		if bit := uint64(1) << (r % 64); set[r&0xffff/64]&bit == 0 {
			set[r&0xffff/64] |= bit
			all = false
		}
	}
	return all
}

// fast writes what fpdf's Text writes, without its formatting, which takes most
// of the time of a large document. fpdf embeds only glyphs that went through
// Text; see used.
func (k *ink) fast(x, y float64, s string, st style) {
	_, high := k.pdf.GetPageSize()
	b := k.buf[:0]
	if st.ink != black { // the fill is black, see fresh and filled
		b = append(b, "q "...)
		for _, c := range [...]uint8{st.ink.r, st.ink.g, st.ink.b} {
			b = strconv.AppendFloat(b, float64(c)/255, 'f', 3, 64)
			b = append(b, ' ')
		}
		b = append(b, "rg "...)
	}
	b = append(b, "BT "...)
	b = strconv.AppendFloat(b, x/mmPerPoint, 'f', 2, 64)
	b = append(b, ' ')
	b = strconv.AppendFloat(b, (high-y)/mmPerPoint, 'f', 2, 64)
	b = append(b, " Td ("...)
	for _, r := range s {
		b = octet(octet(b, byte(r>>8)), byte(r))
	}
	b = append(b, ") Tj ET"...)
	if st.ink != black {
		b = append(b, " Q"...)
	}
	k.buf = b
	k.out.Reset(b)
	k.pdf.RawWriteBuf(&k.out)
}

// octet puts a byte into a PDF string.
func octet(b []byte, c byte) []byte {
	switch c {
	case '\\', '(', ')':
		return append(b, '\\', c)
	case '\r':
		return append(b, '\\', 'r')
	}
	return append(b, c)
}

// rule draws a level line of the given thickness in mm.
func (k *ink) rule(x, y, w, thick float64, c colour) {
	k.pdf.SetLineWidth(thick)
	k.pdf.SetDrawColor(int(c.r), int(c.g), int(c.b))
	k.pdf.Line(x, y, x+w, y)
	k.seen(x, y, w, thick)
}

// area fills a rectangle.
func (k *ink) area(x, y, w, h float64, c colour) {
	k.filled(c, func() { k.pdf.Rect(x, y, w, h, "F") })
	k.seen(x, y, w, h)
}

// filled draws with another fill and puts the usual one back, so that text needs
// no colour of its own.
func (k *ink) filled(c colour, draw func()) {
	k.pdf.SetFillColor(int(c.r), int(c.g), int(c.b))
	draw()
	k.pdf.SetFillColor(int(black.r), int(black.g), int(black.b))
	k.font = style{} // fpdf compares text with fill
}

func (k *ink) seen(x, y, w, h float64) {
	if k.trace != nil {
		k.trace(spot{page: k.pdf.PageNo(), x: x, y: y, w: w, h: math.Max(h, 0)})
	}
}

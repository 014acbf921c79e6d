package pdf

import (
	"strconv"
	"strings"

	"standclear/hazards"
	"standclear/report/words"
)

// The grid, in mm. Text stands between the side margins; the running head and
// the footer stand outside the text.
const (
	sideMargin = 19.0
	topMargin  = 21.0
	footMargin = 21.0
	headAt     = 13.0 // base line of the running head
	footAt     = 12.0 // base line of the footer, from below
	hair       = 0.12
	thin       = 0.3
)

// doc is a document in the making: the page, the place on it, and what has to
// wait until the number of pages and the places of all anchors are known.
type doc struct {
	*ink
	r *hazards.Result
	w *words.Words

	wide, high float64 // of the paper
	width      float64 // of the text
	y          float64

	symbols symbols
	rowsOn  map[string][]string // hazard rows by what they rest on
	places  map[string]string   // anchors by id

	warn     func()   // says on the first page what cannot be printed; nil: everything can
	running  string   // heading that the running head names
	headings []string // running heads by page
	number   int      // of the last section
	waiting  []waiting
	anchors  map[string]anchor
	links    []link
	entries  []entry
}

// waiting is drawn together with what follows, so that no heading stands alone.
type waiting struct {
	high float64
	draw func()
}

type anchor struct {
	page int
	y    float64
}

type link struct {
	page       int
	x, y, w, h float64
	to         string
}

// entry is a line of the contents whose page number is written last.
type entry struct {
	page int
	y    float64
	x, w float64
	to   string
}

func (d *doc) bottom() float64 { return d.high - footMargin }

// newPage begins a page. What waits moves with it.
func (d *doc) newPage() {
	d.pdf.AddPage()
	d.fresh()
	d.y = topMargin
	d.headings = append(d.headings, d.running)
}

// room makes sure that high mm are free, on a new page where need be, and draws
// what waited for it.
func (d *doc) room(high float64) {
	for _, w := range d.waiting {
		high += w.high
	}
	if d.y+high > d.bottom()+slack && d.y > topMargin {
		d.newPage()
	}
	list := d.waiting
	d.waiting = nil
	for _, w := range list {
		w.draw()
	}
}

// wait draws later, right above what comes next.
func (d *doc) wait(high float64, draw func()) {
	d.waiting = append(d.waiting, waiting{high, draw})
}

// skip leaves white space, but not at the head of a page.
func (d *doc) skip(mm float64) {
	if len(d.waiting) > 0 {
		d.wait(mm, func() { d.y += mm })
		return
	}
	if d.y > topMargin {
		d.y += mm
	}
}

// section begins a numbered section.
func (d *doc) section(key string) {
	d.number++
	name := d.w.Heading(key)
	label := strconv.Itoa(d.number) + "  " + name
	high := 5.0 + head*leading*mmPerPoint + 1.6
	d.wait(high, func() {
		top := d.y <= topMargin
		d.running = name
		if top {
			d.headings[len(d.headings)-1] = name
		} else {
			d.y += 5
			d.rule(sideMargin, d.y, d.width, thin, black)
		}
		d.place("section:" + key)
		d.pdf.Bookmark(label, 0, d.y-2)
		d.fresh() // a bookmark reads the font
		d.y += 1.2
		d.lines(d.broken(para{spans: []span{{text: label, style: headText}}}, d.width), sideMargin)
		d.y += 0.8
	})
}

// subsection begins a part of a section.
func (d *doc) subsection(key string) { d.subheading(d.w.Heading(key)) }

func (d *doc) subheading(name string) {
	high := 3.4 + body*leading*mmPerPoint + 0.8
	d.wait(high, func() {
		if d.y > topMargin {
			d.y += 3.4
		}
		d.pdf.Bookmark(name, 1, d.y-2)
		d.lines(d.broken(para{spans: []span{{text: name, style: textBold}}}, d.width), sideMargin)
		d.y += 0.8
	})
}

// put sets a paragraph over the whole width, two lines at least together.
func (d *doc) put(p para) {
	ls := d.broken(p, d.width)
	for i, l := range ls {
		need := l.high
		if i == 0 && len(ls) > 1 {
			need += ls[1].high
		}
		d.room(need)
		d.lines(ls[i:i+1], sideMargin)
	}
}

// lead is the sentence under a heading; it stays with the heading and with what
// follows.
func (d *doc) lead(s string) {
	ls := d.broken(para{spans: []span{{text: s, style: cellGrey}}}, d.width)
	d.wait(tall(ls)+1, func() {
		d.lines(ls, sideMargin)
		d.y += 1
	})
}

func tall(ls []line) float64 {
	h := 0.0
	for _, l := range ls {
		h += l.high
	}
	return h
}

// lines draws lines at the current place, to the right of x over the text width.
func (d *doc) lines(ls []line, x float64) {
	for _, l := range ls {
		d.line(l, x, d.y, d.width)
		d.y += l.high
	}
}

// line draws one line whose top is at y in a column of the given width.
func (d *doc) line(l line, x, y, width float64) {
	x += l.indent
	if l.right {
		x += width - l.indent - l.width
	}
	base := y + l.up
	for _, r := range l.runs {
		switch r.mark {
		case noMark:
			d.write(x+r.x, base+r.drop, r.text, r.style)
		case barSpace:
			d.bar(r.share, x+r.x, base)
		default:
			d.mark(r.mark, x+r.x, base)
		}
		if r.to != "" {
			d.links = append(d.links, link{d.pdf.PageNo(), x + r.x, base - l.high*0.7, r.w, l.high, r.to})
		}
	}
}

// place makes the current place one that links lead to.
func (d *doc) place(name string) {
	if _, ok := d.anchors[name]; !ok && name != "" {
		d.anchors[name] = anchor{d.pdf.PageNo(), d.y}
	}
}

// finish writes what had to wait: links, page numbers, heads and feet.
func (d *doc) finish() {
	d.room(0)
	pages := d.pdf.PageNo()
	to := map[string]int{}
	for _, l := range d.links {
		a, ok := d.anchors[l.to]
		if !ok {
			continue
		}
		if to[l.to] == 0 {
			to[l.to] = d.pdf.AddLink()
			d.pdf.SetLink(to[l.to], max(a.y-3, 0), a.page)
		}
		d.pdf.SetPage(l.page)
		d.pdf.Link(l.x, l.y, l.w, l.h, to[l.to])
	}
	for _, e := range d.entries {
		d.pdf.SetPage(e.page)
		d.fresh()
		n := strconv.Itoa(d.anchors[e.to].page)
		d.write(e.x+e.w-d.ink.width(n, cellText), e.y, n, cellText)
	}
	for p := 1; p <= pages; p++ {
		d.pdf.SetPage(p)
		d.fresh()
		d.foot(p, pages)
		if p > 1 {
			d.head(p)
		}
	}
	d.pdf.SetPage(pages)
}

func (d *doc) head(p int) {
	d.fit(sideMargin, headAt, d.width*0.62, d.r.File.Head.Title, cellGrey)
	name := d.clean(d.headings[p-1], plain)
	d.write(d.wide-sideMargin-d.ink.width(name, cellGrey), headAt, name, cellGrey)
	d.rule(sideMargin, headAt+1.8, d.width, hair, grey)
}

func (d *doc) foot(p, pages int) {
	y := d.high - footAt
	d.rule(sideMargin, y-4, d.width, hair, grey)
	h := d.r.File.Head
	left := h.Number + "  ·  " + strings.ToLower(d.w.Label("revision")) + " " + h.Revision + "  ·  "
	right := d.w.Label("page", p, pages)
	state := d.w.Document.Of(d.r.Document).Footer
	rw, sw := d.ink.width(right, cellGrey), d.ink.width(state, cellBold)
	d.write(d.wide-sideMargin-rw, y, right, cellGrey)
	d.write(d.wide-sideMargin-rw-8-sw, y, state, cellBold)
	x := d.fit(sideMargin, y, d.width-rw-sw-52, left, cellGrey)
	d.write(x, y, short(d.r.Fingerprint), cellMono.in(grey))
}

// fit writes text on one line and says where it ends. A text too long for its
// room ends with an ellipsis; only running heads and feet are set so, and they
// stand in full elsewhere.
func (d *doc) fit(x, y, room float64, s string, st style) float64 {
	s = d.clean(s, st.face)
	if w := d.ink.width(s, st); w <= room {
		d.write(x, y, s, st)
		return x + w
	}
	for rs := []rune(s); len(rs) > 0; rs = rs[:len(rs)-1] {
		s = strings.TrimRight(string(rs), " ") + "…"
		if d.ink.width(s, st) <= room {
			break
		}
	}
	d.write(x, y, s, st)
	return x + d.ink.width(s, st)
}

// short is the part of a fingerprint that a person compares by eye.
func short(fingerprint string) string {
	if len(fingerprint) < 16 {
		return fingerprint
	}
	return fingerprint[:4] + " " + fingerprint[4:8] + " " + fingerprint[8:12] + " " + fingerprint[12:16]
}

package pdf

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// span is a stretch of text of one style, or a shape that stands in the text.
type span struct {
	text  string
	style style
	drop  float64 // mm below the base line
	mark  mark
	share float64 // with mark barSpace: the share of the limit
	to    string  // anchor it leads to
}

// para is a paragraph.
type para struct {
	spans  []span
	right  bool    // set to the right edge
	indent float64 // mm, all lines
	gap    float64 // mm before the first line
}

// run is a piece of a broken line at its place.
type run struct {
	span
	x, w float64
}

// line is a broken line. up is the height above the base line, high the whole.
type line struct {
	runs     []run
	count    int
	width    float64
	indent   float64
	up, high float64
	right    bool
}

// piece is a run in the making: a word, a part of a word, or the space between.
type piece struct {
	run
	src   string // the whole text that it is cut from
	from  int    // where it begins there
	space bool
	ends  bool // a line may break behind it
}

const leading = 1.34

// broken breaks a paragraph into lines no wider than width.
func (k *ink) broken(p para, width float64) []line {
	b := breaker{k: k, width: width - p.indent, now: k.now[:0]}
	k.cuts = k.pieces(k.cuts[:0], p.spans)
	b.all(k.cuts)
	k.now = b.now
	at := 0
	for i := range b.lines {
		l := &b.lines[i]
		l.indent, l.right = p.indent, p.right
		l.runs = b.runs[at : at+l.count : at+l.count]
		at += l.count
	}
	if len(b.lines) > 0 {
		b.lines[0].up += p.gap
		b.lines[0].high += p.gap
	}
	return b.lines
}

type breaker struct {
	k     *ink
	width float64
	lines []line
	runs  []run // of all lines, one after the other
	now   []piece
	at    float64
}

const slack = 1e-6 // mm; adding widths in another order is no reason to break

func (b *breaker) all(ps []piece) {
	for i := 0; i < len(ps); {
		if ps[i].space {
			if len(b.now) > 0 {
				b.add(ps[i])
			}
			i++
			continue
		}
		j, w := i, 0.0
		for j < len(ps) && !ps[j].space {
			w += ps[j].w
			j++
			if ps[j-1].ends {
				break
			}
		}
		b.word(ps[i:j], w)
		i = j
	}
	b.flush()
}

// word puts pieces that belong together on the line, or on the next; what is
// wider than a line is broken where it has to be.
func (b *breaker) word(ps []piece, w float64) {
	if b.at+w > b.width+slack && len(b.now) > 0 {
		b.flush()
	}
	if w <= b.width+slack {
		for _, p := range ps {
			b.add(p)
		}
		return
	}
	for _, p := range ps {
		if p.mark != noMark {
			b.add(p)
			continue
		}
		b.letters(p)
	}
}

func (b *breaker) letters(p piece) {
	rest := p.text
	for rest != "" {
		n, w := 0, 0.0
		for i, r := range rest {
			rw := b.k.width(string(r), p.style)
			if b.at+w+rw > b.width+slack && (n > 0 || len(b.now) > 0) {
				break
			}
			n, w = i+utf8.RuneLen(r), w+rw
		}
		if n > 0 {
			q := p
			q.text, q.w = rest[:n], w
			b.add(q)
			p.from += n
		}
		if rest = rest[n:]; rest != "" {
			b.flush()
		}
	}
}

func (b *breaker) add(p piece) {
	p.x = b.at
	b.now = append(b.now, p)
	b.at += p.w
}

func (b *breaker) flush() {
	for len(b.now) > 0 && b.now[len(b.now)-1].space {
		b.now = b.now[:len(b.now)-1]
	}
	if len(b.now) == 0 {
		b.at = 0
		return
	}
	l := line{}
	first := len(b.runs)
	begin, end := 0, 0 // of the last run, in the text it is cut from
	for i := range b.now {
		p := &b.now[i]
		if n := len(b.runs); n > first && b.runs[n-1].joins(&p.run) {
			last := &b.runs[n-1]
			if p.from == end && len(p.src) == len(b.now[i-1].src) && p.src[begin:end] == last.text {
				last.text = p.src[begin : end+len(p.text)]
			} else {
				last.text += p.text
			}
			last.w += p.w
			end += len(p.text)
		} else {
			b.runs = append(b.runs, p.run)
			begin, end = p.from, p.from+len(p.text)
		}
		if h := p.style.size * leading * mmPerPoint; h > l.high {
			l.high = h
		}
	}
	l.count = len(b.runs) - first
	last := b.runs[len(b.runs)-1]
	l.width = last.x + last.w
	l.up = l.high * 0.77
	b.lines = append(b.lines, l)
	b.now, b.at = b.now[:0], 0
}

func (r *run) joins(o *run) bool {
	return r.mark == noMark && o.mark == noMark && r.style == o.style && r.drop == o.drop && r.to == o.to
}

// pieces cuts spans into words and spaces. A number and its unit stay together.
func (k *ink) pieces(out []piece, spans []span) []piece {
	for _, s := range spans {
		switch s.mark {
		case noMark:
			out = k.cut(out, s)
		case barSpace:
			out = append(out, piece{run: run{span: s, w: barWide + 1.5}})
		default:
			out = append(out, piece{run: run{span: s, w: markRoom}})
		}
	}
	return out
}

func (k *ink) cut(out []piece, s span) []piece {
	src := k.clean(s.text, s.style.face)
	for at := 0; at < len(src); {
		if src[at] == ' ' {
			out = append(out, k.piece(s, src, at, 1, true, false))
			for at < len(src) && src[at] == ' ' {
				at++
			}
			continue
		}
		end := at + wordEnd(src[at:])
		for at < end {
			n := softEnd(src[at:end])
			out = append(out, k.piece(s, src, at, n, false, at+n < end))
			at += n
		}
	}
	return out
}

func (k *ink) piece(s span, src string, at, n int, space, ends bool) piece {
	s.text = src[at : at+n]
	return piece{run: run{span: s, w: k.width(s.text, s.style)}, src: src, from: at, space: space, ends: ends}
}

var unitWords = map[string]bool{"mm": true, "cm": true, "m": true, "mm²": true, "cm²": true, "cm2": true, "mm2": true,
	"mm/s": true, "m/s": true, "mm/s²": true, "m/s²": true, "s": true, "ms": true, "min": true, "h": true, "kg": true, "g": true,
	"N": true, "kN": true, "N/mm": true, "N/cm²": true, "N/cm2": true, "kPa": true, "bar": true, "J": true, "°C": true, "degC": true,
	"%": true, "Hz": true, "1/h": true, "W": true, "dB(A)": true, "·": true, "±": true}

// wordEnd is where a word ends; a space between a number and a unit does not end it.
func wordEnd(text string) int {
	n := strings.IndexByte(text, ' ')
	for n > 0 && n+1 < len(text) {
		next := text[n+1:]
		if i := strings.IndexByte(next, ' '); i >= 0 {
			next = next[:i]
		}
		if c := text[n-1]; c < '0' || c > '9' || !unitWords[strings.TrimRight(next, ".,;:)")] {
			return n
		}
		if next == "·" || next == "±" {
			return n
		}
		n += 1 + len(next)
	}
	if n < 0 || n >= len(text) {
		return len(text)
	}
	return n
}

// softEnd is where a long word may be broken: behind a slash, and behind a
// hyphen between two syllables of letters.
func softEnd(word string) int {
	for i := 1; i+1 < len(word); i++ {
		switch word[i] {
		case '/':
			if i+2 < len(word) && letters(word[:i]) >= 3 {
				return i + 1
			}
		case '-':
			if letters(word[:i]) >= 2 && startsLetters(word[i+1:]) {
				return i + 1
			}
		}
	}
	return len(word)
}

// letters counts the letters at the end of s.
func letters(s string) int {
	n := 0
	for s != "" {
		r, size := utf8.DecodeLastRuneInString(s)
		if !unicode.IsLetter(r) {
			break
		}
		n, s = n+1, s[:len(s)-size]
	}
	return n
}

func startsLetters(s string) bool {
	a, n := utf8.DecodeRuneInString(s)
	b, _ := utf8.DecodeRuneInString(s[n:])
	return unicode.IsLetter(a) && unicode.IsLetter(b)
}

// clean replaces what the face cannot draw and notes it down.
func (k *ink) clean(s string, f face) string {
	if printable(s, f) {
		return s
	}
	var b strings.Builder
	first := -1
	for i, r := range s {
		bad := r == utf8.RuneError
		if bad {
			_, n := utf8.DecodeRuneInString(s[i:])
			bad = n == 1
		}
		switch {
		case r == '\n' || r == '\t' || r == '\r':
			b.WriteByte(' ')
		case bad || hidden(r) || !covered()[f].has(r):
			if first < 0 {
				first = b.Len()
			}
			k.lack(r)
			b.WriteRune(substitute)
		default:
			b.WriteRune(r)
		}
	}
	if first >= 0 {
		k.affect(strings.TrimSpace(excerpt(b.String(), first)))
	}
	return b.String()
}

// affect notes a text that is not printed whole, each once, in the order met.
func (k *ink) affect(text string) {
	if len(k.affected) < mostAffected && !slices.Contains(k.affected, text) {
		k.affected = append(k.affected, text)
	}
}

// excerpt is the text around a place.
func excerpt(text string, at int) string {
	const around = 30 // characters
	before, after := []rune(text[:at]), []rune(text[at:])
	lead, tail := "", ""
	if n := len(before) - around; n > 0 {
		before, lead = before[n:], "…"
	}
	if len(after) > around {
		after, tail = after[:around], "…"
	}
	return lead + string(before) + string(after) + tail
}

// lack notes a character that is not printed, each once, in the order met.
func (k *ink) lack(r rune) {
	for _, m := range k.lacking {
		if m == r {
			return
		}
	}
	if len(k.lacking) < mostLacking {
		k.lacking = append(k.lacking, r)
	}
}

// mostLacking bounds the list of characters, mostAffected that of texts.
const (
	mostLacking  = 40
	mostAffected = 6
)

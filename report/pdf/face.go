package pdf

import (
	"sync"
	"unicode/utf8"

	"github.com/go-fonts/dejavu/dejavusanscondensed"
	"github.com/go-fonts/dejavu/dejavusanscondensedbold"
	"github.com/go-fonts/dejavu/dejavusansmono"
)

// face is one of the three faces of the document. The condensed cut of the sans
// keeps a table of six columns readable on an upright page.
type face uint8

const (
	plain face = iota
	bold
	mono
	faces
)

// substitute stands for a character that the font lacks; it is in every face.
const substitute = '□'

var fonts = [faces]struct {
	family, style string
	data          []byte
}{
	plain: {"sans", "", dejavusanscondensed.TTF},
	bold:  {"sans", "B", dejavusanscondensedbold.TTF},
	mono:  {"mono", "", dejavusansmono.TTF},
}

// covered is read once for all documents.
var covered = sync.OnceValue(func() *[faces]*coverage {
	var c [faces]*coverage
	for f := range fonts {
		c[f] = glyphs(fonts[f].data)
	}
	return &c
})

const mmPerPoint = 25.4 / 72

// printable tells whether the face draws every character of s.
func printable(s string, f face) bool {
	c := covered()[f]
	for i, r := range s {
		if r < 0x7f && r >= ' ' {
			continue
		}
		if r == utf8.RuneError {
			if _, n := utf8.DecodeRuneInString(s[i:]); n == 1 {
				return false
			}
		}
		if !c.has(r) || hidden(r) {
			return false
		}
	}
	return true
}

// hidden characters steer the direction or joining of text and have no glyph of
// their own; on paper they could only mislead.
func hidden(r rune) bool {
	return r < ' ' || r >= 0x7f && r < 0xa0 || r == 0xad || r >= 0x200b && r <= 0x200f ||
		r >= 0x2028 && r <= 0x202e || r >= 0x2060 && r <= 0x206f || r == 0xfeff
}

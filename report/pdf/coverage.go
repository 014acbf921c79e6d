package pdf

import "encoding/binary"

// coverage is the set of characters of the Basic Multilingual Plane that a font
// has a glyph for. fpdf draws a missing glyph as nothing and says nothing, so
// every character is looked up here first.
type coverage [1 << 16 / 64]uint64

func (c *coverage) has(r rune) bool {
	return r >= 0 && r < 1<<16 && c[r/64]&(1<<(r%64)) != 0
}

// glyphs reads the character map of a TrueType font: the segments of its
// format 4 table, OpenType specification, "cmap". A font that cannot be read
// covers nothing.
func glyphs(font []byte) *coverage {
	c := new(coverage)
	table := segments(font)
	if len(table) < 16 {
		return c
	}
	u16 := func(at int) int {
		if at+2 > len(table) {
			return 0
		}
		return int(binary.BigEndian.Uint16(table[at:]))
	}
	n := u16(6) / 2
	for i := range n {
		end, start := u16(14+2*i), u16(16+2*n+2*i)
		delta, at := u16(16+4*n+2*i), 16+6*n+2*i
		offset := u16(at)
		for r := start; r <= end && r < 0xffff; r++ {
			glyph := r + delta
			if offset != 0 {
				if glyph = u16(at + offset + 2*(r-start)); glyph != 0 {
					glyph += delta
				}
			}
			if glyph&0xffff != 0 {
				c[r/64] |= 1 << (r % 64)
			}
		}
	}
	return c
}

// segments finds the format 4 table for Unicode.
func segments(font []byte) []byte {
	cmap := fontTable(font, "cmap")
	if len(cmap) < 4 {
		return nil
	}
	for i := range int(binary.BigEndian.Uint16(cmap[2:])) {
		rec := 4 + 8*i
		if rec+8 > len(cmap) {
			return nil
		}
		platform := binary.BigEndian.Uint16(cmap[rec:])
		at := int(binary.BigEndian.Uint32(cmap[rec+4:]))
		if (platform == 0 || platform == 3) && at+16 <= len(cmap) && binary.BigEndian.Uint16(cmap[at:]) == 4 {
			return cmap[at:]
		}
	}
	return nil
}

func fontTable(font []byte, tag string) []byte {
	if len(font) < 12 {
		return nil
	}
	for i := range int(binary.BigEndian.Uint16(font[4:])) {
		rec := 12 + 16*i
		if rec+16 > len(font) {
			return nil
		}
		if string(font[rec:rec+4]) != tag {
			continue
		}
		at, size := int(binary.BigEndian.Uint32(font[rec+8:])), int(binary.BigEndian.Uint32(font[rec+12:]))
		if at+size > len(font) {
			return nil
		}
		return font[at : at+size]
	}
	return nil
}

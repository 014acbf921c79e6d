package book

import (
	"github.com/xuri/excelize/v2"

	"standclear/limits/sheet"
)

// Colours support the words and never stand for them: bluish means may be
// typed, orange and yellow stand out for every kind of colour vision, and all
// stay apart in a grey print.
const (
	face     = "Arial"
	ink      = "1C2733"
	pale     = "66717C"
	rule     = "C3CAD1"
	headFill = "E3E8ED"
	editFill = "EAF3FB"
	editLine = "7C9CBD"
	titleInk = "1B3A57"
	badFill  = "F2BFA6"
	midFill  = "FBE7B0"
	goodFill = "DCEBEA"
	bodySize = 9.0
	headSize = 8.5
)

// paint is one way to draw a cell.
type paint struct {
	look Look
	edit bool
	head int // 1: symbol, 2: meaning, 3: unit, 4: title, 5: sub-title, 6: block title, 7: note, 8: hidden
	text bool
	link bool
	wrap bool // of a note
}

// Parts of heads and titles.
const (
	symbolHead = iota + 1
	meansHead
	unitHead
	titleLine
	subLine
	blockLine
	noteLine
	helper
)

// styles keeps the style ids of a file, made when first used.
type styles struct {
	file *excelize.File
	ids  map[paint]int
}

func (s *styles) id(p paint) (int, error) {
	if id, ok := s.ids[p]; ok {
		return id, nil
	}
	style := p.style()
	id, err := s.file.NewStyle(&style)
	s.ids[p] = id
	return id, err
}

func (p paint) style() excelize.Style {
	st := excelize.Style{
		Font:       &excelize.Font{Family: face, Size: bodySize, Color: ink},
		Alignment:  &excelize.Alignment{Vertical: "top", WrapText: true},
		Protection: &excelize.Protection{Locked: !p.edit},
	}
	if p.head != 0 {
		p.headStyle(&st)
		return st
	}
	st.Border = box(rule)
	switch p.look {
	case Ident, Label:
		st.Font.Bold = true
	case Word:
		st.Font.Bold = true
	case Share:
		share := "0.0%"
		st.CustomNumFmt = &share
	case Count:
		st.NumFmt = 1 // 0
	case Exact:
		exact := exactFormat
		st.CustomNumFmt = &exact
	case Quiet:
		st.Font.Color = pale
	case Heading:
		st.Font.Bold, st.Border = true, nil
	case Wide:
		st.Alignment.WrapText, st.Border = false, nil
	}
	if p.edit {
		st.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{editFill}}
		st.Border = box(editLine)
	}
	if p.link {
		st.Font.Color, st.Font.Underline = titleInk, "single"
	}
	p.align(st.Alignment)
	return st
}

// exactFormat says the sign itself: in sections with a condition LibreOffice drops it.
const exactFormat = "[>=0.01]0.000;[<0]-0.000;General"

// align puts texts on the left, indented, so that they keep clear of the numbers
// to their left. Numbers stand on the right without indent: LibreOffice keeps
// that in some cells of a column and drops it in others.
func (p paint) align(a *excelize.Alignment) {
	if p.text {
		a.Horizontal, a.Indent = "left", 1
	} else {
		a.Horizontal = "right"
	}
}

func (p paint) headStyle(st *excelize.Style) {
	switch p.head {
	case symbolHead:
		st.Font.Bold = true
	case meansHead, unitHead:
		st.Font.Size, st.Font.Color = headSize, pale
	case titleLine:
		st.Font.Size, st.Font.Bold, st.Font.Color = 13, true, titleInk
	case subLine:
		st.Font.Bold = true
	case blockLine:
		st.Font.Size, st.Font.Bold, st.Font.Color = 11, true, titleInk
	case noteLine, helper:
		st.Font.Color = pale
	}
	if p.head <= unitHead {
		st.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{headFill}}
		st.Border = box(rule)
		st.Alignment.Vertical = "bottom"
		p.align(st.Alignment)
		return
	}
	st.Alignment.WrapText = p.wrap
}

func box(colour string) []excelize.Border {
	var out []excelize.Border
	for _, side := range []string{"left", "right", "top", "bottom"} {
		out = append(out, excelize.Border{Type: side, Color: colour, Style: 1})
	}
	return out
}

// tint is a fill for words.
type tint struct {
	fill  string
	words []string
}

// tints lists the words of verdicts and states by how much they ask for.
var tints = []tint{
	{badFill, []string{string(sheet.NotPermitted), string(sheet.Over), "refused", "failed", "open", "not-ready", againText}},
	{midFill, []string{string(sheet.Outside), string(sheet.NeedsCopy), string(sheet.NotDecided), string(sheet.OutOfDate),
		string(sheet.WithinModel), "provisional", "planned", "missing", "required", "recommended", "ready-to-measure"}},
	{goodFill, []string{string(sheet.WithinMeasured), string(sheet.Within), "reduced", "accepted", "passed", "none",
		"ready-for-review", "reviewed"}},
}

// againText stands where inputs were edited since the workbook was built.
const againText = "inputs changed, build again"

package book

import (
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"standclear/hazards"
	"standclear/limits/expr"
)

// Write writes the workbook of a result. The same result gives the same bytes.
// An error means that nothing useful was written.
func Write(w io.Writer, r *hazards.Result) error {
	b := Plan(r)
	l, err := lay(b)
	if err != nil {
		return err
	}
	return l.write(w)
}

// writer writes one file.
type writer struct {
	*layout
	file   *excelize.File
	styles styles
	tint   []int // conditional styles, as tints
}

func (l *layout) write(out io.Writer) (err error) {
	f := excelize.NewFile()
	defer f.Close()
	f.SetZipWriter(newPacker)
	w := &writer{layout: l, file: f, styles: styles{file: f, ids: map[paint]int{}}}
	for _, t := range tints {
		id, err := f.NewConditionalStyle(&excelize.Style{Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{t.fill}}})
		if err != nil {
			return err
		}
		w.tint = append(w.tint, id)
	}
	for i, s := range l.book.Sheets {
		if i == 0 {
			err = f.SetSheetName("Sheet1", s.Name)
		} else {
			_, err = f.NewSheet(s.Name)
		}
		if err == nil && s.Hidden {
			err = f.SetSheetVisible(s.Name, false)
		}
		if err != nil {
			return err
		}
	}
	for _, s := range l.book.Sheets {
		if err := w.sheet(s); err != nil {
			return fmt.Errorf("sheet %s: %w", s.Name, err)
		}
		for _, b := range s.Blocks { // large plans are let go while the file grows
			b.Rows = nil
		}
	}
	if err := w.names(); err != nil {
		return err
	}
	if err := w.properties(); err != nil {
		return err
	}
	return f.Write(out)
}

func (w *writer) names() error {
	for _, n := range w.book.Names {
		at, err := w.address(n.Cell, nil)
		if err != nil {
			return err
		}
		if err := w.file.SetDefinedName(&excelize.DefinedName{Name: n.Name, RefersTo: at}); err != nil {
			return fmt.Errorf("name %s: %w", n.Name, err)
		}
	}
	return nil
}

// properties hold what identifies the file. Core properties are left alone:
// exceljs cannot open a workbook whose core properties were set.
func (w *writer) properties() error {
	for _, p := range []excelize.CustomProperty{
		{Name: "standclear-version", Value: w.book.Version},
		{Name: "standclear-input-sha256", Value: w.book.Input},
		{Name: "standclear-fingerprint", Value: w.book.Fingerprint},
	} {
		if p.Value == "" {
			continue
		}
		if err := w.file.SetCustomProps(p); err != nil {
			return err
		}
	}
	return nil
}

// value is a cell value as excelize takes it. excelize cuts numbers after 15
// digits, so they are rounded to 15 before.
func value(v expr.Value, formula string) (any, error) {
	switch v.Kind {
	case expr.Number:
		if math.IsNaN(v.Num) || math.IsInf(v.Num, 0) {
			return nil, fmt.Errorf("a number that cannot be written: %v", v.Num)
		}
		return round15(v.Num), nil
	case expr.Bool:
		return v.Bool, nil
	case expr.Text:
		if utf8.RuneCountInString(v.Text) > mostText {
			return nil, fmt.Errorf("a text of more than %d characters: %.40s…", mostText, v.Text)
		}
		return escaped.ReplaceAllString(v.Text, "_x005F$0"), nil
	}
	if formula != "" {
		return "", nil
	}
	return nil, nil
}

// mostText is what a cell holds, less room for letters of two units.
const mostText = 16000

// escaped is what spreadsheets read as a character's code.
var escaped = regexp.MustCompile(`_x[0-9A-Fa-f]{4}_`)

func round15(x float64) float64 {
	if x == 0 || x == math.Trunc(x) && math.Abs(x) < 1e15 {
		return x + 0 // no negative zero
	}
	r, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 15, 64), 64)
	if err != nil {
		return x
	}
	return r
}

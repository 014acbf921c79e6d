package book

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"testing"

	"github.com/xuri/excelize/v2"

	"standclear/hazards/hazardstest"
)

// BenchmarkWrite is one cell, as it comes to a user.
func BenchmarkWrite(b *testing.B) {
	r := assess(b, demo(b))
	b.ReportAllocs()
	for b.Loop() {
		if err := Write(io.Discard, r); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkWriteLarge is 10,000 hazards with 10,000 checks.
func BenchmarkWriteLarge(b *testing.B) {
	r := assess(b, hazardstest.YAML(hazardstest.Size{Hazards: 10_000, Contacts: 5_000, Checks: 5_000, Points: 50}))
	b.ReportAllocs()
	for b.Loop() {
		if err := Write(io.Discard, r); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkBareLarge writes the very same cells with a bare stream, as a
// measure for BenchmarkWriteLarge.
func BenchmarkBareLarge(b *testing.B) {
	r := assess(b, hazardstest.YAML(hazardstest.Size{Hazards: 10_000, Contacts: 5_000, Checks: 5_000, Points: 50}))
	var buf bytes.Buffer
	if err := Write(&buf, r); err != nil {
		b.Fatal(err)
	}
	sheets := cellsOf(b, buf.Bytes())
	b.ReportAllocs()
	for b.Loop() {
		bare(b, sheets)
	}
}

func bare(b *testing.B, sheets [][][]any) {
	f := excelize.NewFile()
	defer f.Close()
	for i := range 20 {
		if _, err := f.NewStyle(&excelize.Style{Font: &excelize.Font{Size: 8 + float64(i)}}); err != nil {
			b.Fatal(err)
		}
	}
	for i, rows := range sheets {
		name := fmt.Sprintf("S%d", i)
		if _, err := f.NewSheet(name); err != nil {
			b.Fatal(err)
		}
		w, err := f.NewStreamWriter(name)
		if err != nil {
			b.Fatal(err)
		}
		for k, row := range rows {
			if row == nil {
				continue
			}
			if err := w.SetRow("A"+strconv.Itoa(k+1), row); err != nil {
				b.Fatal(err)
			}
		}
		if err := w.Flush(); err != nil {
			b.Fatal(err)
		}
	}
	if err := f.Write(io.Discard); err != nil {
		b.Fatal(err)
	}
}

var sheetPart = regexp.MustCompile(`^xl/worksheets/sheet\d+\.xml$`)

// cellsOf reads the cells of a workbook as a stream takes them.
func cellsOf(b *testing.B, data []byte) (sheets [][][]any) {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		b.Fatal(err)
	}
	n := 0
	for _, part := range z.File {
		if !sheetPart.MatchString(part.Name) {
			continue
		}
		in, err := part.Open()
		if err != nil {
			b.Fatal(err)
		}
		rows, count := rowsOf(b, in)
		sheets, n = append(sheets, rows), n+count
		in.Close()
	}
	b.Logf("%d cells", n)
	return sheets
}

func rowsOf(b *testing.B, in io.Reader) (rows [][]any, n int) {
	d := xml.NewDecoder(in)
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return rows, n
		}
		if err != nil {
			b.Fatal(err)
		}
		start, ok := tok.(xml.StartElement)
		if !ok || start.Name.Local != "c" {
			continue
		}
		var c cellXML
		if err := d.DecodeElement(&c, &start); err != nil {
			b.Fatal(err)
		}
		col, row, err := excelize.CellNameToCoordinates(c.R)
		if err != nil {
			b.Fatal(err)
		}
		for len(rows) < row {
			rows = append(rows, nil)
		}
		for len(rows[row-1]) < col {
			rows[row-1] = append(rows[row-1], nil)
		}
		rows[row-1][col-1] = excelize.Cell{StyleID: min(c.S, 20), Formula: c.F, Value: c.value()}
		n++
	}
}

func (c *cellXML) value() any {
	if c.T == "inlineStr" {
		return c.IS
	}
	if x, err := strconv.ParseFloat(c.V, 64); err == nil && c.T == "" {
		return x
	}
	return c.V
}

package book

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// Blocks of the sheet Carried: the files, and their text in pieces. A file has a
// number, a piece the numbers of its file and of its own.
const (
	carriedSheet = "carried"
	carriedBlock = "carried-files"
	piecesBlock  = "carried-pieces"

	fileID   = "carried:%d"
	pieceID  = "carried:%d.%d"
	textKey  = "text"
	nameKey  = "name"
	sizeKey  = "size"
	sumKey   = "sha256"
	formKey  = "form"
	countKey = "pieces"
)

// Forms of a carried file. What spreadsheet programs do to texts on saving
// decides them: line breaks, tabs, texts that look like codes of characters and
// letters beyond ASCII do not survive all of them, quoted ASCII does.
const (
	formLines  = "lines"  // each line a quoted text with its line break, put together again as it stands
	formPacked = "packed" // gzip, then base64
)

// A file is carried in lines as long as it can be looked through there.
const (
	mostReadable = 1 << 20
	mostLines    = 20000
	mostPiece    = mostText - 16
)

// carried plans the files that the workbook was built from, byte for byte.
func (p *planner) carried() *Sheet {
	files := &Block{ID: carriedBlock, Title: "Files", Columns: []*Column{
		{Key: refKey, Head: "No.", Width: 10, Look: Ident},
		{Key: nameKey, Head: "File", Width: 44},
		{Key: sizeKey, Head: "Bytes", Width: 12},
		{Key: formKey, Head: "Form", Width: 10},
		{Key: countKey, Head: "Pieces", Width: 10},
		{Key: sumKey, Head: "SHA-256", Width: 70, Look: Wide},
	}}
	text := &Block{ID: piecesBlock, Title: "Text", Note: "Each piece is a quoted text in JSON, or a piece of gzip in base64; the pieces of a file in their order are the file.",
		Columns: []*Column{{Key: refKey, Head: "No.", Width: 10, Look: Ident}, {Key: textKey, Head: "Piece", Width: 44, Look: Wide}}}
	for i := range p.r.Files {
		f := &p.r.Files[i]
		form, pieces := encode(f.Data)
		sum := sha256.Sum256(f.Data)
		files.Rows = append(files.Rows, &Row{ID: fmt.Sprintf(fileID, i+1), Cells: []Cell{show(strconv.Itoa(i + 1)), show(fileName(f.Name)), show(strconv.Itoa(len(f.Data))),
			show(form), show(strconv.Itoa(len(pieces))), show(hex.EncodeToString(sum[:]))}})
		for k, piece := range pieces {
			text.Rows = append(text.Rows, &Row{ID: fmt.Sprintf(pieceID, i+1, k+1), Cells: []Cell{show(fmt.Sprintf("%d.%d", i+1, k+1)), show(piece)}})
		}
	}
	return &Sheet{ID: carriedSheet, Name: "Carried", Hidden: true, Blocks: []*Block{files, text},
		About: "The files that this workbook was built from, byte for byte. Nothing is to be edited here."}
}

// fileName is a name as it is shown: as it is where spreadsheets keep it so,
// else quoted.
func fileName(name string) string {
	if q := quote(name); len(q) != 1 || q[0] != `"`+name+`"` {
		return q[0]
	}
	return name
}

// encode turns a file into texts that cells keep.
func encode(data []byte) (form string, pieces []string) {
	if len(data) > mostReadable || !utf8.Valid(data) || bytes.Count(data, []byte{'\n'}) > mostLines {
		return formPacked, packed(data)
	}
	for line := range strings.Lines(string(data)) {
		pieces = append(pieces, quote(line)...)
	}
	return formLines, pieces
}

// packed is a file in pieces of base64.
func packed(data []byte) []string {
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err == nil {
		_, err = w.Write(data)
	}
	if err == nil {
		err = w.Close()
	}
	if err != nil {
		panic("packing into memory: " + err.Error())
	}
	s := base64.StdEncoding.EncodeToString(b.Bytes())
	var out []string
	for len(s) > mostPiece {
		out, s = append(out, s[:mostPiece]), s[mostPiece:]
	}
	return append(out, s)
}

// quote writes a line as quoted texts of ASCII letters, several where it is long.
func quote(line string) []string {
	var out []string
	b := []byte{'"'}
	for i, r := range line {
		if len(b) > mostPiece-16 {
			out, b = append(out, string(b)+`"`), []byte{'"'}
		}
		switch {
		case r == '"' || r == '\\':
			b = append(b, '\\', byte(r))
		case r == '\n':
			b = append(b, `\n`...)
		case r == '\r':
			b = append(b, `\r`...)
		case r == '\t':
			b = append(b, `\t`...)
		case r < ' ' || r > '~' || r == '_' && strings.HasPrefix(line[i:], "_x"): // _x begins a code of spreadsheets
			for _, u := range utf16.Encode([]rune{r}) {
				b = fmt.Appendf(b, `\u%04x`, u)
			}
		default:
			b = append(b, byte(r))
		}
	}
	return append(out, string(b)+`"`)
}

package book

import (
	"bytes"
	"cmp"
	"compress/gzip"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"standclear/limits/source"
)

// CarriedFile is a file that a workbook carries.
type CarriedFile struct {
	Name string // within the folder of the assessment, with slashes
	Data []byte
}

// Bounds of what is read from a workbook, which may come from anywhere.
const (
	mostBook     = 128 << 20 // bytes of the workbook
	mostUnpacked = 512 << 20 // bytes of its parts
	mostFiles    = 1000
	mostPieces   = 1 << 20
)

// Carried reads the files that a workbook carries, the assessment first. Each is
// held against its size and hash: what comes back is, byte for byte, what the
// workbook was built from. The workbook may have been saved by another program.
func Carried(path string) (files []CarriedFile, err error) {
	defer func() {
		if p := recover(); p != nil { // a broken workbook may break its reader
			files, err = nil, fmt.Errorf("%s cannot be read as a workbook: %v", path, p)
		}
	}()
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if info.Size() > mostBook {
		return nil, fmt.Errorf("%s has %d bytes, more than %d", path, info.Size(), mostBook)
	}
	f, err := excelize.OpenFile(path, excelize.Options{RawCellValue: true, UnzipSizeLimit: mostUnpacked})
	if err != nil {
		return nil, fmt.Errorf("%s cannot be read as a workbook: %w", path, err)
	}
	defer f.Close()
	for _, name := range f.GetSheetList() {
		c, err := readCarried(f, name)
		if err != nil {
			return nil, fmt.Errorf("%s: sheet %s: %w", path, name, err)
		}
		if c != nil {
			if files, err = c.files(); err != nil {
				return nil, fmt.Errorf("%s: %w", path, err)
			}
			return files, nil
		}
	}
	return nil, fmt.Errorf("%s carries no files: it is no workbook of this program, or its sheet Carried is gone", path)
}

// carriedRows are the rows of the sheet Carried, by what stands in its cells and
// not by where.
type carriedRows struct {
	list   []carriedRow
	pieces map[int][]carriedPiece // by number of the file
	count  int
}

type carriedRow struct {
	number int
	cells  map[string]string // by key
}

type carriedPiece struct {
	number int
	text   string
}

// readCarried reads a sheet; nil when it is not the sheet Carried.
func readCarried(f *excelize.File, name string) (*carriedRows, error) {
	rows, err := f.Rows(name)
	if err != nil {
		return nil, nil //nolint:nilerr // a sheet of another kind, such as a chart
	}
	defer rows.Close()
	c := &carriedRows{pieces: map[int][]carriedPiece{}}
	var keys []string
	for first := true; rows.Next(); first = false {
		cells, err := rows.Columns(excelize.Options{RawCellValue: true})
		if err != nil {
			return nil, err
		}
		if first && (len(cells) == 0 || cells[0] != "sheet:"+carriedSheet) {
			return nil, nil
		}
		switch {
		case len(cells) == 0:
		case strings.HasPrefix(cells[0], "block:"):
			keys = cells
		case strings.HasPrefix(cells[0], "carried:") && len(keys) > 0:
			if err := c.add(keys, cells); err != nil {
				return nil, err
			}
		}
	}
	return c, rows.Error()
}

// add takes one row in, a file or a piece.
func (c *carriedRows) add(keys, cells []string) error {
	row := map[string]string{}
	for i := 1; i < len(keys) && i < len(cells); i++ {
		row[keys[i]] = cells[i]
	}
	of, piece, isPiece := strings.Cut(strings.TrimPrefix(cells[0], "carried:"), ".")
	number, err := strconv.Atoi(of)
	if err != nil {
		return fmt.Errorf("found the row %q, which is none of a file", cells[0])
	}
	if keys[0] == "block:"+carriedBlock && !isPiece {
		if c.list = append(c.list, carriedRow{number, row}); len(c.list) > mostFiles {
			return fmt.Errorf("more than %d files", mostFiles)
		}
		return nil
	}
	k, err := strconv.Atoi(piece)
	if err != nil || keys[0] != "block:"+piecesBlock {
		return fmt.Errorf("found the row %q, which is none of a piece", cells[0])
	}
	if c.count++; c.count > mostPieces {
		return fmt.Errorf("more than %d pieces", mostPieces)
	}
	c.pieces[number] = append(c.pieces[number], carriedPiece{k, row[textKey]})
	return nil
}

// files puts the pieces together.
func (c *carriedRows) files() ([]CarriedFile, error) {
	slices.SortFunc(c.list, func(a, b carriedRow) int { return cmp.Compare(a.number, b.number) })
	var out []CarriedFile
	for i, row := range c.list {
		if row.number != i+1 {
			return nil, fmt.Errorf("file %d of those carried is missing, or one stands there twice", i+1)
		}
		name := row.cells[nameKey]
		if strings.HasPrefix(name, `"`) {
			if err := json.Unmarshal([]byte(name), &name); err != nil {
				return nil, fmt.Errorf("the name of file %d is no quoted text: %w", i+1, err)
			}
		}
		data, err := row.data(c.pieces[row.number])
		if err != nil {
			return nil, fmt.Errorf("%s, as carried: %w", name, err)
		}
		out = append(out, CarriedFile{Name: name, Data: data})
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("no file is carried")
	}
	return out, nil
}

// data is the file of a row, held against its size and hash.
func (r carriedRow) data(pieces []carriedPiece) ([]byte, error) {
	slices.SortFunc(pieces, func(a, b carriedPiece) int { return cmp.Compare(a.number, b.number) })
	count, err1 := strconv.Atoi(r.cells[countKey])
	size, err2 := strconv.Atoi(r.cells[sizeKey])
	if err1 != nil || err2 != nil || size < 0 || size > source.MaxSize {
		return nil, fmt.Errorf("found %q bytes in %q pieces", r.cells[sizeKey], r.cells[countKey])
	}
	for i, p := range pieces {
		if p.number != i+1 {
			return nil, fmt.Errorf("piece %d is missing, or stands there twice", i+1)
		}
	}
	if len(pieces) != count {
		return nil, fmt.Errorf("found %d pieces, expected %d", len(pieces), count)
	}
	data, err := decode(r.cells[formKey], pieces, size)
	if err != nil {
		return nil, err
	}
	sum := sha256.Sum256(data)
	if len(data) != size || hex.EncodeToString(sum[:]) != r.cells[sumKey] {
		return nil, fmt.Errorf("it was changed: its size or hash is not what stands beside its name")
	}
	return data, nil
}

func decode(form string, pieces []carriedPiece, size int) ([]byte, error) {
	var b bytes.Buffer
	for _, p := range pieces {
		text := p.text
		if form == formLines {
			if err := json.Unmarshal([]byte(p.text), &text); err != nil {
				return nil, fmt.Errorf("piece %d is no quoted text: %w", p.number, err)
			}
		}
		b.WriteString(text)
	}
	switch form {
	case formLines:
		return b.Bytes(), nil
	case formPacked:
		zr, err := gzip.NewReader(base64.NewDecoder(base64.StdEncoding, &b))
		if err != nil {
			return nil, fmt.Errorf("it cannot be unpacked: %w", err)
		}
		data, err := io.ReadAll(io.LimitReader(zr, int64(size)+1))
		if err != nil {
			return nil, fmt.Errorf("it cannot be unpacked: %w", err)
		}
		return data, nil
	}
	return nil, fmt.Errorf("found the form %q, expected %s or %s", form, formLines, formPacked)
}

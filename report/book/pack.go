package book

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"errors"
	"hash/crc32"
	"io"
	"io/fs"
	"regexp"
	"sort"
	"strings"

	"github.com/xuri/excelize/v2"
)

// packer stands between excelize and the file. excelize writes parts and
// content types in the order of maps, so that no two files are alike; here they
// are sorted and bear no time. It also writes true and false where some readers
// only know 1 and 0 (exceljs then sees neither protection nor unlocked cells).
type packer struct {
	out   io.Writer
	parts []*part
}

func newPacker(w io.Writer) excelize.ZipWriter { return &packer{out: w} }

// Create ends the part before and begins another.
func (p *packer) Create(name string) (io.Writer, error) {
	if err := p.finish(); err != nil {
		return nil, err
	}
	pt, err := newPart(name)
	if err != nil {
		return nil, err
	}
	p.parts = append(p.parts, pt)
	return pt, nil
}

// AddFS is part of the interface; excelize does not call it for workbooks.
func (p *packer) AddFS(fs.FS) error { return errors.ErrUnsupported }

// Close writes all parts in the order of their names.
func (p *packer) Close() error {
	if err := p.finish(); err != nil {
		return err
	}
	sort.SliceStable(p.parts, func(i, j int) bool { return p.parts[i].name < p.parts[j].name })
	zw := zip.NewWriter(p.out)
	for _, pt := range p.parts {
		w, err := zw.CreateRaw(&zip.FileHeader{Name: pt.name, Method: zip.Deflate, CRC32: pt.sum,
			UncompressedSize64: pt.size, CompressedSize64: uint64(pt.packed.Len())})
		if err != nil {
			return err
		}
		if _, err := pt.packed.WriteTo(w); err != nil {
			return err
		}
	}
	return zw.Close()
}

func (p *packer) finish() error {
	if len(p.parts) == 0 {
		return nil
	}
	return p.parts[len(p.parts)-1].finish()
}

// Between these marks a sheet holds its cells, which have no boolean attributes
// and make up nearly all of the file: they are passed on as they come.
var cellsFrom, cellsTo = []byte("<sheetData>"), []byte("</sheetData>")

// part is one part of the file, packed while it is written.
type part struct {
	name    string
	sheet   bool
	inCells bool
	behind  bool   // behind the cells
	held    []byte // not passed on yet
	packed  bytes.Buffer
	pack    *flate.Writer
	sum     uint32
	size    uint64
}

func newPart(name string) (*part, error) {
	p := &part{name: name, sheet: strings.HasPrefix(name, "xl/worksheets/sheet")}
	var err error
	p.pack, err = flate.NewWriter(&p.packed, flate.DefaultCompression)
	return p, err
}

// Write takes the next bytes of the part.
func (p *part) Write(data []byte) (int, error) {
	n := len(data)
	p.held = append(p.held, data...)
	if !p.sheet || p.behind {
		return n, nil
	}
	if !p.inCells {
		at := bytes.Index(p.held, cellsFrom)
		if at < 0 {
			return n, nil
		}
		if err := p.pass(digits(p.held[:at])); err != nil {
			return 0, err
		}
		p.held, p.inCells = p.held[at:], true
	}
	return n, p.passCells()
}

// passCells passes on what is surely cells.
func (p *part) passCells() error {
	at := bytes.LastIndex(p.held, cellsTo)
	p.behind = at >= 0
	if at < 0 {
		at = max(0, len(p.held)-len(cellsTo))
	}
	if err := p.pass(p.held[:at]); err != nil {
		return err
	}
	p.held = append(p.held[:0], p.held[at:]...)
	return nil
}

func (p *part) pass(data []byte) error {
	p.sum = crc32.Update(p.sum, crc32.IEEETable, data)
	p.size += uint64(len(data))
	_, err := p.pack.Write(data)
	return err
}

func (p *part) finish() error {
	if p.pack == nil {
		return nil
	}
	rest := p.held
	switch {
	case p.name == "[Content_Types].xml":
		rest = sortTypes(rest)
	case p.sheet, p.name == "xl/styles.xml", p.name == "xl/workbook.xml":
		rest = digits(rest)
	}
	err := errors.Join(p.pass(rest), p.pack.Close())
	p.pack, p.held = nil, nil
	return err
}

var (
	contentType = regexp.MustCompile(`<(?:Default|Override) [^>]*>(?:</(?:Default|Override)>)?`)
	attribute   = regexp.MustCompile(`="(true|false)"`)
)

func sortTypes(body []byte) []byte {
	found := contentType.FindAll(body, -1)
	sorted := make([]string, len(found))
	for i, f := range found {
		sorted[i] = string(f)
	}
	sort.Strings(sorted)
	i := 0
	return contentType.ReplaceAllFunc(body, func([]byte) []byte {
		i++
		return []byte(sorted[i-1])
	})
}

// digits replaces the attributes "true" and "false" by 1 and 0.
func digits(body []byte) []byte {
	return attribute.ReplaceAllFunc(body, func(m []byte) []byte {
		if m[2] == 't' {
			return []byte(`="1"`)
		}
		return []byte(`="0"`)
	})
}

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
	p.finish()
	pt := newPart(name)
	p.parts = append(p.parts, pt)
	return pt, nil
}

// AddFS is part of the interface; excelize does not call it for workbooks.
func (p *packer) AddFS(fs.FS) error { return errors.ErrUnsupported }

// Close writes all parts in the order of their names.
func (p *packer) Close() error {
	p.finish()
	sort.SliceStable(p.parts, func(i, j int) bool { return p.parts[i].name < p.parts[j].name })
	zw := zip.NewWriter(p.out)
	for _, pt := range p.parts {
		if <-pt.done; pt.err != nil {
			return pt.err
		}
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

// finish ends the part being written.
func (p *packer) finish() {
	if n := len(p.parts); n > 0 {
		p.parts[n-1].finish()
	}
}

// Between these marks a sheet holds its cells, which have no boolean attributes
// and make up nearly all of the file: they are passed on as they come.
var cellsFrom, cellsTo = []byte("<sheetData>"), []byte("</sheetData>")

// part is one part of the file. It is packed beside the writing, so that several
// parts are packed at a time.
type part struct {
	name    string
	sheet   bool
	inCells bool
	behind  bool   // behind the cells
	held    []byte // not passed on yet
	work    chan []byte
	done    chan struct{}
	packed  bytes.Buffer
	sum     uint32
	size    uint64
	err     error
}

func newPart(name string) *part {
	p := &part{name: name, sheet: strings.HasPrefix(name, "xl/worksheets/sheet"), work: make(chan []byte, 4), done: make(chan struct{})}
	go p.pack(p.work)
	return p
}

// pack packs what is passed on until there is no more.
func (p *part) pack(work <-chan []byte) {
	defer close(p.done)
	w, err := flate.NewWriter(&p.packed, flate.DefaultCompression)
	for data := range work {
		if err == nil {
			p.sum = crc32.Update(p.sum, crc32.IEEETable, data)
			p.size += uint64(len(data))
			_, err = w.Write(data)
		}
	}
	if err == nil {
		err = w.Close()
	}
	p.err = err
}

// Write takes the next bytes of the part.
func (p *part) Write(data []byte) (int, error) {
	p.held = append(p.held, data...)
	if !p.sheet || p.behind {
		return len(data), nil
	}
	if !p.inCells {
		at := bytes.Index(p.held, cellsFrom)
		if at < 0 {
			return len(data), nil
		}
		p.work <- digits(p.held[:at])
		p.held, p.inCells = p.held[at:], true
	}
	p.passCells()
	return len(data), nil
}

// passCells passes on what is surely cells.
func (p *part) passCells() {
	at := bytes.LastIndex(p.held, cellsTo)
	p.behind = at >= 0
	if at < 0 {
		at = max(0, len(p.held)-len(cellsTo))
	}
	rest := append([]byte(nil), p.held[at:]...)
	p.work <- p.held[:at]
	p.held = rest
}

// finish passes on the rest.
func (p *part) finish() {
	if p.work == nil {
		return
	}
	rest := p.held
	switch {
	case p.name == "[Content_Types].xml":
		rest = sortTypes(rest)
	case p.sheet, p.name == "xl/styles.xml", p.name == "xl/workbook.xml":
		rest = digits(rest)
	}
	p.work <- rest
	close(p.work)
	p.work, p.held = nil, nil
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

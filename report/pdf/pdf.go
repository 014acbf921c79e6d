// Package pdf writes the summary of an assessment: what stands against release
// first, then rows, checks, calculations, sources and room for signatures. It
// holds no rule of the trade; everything it prints is in the Result.
//
// The same Result and options give the same bytes.
package pdf

import (
	"errors"
	"fmt"
	"io"
	"time"

	"github.com/go-pdf/fpdf"

	"standclear/hazards"
	"standclear/report/words"
)

// Options choose the paper and what is attached. The zero value means A4 and
// nothing attached.
type Options struct {
	Paper  string // "A4" or "Letter"; "" is A4
	Attach []Attachment

	trace func(spot) // for tests
}

// Attachment is a file carried inside the document.
type Attachment struct {
	Name  string
	Means string // what it is
	Data  []byte
}

// papers gives width and height in mm.
var papers = map[string][2]float64{"": {210, 297}, "A4": {210, 297}, "Letter": {215.9, 279.4}}

// Write writes the summary on A4.
func Write(w io.Writer, r *hazards.Result) error { return Options{}.Write(w, r) }

// Write writes the summary. It fails when there is no assessment in r, when the
// paper is unknown, or when w fails.
func (o Options) Write(w io.Writer, r *hazards.Result) error {
	if r == nil || r.File == nil {
		return errors.New("pdf: found no assessment in the result")
	}
	size, ok := papers[o.Paper]
	if !ok {
		return fmt.Errorf("pdf: found paper %q, expected A4 or Letter", o.Paper)
	}
	return o.composed(r, size).pdf.Output(w)
}

// composed sets the document. What cannot be printed is known at its end and
// said on its first page, so that such a document is set twice.
func (o Options) composed(r *hazards.Result, size [2]float64) *doc {
	var spots []spot
	trace := o.trace
	if trace != nil {
		o.trace = func(s spot) { spots = append(spots, s) }
	}
	d := newDoc(o, r, size)
	d.compose()
	if len(d.lacking) > 0 {
		lacking, affected := d.lacking, d.affected
		spots = nil
		d = newDoc(o, r, size)
		d.warn = func() { d.unprintable(lacking, affected) }
		d.compose()
	}
	d.finish()
	for _, s := range spots {
		trace(s)
	}
	return d
}

func newDoc(o Options, r *hazards.Result, size [2]float64) *doc {
	p := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: size[0], Ht: size[1]}})
	p.SetAutoPageBreak(false, 0)
	p.SetMargins(sideMargin, topMargin, sideMargin)
	p.SetCatalogSort(true)
	h := r.File.Head
	day := date(h.Date)
	p.SetCreationDate(day)
	p.SetModificationDate(day)
	p.SetTitle(utf8Only(h.Number+" "+h.Revision+", "+h.Title), true)
	p.SetAuthor(utf8Only(h.PreparedBy.Name), true)
	p.SetCreator(utf8Only("standclear "+r.Version), true)
	p.SetLang("en")
	p.SetDisplayMode("fullpage", "continuous")
	var attached []fpdf.Attachment
	for _, a := range o.Attach {
		attached = append(attached, fpdf.Attachment{Content: a.Data, Filename: utf8Only(a.Name), Description: utf8Only(a.Means)})
	}
	p.SetAttachments(attached)
	return &doc{
		ink: newInk(p, o.trace), r: r, w: words.Default(), wide: size[0], high: size[1], width: size[0] - 2*sideMargin,
		anchors: map[string]anchor{}, symbols: symbolsOf(r.Library), rowsOn: rowsOn(r), places: placesOf(r),
	}
}

// compose sets the document from front to back.
func (d *doc) compose() {
	d.running = d.w.Heading("document")
	d.newPage()
	d.first()
	d.limits()
	d.reviewItems()
	d.findings()
	d.identification()
	d.hazards()
	d.checks()
	d.worked()
	d.values()
	d.open()
	d.validation()
	d.handOver()
	d.sources()
	d.cautions()
	d.signatures()
}

// date reads a date of the file. Without one the document carries the first day
// that a PDF date can hold without a sign, never the clock.
func date(s string) time.Time {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		return time.Date(1970, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	return t
}

// utf8Only keeps to characters that fpdf can write into its catalogue.
func utf8Only(s string) string {
	out := make([]rune, 0, len(s))
	for _, r := range s {
		if r > 0xffff || hidden(r) {
			r = substitute
		}
		out = append(out, r)
	}
	return string(out)
}

// rowsOn lists, for each contact, check or function, the hazard rows that rest on it.
func rowsOn(r *hazards.Result) map[string][]string {
	on := map[string][]string{}
	for i := range r.Rows {
		for _, id := range r.Rows[i].Rests {
			on[id] = append(on[id], r.Rows[i].ID)
		}
	}
	return on
}

package book

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"
)

// end sets what stands behind the cells of a sheet.
func (w *sheetWriter) end() error {
	for _, step := range []func() error{w.validations, w.colours, w.protection, w.page, w.print} {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// validations offer choices and keep numbers within their bounds. What was
// pasted goes round them, so that the formulas check the same again.
func (w *sheetWriter) validations() error {
	for _, list := range w.order {
		from, err := w.address(choiceRange(list).Ref, nil)
		if err != nil {
			return err
		}
		if err := w.validate(w.lists[list], func(dv *excelize.DataValidation) error {
			dv.SetSqrefDropList(from)
			dv.SetError(excelize.DataValidationErrorStyleStop, "Not one of the choices", "Take one of the words offered.")
			return nil
		}); err != nil {
			return err
		}
	}
	for _, b := range w.sizes {
		if err := w.validate(w.bounds[b], func(dv *excelize.DataValidation) error {
			dv.SetError(excelize.DataValidationErrorStyleStop, "Not possible", fmt.Sprintf("A number from %v to %v is expected.", b.From, b.To))
			return dv.SetRange(b.From, b.To, excelize.DataValidationTypeDecimal, excelize.DataValidationOperatorBetween)
		}); err != nil {
			return err
		}
	}
	return nil
}

func (w *sheetWriter) validate(ranges []string, set func(*excelize.DataValidation) error) error {
	dv := excelize.NewDataValidation(true)
	dv.Sqref = strings.Join(ranges, " ")
	if err := set(dv); err != nil {
		return err
	}
	return w.file.AddDataValidation(w.sheet.Name, dv)
}

func (w *sheetWriter) colours() error {
	if len(w.words) == 0 {
		return nil
	}
	var opts []excelize.ConditionalFormatOptions
	for i, t := range tints {
		for _, word := range t.words {
			style := w.tint[i]
			opts = append(opts, excelize.ConditionalFormatOptions{Type: "cell", Criteria: "==", Value: quoted(word), Format: &style})
		}
	}
	return w.file.SetConditionalFormat(w.sheet.Name, strings.Join(w.words, " "), opts)
}

// protection guards against slips; it has no password and hides nothing.
func (w *sheetWriter) protection() error {
	return w.file.ProtectSheet(w.sheet.Name, &excelize.SheetProtectionOptions{
		SelectLockedCells: true, SelectUnlockedCells: true, FormatColumns: true, FormatRows: true,
		EditObjects: true, EditScenarios: true,
	})
}

// charsPerPage is how many characters of column width one page in landscape
// takes at about 70 %.
const charsPerPage = 200.0

func (w *sheetWriter) page() error {
	total := 0.0
	for i, width := range w.widths {
		if !w.hidden[i] && w.inPrint(i) {
			total += width
		}
	}
	wide, tall, a4, across := 1+int(total/charsPerPage), 0, 9, "landscape"
	if err := w.file.SetPageLayout(w.sheet.Name, &excelize.PageLayoutOptions{Size: &a4, Orientation: &across,
		FitToWidth: &wide, FitToHeight: &tall}); err != nil {
		return err
	}
	side, top, foot := 0.45, 0.6, 0.3
	if err := w.file.SetPageMargins(w.sheet.Name, &excelize.PageLayoutMarginsOptions{
		Left: &side, Right: &side, Top: &top, Bottom: &top, Header: &foot, Footer: &foot}); err != nil {
		return err
	}
	b := w.book
	footer := fmt.Sprintf("&L&8 %s, revision %s&C&8 %s&R&8 %s, page &P of &N", plain(b.Number, 40), plain(b.Revision, 20), short(b.Fingerprint), plain(w.sheet.Name, 31))
	header := fmt.Sprintf("&L&B&10 %s – %s&B&R&8 %s, built as %s", plain(b.Title, 120), plain(w.sheet.Name, 31), b.Date, b.State)
	return w.file.SetHeaderFooter(w.sheet.Name, &excelize.HeaderFooterOptions{OddHeader: header, OddFooter: footer})
}

// plain is a text for headers and footers, where & begins a code and 255
// characters are the most.
func plain(s string, most int) string {
	runes := []rune(s)
	if len(runes) > most {
		s = string(runes[:most-1]) + "…"
	}
	return strings.ReplaceAll(s, "&", "&&")
}

// short is enough of a fingerprint to tell documents apart on paper.
func short(fingerprint string) string { return fingerprint[:min(len(fingerprint), 16)] }

// print sets the printed area, and the rows and columns repeated on every page.
func (w *sheetWriter) print() error {
	if w.sheet.Hidden { // what is carried is no page of the document
		return nil
	}
	last := 2
	for i := range w.widths {
		if i > 0 && !w.hidden[i] && w.inPrint(i) {
			last = i + 1
		}
	}
	letters, err := excelize.ColumnNumberToName(last)
	if err != nil {
		return err
	}
	prefix := sheetPrefix(w.sheet.Name)
	if err := w.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", Scope: w.sheet.Name,
		RefersTo: prefix + span("B", titleRows+1, letters, w.printed())}); err != nil {
		return err
	}
	titles := prefix + "$B:$B"
	if rows := w.repeated(); rows > titleRows { // the title lines stand in the header of the page
		titles += fmt.Sprintf(",%s$%d:$%d", prefix, titleRows+1, rows)
	}
	return w.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", Scope: w.sheet.Name, RefersTo: titles})
}

// repeated is the number of rows that stand on every page: the titles, and the
// heads where only one block is printed.
func (w *sheetWriter) repeated() int {
	var only *Block
	for _, b := range w.sheet.Blocks {
		switch {
		case b.Helper:
		case only != nil:
			return titleRows
		default:
			only = b
		}
	}
	return w.headsOf(only)
}

// printed is the last row that is printed. Helper blocks stand below it.
func (w *sheetWriter) printed() int {
	last := titleRows + 1
	for _, b := range w.sheet.Blocks {
		if !b.Helper {
			last = max(last, w.places[b.ID].last)
		}
	}
	return last
}

// inPrint tells whether a block that is printed has a column.
func (w *sheetWriter) inPrint(column int) bool {
	for _, b := range w.sheet.Blocks {
		if !b.Helper && column <= len(b.Columns) {
			return true
		}
	}
	return false
}

package book

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"

	"standclear/limits/expr"
)

// sheetWriter writes one sheet. The order of calls matters to excelize: sheet
// properties before the stream begins, widths and panes before the first row,
// everything else before the end of the stream; what comes later is lost
// without an error.
type sheetWriter struct {
	*writer
	sheet  *Sheet
	stream *excelize.StreamWriter
	widths []float64 // by column; [0] is that of the ids
	hidden []bool
	row    int                 // next
	words  []string            // ranges that hold verdicts and states
	lists  map[string][]string // ranges by list of choices
	bounds map[Bounds][]string // ranges by bounds
	order  []string            // lists in the order they came up
	sizes  []Bounds            // bounds in the order they came up
}

func (w *writer) sheet(s *Sheet) error {
	sw := &sheetWriter{writer: w, sheet: s, row: 1, lists: map[string][]string{}, bounds: map[Bounds][]string{}}
	sw.measure()
	if err := sw.begin(); err != nil {
		return err
	}
	if err := sw.titles(); err != nil {
		return err
	}
	for _, b := range s.Blocks {
		if err := sw.block(w.places[b.ID]); err != nil {
			return err
		}
	}
	if err := sw.end(); err != nil {
		return err
	}
	return sw.stream.Flush()
}

// measure takes the widest of each column over all blocks. A column is hidden
// where every block that has it hides it.
func (w *sheetWriter) measure() {
	n := 0
	for _, b := range w.sheet.Blocks {
		n = max(n, len(b.Columns))
	}
	w.widths, w.hidden = make([]float64, n+1), make([]bool, n+1)
	w.widths[0], w.hidden[0] = 4, true
	for i := 1; i <= n; i++ {
		w.hidden[i] = true
		for _, b := range w.sheet.Blocks {
			if i <= len(b.Columns) {
				c := b.Columns[i-1]
				w.widths[i] = max(w.widths[i], c.Width)
				w.hidden[i] = w.hidden[i] && c.Hidden
			}
		}
		if w.widths[i] == 0 {
			w.widths[i] = 10
		}
	}
}

// begin sets what must stand before the first row.
func (w *sheetWriter) begin() error {
	f, name := w.file, w.sheet.Name
	yes, no := true, false
	fit := true
	if err := f.SetSheetProps(name, &excelize.SheetPropsOptions{FitToPage: &fit, OutlineSummaryRight: &no}); err != nil {
		return err
	}
	if err := f.SetSheetView(name, 0, &excelize.ViewOptions{ShowGridLines: &no, ShowRowColHeaders: &yes}); err != nil {
		return err
	}
	stream, err := f.NewStreamWriter(name)
	if err != nil {
		return err
	}
	w.stream = stream
	for i := len(w.widths) - 1; i >= 0; i-- { // excelize puts each before those set so far; readers expect them in order
		if err := stream.SetColWidth(i+1, i+1, w.widths[i]); err != nil {
			return err
		}
		if w.hidden[i] {
			if err := stream.SetColVisible(i+1, i+1, false); err != nil {
				return err
			}
		}
	}
	top := w.frozen() + 1
	return stream.SetPanes(&excelize.Panes{Freeze: true, XSplit: 2, YSplit: top - 1,
		TopLeftCell: fmt.Sprintf("C%d", top), ActivePane: "bottomRight"})
}

// frozen is the number of rows that stay in sight: the titles, and the heads
// where the sheet has only one block that has any.
func (w *sheetWriter) frozen() int {
	if len(w.sheet.Blocks) == 1 {
		return w.headsOf(w.sheet.Blocks[0])
	}
	return titleRows
}

// headsOf is the last row of the heads of a block, of the titles where it has none.
func (w *sheetWriter) headsOf(b *Block) int {
	if b != nil {
		if p := w.places[b.ID]; p.heads[0] > 0 {
			return p.first - 1
		}
	}
	return titleRows
}

func (w *sheetWriter) titles() error {
	b := w.book
	title := strings.Join([]string{b.Title, w.sheet.Name}, " – ")
	state := formula(quoted(fmt.Sprintf("%s, revision %s, %s   ·   ", b.Number, b.Revision, b.Date)), "&",
		Part{Ref: Ref{Kind: At, Block: summaryState, Row: "document", Key: "value"}})
	text := fmt.Sprintf("%s, revision %s, %s   ·   %s", b.Number, b.Revision, b.Date, b.State)
	if err := w.line(titleLine, "sheet:"+w.sheet.ID, title, nil, 13); err != nil {
		return err
	}
	if err := w.line(subLine, "", text, state, bodySize); err != nil {
		return err
	}
	return w.line(noteLine, "", w.sheet.About, nil, bodySize)
}

// line writes a line that runs over the columns.
func (w *sheetWriter) line(head int, id, text string, f Formula, size float64) error {
	formula := ""
	if f != nil {
		t, err := w.resolve(&place{sheet: w.sheet, block: &Block{}}, f)
		if err != nil {
			return err
		}
		formula = t.in(w.row)
	}
	cells := make([]any, 2)
	var err error
	if id != "" {
		if cells[0], err = w.cell(paint{head: helper}, expr.Value{Kind: expr.Text, Text: id}, ""); err != nil {
			return err
		}
	}
	if cells[1], err = w.cell(paint{head: head, text: true}, expr.Value{Kind: expr.Text, Text: text}, formula); err != nil {
		return err
	}
	return w.put(cells, excelize.RowOpts{Height: height(1, size)})
}

// put writes the next row.
func (w *sheetWriter) put(cells []any, opts excelize.RowOpts) error {
	err := w.stream.SetRow(fmt.Sprintf("A%d", w.row), cells, opts)
	w.row++
	return err
}

func (w *sheetWriter) cell(p paint, v expr.Value, formula string) (any, error) {
	id, err := w.styles.id(p)
	if err != nil {
		return nil, err
	}
	val, err := value(v, formula)
	if err != nil {
		return nil, err
	}
	if len(formula) > mostFormula {
		return nil, fmt.Errorf("a formula of %d characters, more than %d: %.60s…", len(formula), mostFormula, formula)
	}
	return excelize.Cell{StyleID: id, Formula: formula, Value: val}, nil
}

// mostFormula is the longest formula that spreadsheets of 2007 take.
const mostFormula = 8192

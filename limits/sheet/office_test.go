package sheet_test

import (
	"fmt"
	"math"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/limits/table"
	"standclear/report/officetest"
)

// grid is a workbook with one row for each case of each sheet, a false value
// cached in every formula cell, and tables and constants on one more sheet.
type grid struct {
	t     testing.TB
	lib   *sheet.Library
	file  *excelize.File
	rows  map[string][]parityRow
	names map[string]string // constants: sheet and name to defined name
	areas map[string]string // tables: column to the range it lies in
}

func newGrid(t testing.TB, lib *sheet.Library, rows func(*sheet.Sheet) []parityRow) *grid {
	g := &grid{t: t, lib: lib, file: excelize.NewFile(), rows: map[string][]parityRow{}, names: map[string]string{}, areas: map[string]string{}}
	g.data()
	for _, s := range lib.Sheets {
		g.rows[s.Key()] = rows(s)
		g.sheet(s)
	}
	return g
}

func (g *grid) must(err error) {
	g.t.Helper()
	if err != nil {
		g.t.Fatal(err)
	}
}

func cellName(col, row int) string {
	name, _ := excelize.CoordinatesToCellName(col, row)
	return name
}

func span(col, first, last int) string {
	from, _ := excelize.CoordinatesToCellName(col, first, true)
	to, _ := excelize.CoordinatesToCellName(col, last, true)
	return "Data!" + from + ":" + to
}

func (g *grid) data() {
	g.must(g.file.SetSheetName("Sheet1", "Data"))
	w, err := g.file.NewStreamWriter("Data")
	g.must(err)
	row := 0
	for _, k := range g.lib.Constants {
		row++
		g.must(w.SetRow(cellName(1, row), []any{k.Name, plainValue(k.Value)}))
		name := fmt.Sprintf("const_%d", row)
		g.names[k.Of+" "+k.Name] = name
		cell, _ := excelize.CoordinatesToCellName(2, row, true)
		g.must(g.file.SetDefinedName(&excelize.DefinedName{Name: name, RefersTo: "Data!" + cell}))
	}
	for _, t := range g.lib.Tables {
		row = g.table(w, t, row+2)
	}
	g.must(w.Flush())
}

func (g *grid) table(w *excelize.StreamWriter, t *table.Table, row int) int {
	head := make([]any, len(t.Columns))
	for i, c := range t.Columns {
		if head[i] = c.ID; c.Grid {
			head[i] = c.At
		}
	}
	g.must(w.SetRow(cellName(1, row), head))
	first, last := row+1, row+len(t.Rows)
	for i, r := range t.Rows {
		cells := make([]any, len(r))
		for j := range r {
			cells[j] = plainValue(r[j].Value)
		}
		g.must(w.SetRow(cellName(1, first+i), cells))
	}
	for i, c := range t.Columns {
		g.areas[t.ID+" "+c.ID] = span(i+1, first, last)
	}
	if t.First >= 0 {
		end := span(len(t.Columns), first, last)
		g.areas[t.ID+" grid"] = strings.Split(span(t.First+1, first, first), ":")[0] + ":" + strings.Split(end, ":")[1]
		g.areas[t.ID+" heads"] = strings.Split(span(t.First+1, row, row), ":")[0] + ":" + strings.Split(span(len(t.Columns), row, row), ":")[1]
	}
	return last
}

func plainValue(v expr.Value) any {
	switch v.Kind {
	case expr.Number:
		return v.Num
	case expr.Text:
		return v.Text
	}
	return nil
}

// tab is a name for a sheet of the workbook, which holds no slash and 31 characters.
func tab(s *sheet.Sheet) string {
	name := strings.ReplaceAll(s.Key(), "/", " ")
	return name[:min(len(name), 31)]
}

func (g *grid) sheet(s *sheet.Sheet) {
	_, err := g.file.NewSheet(tab(s))
	g.must(err)
	w, err := g.file.NewStreamWriter(tab(s))
	g.must(err)
	at := map[string]int{}
	for i, c := range s.Columns {
		at[c.Name] = i + 1
	}
	for i, r := range g.rows[s.Key()] {
		cells := make([]any, len(s.Columns))
		for j, c := range s.Columns {
			pieces := s.Formula(c)
			if pieces == nil {
				cells[j] = plainValue(r.vals[c.Slot])
				continue
			}
			text := g.formula(s, pieces, at, i+1)
			if len(text) > 8192 || strings.Count(text, "IF(") > 400 {
				g.t.Fatalf("sheet %s, %s: a formula of %d characters, a spreadsheet takes 8192", s.ID, c.Name, len(text))
			}
			var lie any = 777.0
			if c.Type.Kind == expr.Text {
				lie = "untrue"
			}
			cells[j] = excelize.Cell{Formula: text, Value: lie}
		}
		g.must(w.SetRow(cellName(1, i+1), cells))
	}
	g.must(w.Flush())
}

func (g *grid) formula(s *sheet.Sheet, pieces []sheet.Piece, at map[string]int, row int) string {
	var b strings.Builder
	for _, p := range pieces {
		switch p.Ref.Kind {
		case 0:
			b.WriteString(p.Lit)
		case sheet.Self:
			if at[p.Ref.Name] == 0 {
				g.t.Fatalf("sheet %s: a formula points at %s, which is no column", s.ID, p.Ref.Name)
			}
			b.WriteString(cellName(at[p.Ref.Name], row))
		case sheet.Const:
			name, own := g.names[s.Key()+" "+p.Ref.Name]
			if !own {
				name = g.names[" "+p.Ref.Name]
			}
			b.WriteString(name)
		case sheet.TableColumn:
			b.WriteString(g.areas[p.Ref.Table+" "+p.Ref.Name])
		case sheet.TableGrid:
			b.WriteString(g.areas[p.Ref.Table+" grid"])
		case sheet.TableHeads:
			b.WriteString(g.areas[p.Ref.Table+" heads"])
		}
	}
	return b.String()
}

// A spreadsheet that works every formula out anew comes to the values of Go:
// numbers to nine digits, texts and verdicts letter by letter, absent empty.
func TestSpreadsheetAgrees(t *testing.T) {
	lib := library(t)
	officetest.Need(t, "soffice", "libreoffice")
	g := newGrid(t, lib, func(s *sheet.Sheet) []parityRow { return parityRows(t, s) })
	path := filepath.Join(t.TempDir(), "grid.xlsx")
	g.must(g.file.SaveAs(path))
	f, err := excelize.OpenFile(officetest.Recalculate(t, path), excelize.Options{RawCellValue: true})
	g.must(err)
	defer f.Close()
	cells, worst := 0, 0.0
	for _, s := range lib.Sheets {
		got, err := f.GetRows(tab(s))
		g.must(err)
		if len(got) != len(g.rows[s.Key()]) {
			t.Fatalf("sheet %s: %d rows of %d", s.ID, len(got), len(g.rows[s.Key()]))
		}
		wrong := 0
		for i, r := range g.rows[s.Key()] {
			s.Evaluate(r.vals)
			for j, c := range s.Columns {
				if takes(c) || r.slip && c.Role < sheet.Rule || r.slip && c.Role == sheet.Use {
					continue
				}
				cell := ""
				if j < len(got[i]) {
					cell = got[i][j]
				}
				cells++
				off, ok := agrees(r.vals[c.Slot], cell)
				worst = max(worst, off)
				if !ok {
					if wrong++; wrong <= 12 {
						t.Errorf("sheet %s, %s, %s: Go %s, spreadsheet %q", s.ID, r.name, c.Name, c.Show(r.vals[c.Slot]), cell)
					}
				}
			}
		}
		if wrong > 12 {
			t.Errorf("sheet %s: %d cells differ", s.ID, wrong)
		}
	}
	t.Logf("%d formula cells, farthest apart %.2g", cells, worst)
}

// agrees compares a value with the text of a cell.
func agrees(v expr.Value, cell string) (off float64, ok bool) {
	switch v.Kind {
	case expr.Number:
		x, err := strconv.ParseFloat(cell, 64)
		if err != nil {
			return 0, false
		}
		off = math.Abs(x-v.Num) / max(math.Abs(v.Num), 1e-300)
		if x == v.Num {
			off = 0
		}
		return off, off <= 1e-9
	case expr.Text:
		return 0, cell == v.Text
	}
	return 0, cell == ""
}

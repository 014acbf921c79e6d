package book

import (
	"html"
	"net/url"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"standclear/hazards/hazardstest"
	"standclear/report/officetest"
)

// relative is a reference to a cell of the own sheet without $, as it moves
// along when rows are sorted; or a text, or any other reference.
var relative = regexp.MustCompile(`"[^"]*"|(?:'[^']*'|\w+)![$A-Z0-9:]+|[$A-Z]*[A-Z]\$?[0-9]+|[A-Z]+[0-9]+`)

// moved is a formula after its row was moved by sorting.
func moved(formula string, from, to int) string {
	return relative.ReplaceAllStringFunc(formula, func(s string) string {
		if strings.ContainsAny(s, `"$!`) {
			return s
		}
		if letters := strings.TrimRight(s, "0123456789"); s == letters+strconv.Itoa(from) {
			return letters + strconv.Itoa(to)
		}
		return s
	})
}

func TestMoved(t *testing.T) {
	in := `IF(B12="B12",INDEX($A$12:$A$20,MATCH(AB12,Data!B12:B13,0)),'Other checks'!C12)+B120+$B$12`
	want := `IF(B9="B12",INDEX($A$12:$A$20,MATCH(AB9,Data!B12:B13,0)),'Other checks'!C12)+B120+$B$12`
	if got := moved(in, 12, 9); got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
}

// reverse sorts the filled rows of a block into the opposite order, in the file
// as a spreadsheet does and in the layout.
func (l *layout) reverse(t *testing.T, f *excelize.File, p *place) {
	t.Helper()
	type cell struct{ value, formula string }
	n := 0
	for n < len(p.block.Rows) && !p.block.Rows[n].Spare {
		n++
	}
	sheet, old := p.sheet.Name, make([][]cell, n)
	at := func(column, row int) string {
		name, err := excelize.CoordinatesToCellName(column+1, row)
		if err != nil {
			t.Fatal(err)
		}
		return name
	}
	for i := range old {
		old[i] = make([]cell, len(p.block.Columns)+1)
		for k := range old[i] {
			c := &old[i][k]
			var errs [2]error
			c.value, errs[0] = f.GetCellValue(sheet, at(k, p.first+i), excelize.Options{RawCellValue: true})
			c.formula, errs[1] = f.GetCellFormula(sheet, at(k, p.first+i))
			if errs[0] != nil || errs[1] != nil {
				t.Fatal(errs)
			}
		}
	}
	for i := range old {
		from, to := p.first+i, p.first+n-1-i
		for k, c := range old[i] {
			var v any = c.value
			if x, err := strconv.ParseFloat(c.value, 64); err == nil {
				v = x
			} else if c.value == "" {
				v = nil
			}
			if err := f.SetCellValue(sheet, at(k, to), v); err != nil {
				t.Fatal(err)
			}
			if err := f.SetCellFormula(sheet, at(k, to), moved(c.formula, from, to)); err != nil {
				t.Fatal(err)
			}
		}
		if id := p.block.Rows[i].ID; id != "" {
			p.row[id] = to
		}
	}
}

// TestSorted sorts the hazard rows, the contacts and the checks. Every formula
// must still give its row the same, which holds the verdicts of the checks that
// a hazard rests on, and every link must lead to the row that holds its id.
func TestSorted(t *testing.T) {
	r := assess(t, demo(t))
	l, path, f := opened(t, r)
	sorted := 0
	for _, s := range l.book.Sheets {
		for _, b := range s.Blocks {
			if p := l.places[b.ID]; len(b.Rows) > 1 && (b.ID == hazardsBlock || b.ID == contactsBlock || r.Library.Sheet(b.ID) != nil) {
				l.reverse(t, f, p)
				sorted++
			}
		}
	}
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
	f.Close()
	again := officetest.Recalculate(t, path)
	got := cells(t, again)
	compared, _ := l.compare(t, l.book, got)
	if sorted < 8 || compared < 5000 {
		t.Errorf("%d blocks sorted, %d formulas compared", sorted, compared)
	}
	for id, places := range map[string]*place{"H-03": l.places[hazardsBlock], "hand-at-nest": l.places[contactsBlock]} {
		if want := places.row[id]; got[places.sheet.Name]["A"+strconv.Itoa(want)] != id {
			t.Errorf("%s does not stand in row %d: nothing was sorted", id, want)
		}
	}
	if n := followLinks(t, again, got); n < 250 {
		t.Errorf("only %d links", n)
	}
}

var anchor = regexp.MustCompile(`<a href="#([^"]+)!B(\d+)">((?s:.*?))</a>`)

// followLinks lets an independent engine work out where every link leads, and
// holds the id in that row against the id that the link shows.
func followLinks(t *testing.T, path string, in map[string]map[string]string) int {
	t.Helper()
	page, err := os.ReadFile(officetest.Convert(t, "html", path)[0])
	if err != nil {
		t.Fatal(err)
	}
	links := anchor.FindAllStringSubmatch(string(page), -1)
	for _, a := range links {
		sheet, err := url.PathUnescape(html.UnescapeString(a[1]))
		if err != nil {
			t.Fatal(err)
		}
		id := firstID(strings.Join(strings.Fields(html.UnescapeString(a[3])), " "))
		if got := in[strings.Trim(sheet, "'")]["A"+a[2]]; got != id {
			t.Errorf("the link to %s leads to %s!B%s, the row of %q", id, sheet, a[2], got)
		}
	}
	return len(links)
}

// TestEveryLinkIsLookedUp: no link points at a fixed cell, and each keeps the
// text it shows.
func TestEveryLinkIsLookedUp(t *testing.T) {
	r := assess(t, demo(t))
	l, err := lay(Plan(r))
	if err != nil {
		t.Fatal(err)
	}
	in := read(t, written(t, r))
	n := map[string]int{}
	for _, p := range l.places {
		for i, row := range p.block.Rows {
			for k, c := range row.Cells {
				id := firstID(c.Value.Text)
				if !c.Leads || l.onRow[id] == nil {
					continue
				}
				n[p.sheet.Name]++
				at := p.column[p.block.Columns[k].Key] + strconv.Itoa(p.first+i)
				got := in[p.sheet.Name][at]
				if !strings.HasPrefix(got.F, "HYPERLINK(") || !strings.Contains(got.F, `MATCH("`+id+`"`) || got.V != c.Value.Text || got.T != "str" {
					t.Errorf("%s!%s: %+v", p.sheet.Name, at, got)
				}
			}
		}
	}
	for name, least := range map[string]int{"Summary": 10, "Hazards": 60, "Contact": 60, "Distance": 5, "Functions": 3, "Measures": 30, "Validation": 20} {
		if n[name] < least {
			t.Errorf("%s has %d links", name, n[name])
		}
	}
}

// TestSpareRow types a new hazard into a spare row: ids typed where others are
// links must work alike, and a link whose row is gone must not break its row.
func TestSpareRow(t *testing.T) {
	r := assess(t, demo(t))
	l, path, f := opened(t, r)
	p, gone := l.places[hazardsBlock], l.places["light-curtain"]
	row := 0
	for i, x := range p.block.Rows {
		if x.Spare {
			row = p.first + i
			break
		}
	}
	at := func(key string, row int) string { return p.column[key] + strconv.Itoa(row) }
	for key, v := range map[string]string{refKey: "H-99", restKey(0): "hand-at-nest", restKey(1): "press-curtain-distance", restKey(2): "unknown"} {
		if err := f.SetCellValue("Hazards", at(key, row), v); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.SetCellValue(gone.sheet.Name, "A"+strconv.Itoa(gone.row["tray-curtain-distance"]), "renamed"); err != nil {
		t.Fatal(err)
	}
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
	f.Close()
	got := cells(t, officetest.Recalculate(t, path))["Hazards"]
	for key, want := range map[string]string{idKey: "H-99", restKey(0) + ".verdict": string(r.Contact("hand-at-nest").Verdict),
		restKey(1) + ".verdict": string(r.Check("press-curtain-distance").Verdict), restKey(2) + ".verdict": "not-decided"} {
		if v := got[at(key, row)]; v != want {
			t.Errorf("%s of the new row is %q, want %q", key, v, want)
		}
	}
	seen := false
	for i := range r.Rows {
		for k, id := range r.Rows[i].Rests {
			if id == "tray-curtain-distance" {
				seen = true
				if v := got[at(restKey(k), p.row[r.Rows[i].ID])]; v != id {
					t.Errorf("the link to a row that is gone shows %q, want %q", v, id)
				}
			}
		}
	}
	if !seen {
		t.Error("no row rests on tray-curtain-distance")
	}
}

// TestSummaryLists: the first sheet names the editions in use and counts what
// it does not list.
func TestSummaryLists(t *testing.T) {
	r := assess(t, hazardstest.YAML(hazardstest.Size{Hazards: 40, Contacts: 9, Checks: 7, Points: 4}))
	blocks := map[string]*Block{}
	for _, b := range Plan(r).Sheets[0].Blocks {
		blocks[b.ID] = b
	}
	for i, want := range r.Against[:mostAgainst] {
		row := blocks[summaryState].find("against." + number(i+1))
		if row == nil || row.Cells[1].Value.Text != want.ID || !strings.Contains(row.Cells[2].Value.Text, want.Why) {
			t.Errorf("place %d: %+v, want %+v", i+1, row, want)
		}
	}
	more := blocks[summaryState].find("against.more")
	if want := "… and " + number(len(r.Against)-mostAgainst) + " more"; more == nil || more.Cells[1].Value.Text != want {
		t.Errorf("what is left out: %+v, want %q", more, want)
	}
	var standards []string
	for _, row := range blocks["conditions"].Rows {
		if strings.Contains(row.Cells[2].Value.Text, "(checks: ") {
			standards = append(standards, row.Cells[2].Value.Text)
		}
	}
	for i := range r.Checks {
		id := r.Checks[i].Sheet.Standard.ID
		if !strings.Contains(strings.Join(standards, "\n"), id) {
			t.Errorf("the edition of %s is not named in %q", id, standards)
		}
	}
}

func (b *Block) find(id string) *Row {
	for _, r := range b.Rows {
		if r.ID == id {
			return r
		}
	}
	return nil
}

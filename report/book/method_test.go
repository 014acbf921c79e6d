package book

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"standclear/hazards"
	"standclear/hazards/estimate"
	"standclear/hazards/file"
	"standclear/hazards/hazardstest"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/report/officetest"
	"standclear/templates"
)

// shelf is every method built in, and one of a house with words, decimals, a
// table, a constant and nothing after measures.
func shelf(t *testing.T) estimate.Shelf {
	t.Helper()
	lib, problems := sheet.Load(templates.FS)
	report(t, nil, problems)
	list, problems := estimate.Load(templates.FS, lib)
	report(t, nil, problems)
	s, problems := estimate.Shelf{Library: lib, Methods: list}.Add(fstest.MapFS{
		"firm.yaml":         {Data: []byte(houseMethod)},
		"tables/firm.yaml":  {Data: []byte(houseTable)},
		"tables/notes.text": {Data: []byte("not read")},
	}, "house", "house")
	report(t, nil, problems)
	return s
}

const houseTable = `id: firm-weights
title: Weight of a harm
standard: {id: rule book of the firm}
key: harm
columns:
  harm: {means: harm, standing: practice}
  weight: {unit: "1", means: weight, standing: practice}
rows:
  - {harm: bad, weight: 2.5}
  - {harm: slight, weight: 0.75}
`

const houseMethod = `id: firm
title: Method of the firm
standard: {id: rule book of the firm, clause: "4"}
standing: practice
residual: no
irreversible_from: bad
factors:
  harm: {title: Harm, lowers: [severity], scores: {bad: needs a doctor, slight: needs none}}
  often: {title: How often, lowers: [exposure], scores: {"1.5": often, "0.25": seldom}}
actions:
  act: {action: required, means: do something}
  leave: {action: none, means: nothing to do}
calculation:
  constants:
    border: {is: "1", means: where to act, standing: practice}
  lookups:
    weight: {table: firm-weights, column: weight, by: {harm: exact}}
  steps:
    score: {unit: "1", means: weight times how often, is: weight*often}
    level: {means: level, cases: [{if: score > border, is: "'act'"}, {is: "'leave'"}]}
`

// assessBy works out an assessment by one of the methods of a shelf.
func assessBy(t *testing.T, s estimate.Shelf, data []byte) *hazards.Result {
	t.Helper()
	a, problems := file.Load("cell.yaml", data)
	report(t, data, problems)
	r, problems := hazards.Assess(a, data, s.Library, hazards.Options{Name: "cell", Version: "test", Methods: s.Methods})
	report(t, data, problems)
	return r
}

var (
	scoresOf = regexp.MustCompile(`(?m)^    (before|after): \{.*\}\n`)
	severe   = "date: 2026-09-14, why: bruise"
)

// scoredBy writes the scores of a method into the rows of an assessment: in the
// row n those that are n and some more steps along, so that all turn up.
func scoredBy(m *estimate.Method, data []byte, start int) ([]byte, []map[string]string) {
	var all []map[string]string
	n := start
	text := strings.Replace(string(data), "method: hybrid", "method: "+m.ID, 1)
	text = scoresOf.ReplaceAllStringFunc(text, func(was string) string {
		n++
		prefix := "before."
		if strings.HasPrefix(was, "    after") {
			if prefix = "after."; !m.Residual {
				all = append(all, nil)
				return ""
			}
		}
		scores := map[string]string{}
		var parts []string
		for i := range m.Factors {
			f := &m.Factors[i]
			s := f.Scores[(n/(i+1)+i)%len(f.Scores)].Score
			scores[prefix+f.ID] = s
			parts = append(parts, f.ID+": "+s)
		}
		all = append(all, scores)
		return "    " + prefix[:len(prefix)-1] + ": {" + strings.Join(parts, ", ") + "}\n"
	})
	return []byte(text), all
}

// TestMethods holds the sheet Hazards against the program for every method: as
// built, and with every score edited.
func TestMethods(t *testing.T) {
	s := shelf(t)
	base := hazardstest.YAML(hazardstest.Size{Hazards: 24, Contacts: 3, Checks: 2})
	base = []byte(strings.Replace(string(base), severe, "second: {name: K. Abe, role: plant}, "+severe, 5))
	dir := t.TempDir()
	var books, edits []string
	layouts := map[string]*layout{}
	for _, m := range s.Methods {
		data, _ := scoredBy(m, base, 0)
		l, path, f := opened(t, assessBy(t, s, data))
		layouts[m.ID] = l
		books = append(books, filepath.Join(dir, m.ID+".xlsx"))
		if err := os.Rename(path, books[len(books)-1]); err != nil {
			t.Fatal(err)
		}
		_, scores := scoredBy(m, base, 7)
		for i, row := range scores {
			for key, score := range row {
				factor := m.Factor(strings.SplitN(key, ".", 2)[1])
				v, _ := factor.Read(score)
				name, at := l.cellOf(t, hazardsBlock, fmt.Sprintf("H-%d", i/2+1), key)
				if err := f.SetCellValue(name, at, plainOf(v)); err != nil {
					t.Fatal(err)
				}
			}
		}
		edits = append(edits, filepath.Join(dir, m.ID+"-edited.xlsx"))
		if err := f.SaveAs(edits[len(edits)-1]); err != nil {
			t.Fatal(err)
		}
		f.Close()
	}
	again := officetest.Convert(t, "xlsx", append(books, edits...)...)
	for i, m := range s.Methods {
		for _, d := range differences(cells(t, books[i]), cells(t, again[i])) {
			t.Errorf("%s: %s", m.ID, d)
		}
		data, _ := scoredBy(m, base, 7)
		r := assessBy(t, s, data)
		compared, changed := layouts[m.ID].compare(t, Plan(r), cells(t, again[len(books)+i]))
		levels := map[string]bool{}
		for j := range r.Rows {
			levels[r.Rows[j].Before.Level] = true
		}
		t.Logf("%s: %d formulas compared, %d changed, levels %v", m.ID, compared, changed, levels)
		if compared < 500 || changed < 24 || len(levels) < 2 {
			t.Errorf("%s: %d formulas compared, %d changed, levels %v", m.ID, compared, changed, levels)
		}
	}
}

func plainOf(v expr.Value) any {
	if v.Kind == expr.Number {
		return v.Num
	}
	return v.Text
}

// Every score column offers its scores.
func TestScoreChoices(t *testing.T) {
	s := shelf(t)
	for _, m := range s.Methods {
		data, _ := scoredBy(m, hazardstest.YAML(hazardstest.Size{Hazards: 1}), 0)
		b := Plan(assessBy(t, s, data))
		block := b.block(hazardsBlock)
		for i := range m.Factors {
			f := &m.Factors[i]
			for _, prefix := range []string{before, after} {
				at := block.Column(prefix + f.ID)
				if prefix == after && !m.Residual {
					if at >= 0 {
						t.Errorf("%s: column %s after measures", m.ID, f.ID)
					}
					continue
				}
				list, key, _ := strings.Cut(block.Columns[at].Choice, "/")
				offered := b.block(list)
				if offered == nil || len(offered.Rows) != len(f.Scores) {
					t.Errorf("%s: %s offers %v", m.ID, f.ID, offered)
					continue
				}
				for j, r := range offered.Rows {
					if want, _ := f.Read(f.Scores[j].Score); r.Cells[offered.Column(key)].Value != want {
						t.Errorf("%s: %s offers %v, want %v", m.ID, f.ID, r.Cells[offered.Column(key)].Value, want)
					}
				}
			}
		}
	}
}

func (b *Book) block(id string) *Block {
	for _, s := range b.Sheets {
		for _, bl := range s.Blocks {
			if bl.ID == id {
				return bl
			}
		}
	}
	return nil
}

// TestScoresThatAreNone types what is no score; the row must not stay as
// favourable as it was.
func TestScoresThatAreNone(t *testing.T) {
	s := shelf(t)
	typed := map[string]any{"hybrid": 2, "matrix": "Serious", "graph": "S3", "product-b-4": 6, "firm": 0.5}
	factors := map[string]string{"hybrid": "Av", "matrix": "severity", "graph": "S", "product-b-4": "DPH", "firm": "often"}
	var ids, books []string
	layouts := map[string]*layout{}
	dir := t.TempDir()
	for _, m := range s.Methods {
		if typed[m.ID] == nil {
			continue
		}
		data, _ := scoredBy(m, hazardstest.YAML(hazardstest.Size{Hazards: 2}), 0)
		l, _, f := opened(t, assessBy(t, s, data))
		name, at := l.cellOf(t, hazardsBlock, "H-2", before+factors[m.ID])
		if err := f.SetCellValue(name, at, typed[m.ID]); err != nil {
			t.Fatal(err)
		}
		ids, books = append(ids, m.ID), append(books, filepath.Join(dir, m.ID+".xlsx"))
		layouts[m.ID] = l
		if err := f.SaveAs(books[len(books)-1]); err != nil {
			t.Fatal(err)
		}
		f.Close()
	}
	if len(ids) != len(typed) {
		t.Fatalf("methods %v", ids)
	}
	for i, path := range officetest.Convert(t, "xlsx", books...) {
		got := cells(t, path)
		for key, want := range map[string]string{before + "verdict": "not-decided", rankKey: "2 3"} {
			name, at := layouts[ids[i]].cellOf(t, hazardsBlock, "H-2", key)
			if v := got[name][at]; v == "" || !strings.Contains(want, v) {
				t.Errorf("%s with %v: %s is %q, want %s", ids[i], typed[ids[i]], key, v, want)
			}
		}
	}
}

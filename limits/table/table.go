// Package table holds tables of published values. Every value has a source and
// a standing. A value between two entries is never interpolated: the look-up
// takes the neighbour that its key names.
package table

import (
	"strings"

	"standclear/limits/expr"
	"standclear/limits/quantity"
)

// Standing says how well a value is known.
type Standing string

// Standings, best first.
const (
	Confirmed Standing = "confirmed" // two or more public sources
	Single    Standing = "single"    // one public source
	Practice  Standing = "practice"  // common practice, no source
	Memory    Standing = "memory"    // known from memory only
)

// Worse tells whether s is less well known than o.
func (s Standing) Worse(o Standing) bool { return s.rank() > o.rank() }

func (s Standing) rank() int {
	switch s {
	case Confirmed:
		return 0
	case Single:
		return 1
	case Practice:
		return 2
	}
	return 3
}

// Standard names what a table or a sheet is taken from.
type Standard struct {
	ID      string `yaml:"id,required"`
	Edition string `yaml:"edition"`
	Clause  string `yaml:"clause"`
}

// String gives "ISO 13855:2010, 6.2", with the year of the edition.
func (s Standard) String() string {
	out := s.ID
	if i := strings.LastIndexByte(s.Edition, '-'); i >= 0 && len(s.Edition)-i == 5 {
		out += ":" + s.Edition[i+1:]
	}
	if s.Clause != "" {
		out += ", " + s.Clause
	}
	return out
}

// Column is one column of a table.
type Column struct {
	ID       string
	Type     expr.Type
	Means    string
	Source   []string
	Standing Standing
	Note     string
	Milder   string  // "up" where a higher value is milder to people, "down" where a lower one is
	At       float64 // key of a grid column, in the table's HeadUnit
	Grid     bool    // the column stands at a key
}

// Cell is one value. Kind 0 means the source gives none.
type Cell struct {
	Value    expr.Value
	Standing Standing

	Own *OwnValue // the user's own, in place of the published one
}

// Table is a list of records, or a grid whose columns stand at keys.
type Table struct {
	ID       string
	Title    string
	Standard Standard
	Key      string // the column that names a row
	Note     string
	Own      string   // file of the user that it comes from, "" for one built in
	Never    []string // words for what is never to be touched
	Columns  []Column
	Rows     [][]Cell // by row, then as Columns
	Heads    []float64
	HeadUnit quantity.Unit // of Heads
	First    int           // index of the first grid column, -1: none

	byText map[string]int
	keys   []float64
}

// Column gives the index of a column, -1 when there is none.
func (t *Table) Column(id string) int {
	for i := range t.Columns {
		if t.Columns[i].ID == id {
			return i
		}
	}
	return -1
}

// Exact gives the row of a text key, -1 when there is none.
func (t *Table) Exact(key string) int {
	if i, ok := t.byText[key]; ok {
		return i
	}
	return -1
}

// At gives the row of a number key, -1 when there is none.
func (t *Table) At(x float64) int { return at(t.keys, x) }

// HeadAt gives the grid column of a key, -1 when there is none.
func (t *Table) HeadAt(x float64) int { return at(t.Heads, x) }

// Keys are compared with the tolerance of a spreadsheet, as its MATCH does.

// Down gives the last row whose key is not above x, -1 when all are.
func (t *Table) Down(x float64) int { return down(t.keys, x) }

// Up gives the first row whose key is not below x, the last row when all are.
func (t *Table) Up(x float64) int { return up(t.keys, x) }

// HeadDown gives the last grid column whose key is not above x, -1 when all are.
func (t *Table) HeadDown(x float64) int { return down(t.Heads, x) }

// HeadUp gives the first grid column whose key is not below x, the last when all are.
func (t *Table) HeadUp(x float64) int { return up(t.Heads, x) }

func down(keys []float64, x float64) int {
	n := -1
	for i, k := range keys {
		if k > x && !expr.Equal(k, x) {
			break
		}
		n = i
	}
	return n
}

func at(keys []float64, x float64) int {
	if i := down(keys, x); i >= 0 && expr.Equal(keys[i], x) {
		return i
	}
	return -1
}

func up(keys []float64, x float64) int {
	for i, k := range keys {
		if k >= x || expr.Equal(k, x) {
			return i
		}
	}
	return len(keys) - 1
}

// RowKey gives the key of a row as text.
func (t *Table) RowKey(row int) string {
	v := t.Rows[row][t.Column(t.Key)].Value
	if v.Kind == expr.Text {
		return v.Text
	}
	return quantity.Format(v.Num, 15)
}

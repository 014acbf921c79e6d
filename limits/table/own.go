package table

import "standclear/limits/expr"

// OwnValue is what stands behind a value that the user put in place of a
// published one, or beside those published.
type OwnValue struct {
	File   string   // of the user
	Title  string   // of that file
	Ref    string   // where the user took it from, "" where sources say so
	Source []string // keys of sources
	Was    expr.Value
}

// Milder tells whether the value of a cell of the user is milder to people than
// the published one.
func (t *Table) Milder(col int, own, published expr.Value) bool {
	if own.Kind != expr.Number || published.Kind != expr.Number || expr.Equal(own.Num, published.Num) {
		return false
	}
	return (t.Columns[col].Milder == "up") == (own.Num > published.Num) && t.Columns[col].Milder != ""
}

// Row gives the row of a text key, which is added when there is none.
func (t *Table) Row(key string) []Cell {
	if i := t.Exact(key); i >= 0 {
		return t.Rows[i]
	}
	row := make([]Cell, len(t.Columns))
	for i := range row {
		row[i].Standing = t.Columns[i].Standing
	}
	row[t.Column(t.Key)].Value = expr.Value{Kind: expr.Text, Text: key}
	t.byText[key] = len(t.Rows)
	t.Rows = append(t.Rows, row)
	return row
}

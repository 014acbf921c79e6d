package table

import (
	"fmt"
	"strconv"
	"strings"

	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/source"
)

type tableStmt struct {
	source.Item
	ID       string                 `yaml:"id,required"`
	Title    string                 `yaml:"title,required"`
	Standard Standard               `yaml:"standard,required"`
	Key      string                 `yaml:"key,required"`
	Note     string                 `yaml:"note"`
	Never    []string               `yaml:"never"`
	Columns  source.Map[columnStmt] `yaml:"columns,required"`
	Rows     []row                  `yaml:"rows,required"`
}

// row keeps its node: its keys are the columns of the table.
type row struct{ node *source.Node }

// DecodeNode takes the row as it stands.
func (r *row) DecodeNode(n *source.Node, _ *source.Problems) { r.node = n }

type columnStmt struct {
	source.Item
	Unit     string   `yaml:"unit"`
	At       string   `yaml:"at"`
	Means    string   `yaml:"means,required"`
	Source   []string `yaml:"source"`
	Standing string   `yaml:"standing" choice:"confirmed|single|practice|memory"`
	Note     string   `yaml:"note"`
	Milder   string   `yaml:"milder" choice:"up|down"`
}

// Load reads one table statement.
func Load(n *source.Node, ps *source.Problems) *Table {
	var st tableStmt
	before := ps.Len()
	source.Decode(n, &st, ps)
	if ps.Len() > before {
		return nil
	}
	t := &Table{ID: st.ID, Title: st.Title, Standard: st.Standard, Key: st.Key, Note: st.Note, Never: st.Never, First: -1, byText: map[string]int{}}
	for i := range st.Columns {
		t.addColumn(st.Columns[i].Key, &st.Columns[i].Value, ps)
	}
	key := t.Column(t.Key)
	if key < 0 {
		ps.Addf(st.At("key"), "table %s has no column %s", t.ID, t.Key)
		return nil
	}
	for _, row := range st.Rows {
		t.addRow(row.node, key, ps)
	}
	t.checkOrder(st.At("rows"), ps)
	if ps.Len() > before {
		return nil
	}
	return t
}

func (t *Table) addColumn(id string, st *columnStmt, ps *source.Problems) {
	c := Column{ID: id, Type: expr.Type{Kind: expr.Text}, Means: st.Means, Source: st.Source, Standing: Standing(st.Standing), Note: st.Note, Milder: st.Milder}
	if st.Unit != "" {
		u, err := quantity.ParseUnit(st.Unit)
		if err != nil {
			ps.Addf(st.Item.At("unit"), "%v", err)
		}
		c.Type = expr.Type{Kind: expr.Number, Unit: u}
	}
	if st.At != "" {
		q, err := quantity.Parse(st.At)
		if err != nil {
			ps.Addf(st.Item.At("at"), "%v", err)
			return
		}
		if t.First < 0 {
			t.First, t.HeadUnit = len(t.Columns), q.Unit
		}
		if c.At, err = q.In(t.HeadUnit); err != nil {
			ps.Addf(st.Item.At("at"), "%v", err)
			return
		}
		c.Grid = true
		t.Heads = append(t.Heads, c.At)
	}
	t.Columns = append(t.Columns, c)
}

func (t *Table) addRow(n *source.Node, key int, ps *source.Problems) {
	if n.Kind != source.Mapping {
		ps.Addf(n.Pos, "a row of table %s is a mapping of columns", t.ID)
		return
	}
	row := make([]Cell, len(t.Columns))
	for i := range t.Columns {
		row[i].Standing = t.Columns[i].Standing
	}
	for _, p := range n.Pairs {
		if p.Key.Value == "standing" {
			t.mark(row, p.Value, ps)
			continue
		}
		i := t.Column(p.Key.Value)
		if i < 0 {
			ps.Addf(p.Key.Pos, "table %s has no column %s", t.ID, p.Key.Value)
			continue
		}
		row[i].Value = t.value(i, p.Value, ps)
	}
	if !row[key].Value.Given() {
		ps.Addf(n.Pos, "a row of table %s has no %s", t.ID, t.Key)
		return
	}
	if k := row[key].Value; k.Kind == expr.Text {
		if _, twice := t.byText[k.Text]; twice {
			ps.Addf(n.Pos, "table %s has row %s twice", t.ID, k.Text)
		}
		t.byText[k.Text] = len(t.Rows)
	} else {
		t.keys = append(t.keys, k.Num)
	}
	t.Rows = append(t.Rows, row)
}

// mark sets the standing of single cells. One word for the whole row is refused
// rather than passed over, or the cells would keep a better standing.
func (t *Table) mark(row []Cell, n *source.Node, ps *source.Problems) {
	if n.Kind != source.Mapping {
		ps.Add(n.Problem("found `"+n.Value+"` as the standing of a row of table "+t.ID, "a mapping of columns, such as `{gap: memory}`", ""))
		return
	}
	for _, p := range n.Pairs {
		i := t.Column(p.Key.Value)
		s := Standing(p.Value.Value)
		if i < 0 || (s != Confirmed && s != Single && s != Practice && s != Memory) {
			ps.Addf(p.Key.Pos, "standing of a cell: a column of the table, and confirmed, single, practice or memory")
			continue
		}
		row[i].Standing = s
	}
}

func (t *Table) value(col int, n *source.Node, ps *source.Problems) expr.Value {
	if n.Kind != source.Scalar || n.Null {
		ps.Addf(n.Pos, "a cell of table %s is one value", t.ID)
		return expr.Value{}
	}
	if t.Columns[col].Type.Kind == expr.Text {
		return expr.Value{Kind: expr.Text, Text: n.Value}
	}
	v, err := strconv.ParseFloat(n.Value, 64)
	if err != nil || strings.ContainsAny(n.Value, "_xXiInN") {
		ps.Addf(n.Pos, "found %s, expected a number in %s", n.Value, t.Columns[col].Type.Unit.Name)
		return expr.Value{}
	}
	return expr.Value{Kind: expr.Number, Num: v}
}

func (t *Table) checkOrder(at source.Pos, ps *source.Problems) {
	if len(t.keys) > 0 && (len(t.keys) != len(t.Rows) || !rises(t.keys)) {
		ps.Addf(at, "rows of table %s must rise by %s", t.ID, t.Key)
	}
	if !rises(t.Heads) {
		ps.Addf(at, "columns of table %s must rise", t.ID)
	}
	if t.First >= 0 && len(t.Columns)-t.First != len(t.Heads) {
		ps.Addf(at, "grid columns of table %s must stand together at the end", t.ID)
	}
}

// rises tells whether every key is above the one before it.
func rises(keys []float64) bool {
	for i := 1; i < len(keys); i++ {
		if keys[i] <= keys[i-1] {
			return false
		}
	}
	return true
}

// Describe names a cell in words, for messages: "F_s of hands-fingers".
func (t *Table) Describe(row, col int) string {
	c := t.Columns[col]
	if c.Grid {
		return fmt.Sprintf("%s %s, %s", t.Key, t.RowKey(row), c.Means)
	}
	return fmt.Sprintf("%s of %s", c.ID, t.RowKey(row))
}

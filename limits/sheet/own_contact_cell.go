package sheet

import (
	"errors"
	"strings"
	"unicode"

	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/source"
	"standclear/limits/table"
)

// cell reads one value of a row; false where there is none to lay over.
func (m *contactMerge) cell(t *table.Table, key string, p source.Pair, published bool, ps *source.Problems) (int, table.Cell, bool) {
	i := t.Column(p.Key.Value)
	if i < 0 {
		names := strings.Split(columnList(t), ", ")
		ps.Add(p.Key.Problem("unknown key `"+p.Key.Value+"` in a body "+t.Key, "one of: "+columnList(t)+", own, source, standing", source.DidYouMean(p.Key.Value, names)))
		return 0, table.Cell{}, false
	}
	n := p.Value
	if n.Kind != source.Scalar || n.Null {
		ps.Add(n.Problem("found no value for `"+p.Key.Value+"` of `"+key+"`", "one value", ""))
		return 0, table.Cell{}, false
	}
	if t.Columns[i].Type.Kind == expr.Number {
		v, ok := amount(&t.Columns[i], n, ps)
		return i, table.Cell{Value: v}, ok
	}
	c := table.Cell{Value: expr.Value{Kind: expr.Text, Text: n.Value}}
	if !published {
		return i, c, m.word(t, i, key, n, ps)
	}
	was := t.Rows[t.Exact(key)][i].Value
	switch {
	case was == c.Value:
		return 0, table.Cell{}, false
	case t.Columns[i].ID == permittedColumn && was.Text == never:
		ps.Add(n.Problem("`"+key+"` is an area with which no contact is permitted; contact data cannot permit it", "never", "keep it out by a plane, a height or a screen"))
		return 0, table.Cell{}, false
	case t.Columns[i].ID != permittedColumn && was.Given():
		ps.Add(n.Problem("found another "+t.Columns[i].ID+" of `"+key+"`, which is published", "no `"+t.Columns[i].ID+"`, or `"+was.Text+"`", "an area of your own has an id of its own"))
		return 0, table.Cell{}, false
	}
	return i, c, m.word(t, i, key, n, ps)
}

// word checks a value that is one of few words.
func (m *contactMerge) word(t *table.Table, column int, key string, n *source.Node, ps *source.Problems) bool {
	switch {
	case strings.TrimSpace(n.Value) == "":
		ps.Add(n.Problem("found nothing for `"+t.Columns[column].ID+"` of `"+key+"`", t.Columns[column].Means, ""))
		return false
	case t.Columns[column].ID == permittedColumn && n.Value != permitted && n.Value != never && n.Value != "ask":
		ps.Add(n.Problem("found `"+n.Value+"` for `permitted` of `"+key+"`", "one of: yes, never, ask", ""))
		return false
	}
	return true
}

// amount reads a quantity in the dimension of a column.
func amount(c *table.Column, n *source.Node, ps *source.Problems) (expr.Value, bool) {
	expected := "a quantity in " + c.Type.Unit.Name + ", " + c.Means
	if unitName(c.Type.Unit) == "" {
		expected = "a plain number, " + c.Means
	}
	q, err := quantity.Parse(n.Value)
	if err != nil {
		hint := ""
		var said *quantity.Error
		if errors.As(err, &said) {
			hint = said.Hint
		}
		ps.Add(n.Problem("found `"+n.Value+"` for `"+c.ID+"`", expected, hint))
		return expr.Value{}, false
	}
	v, err := q.In(c.Type.Unit)
	switch {
	case err != nil:
		ps.Add(n.Problem("found `"+n.Value+"` for `"+c.ID+"`", expected, ""))
	case q.Tol != nil:
		ps.Add(n.Problem("found a tolerance for `"+c.ID+"`", expected, "give the end that is stricter"))
	case v <= 0:
		ps.Add(n.Problem("found `"+n.Value+"` for `"+c.ID+"`", expected+", above 0", ""))
	case unitName(c.Type.Unit) == "" && v < 1: // a transient limit is never below the quasi-static one
		ps.Add(n.Problem("found `"+n.Value+"` for `"+c.ID+"`", expected+", at least 1", ""))
	default:
		return expr.Value{Kind: expr.Number, Num: v}, true
	}
	return expr.Value{}, false
}

// region checks a region of the user as a whole.
func (m *contactMerge) region(i int, ps *source.Problems) {
	id := m.regions.RowKey(i)
	if at := m.at[regionsTable+id]; at != nil && textAt(m.regions, i, "name") == "" {
		ps.Add(at.Problem("the region `"+id+"` has no name", "`name`, the region in words", ""))
	}
}

// area checks an area of the user as a whole, together with its region.
func (m *contactMerge) area(i int, ps *source.Problems) {
	id := m.areas.RowKey(i)
	at := m.at[areasTable+id]
	if at == nil {
		return
	}
	word, region := textAt(m.areas, i, permittedColumn), textAt(m.areas, i, "region")
	var missing []string
	for _, column := range []string{"name", permittedColumn} {
		if textAt(m.areas, i, column) == "" {
			missing = append(missing, "`"+column+"`")
		}
	}
	row := m.regions.Exact(region)
	switch {
	case region != "" && row < 0:
		ps.Add(at.Problem("`"+id+"` stands in the region `"+region+"`, which is not known", "one of: "+source.Quoted(keysOf(m.regions)), source.DidYouMean(region, keysOf(m.regions))))
	case word != never && (m.barred[region] && region != "" || m.looksBarred(i, row)):
		ps.Add(at.Problem("`"+id+"` is part of the head or of the front of the neck, with which no contact is permitted", "`permitted: never`", "keep it out by a plane, a height or a screen"))
	case word == permitted && region == "":
		missing = append(missing, "`region`")
	case word == permitted:
		missing = append(missing, lacks(m.areas, i, "p_s", "f_p")...)
		for _, what := range lacks(m.regions, row, "F_s", "f_F", "K", "m_H", "least_gap") {
			missing = append(missing, what+" of the region `"+region+"`")
		}
	}
	if len(missing) > 0 {
		ps.Add(at.Problem("the area `"+id+"` is not whole", strings.Join(missing, ", "), ""))
	}
}

// lacks lists the columns that a row has no value in.
func lacks(t *table.Table, row int, columns ...string) []string {
	var out []string
	for _, c := range columns {
		if i := t.Column(c); i >= 0 && !t.Rows[row][i].Value.Given() {
			out = append(out, "`"+c+"`")
		}
	}
	return out
}

func keysOf(t *table.Table) []string {
	out := make([]string, len(t.Rows))
	for i := range t.Rows {
		out[i] = t.RowKey(i)
	}
	return out
}

// looksBarred tells whether an area or its region is called by something that
// is never to be touched.
func (m *contactMerge) looksBarred(area, region int) bool {
	names := m.areas.RowKey(area) + " " + textAt(m.areas, area, "name")
	if region >= 0 {
		names += " " + m.regions.RowKey(region) + " " + textAt(m.regions, region, "name")
	}
	for _, word := range strings.FieldsFunc(strings.ToLower(names), func(r rune) bool { return !unicode.IsLetter(r) }) {
		for _, barred := range m.areas.Never {
			if word == barred || word == barred+"s" {
				return true
			}
		}
	}
	return false
}

package pdf

import (
	"strings"

	"standclear/hazards/file"
)

// Short ways to make paragraphs and cells.

func one(s string, st style) para { return para{spans: []span{{text: s, style: st}}} }

func of(s string, st style) cell { return cell{one(s, st)} }

// plainCell is a cell of user text; empty text gives an empty cell.
func plainCell(s string) cell {
	if s == "" {
		return nil
	}
	return of(s, cellText)
}

// richCell is a cell of program text.
func (d *doc) richCell(s string) cell {
	if s == "" {
		return nil
	}
	return cell{d.richPara(s, cellText)}
}

func (d *doc) richPara(s string, st style) para { return para{spans: d.symbols.rich(s, st)} }

// state is a shape and a word in bold.
func state(key, word string) para {
	p := para{}
	if m := marks[key]; m != noMark {
		p.spans = append(p.spans, span{mark: m, style: cellBold})
	}
	p.spans = append(p.spans, span{text: word, style: cellBold})
	return p
}

// linked is a word that leads to an anchor.
func linked(s, to string, st style) span {
	return span{text: s, style: st.in(blue), to: to}
}

// list joins spans with commas.
func list(items []span, st style) []span {
	var out []span
	for i, it := range items {
		if i > 0 {
			out = append(out, span{text: ", ", style: st})
		}
		out = append(out, it)
	}
	return out
}

// rowLinks leads back to the hazard rows that rest on something.
func (d *doc) rowLinks(ids ...string) cell {
	var items []span
	seen := map[string]bool{}
	for _, id := range ids {
		for _, row := range d.rowsOn[id] {
			if !seen[row] {
				seen[row] = true
				items = append(items, linked(row, "row:"+row, cellText))
			}
		}
	}
	if len(items) == 0 {
		return nil
	}
	return cell{{spans: list(items, cellGrey)}}
}

// amount shows a quantity or a sum as it is written in the file.
func amount(a file.Amount) string {
	var out []string
	for _, t := range a.Terms {
		if t.Path != "" {
			out = append(out, t.Path)
		} else {
			out = append(out, t.Quantity.Text)
		}
	}
	return pretty(strings.Join(out, " + "))
}

// person is a name with role and firm.
func person(p *file.Person) string {
	if p == nil {
		return ""
	}
	return joined(", ", p.Name, p.Role, p.Firm)
}

// joined joins what is not empty.
func joined(sep string, parts ...string) string {
	var out []string
	for _, p := range parts {
		if p != "" {
			out = append(out, p)
		}
	}
	return strings.Join(out, sep)
}

// firm keeps a short phrase on one line.
func firm(s string) string { return strings.ReplaceAll(s, " ", "\u00a0") }

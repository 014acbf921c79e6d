package text

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"standclear/hazards"
	"standclear/hazards/estimate"
	"standclear/hazards/identify"
	"standclear/hazards/measure"
	"standclear/limits/quantity"
	"standclear/limits/sheet"
	"standclear/limits/table"
)

// Shelf is what can be explained without an assessment.
type Shelf struct {
	Library   *sheet.Library
	Methods   []*estimate.Method
	Findings  *hazards.FindingTexts
	Catalogue *identify.Catalogue
}

// Explain writes what is known of a sheet, a finding, a method, a table, a
// constant, a kind of measure or a hazard of the catalogue; false when nothing has this id.
func (s Shelf) Explain(w io.Writer, id string) bool {
	if list := s.Library.Editions(id); list != nil {
		for i, sh := range list {
			if i > 0 {
				fmt.Fprint(w, "\n\n")
			}
			explainSheet(w, s.Library, sh)
		}
		return true
	}
	if f := s.Findings.Get(id); f != nil {
		finding(w, f)
		return true
	}
	for _, m := range s.Methods {
		if m.ID == id {
			method(w, m)
			return true
		}
	}
	if t := s.Library.Table(id); t != nil {
		tableOf(w, t)
		return true
	}
	if k := s.Findings.Kinds.Get(id); k != nil {
		kind(w, k)
		return true
	}
	if e := s.Catalogue.Get(id); e != nil {
		s.entry(w, e)
		return true
	}
	return s.constant(w, id)
}

// IDs lists everything Explain knows.
func (s Shelf) IDs() []string {
	var ids []string
	for _, sh := range s.Library.Sheets {
		ids = append(ids, sh.ID)
	}
	for _, f := range s.Findings.List {
		ids = append(ids, f.ID)
	}
	for _, m := range s.Methods {
		ids = append(ids, m.ID)
	}
	for _, t := range s.Library.Tables {
		ids = append(ids, t.ID)
	}
	ids = append(ids, s.Findings.Kinds.IDs()...)
	ids = append(ids, s.Catalogue.IDs()...)
	for _, k := range s.Library.Constants {
		ids = append(ids, k.Name)
	}
	return ids
}

func finding(w io.Writer, f *hazards.FindingText) {
	fmt.Fprintf(w, "%s: %s\n\n%s\n\nWhy: %s\n\nWay out: %s\n\nSource: %s (%s)\n", f.ID, f.Title, wrap(f.Rule, 88), wrap(f.Why, 88), wrap(f.WayOut, 88), f.Source, f.Standing)
	for _, v := range f.Values {
		fmt.Fprintf(w, "Value: %s = %s\n", v.Key, quantity.Format(v.Value, 6))
	}
	if f.Refuses == "yes" {
		fmt.Fprintln(w, "A row with this finding cannot be accepted.")
	}
}

func kind(w io.Writer, k *measure.Kind) {
	lowers := strings.Join(k.MayLower, ", ")
	if lowers == "" {
		lowers = "nothing"
	}
	fmt.Fprintf(w, "%s: %s\nstep: %s\nmay lower: %s\n", k.ID, k.Title, k.Step, lowers)
	for _, n := range k.Needs {
		fmt.Fprintf(w, "needs: %s\n", n.Words)
	}
	if k.Condition != "" {
		fmt.Fprintf(w, "condition: %s\n", k.Condition)
	}
	fmt.Fprintf(w, "standing: %s\n", k.Standing)
}

// tableOf prints a table with the standing of the cells that differ.
func tableOf(w io.Writer, t *table.Table) {
	fmt.Fprintf(w, "%s: %s\n%s\n", t.ID, t.Title, t.Standard)
	if t.Note != "" {
		fmt.Fprintln(w, t.Note)
	}
	fmt.Fprintln(w)
	tw := tabwriter.NewWriter(w, 0, 8, 2, ' ', 0)
	for _, c := range t.Columns {
		head := c.ID
		if u := c.Type.Unit.Name; u != "" && u != "1" {
			head += " " + u
		}
		fmt.Fprint(tw, head, "\t")
	}
	fmt.Fprintln(tw)
	for _, row := range t.Rows {
		for i, cell := range row {
			fmt.Fprint(tw, cellText(cell, t.Columns[i]), "\t")
		}
		fmt.Fprintln(tw)
	}
	tw.Flush()
	fmt.Fprintln(w, "\n* single: one public source; ** memory. Others as the column:")
	for _, c := range t.Columns {
		if c.Standing != "" {
			fmt.Fprintf(w, "  %s: %s (%s) %s\n", c.ID, c.Standing, strings.Join(c.Source, ", "), c.Note)
		}
	}
}

func cellText(cell table.Cell, c table.Column) string {
	text := cell.Value.Text
	if !cell.Value.Given() {
		text = "-"
	} else if text == "" {
		text = quantity.Format(cell.Value.Num, 12)
	}
	switch {
	case cell.Own != nil:
		text += " (own, " + string(cell.Standing) + ")"
	case cell.Standing == c.Standing:
	case cell.Standing == table.Single:
		text += "*"
	case cell.Standing == table.Memory:
		text += "**"
	}
	return text
}

func (s Shelf) constant(w io.Writer, name string) bool {
	found := false
	for _, k := range s.Library.Constants {
		if k.Name != name {
			continue
		}
		found = true
		of := "all sheets"
		if k.Of != "" {
			of = "sheet " + strings.Replace(k.Of, "/", ", ", 1)
		}
		fmt.Fprintf(w, "%s = %s %s: %s (%s)\n%s (%s)\n", k.Name, quantity.Format(k.Value.Num, 12), k.Type.Unit.Name, k.Means, of, k.Clause, k.Standing)
		for _, key := range k.Source {
			if src, ok := s.Library.Source(key); ok {
				fmt.Fprintf(w, "  %s, %s\n", src.Title, src.Address)
			}
		}
	}
	return found
}

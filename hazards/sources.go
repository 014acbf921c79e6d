package hazards

import (
	"standclear/limits/sheet"
	"standclear/limits/table"
)

// sources lists the standards and public sources that the results rest on:
// standards in order of first use, then sources in the order of the library.
func (w *work) sources() {
	u := &uses{lib: w.lib, at: map[string]int{}, of: map[string]*use{}, seen: map[any]bool{}}
	for i := range w.r.Checks {
		u.outcome(w.r.Checks[i].Outcome)
		if gap, ok := w.ownGap(&w.r.Checks[i]); ok {
			u.ownCell(gap)
		}
	}
	for i := range w.r.Ladders {
		for j := range w.r.Ladders[i].Rungs {
			u.outcome(w.r.Ladders[i].Rungs[j].Outcome)
		}
	}
	u.beside = "for comparison"
	for i := range w.r.OtherEditions {
		u.outcome(w.r.OtherEditions[i].Outcome)
	}
	u.beside = ""
	if m := w.r.Method; m != nil && len(w.r.Rows) > 0 {
		u.own("method "+m.ID, m.Title, m.Own, table.Standing(m.Standing))
		u.standard(table.Standard{ID: m.Standard, Clause: m.Clause}, table.Standing(m.Standing))
		for _, key := range m.Source {
			u.source(key, "method "+m.ID, table.Standing(m.Standing))
		}
		for i := range w.r.Rows {
			u.outcome(w.r.Rows[i].Before.Outcome)
			u.outcome(w.r.Rows[i].After.Outcome)
		}
	}
	u.rules(w.r)
	w.r.Sources = u.list
	for _, s := range w.lib.Sources {
		if x := u.of[s.Key]; x != nil {
			w.r.Sources = append(w.r.Sources, SourceUse{Key: s.Key, Title: s.Title, Address: s.Address, Used: commas(x.what), Standing: string(x.standing)})
		}
	}
}

type use struct {
	what     []string
	standing table.Standing
}

type uses struct {
	lib  *sheet.Library
	list []SourceUse    // standards
	at   map[string]int // their index by key
	of   map[string]*use
	seen map[any]bool

	beside string // before the use of a standard that serves for comparison only
}

type usedClause struct {
	standard int
	clause   string
}

type usedCell struct {
	table    string
	row, col int
}

func (u *uses) outcome(o *sheet.Outcome) {
	if o == nil {
		return
	}
	s := o.Sheet
	if !u.seen[s] {
		u.seen[s] = true
		u.own("sheet "+s.ID, s.Title, s.Own, s.Standing)
		u.standard(s.Standard, s.Standing)
		for _, key := range s.Source {
			u.source(key, "sheet "+s.ID, s.Standing)
		}
		for _, k := range s.Consts {
			for _, key := range k.Source {
				u.source(key, "sheet "+s.ID, k.Standing) // which constant, the workbook says under Data
			}
		}
	}
	for _, c := range o.Cells() {
		id := usedCell{c.Table.ID, c.Row, c.Col}
		if u.seen[id] {
			continue
		}
		u.seen[id] = true
		if c.Own != nil {
			u.ownCell(c)
			continue
		}
		u.own("table "+c.Table.ID, c.Table.Title, c.Table.Own, c.Standing)
		u.standard(c.Table.Standard, c.Standing)
		for _, key := range c.Table.Columns[c.Col].Source {
			u.source(key, "table "+c.Table.ID, c.Standing)
		}
	}
}

// standard notes a standard with its edition; Used lists the clauses.
func (u *uses) standard(s table.Standard, standing table.Standing) {
	key := table.Standard{ID: s.ID, Edition: s.Edition}.String()
	i, ok := u.at[key]
	if !ok {
		i = len(u.list)
		u.at[key] = i
		u.list = append(u.list, SourceUse{Key: key, Title: key, Used: u.beside, Standing: string(standing)})
	}
	x := &u.list[i]
	if id := (usedClause{i, s.Clause}); s.Clause != "" && !u.seen[id] {
		u.seen[id] = true
		if x.Used != "" {
			x.Used += "; "
		}
		x.Used += s.Clause
	}
	x.Standing = string(lesser(table.Standing(x.Standing), standing))
}

// own notes a table or sheet of the user.
func (u *uses) own(key, title, file string, standing table.Standing) {
	if file == "" {
		return
	}
	if i, ok := u.at[key]; ok {
		u.list[i].Standing = string(lesser(table.Standing(u.list[i].Standing), standing))
		return
	}
	u.at[key] = len(u.list)
	u.list = append(u.list, SourceUse{Key: key, Title: "the user's own: " + title, Address: file, Used: key, Standing: string(standing)})
}

func (u *uses) source(key, what string, standing table.Standing) {
	x := u.of[key]
	if x == nil {
		x = &use{standing: standing}
		u.of[key] = x
	}
	x.what = addOnce(x.what, what)
	x.standing = lesser(x.standing, standing)
}

// lesser is the less well known of two standings.
func lesser(a, b table.Standing) table.Standing {
	for _, s := range []table.Standing{table.Memory, table.Practice, table.Single, table.Confirmed} {
		if a == s || b == s {
			return s
		}
	}
	return a
}

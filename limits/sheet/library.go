package sheet

import (
	"io/fs"

	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/source"
	"standclear/limits/table"
)

// Source is a public place where figures were read.
type Source struct{ Key, Title, Address string }

// ConstantValue is a constant with its source.
type ConstantValue struct {
	Name, Of string // Of: key of the sheet it belongs to, "" for all
	Means    string
	Type     expr.Type
	Value    expr.Value
	Source   []string
	Standing table.Standing
	Clause   string
}

// Library is every sheet, table, constant and source there is. It does not
// change after loading.
type Library struct {
	Sheets    []*Sheet
	Tables    []*table.Table
	Constants []*ConstantValue
	Sources   []Source
}

// Load reads sources, constants, tables, contact data and sheets from a folder
// laid out as templates/ is.
func Load(fsys fs.FS) (*Library, []source.Problem) { return LoadWith(fsys, nil, nil) }

// LoadWith reads the same with tables and sheets of the user. A table of the
// user under one of our ids stands in its place; a sheet has an id of its own.
func LoadWith(fsys fs.FS, tables, sheets []Own) (*Library, []source.Problem) {
	return LoadOwn(fsys, OwnData{Tables: tables, Sheets: sheets})
}

// LoadOwn reads the same with everything of the user.
func LoadOwn(fsys fs.FS, user OwnData) (*Library, []source.Problem) {
	tables, sheets := user.Tables, user.Sheets
	var ps source.Problems
	lib := &Library{}
	source.EachFile(fsys, "tables", &ps, func(name string, n *source.Node) {
		switch name {
		case sources:
			lib.readSources(n, &ps)
		case "constants":
			lib.readShared(n, &ps)
		default:
			lib.addTable(n, &ps)
		}
	})
	source.EachFile(fsys, "contact", &ps, func(_ string, n *source.Node) { lib.addTable(n, &ps) })
	for _, o := range tables {
		o.there("tables", &ps)
		o.each(&ps, lib.ownTable)
	}
	lib.ownContacts(user.Contact, &ps)
	for _, o := range sheets {
		o.there("calculation sheets", &ps)
	}
	if ps.Len() > 0 {
		return lib, ps.List()
	}
	source.EachFile(fsys, "sheets", &ps, func(_ string, n *source.Node) {
		switch s := Read(n, lib, &ps); {
		case s == nil:
		case lib.SheetOf(s.ID, s.Standard.Edition) != nil:
			ps.Addf(n.Get("id").Pos, "found the sheet id %s a second time, expected an id or an edition of its own", s.ID)
		default:
			lib.Sheets = append(lib.Sheets, s)
		}
	})
	lib.arrange()
	for _, o := range sheets {
		o.each(&ps, func(name, file string, n *source.Node, ps *source.Problems) { lib.ownSheet(o, name, file, n, ps) })
	}
	return lib, ps.List()
}

func (l *Library) addTable(n *source.Node, ps *source.Problems) {
	switch t := table.Load(n, ps); {
	case t == nil:
	case l.Table(t.ID) != nil:
		ps.Addf(n.Get("id").Pos, "found the table id %s a second time, expected an id of its own", t.ID)
	default:
		l.Tables = append(l.Tables, t)
	}
}

type sourcesStmt struct {
	source.Item
	Sources source.Map[sourceStmt] `yaml:"sources,required"`
}

type sourceStmt struct {
	source.Item
	Title   string `yaml:"title,required"`
	Address string `yaml:"address,required"`
}

func (l *Library) readSources(n *source.Node, ps *source.Problems) {
	var st sourcesStmt
	source.Decode(n, &st, ps)
	l.addSources(st.Sources, ps)
}

func (l *Library) addSources(list source.Map[sourceStmt], ps *source.Problems) {
	for _, e := range list {
		if _, taken := l.Source(e.Key); taken {
			ps.Addf(e.Pos, "the source key `%s` is taken", e.Key)
		}
		l.Sources = append(l.Sources, Source{Key: e.Key, Title: e.Value.Title, Address: e.Value.Address})
	}
}

type sharedStmt struct {
	source.Item
	Constants source.Map[constStmt] `yaml:"constants,required"`
}

func (l *Library) readShared(n *source.Node, ps *source.Problems) {
	var st sharedStmt
	source.Decode(n, &st, ps)
	for i := range st.Constants {
		l.readConstant("", st.Constants[i].Key, &st.Constants[i].Value, ps)
	}
}

func (l *Library) readConstant(of, name string, st *constStmt, ps *source.Problems) *ConstantValue {
	q, err := quantity.Parse(st.Is)
	if err != nil {
		ps.Addf(st.At("is"), "%v", err)
	}
	k := &ConstantValue{Name: name, Of: of, Means: st.Means, Type: expr.Type{Kind: expr.Number, Unit: q.Unit},
		Source: st.Source, Standing: table.Standing(st.Standing), Clause: st.Clause}
	if err == nil {
		v, _ := q.In(q.Unit)
		k.Value = expr.Value{Kind: expr.Number, Num: v}
	}
	l.Constants = append(l.Constants, k)
	return k
}

func (l *Library) shared(name string) *ConstantValue {
	for _, k := range l.Constants {
		if k.Of == "" && k.Name == name {
			return k
		}
	}
	return nil
}

// Constant gives the constant that a sheet means by name: its own, or one for
// all sheets.
func (l *Library) Constant(name string, s *Sheet) *ConstantValue {
	for _, k := range l.Constants {
		if k.Of == s.Key() && k.Name == name {
			return k
		}
	}
	return l.shared(name)
}

// Table gives a table by id, nil when there is none.
func (l *Library) Table(id string) *table.Table {
	for _, t := range l.Tables {
		if t.ID == id {
			return t
		}
	}
	return nil
}

// Source gives a source by key, false when there is none.
func (l *Library) Source(key string) (Source, bool) {
	for _, s := range l.Sources {
		if s.Key == key {
			return s, true
		}
	}
	return Source{}, false
}

func (l *Library) keys(id string) []string {
	t := l.Table(id)
	if t == nil {
		return nil
	}
	var out []string
	for i := range t.Rows {
		out = append(out, t.RowKey(i))
	}
	return out
}

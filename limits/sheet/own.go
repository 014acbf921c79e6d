package sheet

import (
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"path"

	"standclear/limits/expr"
	"standclear/limits/source"
	"standclear/limits/table"
)

// sources is the name of the file with the sources that tables name.
const sources = "sources"

// Own is a folder with tables or sheets of the user: a local code, a rule of the
// house, values of a bought copy.
type Own struct {
	FS   fs.FS
	Dir  string // where it stands; before file names in problems
	Name string // as the assessment names it; before file names in outputs
}

// OwnData is everything of the user.
type OwnData struct{ Tables, Sheets, Contact []Own }

// there reports a folder that is not there; what says what it should hold.
func (o Own) there(what string, ps *source.Problems) {
	if info, err := fs.Stat(o.FS, "."); err != nil || !info.IsDir() {
		ps.Add(source.Problem{Pos: source.Pos{File: o.Dir}, Message: "there is no such folder", Expected: "a folder with " + what,
			Hint: "look at the path and the folder you are in"})
	}
}

// each reads the files of the folder.
func (o Own) each(ps *source.Problems, read func(name, file string, n *source.Node, ps *source.Problems)) {
	var own source.Problems
	var names []string
	nodes := map[string]*source.Node{}
	source.EachFile(o.FS, ".", &own, func(name string, n *source.Node) {
		nodes[name] = n
		if name == sources { // tables name them
			names = append([]string{name}, names...)
		} else {
			names = append(names, name)
		}
	})
	for _, name := range names {
		read(name, path.Join(o.Name, name+".yaml"), nodes[name], &own)
	}
	for _, p := range own.List() {
		p.Pos.File = path.Join(o.Dir, p.Pos.File)
		ps.Add(p)
	}
}

// ownTable adds a table of the user, or the sources that such tables name.
func (l *Library) ownTable(name, file string, n *source.Node, ps *source.Problems) {
	if name == sources {
		l.readSources(n, ps)
		return
	}
	t := table.Load(n, ps)
	if t == nil {
		return
	}
	if isContact(t.ID) {
		ps.Add(n.Get("id").Problem("table `"+t.ID+"` takes no other in its place", "an id of its own",
			"values of your own for body areas come in row by row, as `contact_data`"))
		return
	}
	t.Own = file
	for i := range t.Columns {
		for _, key := range t.Columns[i].Source {
			if _, ok := l.Source(key); !ok {
				ps.Addf(n.Get("columns").Pos, "column %s of table %s names the source %s, which is not in `sources.yaml` beside it", t.Columns[i].ID, t.ID, key)
			}
		}
	}
	for i, ours := range l.Tables {
		if ours.ID != t.ID {
			continue
		}
		if ours.Own != "" {
			ps.Add(n.Get("id").Problem("the table `"+t.ID+"` stands in "+ours.Own+" already", "each table once", ""))
		}
		for _, gap := range gaps(ours, t) {
			ps.Add(n.Get("id").Problem("table `"+t.ID+"` cannot stand in for the one built in: "+gap, "its key, columns, units and names of rows", "see `standclear explain "+t.ID+"`"))
		}
		l.Tables[i] = t
		return
	}
	l.Tables = append(l.Tables, t)
}

// sum is the hash of a file of the folder.
func (o Own) sum(name string) string {
	data, _ := fs.ReadFile(o.FS, name+".yaml") // read before without an error
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// gaps says what a table lacks that look-ups in the one it replaces rely on.
func gaps(ours, own *table.Table) []string {
	var list []string
	if own.Key != ours.Key {
		list = append(list, "its key is "+own.Key+", not "+ours.Key)
	}
	if (own.First < 0) != (ours.First < 0) || own.First >= 0 && own.HeadUnit.Dim != ours.HeadUnit.Dim {
		list = append(list, "its grid columns differ in kind")
	}
	for i := range ours.Columns {
		c := &ours.Columns[i]
		if c.Grid {
			continue
		}
		switch j := own.Column(c.ID); {
		case j < 0:
			list = append(list, "there is no column "+c.ID)
		case own.Columns[j].Type.Kind != c.Type.Kind || own.Columns[j].Type.Unit.Name != c.Type.Unit.Name:
			list = append(list, "column "+c.ID+" has another unit")
		}
	}
	if k := ours.Column(ours.Key); ours.Columns[k].Type.Kind == expr.Text && len(list) == 0 {
		for i := range ours.Rows {
			if key := ours.RowKey(i); own.Exact(key) < 0 {
				list = append(list, "there is no row "+key)
			}
		}
	}
	return list
}

// ownSheet adds a sheet of the user.
func (l *Library) ownSheet(o Own, name, file string, n *source.Node, ps *source.Problems) {
	s := Read(n, l, ps)
	if s == nil {
		return
	}
	if l.Sheet(s.ID) != nil {
		ps.Add(n.Get("id").Problem("the sheet id `"+s.ID+"` is taken", "an id of its own", "put the name of your firm before it"))
		return
	}
	s.Own, s.Sum = file, o.sum(name)
	l.Sheets = append(l.Sheets, s)
}

// ownIn names the look-ups of an expression that gave a value of the user, after
// its clause. What is worked out is known no better than they are.
func (s *Sheet) ownIn(l *Line, g *guarded, o *Outcome) {
	for _, name := range g.f.Names() {
		c := s.byName[name]
		if c == nil || c.Role != Lookup {
			continue
		}
		if cell, ok := c.lookup.cell(o.Values); ok && cell.Own != nil {
			l.Source += "; " + c.Symbol + " is the user's own"
			if cell.Standing.Worse(l.Standing) {
				l.Standing = cell.Standing
			}
		}
	}
}

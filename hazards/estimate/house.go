package estimate

import (
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"path"
	"slices"

	"standclear/limits/sheet"
	"standclear/limits/source"
	"standclear/limits/table"
)

// Shelf is every method that an assessment may use, with the library that their
// calculations look things up in.
type Shelf struct {
	Library *sheet.Library
	Methods []*Method
}

// Add gives a shelf with the methods of a house: the .yaml files of a folder,
// with the tables they use in its folder tables. Neither may have an id that is
// taken. The shelf is left as it is. dir is the folder as the user knows it; it
// stands before the file names of the problems, all of which are returned at once.
// name is the folder as the assessment names it, which stands before file names in
// outputs.
func (s Shelf) Add(fsys fs.FS, dir, name string) (Shelf, []source.Problem) {
	var ps source.Problems
	if info, err := fs.Stat(fsys, "."); err != nil || !info.IsDir() {
		ps.Add(source.Problem{Pos: source.Pos{File: dir}, Message: "there is no such folder", Expected: "a folder with methods of risk estimation",
			Hint: "look at the path and the folder you are in"})
		return s, ps.List()
	}
	lib := *s.Library
	lib.Tables, lib.Constants = slices.Clone(lib.Tables), slices.Clone(lib.Constants)
	source.EachFile(fsys, "tables", &ps, func(file string, n *source.Node) {
		switch t := table.Load(n, &ps); {
		case t == nil:
		case lib.Table(t.ID) != nil:
			ps.Add(n.Get("id").Problem("the table id `"+t.ID+"` is taken", "an id of its own", "put the name of your firm before it"))
		default:
			t.Own = path.Join(name, "tables", file+".yaml")
			lib.Tables = append(lib.Tables, t)
		}
	})
	before := ps.Len()
	list := slices.Clone(s.Methods)
	for _, m := range readAll(fsys, ".", &lib, &ps) {
		if Find(s.Methods, m.ID) != nil || lib.Sheet(m.ID) != nil {
			ps.Add(m.at.Problem("the method id `"+m.ID+"` is taken", "an id of its own", "put the name of your firm before it"))
			continue
		}
		for _, gap := range m.Gaps() {
			ps.Addf(m.calculation, "method %s: %s", m.ID, gap)
		}
		if data, err := fs.ReadFile(fsys, m.at.Pos.File); err == nil {
			sum := sha256.Sum256(data)
			m.Own = path.Join(name, m.at.Pos.File)
			m.Sum = hex.EncodeToString(sum[:])
		}
		list = append(list, m)
	}
	if ps.Len() == before && len(list) == len(s.Methods) {
		ps.Add(source.Problem{Pos: source.Pos{File: dir}, Message: "the folder holds no method", Expected: "a file such as `house.yaml`, and the tables it uses in `tables`"})
	}
	problems := ps.List()
	for i := range problems {
		if problems[i].Pos.File != dir {
			problems[i].Pos.File = path.Join(dir, problems[i].Pos.File)
		}
	}
	return Shelf{Library: &lib, Methods: list}, problems
}

package source

import (
	"errors"
	"io/fs"
	"path"
	"strings"
)

// EachFile parses the .yaml files of a folder in the order of their names and
// hands over each one that can be read, with its name without the ending. A
// folder that is not there holds nothing; what cannot be read is a problem.
func EachFile(fsys fs.FS, dir string, ps *Problems, read func(name string, n *Node)) {
	entries, err := fs.ReadDir(fsys, dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		ps.Addf(Pos{File: dir}, "cannot read the folder: %v", err)
	}
	for _, e := range entries {
		name := path.Join(dir, e.Name())
		if e.IsDir() || path.Ext(name) != ".yaml" {
			continue
		}
		data, err := fs.ReadFile(fsys, name)
		if err != nil {
			ps.Addf(Pos{File: name}, "cannot read: %v", err)
			continue
		}
		if n := Parse(name, data, ps); n != nil {
			read(strings.TrimSuffix(e.Name(), ".yaml"), n)
		}
	}
}

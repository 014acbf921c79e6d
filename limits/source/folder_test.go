package source_test

import (
	"errors"
	"io/fs"
	"slices"
	"testing"
	"testing/fstest"

	"standclear/limits/source"
)

// locked refuses to list or to open what it holds.
type locked struct{ fstest.MapFS }

var errLocked = errors.New("locked")

func (l locked) Open(name string) (fs.File, error) {
	if name == "shut" || name == "rooms/c.yaml" {
		return nil, errLocked
	}
	return l.MapFS.Open(name)
}

func (l locked) ReadFile(name string) ([]byte, error) {
	if name == "rooms/c.yaml" {
		return nil, errLocked
	}
	return l.MapFS.ReadFile(name)
}

func (l locked) ReadDir(name string) ([]fs.DirEntry, error) {
	if name == "shut" {
		return nil, errLocked
	}
	return l.MapFS.ReadDir(name)
}

func TestEachFile(t *testing.T) {
	fsys := locked{fstest.MapFS{
		"rooms/b.yaml":        {Data: []byte("b: 1")},
		"rooms/a.yaml":        {Data: []byte("a: 1")},
		"rooms/c.yaml":        {Data: []byte("c: 1")},
		"rooms/d.yaml":        {Data: []byte("")},
		"rooms/notes.txt":     {Data: []byte("not this")},
		"rooms/deep/e.yaml":   {Data: []byte("e: 1")},
		"rooms/fold.yaml/x.y": {Data: []byte("x")},
	}}
	var ps source.Problems
	var names []string
	source.EachFile(fsys, "rooms", &ps, func(name string, n *source.Node) {
		names = append(names, name+"="+n.Pairs[0].Key.Value)
	})
	if want := []string{"a=a", "b=b"}; !slices.Equal(names, want) {
		t.Errorf("read %v, want %v", names, want)
	}
	if list := ps.List(); len(list) != 2 || list[0].Pos.File != "rooms/c.yaml" || list[1].Pos.File != "rooms/d.yaml" {
		t.Errorf("%v", list)
	}
	none := func(string, *source.Node) { t.Error("read a file that is not there") }
	ps = source.Problems{}
	source.EachFile(fsys, "nowhere", &ps, none)
	if ps.Len() != 0 {
		t.Errorf("a missing folder: %v", ps.List())
	}
	source.EachFile(fsys, "shut", &ps, none)
	if ps.Len() != 1 {
		t.Errorf("a folder that cannot be read: %v", ps.List())
	}
}

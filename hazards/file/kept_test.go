package file_test

import (
	"io/fs"
	"testing"
	"testing/fstest"

	"standclear/hazards/file"
	"standclear/limits/source"
)

// What is read is kept once, under the name that the assessment uses, in the
// order of reading; what is not read is not.
func TestKept(t *testing.T) {
	var k file.Kept
	k.Add("cell.yaml", []byte("a: 1\r\n"))
	fsys := k.FS(fstest.MapFS{"b.yaml": {Data: []byte("b: 1\n")}, "a.yaml": {Data: []byte("a: 2\n")},
		"notes.txt": {Data: []byte("x")}, "tables/t.yaml": {Data: []byte("t: 1\n")}}, "house", "")
	for range 2 {
		var ps source.Problems
		source.EachFile(fsys, ".", &ps, func(string, *source.Node) {})
		source.EachFile(fsys, "tables", &ps, func(string, *source.Node) {})
		if ps.Len() > 0 {
			t.Fatal(ps.List())
		}
	}
	want := []string{"cell.yaml a: 1\r\n", "house/a.yaml a: 2\n", "house/b.yaml b: 1\n", "house/tables/t.yaml t: 1\n"}
	if len(k.Files) != len(want) {
		t.Fatalf("kept %v", k.Files)
	}
	for i, f := range k.Files {
		if got := f.Name + " " + string(f.Data); got != want[i] {
			t.Errorf("kept %q, want %q", got, want[i])
		}
	}
}

// Where one file counts there is no other in the folder.
func TestKeptOnly(t *testing.T) {
	var k file.Kept
	fsys := k.FS(fstest.MapFS{"b.yaml": {Data: []byte("b: 1\n")}, "a.yaml": {Data: []byte("{")}}, ".", "b.yaml")
	var names []string
	var ps source.Problems
	source.EachFile(fsys, ".", &ps, func(name string, _ *source.Node) { names = append(names, name) })
	if len(names) != 1 || names[0] != "b" || ps.Len() > 0 || len(k.Files) != 1 || k.Files[0].Name != "b.yaml" {
		t.Errorf("read %v, kept %v, %v", names, k.Files, ps.List())
	}
	if _, err := fs.ReadFile(fsys, "none.yaml"); err == nil {
		t.Error("a file that is not there is read")
	}
}

package main

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"
)

func says(s string) func(io.Writer) error {
	return func(w io.Writer) error { _, err := io.WriteString(w, s); return err }
}

func holds(t *testing.T, dir string, want map[string]string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		data, _ := os.ReadFile(filepath.Join(dir, e.Name()))
		if w, ok := want[e.Name()]; !ok || (!e.IsDir() && w != string(data)) {
			t.Errorf("%s holds %q", e.Name(), data)
		}
	}
	if len(entries) != len(want) {
		t.Errorf("%d entries, want %d", len(entries), len(want))
	}
}

// A writer that fails, or panics, leaves the old files and nothing beside them.
func TestFailingWriterLeavesTheOld(t *testing.T) {
	for name, bad := range map[string]func(io.Writer) error{
		"error": func(w io.Writer) error { io.WriteString(w, "half"); return errors.New("full") },
		"panic": func(io.Writer) error { panic("oops") },
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			os.WriteFile(filepath.Join(dir, "a"), []byte("old"), 0o644)
			s := &stage{dir: dir}
			if _, err := s.write(output{"a", says("new")}, output{"b", bad}); err == nil {
				t.Error("no error")
			}
			s.discard()
			holds(t, dir, map[string]string{"a": "old"})
		})
	}
}

// Where one file cannot be put in its place, all the old ones stay.
func TestFailingRenameLeavesTheOld(t *testing.T) {
	dir := t.TempDir()
	os.WriteFile(filepath.Join(dir, "c"), []byte("old"), 0o644)
	os.MkdirAll(filepath.Join(dir, "a", "in the way"), 0o755)
	s := &stage{dir: dir}
	if _, err := s.write(output{"a", says("new a")}, output{"b", says("new b")}, output{"c", says("new c")}); err != nil {
		t.Fatal(err)
	}
	if err := s.commit(); err == nil {
		t.Error("no error")
	}
	s.discard()
	holds(t, dir, map[string]string{"a": "", "c": "old"})
}

package main

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"testing"
)

// TestExitCodes holds the exit codes against those of the README.
func TestExitCodes(t *testing.T) {
	t.Chdir(t.TempDir())
	const cell = "out/demo.yaml"
	for _, c := range []struct {
		want int
		args []string
	}{
		{exitDone, []string{"demo", "-o", "out"}},
		{exitDone, []string{"build", cell, "-o", "again"}},
		{exitDone, []string{"sheets"}},
		{exitDone, []string{"version"}},
		{exitDone, []string{"explain", "light-curtain"}},
		{exitDone, []string{"calc", "payload", "rated=5 kg", "tool=6 kg", "part=1 kg"}}, // over, and worked out
		{exitFindings, []string{"check", cell}},
		{exitInput, []string{"check", "missing.yaml"}},
		{exitInput, []string{"check", "out/demo.pdf"}},
		{exitInput, []string{"check"}},
		{exitInput, []string{"build", cell}},
		{exitInput, []string{"explain", "nothing"}},
		{exitInput, []string{"explain", cell, "nothing"}},
		{exitInput, []string{"calc", "payload", "rated=5"}},
		{exitInput, []string{"no-such-command"}},
		{exitInput, []string{"check", cell, "--no-such-flag"}},
		{exitWrite, []string{"build", cell, "-o", "out/demo.yaml/out"}}, // a file where a folder should be
	} {
		var out, err bytes.Buffer
		if got := run(c.args, &out, &err); got != c.want {
			t.Errorf("%v ends with %d, want %d\n%s%s", c.args, got, c.want, out.Bytes(), err.Bytes())
		}
	}
	left, err := filepath.Glob("*/.standclear-*")
	if err != nil || len(left) > 0 {
		t.Errorf("left behind: %v %v", left, err)
	}
}

// full is a disk without room.
type full struct{}

var errFull = errors.New("no room")

func (full) Write([]byte) (int, error) { return 0, errFull }

// What cannot be printed was not done.
func TestOutputFails(t *testing.T) {
	t.Chdir(t.TempDir())
	if code := run([]string{"demo", "-o", "out"}, os.Stderr, os.Stderr); code != exitDone {
		t.Fatal(code)
	}
	for _, args := range [][]string{
		{"sheets"}, {"sheets", "--json"}, {"version"}, {"explain", "light-curtain"},
		{"check", "out/demo.yaml"}, {"check", "out/demo.yaml", "--json"},
		{"calc", "payload", "rated=5 kg", "tool=1 kg", "part=1 kg"},
	} {
		var said bytes.Buffer
		if code := run(args, full{}, &said); code != exitWrite || !bytes.Contains(said.Bytes(), []byte("no room")) {
			t.Errorf("%v ends with %d and says %s", args, code, said.Bytes())
		}
	}
}

// A workbook that cannot be compared with what was built is not replaced.
func TestUnreadableWorkbook(t *testing.T) {
	dir := t.TempDir()
	base := filepath.Join(dir, "cell")
	if edited(base) {
		t.Error("no workbook counts as edited")
	}
	if err := os.Mkdir(base+".xlsx", 0o755); err != nil {
		t.Fatal(err)
	}
	if !edited(base) {
		t.Error("a workbook that cannot be read counts as built")
	}
}

func TestBaseName(t *testing.T) {
	for path, want := range map[string]string{"a/cell.yaml": "cell", "cell": "cell", "cell.v2.yaml": "cell.v2", ".yaml": ".yaml"} {
		if got := baseName(path); got != want {
			t.Errorf("%s: %s, want %s", path, got, want)
		}
	}
}

package main

import (
	"bufio"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"os"
	"path/filepath"
)

// stage holds files written aside until all are complete.
type stage struct {
	dir   string
	files []staged
	err   error
}

type staged struct{ aside, target string }

// file writes one file aside and gives its SHA-256. After a failure it does
// nothing more.
func (s *stage) file(name string, write func(io.Writer) error) string {
	if s.err != nil {
		return ""
	}
	f, err := os.CreateTemp(s.dir, ".standclear-*")
	if err != nil {
		s.err = err
		return ""
	}
	s.files = append(s.files, staged{aside: f.Name(), target: filepath.Join(s.dir, name)})
	sum := sha256.New()
	buf := bufio.NewWriterSize(io.MultiWriter(f, sum), 1<<16)
	s.keep(write(buf))
	s.keep(buf.Flush())
	s.keep(f.Chmod(0o644))
	s.keep(f.Sync())
	s.keep(f.Close())
	return hex.EncodeToString(sum.Sum(nil))
}

func (s *stage) keep(err error) {
	if s.err == nil {
		s.err = err
	}
}

// commit puts every file in its place. The workbook goes last: the JSON names
// the workbook it belongs to, so a half-way stop leaves a workbook that counts
// as edited and is not overwritten by chance.
func (s *stage) commit() error {
	for i := len(s.files) - 1; i >= 0 && s.err == nil; i-- {
		s.keep(os.Rename(s.files[i].aside, s.files[i].target))
	}
	return s.err
}

// discard removes what is still aside.
func (s *stage) discard() {
	for _, f := range s.files {
		os.Remove(f.aside) // already renamed: nothing there
	}
}

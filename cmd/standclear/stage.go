package main

import (
	"bufio"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"os"
	"path/filepath"
	"sync"
)

// output is one file to be written.
type output struct {
	name  string
	write func(io.Writer) error
}

// stage holds files written aside, in the folder where they belong, until all
// are complete.
type stage struct {
	dir   string
	files []staged
}

type staged struct{ aside, target, sum, old string }

// write writes the outputs aside, all at once, and gives the SHA-256 of each by
// its name.
func (s *stage) write(outputs ...output) (map[string]string, error) {
	done := make([]staged, len(outputs))
	errs := make([]error, len(outputs))
	var wg sync.WaitGroup
	for i, o := range outputs {
		wg.Add(1)
		go func() {
			defer wg.Done()
			done[i], errs[i] = s.aside(o)
		}()
	}
	wg.Wait()
	sums := map[string]string{}
	var first error
	for i, f := range done {
		if f.aside != "" {
			s.files = append(s.files, f)
		}
		if first == nil {
			first = errs[i]
		}
		sums[outputs[i].name] = f.sum
	}
	return sums, first
}

func (s *stage) aside(o output) (staged, error) {
	f, err := os.CreateTemp(s.dir, ".standclear-*")
	if err != nil {
		return staged{}, err
	}
	out := staged{aside: f.Name(), target: filepath.Join(s.dir, o.name)}
	keep := func(e error) {
		if err == nil {
			err = e
		}
	}
	sum := sha256.New()
	buf := bufio.NewWriterSize(io.MultiWriter(f, sum), 1<<16)
	keep(guarded(o.write, buf))
	keep(buf.Flush())
	keep(f.Chmod(0o644))
	keep(f.Sync())
	keep(f.Close())
	out.sum = hex.EncodeToString(sum.Sum(nil))
	return out, err
}

// guarded turns a panic of a writer into an error, since it runs beside others.
func guarded(write func(io.Writer) error, w io.Writer) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = panicked{p}
		}
	}()
	return write(w)
}

// commit puts every file in its place, or leaves all the old ones. The workbook,
// first of all, goes last: the JSON names the workbook it belongs to, so a
// half-way stop leaves a workbook that counts as edited and is not overwritten
// by chance.
func (s *stage) commit() error {
	for i := len(s.files) - 1; i >= 0; i-- {
		f := &s.files[i]
		old := f.aside + ".old"
		if os.Link(f.target, old) == nil { // nothing to keep, or a file system without links
			f.old = old
		}
		if err := os.Rename(f.aside, f.target); err != nil {
			s.restore(i + 1)
			return err
		}
	}
	return nil
}

// restore puts the old files back, from the given one on.
func (s *stage) restore(from int) {
	for _, f := range s.files[from:] {
		if f.old != "" {
			os.Rename(f.old, f.target)
		} else {
			os.Remove(f.target)
		}
	}
}

// discard removes what is still aside.
func (s *stage) discard() {
	for _, f := range s.files {
		os.Remove(f.aside) // already renamed: nothing there
		if f.old != "" {
			os.Remove(f.old)
		}
	}
}

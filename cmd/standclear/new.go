package main

import (
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"standclear/limits/source"
	"standclear/templates"
)

// startFolder holds a starter cell for each kind.
const startFolder = "cells/start"

func newCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "new KIND DIR",
		Short: "Write a starter cell to change into your own: " + strings.Join(startKinds(), ", "),
		Long: `new writes a worked assessment file of a common kind of cell, KIND.yaml, into the folder DIR. Everything in
it is invented; its comments say what each block is for. Change it from top to bottom into your own cell.
A file that is already there is never overwritten.

Kinds: ` + strings.Join(startKinds(), ", "),
		Example:   "  standclear new packing cell-5\n  standclear check cell-5/packing.yaml",
		Args:      cobra.ExactArgs(2),
		ValidArgs: startKinds(),
		RunE: func(c *cobra.Command, args []string) error {
			kind, dir := args[0], args[1]
			data, err := starter(kind)
			if err != nil {
				return err
			}
			target, err := putNew(dir, kind+".yaml", data)
			if err != nil {
				return err
			}
			nextSteps(c.OutOrStdout(), filepath.ToSlash(target), filepath.ToSlash(dir))
			return nil
		},
	}
}

// startKinds lists the kinds of starter cell, in order of their names.
func startKinds() []string {
	entries, err := fs.ReadDir(templates.FS, startFolder)
	if err != nil {
		panic("embedded data: " + err.Error())
	}
	var kinds []string
	for _, e := range entries {
		kinds = append(kinds, strings.TrimSuffix(e.Name(), ".yaml"))
	}
	return kinds
}

// starter gives the file of a kind, or says which kinds there are.
func starter(kind string) ([]byte, error) {
	kinds := startKinds()
	for _, k := range kinds {
		if k == kind {
			return templates.FS.ReadFile(path.Join(startFolder, k+".yaml"))
		}
	}
	near := ""
	if n := source.Nearest(kind, kinds); n != "" {
		near = " (did you mean " + n + "?)"
	}
	return nil, inputFailure("no starter cell %s; expected one of %s%s", kind, strings.Join(kinds, ", "), near)
}

// putNew writes a file that is not there yet, aside and then renamed.
func putNew(dir, name string, data []byte) (string, error) {
	target := filepath.Join(dir, name)
	if _, err := os.Lstat(target); err == nil {
		return "", inputFailure("%s is already there; choose another folder, or move it", target)
	}
	if info, err := os.Stat(dir); err == nil && !info.IsDir() {
		return "", inputFailure("%s is a file; expected a folder", dir)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return "", writeFailure(err)
	}
	s := &stage{dir: dir}
	defer s.discard()
	_, err := s.write(output{name, func(w io.Writer) error { _, err := w.Write(data); return err }})
	if err == nil {
		err = s.commit()
	}
	if err != nil {
		return "", writeFailure(err)
	}
	return target, nil
}

// nextSteps says what was written and what to do with it.
func nextSteps(w io.Writer, target, dir string) {
	fmt.Fprintf(w, "%s\n\nNext, change it into your own cell, and then:\n", target)
	for _, s := range [][2]string{
		{"check " + target, "what stands against release"},
		{"suggest " + target, "hazards that no row answers yet"},
		{"build " + target + " -o " + path.Join(dir, "out"), "workbook, summary and JSON"},
	} {
		fmt.Fprintf(w, "  standclear %s\n      %s\n", s[0], s[1])
	}
}

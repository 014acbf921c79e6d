package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	stdjson "encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"standclear/hazards"
	"standclear/report/book"
	"standclear/report/json"
	"standclear/report/pdf"
)

func buildCommand() *cobra.Command {
	var dir string
	var overwrite bool
	c := &cobra.Command{
		Use:     "build FILE -o DIR",
		Short:   "Write workbook, summary and JSON of an assessment file",
		Example: "  standclear build cell.yaml -o out",
		Args:    cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			r, data, err := assess(args[0])
			if err != nil {
				return err
			}
			return write(c.OutOrStdout(), r, outputs{dir: dir, overwrite: overwrite, input: args[0], data: data})
		},
	}
	c.Flags().StringVarP(&dir, "output", "o", "", "folder for the outputs")
	c.Flags().BoolVar(&overwrite, "overwrite", false, "replace a workbook even if it was edited since it was built")
	_ = c.MarkFlagRequired("output")
	return c
}

// outputs says where results go and what must not be lost.
type outputs struct {
	dir       string
	overwrite bool
	input     string   // never overwritten
	data      []byte   // bytes of the assessment
	also      []output // further files
}

// write builds every output aside and renames all of them at the end; on any
// failure the old files stay.
func write(stdout io.Writer, r *hazards.Result, to outputs) error {
	if err := os.MkdirAll(to.dir, 0o755); err != nil {
		return writeFailure(err)
	}
	xlsx, pdfName, jsonName := r.Name+".xlsx", r.Name+".pdf", r.Name+".json"
	targets := []string{xlsx, pdfName, jsonName}
	for _, a := range to.also {
		targets = append(targets, a.name)
	}
	if err := to.guard(r.Name, targets); err != nil {
		return err
	}
	s := &stage{dir: to.dir}
	defer s.discard()
	summary := pdf.Options{Attach: []pdf.Attachment{{Name: r.Name + ".yaml", Means: "the assessment file", Data: to.data}}}
	for _, f := range r.Files[min(1, len(r.Files)):] { // the assessment is the first
		summary.Attach = append(summary.Attach, pdf.Attachment{Name: strings.ReplaceAll(f.Name, "/", "_"), Means: f.Name + ", the user's own", Data: f.Data})
	}
	sums, err := s.write(
		output{xlsx, func(w io.Writer) error { return book.Write(w, r) }},
		output{pdfName, func(w io.Writer) error { return summary.Write(w, r) }},
	)
	if err == nil {
		_, err = s.write(append([]output{{jsonName, func(w io.Writer) error { return json.Check(w, r, sums) }}}, to.also...)...)
	}
	if err == nil {
		err = s.commit()
	}
	if err != nil {
		return writeFailure(err)
	}
	for _, f := range s.files {
		fmt.Fprintln(stdout, filepath.ToSlash(f.target))
	}
	fmt.Fprintf(stdout, "%s: %d rows, %d checks, %d findings, %d open points\n", r.Document, len(r.Rows), governing(r), r.Counts.Findings, r.Counts.Open)
	return nil
}

// governing counts the checks that count; those shown beside do not.
func governing(r *hazards.Result) int {
	n := 0
	for _, c := range r.Counts.Checks {
		n += c.N
	}
	return n
}

// guard refuses to lose the input, edits in a workbook, or what is no file.
func (to outputs) guard(name string, targets []string) error {
	for _, t := range targets {
		path := filepath.Join(to.dir, t)
		info, err := os.Stat(path)
		if os.IsNotExist(err) {
			continue
		}
		if err != nil {
			return writeFailure(err)
		}
		if !info.Mode().IsRegular() {
			return inputFailure("%s is in the way and is no file; move it", path)
		}
		if in, err := os.Stat(to.input); to.input != "" && err == nil && os.SameFile(in, info) {
			return inputFailure("%s is the input itself; choose another folder with -o", path)
		}
	}
	for _, a := range to.also {
		path := filepath.Join(to.dir, a.name)
		old, err := os.ReadFile(path)
		if !to.overwrite && !os.IsNotExist(err) && !bytes.Equal(old, to.data) {
			return inputFailure("%s is there and differs; choose another folder with -o, or give --overwrite to lose it", path)
		}
	}
	if !to.overwrite && edited(filepath.Join(to.dir, name)) {
		return inputFailure("%s.xlsx differs from what was built: it may hold edits. Take them home first, or give --overwrite to lose them",
			filepath.Join(to.dir, name))
	}
	return nil
}

// edited tells whether a workbook is there that is not, byte for byte, the one
// that the JSON beside it names as built. One that cannot be read counts as edited.
func edited(base string) bool {
	xlsx, err := os.ReadFile(base + ".xlsx")
	if err != nil {
		return !os.IsNotExist(err)
	}
	var known struct{ Built map[string]string }
	data, err := os.ReadFile(base + ".json")
	if err != nil || stdjson.Unmarshal(data, &known) != nil {
		return true
	}
	sum := sha256.Sum256(xlsx)
	return known.Built[filepath.Base(base)+".xlsx"] != hex.EncodeToString(sum[:])
}

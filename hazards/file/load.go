package file

import (
	"fmt"
	"io"
	"os"

	"standclear/limits/source"
)

// Open reads the assessment file at a path. The bytes are returned whenever
// they could be read, so that problems can be shown with their lines.
func Open(path string) (*Assessment, []byte, []source.Problem) {
	data, problem := read(path)
	if problem != nil {
		problem.Pos.File = path
		return nil, nil, []source.Problem{*problem}
	}
	a, problems := Load(path, data)
	return a, data, problems
}

// read reads a regular file of at most source.MaxSize bytes.
func read(path string) ([]byte, *source.Problem) {
	info, err := os.Stat(path) // before opening, since opening a pipe waits for its other end
	if err != nil {
		return nil, systemProblem(err)
	}
	if info.IsDir() {
		return nil, &source.Problem{Message: "this is a folder", Expected: "an assessment file"}
	}
	if !info.Mode().IsRegular() {
		return nil, &source.Problem{Message: "this is not a regular file", Expected: "an assessment file"}
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, systemProblem(err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, source.MaxSize+1))
	if err != nil {
		return nil, systemProblem(err)
	}
	if len(data) > source.MaxSize {
		return nil, &source.Problem{
			Message:  fmt.Sprintf("the file is larger than %d MiB", source.MaxSize>>20),
			Expected: "an assessment file; logs are named under `runs` and not copied into it",
		}
	}
	return data, nil
}

// systemProblem words the errors of the operating system.
func systemProblem(err error) *source.Problem {
	p := &source.Problem{Expected: "an assessment file that can be read"}
	switch {
	case os.IsNotExist(err):
		p.Message, p.Hint = "there is no such file", "look at the path and the folder you are in"
	case os.IsPermission(err):
		p.Message, p.Hint = "you have no right to read the file", "ask for that right, or copy the file"
	default:
		p.Message = "the file cannot be read: " + reason(err)
	}
	return p
}

// reason is the error without the path that the problem names already.
func reason(err error) string {
	if e, ok := err.(*os.PathError); ok {
		return e.Err.Error()
	}
	return err.Error()
}

// Load reads an assessment. All problems are returned at once, sorted by
// position; the assessment is nil unless there are none. The name stands in
// the positions.
func Load(name string, data []byte) (*Assessment, []source.Problem) {
	var ps source.Problems
	root := source.Parse(name, data, &ps)
	if root == nil {
		if ps.Len() == 0 {
			ps.Addf(source.Pos{File: name}, "there is nothing to read")
		}
		return nil, ps.List()
	}
	a := new(Assessment)
	source.Decode(root, a, &ps)
	if root.Kind == source.Mapping {
		c := newChecker(a, &ps)
		c.shapes()
		c.ids()
		c.references()
		c.amounts()
		c.givens()
		c.circles()
		c.results()
		a.index = c.ix
	}
	if ps.Len() > 0 {
		return nil, ps.List()
	}
	return a, nil
}

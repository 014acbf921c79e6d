package source

import "fmt"

// Pos is a place in a file. Line and Col are counted from 1, Col in characters; Line 0 means the file as a whole.
type Pos struct {
	File      string
	Line, Col int
}

// String gives file:line:col, without the parts that are not known.
func (p Pos) String() string {
	switch {
	case p.Line == 0:
		return p.File
	case p.File == "":
		return fmt.Sprintf("%d:%d", p.Line, p.Col)
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Col)
}

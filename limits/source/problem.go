package source

import (
	"cmp"
	"fmt"
	"slices"
)

// Problem is one thing wrong with a file: what was found, what was expected, and what to do.
type Problem struct {
	Pos      Pos
	Width    int    // characters to mark from Pos on; 0 is taken as 1
	Message  string // what was found
	Expected string // what belongs there; may be empty
	Hint     string // what to do, such as "did you mean `speed`?"; may be empty
}

// Problems collects problems. The zero value is ready; it is not for use by several goroutines at once.
type Problems struct {
	list []Problem
}

// Add puts a problem on the list.
func (ps *Problems) Add(p Problem) { ps.list = append(ps.list, p) }

// Addf puts a problem with only a message on the list.
func (ps *Problems) Addf(pos Pos, format string, args ...any) {
	ps.Add(Problem{Pos: pos, Message: fmt.Sprintf(format, args...)})
}

// Len is the number of problems added so far, repeated ones included.
func (ps *Problems) Len() int { return len(ps.list) }

// List gives the problems by file, line, column and message, each once.
func (ps *Problems) List() []Problem {
	list := slices.Clone(ps.list)
	slices.SortFunc(list, compare)
	return slices.Compact(list)
}

// compare orders by every field, so that the list does not depend on the order of adding.
func compare(a, b Problem) int {
	return cmp.Or(
		cmp.Compare(a.Pos.File, b.Pos.File),
		cmp.Compare(a.Pos.Line, b.Pos.Line),
		cmp.Compare(a.Pos.Col, b.Pos.Col),
		cmp.Compare(a.Message, b.Message),
		cmp.Compare(a.Expected, b.Expected),
		cmp.Compare(a.Hint, b.Hint),
		cmp.Compare(a.Width, b.Width),
	)
}

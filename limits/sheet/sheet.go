package sheet

import (
	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/table"
)

// Role is what a column of a sheet is.
type Role uint8

// Roles, in the order of a row.
const (
	Input    Role = iota + 1
	Override      // the user's own value of a step
	Constant      // not a column of the row: kept with its source
	Lookup
	Step
	Shown // a step rounded to the safe side
	Rule  // number of the first rule that speaks, 0: none
	Verd  // verdict
	Why   // reason of the verdict
	Use   // share of the limit that is used
)

// Column is one value of a sheet: a place in the row of Values and, but for
// constants, a column of the workbook.
type Column struct {
	Name     string // as in expressions
	Symbol   string // as shown
	Means    string
	Role     Role
	Type     expr.Type
	Slot     int
	Choice   []string // allowed texts
	Of       string   // table whose keys are the choices
	Optional bool
	List     string // the list this is a member of
	Member   int
	Bounds   Bounds
	Source   []string
	Standing table.Standing
	Clause   string
	Adjust   string
	Fixed    bool // an adjustable input at which others were taken: it is not said how far it may go the other way
	Decimals int  // of a Shown column
	Up       bool // of a Shown column: rounded up

	step   *step
	lookup *lookup
	of     *Column // Shown: its step; Override: its step
	number *Column // Input of words: the input that takes a number instead
}

// Bounds of an input. Above, From and To are physical, a value outside is an
// input error; AppliesFrom and AppliesTo are those of the method.
type Bounds struct {
	Above, From, To        *float64
	AppliesFrom, AppliesTo *float64
	Beyond                 string
}

// Sheet is one calculation.
type Sheet struct {
	ID       string
	Own      string // file of the user that it comes from, "" for one built in
	Sum      string // SHA-256 of that file
	Title    string
	About    string
	Group    string // contact, distance, functions, other or method
	Standard table.Standard
	Source   []string
	Standing table.Standing
	Columns  []*Column // in the order of the row; constants not among them
	Consts   []*Column
	Lists    map[string][]*Column
	Ranges   map[string][2]*Column
	Results  []*Column
	Slots    int
	Rules    []RuleText
	Examples []Example
	Differs  string // what is other than in the default edition, in words; "" of the default itself

	lib      *Library
	byName   map[string]*Column
	order    []*Column  // lookups, steps and shown values, in order of evaluation
	free     int        // how many of order, all look-ups, withhold rests on
	last     int        // first of the four slots rule, verdict, why, use
	withhold []*guarded // where one is true nothing is worked out
	rules    []*rule
	spoils   []*rule // after which results are not to be taken
	use      *guarded
	worse    []worseWay
	is       Verdict
	isWhy    string
	notes    []note
	start    []expr.Value // constants in place
}

// RuleText is one rule of a sheet in words.
type RuleText struct {
	Verdict Verdict
	Because string
	Firm    bool // no measurement overrules it
}

// Example points at a published case that this sheet reproduces. Kind is that of
// the case where the sheet says it: published, derived from published figures, or
// memory.
type Example struct{ From, ID, Kind string }

// PublishedChecks counts the published cases behind the sheet; those known from
// memory alone are none.
func (s *Sheet) PublishedChecks() int {
	n := 0
	for _, e := range s.Examples {
		if e.Kind != string(table.Memory) {
			n++
		}
	}
	return n
}

type step struct {
	cases []stepCase
	given *Column
}

type stepCase struct {
	cond, is *guarded // cond nil: otherwise
}

type rule struct {
	verdict Verdict
	because string
	first   bool // an input error: nothing else is meaningful
	firm    bool // no measurement overrules it
	weighs  bool // holds the results against something
	test    func([]expr.Value) bool
	formula []Piece
}

type note struct {
	cond *guarded
	text string
	open string
}

// Column gives a column or constant by the name it has in expressions, nil when
// there is none.
func (s *Sheet) Column(name string) *Column { return s.byName[name] }

// Input gives the column that takes what a user calls name: an input, or the
// user's own value of a step. Lists and ranges have several; see Lists, Ranges.
func (s *Sheet) Input(name string) *Column {
	if c := s.byName[name+givenSuffix]; c != nil {
		return c
	}
	if c := s.byName[name]; c != nil && c.Role == Input {
		return c
	}
	return nil
}

// InputNames lists what a user may give, in order.
func (s *Sheet) InputNames() []string {
	var names []string
	seen := map[string]bool{}
	for _, c := range s.Columns {
		if c.Role != Input && c.Role != Override {
			continue
		}
		n := c.Symbol
		if c.List != "" {
			n = c.List
		}
		if !seen[n] {
			seen[n] = true
			names = append(names, n)
		}
	}
	return names
}

const givenSuffix = "_given"

// Lookup is what the expressions of a sheet may name.
func (s *Sheet) Lookup(name string) (expr.Type, bool, bool) {
	if l, ok := s.Lists[name]; ok {
		return l[0].Type, true, true
	}
	if c, ok := s.byName[name]; ok {
		return c.Type, false, true
	}
	return expr.Type{}, false, false
}

func (s *Sheet) slot(name string) (int, int) {
	if l, ok := s.Lists[name]; ok {
		return l[0].Slot, len(l)
	}
	return s.byName[name].Slot, 1
}

var plain = quantity.One

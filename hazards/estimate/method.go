// Package estimate holds the methods of risk estimation. A method is data: its
// factors with the meaning of every score, the calculation as a sheet, and what
// each level asks for.
package estimate

import (
	"slices"

	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/limits/source"
)

// What a level asks for.
const (
	Required    = "required"
	Recommended = "recommended"
	None        = "none"
)

// What a factor stands for, and what a measure may lower.
const (
	Severity   = "severity"
	Exposure   = "exposure"
	Occurrence = "occurrence"
	Avoidance  = "avoidance"
)

// RequiredLevel says that the level before measures is the performance level
// that a safety function needs on which a measure rests.
const RequiredLevel = "required-level"

var performanceLevels = []string{"a", "b", "c", "d", "e"}

// Method is a method of risk estimation.
type Method struct {
	ID       string
	Family   string // id without what was chosen
	Title    string // with what was chosen
	Settings []Setting
	Sheet    *sheet.Sheet
	// Factors in the order of the sheet's inputs, each with its scores in words.
	Factors []Factor
	Actions []Action
	// Clause, edition and standing for the sources list.
	Standard, Clause, Standing string
	Source                     []string
	// IrreversibleFrom is the mildest score of severity at which harm cannot be undone.
	IrreversibleFrom string
	// Residual: the method also estimates what remains after measures.
	Residual bool
	// Gives is RequiredLevel where the levels are those that safety functions need.
	Gives string
	// Sum is the SHA-256 of the file of a house method, "" for those built in.
	Sum string
	Own string // that file, "" for those built in

	at          *source.Node // its id in the file
	calculation source.Pos
}

// Find gives a method by id, nil when there is none.
func Find(list []*Method, id string) *Method {
	for _, m := range list {
		if m.ID == id {
			return m
		}
	}
	return nil
}

// IDs lists the ids of methods.
func IDs(list []*Method) []string {
	var ids []string
	for _, m := range list {
		ids = append(ids, m.ID)
	}
	return ids
}

// Factor is one factor of a method with the meaning of each score.
type Factor struct {
	ID     string
	Title  string
	Lowers []string // severity, exposure, occurrence or avoidance: what lowers it
	Scores []Score  // worst first
	Note   string
}

// Score is one score of a factor.
type Score struct {
	Score string
	Means string
}

// Action says what a level asks for.
type Action struct {
	Level    string
	Action   string // required, recommended, none
	Means    string
	Standing string // how well this is known, "" where as the method
}

// Factor gives a factor by id, nil when there is none.
func (m *Method) Factor(id string) *Factor {
	for i := range m.Factors {
		if m.Factors[i].ID == id {
			return &m.Factors[i]
		}
	}
	return nil
}

// FactorIDs lists the factors in order.
func (m *Method) FactorIDs() []string {
	var ids []string
	for _, f := range m.Factors {
		ids = append(ids, f.ID)
	}
	return ids
}

// Asks says what a level asks for, nil for a level the method does not know.
func (m *Method) Asks(level string) *Action {
	for i := range m.Actions {
		if m.Actions[i].Level == level {
			return &m.Actions[i]
		}
	}
	return nil
}

// Action is the word for what a level asks for, "" for a level the method does
// not know.
func (m *Method) Action(level string) string {
	if a := m.Asks(level); a != nil {
		return a.Action
	}
	return ""
}

// May tells whether a measure that lowers this lowers the factor.
func (f *Factor) May(lower string) bool { return slices.Contains(f.Lowers, lower) }

// ScoreNames lists the scores of a factor, worst first.
func (f *Factor) ScoreNames() []string {
	var names []string
	for _, s := range f.Scores {
		names = append(names, s.Score)
	}
	return names
}

// numbers tells whether the scores are numbers.
func (f *Factor) numbers() bool { return len(f.Scores) > 0 && decimal(f.Scores[0].Score) }

// Find gives the score that is written, nil when the factor has no such score.
// 3 and 3.0 are one score.
func (f *Factor) Find(written string) *Score {
	for i := range f.Scores {
		s := &f.Scores[i]
		if s.Score == written || decimal(s.Score) && decimal(written) && number(s.Score) == number(written) {
			return s
		}
	}
	return nil
}

// Read turns a score as written into the value the sheet takes; ok is false
// when the factor has no such score.
func (f *Factor) Read(written string) (v expr.Value, ok bool) {
	s := f.Find(written)
	switch {
	case s == nil:
		return expr.Value{}, false
	case f.numbers():
		return expr.Value{Kind: expr.Number, Num: number(s.Score)}, true
	}
	return expr.Value{Kind: expr.Text, Text: s.Score}, true
}

// Means gives the meaning of a value, "" when it is no score.
func (f *Factor) Means(v expr.Value) string {
	for _, s := range f.Scores {
		if got, ok := f.Read(s.Score); ok && got == v {
			return s.Means
		}
	}
	return ""
}

// Irreversible tells whether harm of a severity cannot be undone: its score is
// IrreversibleFrom or a worse one.
func (m *Method) Irreversible(f *Factor, v expr.Value) bool {
	if !f.May(Severity) || m.IrreversibleFrom == "" || !v.Given() {
		return false
	}
	least := f.Find(m.IrreversibleFrom)
	for i := range f.Scores {
		if got, ok := f.Read(f.Scores[i].Score); ok && got == v {
			return true
		}
		if &f.Scores[i] == least {
			break
		}
	}
	return false
}

// Outcome is a method worked out for a set of scores.
type Outcome struct {
	Sheet  sheet.Outcome
	Score  string // "" where the method has no score, only a level
	Level  string
	Action string
	Done   bool // every factor is scored and the level is known
}

// Evaluate works the method out; scores are by factor, absent ones of Kind 0.
func (m *Method) Evaluate(scores []expr.Value) Outcome {
	vals := m.Sheet.Blank()
	done := true
	for i := range m.Factors {
		done = done && scores[i].Given()
		vals[m.Sheet.Column(m.Factors[i].ID).Slot] = scores[i]
	}
	o := Outcome{Sheet: m.Sheet.Evaluate(vals)}
	level := o.Sheet.Value("level")
	if c := m.Sheet.Column("score"); c != nil {
		o.Score = c.Show(o.Sheet.Value("score"))
	}
	o.Level, o.Action = level.Text, m.Action(level.Text)
	o.Done = done && o.Sheet.Verdict.Holds() && o.Action != ""
	return o
}

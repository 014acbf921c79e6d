// Package estimate holds the methods of risk estimation. A method is data: its
// factors with the meaning of every score, the calculation as a sheet, and what
// each level asks for.
package estimate

import (
	"standclear/limits/expr"
	"standclear/limits/sheet"
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

// Method is a method of risk estimation.
type Method struct {
	ID    string
	Title string
	Sheet *sheet.Sheet
	// Factors in the order of the sheet's inputs, each with its scores in words.
	Factors []Factor
	Actions []Action
	// Clause, edition and standing for the sources list.
	Standard, Clause, Standing string
	Source                     []string
	// IrreversibleFrom is the mildest score of severity at which harm cannot be undone.
	IrreversibleFrom string
}

// Factor is one factor of a method with the meaning of each score.
type Factor struct {
	ID     string
	Title  string
	Lowers string  // severity, exposure, occurrence or avoidance
	Scores []Score // worst first
	Note   string
}

// Score is one score of a factor.
type Score struct {
	Score string
	Means string
}

// Action says what a level asks for.
type Action struct {
	Level  string
	Action string // required, recommended, none
	Means  string
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

// Action says what a level asks for, "" for a level the method does not know.
func (m *Method) Action(level string) string {
	for _, a := range m.Actions {
		if a.Level == level {
			return a.Action
		}
	}
	return ""
}

// ScoreNames lists the scores of a factor, worst first.
func (f *Factor) ScoreNames() []string {
	var names []string
	for _, s := range f.Scores {
		names = append(names, s.Score)
	}
	return names
}

// Read turns a score as written into the value the sheet takes; ok is false
// when the factor has no such score. 3 and 3.0 are one score.
func (m *Method) Read(f *Factor, written string) (v expr.Value, ok bool) {
	number := m.Sheet.Column(f.ID).Type.Kind == expr.Number
	for _, s := range f.Scores {
		if !number && s.Score == written {
			return expr.Value{Kind: expr.Text, Text: written}, true
		}
		if number && value(s.Score) == value(written) {
			return expr.Value{Kind: expr.Number, Num: value(s.Score)}, true
		}
	}
	return expr.Value{}, false
}

// Irreversible tells whether harm of a severity cannot be undone: its score is
// IrreversibleFrom or a worse one.
func (m *Method) Irreversible(f *Factor, v expr.Value) bool {
	if f.Lowers != Severity || !v.Given() {
		return false
	}
	for _, s := range f.Scores {
		if got, ok := m.Read(f, s.Score); ok && got == v {
			return true
		}
		if s.Score == m.IrreversibleFrom {
			break
		}
	}
	return false
}

// Outcome is a method worked out for a set of scores.
type Outcome struct {
	Sheet  sheet.Outcome
	Score  string
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

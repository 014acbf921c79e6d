// Package hazards turns an assessment file into one format-free Result: loading,
// expanding, calculating, estimating and checking end here. Writers for text,
// JSON, XLSX and PDF hold no rule of the trade.
package hazards

import (
	"standclear/hazards/estimate"
	"standclear/hazards/file"
	"standclear/hazards/identify"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/limits/source"
)

// Document states, in the words of the contract.
const (
	NotReady       = "not-ready"
	ReadyToMeasure = "ready-to-measure"
	ReadyForReview = "ready-for-review"
	Reviewed       = "reviewed"
)

// States of a hazard row.
const (
	RowOpen        = "open"
	RowProvisional = "provisional"
	RowReduced     = "reduced"
	RowAccepted    = "accepted"
	RowRefused     = "refused"
	RowOutOfDate   = "out-of-date"
)

// States of a validation point.
const (
	PointPlanned   = "planned"
	PointMissing   = "missing"
	PointPassed    = "passed"
	PointFailed    = "failed"
	PointOutOfDate = "out-of-date"
)

// Result is everything the program has to say about one assessment, in order.
type Result struct {
	File        *file.Assessment
	Library     *sheet.Library
	Name        string // base name of outputs
	Version     string // version of the program
	InputSHA256 string // of the assessment file's bytes
	Fingerprint string // of the whole document

	Files []file.Read // what it was built from, the assessment first

	Document string // state
	Counts   Counts
	Facts    []Fact
	Contacts []Contact
	Checks   []Check
	Method   *Method
	Rows     []Row
	Points   []Point
	Findings []Finding
	Open     []OpenPoint
	Against  []Stand // what stands against release, worst first
	Review   []ReviewItem
	HandOver HandOver // what leaves the house with the cell
	Sources  []SourceUse
	Ladders  []Ladder              // speeds by body region, free contact, unmeasured
	Speeds   []MeasuredSpeed       // of released tasks
	Hazards  []identify.Suggestion // entries of the catalogue that apply, in its order
	Nominal  []Check               // beside checks with tolerances: the same with every value as written; they count nowhere

	OtherEditions []Check // the checks by other editions of their sheets; they count nowhere

	facts, contacts, checks, nominal map[string]int // indexes by path and id
}

// Fact gives a fact by path, nil when there is none.
func (r *Result) Fact(path string) *Fact {
	if i, ok := r.facts[path]; ok {
		return &r.Facts[i]
	}
	return nil
}

// Contact gives a contact by id, nil when there is none.
func (r *Result) Contact(id string) *Contact {
	if i, ok := r.contacts[id]; ok {
		return &r.Contacts[i]
	}
	return nil
}

// Check gives a check or function by id, nil when there is none. Checks of
// contacts are found by their full id.
func (r *Result) Check(id string) *Check {
	if i, ok := r.checks[id]; ok {
		return &r.Checks[i]
	}
	return nil
}

// Counts are the numbers of the first page, in the order they are printed.
type Counts struct {
	Rows        []Count // rows by state
	Checks      []Count // checks by verdict
	Findings    int
	Open        int
	Hazards     int // entries of the catalogue that apply
	OpenHazards int // of those, not answered
}

// Count is how many of one word.
type Count struct {
	Word string
	N    int
}

// Directions in which a value gets worse.
const (
	Up   = "up"   // the greater, the worse
	Down = "down" // the smaller, the worse
)

// Fact is one value of the cell that other places point at by Path: every
// quantity of the file, and the edges of tools and parts as texts.
type Fact struct {
	Path   string // id.key, unique
	Item   string // id of the item
	Kind   string // kind of item: robot, tool, part, safeguard, setting, stopping, contact, function …
	Key    string // key of the value
	Means  string // what it is, in words
	Value  expr.Value
	Unit   string
	Tol    float64 // tolerance, in Unit; 0: none
	HasTol bool
	Used   expr.Value // the worse end where the kind of the value says which that is, else Value; checks find their own
	Low    expr.Value // ends of the tolerance, Value where there is none
	High   expr.Value
	Origin string // measured, datasheet, standard, assumed, configuration
	Ref    string
	Pos    source.Pos
	Worse  string // Up, Down: the end that Used is at; "": checks alone say
	Exact  string // canonical exact text, for evidence
	Terms  []Term // of a path or a sum: what Used adds up; empty: typed in
}

// Contact is one contact with its checks; the worst governs.
type Contact struct {
	Spec    *file.Contact
	ID      string
	Task    string
	Class   string // clamped, free, jaws
	Shown   bool   // free: the gap shows it
	Areas   []string
	Tools   []string
	Parts   []string
	Robot   string // whose mass moves, "" where it is not known
	Checks  []int  // indexes into Result.Checks
	Worst   int    // index of the governing check, -1: none
	Verdict sheet.Verdict
	Why     string
	Advice  []Advice // what would make all of its checks hold
}

// Check is one calculated check.
type Check struct {
	ID      string // contact/area/tool/part, with /point where the contact has several, or the id of the check
	Of      string // id of the contact, check or function it comes from
	Task    string
	Sheet   *sheet.Sheet
	Inputs  []Input
	Outcome *sheet.Outcome
	Verdict sheet.Verdict // after evidence: may be within-measured
	Why     string
	Area    string // contact checks
	Tool    string
	Part    string
	Spot    string   // point of the contact, "" where it is one
	Model   bool     // rests on the contact model and awaits measurement
	Shadow  bool     // shown beside (clamped values of a contact claimed free); never governs
	Points  []string // validation points that cover it
	Open    []string // open points of its inputs and tables
	Note    string
	Pos     source.Pos
	Advice  []Advice // what would make it hold
	Corner  string   // in words: the ends of tolerances that it is worked out at, "" where it has none
	Ignored []string // inputs that are written and that the sheet knows in another edition only

	nominal *Check // with every value as written, nil where no tolerance moves it

	lacks  []string // why inputs lead to no value
	shares []string // paths of the shares of the task that chose a point of the stopping grid
	origin string   // the weakest of all inputs
}

// Input is one input of a check as it was used. Inputs that are not given are
// left out, unless something was written that leads to no value.
type Input struct {
	Name    string       // column of the sheet; of a list its name
	Value   expr.Value   // in the unit of the sheet column; Kind 0: no value
	List    []expr.Value // of a list: its members
	Members []Input      // of a list: one for each member, by column (PFH_1, PFH_2)
	Terms   []Term       // where it comes from, in order; empty for words typed in
	Pick    string       // how Terms make the value: "" added up, "max" the greatest, "worst" the worst edge
	Origin  string       // the weakest of its terms; "" for words
	Text    string       // as written, for words
	Ref     string       // where the value is written, of a single term or of numbers typed in
	Pos     source.Pos

	With *Together  // of a rate or level of a part: what it waits for, nil for nothing
	Held expr.Value // the value once that is there

	End       string     // Up, Down: the end of its tolerances that Value is at; "": neither
	Nominal   expr.Value // without tolerances, those behind results of other checks included
	Low, High expr.Value // ends of its own tolerances, not given where it has none

	Typed string // origin of the numbers typed in, "" when there are none
	exact string // canonical exact text of the value, where numbers were typed in
	worse string // direction in which the sheet expects the value to get worse, "" where it does not say
	wider bool   // an end of a range: its tolerance makes the range wider

	rest   expr.Value   // without its own tolerances
	lacks  string       // why a result of another check gives no value
	others []expr.Value // with other corners of tolerances behind results of other checks
	waived bool         // of a result: the check may do without it
}

// Ways in which the terms of an input make its value.
const (
	PickMax   = "max"
	PickWorst = "worst"
)

// Term is a fact by path, a result of another check, or a number typed in.
type Term struct {
	Path   string  // "" for a literal
	Check  string  // of a result: id of the check that works it out
	Column string  // of a result: name of its column in the sheet of that check
	Value  float64 // literal, in the unit of what the term belongs to
	Tol    float64 // tolerance of a literal
	Factor float64 // from the unit of fact or result to the unit of what the term belongs to
}

// Method is the method of risk estimation in use.
type Method = estimate.Method

// Factor is one factor of a method with the meaning of each score.
type Factor = estimate.Factor

// Row is one hazard row.
type Row struct {
	Spec        *file.Hazard
	ID          string
	Task        string
	People      []string
	Before      Estimate
	After       Estimate
	Status      string
	Why         string
	Rests       []string // ids of contacts, checks and functions it rests on, in order
	Points      []string // ids of validation points it rests on, in order
	Findings    []string // ids of findings about it
	Evidence    []string // lines "path = canonical value", sorted
	Fingerprint string
}

// Estimate is a scored set of factors.
type Estimate struct {
	Scores  []expr.Value // by factor; Kind 0: missing
	Outcome *sheet.Outcome
	Score   string
	Level   string
	Action  string
	Done    bool
	Of      string // another method, whose scores are written; then none counts
}

// Point is a validation point, planned or done.
type Point struct {
	ID      string
	Of      string
	Spec    *file.Point // nil: planned by the program
	Method  string
	State   string
	Why     string
	Limit   string // acceptance limit in words with unit
	With    string // settings, load, part, pose
	Verdict sheet.Verdict
}

// Finding is a rule of the trade that something breaks.
type Finding struct {
	ID      string // stable id of the rule
	About   string // id of the row, contact, check …
	Message string
	WayOut  string
	Pos     source.Pos
}

// OpenPoint is something that is not known well enough.
type OpenPoint struct {
	Kind    string // assumed, memory, practice, override, estimate, not-decided, needs-copy
	About   string // path, check or table cell
	Message string
	Pos     source.Pos
}

// ReviewItem is something a licensed person must look at.
type ReviewItem struct {
	Place, Clause, Who, Because, Standing string
	HandOver, Sources                     []string // papers to hand over; keys of public sources
}

// SourceUse is a source the results rest on.
type SourceUse struct {
	Key, Title, Address, Used, Standing string
}

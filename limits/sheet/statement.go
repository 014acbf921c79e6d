package sheet

import (
	"standclear/limits/source"
	"standclear/limits/table"
)

// statement is a calculation sheet as written in YAML.
type statement struct {
	source.Item
	ID        string                 `yaml:"id,required"`
	Title     string                 `yaml:"title,required"`
	About     string                 `yaml:"about"`
	Group     string                 `yaml:"group,required" choice:"contact|distance|functions|other|method"`
	Standard  table.Standard         `yaml:"standard,required"`
	Source    []string               `yaml:"source"`
	Standing  string                 `yaml:"standing,required" choice:"confirmed|single|practice|memory"`
	Inputs    source.Map[inputStmt]  `yaml:"inputs,required"`
	NeedsOne  [][]string             `yaml:"needs_one"`
	Shared    []string               `yaml:"shared"`
	Constants source.Map[constStmt]  `yaml:"constants"`
	Lookups   source.Map[lookupStmt] `yaml:"lookups"`
	Withhold  []string               `yaml:"withhold"`
	Steps     source.Map[stepStmt]   `yaml:"steps"`
	Rules     []ruleStmt             `yaml:"rules"`
	Verdict   verdictStmt            `yaml:"verdict,required"`
	Results   []string               `yaml:"results,required"`
	Worse     source.Map[string]     `yaml:"worse"` // up or down: where a result gets worse that nothing rounds to the safe side
	Notes     []noteStmt             `yaml:"notes"`
	Examples  []exampleStmt          `yaml:"examples"`
	Differs   string                 `yaml:"differs"` // of an edition besides the default: what is other in it
}

// inputStmt: above, from and to are physical bounds, a value outside is an
// input error; the applies_ bounds are those of the method.
type inputStmt struct {
	source.Item
	Unit      string   `yaml:"unit"`
	Means     string   `yaml:"means,required"`
	Above     *float64 `yaml:"above"`
	From      *float64 `yaml:"from"`
	To        *float64 `yaml:"to"`
	AppliesTo *float64 `yaml:"applies_to"`
	AppliesOn *float64 `yaml:"applies_from"`
	Beyond    string   `yaml:"beyond"`
	Choice    []string `yaml:"choice"`
	Of        string   `yaml:"of"`
	Number    string   `yaml:"number"` // the input that takes a number typed here, of the same thing
	Optional  bool     `yaml:"optional"`
	Range     bool     `yaml:"range"`
	List      int      `yaml:"list"`
	Adjust    string   `yaml:"adjust" choice:"up|down"`
	Room      string   `yaml:"room" choice:"never"` // how far it may go is not said: other inputs were taken at it
}

// constStmt is a constant with its source.
type constStmt struct {
	source.Item
	Is       string   `yaml:"is,required"`
	Means    string   `yaml:"means,required"`
	Source   []string `yaml:"source"`
	Standing string   `yaml:"standing,required" choice:"confirmed|single|practice|memory"`
	Clause   string   `yaml:"clause"`
}

type lookupStmt struct {
	source.Item
	Table  string             `yaml:"table,required"`
	Column string             `yaml:"column"`
	By     source.Map[string] `yaml:"by,required"`
	Means  string             `yaml:"means"`
}

type stepStmt struct {
	source.Item
	Symbol string     `yaml:"symbol"`
	Unit   string     `yaml:"unit"`
	Means  string     `yaml:"means,required"`
	Is     string     `yaml:"is"`
	Cases  []caseStmt `yaml:"cases"`
	Given  *givenStmt `yaml:"given"`
	Shown  *shownStmt `yaml:"shown"`
	Clause string     `yaml:"clause"`

	Source   []string `yaml:"source"` // source and standing, where they are not those of the sheet
	Standing string   `yaml:"standing" choice:"confirmed|single|practice|memory"`
}

type caseStmt struct {
	source.Item
	If string `yaml:"if"`
	Is string `yaml:"is,required"`
}

// givenStmt lets the user put in the value of a step; its bounds are physical.
type givenStmt struct {
	source.Item
	Above  *float64 `yaml:"above"`
	From   *float64 `yaml:"from"`
	To     *float64 `yaml:"to"`
	Note   string   `yaml:"note,required"`
	Wanted bool     `yaml:"wanted"` // the own value is what the method wants, no departure from it
}

// shownStmt is the safe-side display beside the exact value.
type shownStmt struct {
	source.Item
	Round string `yaml:"round,required" choice:"up|down"`
	To    int    `yaml:"to"` // decimals, negative for tens
}

type ruleStmt struct {
	source.Item
	Verdict string `yaml:"verdict,required" choice:"not-permitted|over|outside|needs-copy|not-decided"`
	If      string `yaml:"if,required"`
	Because string `yaml:"because,required"`
	Firm    bool   `yaml:"firm"` // no measurement overrules it
}

type verdictStmt struct {
	source.Item
	Holds string `yaml:"holds"`
	Over  string `yaml:"over"`
	Is    string `yaml:"is" choice:"within|within-model"`
	Why   string `yaml:"why"`
	Use   string `yaml:"use"`
}

type noteStmt struct {
	source.Item
	If   string `yaml:"if"`
	Text string `yaml:"text,required"`
	Open string `yaml:"open" choice:"estimate|override|memory"` // also an open point of this kind
}

type exampleStmt struct {
	source.Item
	From string `yaml:"from,required"`
	ID   string `yaml:"id,required"`
	Kind string `yaml:"kind" choice:"published|derived|memory"` // of the case; published if not said
}

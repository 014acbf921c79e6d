package hazards

import (
	"cmp"
	"io/fs"
	"regexp"
	"slices"
	"strings"

	"standclear/hazards/measure"
	"standclear/limits/source"
	"standclear/limits/table"
)

// findingsFile is where the rules stand in a folder laid out as templates/ is.
const findingsFile = "words/findings.yaml"

// FindingText is one rule of the trade in words.
type FindingText struct {
	source.Item
	ID       string              // its key
	Title    string              `yaml:"title,required" means:"short name"`
	Rule     string              `yaml:"rule,required" means:"the rule in own words"`
	Why      string              `yaml:"why,required" means:"reason of the rule"`
	WayOut   string              `yaml:"way_out,required" means:"what to do"`
	Message  string              `yaml:"message,required" means:"message with {places} to fill in"`
	Source   string              `yaml:"source,required" means:"standard and clause, or practice"`
	Public   []string            `yaml:"public" means:"keys of public sources"`
	Standing table.Standing      `yaml:"standing,required" choice:"confirmed|single|practice|memory" means:"how well it is known"`
	Since    string              `yaml:"since,required" means:"year and month of the rule"`
	Values   source.Map[float64] `yaml:"values" means:"numbers of the rule"`
	Kinds    []string            `yaml:"kinds" means:"kinds that the rule looks at"`
	Levels   source.Map[string]  `yaml:"levels" choice:"a|b|c|d|e" means:"performance levels of the rule, by kind of function or by category"`
	Groups   source.Map[group]   `yaml:"groups" means:"groups of people that the rule looks for, in words"`
	Refuses  source.YesNo        `yaml:"refuses" means:"yes: forbids acceptance of the row"`
}

// group is a group of people; a kind of people or a kind of task speaks of it.
type group struct {
	source.Item
	People []string `yaml:"people,required" means:"kinds of people, one of which is there"`
	Tasks  []string `yaml:"tasks" means:"kinds of task, one of which is there"`
}

// FindingTexts are the rules in the order of the data, and the kinds of measure
// that some of them look at.
type FindingTexts struct {
	List  []*FindingText
	Kinds measure.Kinds
}

// Get gives a rule by id, nil when there is none.
func (w *FindingTexts) Get(id string) *FindingText {
	for _, t := range w.List {
		if t.ID == id {
			return t
		}
	}
	return nil
}

// numbers are the numbers that rules in Go ask for.
var numbers = map[string][]string{
	"EV-07": {"share"},
	"LI-08": {"most"},
	"FU-09": {"category"},
	"DI-08": {"detection", "distance", "fine_detection", "fine_distance"},
	"DI-30": {"few"},
}

// listed are the rules in Go that look at kinds of the data.
var listed = []string{"CO-07", "DI-11", "DI-21", "DI-25", "FU-07", "FU-08", "FU-15", "FU-19", "FU-21"}

// levelled are the rules in Go that hold a level against one of the data.
var levelled = []string{"FU-09", "FU-10", "FU-27"}

// lacking reports numbers and kinds that are not in the data; 0 instead of a
// number would judge by another rule, and a rule without kinds looks at nothing.
func (t *FindingText) lacking(ps *source.Problems) {
	if slices.Contains(listed, t.ID) && len(t.Kinds) == 0 {
		ps.Add(t.Node().Problem("rule `"+t.ID+"` looks at no kinds", "`kinds`", ""))
	}
	if t.ID == "LI-05" && len(t.Groups) == 0 {
		ps.Add(t.Node().Problem("rule `"+t.ID+"` looks for nobody", "`groups`", ""))
	}
	if slices.Contains(levelled, t.ID) && len(t.Levels) == 0 {
		ps.Add(t.Node().Problem("rule `"+t.ID+"` has no levels", "`levels`", ""))
	}
	for _, name := range numbers[t.ID] {
		if !slices.ContainsFunc(t.Values, func(v source.Entry[float64]) bool { return v.Key == name }) {
			ps.Add(t.Node().Problem("rule `"+t.ID+"` lacks a number", "`"+name+"` under `values`", ""))
		}
	}
}

// value is a number of a rule, which loading has found to be there.
func (w *FindingTexts) value(id, name string) float64 {
	if t := w.Get(id); t != nil {
		for _, v := range t.Values {
			if v.Key == name {
				return v.Value
			}
		}
	}
	return 0
}

// level is a performance level of a rule by key, "" where it names none.
func (w *FindingTexts) level(id, key string) string {
	if t := w.Get(id); t != nil {
		for _, l := range t.Levels {
			if l.Key == key {
				return l.Value
			}
		}
	}
	return ""
}

// groups are the groups of people that a rule looks for.
func (w *FindingTexts) groups(id string) source.Map[group] {
	if t := w.Get(id); t != nil {
		return t.Groups
	}
	return nil
}

// looksAt says whether a kind is one that a rule looks at.
func (w *FindingTexts) looksAt(id, kind string) bool {
	t := w.Get(id)
	return t != nil && slices.Contains(t.Kinds, kind)
}

// Refuses says whether a finding of a rule forbids acceptance of the row that it
// is about, or that rests on what it is about.
func (w *FindingTexts) Refuses(id string) bool {
	t := w.Get(id)
	return t != nil && t.Refuses == source.Yes
}

var findingID = regexp.MustCompile(`^(EV|CO|DI|FU|DE|ME|LI|SO)-[0-9]{2}$`)

// LoadFindingTexts reads the rules and the kinds of measure from a folder laid
// out as templates/ is.
func LoadFindingTexts(fsys fs.FS) (*FindingTexts, []source.Problem) {
	var ps source.Problems
	w := new(FindingTexts)
	data, err := fs.ReadFile(fsys, findingsFile)
	if err != nil {
		ps.Addf(source.Pos{File: findingsFile}, "cannot read the rules: %v", err)
		return w, ps.List()
	}
	var st struct {
		source.Item
		Findings source.Map[FindingText] `yaml:"findings,required" means:"rules by id"`
	}
	source.Decode(source.Parse(findingsFile, data, &ps), &st, &ps)
	for i := range st.Findings {
		t := &st.Findings[i].Value
		t.ID = st.Findings[i].Key
		if !findingID.MatchString(t.ID) {
			ps.Addf(st.Findings[i].Pos, "`%s` is no id of a rule; write a family and two digits, such as `EV-01`", t.ID)
		}
		t.lacking(&ps)
		w.List = append(w.List, t)
	}
	kinds, problems := measure.Load(fsys)
	w.Kinds = kinds
	return w, append(ps.List(), problems...)
}

// Findings holds the rules of the trade against a result. The result has to be
// worked out as far as checks, points and rows; findings come in the order of the file.
func Findings(r *Result, w *FindingTexts) []Finding {
	f := newFinder(r, w)
	f.evidence()
	f.contacts()
	f.distances()
	f.functions()
	f.control()
	f.decisions()
	f.decided()
	f.measures()
	f.limits()
	f.signOff()
	slices.SortStableFunc(f.list, func(a, b Finding) int {
		return cmp.Or(cmp.Compare(a.Pos.Line, b.Pos.Line), cmp.Compare(a.Pos.Col, b.Pos.Col), cmp.Compare(a.ID, b.ID))
	})
	return f.list
}

// finder collects findings, one method for each rule.
type finder struct {
	r      *Result
	w      *FindingTexts
	list   []Finding
	tested map[string]bool // ids that a validation point is about

	intruded map[string]worked // intrusion distances by safeguard, once worked out
}

func newFinder(r *Result, w *FindingTexts) *finder {
	f := &finder{r: r, w: w, tested: map[string]bool{}}
	for i := range r.File.Validation {
		f.tested[r.File.Validation[i].Of] = true
	}
	return f
}

// raise adds a finding. fill holds names and values for the places of its message.
func (f *finder) raise(id, about string, pos source.Pos, fill ...string) {
	n := Finding{ID: id, About: about, Message: id, Pos: pos}
	if t := f.w.Get(id); t != nil {
		pairs := make([]string, len(fill))
		for i := range fill {
			pairs[i] = fill[i]
			if i%2 == 0 {
				pairs[i] = "{" + fill[i] + "}"
			}
		}
		n.Message, n.WayOut = strings.NewReplacer(pairs...).Replace(t.Message), t.WayOut
	}
	f.list = append(f.list, n)
}

// few lists names, and how many more there are.
func few(names []string) string {
	const most = 4
	if len(names) <= most {
		return and(names)
	}
	return strings.Join(names[:most], ", ") + " and " + count(len(names)-most, "other")
}

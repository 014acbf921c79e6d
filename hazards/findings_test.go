package hazards

import (
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"standclear/hazards/file"
	"standclear/hazards/place"
	"standclear/limits/sheet"
	"standclear/limits/source"
	"standclear/templates"
)

const ruleCases = "../testdata/rules/"

// ruleCase changes the base in one way and names every finding that follows.
type ruleCase struct {
	source.Item
	Name   string   `yaml:"name,required"`
	Edits  []edit   `yaml:"edits,required"`
	Raises []string `yaml:"raises"`
	Near   []string `yaml:"near"` // rules that a near miss comes close to and that keep quiet
	Says   string   `yaml:"says"` // part of one of the messages
}

type edit struct {
	source.Item
	Find string `yaml:"find,required"`
	Put  string `yaml:"put"`
}

func ruleFile(t *testing.T, path string) []ruleCase {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var st struct {
		source.Item
		Cases []ruleCase `yaml:"cases,required"`
	}
	var ps source.Problems
	source.Decode(source.Parse(path, data, &ps), &st, &ps)
	if ps.Len() > 0 {
		t.Fatal(ps.List())
	}
	return st.Cases
}

func ruleFiles(t *testing.T) []string {
	t.Helper()
	list, err := filepath.Glob(ruleCases + "find-*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return slices.DeleteFunc(list, func(p string) bool { return filepath.Base(p) == "find-base.yaml" })
}

func ruleBase(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile(ruleCases + "find-base.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func ruleLibrary(t *testing.T) (*sheet.Library, *FindingTexts) {
	t.Helper()
	lib, problems := sheet.Load(templates.FS)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	w, problems := LoadFindingTexts(templates.FS)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return lib, w
}

func assessText(t *testing.T, text string, lib *sheet.Library) *Result {
	t.Helper()
	a, problems := file.Load("case.yaml", []byte(text))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	r, problems := Assess(a, []byte(text), lib, Options{Name: "case", Version: "test"})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return r
}

func idsOf(list []Finding) []string {
	ids := []string{}
	for _, f := range list {
		ids = append(ids, f.ID)
	}
	slices.Sort(ids)
	return ids
}

func TestNoRuleSpeaksAgainstTheBase(t *testing.T) {
	lib, w := ruleLibrary(t)
	for _, f := range Findings(assessText(t, ruleBase(t), lib), w) {
		t.Errorf("%s %s: %s", f.ID, f.About, f.Message)
	}
}

func TestRules(t *testing.T) {
	lib, w := ruleLibrary(t)
	base := ruleBase(t)
	for _, path := range ruleFiles(t) {
		for _, c := range ruleFile(t, path) {
			t.Run(filepath.Base(path)+"/"+c.Name, func(t *testing.T) {
				text := base
				for _, e := range c.Edits {
					if n := strings.Count(text, e.Find); n != 1 {
						t.Fatalf("%q stands %d times in the base", e.Find, n)
					}
					text = strings.Replace(text, e.Find, e.Put, 1)
				}
				got := Findings(assessText(t, text, lib), w)
				checkFindings(t, got, c)
			})
		}
	}
}

// openPlace is a place of a message that nothing filled in.
var openPlace = regexp.MustCompile(`\{[a-z]+\}`)

func checkFindings(t *testing.T, got []Finding, c ruleCase) {
	t.Helper()
	want := slices.Clone(c.Raises)
	slices.Sort(want)
	if ids := idsOf(got); !slices.Equal(ids, want) {
		t.Errorf("raises %q, want %q", ids, want)
	}
	said := c.Says == ""
	for _, f := range got {
		t.Logf("%s %s %v: %s", f.ID, f.About, f.Pos, f.Message)
		said = said || strings.Contains(f.Message, c.Says)
		if openPlace.MatchString(f.Message) || f.WayOut == "" || f.About == "" || f.Pos.Line == 0 {
			t.Errorf("incomplete: %+v", f)
		}
	}
	if !said {
		t.Errorf("no message says %q", c.Says)
	}
}

// Every rule has a pair: a case that raises it, and a near miss that does not.
// Cases name no rule that is none.
func TestEveryRuleHasItsPair(t *testing.T) {
	_, w := ruleLibrary(t)
	raised, missed := map[string]bool{}, map[string]bool{}
	for _, path := range ruleFiles(t) {
		for _, c := range ruleFile(t, path) {
			for _, id := range c.Raises {
				raised[id] = true
			}
			for _, id := range c.Near {
				missed[id] = true
				if slices.Contains(c.Raises, id) {
					t.Errorf("%s: raises %s and is no near miss of it", c.Name, id)
				}
			}
			for _, id := range slices.Concat(c.Raises, c.Near) {
				if w.Get(id) == nil {
					t.Errorf("%s: %s is no rule", c.Name, id)
				}
			}
		}
	}
	for _, rule := range w.List {
		if !raised[rule.ID] {
			t.Errorf("no case raises %s", rule.ID)
		}
		if !missed[rule.ID] {
			t.Errorf("no near miss of %s", rule.ID)
		}
	}
}

// A kind that a rule looks at is one that the file can hold, since a slip would
// leave it out in silence.
func TestRulesLookAtKindsOfTheFile(t *testing.T) {
	_, w := ruleLibrary(t)
	functions, safeguards := choicesOf(reflect.TypeFor[file.Function](), "Kind"), choicesOf(reflect.TypeFor[file.Safeguard](), "Kind")
	tool := reflect.TypeFor[file.Tool]()
	known := map[string][]string{"DI-11": functions, "DI-21": safeguards, "DI-25": choicesOf(reflect.TypeFor[file.Tool](), "Kind"), "FU-07": functions, "FU-08": safeguards, "FU-09": functions, "FU-10": functions, "FU-27": choicesOf(reflect.TypeFor[file.FunctionPart](), "Category"), "CO-07": choicesOf(tool, "Edges"), "FU-15": safeguards,
		"FU-19": choicesOf(reflect.TypeFor[file.Task](), "Kind"), "FU-21": slices.Concat(choicesOf(tool, "Kind"), choicesOf(tool, "Energies"))}
	for _, rule := range w.List {
		kinds := slices.Clone(rule.Kinds)
		for _, e := range rule.Levels {
			kinds = append(kinds, e.Key)
		}
		for _, kind := range kinds {
			if !slices.Contains(known[rule.ID], kind) {
				t.Errorf("%s looks at %s, which is none of %q", rule.ID, kind, known[rule.ID])
			}
		}
	}
}

// The groups of people that a rule looks for are kinds of the file.
func TestGroupsAreKindsOfTheFile(t *testing.T) {
	_, w := ruleLibrary(t)
	people, tasks := choicesOf(reflect.TypeFor[file.People](), "Kind"), choicesOf(reflect.TypeFor[file.Task](), "Kind")
	for _, g := range w.groups("LI-05") {
		for _, kind := range g.Value.People {
			if !slices.Contains(people, kind) {
				t.Errorf("%s: %s is no kind of people", g.Key, kind)
			}
		}
		for _, kind := range g.Value.Tasks {
			if !slices.Contains(tasks, kind) {
				t.Errorf("%s: %s is no kind of task", g.Key, kind)
			}
		}
	}
}

func choicesOf(t reflect.Type, name string) []string {
	f, _ := t.FieldByName(name)
	return strings.Split(f.Tag.Get("choice"), "|")
}

// The program raises the rules of the data, all of them and no others.
func TestProgramAndDataNameTheSameRules(t *testing.T) {
	_, w := ruleLibrary(t)
	files, err := filepath.Glob("rule_*.go")
	if err != nil || len(files) < 6 {
		t.Fatal(files, err)
	}
	used := map[string]bool{}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, id := range regexp.MustCompile(`"((EV|CO|DI|FU|DE|ME|LI|SO)-[0-9]{2})"`).FindAllStringSubmatch(string(data), -1) {
			used[id[1]] = true
			if w.Get(id[1]) == nil {
				t.Errorf("%s raises %s, which is no rule", name, id[1])
			}
		}
	}
	for _, rule := range w.List {
		if !used[rule.ID] {
			t.Errorf("nothing raises %s", rule.ID)
		}
	}
}

func TestRuleSourcesAreListed(t *testing.T) {
	lib, w := ruleLibrary(t)
	for _, rule := range w.List {
		for _, key := range rule.Public {
			if _, ok := lib.Source(key); !ok {
				t.Errorf("%s: no source %s", rule.ID, key)
			}
		}
		if rule.Source == "practice" && rule.Standing != "practice" {
			t.Errorf("%s: practice with standing %s", rule.ID, rule.Standing)
		}
	}
}

// Words that are never printed as a result.
func TestRulesPromiseNothing(t *testing.T) {
	_, w := ruleLibrary(t)
	never := regexp.MustCompile(`(?i)\b(safe|certified|compliant)\b`)
	for _, rule := range w.List {
		for _, text := range []string{rule.Title, rule.Rule, rule.Why, rule.WayOut, rule.Message} {
			if word := never.FindString(text); word != "" {
				t.Errorf("%s says %q: %s", rule.ID, word, text)
			}
		}
	}
}

func TestLoadFindingTextsReports(t *testing.T) {
	good := `{title: t, rule: r, why: w, way_out: o, message: m, source: practice, standing: practice, since: 2026-11}`
	for name, data := range map[string]string{
		"id":          "findings:\n  X-1: " + good + "\n",
		"unknown key": "findings:\n  EV-01: " + strings.Replace(good, "title", "heading", 1) + "\n",
		"twice":       "findings:\n  EV-01: " + good + "\n  EV-01: " + good + "\n",
		"empty":       "",
	} {
		if _, problems := LoadFindingTexts(fstest.MapFS{"words/findings.yaml": {Data: []byte(data)}}); len(problems) < 2 { // the kinds of measure are missing as well
			t.Errorf("%s: %v", name, problems)
		}
	}
}

func TestRefuses(t *testing.T) {
	_, w := ruleLibrary(t)
	for id, want := range map[string]bool{"DE-01": true, "DE-02": true, "DE-03": true, "EV-01": false, "FU-01": true, "FU-07": true, "FU-08": false, "CO-06": true, "CO-05": false, "LI-02": false, "no-rule": false} {
		if w.Refuses(id) != want {
			t.Errorf("%s refuses: %v", id, !want)
		}
	}
}

// What is wrong with a function is wrong with the rows that rest on it.
func TestFindingsOfAFunctionReachItsRows(t *testing.T) {
	lib, _ := ruleLibrary(t)
	text := strings.Replace(ruleBase(t), "required: {level: d, category: 3, because: S2 F2 P1}", "required: {level: c, because: S2 F2 P1}", 1)
	text = strings.Replace(text, "residual: {decision: reduce", "residual: {decision: accept", 1)
	for _, row := range assessText(t, text, lib).Rows {
		if rests := slices.Contains(row.Rests, "stop-on-scanner"); rests != slices.Contains(row.Findings, "FU-01") {
			t.Errorf("%s rests on the function: %v; findings %q", row.ID, rests, row.Findings)
		} else if rests && row.Status != RowRefused {
			t.Errorf("%s is %s: %s", row.ID, row.Status, row.Why)
		}
	}
}

// The places of a file are matched with its robots, contacts and safeguards.
func TestReviews(t *testing.T) {
	lib, _ := ruleLibrary(t)
	places, problems := place.Load(templates.FS)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	var clauses []string
	list := Reviews(assessText(t, ruleBase(t), lib), places)
	for _, item := range list {
		clauses = append(clauses, item.Clause)
	}
	text := strings.Join(clauses, "\n")
	for _, want := range []string{"Regulation (EU) 2023/1230, Art. 25", "Reg. 851"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	if strings.Contains(text, "2006/42/EC") {
		t.Error("the directive for 2027-02-15")
	}
	if last := list[len(list)-1]; !strings.Contains(last.Because, "confirm locally") {
		t.Errorf("ends with %+v", last)
	}
}

package estimate_test

import (
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"standclear/hazards/estimate"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/limits/source"
	"standclear/templates"
)

func methods(t *testing.T) []*estimate.Method {
	t.Helper()
	lib, problems := sheet.Load(templates.FS)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	list, problems := estimate.Load(templates.FS, lib)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return list
}

func method(t *testing.T, id string) *estimate.Method {
	t.Helper()
	for _, m := range methods(t) {
		if m.ID == id {
			return m
		}
	}
	t.Fatalf("no method %s", id)
	return nil
}

func evaluate(t *testing.T, m *estimate.Method, scores map[string]string) estimate.Outcome {
	t.Helper()
	vals := make([]expr.Value, len(m.Factors))
	for i := range m.Factors {
		f := &m.Factors[i]
		if s, ok := scores[f.ID]; ok {
			if vals[i], ok = m.Read(f, s); !ok {
				t.Fatalf("%s has no score %s", f.ID, s)
			}
		}
	}
	return m.Evaluate(vals)
}

type publishedCase struct {
	source.Item
	ID     string   `yaml:"id,required"`
	Method string   `yaml:"method,required"`
	Kind   string   `yaml:"kind,required" choice:"published|derived|memory"`
	Source []string `yaml:"source"`
	Rows   []struct {
		source.Item
		Scores source.Map[string] `yaml:"scores,required"`
		Score  string             `yaml:"score,required"`
		Action string             `yaml:"action,required"`
	} `yaml:"rows,required"`
}

func TestPublishedCases(t *testing.T) {
	const path = "../../testdata/published/methods.yaml"
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var st struct {
		source.Item
		Sources source.Map[struct {
			source.Item
			Title   string `yaml:"title,required"`
			Address string `yaml:"address,required"`
		}] `yaml:"sources,required"`
		Cases []publishedCase `yaml:"cases,required"`
	}
	var ps source.Problems
	source.Decode(source.Parse(path, data, &ps), &st, &ps)
	if ps.Len() > 0 {
		t.Fatal(ps.List())
	}
	known := map[sheet.Example]bool{}
	for _, c := range st.Cases {
		known[sheet.Example{From: "methods.yaml", ID: c.ID}] = true
		m := method(t, c.Method)
		for _, row := range c.Rows {
			scores := map[string]string{}
			for _, s := range row.Scores {
				scores[s.Key] = s.Value
			}
			if o := evaluate(t, m, scores); o.Score != row.Score || o.Action != row.Action || !o.Done {
				t.Errorf("%s %v: score %s, action %s; want %s, %s", c.ID, scores, o.Score, o.Action, row.Score, row.Action)
			}
		}
	}
	for _, m := range methods(t) {
		for _, e := range m.Sheet.Examples {
			if !known[e] {
				t.Errorf("method %s names the example %v, which is not published", m.ID, e)
			}
		}
	}
}

// A worse score of any factor never leads to a milder action.
func TestWorseScoresNeverAskForLess(t *testing.T) {
	m := method(t, "hybrid")
	rank := map[string]int{estimate.None: 0, estimate.Recommended: 1, estimate.Required: 2}
	all := map[[4]int]int{}
	var at [4]int
	var each func(i int, scores map[string]string)
	each = func(i int, scores map[string]string) {
		if i == 4 {
			o := evaluate(t, m, scores)
			if !o.Done {
				t.Fatalf("%v: %s", scores, o.Sheet.Why)
			}
			all[at] = rank[o.Action]
			return
		}
		f := &m.Factors[i]
		for j, s := range f.Scores { // worst first
			at[i], scores[f.ID] = j, s.Score
			each(i+1, scores)
		}
	}
	each(0, map[string]string{})
	if len(all) != 4*5*5*3 {
		t.Fatalf("%d combinations", len(all))
	}
	for a, asked := range all {
		for i := range a {
			b := a
			if b[i]--; b[i] >= 0 && all[b] < asked {
				t.Errorf("%v asks for more than the worse %v", a, b)
			}
		}
	}
}

func TestScores(t *testing.T) {
	m := method(t, "hybrid")
	av, se := m.Factor("Av"), m.Factor("Se")
	for written, want := range map[string]bool{"1": true, "3": true, "5": true, "3.0": true, "2": false, "4": false, "0": false, "6": false, "likely": false, "": false, "NaN": false} {
		if _, ok := m.Read(av, written); ok != want {
			t.Errorf("Av %q: %v", written, ok)
		}
	}
	for score, want := range map[string]bool{"4": true, "3": true, "2": false, "1": false} {
		v, _ := m.Read(se, score)
		if m.Irreversible(se, v) != want {
			t.Errorf("severity %s: cannot be undone %v", score, !want)
		}
	}
	if v, _ := m.Read(av, "5"); m.Irreversible(av, v) {
		t.Error("only a severity can be irreversible")
	}
	o := evaluate(t, m, map[string]string{"Se": "2", "Fr": "5", "Pr": "3"})
	if o.Done || o.Level != "" {
		t.Errorf("without Av: level %q", o.Level)
	}
}

// The sheet refuses what is no score, since in a spreadsheet anything can be typed.
func TestSheetRefusesOtherNumbers(t *testing.T) {
	m := method(t, "hybrid")
	for _, scores := range [][]float64{{3, 5, 3, 2}, {3, 5, 3.5, 3}, {2.5, 5, 3, 3}, {5, 5, 3, 3}, {3, 0, 3, 3}} {
		vals := m.Sheet.Blank()
		for i := range m.Factors {
			vals[m.Sheet.Column(m.Factors[i].ID).Slot] = expr.Value{Kind: expr.Number, Num: scores[i]}
		}
		if o := m.Sheet.Evaluate(vals); o.Verdict != sheet.NotDecided {
			t.Errorf("%v: %s", scores, o.Verdict)
		}
	}
}

func TestLoadRefuses(t *testing.T) {
	lib, _ := sheet.Load(templates.FS)
	data, err := templates.FS.ReadFile("methods/hybrid.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct{ find, put, want string }{
		{"  Se:\n    title: Severity", "  Sx:\n    title: Severity", "is not input 1"},
		{`irreversible_from: "3"`, `irreversible_from: "7"`, "is no score of Se"},
		{`"4": death`, `"four": death`, "is not a number"},
		{"  low: {action: none", "  low: {action: nothing", "nothing"},
		{"table: hybrid-zones", "table: no-such-table", "no table"},
		{"    level: {table", "    zone: {table", "level"},
	} {
		text := strings.Replace(string(data), tt.find, tt.put, 1)
		if text == string(data) {
			t.Fatalf("%q is not in the file", tt.find)
		}
		_, problems := estimate.Load(fstest.MapFS{"methods/hybrid.yaml": {Data: []byte(text)}}, lib)
		found := false
		for _, p := range problems {
			found = found || strings.Contains(p.Message+p.Expected, tt.want)
		}
		if !found {
			t.Errorf("%q: %v, want %q", tt.put, problems, tt.want)
		}
	}
}

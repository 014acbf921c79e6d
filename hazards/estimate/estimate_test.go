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
			if vals[i], ok = f.Read(s); !ok {
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
		Score  string             `yaml:"score"`
		Level  string             `yaml:"level,required"`
		Action string             `yaml:"action"`
	} `yaml:"rows,required"`
}

type publishedFile struct {
	source.Item
	Sources source.Map[struct {
		source.Item
		Title   string `yaml:"title,required"`
		Address string `yaml:"address,required"`
	}] `yaml:"sources,required"`
	Cases    []publishedCase `yaml:"cases,required"`
	NotTaken []struct {
		source.Item
		ID     string `yaml:"id,required"`
		Reason string `yaml:"reason,required"`
	} `yaml:"not_taken,required"`
}

func published(t *testing.T) publishedFile {
	t.Helper()
	const path = "../../testdata/published/methods.yaml"
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var st publishedFile
	var ps source.Problems
	source.Decode(source.Parse(path, data, &ps), &st, &ps)
	if ps.Len() > 0 {
		t.Fatal(ps.List())
	}
	return st
}

func TestPublishedCases(t *testing.T) {
	of := map[string]map[string]bool{} // methods by case
	for _, c := range published(t).Cases {
		if of[c.ID] == nil {
			of[c.ID] = map[string]bool{}
		}
		of[c.ID][c.Method] = true
		m := method(t, c.Method)
		for _, row := range c.Rows {
			scores := map[string]string{}
			for _, s := range row.Scores {
				scores[s.Key] = s.Value
			}
			if len(scores) != len(m.Factors) {
				t.Errorf("%s %v: method %s has factors %v", c.ID, scores, m.ID, m.FactorIDs())
				continue
			}
			o := evaluate(t, m, scores)
			if o.Score != row.Score || o.Level != row.Level || !o.Done || row.Action != "" && o.Action != row.Action {
				t.Errorf("%s %v: score %s, level %s, action %s; want %+v", c.ID, scores, o.Score, o.Level, o.Action, row)
			}
		}
	}
	for _, m := range methods(t) {
		if len(m.Sheet.Examples) == 0 {
			t.Errorf("method %s names no example", m.ID)
		}
		for _, e := range m.Sheet.Examples {
			if e.From != "methods.yaml" || !of[e.ID][m.ID] {
				t.Errorf("method %s names the example %v, which is not there for it", m.ID, e)
			}
		}
	}
}

// Every combination of scores has a level with an action, and a worse score of
// any factor never leads to a milder action.
func TestWorseScoresNeverAskForLess(t *testing.T) {
	rank := map[string]int{estimate.None: 0, estimate.Recommended: 1, estimate.Required: 2}
	for id, combinations := range map[string]int{"hybrid": 4 * 5 * 5 * 3, "matrix": 16, "graph": 8,
		"product": 8 * 6 * 7 * 5, "product-a-4": 8 * 6 * 7 * 5, "product-b-8": 8 * 6 * 7 * 5, "product-b-4": 8 * 6 * 7 * 5} {
		m := method(t, id)
		all := map[[4]int]int{}
		levels := map[string]bool{}
		var at [4]int
		scores := map[string]string{}
		var each func(i int)
		each = func(i int) {
			if i == len(m.Factors) {
				o := evaluate(t, m, scores)
				if !o.Done {
					t.Fatalf("%s %v: %s", id, scores, o.Sheet.Why)
				}
				all[at], levels[o.Level] = rank[o.Action], true
				return
			}
			f := &m.Factors[i]
			for j, s := range f.Scores { // worst first
				at[i], scores[f.ID] = j, s.Score
				each(i + 1)
			}
		}
		each(0)
		if len(all) != combinations {
			t.Errorf("%s: %d combinations, want %d", id, len(all), combinations)
		}
		for a, asked := range all {
			for i := range a {
				b := a
				if b[i]--; b[i] >= 0 && all[b] < asked {
					t.Errorf("%s: %v asks for more than the worse %v", id, a, b)
				}
			}
		}
		for _, a := range m.Actions {
			if !levels[a.Level] {
				t.Errorf("%s: no scores lead to level %s", id, a.Level)
			}
		}
	}
	if n := len(methods(t)); n != 7 {
		t.Errorf("%d methods, of which 7 are looked at", n)
	}
}

func TestScores(t *testing.T) {
	m := method(t, "hybrid")
	av, se := m.Factor("Av"), m.Factor("Se")
	for written, want := range map[string]bool{"1": true, "3": true, "5": true, "3.0": true, "2": false, "4": false, "0": false, "6": false, "likely": false, "": false, "NaN": false} {
		if _, ok := av.Read(written); ok != want {
			t.Errorf("Av %q: %v", written, ok)
		}
	}
	for score, want := range map[string]bool{"4": true, "3": true, "2": false, "1": false} {
		v, _ := se.Read(score)
		if m.Irreversible(se, v) != want {
			t.Errorf("severity %s: cannot be undone %v", score, !want)
		}
	}
	if v, _ := av.Read("5"); m.Irreversible(av, v) {
		t.Error("only a severity can be irreversible")
	}
	o := evaluate(t, m, map[string]string{"Se": "2", "Fr": "5", "Pr": "3"})
	if o.Done || o.Level != "" {
		t.Errorf("without Av: level %q", o.Level)
	}
}

func TestIrreversible(t *testing.T) {
	for _, tt := range []struct {
		method, factor string
		from           int // how many scores, worst first, cannot be undone
	}{{"hybrid", "Se", 2}, {"matrix", "severity", 2}, {"graph", "S", 1}, {"product", "DPH", 4}, {"product-b-4", "DPH", 4}} {
		m := method(t, tt.method)
		f := m.Factor(tt.factor)
		for i, s := range f.Scores {
			if v, _ := f.Read(s.Score); m.Irreversible(f, v) != (i < tt.from) {
				t.Errorf("%s %s %s: %v", tt.method, tt.factor, s.Score, i >= tt.from)
			}
		}
	}
}

// The choice of a method is part of its id, and said in its title.
func TestSettings(t *testing.T) {
	var ids []string
	for _, m := range methods(t) {
		if m.Family == "product" {
			ids = append(ids, m.ID)
			for _, s := range m.Settings {
				if !strings.Contains(m.Title, s.Title+": "+s.Value) {
					t.Errorf("%s: %s does not say %v", m.ID, m.Title, s)
				}
			}
		}
	}
	if got := strings.Join(ids, " "); got != "product product-a-4 product-b-8 product-b-4" {
		t.Errorf("got %s", got)
	}
	if _, ok := method(t, "product").Factor("DPH").Read("6"); !ok {
		t.Error("scale A has no 6")
	}
	if _, ok := method(t, "product-b-8").Factor("DPH").Read("6"); ok {
		t.Error("scale B has a 6")
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

func TestMistakesOfAHouse(t *testing.T) {
	lib, _ := sheet.Load(templates.FS)
	data, err := templates.FS.ReadFile("methods/hybrid.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct{ find, put, want string }{
		{"  Se:\n    title: Severity", "  Sx:\n    title: Severity", "has no Se"},
		{"  Se:\n    title: Severity", "  level:\n    title: Severity", "found `level` as a factor"},
		{"  Se:\n    title: Severity", "  S e:\n    title: Severity", "found `S e` as a factor"},
		{`irreversible_from: "3"`, `irreversible_from: "7"`, "is no score of a factor for severity"},
		{`"4": death`, `"four": death`, "partly numbers and partly words"},
		{`"4": death`, `"3.0": death`, "has the score 3 twice"},
		{`"4": death`, `"5": death`, "Se 5, Fr 5, Pr 5, Av 5 leads to"},
		{"lowers: [severity]", "lowers: [money]", "money"},
		{"  low: {action: none", "  low: {action: nothing", "nothing"},
		{"  low: {action: none", "  mild: {action: none", "leads to level `low`, which `actions` does not name"},
		{"table: hybrid-zones", "table: no-such-table", "no table"},
		{"    level: {table", "    zone: {table", "gives no `level`"},
		{"is: Fr + Pr + Av", "is: Fr + Pr + Aw", "Aw"},
		{"  examples:", "  inputs:", "unknown key `inputs`"},
		{"id: hybrid", "id: Hybrid", "as the id of a method"},
		{"source: [festo13]", "source: [festo14]", "no source is called `festo14`"},
		{"actions:\n", "settings:\n  s: {title: t, of: [a, a]}\nactions:\n", "found `a` as a choice"},
		{"actions:\n", "settings:\n  s: {title: t, of: [a, b]}\nactions:\n  by_s: {a: {}, c: {}}\nx:\n", "found nothing for `b`"},
	} {
		text := strings.Replace(string(data), tt.find, tt.put, 1)
		if text == string(data) {
			t.Fatalf("%q is not in the file", tt.find)
		}
		_, problems := estimate.Shelf{Library: lib}.Add(fstest.MapFS{"hybrid.yaml": {Data: []byte(text)}}, "house", "house")
		found := false
		for _, p := range problems {
			found = found || strings.Contains(p.Message+p.Expected, tt.want)
			if p.Pos.File != "house/hybrid.yaml" || p.Pos.Line == 0 {
				t.Errorf("%q: %s is at %v", tt.put, p.Message, p.Pos)
			}
		}
		if !found {
			t.Errorf("%q: %v, want %q", tt.put, problems, tt.want)
		}
	}
}

const houseTable = `id: firm-zones
title: Zone by harm
standard: {id: rule book of the firm}
key: harm
columns:
  harm: {means: harm, standing: practice}
  zone: {means: zone, standing: practice}
rows:
  - {harm: bad, zone: act}
  - {harm: slight, zone: leave}
`

const houseMethod = `id: firm
title: Method of the firm
standard: {id: rule book of the firm, clause: "4"}
standing: practice
residual: no
factors:
  harm:
    title: Harm
    lowers: [severity]
    scores: {bad: needs a doctor, slight: needs none}
actions:
  act: {action: required, means: do something}
  leave: {action: none, means: nothing to do}
calculation:
  lookups:
    level: {table: firm-zones, column: zone, by: {harm: exact}}
`

// A house brings methods and tables; what it must not do is take a name.
func TestHouse(t *testing.T) {
	lib, _ := sheet.Load(templates.FS)
	start := estimate.Shelf{Library: lib, Methods: methods(t)}
	tables := len(lib.Tables)
	house := fstest.MapFS{"firm.yaml": {Data: []byte(houseMethod)}, "tables/zones.yaml": {Data: []byte(houseTable)}}
	shelf, problems := start.Add(house, "house", "house")
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	m := estimate.Find(shelf.Methods, "firm")
	if o := evaluate(t, m, map[string]string{"harm": "bad"}); !o.Done || o.Level != "act" || o.Action != estimate.Required {
		t.Errorf("got %+v", o)
	}
	if m.Residual || len(m.Sum) != 64 || shelf.Library.Table("firm-zones") == nil {
		t.Errorf("got %+v", m)
	}
	if len(lib.Tables) != tables || len(start.Methods) != len(methods(t)) {
		t.Error("the shelf was changed in place")
	}
	for name, tt := range map[string]struct {
		fs   fstest.MapFS
		want string
	}{
		"method twice":    {fstest.MapFS{"a.yaml": house["firm.yaml"], "b.yaml": house["firm.yaml"], "tables/zones.yaml": house["tables/zones.yaml"]}, "house/b.yaml:1:5"},
		"id taken":        {fstest.MapFS{"a.yaml": {Data: []byte(strings.Replace(houseMethod, "id: firm", "id: graph", 1))}, "tables/zones.yaml": house["tables/zones.yaml"]}, "`graph` is taken"},
		"choice taken":    {fstest.MapFS{"a.yaml": {Data: []byte(strings.Replace(houseMethod, "id: firm", "id: product-a-4", 1))}, "tables/zones.yaml": house["tables/zones.yaml"]}, "`product-a-4` is taken"},
		"id of a sheet":   {fstest.MapFS{"a.yaml": {Data: []byte(strings.Replace(houseMethod, "id: firm", "id: ssm", 1))}, "tables/zones.yaml": house["tables/zones.yaml"]}, "`ssm` is taken"},
		"table taken":     {fstest.MapFS{"firm.yaml": house["firm.yaml"], "tables/zones.yaml": {Data: []byte(strings.Replace(houseTable, "id: firm-zones", "id: hybrid-zones", 1))}}, "house/tables/zones.yaml:1:5"},
		"no table":        {fstest.MapFS{"firm.yaml": house["firm.yaml"]}, "no table firm-zones"},
		"nothing":         {fstest.MapFS{"tables/zones.yaml": house["tables/zones.yaml"]}, "holds no method"},
		"broken":          {fstest.MapFS{"firm.yaml": {Data: []byte("id: [\n")}}, "house/firm.yaml"},
		"no such level":   {fstest.MapFS{"firm.yaml": {Data: []byte(strings.Replace(houseMethod, "residual: no\n", "residual: no\ngives: required-level\n", 1))}, "tables/zones.yaml": house["tables/zones.yaml"]}, "found level `act`, expected a performance level"},
		"no calculation":  {fstest.MapFS{"firm.yaml": {Data: []byte(strings.Split(houseMethod, "  lookups")[0])}, "tables/zones.yaml": house["tables/zones.yaml"]}, "house/firm.yaml:14"},
		"not a statement": {fstest.MapFS{"firm.yaml": {Data: []byte(strings.Split(houseMethod, "calculation:")[0] + "calculation: [1]\n")}}, "found no keys"},
	} {
		_, problems := start.Add(tt.fs, "house", "house")
		said := false
		for _, p := range problems {
			said = said || strings.Contains(p.Pos.String()+" "+p.Message, tt.want)
		}
		if !said {
			t.Errorf("%s: got %v, want %q", name, problems, tt.want)
		}
	}
}

package identify_test

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"standclear/hazards/file"
	"standclear/hazards/identify"
	"standclear/limits/expr"
)

const base = `assessment:
  title: Cell
  number: T-1
  revision: A
  date: 2026-11-25
  prepared_by: {name: A. Writer, role: engineer}
  placing: {put_into_service: 2027-02-15, role: integrator, scope: assembly}
  places: [eu]
  method: hybrid
cell:
  people: [{id: packer, kind: operator}, {id: cleaner, kind: cleaner}]
  robots: [{id: arm, moving_mass: 12 kg}]
  tools: [{id: jaws, kind: parallel-jaw, mass: 1 kg}, {id: cups, kind: vacuum, mass: 2 kg, on_power_loss: holds}]
tasks:
  - {id: pack, name: pack, kind: running, people: [packer], how_often: always, robots: [arm], tools: [jaws]}
  - {id: sweep, name: sweep, kind: cleaning, people: [cleaner], how_often: weekly}
hazards: HAZARDS
`

// entries of a catalogue of our own: one for each way to bear witness.
const entries = `entries:
  lets-go:
    family: mechanical
    tasks: [running, hand-over]
    situation: s
    event: e
    harm: h
    body: [foot]
    measures: {design: d}
    rules: [{each: tools, where: "on_power_loss <> 'holds'", because: "{id}, {kind}, lets go"}]
    refs: [X1]
    standing: practice
  heavy:
    family: mechanical
    tasks: [running]
    situation: s
    event: e
    harm: h
    body: [hand]
    measures: {design: d}
    rules: [{each: tools, where: mass > 1.5, because: "{id} has {mass} kg"}]
    standing: practice
  conveyor:
    family: mechanical
    tasks: [running]
    situation: s
    event: e
    harm: h
    body: [hand]
    measures: {design: d}
    rules: [{each: cell, where: "has(cell_machines, 'conveyor')", because: a conveyor runs}]
    standing: practice
  cleaning:
    family: mechanical
    tasks: [cleaning]
    situation: s
    event: e
    harm: h
    body: [hand]
    measures: {design: d}
    rules: [{each: people, where: "kind = 'cleaner'", because: "{id} cleans"}, {each: cell, where: "not has(cell_people, 'cleaner')", because: somebody cleans}]
    standing: practice
`

func own(t *testing.T, text string) (*identify.Catalogue, []string) {
	t.Helper()
	c, problems := identify.Load(fstest.MapFS{
		"catalogue/references.yaml":   {Data: []byte("references: {X1: {family: mechanical, what: w}}\n")},
		"catalogue/entries/10-x.yaml": {Data: []byte(text)}})
	var list []string
	for _, p := range problems {
		list = append(list, p.Message)
	}
	return c, list
}

func suggest(t *testing.T, hazards, extra string) []identify.Suggestion {
	t.Helper()
	c, problems := own(t, entries)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	a, problems2 := file.Load("cell.yaml", []byte(strings.Replace(base, "HAZARDS", hazards, 1)+extra))
	if len(problems2) > 0 {
		t.Fatal(problems2)
	}
	return c.Suggest(a, func(path string) expr.Value {
		e, ok := a.Index().Entry(path)
		if !ok || len(e.Amount.Terms) == 0 {
			return expr.Value{}
		}
		x, _ := e.Amount.Terms[0].Quantity.In(e.Unit)
		return expr.Value{Kind: expr.Number, Num: x}
	})
}

func brief(list []identify.Suggestion) string {
	var out []string
	for i := range list {
		s := &list[i]
		word := "open"
		if s.NotApplicable() {
			word = "aside"
		} else if s.Answered() {
			word = strings.Join(s.Rows(), "+")
		}
		out = append(out, s.Entry.ID+": "+s.Why()+" = "+word)
	}
	return strings.Join(out, "\n")
}

const row = `{id: H-1, task: TASK, covers: [COVERS], situation: s, event: e, harm: h}`

func rowOf(task, covers string) string {
	return "[" + strings.NewReplacer("TASK", task, "COVERS", covers).Replace(row) + "]"
}

func TestSuggest(t *testing.T) {
	for name, tt := range map[string]struct{ hazards, extra, want string }{
		"nothing answered": {"[]", "", "lets-go: jaws, parallel-jaw, lets go = open\nheavy: cups has 2 kg = open\ncleaning: cleaner cleans = open"},
		"answered by a row": {rowOf("pack", "lets-go"), "",
			"lets-go: jaws, parallel-jaw, lets go = H-1\nheavy: cups has 2 kg = open\ncleaning: cleaner cleans = open"},
		"row of another kind of task": {rowOf("sweep", "lets-go"), "",
			"lets-go: jaws, parallel-jaw, lets go = open\nheavy: cups has 2 kg = open\ncleaning: cleaner cleans = open"},
		"row whose task uses another tool": {rowOf("pack", "heavy"), "",
			"lets-go: jaws, parallel-jaw, lets go = open\nheavy: cups has 2 kg = open\ncleaning: cleaner cleans = open"},
		"set aside": {"[]", "not_applicable: [{entry: cleaning, of: [cleaner], because: nobody}, {entry: lets-go, of: [cups], because: x}]\n",
			"lets-go: jaws, parallel-jaw, lets go = open\nheavy: cups has 2 kg = open\ncleaning: cleaner cleans = aside"},
		"set aside without a name": {"[]", "not_applicable: [{entry: cleaning, because: nobody}]\n",
			"lets-go: jaws, parallel-jaw, lets go = open\nheavy: cups has 2 kg = open\ncleaning: cleaner cleans = open"},
		"set aside for the witness": {"[]", "not_applicable: [{entry: lets-go, of: [jaws], because: x}]\n",
			"lets-go: jaws, parallel-jaw, lets go = aside\nheavy: cups has 2 kg = open\ncleaning: cleaner cleans = open"},
	} {
		if got := brief(suggest(t, tt.hazards, tt.extra)); got != tt.want {
			t.Errorf("%s:\n%s\nwant:\n%s", name, got, tt.want)
		}
	}
}

func TestNearIsSaid(t *testing.T) {
	for _, tt := range []struct{ task, covers, want string }{
		{"sweep", "lets-go", "H-1 covers it and belongs to a task of kind cleaning, not of running, hand-over"},
		{"pack", "heavy", "H-1 covers it and does not name cups"},
	} {
		list := suggest(t, rowOf(tt.task, tt.covers), "")
		i := slices.IndexFunc(list, func(s identify.Suggestion) bool { return s.Entry.ID == tt.covers })
		if got := list[i].Near(); got != tt.want {
			t.Errorf("near %q, want %q", got, tt.want)
		}
	}
}

func TestLoadRefuses(t *testing.T) {
	for _, tt := range []struct{ find, put, want string }{
		{"refs: [X1]", "refs: [X2]", "no reference `X2`"},
		{"mass > 1.5", "weight > 1.5", "weight"},
		{"mass > 1.5", "mass + 1", ""},
		{"{mass} kg", "{weight} kg", "`{weight}` is no key of tools"},
		{"'holds'", "'hold'", "no such word for `on_power_loss = hold`"},
		{"has(cell_machines, 'conveyor')", "has(cell_machines, 'conveyer')", "cell_machines = conveyer"},
		{"each: people", "each: persons", ""},
		{"measures: {design: d}", "measures: {}", "names no usual measure"},
		{"standing: practice", "standing: single", "standing `single` with 0 sources"},
		{"  heavy:", "  lets-go:", ""},
	} {
		text := strings.Replace(entries, tt.find, tt.put, 1)
		if text == entries {
			t.Fatalf("%q is not there", tt.find)
		}
		if _, problems := own(t, text); !strings.Contains(strings.Join(problems, "\n"), tt.want) || len(problems) == 0 {
			t.Errorf("%s: problems %q, want %q", tt.put, problems, tt.want)
		}
	}
}

package identify_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"standclear/hazards/file"
	"standclear/hazards/identify"
	"standclear/limits/expr"
	"standclear/limits/source"
)

type accident struct {
	source.Item
	ID       string   `yaml:"id,required"`
	Activity string   `yaml:"activity,required"`
	Outcome  string   `yaml:"outcome,required"`
	Source   string   `yaml:"source,required"`
	Refs     []string `yaml:"refs,required"`
	Task     string   `yaml:"task,required"`
	Cell     string   `yaml:"cell,required"`
}

const accidentFile = `assessment:
  title: Cell
  number: T-1
  revision: A
  date: 2026-11-25
  prepared_by: {name: A. Writer, role: engineer}
  placing: {put_into_service: 2027-02-15, role: user, scope: cell}
  places: [eu]
  method: hybrid
hazards: []
`

// Every accident is one that the catalogue asks about: an entry with one of its
// references, in the kind of task it happened in.
func TestReportedAccidents(t *testing.T) {
	const path = "../../testdata/published/accidents.yaml"
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var ps source.Problems
	var st struct {
		source.Item
		Cases []accident `yaml:"cases,required"`
	}
	source.Decode(source.Parse(path, data, &ps), &st, &ps)
	if ps.Len() > 0 || len(st.Cases) == 0 {
		t.Fatal(ps.List())
	}
	c := catalogue(t)
	for _, x := range st.Cases {
		asked := asks(t, c, x)
		var hits []string
		for i := range asked {
			e := asked[i].Entry
			if slices.Contains(e.Tasks, x.Task) && slices.ContainsFunc(e.Refs, func(r string) bool { return slices.Contains(x.Refs, r) }) {
				hits = append(hits, e.ID)
			}
		}
		if hits == nil {
			t.Errorf("%s (%s): nothing is asked about it", x.ID, x.Activity)
		}
		t.Logf("%s: %s", x.ID, strings.Join(hits, ", "))
	}
}

func asks(t *testing.T, c *identify.Catalogue, x accident) []identify.Suggestion {
	t.Helper()
	var people []string
	for line := range strings.Lines(x.Cell) {
		if _, list, ok := strings.Cut(line, "people:"); ok {
			for _, p := range strings.Split(list, "id: ")[1:] {
				id, _, _ := strings.Cut(p, ",")
				people = append(people, id)
			}
		}
	}
	text := accidentFile + "cell:\n  " + strings.ReplaceAll(strings.TrimSpace(x.Cell), "\n", "\n  ") +
		"\ntasks: [{id: work, name: work, kind: " + x.Task + ", how_often: daily, people: [" + strings.Join(people, ", ") + "]}]\n"
	a, problems := file.Load(x.ID+".yaml", []byte(text))
	if len(problems) > 0 {
		t.Fatalf("%s: %v", x.ID, problems)
	}
	return c.Suggest(a, func(string) expr.Value { return expr.Value{} })
}

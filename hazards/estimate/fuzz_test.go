package estimate_test

import (
	"testing"
	"testing/fstest"

	"standclear/hazards/estimate"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/templates"
)

// FuzzHouse: whatever stands in the file of a method, reading it never panics,
// and a method that was read works out every set of first and last scores.
func FuzzHouse(f *testing.F) {
	lib, problems := sheet.Load(templates.FS)
	if len(problems) > 0 {
		f.Fatal(problems)
	}
	for _, name := range []string{"hybrid", "matrix", "graph", "product"} {
		data, err := templates.FS.ReadFile("methods/" + name + ".yaml")
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte(houseMethod))
	f.Fuzz(func(t *testing.T, data []byte) {
		shelf, problems := estimate.Shelf{Library: lib}.Add(fstest.MapFS{"m.yaml": {Data: data}, "tables/zones.yaml": {Data: []byte(houseTable)}}, "house", "house")
		if len(problems) > 0 {
			return
		}
		for _, m := range shelf.Methods {
			first, last := make([]expr.Value, len(m.Factors)), make([]expr.Value, len(m.Factors))
			for i := range m.Factors {
				scores := m.Factors[i].Scores
				first[i], _ = m.Factors[i].Read(scores[0].Score)
				last[i], _ = m.Factors[i].Read(scores[len(scores)-1].Score)
			}
			for _, scores := range [][]expr.Value{first, last} {
				if o := m.Evaluate(scores); !o.Done {
					t.Errorf("%s: no level: %s", m.ID, o.Sheet.Why)
				}
			}
		}
	})
}

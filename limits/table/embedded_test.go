package table_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"standclear/limits/expr"
	"standclear/limits/source"
	"standclear/limits/table"
	"standclear/limits/table/tabletest"
	"standclear/templates"
)

func embedded(t *testing.T, name string) *table.Table {
	t.Helper()
	data, err := templates.FS.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	tab, ps := parse(name, string(data))
	if len(ps) > 0 {
		t.Fatalf("%v", ps)
	}
	return tab
}

func parse(name, text string) (*table.Table, []source.Problem) {
	var ps source.Problems
	var tab *table.Table
	if n := source.Parse(name, []byte(text), &ps); n != nil {
		tab = table.Load(n, &ps)
	}
	return tab, ps.List()
}

// standing is what a number of public places makes of a value.
func standing(sources int) table.Standing {
	switch {
	case sources >= 2:
		return table.Confirmed
	case sources == 1:
		return table.Single
	}
	return table.Memory
}

func cell(t *testing.T, tab *table.Table, row, col string) table.Cell {
	t.Helper()
	i, j := tab.Exact(row), tab.Column(col)
	if i < 0 || j < 0 {
		t.Fatalf("table %s has no %s, %s", tab.ID, row, col)
	}
	return tab.Rows[i][j]
}

func is(t *testing.T, tab *table.Table, row, col string, want float64, sources int) {
	t.Helper()
	c := cell(t, tab, row, col)
	if c.Value.Kind != expr.Number || c.Value.Num != want {
		t.Errorf("%s of %s is %v, want %v", col, row, c.Value.Num, want)
	}
	if c.Standing != standing(sources) {
		t.Errorf("%s of %s is %s, %d public places state it", col, row, c.Standing, sources)
	}
}

func factor(t *testing.T, tab *table.Table, row, col string, want *float64) {
	t.Helper()
	if c := cell(t, tab, row, col); want == nil && c.Value.Given() || want != nil && c.Value.Num != *want {
		t.Errorf("%s of %s is %v", col, row, c.Value)
	}
}

func TestContactTables(t *testing.T) {
	ref := tabletest.Read(t)
	regions, areas := embedded(t, "contact/regions.yaml"), embedded(t, "contact/areas.yaml")
	if len(ref.Regions) != 12 || len(regions.Rows) != 12 {
		t.Errorf("%d regions, %d in the reference, want 12", len(regions.Rows), len(ref.Regions))
	}
	for _, e := range ref.Regions {
		r := e.Value
		is(t, regions, e.Key, "F_s", r.F, r.FSources)
		is(t, regions, e.Key, "K", r.K, r.KSources)
		is(t, regions, e.Key, "m_H", r.M, r.MSources)
		factor(t, regions, e.Key, "f_F", r.Factor)
	}
	if len(ref.Areas) != 29 || len(areas.Rows) != 29+len(ref.Without) {
		t.Errorf("%d areas, %d in the reference, want 29 and 4 without a value", len(areas.Rows), len(ref.Areas))
	}
	for _, e := range ref.Areas {
		a := e.Value
		is(t, areas, e.Key, "p_s", a.P, a.Sources)
		factor(t, areas, e.Key, "f_p", a.Factor)
		if got := cell(t, areas, e.Key, "region").Value.Text; got != a.Region {
			t.Errorf("%s lies in %s, want %s", e.Key, got, a.Region)
		}
		permitted := "yes"
		if a.Factor == nil { // head and face
			permitted = "never"
		}
		if got := cell(t, areas, e.Key, "permitted").Value.Text; got != permitted {
			t.Errorf("%s: permitted %s, want %s", e.Key, got, permitted)
		}
	}
	for _, e := range ref.Without {
		if got := cell(t, areas, e.Key, "permitted").Value.Text; got != e.Value || cell(t, areas, e.Key, "p_s").Value.Given() {
			t.Errorf("%s: permitted %s, want %s and no pressure", e.Key, got, e.Value)
		}
	}
}

// The ids that assessments and other programs rely on.
func TestContactIDs(t *testing.T) {
	areas := `forehead temple masticatory-muscle neck-muscle seventh-neck-vertebra shoulder-joint fifth-lumbar-vertebra sternum
		pectoral-muscle abdominal-muscle pelvic-bone deltoid humerus radial-bone forearm-muscle arm-nerve forefinger-pad-d forefinger-pad-nd
		forefinger-end-joint-d forefinger-end-joint-nd thenar palm-d palm-nd back-of-hand-d back-of-hand-nd thigh-muscle kneecap shin calf
		larynx eye ear foot`
	regions := "skull-forehead face neck back-shoulders chest abdomen pelvis upper-arms lower-arms hands-fingers thighs-knees lower-legs"
	for name, ids := range map[string]string{"contact/areas.yaml": areas, "contact/regions.yaml": regions} {
		tab := embedded(t, name)
		var got []string
		for i := range tab.Rows {
			got = append(got, tab.RowKey(i))
		}
		if want := strings.Fields(ids); !slices.Equal(got, want) {
			t.Errorf("%s: ids\n%v, want\n%v", name, got, want)
		}
	}
}

func TestLeastGaps(t *testing.T) {
	ref := tabletest.Read(t)
	gaps := embedded(t, "tables/least-gap.yaml")
	if len(gaps.Rows) != len(ref.Gaps) {
		t.Errorf("%d gaps, want %d", len(gaps.Rows), len(ref.Gaps))
	}
	of := map[string]float64{}
	for _, e := range ref.Gaps {
		of[e.Key] = e.Value
		sources := 1
		if e.Key == "body" {
			sources = 2
		}
		is(t, gaps, e.Key, "gap", e.Value, sources)
	}
	// the gap that shows a contact free is that of the body part
	part := map[string]string{"skull-forehead": "head", "face": "head", "neck": "body", "back-shoulders": "body", "chest": "body", "abdomen": "body",
		"pelvis": "body", "upper-arms": "arm", "lower-arms": "arm", "hands-fingers": "hand", "thighs-knees": "leg", "lower-legs": "leg"}
	regions := embedded(t, "contact/regions.yaml")
	for i := range regions.Rows {
		region := regions.RowKey(i)
		sources := 1
		if part[region] == "body" { // the one gap that two public places state
			sources = 2
		}
		is(t, regions, region, "least_gap", of[part[region]], sources)
	}
}

func TestReachOver(t *testing.T) {
	ref := tabletest.Read(t).ReachOver
	tab := embedded(t, "tables/reach-over-electro.yaml")
	if !slices.Equal(tab.Heads, ref.Edges) {
		t.Fatalf("upper edges %v, want %v", tab.Heads, ref.Edges)
	}
	if len(tab.Rows) != len(ref.Rows) {
		t.Fatalf("%d heights, want %d", len(tab.Rows), len(ref.Rows))
	}
	for _, e := range ref.Rows {
		a, err := strconv.ParseFloat(e.Key, 64)
		i := tab.Down(a)
		if err != nil || i < 0 || tab.RowKey(i) != e.Key || tab.Up(a) != i || len(e.Value) != len(ref.Edges) {
			t.Fatalf("no row %s", e.Key)
		}
		for j, want := range e.Value {
			c := tab.Rows[i][tab.First+j]
			if c.Value.Num != want {
				t.Errorf("(%s, %v) is %v, want %v", e.Key, ref.Edges[j], c.Value.Num, want)
			}
			known := table.Single
			if at := []float64{a, ref.Edges[j]}; slices.Equal(at, ref.Memory) {
				known = table.Memory
			} else if slices.ContainsFunc(ref.Confirmed, func(x []float64) bool { return slices.Equal(x, at) }) {
				known = table.Confirmed
			}
			if c.Standing != known {
				t.Errorf("(%s, %v) is %s, want %s", e.Key, ref.Edges[j], c.Standing, known)
			}
			if j > 0 && c.Value.Num > tab.Rows[i][tab.First+j-1].Value.Num {
				t.Errorf("row %s rises with the upper edge at %v", e.Key, ref.Edges[j])
			}
		}
	}
}

// Reaching over is hardest neither at the floor nor high up, so a range of
// heights must look at all rows it spans.
func TestReachOverTurns(t *testing.T) {
	tab := embedded(t, "tables/reach-over-electro.yaml")
	for j := range tab.Heads {
		turns, best := 0, 0
		for i := 1; i < len(tab.Rows); i++ {
			was, now := tab.Rows[i-1][tab.First+j].Value.Num, tab.Rows[i][tab.First+j].Value.Num
			if now < was && turns == 0 {
				turns, best = 1, i-1
			} else if now > was && turns == 1 {
				t.Errorf("upper edge %v: rises again at %s", tab.Heads[j], tab.RowKey(i))
			}
		}
		if last := len(tab.Heads) - 1; j < last && (turns == 0 || best == 0 || best == len(tab.Rows)-1) {
			t.Errorf("upper edge %v has its greatest supplement at an end of the heights", tab.Heads[j])
		}
	}
}

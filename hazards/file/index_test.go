package file

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

// small loads the small cell, each pair of texts replaced.
func small(t *testing.T, pairs ...string) *Assessment {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(testdata, "ok", "small.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(text, pairs[i]) {
			t.Fatalf("%q is not in the file", pairs[i])
		}
		text = strings.Replace(text, pairs[i], pairs[i+1], 1)
	}
	a, problems := Load("small.yaml", []byte(text))
	if a == nil {
		t.Fatalf("does not load:\n%s", render(problems, []byte(text)))
	}
	return a
}

// TestEntries compares the paths of the small cell with a list.
func TestEntries(t *testing.T) {
	var b strings.Builder
	ix := small(t).Index()
	for _, e := range ix.Entries() {
		q, leaves, err := ix.Resolve(*e.Amount)
		if err != nil {
			t.Errorf("%s: %v", e.Path, err)
			continue
		}
		fmt.Fprintf(&b, "%d:%d %s = %s, %s", e.Pos.Line, e.Pos.Col, e.Path, q.Canonical(), e.Origin)
		if e.Ref != "" {
			fmt.Fprintf(&b, " (%s)", e.Ref)
		}
		fmt.Fprintf(&b, "; %s %s: %s, %s", e.Kind, e.Item, e.Key, e.Means)
		for _, l := range leaves {
			if l.Path != e.Path {
				fmt.Fprintf(&b, "; %q %s", l.Path, l.Origin)
			}
		}
		b.WriteString("\n")
		if found, ok := ix.Entry(e.Path); !ok || found != e {
			t.Errorf("%s: not found by its path", e.Path)
		}
	}
	compareOut(t, "testdata/small.paths", b.String())
}

func TestResolveGiven(t *testing.T) {
	a := small(t)
	ix := a.Index()
	given := map[string]Given{}
	for _, c := range a.Checks {
		for _, e := range c.Given {
			given[c.ID+"/"+e.Key] = e.Value
		}
	}
	_, leaves, err := ix.ResolveGiven(given["scanner-distance/T"])
	if !errors.Is(err, ErrGrid) {
		t.Fatalf("error %v, want ErrGrid", err)
	}
	var got []string
	for i := range leaves {
		got = append(got, fmt.Sprintf("%s %t %s", leaves[i].Path, leaves[i].Grid, leaves[i].Origin))
		if leaves[i].Grid {
			leaves[i].Value = mustQuantity("0.36 s")
		}
	}
	want := []string{"scanner.response false datasheet", "arm.input_response false datasheet", "arm.stopping.time true "}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("leaves %q, want %q", got, want)
	}
	// 80 ms + 0.012 s + 0.36 s
	if sum, err := Sum(leaves); err != nil || sum.Canonical() != "0.452 s" {
		t.Errorf("sum %v, %v, want 0.452 s", sum.Canonical(), err)
	}
	available, leaves, err := ix.ResolveGiven(given["scanner-distance/available"])
	if err != nil || available.Canonical() != "2100 mm" || leaves[0].Origin != Measured || leaves[0].Ref != "sketch 4" {
		t.Errorf("available %v, %+v, %v", available.Canonical(), leaves, err)
	}
	if r := given["over-screen/a"].Range; r == nil || r[0].Canonical() != "700 mm" || r[1].Canonical() != "1500 mm" {
		t.Errorf("range %v", r)
	}
	if g := given["stop-chain/PFH"]; len(g.List) != 2 || g.List[0].Terms[0].Path != "stop-on-scanner.part-1.pfh" {
		t.Errorf("list %+v", g.List)
	}
	if g := given["slot/part"]; g.Text != "finger" || g.Terms != nil {
		t.Errorf("word %+v", g)
	}
	if _, _, err := ix.ResolveGiven(given["slot/part"]); !errors.Is(err, ErrNotGiven) {
		t.Errorf("a word resolves: %v", err)
	}
}

// TestSumOfSums follows a path to a sum: its own number has no path.
func TestSumOfSums(t *testing.T) {
	a := small(t, "mass: 0.8 kg", "mass: full-tin.mass + 1 kg ± 0.1 kg")
	q, leaves, err := a.Index().Resolve(a.Cell.Tools[0].Mass)
	if err != nil {
		t.Fatal(err)
	}
	// 410 g + 0.25 kg + 1 kg ± 0.1 kg, in the unit of the first
	if got := q.Canonical(); got != "1.66 kg ± 0.1 kg" {
		t.Errorf("sum %s", got)
	}
	if kg, err := q.In(mustUnit("kg")); err != nil || math.Abs(kg-1.66) > 1e-15 {
		t.Errorf("%v kg, %v", kg, err)
	}
	if len(leaves) != 3 || leaves[0].Path != "tin.mass" || leaves[1].Path != "" || leaves[2].Path != "" {
		t.Errorf("leaves %+v", leaves)
	}
}

func TestSettingWithoutChecksum(t *testing.T) {
	a := small(t, "          checksum: 77B0-1C3E\n", "", "force: 85 N +/- 15 N", "force: {is: 85 N, from: measured}")
	e, ok := a.Index().Entry("arm.bench.force")
	if !ok || e.Origin != Assumed {
		t.Errorf("%+v, %t, want assumed: nothing counts as set without a checksum", e, ok)
	}
}

func TestFind(t *testing.T) {
	a := small(t)
	for id, kind := range map[string]string{
		"setter-up": "people", "automatic": "mode", "arm": "robot", "bench": "setting", "stop-top": "stopping",
		"plate": "machine", "jaws": "tool", "tin": "part", "scanner": "safeguard", "stop-on-scanner": "function",
		"front": "space", "sweep": "task", "hand-on-plate": "contact", "slot": "check", "H-01": "hazard",
		"H-01-2": "measure", "V-02": "point", "lean-in": "misuse", "stop-check": "upkeep",
	} {
		got, value, pos, ok := a.Find(id)
		if !ok || got != kind || value == nil || pos.Line == 0 {
			t.Errorf("%s: %s %v %v %t, want %s", id, got, value, pos, ok, kind)
		}
	}
	if _, value, _, _ := a.Find("jaws"); value.(*Tool) != &a.Cell.Tools[0] {
		t.Error("jaws is not the tool of the file")
	}
	if _, _, _, ok := a.Find("nobody"); ok {
		t.Error("finds nobody")
	}
}

// TestTags reads every tag of the types, so that a slip in one fails here.
func TestTags(t *testing.T) {
	seen := map[reflect.Type]bool{}
	var visit func(reflect.Type)
	visit = func(typ reflect.Type) {
		for typ.Kind() == reflect.Pointer || typ.Kind() == reflect.Slice {
			typ = typ.Elem()
		}
		if typ.Kind() != reflect.Struct || leaves[typ] || seen[typ] || typ.PkgPath() != reflect.TypeFor[Tool]().PkgPath() {
			return
		}
		seen[typ] = true
		for i := range typ.NumField() {
			f := typ.Field(i)
			if f.Tag.Get("yaml") == "" {
				continue
			}
			name := typ.Name() + "." + f.Name
			if f.Tag.Get("means") == "" {
				t.Errorf("%s has no meaning", name)
			}
			if (f.Type == reflect.TypeFor[Amount]() || f.Type == reflect.TypeFor[[]Corner]()) && f.Tag.Get("unit") == "" {
				t.Errorf("%s has no unit", name)
			}
			mustUnit(f.Tag.Get("unit"))
			for kind := range strings.SplitSeq(f.Tag.Get("ref"), "|") {
				if kind != "" && kindWords[kind] == "" {
					t.Errorf("%s refers to %q", name, kind)
				}
			}
			if known := f.Tag.Get("known"); known != "" {
				if names, _ := someNames.of(known); names == nil {
					t.Errorf("%s is of %q", name, known)
				}
			}
			visit(f.Type)
		}
	}
	visit(reflect.TypeFor[Assessment]())
	if len(seen) < 30 {
		t.Errorf("%d types seen", len(seen))
	}
}

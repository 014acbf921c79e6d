package hazards_test

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"standclear/hazards"
	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/limits/source"
	"standclear/templates"
)

var update = flag.Bool("update", false, "write the golden files anew; read the difference before keeping it")

const (
	rulesDir = "../testdata/rules/"
	cellFile = rulesDir + "assess-cell.yaml"
)

// embedded is the library, which does not change once it is loaded.
var embedded = sync.OnceValues(func() (*sheet.Library, []source.Problem) { return sheet.Load(templates.FS) })

func library(t testing.TB) *sheet.Library {
	t.Helper()
	lib, problems := embedded()
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return lib
}

func assess(t testing.TB, data []byte) (*hazards.Result, []source.Problem) {
	t.Helper()
	a, problems := file.Load("cell.yaml", data)
	if len(problems) > 0 {
		t.Fatalf("does not load: %s", render(problems, data))
	}
	return hazards.Assess(a, data, library(t), hazards.Options{Name: "cell", Version: "1"})
}

func result(t testing.TB, data []byte) *hazards.Result {
	t.Helper()
	r, problems := assess(t, data)
	if len(problems) > 0 {
		t.Fatalf("cannot be assessed: %s", render(problems, data))
	}
	return r
}

func render(problems []source.Problem, data []byte) string {
	var b bytes.Buffer
	source.Render(&b, problems, func(string) []byte { return data })
	return b.String()
}

// cell is the cell with one of each, changed in some ways.
func cell(t testing.TB, changes ...string) []byte {
	t.Helper()
	data, err := os.ReadFile(cellFile)
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for i := 0; i < len(changes); i += 2 {
		if !strings.Contains(text, changes[i]) {
			t.Fatalf("%q is not in the cell", changes[i])
		}
		text = strings.Replace(text, changes[i], changes[i+1], 1)
	}
	return []byte(text)
}

func TestGolden(t *testing.T) {
	files, _ := filepath.Glob(rulesDir + "assess-*.yaml")
	if len(files) == 0 {
		t.Fatal("no files")
	}
	for _, path := range files {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		got := dump(result(t, data))
		golden := strings.TrimSuffix(path, ".yaml") + ".golden"
		if *update {
			if err := os.WriteFile(golden, got, 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if line, a, b, same := firstDifference(got, want); !same {
			t.Errorf("%s:%d\n got: %s\nwant: %s", golden, line, a, b)
		}
	}
}

func firstDifference(got, want []byte) (line int, a, b string, same bool) {
	x, y := strings.Split(string(got), "\n"), strings.Split(string(want), "\n")
	for i := range max(len(x), len(y)) {
		a, b = "", ""
		if i < len(x) {
			a = x[i]
		}
		if i < len(y) {
			b = y[i]
		}
		if a != b {
			return i + 1, a, b, false
		}
	}
	return 0, "", "", true
}

// dump writes a result as text, all that is worked out here.
func dump(r *hazards.Result) []byte {
	var b bytes.Buffer
	p := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	p("document %s", r.Document)
	p("rows %v checks %v open %d", r.Counts.Rows, r.Counts.Checks, r.Counts.Open)
	p("\nFACTS")
	for _, f := range r.Facts {
		p("%s = %s used %s %s tol %v%s worse %q origin %s exact %q terms %s", f.Path, show(f.Value), show(f.Used), f.Unit, f.HasTol, num(f.Tol), f.Worse, f.Origin, f.Exact, terms(f.Terms))
	}
	p("\nCONTACTS")
	for _, c := range r.Contacts {
		p("%s %s shown %v: %s, %s\n  worst %s", c.ID, c.Class, c.Shown, c.Verdict, c.Why, r.Checks[c.Worst].ID)
	}
	p("\nCHECKS")
	for _, c := range r.Checks {
		p("%s [%s] %s: %s", c.ID, c.Sheet.ID, c.Verdict, c.Why)
		p("  model %v shadow %v points %v open %v", c.Model, c.Shadow, c.Points, c.Open)
		for _, in := range c.Inputs {
			p("  %s", input(in))
			for _, m := range in.Members {
				p("    %s", input(m))
			}
		}
		for _, res := range c.Sheet.Results {
			p("  -> %s %s", res.Name, res.Show(c.Outcome.Value(res.Name)))
		}
	}
	p("\nROWS")
	for _, row := range r.Rows {
		p("%s %v: %s, %s", row.ID, row.People, row.Status, row.Why)
		p("  before %s %s %s after %s %s %s rests %v points %v", row.Before.Score, row.Before.Level, row.Before.Action, row.After.Score, row.After.Level, row.After.Action, row.Rests, row.Points)
	}
	p("\nPOINTS")
	for _, x := range r.Points {
		p("%s of %s: %s, %s\n  limit %s\n  with %s", x.ID, x.Of, x.State, x.Why, x.Limit, x.With)
	}
	p("\nOPEN")
	for _, o := range r.Open {
		p("%s %s: %s", o.Kind, o.About, o.Message)
	}
	p("\nEVIDENCE of %s", r.Rows[0].ID)
	for _, l := range r.Rows[0].Evidence {
		p("%s", l)
	}
	return b.Bytes()
}

func input(in hazards.Input) string {
	s := fmt.Sprintf("%s = %s", in.Name, show(in.Value))
	if in.Pick != "" {
		s += " " + in.Pick
	}
	if in.Origin != "" {
		s += " " + in.Origin
	}
	return s + " " + terms(in.Terms)
}

func terms(list []hazards.Term) string {
	var out []string
	for _, t := range list {
		if t.Path == "" {
			out = append(out, num(t.Value))
		} else {
			out = append(out, t.Path+"*"+num(t.Factor))
		}
	}
	return "[" + strings.Join(out, " + ") + "]"
}

func show(v expr.Value) string {
	switch v.Kind {
	case expr.Number:
		return num(v.Num)
	case expr.Text:
		return v.Text
	}
	return "-"
}

func num(v float64) string { return fmt.Sprintf("%.12g", v) }

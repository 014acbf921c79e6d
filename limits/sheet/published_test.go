package sheet_test

import (
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/sheet"
	"standclear/limits/source"
)

// published is a file of testdata/published.
type published struct {
	source.Item
	Sources source.Map[struct {
		source.Item
		Title   string `yaml:"title,required"`
		Address string `yaml:"address,required"`
	}] `yaml:"sources"`
	Cases    []publishedCase `yaml:"cases,required"`
	NotTaken []struct {
		source.Item
		ID     string `yaml:"id,required"`
		Reason string `yaml:"reason,required"`
	} `yaml:"not_taken,required"`
}

type publishedCase struct {
	source.Item
	ID      string   `yaml:"id,required"`
	Sheet   string   `yaml:"sheet,required"`
	Edition string   `yaml:"edition"` // the default where there is none
	Kind    string   `yaml:"kind,required" choice:"published|derived|memory"`
	Source  []string `yaml:"source"`
	Note    string   `yaml:"note"`
	Rows    []struct {
		source.Item
		Inputs   source.Map[string] `yaml:"inputs,required"`
		Expected source.Map[string] `yaml:"expected,required"`
		Verdict  string             `yaml:"verdict"`
	} `yaml:"rows,required"`
}

// of is the sheet that takes the case.
func (c *publishedCase) of(lib *sheet.Library) *sheet.Sheet {
	if c.Edition == "" {
		return lib.Sheet(c.Sheet)
	}
	return lib.SheetOf(c.Sheet, c.Edition)
}

var publishedFiles = []string{"contact.yaml", "distances.yaml", "risk-and-performance.yaml"}

func readPublished(t *testing.T, name string) *published {
	t.Helper()
	path := "../../testdata/published/" + name
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var ps source.Problems
	var f published
	if n := source.Parse(name, data, &ps); n != nil {
		source.Decode(n, &f, &ps)
	}
	if ps.Len() > 0 {
		var b strings.Builder
		source.Render(&b, ps.List(), func(string) []byte { return data })
		t.Fatal(b.String())
	}
	return &f
}

// put sets an input; "0.3 s + 0.011 s" is the sum of its parts.
func put(s *sheet.Sheet, vals []expr.Value, name, text string) error {
	if head, tail, sum := strings.Cut(text, " + "); sum {
		total, err := quantity.Parse(head)
		if err != nil {
			return err
		}
		for part := range strings.SplitSeq(tail, " + ") {
			q, err := quantity.Parse(part)
			if err != nil {
				return err
			}
			if total, err = total.Add(q); err != nil {
				return err
			}
		}
		text = total.Canonical()
	}
	return s.Set(vals, name, text)
}

func TestPublishedCases(t *testing.T) {
	lib := library(t)
	for _, name := range publishedFiles {
		for _, c := range readPublished(t, name).Cases {
			t.Run(c.ID+"/"+c.Sheet, func(t *testing.T) {
				s := c.of(lib)
				if s == nil {
					t.Fatalf("%v: no sheet %s %s", c.Pos(), c.Sheet, c.Edition)
				}
				for _, r := range c.Rows {
					vals := s.Blank()
					for _, in := range r.Inputs {
						if err := put(s, vals, in.Key, in.Value); err != nil {
							t.Fatalf("%v: %v", in.Pos, err)
						}
					}
					o := s.Evaluate(vals)
					for _, want := range r.Expected {
						if err := meets(&o, want.Key, want.Value); err != nil {
							t.Errorf("%v: %v", want.Pos, err)
						}
					}
					if r.Verdict != "" && string(o.Verdict) != r.Verdict {
						t.Errorf("%v: verdict %s (%s), want %s", r.Pos(), o.Verdict, o.Why, r.Verdict)
					}
				}
			})
		}
	}
}

// meets compares a result with a text such as "512 mm ± 0.5 mm".
func meets(o *sheet.Outcome, name, text string) error {
	c, got := o.Sheet.Column(name), o.Value(name)
	if c == nil || !got.Given() {
		return fmt.Errorf("sheet %s gives no %s", o.Sheet.ID, name)
	}
	if c.Type.Kind == expr.Text {
		if got.Text != text {
			return fmt.Errorf("%s is %s, want %s", name, got.Text, text)
		}
		return nil
	}
	q, err := quantity.Parse(text)
	if err != nil {
		return err
	}
	if q.Tol == nil {
		return fmt.Errorf("%s: no tolerance in %s", name, text)
	}
	want, err := q.In(c.Type.Unit)
	if err != nil {
		return err
	}
	high, err := q.High().In(c.Type.Unit)
	if err != nil {
		return err
	}
	if off := math.Abs(got.Num - want); off > (high-want)*(1+1e-9)+1e-12*math.Abs(want) {
		return fmt.Errorf("%s is %v %s, want %s", name, got.Num, c.UnitName(), text)
	}
	return nil
}

// A case that is taken is an example of its sheet and the other way round, and
// nothing is both taken and left.
func TestExamplesArePublishedCases(t *testing.T) {
	lib := library(t)
	taken := map[string]bool{}
	for _, name := range publishedFiles {
		f := readPublished(t, name)
		sources, ids := map[string]bool{}, map[string]bool{}
		for _, s := range f.Sources {
			sources[s.Key] = true
		}
		for _, c := range f.Cases {
			s := c.of(lib)
			if s == nil {
				t.Errorf("%v: no sheet %s %s", c.Pos(), c.Sheet, c.Edition)
				continue
			}
			key := s.Key() + " " + name + " " + c.ID
			if taken[key] {
				t.Errorf("%v: %s stands there twice", c.Pos(), c.ID)
			}
			taken[key], ids[c.ID] = true, true
			if c.Kind == "published" && len(c.Source) == 0 {
				t.Errorf("%v: %s is published and names no source", c.Pos(), c.ID)
			}
			for _, k := range c.Source {
				if !sources[k] {
					t.Errorf("%v: no source %s", c.Pos(), k)
				}
			}
			named := func(e sheet.Example) bool { // those from memory do not count as published, so that the sheet has to say so
				return e.From == name && e.ID == c.ID && (e.Kind == c.Kind || e.Kind == "" && c.Kind != "memory")
			}
			if !slices.ContainsFunc(s.Examples, named) {
				t.Errorf("%v: sheet %s does not name the example {from: %s, id: %s, kind: %s}", c.Pos(), s.Key(), name, c.ID, c.Kind)
			}
		}
		for _, n := range f.NotTaken {
			if ids[n.ID] {
				t.Errorf("%v: %s is taken and not taken", n.Pos(), n.ID)
			}
			ids[n.ID] = true
		}
	}
	for _, s := range lib.Sheets {
		for _, e := range s.Examples {
			if !taken[s.Key()+" "+e.From+" "+e.ID] {
				t.Errorf("sheet %s: no case %s in %s for it", s.Key(), e.ID, e.From)
			}
		}
	}
}

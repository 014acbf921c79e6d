package json

import (
	"bytes"
	stdjson "encoding/json"
	"strings"
	"testing"

	"standclear/hazards"
	"standclear/hazards/file"
	"standclear/limits/sheet"
	"standclear/templates"
)

func library(t *testing.T) *sheet.Library {
	t.Helper()
	lib, problems := sheet.Load(templates.FS)
	if len(problems) > 0 {
		t.Fatal(problems[0].Message)
	}
	return lib
}

// calc works a sheet out and reads its JSON back.
func calc(t *testing.T, id string, given ...string) map[string]any {
	t.Helper()
	s := library(t).Sheet(id)
	vals := s.Blank()
	for _, g := range given {
		name, text, _ := strings.Cut(g, "=")
		if err := s.Set(vals, name, text); err != nil {
			t.Fatal(err)
		}
	}
	o := s.Evaluate(vals)
	var b bytes.Buffer
	if err := Calc(&b, &sheet.Corner{Outcome: o}); err != nil {
		t.Fatal(err)
	}
	var out map[string]any
	if err := stdjson.Unmarshal(b.Bytes(), &out); err != nil {
		t.Fatal(err)
	}
	return out
}

func at(t *testing.T, v any, keys ...string) any {
	t.Helper()
	for _, k := range keys {
		m, ok := v.(map[string]any)
		if !ok {
			t.Fatalf("no %s in %v", k, v)
		}
		v = m[k]
	}
	return v
}

// The distance of published case LC04 (0.311 s, 30 mm: 625.6 mm, printed 626)
// comes unrounded, in the unit beside it; texts come without a unit.
func TestCalc(t *testing.T) {
	out := calc(t, "light-curtain", "T=0.311 s", "d=30 mm", "under=no")
	if at(t, out, "results", "S", "value") != 625.6 || at(t, out, "results", "S", "unit") != "mm" {
		t.Errorf("S is %v", at(t, out, "results", "S"))
	}
	if at(t, out, "edition") != "iso-13855-2010" || at(t, out, "verdict") != "not-decided" || at(t, out, "why") == "" {
		t.Errorf("%v", out)
	}
	if in := at(t, out, "inputs", "under").(map[string]any); in["value"] != "no" || in["unit"] != nil {
		t.Errorf("under is %v", in)
	}
	level := calc(t, "required-level", "S=S2", "F=F2", "P=P1")
	if at(t, level, "results", "PL_r", "value") != "d" {
		t.Errorf("%v", level)
	}
}

// Beside the worst corner stands what comes out at the values as written.
func TestCorner(t *testing.T) {
	data, err := templates.FS.ReadFile("cells/demo.yaml")
	if err != nil {
		t.Fatal(err)
	}
	a, problems := file.Load("demo.yaml", data)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	r, problems := hazards.Assess(a, data, library(t), hazards.Options{Name: "demo", Version: "test"})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	n := 0
	var b bytes.Buffer
	if err := Check(&b, r, nil); err != nil {
		t.Fatal(err)
	}
	var out struct {
		Checks []struct {
			ID, Corner string
			Results    map[string]any
			Nominal    *struct {
				Verdict string
				Results map[string]any
			}
		}
	}
	if err := stdjson.Unmarshal(b.Bytes(), &out); err != nil {
		t.Fatal(err)
	}
	for _, c := range out.Checks {
		k := r.NominalOf(c.ID)
		if (k == nil) != (c.Nominal == nil) || (k == nil) != (c.Corner == "") {
			t.Errorf("%s: corner %q, nominal %v", c.ID, c.Corner, c.Nominal)
		} else if k != nil {
			n++
			if c.Nominal.Verdict != string(k.Outcome.Verdict) || len(c.Nominal.Results) != len(c.Results) {
				t.Errorf("%s: %+v", c.ID, c.Nominal)
			}
		}
	}
	if n < 20 {
		t.Errorf("only %d checks with tolerances", n)
	}
}

// What cannot be worked out is null and says why; a contact that is not
// permitted carries no speed, force or area.
func TestAbsentResults(t *testing.T) {
	out := calc(t, "contact-transient", "area=eye", "M=18 kg", "m_L=1 kg", "A=1 cm2", "v=100 mm/s")
	for _, name := range []string{"v_max", "F_limit", "F_peak", "p_peak", "E_limit"} {
		r := at(t, out, "results", name).(map[string]any)
		if v, there := r["value"]; !there || v != nil || r["why"] == "" {
			t.Errorf("%s is %v", name, r)
		}
	}
}

// Lists and ranges come as arrays.
func TestListsAndRanges(t *testing.T) {
	out := calc(t, "reach-over", "T=0.3 s", "a=700..1300 mm", "b=1400 mm")
	if a := at(t, out, "inputs", "a", "value").([]any); len(a) != 2 || a[0] != 700.0 || a[1] != 1300.0 {
		t.Errorf("a is %v", a)
	}
	chain := calc(t, "level-chain", "PFH=1e-8, 2e-8", "levels=d, d")
	if l := at(t, chain, "inputs", "levels", "value").([]any); len(l) != 2 {
		t.Errorf("levels are %v", l)
	}
}

// The whole result: counts agree with what is listed, and twice gives the same bytes.
func TestCheck(t *testing.T) {
	data, err := templates.FS.ReadFile("cells/demo.yaml")
	if err != nil {
		t.Fatal(err)
	}
	write := func() []byte {
		a, problems := file.Load("demo.yaml", data)
		if len(problems) > 0 {
			t.Fatal(problems[0].Message)
		}
		r, problems := hazards.Assess(a, data, library(t), hazards.Options{Name: "demo", Version: "test"})
		if len(problems) > 0 {
			t.Fatal(problems[0].Message)
		}
		var b bytes.Buffer
		if err := Check(&b, r, map[string]string{"demo.xlsx": "00"}); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	first := write()
	if !bytes.Equal(first, write()) {
		t.Error("two writes differ")
	}
	var out struct {
		Document string
		Counts   struct {
			Hazards, Checks map[string]int
			Findings, Open  int
		}
		Checks []struct {
			ID, Verdict string
			Beside      bool
		}
		Hazards  []struct{ ID, Status string }
		Findings []struct {
			ID    string
			Where struct {
				File         string
				Line, Column int
			}
		}
		Open     []any
		HandOver struct {
			Tell         []struct{ Row, Level string }
			Gaps         []struct{ Row string }
			Training     []struct{ Person string }
			Declarations []struct {
				Kind, About string
				Where       *string
			}
			TechnicalFile []struct {
				Kind  string
				Where *string
			} `json:"technical_file"`
		} `json:"hand_over"`
	}
	if err := stdjson.Unmarshal(first, &out); err != nil {
		t.Fatal(err)
	}
	verdicts, states := map[string]int{}, map[string]int{}
	for _, c := range out.Checks {
		if !c.Beside {
			verdicts[c.Verdict]++
		}
	}
	for _, h := range out.Hazards {
		states[h.Status]++
	}
	for word, n := range out.Counts.Checks {
		if verdicts[word] != n {
			t.Errorf("%d checks %s, counted %d", verdicts[word], word, n)
		}
	}
	for word, n := range out.Counts.Hazards {
		if states[word] != n {
			t.Errorf("%d rows %s, counted %d", states[word], word, n)
		}
	}
	if out.Document != "not-ready" || len(out.Findings) != out.Counts.Findings || len(out.Open) != out.Counts.Open {
		t.Errorf("%s, %d findings, %d open", out.Document, len(out.Findings), len(out.Open))
	}
	h := out.HandOver
	if len(h.Tell) == 0 || h.Tell[0].Row != "H-01" || h.Tell[0].Level != "low" || len(h.Gaps) == 0 || len(h.Training) != 8 {
		t.Errorf("hand-over: %+v", h)
	}
	if d := h.Declarations; len(d) < 2 || d[1].Kind != "robot-incorporation" || d[1].About != "arm" || d[1].Where != nil {
		t.Errorf("declarations: %+v", d)
	}
	if d := h.TechnicalFile; len(d) == 0 || d[0].Where == nil || *d[0].Where != "RA-0417 revision B" {
		t.Errorf("technical file: %+v", d)
	}
	for _, f := range out.Findings {
		if f.ID == "" || f.Where.File != "demo.yaml" || f.Where.Line < 1 || f.Where.Column < 1 {
			t.Errorf("%+v", f)
		}
	}
}

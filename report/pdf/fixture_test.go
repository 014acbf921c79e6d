package pdf

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	"standclear/hazards"
	"standclear/hazards/estimate"
	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/templates"
)

// fixture is a result made by hand: the writer is tested apart from the
// assessing that fills a result.
func fixture(t testing.TB) *hazards.Result {
	t.Helper()
	data, err := os.ReadFile("testdata/cell.yaml")
	if err != nil {
		t.Fatal(err)
	}
	a, problems := file.Load("cell.yaml", data)
	for _, p := range problems {
		t.Errorf("%s: %s", p.Pos, p.Message)
	}
	lib, problems := sheet.Load(templates.FS)
	for _, p := range problems {
		t.Errorf("%s: %s", p.Pos, p.Message)
	}
	if t.Failed() {
		t.FailNow()
	}
	r := &hazards.Result{
		File: a, Library: lib, Name: "cell", Version: "1.0", Document: hazards.NotReady,
		InputSHA256: strings.Repeat("0123456789abcdef", 4), Fingerprint: strings.Repeat("fedcba9876543210", 4),
	}
	r.Checks = []hazards.Check{
		check(t, lib, "hand-at-carton/palm-nd/jaws/jar", "contact-clamped", "hand-at-carton", map[string]any{"area": "palm-nd", "M": 18.2, "m_L": 1.31, "A": 1.4, "v": 155.0, "F_hold": 110.0}),
		check(t, lib, "face-at-belt/temple/jaws/jar", "contact-transient", "face-at-belt", map[string]any{"area": "temple", "M": 18.2, "m_L": 1.31, "A": 2.0, "v": 155.0}),
		check(t, lib, "face-at-belt/temple/jaws/jar/clamped", "contact-clamped", "face-at-belt", map[string]any{"area": "temple", "M": 18.2, "m_L": 1.31, "A": 2.0, "v": 155.0}),
		check(t, lib, "curtain-distance", "light-curtain", "curtain-distance", map[string]any{"T": 0.3, "d": 30.0, "C_RO": 0.0, "under": "no", "behind": "no", "available": 700.0}),
		check(t, lib, "gap-at-carton", "least-gap", "gap-at-carton", map[string]any{"part": "hand", "available": 120.0}),
		check(t, lib, "stop-on-curtain", "level-chain", "stop-on-curtain", map[string]any{"PFH_1": 1.8e-7, "levels_1": "d", "categories_1": "3", "required": "d", "required_category": "3"}),
		check(t, lib, "load", "payload", "load", map[string]any{"rated": 5.0, "tool": 0.9, "part": 0.41}),
	}
	r.Checks[2].Shadow = true
	for i := range r.Checks {
		c := &r.Checks[i]
		if p := strings.Split(c.ID, "/"); len(p) > 3 {
			c.Area, c.Tool, c.Part = p[1], p[2], p[3]
		}
	}
	for i, id := range []string{"hand-at-carton", "face-at-belt"} {
		k := r.Checks[i]
		r.Contacts = append(r.Contacts, hazards.Contact{Spec: &a.Contacts[i], ID: id, Task: "pack", Class: []string{"clamped", "free"}[i],
			Checks: [][]int{{0}, {1, 2}}[i], Worst: i, Verdict: k.Verdict, Why: k.Why})
	}
	r.Rows = []hazards.Row{{
		Spec: &a.Hazards[0], ID: "H-01", Task: "pack", People: []string{"packer"}, Status: hazards.RowProvisional, Why: "rests on a model that is not measured",
		Before: scored(3, 5, 3, 3), After: scored(1, 5, 3, 3), Rests: []string{"hand-at-carton"}, Findings: []string{"third-step-alone"},
	}}
	r.Method = &hazards.Method{ID: "hybrid", Title: "Hybrid", Standard: "ISO/TR 14121-2",
		Factors: []hazards.Factor{{ID: "Se", Title: "severity", Scores: []estimate.Score{{Score: "3", Means: "broken bone"}}}, {ID: "Fr", Title: "frequency"}, {ID: "Pr", Title: "probability"}, {ID: "Av", Title: "avoidance"}},
		Actions: []estimate.Action{{Level: "high", Action: "required", Means: "reduce"}}}
	r.Findings = []hazards.Finding{{ID: "third-step-alone", About: "H-01", Message: "v_max is not kept by information alone", WayOut: "set the speed in the safety configuration"}}
	r.Open = []hazards.OpenPoint{{Kind: "assumed", About: "hand-at-carton.area", Message: "A = 1.4 cm2 has no origin"}}
	r.Review = []hazards.ReviewItem{{Place: "eu", Clause: "Annex I, 1.3.7", Who: "appointed person", Because: "moving parts", Standing: "single"}}
	r.Points = []hazards.Point{{ID: "V-01", Of: "hand-at-carton", Spec: &a.Validation[0], Method: "force", State: hazards.PointMissing, Why: "no pressure was measured", Limit: "F 140 N, p 260 N/cm2", With: "arm.bench, jaws, jar"}}
	r.Sources = []hazards.SourceUse{{Key: "unimore", Title: "Lecture notes on contact limits", Address: "https://example.org/a/long/address/that/has/to/be/broken/somewhere/because/it/does/not/fit/into/the/column.html", Used: "contact-clamped", Standing: "confirmed"},
		{Key: "x", Title: "Common knowledge of nobody in particular", Used: "gap", Standing: "memory"}}
	r.Counts = hazards.Counts{Rows: []hazards.Count{{Word: hazards.RowProvisional, N: 1}}, Checks: count(r.Checks), Findings: 1, Open: 1}
	return r
}

func check(t testing.TB, lib *sheet.Library, id, name, of string, in map[string]any) hazards.Check {
	t.Helper()
	s := lib.Sheet(name)
	if s == nil {
		t.Fatalf("no sheet %s", name)
	}
	vals := s.Blank()
	c := hazards.Check{ID: id, Of: of, Task: "pack", Sheet: s}
	for _, col := range s.Columns {
		v, ok := in[col.Name]
		if !ok {
			continue
		}
		i := hazards.Input{Name: col.Name, Origin: "assumed"}
		switch v := v.(type) {
		case float64:
			i.Value = expr.Value{Kind: expr.Number, Num: v}
			i.Terms = []hazards.Term{{Path: "arm." + col.Name}}
			i.Origin = "datasheet"
		case string:
			i.Value = expr.Value{Kind: expr.Text, Text: v}
		}
		vals[col.Slot] = i.Value
		c.Inputs = append(c.Inputs, i)
	}
	o := s.Evaluate(vals)
	c.Outcome, c.Verdict, c.Why = &o, o.Verdict, o.Why
	return c
}

func scored(scores ...float64) hazards.Estimate {
	e := hazards.Estimate{Score: fmt.Sprint(len(scores) + 7), Level: "high", Action: "required", Done: true}
	for _, s := range scores {
		e.Scores = append(e.Scores, expr.Value{Kind: expr.Number, Num: s})
	}
	return e
}

func count(checks []hazards.Check) []hazards.Count {
	var out []hazards.Count
	for _, v := range sheet.Order {
		n := 0
		for i := range checks {
			if checks[i].Verdict == v {
				n++
			}
		}
		if n > 0 {
			out = append(out, hazards.Count{Word: string(v), N: n})
		}
	}
	return out
}

func write(t testing.TB, o Options, r *hazards.Result) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := o.Write(&b, r); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

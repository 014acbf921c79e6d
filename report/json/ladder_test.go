package json

import (
	"bytes"
	stdjson "encoding/json"
	"os"
	"testing"

	"standclear/hazards"
	"standclear/hazards/file"
)

// The speeds by body region say that they are not measured, and offer none where
// no contact is permitted.
func TestSpeeds(t *testing.T) {
	data, err := os.ReadFile("../../testdata/ok/points.yaml")
	if err != nil {
		t.Fatal(err)
	}
	a, problems := file.Load("points.yaml", data)
	if len(problems) > 0 {
		t.Fatal(problems[0].Message)
	}
	r, problems := hazards.Assess(a, data, library(t), hazards.Options{Name: "points", Version: "test"})
	if len(problems) > 0 {
		t.Fatal(problems[0].Message)
	}
	var b bytes.Buffer
	if err := Check(&b, r, nil); err != nil {
		t.Fatal(err)
	}
	type number struct {
		Value float64
		Unit  string
	}
	var out struct {
		Free []struct {
			Robot, State string
			Inputs       map[string]number
			Regions      []struct {
				Region, Verdict string
				V               *number `json:"v_max"`
			}
		} `json:"free_speeds"`
		Measured []struct {
			Task, Contact, Point string
			Speed                number
		} `json:"measured_speeds"`
	}
	if err := stdjson.Unmarshal(b.Bytes(), &out); err != nil {
		t.Fatal(err)
	}
	if len(out.Free) != 2 || len(out.Measured) != 1 || out.Measured[0].Speed != (number{86, "mm/s"}) {
		t.Fatalf("%+v, %+v", out.Free, out.Measured)
	}
	for _, l := range out.Free {
		if l.State != "free contact, unmeasured" || len(l.Regions) != 13 {
			t.Errorf("%s: %q, %d regions", l.Robot, l.State, len(l.Regions))
		}
		for _, g := range l.Regions {
			never := g.Region == "skull-forehead" || g.Region == "face" || g.Region == ""
			if offered := g.V != nil; offered && never || !offered && !never && l.Robot == "arm" || never == (g.Verdict == "unmeasured") {
				t.Errorf("%s %s: %v, %s", l.Robot, g.Region, g.V, g.Verdict)
			}
		}
	}
	if m := out.Free[0].Inputs["m_R"]; m != (number{9.9, "kg"}) {
		t.Errorf("m_R %v", m)
	}
}

package main

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"standclear/hazards"
	"standclear/hazards/file"
)

// eachStarter loads and judges every starter cell.
func eachStarter(t *testing.T, check func(t *testing.T, text string, r *hazards.Result)) {
	t.Helper()
	kinds := startKinds()
	if len(kinds) < 6 {
		t.Fatalf("starter cells: %v", kinds)
	}
	for _, kind := range kinds {
		t.Run(kind, func(t *testing.T) {
			data, err := starter(kind)
			if err != nil {
				t.Fatal(err)
			}
			a, problems := file.Load(kind+".yaml", data)
			for _, p := range problems {
				t.Errorf("%v: %s", p.Pos, p.Message)
			}
			if len(problems) > 0 {
				t.FailNow()
			}
			r, err := assessLoaded(kind+".yaml", a, data)
			if err != nil {
				t.Fatal(err)
			}
			check(t, string(data), r)
		})
	}
}

// TestStartersHoldWhatTheyTeach keeps every starter cell from losing a block.
func TestStartersHoldWhatTheyTeach(t *testing.T) {
	eachStarter(t, func(t *testing.T, text string, r *hazards.Result) {
		a := r.File
		counts(t, a)
		limitsOfUse(t, a.Limits)
		people(t, a.Cell.People)
		robots(t, a.Cell.Robots)
		functions(t, a.Cell.Functions)
		control(t, a.Cell.Control)
		tasks(t, a.Tasks)
		rows(t, r)
		if r.Document != hazards.NotReady {
			t.Errorf("a starter is unfinished by nature, and its document is %s", r.Document)
		}
		if !strings.Contains(text, "# Open: ") && !strings.Contains(text, "  # Open: ") {
			t.Error("no comment marks an open point")
		}
	})
}

func counts(t *testing.T, a *file.Assessment) {
	t.Helper()
	for _, c := range []struct {
		what        string
		n, from, to int
	}{
		{"modes", len(a.Cell.Modes), 2, 6},
		{"machines", len(a.Cell.Machines), 1, 6},
		{"tools", len(a.Cell.Tools), 1, 4},
		{"parts", len(a.Cell.Parts), 1, 4},
		{"safeguards", len(a.Cell.Safeguards), 4, 8},
		{"spaces", len(a.Cell.Spaces), 3, 8},
		{"contacts", len(a.Contacts), 3, 6},
		{"checks", len(a.Checks), 4, 8},
		{"rows", len(a.Hazards), 10, 16},
		{"entries that do not apply", len(a.NotApplicable), 1, 8},
		{"validation points", len(a.Validation), 4, 12},
	} {
		if c.n < c.from || c.n > c.to {
			t.Errorf("%s: %d, expected %d to %d", c.what, c.n, c.from, c.to)
		}
	}
}

func limitsOfUse(t *testing.T, l file.LimitsOfUse) {
	t.Helper()
	for what, text := range map[string]string{
		"intended use": l.Use.Intended, "reach": l.Space.Reach, "access": l.Space.Access, "paths": l.Space.Paths,
		"life": l.Time.Life, "materials": l.Other.Materials, "cleaning": l.Other.Cleaning, "environment": l.Other.Environment,
	} {
		if text == "" {
			t.Errorf("limits of use: no %s", what)
		}
	}
	if len(l.Use.Misuses) < 2 || len(l.Time.Upkeep) < 2 || len(l.Other.Conditions) == 0 {
		t.Errorf("limits of use: %d misuses, %d upkeep items, conditions %v", len(l.Use.Misuses), len(l.Time.Upkeep), l.Other.Conditions)
	}
}

func people(t *testing.T, list []file.People) {
	t.Helper()
	for _, kind := range []string{"operator", "setter", "maintenance", "cleaner", "bystander"} {
		if !slices.ContainsFunc(list, func(p file.People) bool { return p.Kind == kind }) {
			t.Errorf("people: no %s", kind)
		}
	}
}

func robots(t *testing.T, list []file.Robot) {
	t.Helper()
	if len(list) == 0 {
		t.Fatal("no robot")
	}
	for _, r := range list {
		if len(r.Settings) < 2 || len(r.Stopping) < 3 || r.Mounting == "" {
			t.Errorf("%s: %d settings, %d stop points, mounting %q", r.ID, len(r.Settings), len(r.Stopping), r.Mounting)
		}
		for _, s := range r.Settings {
			if s.Checksum == "" || s.Version == "" {
				t.Errorf("setting %s has no checksum or version", s.ID)
			}
		}
	}
}

func functions(t *testing.T, list []file.Function) {
	t.Helper()
	if len(list) < 4 {
		t.Errorf("%d functions", len(list))
	}
	for _, f := range list {
		if f.Required == nil || f.Required.Because == "" || len(f.Parts) == 0 || f.Kind == "" {
			t.Errorf("function %s lacks its required level with reason, its parts or its kind", f.ID)
		}
	}
}

// control wants most questions answered, and at least one left to answer.
func control(t *testing.T, c file.Control) {
	t.Helper()
	answers := []bool{len(c.EmergencyStop.Spans) > 0, c.Reset.Place != "", c.Restart.Automatic != "", c.Muting.Used != "",
		c.ModeSelection.By != "", c.PowerReturn.What != "", c.Release.How != "", c.Isolation.How != "", c.SettingsAccess.Who != "", c.AirReturn.What != ""}
	given := 0
	for _, yes := range answers {
		if yes {
			given++
		}
	}
	if given < 7 || given == len(answers) {
		t.Errorf("control: %d of %d questions answered", given, len(answers))
	}
}

func tasks(t *testing.T, list []file.Task) {
	t.Helper()
	has := func(kinds ...string) bool {
		return slices.ContainsFunc(list, func(k file.Task) bool { return slices.Contains(kinds, k.Kind) })
	}
	for _, kind := range []string{"running", "jam-clearing", "fault-finding", "cleaning", "service", "restart", "changeover"} {
		if !has(kind) {
			t.Errorf("tasks: none of kind %s", kind)
		}
	}
	if !has("loading", "hand-over") {
		t.Error("tasks: neither loading nor hand-over")
	}
}

// rows wants every row scored and with measures, most of them tied to the
// catalogue, some decided and some open, some hazards answered and some not.
func rows(t *testing.T, r *hazards.Result) {
	t.Helper()
	covering, decided := 0, 0
	for _, h := range r.File.Hazards {
		if len(h.Measures) == 0 || h.Family == "" {
			t.Errorf("row %s has no measure or no family", h.ID)
		}
		if len(h.Covers) > 0 {
			covering++
		}
		if h.Residual != nil {
			decided++
		}
	}
	all := len(r.File.Hazards)
	if 2*covering < all || decided < 2 || decided == all {
		t.Errorf("%d rows: %d name entries of the catalogue, %d are decided", all, covering, decided)
	}
	if r.Counts.OpenHazards == 0 || r.Counts.OpenHazards == r.Counts.Hazards {
		t.Errorf("hazards of the catalogue: %d of %d open", r.Counts.OpenHazards, r.Counts.Hazards)
	}
	for _, p := range r.Points {
		if p.State == hazards.PointPlanned {
			return
		}
	}
	t.Error("no validation point is planned")
}

// marks are the comments that announce a verdict which does not hold.
var marks = map[string]string{"over": "Over", "not-permitted": "Not permitted", "not-decided": "Not decided", "needs-copy": "Needs a copy", "outside": "Outside"}

// TestStartersSayWhatDoesNotHold holds the comments against the verdicts: what
// fails is announced right above, and nothing else is. Some checks must hold.
func TestStartersSayWhatDoesNotHold(t *testing.T) {
	eachStarter(t, func(t *testing.T, text string, r *hazards.Result) {
		above := commentsAbove(text)
		holding, failing := 0, 0
		judge := func(id, verdict string) {
			announced := ""
			for v, mark := range marks {
				if strings.Contains(above[id], "# "+mark) {
					announced = v
				}
			}
			wanted := ""
			if marks[verdict] != "" {
				wanted = verdict
				failing++
			} else {
				holding++
			}
			if announced != wanted {
				t.Errorf("%s is %s, and the comment above announces %q", id, verdict, announced)
			}
		}
		for _, c := range r.Contacts {
			judge(c.ID, string(c.Verdict))
		}
		for _, c := range r.Checks {
			if r.Contact(c.Of) == nil {
				judge(c.ID, string(c.Verdict))
			}
		}
		if holding < 5 || failing < 3 {
			t.Errorf("%d checks hold, %d do not", holding, failing)
		}
	})
}

var itemLine = regexp.MustCompile(`^\s*- \{?id: ([A-Za-z0-9-]+)`)

// commentsAbove gives the comment lines right above each item, by its id.
func commentsAbove(text string) map[string]string {
	out, run := map[string]string{}, ""
	for _, line := range strings.Split(text, "\n") {
		if strings.HasPrefix(strings.TrimSpace(line), "#") {
			run += line + "\n"
			continue
		}
		if m := itemLine.FindStringSubmatch(line); m != nil {
			out[m[1]] = run
		}
		run = ""
	}
	return out
}

// TestStartersDiffer keeps the starter cells from being one cell six times.
func TestStartersDiffer(t *testing.T) {
	places, titles, tools := map[string]bool{}, map[string]bool{}, map[string]bool{}
	eachStarter(t, func(t *testing.T, text string, r *hazards.Result) {
		a := r.File
		if titles[a.Head.Title] || titles[a.Head.Number] {
			t.Errorf("title or number of %s is taken", r.Name)
		}
		titles[a.Head.Title], titles[a.Head.Number] = true, true
		for _, p := range a.Head.Places {
			places[p] = true
		}
		var kinds []string
		for _, m := range a.Cell.Machines {
			kinds = append(kinds, m.Kind)
		}
		for _, m := range a.Cell.Tools {
			kinds = append(kinds, m.Kind)
		}
		if mix := strings.Join(kinds, " "); tools[mix] {
			t.Errorf("machines and tools are those of another starter: %s", mix)
		} else {
			tools[mix] = true
		}
	})
	if len(places) < 5 {
		t.Errorf("only %d places", len(places))
	}
}

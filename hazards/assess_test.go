package hazards_test

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"standclear/hazards"
	"standclear/hazards/hazardstest"
	"standclear/limits/sheet"
)

// checkIDs lists the checks of a contact, those that only stand beside with a star.
func checkIDs(r *hazards.Result, contact string) []string {
	var out []string
	for _, i := range r.Contact(contact).Checks {
		id := strings.TrimPrefix(r.Checks[i].ID, contact+"/")
		if r.Checks[i].Shadow {
			id += "*"
		}
		out = append(out, id)
	}
	return out
}

func TestContactsExpand(t *testing.T) {
	for _, tt := range []struct {
		name, find, put, contact string
		want                     []string
	}{
		{"areas in the order of the table, times parts of the task", "", "", "hand",
			[]string{"palm-d/jaws/tin", "palm-d/jaws/full-tin", "back-of-hand-nd/jaws/tin", "back-of-hand-nd/jaws/full-tin"}},
		{"a region gives all its areas", "areas: [skull-forehead]", "areas: [chest, temple, pectoral-muscle]", "head",
			[]string{"temple/jaws/tin", "sternum/jaws/tin", "pectoral-muscle/jaws/tin"}},
		{"tools of the contact", "tools: [hook], parts: []", "tools: [hook, jaws], parts: [tin]", "hooked",
			[]string{"palm-d/hook/tin", "palm-d/jaws/tin"}},
		{"no parts by choice", "", "", "hooked", []string{"palm-d/hook/none"}},
		{"no tool anywhere", "", "", "bare", []string{"deltoid/none/none"}},
		{"jaws take the gripper whose jaws close", "", "", "pinch", []string{"thenar/jaws/none"}},
		{"nothing claimed counts as held", "", "", "unsaid", []string{"deltoid/jaws/tin"}},
		{"free and shown", "", "", "hands-free", []string{"back-of-hand-nd/jaws/tin"}},
		{"free, gap a little too small", "gap: {is: 100 mm, from: measured}}, head: {reach: no, because: low plane}, areas: [back-of-hand-nd]", "gap: {is: 99.9 mm, from: measured}}, areas: [back-of-hand-nd]", "hands-free",
			[]string{"back-of-hand-nd/jaws/tin*", "back-of-hand-nd/jaws/tin/clamped"}},
		{"free, gap too small at the end of its tolerance", "gap: {is: 100 mm, from: measured}}, head: {reach: no, because: low plane}, areas: [back-of-hand-nd]", "gap: {is: 104 mm ± 5 mm, from: measured}}, areas: [back-of-hand-nd]", "hands-free",
			[]string{"back-of-hand-nd/jaws/tin*", "back-of-hand-nd/jaws/tin/clamped"}},
		{"free, no gap stated", "free: {gap: {is: 100 mm, from: measured}}", "free: {because: nothing near}", "hands-free",
			[]string{"back-of-hand-nd/jaws/tin*", "back-of-hand-nd/jaws/tin/clamped"}},
		{"free, the gap shows one region and not the other", "", "", "arms",
			[]string{"sternum/jaws/tin*", "sternum/jaws/tin/clamped", "radial-bone/jaws/tin"}},
	} {
		data := cell(t)
		if tt.find != "" {
			data = cell(t, tt.find, tt.put)
		}
		if got := checkIDs(result(t, data), tt.contact); !slices.Equal(got, tt.want) {
			t.Errorf("%s:\n got %v\nwant %v", tt.name, got, tt.want)
		}
	}
}

func TestWorstCheckGoverns(t *testing.T) {
	worst := func(r *hazards.Result, id string) string { return r.Checks[r.Contact(id).Worst].ID }
	r := result(t, cell(t, "of: hand, method: force", "of: foot, method: force"))
	if got := worst(r, "hand"); got != "hand/back-of-hand-nd/jaws/full-tin" {
		t.Errorf("highest use of the pressure limit: %s", got)
	}
	if got := worst(r, "head"); got != "head/forehead/jaws/tin" {
		t.Errorf("of equals the first of the table: %s", got)
	}
	// the measurement is over for the heavier tin alone: verdict before use
	r = result(t, cell(t, "pressure: {peak: 90 N/cm2}, speed: 112 mm/s, tool: jaws, part: full-tin", "pressure: {peak: 210 N/cm2}, speed: 112 mm/s, tool: jaws, part: tin"))
	if c := r.Contact("hand"); c.Verdict != sheet.Over || !strings.HasPrefix(worst(r, "hand"), "hand/back-of-hand-nd") {
		t.Errorf("%s, %s", c.Verdict, worst(r, "hand"))
	}
	// what only stands beside never governs, even where it is the worse one
	r = result(t, cell(t, "free: {gap: {is: 100 mm, from: measured}}", "free: {because: nothing near}",
		"speed: arm.bench.tcp_speed, parts: [tin]}\n  - {id: pinch", "speed: arm.bench.tcp_speed, push: arm.bench.force, parts: [tin]}\n  - {id: pinch",
		"force: {peak: 75 N, steady: 60 N, runs: 10}, speed: 112 mm/s, tool: jaws, part: tin, clamped: no",
		"force: {peak: 75 N, steady: 60 N, runs: 10}, pressure: {peak: 90 N/cm2}, speed: 112 mm/s, tool: jaws, part: tin, clamped: yes"))
	if c := r.Contact("hands-free"); c.Verdict != sheet.WithinMeasured || r.Checks[c.Worst].Shadow {
		t.Errorf("%s by %s", c.Verdict, worst(r, "hands-free"))
	}
}

func TestMeasurementDecides(t *testing.T) {
	for _, tt := range []struct {
		name, find, put string
		want            sheet.Verdict
	}{
		{"covers", "", "", sheet.WithinMeasured},
		{"slower than the limit with its tolerance", "speed: 112 mm/s, tool: jaws, part: full-tin", "speed: 109 mm/s, tool: jaws, part: full-tin", sheet.WithinModel},
		{"other configuration", "checksum: AA11, date: 2026-10-01}\n  - {id: V-force", "checksum: BB22, date: 2026-10-01}\n  - {id: V-force", sheet.WithinModel},
		{"lighter part", "part: full-tin, body_area", "part: tin, body_area", sheet.WithinModel},
		{"force alone", "pressure: {peak: 90 N/cm2}, speed: 112 mm/s, tool: jaws, part: full-tin", "speed: 112 mm/s, tool: jaws, part: full-tin", sheet.WithinModel},
		{"above a limit", "pressure: {peak: 90 N/cm2}, speed: 112 mm/s, tool: jaws, part: full-tin", "pressure: {peak: 191 N/cm2}, speed: 112 mm/s, tool: jaws, part: full-tin", sheet.Over},
	} {
		data := cell(t)
		if tt.find != "" {
			data = cell(t, tt.find, tt.put)
		}
		if got := result(t, data).Contact("hand"); got.Verdict != tt.want {
			t.Errorf("%s: %s (%s), want %s", tt.name, got.Verdict, got.Why, tt.want)
		}
	}
}

func TestToleranceCountsAtItsWorseEnd(t *testing.T) {
	r := result(t, cell(t))
	for path, want := range map[string]float64{"arm.bench.tcp_speed": 110, "arm.bench.force": 100, "hand.speed": 110, "arm.stop-half.time": 0.21} {
		if f := r.Fact(path); f.Used.Num != want || f.Worse != "up" {
			t.Errorf("%s: used %v, worse %q; want %v", path, f.Used.Num, f.Worse, want)
		}
	}
	c := r.Check("hand/palm-d/jaws/tin")
	if v := c.Outcome.Values[c.Sheet.Input("v").Slot].Num; v != 110 {
		t.Errorf("the contact is worked out at %v mm/s", v)
	}
	// 100 N of push stand against 150 N; 130 N ± 25 N do not
	over := result(t, cell(t, "force: 80 N ± 20 N", "force: 130 N ± 25 N")).Check("hand/palm-d/jaws/tin")
	if over.Verdict != sheet.Over && over.Verdict != sheet.WithinMeasured {
		t.Errorf("%s", over.Verdict)
	}
	if over.Outcome.Verdict != sheet.Over {
		t.Errorf("a push of 155 N is %s", over.Outcome.Verdict)
	}
}

func TestStoppingGrid(t *testing.T) {
	term := func(r *hazards.Result) string {
		for _, in := range r.Check("field").Inputs {
			if in.Name == "T" {
				return in.Terms[len(in.Terms)-1].Path
			}
		}
		return ""
	}
	for _, tt := range []struct{ name, find, put, want string }{
		{"next worse point", "", "", "arm.stop-half.time"},
		{"a little heavier", "load: {is: 50 %, from: measured}", "load: {is: 50.1 %, from: measured}", "arm.stop-full.time"},
		{"heavier at the end of its tolerance", "load: {is: 50 %, from: measured}", "load: {is: 49 % ± 2 %, from: measured}", "arm.stop-full.time"},
		{"a share that is not stated counts in full", "load: {is: 50 %, from: measured}, speed: 40 %,", "load: {is: 50 %, from: measured},", "arm.stop-full.time"},
	} {
		data := cell(t)
		if tt.find != "" {
			data = cell(t, tt.find, tt.put)
		}
		if got := term(result(t, data)); got != tt.want {
			t.Errorf("%s: %s, want %s", tt.name, got, tt.want)
		}
	}
	c := result(t, cell(t)).Check("heavy-field")
	if c.Verdict != sheet.NotDecided || !strings.HasPrefix(c.Why, "no stop data as bad as") {
		t.Errorf("beyond the grid: %s, %s", c.Verdict, c.Why)
	}
}

// Raising the speed of a contact, by any setting, never makes a verdict better.
func TestMoreSpeedNeverBettersAVerdict(t *testing.T) {
	var before *hazards.Result
	for _, v := range []int{5, 20, 60, 110, 150, 185, 190, 230, 300, 500, 1000, 1400, 2800, 6000} {
		r := result(t, cell(t, "tcp_speed: 0.1 m/s ± 10 mm/s", fmt.Sprintf("tcp_speed: %d mm/s", v)))
		for i := range r.Contacts {
			if before == nil {
				continue
			}
			if was, is := before.Contacts[i].Verdict, r.Contacts[i].Verdict; was.Worse(is) {
				t.Errorf("%s: %s, and at %d mm/s %s", r.Contacts[i].ID, was, v, is)
			}
		}
		before = r
	}
}

func fingerprints(r *hazards.Result) map[string]string {
	out := map[string]string{"document": r.Fingerprint}
	for _, row := range r.Rows {
		out[row.ID] = row.Fingerprint
	}
	return out
}

func moved(t *testing.T, find, put string) []string {
	t.Helper()
	was, is := fingerprints(result(t, cell(t))), fingerprints(result(t, cell(t, find, put)))
	var out []string
	for id := range was {
		if was[id] != is[id] {
			out = append(out, id)
		}
	}
	slices.Sort(out)
	return out
}

func TestFingerprintsMoveWithWhatTheyRestOn(t *testing.T) {
	for _, tt := range []struct {
		name, find, put string
		want            []string
	}{
		{"a comment", "tasks:\n", "tasks:   # what people do\n", nil},
		{"order of keys", "{id: hook, kind: other, mass: {is: 0.5 kg, from: measured}, edges: point}", "{kind: other, edges: point, mass: {from: measured, is: 0.5 kg}, id: hook}", nil},
		{"another unit", "tcp_speed: 0.1 m/s ± 10 mm/s", "tcp_speed: 100 mm/s ± 1 cm/s", nil},
		{"another unit in a check", "available: {is: 2 m, from: measured}}}\n  - {id: near", "available: {is: 2000 mm, from: measured}}}\n  - {id: near", nil},
		{"quotes and wrapping", "harm: bruise\n", "harm: >-\n      bruise\n", nil},
		{"a score as a decimal", "after: {Se: 1, Fr: 5, Pr: 2, Av: 3}\n", "after: {Se: 1.0, Fr: 5, Pr: 2, Av: 3}\n", nil},
		{"speed", "tcp_speed: 0.1 m/s ± 10 mm/s", "tcp_speed: 0.1 m/s ± 9 mm/s", []string{"H-01", "H-02", "H-09", "document"}},
		{"mass of a part of one task", "mass: {is: 400 g, from: measured}", "mass: {is: 410 g, from: measured}", []string{"H-01", "H-02", "H-09", "document"}},
		{"only the origin", "moving_mass: {is: 12 kg, from: datasheet", "moving_mass: {is: 12 kg, from: measured", []string{"H-01", "H-02", "H-09", "document"}},
		{"stop time", "time: 0.20 s ± 0.01 s", "time: 0.20 s", []string{"H-02", "document"}},
		{"gap of a check", "given: {part: hand, available: {is: 110 mm", "given: {part: hand, available: {is: 111 mm", []string{"H-03", "H-10", "H-11", "document"}},
		{"a score", "after: {Se: 1, Fr: 5, Pr: 2, Av: 3}\n", "after: {Se: 1, Fr: 5, Pr: 1, Av: 3}\n", []string{"H-01", "document"}},
		{"a measure", "what: setting bench", "what: setting draft", []string{"H-01", "document"}},
		{"a measurement", "pressure: {peak: 90 N/cm2}, speed: 112 mm/s, tool: jaws, part: full-tin", "pressure: {peak: 91 N/cm2}, speed: 112 mm/s, tool: jaws, part: full-tin", []string{"H-01", "document"}},
		{"limits of use", "life: 10 years", "life: 12 years", []string{"document"}},
		{"who signed", "prepared_by: {", "checked_by: {name: N. N., role: engineer}\n  prepared_by: {", nil},
		{"when it is put into service", "put_into_service: 2027", "put_into_service: 2028", []string{"document"}},
		{"people of the cell", "kind: operator}", "kind: operator, training: none}", []string{"document"}},
		{"an answer not applicable", "tins arrive at room temperature", "tins arrive cold", []string{"document"}},
	} {
		if got := moved(t, tt.find, tt.put); !slices.Equal(got, tt.want) {
			t.Errorf("%s moves %v, want %v", tt.name, got, tt.want)
		}
	}
	if got := moved(t, "checksum: AA11, version", "checksum: CC33, version"); len(got) < 4 {
		t.Errorf("another configuration moves only %v", got)
	}
}

func TestEvidenceIsSortedAndOneLineEach(t *testing.T) {
	for _, row := range result(t, cell(t)).Rows {
		if !slices.IsSorted(row.Evidence) || len(slices.Compact(slices.Clone(row.Evidence))) != len(row.Evidence) {
			t.Errorf("%s: lines are not sorted or not each once", row.ID)
		}
		for _, l := range row.Evidence {
			if path, value, ok := strings.Cut(l, " = "); !ok || path == "" || strings.ContainsAny(value, "\n\t") {
				t.Errorf("%s: %q", row.ID, l)
			}
		}
	}
}

func TestSameInputSameResult(t *testing.T) {
	data := cell(t)
	a, b := result(t, data), result(t, data)
	if !slices.Equal(dump(a), dump(b)) {
		t.Error("two dumps of one input differ")
	}
	for _, part := range []struct {
		name string
		x, y any
	}{{"facts", a.Facts, b.Facts}, {"findings", a.Findings, b.Findings}, {"open points", a.Open, b.Open}, {"points", plain(a.Points), plain(b.Points)},
		{"sources", a.Sources, b.Sources}, {"review", a.Review, b.Review}, {"fingerprints", fingerprints(a), fingerprints(b)}} {
		if !reflect.DeepEqual(part.x, part.y) {
			t.Errorf("%s differ", part.name)
		}
	}
}

// plain leaves out the pointers into the file.
func plain(points []hazards.Point) []hazards.Point {
	out := slices.Clone(points)
	for i := range out {
		out[i].Spec = nil
	}
	return out
}

func TestSourcesInUse(t *testing.T) {
	r := result(t, cell(t))
	var keys []string
	for _, s := range r.Sources {
		keys = append(keys, s.Key)
		if _, known := r.Library.Source(s.Key); known && (s.Address == "" || s.Used == "") {
			t.Errorf("%s: address %q, used for %q", s.Key, s.Address, s.Used)
		}
	}
	for _, want := range []string{"ISO/TS 15066:2016", "ISO 13855:2010", "ISO 13849-1:2023", "ISO/TR 14121-2:2012", "unimore", "festo13"} {
		if !slices.Contains(keys, want) {
			t.Errorf("%s is not listed", want)
		}
	}
	for _, s := range r.Sources {
		if s.Key == "ISO/TR 14121-2:2012" && s.Standing != "memory" {
			t.Errorf("zones from memory stand as %s", s.Standing)
		}
	}
}

// small is an assessment against which nothing speaks but what its rows rest on.
func small(t *testing.T, size hazardstest.Size, changes ...string) *hazards.Result {
	t.Helper()
	text := string(hazardstest.YAML(size))
	for i := 0; i < len(changes); i += 2 {
		if !strings.Contains(text, changes[i]) {
			t.Fatalf("%q is not in the assessment", changes[i])
		}
		text = strings.ReplaceAll(text, changes[i], changes[i+1])
	}
	return result(t, []byte(text))
}

// aside sets every hazard of the catalogue that r asks about aside but those named.
func aside(r *hazards.Result, but ...string) string {
	text := "not_applicable:\n"
	for i := range r.Hazards {
		s := &r.Hazards[i]
		if slices.Contains(but, s.Entry.ID) {
			continue
		}
		var of []string
		cell := false
		for _, w := range s.Witnesses {
			if w.Collection == "cell" {
				cell = true
			} else {
				of = append(of, w.ID)
			}
		}
		if cell {
			text += "  - {entry: " + s.Entry.ID + ", because: of no account here}\n"
		}
		if of != nil {
			text += "  - {entry: " + s.Entry.ID + ", of: [" + strings.Join(of, ", ") + "], because: of no account here}\n"
		}
	}
	return text
}

func TestStateOfARow(t *testing.T) {
	size := hazardstest.Size{Hazards: 1, Contacts: 1, Points: 1}
	for _, tt := range []struct {
		name    string
		size    hazardstest.Size
		changes []string
		want    string
	}{
		{"measured and accepted", size, nil, hazards.RowReduced},
		{"accepted on the model", hazardstest.Size{Hazards: 1, Contacts: 1}, nil, hazards.RowProvisional},
		{"on the model, to be decided after measurement", hazardstest.Size{Hazards: 1, Contacts: 1}, []string{decision, ""}, hazards.RowProvisional},
		{"drafted and accepted by one", size, []string{"by: N. Ito", "by: l.  brandt"}, hazards.RowRefused},
		{"level that needs action", size, []string{"after: {Se: 1, Fr: 5", "after: {Se: 4, Fr: 5"}, hazards.RowRefused},
		{"contact above its limit", size, []string{"peak: 60 N/cm2", "peak: 600 N/cm2"}, hazards.RowRefused},
		{"score left out", size, []string{"after: {Se: 1, ", "after: {"}, hazards.RowOpen},
	} {
		if row := small(t, tt.size, tt.changes...).Rows[0]; row.Status != tt.want || row.Why == "" {
			t.Errorf("%s: %s (%s), want %s", tt.name, row.Status, row.Why, tt.want)
		}
	}
}

const decision = "    residual: {decision: accept, by: N. Ito, role: plant safety, date: 2026-09-14, why: bruise at most, inform: {manual: section 6, to: [setter-up]}}\n"

func TestStateOfTheDocument(t *testing.T) {
	size := hazardstest.Size{Hazards: 1, Contacts: 1, Points: 1, Checks: 1}
	model := hazardstest.Size{Hazards: 1, Contacts: 1, Checks: 1}
	for _, tt := range []struct {
		name    string
		size    hazardstest.Size
		changes []string
		want    string
	}{
		{"all measured and decided", size, []string{"available: {is: 1500 mm", "available: {is: 2500 mm"}, hazards.ReadyForReview},
		{"only measurement is missing", model, []string{decision, "", "available: {is: 1500 mm", "available: {is: 2500 mm"}, hazards.ReadyToMeasure},
		{"a row is undecided", size, []string{decision, "", "available: {is: 1500 mm", "available: {is: 2500 mm"}, hazards.NotReady},
		{"a check no row rests on is over", size, []string{"available: {is: 1500 mm", "available: {is: 100 mm", ", D-1]", "]"}, hazards.NotReady},
		{"a finding", size, []string{"pose: lowest point, ", "", "available: {is: 1500 mm", "available: {is: 2500 mm"}, hazards.NotReady},
		{"accepted on the model", model, []string{"available: {is: 1500 mm", "available: {is: 2500 mm"}, hazards.NotReady},
		{"no rows", hazardstest.Size{Contacts: 1, Points: 1}, nil, hazards.NotReady},
	} {
		if r := small(t, tt.size, append(tt.changes, "hazards:\n", aside(small(t, tt.size))+"hazards:\n")...); r.Document != tt.want {
			t.Errorf("%s: %s, want %s; findings %v, counts %v", tt.name, r.Document, tt.want, r.Findings, r.Counts)
		}
	}
}

// A hazard of the catalogue that nothing answers keeps the document from being ready.
func TestOpenHazardStandsAgainstRelease(t *testing.T) {
	size := hazardstest.Size{Hazards: 1, Contacts: 1, Points: 1, Checks: 1}
	enough := []string{"available: {is: 1500 mm", "available: {is: 2500 mm"}
	r := small(t, size, append(enough, "hazards:\n", aside(small(t, size), "jaws-close-on-finger")+"hazards:\n")...)
	if r.Document != hazards.NotReady || r.Counts.OpenHazards != 1 || len(r.Against) != 1 || !strings.Contains(r.Against[0].Why, "jaws-close-on-finger") {
		t.Errorf("%s, %d open, against %v", r.Document, r.Counts.OpenHazards, r.Against)
	}
	r = small(t, size, append(enough, "hazards:\n", aside(small(t, size), "jaws-close-on-finger")+"hazards:\n", "    family: mechanical\n", "    family: mechanical\n    covers: [jaws-close-on-finger]\n")...)
	if r.Document != hazards.ReadyForReview || r.Counts.OpenHazards != 0 {
		t.Errorf("with a row that answers it: %s, %d open", r.Document, r.Counts.OpenHazards)
	}
}

func TestGeneratedAssessmentsLoad(t *testing.T) {
	for _, size := range []hazardstest.Size{{}, {Hazards: 3}, {Contacts: 7, Points: 9}, {Hazards: 20, Contacts: 7, Checks: 5, Points: 3}} {
		r := small(t, size)
		if len(r.Rows) != size.Hazards || len(r.Contacts) != size.Contacts || len(r.Checks) != size.Contacts+size.Checks+2 {
			t.Errorf("%+v: %d rows, %d contacts, %d checks", size, len(r.Rows), len(r.Contacts), len(r.Checks))
		}
	}
}

// A stopping grid is looked up for a check; a contact cannot choose the point.
func TestGridWhereThereIsNoCheck(t *testing.T) {
	r := result(t, cell(t, "response: {is: 80 ms, from: datasheet}", "response: arm.stopping.time"))
	c := r.Check("field")
	if c.Verdict != sheet.NotDecided || !strings.Contains(c.Why, "T rests on a stopping grid") {
		t.Errorf("%s: %s", c.Verdict, c.Why)
	}
}

func TestCheckOfAContactSheet(t *testing.T) {
	r := result(t, cell(t, "  - {id: gap, sheet: least-gap, given: {part: hand, available: {is: 110 mm, from: measured}}}",
		"  - {id: gap, sheet: jaw-pinch, given: {area: thenar, F_grip: jaws.greatest_force, A: {is: 1 cm2, from: measured}}}"))
	if c := r.Check("gap"); c.Verdict != sheet.WithinModel || !c.Model || c.Area != "thenar" {
		t.Errorf("%s, model %v, area %s", c.Verdict, c.Model, c.Area)
	}
}

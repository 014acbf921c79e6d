package identify_test

import (
	"strings"
	"testing"

	"standclear/hazards/file"
	"standclear/limits/expr"
)

// What a machine is moved by decides what is asked of it and of its stop.
func TestDrivenMachines(t *testing.T) {
	entry := func(id, each, where string) string {
		return "  " + id + `: {family: mechanical, tasks: [running], situation: s, event: e, harm: h, body: [hand], measures: {design: d},
    rules: [{each: ` + each + `, where: "` + where + `", because: "` + id + `{id}"}], standing: practice}` + "\n"
	}
	c, problems := own(t, "entries:\n"+entry("by-hand", "machines", "driven = 'no'")+entry("by-drive", "machines", "driven = 'yes'")+
		entry("unsaid", "machines", "driven = 'unknown'")+entry("two-driven", "cell", "cell_driven_machine_count = 2")+
		entry("one-missed", "cell", "cell_estop_spans = 'part'")+entry("rides", "cell", "has(cell_mountings,'linear-axis')"))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	for _, tt := range []struct{ spans, want string }{
		{"[arm, belt, press]", "by-handtable by-drivebelt unsaidpress two-driven rides"},
		{"[arm, belt]", "by-handtable by-drivebelt unsaidpress two-driven one-missed rides"},
	} {
		a, problems := file.Load("cell.yaml", []byte(strings.NewReplacer("HAZARDS", "[]",
			"moving_mass: 12 kg}]", `mounting: linear-axis}]
  machines: [{id: table, kind: turntable, energies: [spring, gravity]}, {id: belt, kind: conveyor, energies: [gravity, electric]}, {id: press, kind: press}]
  control: {emergency_stop: {spans: `+tt.spans+`}}`).Replace(base)))
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		var got []string
		for _, s := range c.Suggest(a, func(string) expr.Value { return expr.Value{} }) {
			got = append(got, s.Why())
		}
		if g := strings.Join(got, " "); g != tt.want {
			t.Errorf("spans %s: %s, want %s", tt.spans, g, tt.want)
		}
	}
}

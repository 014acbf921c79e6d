package proof

import (
	"strings"
	"testing"

	"standclear/limits/sheet"
)

func p(v float64) *float64 { return &v }

// held is a hand held against something, jaws with a jar at 155 mm/s.
func held() Case {
	return Case{
		Clamped: true, Speed: 155, Tool: "jaws", Part: "jar", PartMass: 0.41, Area: "palm-d", Region: "hands-fingers",
		Checksum: "4C1D", K: 75, ForcePeak: 280, ForceSteady: 140, PressurePeak: 520, PressureSteady: 260,
	}
}

func free() Case {
	c := held()
	c.Clamped = false
	return c
}

func jaws() Case {
	c := held()
	c.Clamped, c.Jaws, c.Part, c.Speed, c.Checksum = false, true, "", 0, ""
	return c
}

// taken is a measurement that covers held and is within.
func taken() Measured {
	return Measured{
		Clamped: "yes", Speed: 155, Tool: "jaws", Part: "jar", PartMass: 0.41, Area: "back-of-hand-d", Region: "hands-fingers",
		Checksum: "4C1D", Stiffness: 75, Peak: p(160), Steady: p(90), Pressure: p(120),
	}
}

func TestCovers(t *testing.T) {
	for _, tt := range []struct {
		name   string
		c      Case
		change func(m *Measured)
		gap    string // "": covers
	}{
		{"the same", held(), func(m *Measured) {}, ""},
		{"faster", held(), func(m *Measured) { m.Speed = 170 }, ""},
		{"slower", held(), func(m *Measured) { m.Speed = 150 }, "speed: 150 mm/s measured, 155 mm/s can occur"},
		{"as fast but for noise", held(), func(m *Measured) { m.Speed = 155 * (1 - 1e-15) }, ""},
		{"speed not said", held(), func(m *Measured) { m.Speed = 0 }, "speed: not said"},
		{"other tool", held(), func(m *Measured) { m.Tool = "cups" }, "tool: `cups` measured"},
		{"tool not said", held(), func(m *Measured) { m.Tool = "" }, "tool: not said"},
		{"heavier part", held(), func(m *Measured) { m.Part, m.PartMass = "tall-jar", 0.62 }, ""},
		{"lighter part", held(), func(m *Measured) { m.Part, m.PartMass = "small-jar", 0.2 }, "part: `small-jar` of 0.2 kg measured"},
		{"no part", held(), func(m *Measured) { m.Part, m.PartMass = "", 0 }, "part: none named"},
		{"other checksum", held(), func(m *Measured) { m.Checksum = "5A18" }, "measured with 5A18, 4C1D is released"},
		{"no checksum", held(), func(m *Measured) { m.Checksum = "" }, "no checksum noted"},
		{"free for held", held(), func(m *Measured) { m.Clamped = "no" }, "clamping: measured free"},
		{"clamping not said", held(), func(m *Measured) { m.Clamped = "" }, "clamping: not said"},
		{"held for free is worse", free(), func(m *Measured) {}, ""},
		{"other body part", held(), func(m *Measured) { m.Region = "lower-arms" }, "body part: `lower-arms` measured"},
		{"softer spring", held(), func(m *Measured) { m.Stiffness = 40 }, "device: spring of 40 N/mm"},
		{"stiffer spring", held(), func(m *Measured) { m.Stiffness = 150 }, ""},
		{"device and body part not said", held(), func(m *Measured) { m.Stiffness, m.Region, m.Area = 0, "", "" }, "device: neither"},
		{"device not said, body part is", held(), func(m *Measured) { m.Stiffness = 0 }, ""},
		{"jaws whatever speed and settings", jaws(), func(m *Measured) { m.Speed, m.Checksum, m.Part, m.Clamped = 0, "", "", "" }, ""},
		{"jaws of another tool", jaws(), func(m *Measured) { m.Tool = "cups" }, "tool: `cups` measured"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			m := taken()
			tt.change(&m)
			o := Judge(tt.c, m)
			if o.Covers != (tt.gap == "") {
				t.Fatalf("covers %v, in what %q", o.Covers, o.InWhat)
			}
			if tt.gap != "" && (len(o.InWhat) != 1 || !strings.Contains(o.InWhat[0], tt.gap)) {
				t.Errorf("in what %q, want %q", o.InWhat, tt.gap)
			}
			if o.Covers == (o.Verdict == "") {
				t.Errorf("covers %v with verdict %q", o.Covers, o.Verdict)
			}
		})
	}
}

func TestNothingTiesAnUnsetSpeed(t *testing.T) {
	c := held()
	c.Checksum = ""
	if o := Judge(c, taken()); o.Covers || !strings.Contains(o.Why, "safety configuration") {
		t.Errorf("%+v", o)
	}
}

func TestVerdict(t *testing.T) {
	for _, tt := range []struct {
		name   string
		c      Case
		change func(m *Measured)
		want   sheet.Verdict
		why    string
	}{
		{"held, within on both sides of 0.5 s", held(), func(m *Measured) {}, sheet.WithinMeasured, "force and pressure"},
		{"held, peak at its limit", held(), func(m *Measured) { m.Peak = p(280) }, sheet.WithinMeasured, ""},
		{"held, peak above", held(), func(m *Measured) { m.Peak = p(281) }, sheet.Over, "peak force 281 N"},
		{"held, push above", held(), func(m *Measured) { m.Steady = p(141) }, sheet.Over, "force after 0.5 s 141 N"},
		{"held, film against the quasi-static limit", held(), func(m *Measured) { m.Pressure = p(261) }, sheet.Over, "limit 260 N/cm2"},
		{"free, film against the transient limit", free(), func(m *Measured) { m.Clamped, m.Pressure = "no", p(261) }, sheet.WithinMeasured, ""},
		{"free, film above", free(), func(m *Measured) { m.Clamped, m.Pressure = "no", p(521) }, sheet.Over, "limit 520 N/cm2"},
		{"held, steady not taken, peak below both", held(), func(m *Measured) { m.Peak, m.Steady = p(139), nil }, sheet.WithinMeasured, ""},
		{"held, steady not taken", held(), func(m *Measured) { m.Steady = nil }, "", "after 0.5 s was not taken"},
		{"free, steady not taken", free(), func(m *Measured) { m.Clamped, m.Steady = "no", nil }, sheet.WithinMeasured, ""},
		{"peak not taken", held(), func(m *Measured) { m.Peak = nil }, "", "peak force up to 0.5 s"},
		{"force alone", held(), func(m *Measured) { m.Pressure = nil }, "", "no pressure was taken"},
		{"pressure alone", held(), func(m *Measured) { m.Peak, m.Steady = nil, nil }, "", "no force was taken"},
		{"pressure alone and above", held(), func(m *Measured) { m.Peak, m.Steady, m.Pressure = nil, nil, p(300) }, sheet.Over, "peak pressure"},
		{"milder and yet above", held(), func(m *Measured) { m.Speed, m.Pressure = 100, p(300) }, sheet.Over, "even where it was milder"},
		{"another tool and above", held(), func(m *Measured) { m.Tool, m.Pressure = "cups", p(300) }, "", "does not cover"},
		{"jaws do not let go", jaws(), func(m *Measured) { m.Peak = p(141) }, sheet.Over, "peak force 141 N, limit 140 N"},
		{"no limit, nothing within", func() Case { c := held(); c.PressureSteady = 0; return c }(), func(m *Measured) {}, "", "no pressure limit"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			m := taken()
			tt.change(&m)
			o := Judge(tt.c, m)
			if o.Verdict != tt.want || !strings.Contains(o.Why, tt.why) {
				t.Errorf("%q, why %q; want %q, %q", o.Verdict, o.Why, tt.want, tt.why)
			}
		})
	}
}

func TestStiffer(t *testing.T) {
	m := taken()
	if got := Judge(held(), m).Stiffer; got != "" {
		t.Errorf("the right spring: %q", got)
	}
	m.Stiffness = 150
	if got := Judge(held(), m).Stiffer; !strings.Contains(got, "150 N/mm") || !strings.Contains(got, "75 N/mm") {
		t.Errorf("a stiffer one: %q", got)
	}
}

func TestTogether(t *testing.T) {
	force, film := taken(), taken()
	force.Pressure, film.Peak, film.Steady = nil, nil, nil
	a, b := Judge(held(), force), Judge(held(), film)
	if got := Together([]Outcome{a}); got != "" {
		t.Errorf("force alone: %q", got)
	}
	if got := Together([]Outcome{a, b}); got != sheet.WithinMeasured {
		t.Errorf("force and film on their own: %q", got)
	}
	film.Pressure = p(300)
	if got := Together([]Outcome{a, b, Judge(held(), film)}); got != sheet.Over {
		t.Errorf("one film above: %q", got)
	}
	other := taken()
	other.Checksum = "5A18"
	if got := Together([]Outcome{a, Judge(held(), other)}); got != "" {
		t.Errorf("pressure of another configuration: %q", got)
	}
}

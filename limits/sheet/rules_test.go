package sheet_test

import (
	"fmt"
	"strings"
	"testing"

	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// ruleCase changes the base of a sheet so that a rule speaks, and so that it
// just does not.
type ruleCase struct{ because, fires, quiet string }

const (
	hotText   = "a hot surface touches"
	edgeText  = "an edge or a point touches"
	headText  = "a head can be reached here"
	areaText  = "no contact is permitted with this body area"
	foot      = "no limit is published for this body area"
	underText = "the distance available is less than the distance required"
	unknown   = "not all of"
)

var contactRules = []ruleCase{
	{headText, "head=yes", "head=no"},
	{edgeText, "edges=edge", "edges=blunt"},
	{edgeText, "edges=point", "edges=rounded"},
	{hotText, "theta=43 degC", "theta=42.999 degC"},
	{areaText, "area=larynx", "area=neck-muscle; A=2 cm2"},
	{areaText, "area=forehead", "area=calf"},
	{foot, "area=foot", "area=shin"},
}

var paddingRules = []ruleCase{
	{"the padding bottoms out", "k_pad=10 N/mm; s_pad=0.5 mm", "k_pad=10 N/mm; s_pad=50 mm"},
	{"a padding needs its travel", "k_pad=10 N/mm", "s_pad=5 mm"},
}

var ruleCases = map[string][]ruleCase{
	"contact-transient": append([]ruleCase{
		{"the model goes beyond", "v=1357.2 mm/s", "v=1357.1 mm/s"},
		{"the model goes beyond", "A=0.09 cm2", "A=0.1 cm2"},
	}, append(contactRules, paddingRules...)...),
	"contact-clamped": append([]ruleCase{
		{"the model goes beyond", "v=157.8 mm/s", "v=157.7 mm/s"},
		{"the static push is above the quasi-static force limit", "F_hold=140.001 N", "F_hold=140 N"},
		{"the static push is above the quasi-static pressure limit", "F_hold=60 N; A=0.2307 cm2; v=0 mm/s", "F_hold=60 N; A=0.2308 cm2; v=0 mm/s"},
		{"the static push F_hold of the robot", "F_hold=", "F_hold=0 N"},
		{"the static push bottoms the padding out", "k_pad=10 N/mm; s_pad=10 mm; F_hold=101 N; v=0 mm/s", "k_pad=10 N/mm; s_pad=10 mm; F_hold=100 N; v=0 mm/s"},
	}, append(contactRules, paddingRules...)...),
	"jaw-pinch": append([]ruleCase{
		{"the greatest force of the drive goes beyond", "F_grip=140.001 N", "F_grip=140 N"},
		{"the greatest force of the drive goes beyond", "A=0.2307 cm2", "A=0.2308 cm2"},
	}, contactRules...),
	"light-curtain": {
		{"it can be reached under", "under=yes", "under=no"},
		{"a person can stand behind it", "behind=yes", "behind=no"},
		{"a curtain that also starts the cycle", "starts=yes; d=30.001 mm", "starts=yes; d=30 mm"},
		{"reaching over is not answered", "C_RO=", "C_RO=0 mm"},
		{"reaching under is not answered", "under=", ""},
		{"standing behind is not answered", "behind=", ""},
		{underText, "available=625.5 mm", "available=625.6 mm"},
		{unknown, "available=", ""},
	},
	"reach-over": {
		{underText, "available=499.9 mm", "available=500 mm"},
		{unknown, "available=", ""},
	},
	"parallel-field": {
		{"the plane is too low", "H=299.9 mm", "H=300 mm"},
		{"the measurement supplement Z is missing", "Z=", "Z=0 mm"},
		{"the detection capability d is missing", "d=", "d=50 mm"},
		{underText, "available=1779.9 mm", "available=1780 mm"},
		{unknown, "available=", ""},
	},
	"least-gap": {
		{"the gap is less", "available=99.9 mm", "available=100 mm"},
		{unknown, "available=", ""},
	},
	"ssm": {
		{"S_s is an estimate", "S_s=", "S_s=0 mm"},
		{"the distance available is less", "available=1129.9 mm", "available=1130 mm"},
		{unknown, "available=", ""},
	},
	"ssm-speed": {
		{"v_max is above v_ref", "v_ref=2039.9 mm/s", "v_ref=2040 mm/s"},
		{"both a and T_s are given", "a=2000 mm/s2; v_ref=9000 mm/s", "a=2000 mm/s2; T_s=; v_ref="},
		{"v_ref is missing", "v_ref=", ""},
		{"no speed holds", "D=510 mm", "D=1000 mm"},
		{"the robot is set to a higher speed", "D=1000 mm; v=5000 mm/s; v_ref=9000 mm/s", "D=1000 mm; v=1 mm/s; v_ref=9000 mm/s"},
	},
	"payload": {
		{"tool and part are heavier", "part=8.001 kg", "part=8 kg"},
	},
	"required-level": {},
	"level-chain": {
		{"a part has a lower category", "categories=3, 4, 2", "categories=3, 4, 3"},
		{"the sum is above every performance level", "PFH=1e-4; levels=a; categories=3; required=; required_category=", "PFH=9.9e-5; levels=a; categories=3; required=a; required_category="},
		{"the levels of the parts are missing", "levels=", ""},
		{"the levels of the parts are missing", "levels=", "PFH=; levels=d; categories=3"},
		{"the categories of the parts are missing", "categories=; required_category=", "required_category="},
		{"the categories of the parts are missing", "PFH=; categories=; required_category=", "PFH=; required_category="},
		{"levels and failure rates differ", "levels=d, e", ""},
		{"levels and failure rates differ", "PFH=3.1e-8, 2.2e-7", ""},
		{"categories and failure rates differ", "categories=3, 4", ""},
		{"the required level is missing", "required=", ""},
		{"the level reached is lower", "required=e", "required=d"},
		{"too many parts of the lowest level", "PFH=; levels=a, a, a, a; categories=3, 3, 3, 3; required=", "PFH=; levels=a, a, a; categories=3, 3, 3; required=a"},
		{"missing: PFH", "PFH=; levels=; categories=; required_category=", "PFH=; levels=d; categories=3"},
		{"a failure rate of 0", "PFH=0, 4.9e-9, 2.47e-8", "PFH=1e-30, 4.9e-9, 2.47e-8"},
		{"categories and levels differ", "PFH=; categories=3, 4", "PFH="},
	},
	"level-estimate": {
		{"an MTTFD below 3 years", "MTTFD=2.999; required=a", "MTTFD=3; required=a"},
		{"Categories B and 1 have no", "category=1; DC=low", "category=1; DC=none; required=a"},
		{"Categories B and 1 have no", "category=B; DC=0.6; MTTFD=10", "category=B; DC=0.599; MTTFD=10; required=a"},
		{"Categories 2 to 4 need a diagnostic", "DC=0.599", "DC=0.6; required=a"},
		{"Category 4 needs a diagnostic", "category=4; DC=0.989", "category=4; DC=0.99"},
		{"Category B goes up to a medium MTTFD, below", "category=B; DC=none; MTTFD=30", "category=B; DC=none; MTTFD=29.999; required=b"},
		{"Category B goes up to a medium MTTFD: enter", "category=B; DC=none; MTTFD=; MTTFD_band=high", "category=B; DC=none; MTTFD=; MTTFD_band=medium; required=b"},
		{"Categories 1 and 4 need an MTTFD", "category=1; DC=none; MTTFD=29.999", "category=1; DC=none; MTTFD=30; required=b"},
		{"Categories 1 and 4 need a high", "category=4; DC=high; MTTFD=; MTTFD_band=medium", "category=4; DC=high; MTTFD=; MTTFD_band=high; required=e"},
		{"measures against failures of common cause", "CCF=64.999", "CCF=65"},
		{"Category 2 needs at least 100 tests", "category=2; test_ratio=99.999; MTTFD_test=60", "category=2; test_ratio=100; MTTFD_test=60"},
		{"Category 2 needs at least 100 tests", "category=2; test_ratio=1; tested_on_demand=no; MTTFD_test=60", "category=2; test_ratio=1; tested_on_demand=yes; MTTFD_test=60"},
		{"Category 2 needs a test channel", "category=2; test_ratio=100; MTTFD_test=31", "category=2; test_ratio=100; MTTFD_test=31.001"},
		{"Category 2 needs a test channel", "category=2; MTTFD=; MTTFD_band=low; test_ratio=100; MTTFD_test=5; required=b", "category=2; MTTFD=; MTTFD_band=low; test_ratio=100; MTTFD_test=5.001; required=b"},
		{"Category 2 needs a test channel", "category=2; MTTFD=; MTTFD_band=medium; test_ratio=100; MTTFD_test=15; required=c", "category=2; MTTFD=; MTTFD_band=medium; test_ratio=100; MTTFD_test=15.001; required=c"},
		{"Category 2 needs a test channel", "category=2; MTTFD=; MTTFD_band=high; test_ratio=100; MTTFD_test=50", "category=2; MTTFD=; MTTFD_band=high; test_ratio=100; MTTFD_test=50.001"},
		{"Category 2 needs a test channel", "category=2; MTTFD=9000; test_ratio=100; MTTFD_test=50", "category=2; MTTFD=9000; test_ratio=100; MTTFD_test=50.001"},
		{"missing: DC", "DC=", "DC=0.9"},
		{"missing: MTTFD", "MTTFD=", "MTTFD=; MTTFD_band=high"},
		{"the coverage is given as a word and as a share", "DC_share=0.9", "DC=; DC_share=0.9"},
		{"the MTTFD is given in years and in a word", "MTTFD_band=high", "MTTFD_band="},
		{"the score against failures of common cause is missing", "CCF=", "CCF=; category=1; DC=none; required=a"},
		{"the test rate of Category 2", "category=2; MTTFD_test=60", "category=2; tested_on_demand=yes; MTTFD_test=60"},
		{"the MTTFD of the test channel", "category=2; test_ratio=100", "category=2; test_ratio=100; MTTFD_test=60"},
		{"the required level is missing", "required=", ""},
		{"the level reached is lower", "MTTFD=56; required=e", "MTTFD=62; required=e"},
	},
	"b10": {
		{"the stated MTTFD differs", "stated=304", "stated=303.8"},
		{"the stated MTTFD differs", "stated=274.8", "stated=274.9"},
	},
	"two-channels": {
		{"a channel with an MTTFD below 3 years", "C2=2.999", "C2=3"},
		{"Categories B, 1 and 2", "category=2", "category=4"},
	},
}

// nets are rules that catch what cannot be compared; no input that may be
// reaches them here, as each absence behind them has a rule of its own.
var nets = map[string]bool{"payload": true, "ssm-speed": true, "level-chain": true, "level-estimate": true}

// At each rule of each sheet there is a row that makes it speak and one that
// just does not.
func TestEveryRule(t *testing.T) {
	for _, s := range library(t).Sheets {
		t.Run(s.Key(), func(t *testing.T) {
			r := &ruleTest{t: t, s: s, reached: make([]bool, len(s.Rules))}
			for _, c := range s.Columns {
				if takes(c) {
					r.column(c)
				}
			}
			for _, c := range ruleCases[s.Key()] {
				r.check(c.because, inputs(t, s, c.fires), inputs(t, s, c.quiet))
			}
			r.unknown()
			for i, rule := range s.Rules {
				if !r.reached[i] && !(nets[s.Key()] && strings.HasPrefix(rule.Because, unknown)) {
					t.Errorf("no case for rule %d, %s: %s", i+1, rule.Verdict, rule.Because)
				}
			}
		})
	}
}

type ruleTest struct {
	t       *testing.T
	s       *sheet.Sheet
	reached []bool
}

func (r *ruleTest) find(because string) int {
	r.t.Helper()
	n := -1
	for i, rule := range r.s.Rules {
		if strings.HasPrefix(rule.Because, because) {
			if n >= 0 {
				r.t.Fatalf("two rules begin with %q", because)
			}
			n = i
		}
	}
	if n < 0 {
		r.t.Fatalf("no rule begins with %q", because)
	}
	return n
}

func (r *ruleTest) check(because string, fires, quiet []expr.Value) {
	r.t.Helper()
	n := r.find(because)
	r.reached[n] = true
	o := r.s.Evaluate(fires)
	if got := int(o.Value("rule").Num) - 1; got != n || o.Verdict != r.s.Rules[n].Verdict || o.Why != r.s.Rules[n].Because {
		r.t.Errorf("%q should speak, found %s: %s", because, o.Verdict, o.Why)
	}
	o = r.s.Evaluate(quiet)
	if got := int(o.Value("rule").Num) - 1; got >= 0 && got <= n {
		r.t.Errorf("%q or a worse one should not speak, found %s: %s", because, o.Verdict, o.Why)
	}
}

// set is the base with one slot changed.
func (r *ruleTest) set(c *sheet.Column, v expr.Value) []expr.Value {
	vals := inputs(r.t, r.s, "")
	vals[c.Slot] = v
	return vals
}

// column checks the rules that bounds and choices of an input bring along.
func (r *ruleTest) column(c *sheet.Column) {
	name := c.Symbol
	if c.List != "" {
		name = c.List
	}
	e, ranged := r.s.Ranges[name]
	if ranged {
		back := r.set(e[0], number(2000))
		back[e[1].Slot] = number(1999)
		one := r.set(e[0], number(2000))
		one[e[1].Slot] = number(2000)
		r.check("the range "+name+" runs backwards", back, one)
	}
	r.bounds(c)
	if !c.Optional && c.Role == sheet.Input {
		because := name + " is missing"
		if ranged {
			because += ": " + c.Means // one for each end
		}
		r.check(because, r.set(c, expr.Value{}), inputs(r.t, r.s, ""))
	}
}

func (r *ruleTest) bounds(c *sheet.Column) {
	t, b := r.t, c.Bounds
	if c.Type.Kind == expr.Text {
		name := c.Symbol
		if c.List != "" {
			name = c.List
		}
		r.check(name+" must be one of", r.set(c, word("none of them")), r.set(c, word(c.Choice[0])))
		return
	}
	speaks := func(x float64, want string) {
		t.Helper()
		o := r.s.Evaluate(r.set(c, number(x)))
		if got := strings.HasPrefix(o.Why, want); !got {
			t.Errorf("%s = %v: %q should speak, found %s: %s", c.Name, x, want, o.Verdict, o.Why)
		}
		for i, rule := range r.s.Rules {
			if rule.Because == o.Why {
				r.reached[i] = true
			}
		}
	}
	silent := func(x float64, not string) {
		t.Helper()
		if o := r.s.Evaluate(r.set(c, number(x))); strings.HasPrefix(o.Why, not) {
			t.Errorf("%s = %v: %s: %s", c.Name, x, o.Verdict, o.Why)
		}
	}
	name := c.Symbol
	if c.List != "" {
		name = c.List
	}
	must, beyond := name+" must be", name+" is outside what the method covers"
	if b.Above != nil {
		speaks(*b.Above, must)
		silent(*b.Above+1e-9, must)
	}
	if b.From != nil {
		speaks(*b.From-1e-9, must)
		silent(*b.From, must)
	}
	if b.To != nil {
		speaks(*b.To*(1+1e-9), must)
		silent(*b.To, must)
	} else {
		t.Errorf("%s has no upper physical bound", c.Name)
	}
	if b.AppliesTo != nil {
		speaks(*b.AppliesTo*(1+1e-9), beyond)
		silent(*b.AppliesTo, beyond)
	}
	if b.AppliesFrom != nil {
		speaks(min(*b.AppliesFrom*(1-1e-9), *b.AppliesFrom-1e-12), beyond)
		silent(*b.AppliesFrom, beyond)
	}
}

// unknown: what cannot be compared is never within. Numbers too small for their
// reciprocal bring it about where nothing is absent.
func (r *ruleTest) unknown() {
	switch r.s.ID {
	case "contact-transient", "contact-clamped":
		vals := inputs(r.t, r.s, "m_L=0 kg")
		vals[r.s.Input("M").Slot].Num = 5e-324
		r.check("missing: m_R", inputs(r.t, r.s, "M="), inputs(r.t, r.s, "M=; m_R=5 kg"))
		if r.s.ID == "contact-transient" {
			r.check(unknown, vals, inputs(r.t, r.s, ""))
			return
		}
		vals = inputs(r.t, r.s, "F_hold=0 N; v=1 mm/s")
		vals[r.s.Input("A").Slot].Num = 1e-320
		r.check(unknown, vals, inputs(r.t, r.s, ""))
	case "jaw-pinch":
		vals := inputs(r.t, r.s, "")
		vals[r.s.Input("A").Slot].Num = 1e-320
		r.check(unknown, vals, inputs(r.t, r.s, ""))
	case "ssm-speed":
		r.check("missing: a", inputs(r.t, r.s, "T_s=; v_ref="), inputs(r.t, r.s, ""))
	}
}

func TestVerdictWords(t *testing.T) {
	allowed := map[sheet.Verdict]bool{}
	for _, v := range sheet.Order {
		allowed[v] = true
	}
	want := "not-permitted over outside needs-copy not-decided out-of-date within-model within-measured within"
	if got := strings.Trim(fmt.Sprint(sheet.Order), "[]"); got != want {
		t.Errorf("order of verdicts: %s", got)
	}
	for _, s := range library(t).Sheets {
		for _, r := range s.Rules {
			if !allowed[r.Verdict] {
				t.Errorf("sheet %s: verdict %s", s.ID, r.Verdict)
			}
		}
	}
}

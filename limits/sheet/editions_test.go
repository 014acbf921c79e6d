package sheet_test

import (
	"math"
	"strings"
	"testing"

	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/limits/table/tabletest"
)

// e24 is the edition of 2024 of a sheet.
func e24(id string) string { return id + "/iso-13855-2024" }

// keyed gives a sheet by its key.
func keyed(t testing.TB, key string) *sheet.Sheet {
	t.Helper()
	for _, s := range library(t).Sheets {
		if s.Key() == key {
			return s
		}
	}
	t.Fatalf("no sheet %s", key)
	return nil
}

const (
	noZ    = "the supplement Z is missing"
	noOver = "D_DO for reaching over, ISO 13855:2024, is not public: enter it from a bought copy"
	of2010 = "D_DO for reaching over, ISO 13855:2024, is not public, and a C_RO above 0 does not count here"
)

func init() {
	for id, base := range map[string]string{
		"light-curtain":     "T=0.311 s; d=30 mm; C_RO=0 mm; under=no; behind=no; Z=50 mm; T_tol=0.01 s; available=2000 mm",
		"reach-over":        "T=0.3 s; a=700..1200 mm; b=1800 mm; D_DO=550 mm; Z=20 mm; available=1200 mm",
		"parallel-field":    "T=0.4 s; H=400 mm; crawl=no; d=70 mm; Z=100 mm; T_tol=0.02 s; available=2000 mm",
		"light-beams":       "T=0.3 s; beams=3; C_RO=0 mm; under=no; behind=no; D_DT=850 mm; Z=0 mm; available=1500 mm",
		"two-hand":          "T=0.2 s; shrouded=no; Z=0 mm; T_tol=0 s; available=900 mm",
		"mat":               "T=0.3 s; H=0 mm; Z=0 mm; T_tol=0 s; available=1700 mm",
		"interlocked-guard": "T=0.4 s; e=10 mm; shape=slot; Z=0 mm; T_tol=0 s; available=1500 mm",
	} {
		bases[e24(id)] = base
	}
	late := []ruleCase{{noZ, "Z=", ""}, {unknown, "available=", ""}}
	for id, cases := range map[string][]ruleCase{
		"light-curtain": {
			{"how ISO 13855:2024 takes an approach at an angle", "angle=84.9 deg", "angle=85 deg"},
			{"a person can stand behind it", "behind=yes", "behind=no"},
			{"D_DT for a detection capability above 40 mm", "d=40.001 mm", "d=40 mm"},
			{"D_DT for a detection capability above 40 mm", "d=64 mm", "d=64 mm; D_DT=850 mm"},
			{of2010, "C_RO=850 mm", "C_RO=850 mm; D_DO=900 mm"},
			{noOver, "C_RO=", "C_RO=; D_DO=0 mm"},
			{"D_DU for reaching under", "under=yes", "under=yes; D_DU=700 mm"},
			{"detection capability and distance of a curtain that also starts", "starts=yes", "starts=no"},
			{"reaching under is not answered", "under=", ""},
			{"standing behind is not answered", "behind=", ""},
			{underText, "available=691.5 mm", "available=691.6 mm"},
		},
		"reach-over": {
			{"how ISO 13855:2024 takes an approach at an angle", "angle=84.9 deg", "angle=85 deg"},
			{noOver, "D_DO=", "D_DO=0 mm"},
			{underText, "available=1049.9 mm", "available=1050 mm"},
		},
		"parallel-field": {
			{"the plane is too low", "H=299.9 mm", "H=300 mm"},
			{"a person can crawl beneath it", "crawl=yes", "crawl=no"},
			{"the plane is above 200 mm", "d=60 mm; H=200.1 mm; crawl=", "d=60 mm; H=200 mm; crawl="},
			{"a person can stand between", "behind=yes", "behind=no"},
			{"how ISO 13855:2024 takes an approach at an angle", "angle=5.1 deg", "angle=5 deg"},
			{"the widest gap behind a field", "gap=1 mm", "gap=1 mm; behind=no"},
			{"the detection capability d is missing", "d=", "d=50 mm"},
			{underText, "available=1971.9 mm", "available=1972 mm"},
		},
		"light-beams": {
			{"a person can stand behind it", "behind=yes", "behind=no"},
			{"standing behind is not answered", "behind=", "behind=no"},
			{"reaching under is not answered", "under=", "under=no"},
			{"D_DU for reaching under", "under=yes", "under=yes; D_DU=700 mm"},
			{"D_DT and the heights for this number of beams", "D_DT=", ""},
			{of2010, "C_RO=300 mm", "C_RO=300 mm; D_DO=300 mm"},
			{noOver, "C_RO=", "C_RO=; D_DO=0 mm"},
			{underText, "available=1329.9 mm", "available=1330 mm"},
		},
		"two-hand": {
			{underText, "available=869.9 mm", "available=870 mm"},
			{underText, "shrouded=yes; T=0.02 s; available=99.9 mm", "shrouded=yes; T=0.02 s; available=100 mm"},
		},
		"mat":               {{"a person can stand between the mat", "behind=yes", "behind=no"}, {underText, "available=1679.9 mm", "available=1680 mm"}, {"the least width of a mat", "width=749.9 mm", "width=750 mm"}},
		"interlocked-guard": {{underText, "available=719.9 mm", "available=720 mm"}, {underText, "e=0 mm; available=639.9 mm", "e=0 mm; available=640 mm"}},
	} {
		ruleCases[e24(id)] = append(cases, late...)
		meetings[e24(id)] = []meet{{"", "available", "S"}}
	}
	meetings[e24("light-curtain")] = append(meetings[e24("light-curtain")], meet{"d=14 mm; T=0.02 s; T_tol=", "available", "S"}, meet{"d=60 mm; D_DT=850 mm", "available", "S"})
	meetings[e24("parallel-field")] = append(meetings[e24("parallel-field")], meet{"d=63.3 mm", "H", "H_min"})
	exactTexts[e24("light-curtain")] = []string{"T_tol=; d=14 mm; T=0.25 s", "T_tol=; d=40 mm; T=0.146 s", "T_tol=; d=30 mm; T=0.186 s", "T_tol=; d=30 mm; T=0.1860000001 s", "d=40.0000001 mm",
		"C_RO=1e-9 mm", "D_DT=0 mm; d=70 mm", "C_RO=; D_DO=", "under=yes", "under=yes; D_DU=900 mm", "behind=; under=; Z=", "starts=yes; D_DT=; d=60 mm; under=yes; C_RO=10 mm"}
	exactTexts[e24("interlocked-guard")] = []string{"e=0 mm", "e=1e-9 mm", "e=4 mm", "e=4.0000001 mm", "e=120 mm; shape=round", "e=120.0000001 mm", "e=20 mm; shape=square", "e=20.0000001 mm; shape=slot", "T=0.001 s; e=0 mm"}
	exactTexts[e24("two-hand")] = []string{"shrouded=yes; T=0.0625 s", "shrouded=yes; T=0.06249999999 s; Z="}
	for id, twin := range map[string]func(*tabletest.Reference, given) results{
		"light-curtain":     curtain24,
		"reach-over":        func(_ *tabletest.Reference, g given) results { return hand24(g, g.num("D_DO"), "C_RO") },
		"parallel-field":    field24,
		"light-beams":       beams24,
		"two-hand":          twoHand24,
		"mat":               func(_ *tabletest.Reference, g given) results { return walk24(g, 1200, 0) },
		"interlocked-guard": guard24,
	} {
		twins[e24(id)] = twin
	}
}

// time24 is the response time with its tolerance, in s.
func time24(g given) float64 { return g.num("T") + or(g.num("T_tol"), 0) }

// walk24 is S = K·T + D_DS + Z at the speed of walking, in mm.
func walk24(g given, D, least float64) results {
	return results{"C": D, "S": math.Max(least, 1600*time24(g)+D) + or(g.num("Z"), 0)}
}

// hand24 is the same with the two speeds of approach.
func hand24(g given, D float64, name string) results {
	return results{name: D, "S": hand(time24(g), D, 100) + or(g.num("Z"), 0)}
}

func curtain24(_ *tabletest.Reference, g given) results {
	D := 8 * math.Max(0, g.num("d")-14)
	if g.num("d") > 40 {
		D = math.NaN()
	}
	D = or(g.num("D_DT"), D)
	for _, name := range []string{"D_DO", "D_DU"} {
		if x := g.num(name); x > D { // NaN is never greater, nor is anything than NaN
			D = x
		}
	}
	return hand24(g, D, "C")
}

func field24(_ *tabletest.Reference, g given) results {
	r := walk24(g, 1200, 0)
	r["H_min"] = math.Max(0, 15*g.num("d")-750)
	return r
}

func beams24(_ *tabletest.Reference, g given) results {
	D := g.num("D_DT")
	for _, name := range []string{"D_DO", "D_DU"} {
		if x := g.num(name); x > D {
			D = x
		}
	}
	return hand24(g, D, "C")
}

func twoHand24(_ *tabletest.Reference, g given) results {
	if g.text("shrouded") == "yes" {
		return walk24(g, 0, 100)
	}
	return walk24(g, 550, 100)
}

// openings24 are greatest size of the opening, and reach through slot, square and
// round, keyed apart from the table.
var openings24 = [][4]float64{{4, 2, 2, 2}, {6, 10, 5, 5}, {8, 20, 15, 5}, {10, 80, 25, 20}, {12, 100, 80, 80}, {20, 120, 120, 120},
	{30, 850, 120, 120}, {40, 850, 200, 120}, {120, 850, 850, 850}}

func guard24(_ *tabletest.Reference, g given) results {
	e := g.num("e")
	D := 850.0 // beyond the table the verdict says so
	for i := len(openings24) - 1; i >= 0; i-- {
		if e <= openings24[i][0] {
			D = openings24[i][map[string]int{"slot": 1, "square": 2, "round": 3}[g.text("shape")]]
		}
	}
	if e == 0 {
		D = 0
	}
	return walk24(g, D, 100)
}

func TestEditions(t *testing.T) {
	lib := library(t)
	for _, id := range []string{"light-curtain", "reach-over", "parallel-field"} {
		list := lib.Editions(id)
		if len(list) != 2 || list[0] != lib.Sheet(id) || list[0].Key() != id || list[1].Key() != e24(id) {
			t.Fatalf("%s: %d editions", id, len(list))
		}
		if list[0].Standard.Edition != "iso-13855-2010" || lib.SheetOf(id, "iso-13855-2024") != list[1] {
			t.Errorf("%s: the default is %s", id, list[0].Standard.Edition)
		}
		if list[0].Differs != "" || list[1].Differs == "" {
			t.Errorf("%s: the later edition says what is other in it, the default nothing", id)
		}
	}
	if lib.SheetOf("light-curtain", "iso-13855-1998") != nil || lib.SheetOf("ssm", "iso-13855-2024") != nil {
		t.Error("an edition that is not there is found")
	}
	if !strings.HasPrefix(lib.Constant("d_0", keyed(t, e24("parallel-field"))).Clause, "ISO 13855:2024") ||
		!strings.HasPrefix(lib.Constant("d_0", lib.Sheet("parallel-field")).Clause, "ISO 13855:2010") {
		t.Error("the editions share a constant of their own")
	}
}

// without24 are inputs that 2024 does without: what they stand for is not public, or
// leaving them out only adds.
var without24 = map[string]bool{"light-beams lowest": true, "light-beams highest": true, "interlocked-guard t_open": true}

// The inputs and results of a sheet are there in every edition.
func TestEditionsShareNames(t *testing.T) {
	for _, s := range library(t).Sheets {
		first := library(t).Sheet(s.ID)
		for _, name := range first.InputNames() {
			if !s.Knows(name) && !without24[s.ID+" "+name] {
				t.Errorf("%s does not know the input %s", s.Key(), name)
			}
			if c, d := s.Input(name), first.Input(name); c != nil && d != nil && (c.Type.Kind != d.Type.Kind || c.UnitName() != d.UnitName()) {
				t.Errorf("%s: %s is of another kind", s.Key(), name)
			}
		}
		for _, c := range first.Results {
			if s.Result(c.Symbol) == nil && c.Name != "heights" { // those of beams are not public for 2024
				t.Errorf("%s does not give %s", s.Key(), c.Symbol)
			}
		}
	}
}

// What is not public is named, each value of several, also behind a worse verdict.
func TestToCopy(t *testing.T) {
	s := keyed(t, e24("light-curtain"))
	o := with(t, s, "d=64 mm; C_RO=; under=yes; behind=yes")
	list := s.ToCopy(o.Values)
	if o.Verdict != sheet.Outside || len(list) != 3 {
		t.Fatalf("%s, %q", o.Verdict, list)
	}
	for i, name := range []string{"D_DT", "D_DO", "D_DU"} {
		if !strings.HasPrefix(list[i], name+" ") || !strings.Contains(list[i], "ISO 13855:2024") {
			t.Errorf("%s is not named: %s", name, list[i])
		}
	}
	if o.Value("S").Given() || o.Value("C").Given() {
		t.Error("a distance is offered for a detection capability whose value is not public")
	}
	if o := with(t, s, ""); s.ToCopy(o.Values) != nil {
		t.Errorf("%q", s.ToCopy(o.Values))
	}
	if library(t).Sheet("light-curtain").ToCopyFormula() != nil {
		t.Error("the edition of 2010 asks for a copy")
	}
	for _, tt := range []struct{ id, change, name string }{
		{"reach-over", "D_DO=", "D_DO"}, {"light-beams", "D_DT=", "D_DT"},
	} {
		o := with(t, keyed(t, e24(tt.id)), tt.change)
		if o.Verdict != sheet.NeedsCopy || !strings.HasPrefix(o.Why, tt.name+" ") || o.Value("S").Given() {
			t.Errorf("%s: %s, %s", tt.id, o.Verdict, o.Why)
		}
	}
}

// The field of 2024 takes nothing off for its height, and is never nearer than
// that of 2010; a curtain of up to 40 mm keeps its distance.
func TestEditionsSideBySide(t *testing.T) {
	old, now := library(t).Sheet("parallel-field"), keyed(t, e24("parallel-field"))
	for _, H := range []string{"0", "200", "400", "1000"} {
		a, b := with(t, old, "H="+H+" mm; d=50 mm"), with(t, now, "H="+H+" mm; d=50 mm; T_tol=")
		if want := map[string]float64{"0": 0, "200": 80, "400": 160, "1000": 350}[H]; math.Abs(b.Value("S").Num-a.Value("S").Num-want) > 1e-9 {
			t.Errorf("H %s: %v and %v", H, a.Value("S").Num, b.Value("S").Num)
		}
	}
	a, b := with(t, library(t).Sheet("light-curtain"), ""), with(t, keyed(t, e24("light-curtain")), "Z=0 mm; T_tol=")
	if !expr.Equal(a.Value("S").Num, b.Value("S").Num) {
		t.Errorf("%v and %v", a.Value("S").Num, b.Value("S").Num)
	}
	for H, want := range map[string]sheet.Verdict{"200": sheet.Within, "201": sheet.NotDecided} {
		if o := with(t, now, "d=50 mm; crawl=; H="+H+" mm"); o.Verdict != want {
			t.Errorf("H %s, and nothing said of crawling beneath: %s, %s", H, o.Verdict, o.Why)
		}
	}
}

// A longer stop, a coarser device or a greater supplement never shortens a
// distance, and more distance available never makes a verdict worse.
func TestMoreTimeNeverShortensADistance2024(t *testing.T) {
	for id, more := range map[string][]string{
		"light-curtain": {"d", "D_DT", "D_DO", "D_DU"}, "reach-over": {"D_DO"}, "parallel-field": nil, "light-beams": {"D_DT", "D_DO", "D_DU"},
		"two-hand": nil, "mat": {"H"}, "interlocked-guard": {"e"},
	} {
		for _, input := range append([]string{"T", "Z", "T_tol"}, more...) {
			pairs(t, e24(id), input, func(less, more *sheet.Outcome) string { return sinks("S", less, more) })
		}
		pairs(t, e24(id), "T", verdictNeverBetter)
		pairs(t, e24(id), "Z", verdictNeverBetter)
		pairs(t, e24(id), "available", verdictNeverWorse)
	}
}

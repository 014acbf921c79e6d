package sheet_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"standclear/limits/sheet"
	"standclear/templates"
)

const ownContact = `title: Limits from the bought copy
own: bought copy, shelf 4
standing: single
regions:
  - {region: foot, name: Foot, F_s: 130 N, f_F: 2, K: 60 N/mm, m_H: 75 kg, least_gap: 120 mm}
  - {region: hands-fingers, K: 80 N/mm}
areas:
  - {area: foot, region: foot, permitted: "yes", p_s: 220 N/cm2, f_p: 2}
  - {area: palm-d, p_s: 2.8 MPa, own: "measurement M-12", standing: practice}
`

func loadContact(t *testing.T, files map[string]string) (*sheet.Library, string) {
	t.Helper()
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	lib, problems := sheet.LoadOwn(templates.FS, sheet.OwnData{Contact: []sheet.Own{{FS: fsys, Dir: "own", Name: "mine"}}})
	var out []string
	for _, p := range problems {
		out = append(out, p.Pos.String()+" "+p.Message+"; "+p.Expected)
	}
	return lib, strings.Join(out, "\n")
}

func cellOf(t *testing.T, lib *sheet.Library, tableID, row, column string) sheet.Cell {
	t.Helper()
	tb := lib.Table(tableID)
	i, k := tb.Exact(row), tb.Column(column)
	if i < 0 || k < 0 {
		t.Fatalf("no %s of %s in %s", column, row, tableID)
	}
	c := tb.Rows[i][k]
	return sheet.Cell{Table: tb, Row: i, Col: k, Value: c.Value, Standing: c.Standing, Own: c.Own}
}

// Only the values that are named take the place of published ones, in the unit
// of the table; the others stay.
func TestOwnContactData(t *testing.T) {
	lib, problems := loadContact(t, map[string]string{"contact.yaml": ownContact})
	if problems != "" {
		t.Fatal(problems)
	}
	for _, want := range []struct {
		table, row, column string
		value              float64
		standing           string
		own                bool
		was                float64
	}{
		{"contact-areas", "palm-d", "p_s", 280, "practice", true, 260},
		{"contact-areas", "palm-d", "f_p", 2, "confirmed", false, 0},
		{"contact-areas", "palm-nd", "p_s", 260, "single", false, 0},
		{"contact-areas", "foot", "p_s", 220, "single", true, 0},
		{"contact-regions", "hands-fingers", "K", 80, "single", true, 75},
		{"contact-regions", "hands-fingers", "F_s", 140, "confirmed", false, 0},
		{"contact-regions", "foot", "least_gap", 120, "single", true, 0},
	} {
		c := cellOf(t, lib, want.table, want.row, want.column)
		if c.Value.Num != want.value || string(c.Standing) != want.standing || (c.Own != nil) != want.own {
			t.Errorf("%s of %s is %v, %s, own %v; want %v", want.column, want.row, c.Value.Num, c.Standing, c.Own, want)
		}
		if c.Own != nil && (c.Own.File != "mine/contact.yaml" || c.Own.Was.Num != want.was) {
			t.Errorf("%s of %s: %+v", want.column, want.row, c.Own)
		}
	}
	if c := cellOf(t, lib, "contact-areas", "palm-d", "p_s"); c.Own.Ref != "measurement M-12" {
		t.Errorf("the reference of the row is %q", c.Own.Ref)
	}
	if built := cellOf(t, library(t), "contact-areas", "palm-d", "p_s"); built.Value.Num != 260 || built.Own != nil {
		t.Errorf("the table built in was changed: %v", built)
	}
}

// A contact of the foot is worked out by the values of the user, and the worked
// lines say whose they are.
func TestOwnContactOfTheFoot(t *testing.T) {
	lib, _ := loadContact(t, map[string]string{"contact.yaml": ownContact})
	evaluate := func(lib *sheet.Library) (sheet.Outcome, *sheet.Sheet) {
		s := lib.Sheet("contact-transient")
		vals := s.Blank()
		for name, text := range map[string]string{"area": "foot", "m_R": "10 kg", "A": "2 cm2", "v": "100 mm/s", "head": "no"} {
			if err := s.Set(vals, name, text); err != nil {
				t.Fatal(err)
			}
		}
		return s.Evaluate(vals), s
	}
	o, s := evaluate(lib)
	if o.Verdict != sheet.WithinModel || o.Value("F_limit").Num != 260 || o.Value("p_limit").Num != 440 {
		t.Errorf("%s (%s), F_limit %v, p_limit %v", o.Verdict, o.Why, o.Value("F_limit").Num, o.Value("p_limit").Num)
	}
	lines := map[string]string{}
	for _, l := range s.Worked(&o) {
		lines[l.Symbol] = l.Source
		if l.Symbol == "F_limit" && l.Standing != "single" {
			t.Errorf("F_limit stands as %s", l.Standing)
		}
	}
	if lines["p_s"] != "the user's own, mine/contact.yaml" || !strings.HasSuffix(lines["F_limit"], "F_s is the user's own") {
		t.Errorf("sources of the lines: %v", lines)
	}
	if o, _ := evaluate(library(t)); o.Verdict != sheet.NeedsCopy {
		t.Errorf("without own data: %s", o.Verdict)
	}
}

// Every mistake is refused where it stands, and nothing permits what is never
// permitted.
func TestOwnContactThatDoesNotFit(t *testing.T) {
	const head = "title: House\nown: report 3\nstanding: single\n"
	area := func(row string) string { return head + "areas:\n  - {" + row + "}\n" }
	region := func(row string) string { return head + "regions:\n  - {" + row + "}\n" }
	for _, tt := range []struct{ name, text, want string }{
		{"larynx", area(`area: larynx, permitted: "yes", p_s: 10 N/cm2, f_p: 2`), "own/c.yaml:5:31 `larynx` is an area with which no contact is permitted"},
		{"forehead", area(`area: forehead, permitted: ask`), "`forehead` is an area with which no contact is permitted"},
		{"an area of the face", area(`area: philtrum, name: Philtrum, region: face, permitted: "yes", p_s: 10 N/cm2, f_p: 2`), "own/c.yaml:5:12 `philtrum` is part of the head"},
		{"an area called so", area(`area: left-eye, name: Left, region: hands-fingers, permitted: "yes", p_s: 10 N/cm2, f_p: 2`), "`left-eye` is part of the head"},
		{"an area named so", area(`area: lobe, name: Lobe of the ears, region: neck, permitted: ask`), "`lobe` is part of the head"},
		{"a region named so", head + "regions: [{region: top, name: Skull, F_s: 1 N, f_F: 1, K: 1 N/mm, m_H: 1 kg, least_gap: 300 mm}]\nareas: [{area: bump, name: Bump, region: top, permitted: \"yes\", p_s: 1 N/cm2, f_p: 1}]\n", "`bump` is part of the head"},
		{"the foot to the face", area(`area: foot, region: face, permitted: "yes", p_s: 10 N/cm2, f_p: 2`), "`foot` is part of the head"},
		{"another region", area(`area: palm-d, region: pelvis`), "found another region of `palm-d`, which is published"},
		{"another name", area(`area: palm-d, name: Glove`), "found another name of `palm-d`"},
		{"no unit", area(`area: palm-d, p_s: 240`), "own/c.yaml:5:25 found `240` for `p_s`; a quantity in N/cm2"},
		{"a wrong unit", area(`area: palm-d, p_s: 240 N`), "found `240 N` for `p_s`; a quantity in N/cm2"},
		{"a unit too many", area(`area: palm-d, f_p: 2 mm`), "a plain number, factor"},
		{"a tolerance", area(`area: palm-d, p_s: 240 N/cm2 ± 3 N/cm2`), "found a tolerance"},
		{"not above zero", area(`area: palm-d, p_s: -240 N/cm2`), "above 0"},
		{"a factor below one", region(`region: chest, f_F: 0.9`), "at least 1"},
		{"zero", region(`region: chest, m_H: 0 kg`), "above 0"},
		{"no number", area(`area: palm-d, p_s: much`), "found `much` for `p_s`"},
		{"a list", area(`area: palm-d, p_s: [1, 2]`), "found no value for `p_s`"},
		{"a typing slip", area(`area: palm-d, ps: 240 N/cm2`), "unknown key `ps` in a body area"},
		{"an id", area(`area: Palm D, p_s: 240 N/cm2`), "found the id `Palm D`"},
		{"no id", area(`p_s: 240 N/cm2`), "the row names no area"},
		{"no row", head + "areas: [palm-d]\n", "found no row"},
		{"nothing in it", area(`area: palm-d`), "the row of `palm-d` gives no value"},
		{"twice", head + "areas: [{area: palm-d, p_s: 240 N/cm2}, {area: palm-d, p_s: 250 N/cm2}]\n", "`palm-d` stands in own/c.yaml:4:16 already"},
		{"no rows", head, "there are no rows"},
		{"an unknown region", area(`area: heel, name: Heel, region: feet, permitted: ask`), "the region `feet`, which is not known"},
		{"not whole", area(`area: heel, name: Heel, region: lower-legs, permitted: "yes", p_s: 3 N/cm2`), "the area `heel` is not whole; `f_p`"},
		{"no region", area(`area: foot, permitted: "yes", p_s: 3 N/cm2, f_p: 2`), "the area `foot` is not whole; `region`"},
		{"a region not whole", region(`region: sole, name: Sole, F_s: 3 N`) + "areas: [{area: foot, region: sole, permitted: \"yes\", p_s: 3 N/cm2, f_p: 2}]\n", "`f_F` of the region `sole`, `K` of the region `sole`"},
		{"a region without a name", region(`region: sole, F_s: 3 N`), "the region `sole` has no name"},
		{"a word", area(`area: palm-d, permitted: maybe`), "found `maybe` for `permitted`"},
		{"no reference", "title: House\nstanding: single\nareas: [{area: palm-d, p_s: 240 N/cm2}]\n", "nothing says where the values come from"},
		{"no standing", "title: House\nown: x\nareas: [{area: palm-d, p_s: 240 N/cm2}]\n", "missing key `standing`"},
		{"a standing too good", "title: House\nown: x\nstanding: confirmed\nareas: [{area: palm-d, p_s: 240 N/cm2}]\n", "found the standing `confirmed` with one source"},
		{"an unknown source", "title: House\nsource: [shelf]\nstanding: single\nareas: [{area: palm-d, p_s: 240 N/cm2}]\n", "found the source `shelf`"},
		{"a source that is taken", head + "sources: {auva: {title: x, address: shelf}}\nareas: [{area: palm-d, p_s: 240 N/cm2}]\n", "the source key `auva` is taken"},
	} {
		if _, problems := loadContact(t, map[string]string{"c.yaml": tt.text}); !strings.Contains(problems, tt.want) || !strings.Contains(problems, "own/c.yaml:") {
			t.Errorf("%s: %s\nwant %s", tt.name, problems, tt.want)
		}
	}
	if _, problems := loadContact(t, map[string]string{}); !strings.Contains(problems, "there is no contact data in it") {
		t.Errorf("an empty folder: %s", problems)
	}
	if _, problems := loadOwn(t, map[string]string{"a.yaml": "id: contact-areas\ntitle: x\nstandard: {id: z}\nkey: area\ncolumns: {area: {means: a}}\nrows: [{area: larynx}]\n"}); !strings.Contains(problems, "table `contact-areas` takes no other in its place") {
		t.Errorf("a table in place of the contact data: %s", problems)
	}
}

// Each way in which a value can be milder is known.
func TestMilder(t *testing.T) {
	lib, problems := loadContact(t, map[string]string{"c.yaml": `title: House
own: report 3
standing: single
regions: [{region: chest, F_s: 141 N, f_F: 1.5, K: 24 N/mm, m_H: 41 kg, least_gap: 499 mm}]
areas: [{area: sternum, p_s: 119 N/cm2, f_p: 2.1}]
`})
	if problems != "" {
		t.Fatal(problems)
	}
	for _, want := range []struct {
		table, row, column string
		milder             bool
	}{
		{"contact-regions", "chest", "F_s", true}, {"contact-regions", "chest", "f_F", false}, {"contact-regions", "chest", "K", true},
		{"contact-regions", "chest", "m_H", false}, {"contact-regions", "chest", "least_gap", true},
		{"contact-areas", "sternum", "p_s", false}, {"contact-areas", "sternum", "f_p", true},
	} {
		c := cellOf(t, lib, want.table, want.row, want.column)
		if got := c.Table.Milder(c.Col, c.Value, c.Own.Was); got != want.milder {
			t.Errorf("%s of %s, %v in place of %v: milder %v", want.column, want.row, c.Value.Num, c.Own.Was.Num, got)
		}
	}
}

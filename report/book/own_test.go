package book

import (
	"strings"
	"testing"
	"testing/fstest"

	"standclear/hazards/estimate"
	"standclear/limits/sheet"
	"standclear/report/officetest"
	"standclear/templates"
)

// A workbook with contact data of the user works out by it, names it on Data and
// Sources, and gives the same values in an independent engine.
func TestOwnContactDataInTheWorkbook(t *testing.T) {
	fsys := fstest.MapFS{"c.yaml": {Data: []byte(`title: Limits of the house
own: report 7
standing: single
regions: [{region: hands-fingers, F_s: 131 N, K: 81 N/mm}]
areas: [{area: palm-d, p_s: 255 N/cm2}]
`)}}
	lib, problems := sheet.LoadOwn(templates.FS, sheet.OwnData{Contact: []sheet.Own{{FS: fsys, Dir: "house", Name: "house"}}})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	methods, problems := estimate.Load(templates.FS, lib)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	r := assessBy(t, estimate.Shelf{Library: lib, Methods: methods}, demo(t))
	path := written(t, r)
	before := cells(t, path)
	for i, d := range differences(before, cells(t, officetest.Recalculate(t, path))) {
		if i < 20 {
			t.Error(d)
		}
	}
	for sheet, want := range map[string]string{
		"Data":    "F_s: single (the user's own, house/c.yaml), K: single (the user's own, house/c.yaml)",
		"Sources": "the user's own: Limits of the house",
		"Summary": "the user's own value 131 N (house/c.yaml) in place of the published 140 N",
	} {
		found := false
		for _, text := range before[sheet] {
			found = found || strings.Contains(text, want)
		}
		if !found {
			t.Errorf("%s does not say %q", sheet, want)
		}
	}
	for _, s := range r.Sources {
		if s.Key == "contact data house/c.yaml" && (!strings.Contains(s.Used, "K of hands-fingers") || !strings.Contains(s.Address, "report 7")) {
			t.Errorf("the source is %+v", s)
		}
	}
}

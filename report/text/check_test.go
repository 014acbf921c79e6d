package text_test

import (
	"strings"
	"testing"

	"standclear/hazards"
	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/report/text"
	"standclear/templates"
)

// A contact sheet that is named under `checks` belongs to no contact and is
// listed as every other check.
func TestCheckListsContactSheetOfItsOwn(t *testing.T) {
	lib, problems := sheet.Load(templates.FS)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	s := lib.Sheet("jaw-pinch")
	vals := s.Blank()
	vals[s.Input("area").Slot] = expr.Value{Kind: expr.Text, Text: "thenar"}
	o := s.Evaluate(vals)
	r := &hazards.Result{File: &file.Assessment{}, Library: lib, Document: hazards.NotReady,
		Checks: []hazards.Check{{ID: "jaws-alone", Of: "jaws-alone", Sheet: s, Outcome: &o, Verdict: o.Verdict, Why: o.Why, Area: "thenar", Model: true}}}
	var b strings.Builder
	text.Check(&b, r)
	if !strings.Contains(b.String(), "jaws-alone") {
		t.Errorf("the check is not listed:\n%s", b.String())
	}
}

package book

import (
	"strings"
	"testing"

	"standclear/report/officetest"
)

const curtain2024 = "light-curtain/iso-13855-2024"

// What is typed into the row that counts moves the row beside it, and what only
// the other edition asks for can be typed in there.
func TestOtherEditionFollows(t *testing.T) {
	r := assess(t, demo(t))
	l, path, f := opened(t, r)
	set := func(block, row, key string, v any) {
		name, at := l.cellOf(t, block, row, key)
		if err := f.SetCellValue(name, at, v); err != nil {
			t.Fatal(err)
		}
	}
	set("light-curtain", "tray-curtain-distance", "T", 0.2)
	set(curtain2024, "tray-curtain-distance/iso-13855-2024", "D_DO", 0)
	set("light-curtain", "tray-curtain-distance", "behind", "no")
	set(curtain2024, "tray-curtain-distance/iso-13855-2024", "Z", 30)
	set(curtain2024, "press-curtain-distance/iso-13855-2024", "D_DO", 700)
	set("parallel-field", "aisle-scanner-distance", "H", 200)
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
	f.Close()
	got := cells(t, officetest.Recalculate(t, path))
	block := "editions:ISO 13855:2010:ISO 13855:2024"
	for _, want := range []struct{ row, key, value string }{
		{"tray-curtain-distance", "required|first", "500"}, // 2000·0.2 + 128 is beyond 500
		{"tray-curtain-distance", "required|second", "530"},
		// D_DO is there, but the result that C_RO takes from the other check still is not
		{"tray-curtain-distance", "full|second", "at least"},
		{"tray-curtain-distance", "verdict|second", "not-decided"},
		{"tray-curtain-distance", "more", "30"},
		{"tray-curtain-distance", "copy", ""},
		{"press-curtain-distance", "required|second", "904"},
		{"press-curtain-distance", "full|second", "at least"}, // no Z
		{"aisle-scanner-distance", "more", "80"},
		{"tray-reach-over", "required|second", ""},
		{"tray-reach-over", "verdict|second", "needs-copy"},
	} {
		name, at := l.cellOf(t, block, want.row+"/editions", want.key)
		if got := got[name][at]; got != want.value {
			t.Errorf("%s, %s: %q, want %q", want.row, want.key, got, want.value)
		}
	}
	name, at := l.cellOf(t, block, "tray-reach-over/editions", "copy")
	if v := got[name][at]; !strings.HasPrefix(v, "D_DO for reaching over, ISO 13855:2024") {
		t.Errorf("what is not public is not named: %q", v)
	}
}

// Rows beside count nowhere: their verdicts stand in no count and no other block
// looks at them but the one that compares.
func TestOtherEditionCountsNowhere(t *testing.T) {
	b := Plan(assess(t, demo(t)))
	seen := 0
	for _, s := range b.Sheets {
		for _, bl := range s.Blocks {
			for _, r := range bl.Rows {
				if bl.ID == curtain2024 {
					seen++
					if v := r.Cells[bl.Column(countsKey)].Value; v.Given() || !strings.Contains(r.Cells[bl.Column(aboutKey)].Value.Text, "does not govern") {
						t.Errorf("%s counts as %v", r.ID, v)
					}
				}
			}
		}
	}
	if seen != 3 {
		t.Errorf("%d rows", seen)
	}
}

package book

import (
	"strings"
	"testing"

	"standclear/report/officetest"
)

// What would make a check hold stands as built until an input of it is edited, in
// its row or where the value is written; then it says so. What rests on nothing
// that was edited stays.
func TestAdviceGoesWithItsInputs(t *testing.T) {
	r := assess(t, demo(t))
	l, path, f := opened(t, r)
	built := map[string]string{}
	l.each(l.book, func(block, row, key string, c Cell) {
		if key == adviceKey {
			built[block+"|"+row] = c.Value.Text
		}
	})
	for _, e := range []struct {
		block, row, key string
		value           any
	}{
		{factsBlock, "arm.guide.force", "value", 61}, // what a contact adds up, with its tolerance
		{"light-curtain", "press-curtain-distance", "available", 231},
		{"payload", "payload-jaws", "rated", 1},
	} {
		name, at := l.cellOf(t, e.block, e.row, e.key)
		if err := f.SetCellValue(name, at, e.value); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
	f.Close()
	got := cells(t, officetest.Recalculate(t, path))
	at := func(block, row string) string {
		name, at := l.cellOf(t, block, row, adviceKey)
		return got[name][at]
	}
	moved := [][2]string{{contactsBlock, "hand-while-guiding"}, {"contact-clamped", "hand-while-guiding/thenar/cup-bar/none"},
		{"light-curtain", "press-curtain-distance"}, {"payload", "payload-jaws"}}
	for _, m := range moved {
		if v := at(m[0], m[1]); v != againText {
			t.Errorf("%s, %s: %q although an input was edited", m[0], m[1], v)
		}
		if was := built[m[0]+"|"+m[1]]; m[1] != "payload-jaws" && !strings.HasPrefix(was, "holds ") {
			t.Errorf("%s, %s: as built %q", m[0], m[1], was)
		}
	}
	stays := 0
	for id, was := range built {
		block, row, _ := strings.Cut(id, "|")
		if strings.HasPrefix(row, "hand-while-guiding") || strings.HasPrefix(row, "press-curtain-distance") || row == "payload-jaws" {
			continue
		}
		if v := at(block, row); v != was {
			t.Errorf("%s, %s: %q, as built %q", block, row, v, was)
		} else if v != "" {
			stays++
		}
	}
	if stays < 10 {
		t.Errorf("only %d sentences that rest on nothing edited", stays)
	}
}

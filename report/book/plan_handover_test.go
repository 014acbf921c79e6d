package book

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"standclear/hazards"
	"standclear/limits/expr"
	"standclear/report/officetest"
)

func sheetOf(t *testing.T, b *Book, id string) *Sheet {
	t.Helper()
	for _, s := range b.Sheets {
		if s.ID == id {
			return s
		}
	}
	t.Fatalf("no sheet %s", id)
	return nil
}

func (s *Sheet) block(t *testing.T, id string) *Block {
	t.Helper()
	for _, b := range s.Blocks {
		if b.ID == id {
			return b
		}
	}
	t.Fatalf("no block %s", id)
	return nil
}

// at is the cell of a row by key.
func (b *Block) at(t *testing.T, row, key string) Cell {
	t.Helper()
	for _, r := range b.Rows {
		if r.ID == row {
			return r.Cells[b.Column(key)]
		}
	}
	t.Fatalf("no row %s", row)
	return Cell{}
}

// The sheet says what the result says, and nothing of it is edited.
func TestHandOverSheet(t *testing.T) {
	r := assess(t, demo(t))
	s := sheetOf(t, Plan(r), "handover")
	h := &r.HandOver
	for id, n := range map[string]int{"handover-tell": len(h.Tell), "handover-gaps": len(h.Gaps), "handover-upkeep": len(h.Upkeep), "handover-training": len(h.Training),
		"handover-asked": len(h.Asked), "handover-technical-file": len(h.Papers), "handover-declarations": len(h.Declarations)} {
		b := s.block(t, id)
		if n == 0 || len(b.Rows) != n {
			t.Errorf("%s has %d rows, expected %d", id, len(b.Rows), n)
		}
		for _, row := range b.Rows {
			for i, c := range row.Cells {
				if c.Edit || b.Columns[i].Edit {
					t.Errorf("%s, %s: %s can be edited", id, row.ID, b.Columns[i].Key)
				}
			}
		}
	}
	tell := s.block(t, "handover-tell")
	if got := tell.at(t, "tell.H-05", "to").Value.Text; got != "packer, setter" {
		t.Errorf("H-05 is told to %q", got)
	}
	if c := tell.at(t, "tell.H-05", "remains"); !c.Live || c.Value.Text != "medium" {
		t.Errorf("the level of H-05 is %+v", c)
	}
	if got := s.block(t, "handover-declarations").at(t, "declarations.2", "where").Value.Text; got != missingWord {
		t.Errorf("the robot's declaration is %q", got)
	}
}

// The time after which a part is exchanged is that of its check, live.
func TestPartsToReplace(t *testing.T) {
	data := strings.Replace(string(demo(t)), "\nchecks:\n", "\nchecks:\n"+
		"  - {id: valve-life, sheet: b10, note: press valve, given: {B10D: {is: 2000000, from: datasheet}, days: {is: 250, from: measured}, hours: {is: 16, from: measured}, cycle: {is: 10 s, from: measured}}}\n", 1)
	r := assess(t, []byte(data))
	l, path, f := opened(t, r)
	f.Close()
	c := sheetOf(t, l.book, "handover").block(t, "handover-upkeep").at(t, "upkeep.valve-life", "years")
	if !c.Live || c.Value.Kind != expr.Number || math.Abs(c.Value.Num-2e6/1.44e6) > 1e-12 {
		t.Fatalf("%+v", c)
	}
	p := l.places["handover-upkeep"]
	name := p.column["years"] + strconv.Itoa(p.row["upkeep.valve-life"])
	got, err := strconv.ParseFloat(cells(t, officetest.Recalculate(t, path))[p.sheet.Name][name], 64)
	if err != nil || math.Abs(got-2e6/1.44e6) > 1e-12 {
		t.Errorf("recalculated to %v, %v", got, err)
	}
}

// A sheet without anything to hand over says so in every block.
func TestNothingToHandOver(t *testing.T) {
	r := assess(t, demo(t))
	r.HandOver = hazards.HandOver{}
	for _, b := range sheetOf(t, Plan(r), "handover").Blocks {
		if b.ID != "handover-training" && (len(b.Rows) != 1 || b.Rows[0].Cells[2].Value.Text == "") {
			t.Errorf("%s says nothing", b.ID)
		}
		for _, row := range b.Rows {
			for _, c := range row.Cells {
				if strings.Contains(c.Value.Text, "not required") {
					t.Errorf("%s: %s", b.ID, c.Value.Text)
				}
			}
		}
	}
}

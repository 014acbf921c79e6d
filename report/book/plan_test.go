package book

import (
	"strings"
	"testing"

	"standclear/limits/expr"
)

// stands tells whether a number may stand in a block without a formula: tables
// and constants, whose cells carry their source.
func stands(b *Block, c *Column) bool {
	return strings.HasPrefix(b.ID, "table:") || strings.HasPrefix(b.ID, "choices:") || b.ID == constantsBlock && c.Key == "value"
}

// TestEveryNumberIsLive: a number that is not an input and not a table value is
// worked out by a formula.
func TestEveryNumberIsLive(t *testing.T) {
	numbers, formulas := 0, 0
	for _, s := range Plan(assess(t, demo(t))).Sheets {
		for _, b := range s.Blocks {
			for _, r := range b.Rows {
				for i, cell := range r.Cells {
					c := b.Columns[i]
					if cell.Live {
						formulas++
						if cell.Formula == nil && c.Formula == nil && c.Watch == nil {
							t.Errorf("%s, %s, %s: live without a formula", b.ID, r.ID, c.Key)
						}
						continue
					}
					if cell.Value.Kind != expr.Number || cell.Edit || stands(b, c) {
						continue
					}
					numbers++
					t.Errorf("%s, %s, %s: %v has no formula", b.ID, r.ID, c.Key, cell.Value.Num)
				}
			}
		}
	}
	if formulas < 5000 {
		t.Errorf("only %d formulas planned", formulas)
	}
	t.Logf("%d formulas, %d bare numbers", formulas, numbers)
}

// TestResultsAreLive: verdicts, states and levels are formulas, not words.
func TestResultsAreLive(t *testing.T) {
	live := map[string]bool{"verdict": true, finalKey: true, "status": true, "worst": true, "state": true,
		before + "level": true, after + "level": true, before + "action": true, after + "action": true}
	for _, s := range Plan(assess(t, demo(t))).Sheets {
		for _, b := range s.Blocks {
			for _, r := range b.Rows {
				for i, cell := range r.Cells {
					if key := b.Columns[i].Key; live[key] && b.ID != orderBlock && b.ID != measuresBlock && !cell.Live {
						t.Errorf("%s, %s, %s is no formula", b.ID, r.ID, key)
					}
				}
			}
		}
	}
}

// TestPlanIsUnambiguous: ids and keys by which cells are found again.
func TestPlanIsUnambiguous(t *testing.T) {
	b := Plan(assess(t, demo(t)))
	if _, err := lay(b); err != nil {
		t.Fatal(err)
	}
	for _, s := range b.Sheets {
		for _, bl := range s.Blocks {
			keys := map[string]bool{}
			for _, c := range bl.Columns {
				if c.Key == "" || keys[c.Key] || c.Key == idKey {
					t.Errorf("block %s has the key %q twice, or it is empty", bl.ID, c.Key)
				}
				keys[c.Key] = true
			}
			for _, r := range bl.Rows {
				if r.ID != "" && strings.ContainsAny(r.ID, "*?~") {
					t.Errorf("the id %s holds a sign that MATCH reads as a pattern", r.ID)
				}
			}
		}
	}
}

// TestSpareRows: rows to add stand ready and are empty.
func TestSpareRows(t *testing.T) {
	b := Plan(assess(t, demo(t)))
	for _, id := range []string{tasksBlock, hazardsBlock, measuresBlock} {
		n := 0
		for _, s := range b.Sheets {
			for _, bl := range s.Blocks {
				for _, r := range bl.Rows {
					if bl.ID != id || !r.Spare {
						continue
					}
					n++
					if !r.Cells[0].Edit || r.Cells[0].Value.Given() {
						t.Errorf("%s: the id of a spare row cannot be typed", id)
					}
				}
			}
		}
		if n < 10 {
			t.Errorf("%s has %d spare rows", id, n)
		}
	}
}

func TestLayRefusesDoubles(t *testing.T) {
	col := []*Column{{Key: refKey}}
	row := func(id string) *Row { return &Row{ID: id, Cells: []Cell{show(id)}} }
	for name, b := range map[string]*Book{
		"block": {Sheets: []*Sheet{{Blocks: []*Block{{ID: "a", Columns: col}, {ID: "a", Columns: col}}}}},
		"row":   {Sheets: []*Sheet{{Blocks: []*Block{{ID: "a", Columns: col, Rows: []*Row{row("x"), row("x")}}}}}},
		"cells": {Sheets: []*Sheet{{Blocks: []*Block{{ID: "a", Columns: col, Rows: []*Row{{ID: "x", Cells: make([]Cell, 2)}}}}}}},
	} {
		if _, err := lay(b); err == nil {
			t.Errorf("%s twice, and no error", name)
		}
	}
}

package sheet_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/limits/source"
)

const stepsTable = `id: steps
title: Two heights and two depths
standard: {id: House rule}
key: a
columns:
  a: {unit: mm, means: height}
  b100: {unit: mm, at: 100 mm, means: at 100, standing: memory}
  b200: {unit: mm, at: 200 mm, means: at 200, standing: memory}
rows:
  - {a: 10, b100: 1, b200: 2}
  - {a: 20, b100: 3, b200: 4}
`

const stepsSheet = `id: exactly
title: A look-up by equal keys
group: other
standard: {id: House rule}
standing: practice
inputs:
  a: {unit: mm, means: height, from: 0}
  b: {unit: mm, means: depth, from: 0}
lookups:
  c: {table: steps, by: {a: exact, b: exact}}
steps:
  d: {unit: mm, means: twice the value, is: 2*c}
verdict: {holds: d >= 0, use: d/d}
results: [d]
`

// An exact match takes equal keys alone, as MATCH(…,0) does: neither a neighbour
// nor, beyond the last key, the last entry.
func TestExactTakesEqualKeysAlone(t *testing.T) {
	lib, problems := sheet.Load(fstest.MapFS{"tables/steps.yaml": {Data: []byte(stepsTable)}, "sheets/exactly.yaml": {Data: []byte(stepsSheet)}})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	s := lib.Sheet("exactly")
	for _, c := range []struct{ a, b, want float64 }{
		{10, 100, 1}, {20, 200, 4}, {10, 200, 2},
		{15, 100, 0}, {9, 100, 0}, {21, 100, 0}, {10, 150, 0}, {10, 99, 0}, {10, 201, 0},
	} {
		vals := s.Blank()
		vals[s.Input("a").Slot], vals[s.Input("b").Slot] = expr.Value{Kind: expr.Number, Num: c.a}, expr.Value{Kind: expr.Number, Num: c.b}
		o := s.Evaluate(vals)
		if got := o.Value("c"); got.Num != c.want || got.Given() != (c.want != 0) {
			t.Errorf("a %v, b %v: %+v, want %v", c.a, c.b, got, c.want)
		}
		if len(o.Cells()) == 1 != (c.want != 0) {
			t.Errorf("a %v, b %v: cells %+v", c.a, c.b, o.Cells())
		}
	}
}

// Of two tables or sheets with one id the second would never be found.
func TestLoadRefusesAnIDTwice(t *testing.T) {
	_, problems := sheet.Load(fstest.MapFS{"tables/steps.yaml": {Data: []byte(stepsTable)}, "contact/steps.yaml": {Data: []byte(stepsTable)}})
	if len(problems) != 1 || !strings.Contains(problems[0].Message, "table id steps a second time") {
		t.Error(problems)
	}
	_, problems = sheet.Load(fstest.MapFS{"tables/steps.yaml": {Data: []byte(stepsTable)},
		"sheets/1.yaml": {Data: []byte(stepsSheet)}, "sheets/2.yaml": {Data: []byte(stepsSheet)}})
	if len(problems) != 1 || !strings.Contains(problems[0].Message, "sheet id exactly a second time") {
		t.Error(problems)
	}
}

const gapsTable = `id: gaps
title: A grid with cells that have no value
standard: {id: House rule}
key: a
columns:
  a: {unit: mm, means: height}
  b100: {unit: mm, at: 100 mm, means: at 100, standing: memory}
  b200: {unit: mm, at: 200 mm, means: at 200, standing: memory}
rows:
  - {a: 10, b100: 1}
  - {a: 20, b200: 4}
`

// A cell of a grid that has no value gives none, and the spreadsheet does not
// read it as 0; over a span the greatest of some cells would pass for all.
func TestGridWithGaps(t *testing.T) {
	grid := strings.NewReplacer("table: steps", "table: gaps", "a: exact, b: exact", "a: next-down, b: exact")
	load := func(text string) (*sheet.Library, []source.Problem) {
		return sheet.Load(fstest.MapFS{"tables/gaps.yaml": {Data: []byte(gapsTable)}, "sheets/exactly.yaml": {Data: []byte(text)}})
	}
	lib, problems := load(grid.Replace(stepsSheet))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	s := lib.Sheet("exactly")
	for _, c := range []struct{ a, b, want float64 }{{10, 100, 1}, {19, 100, 1}, {25, 200, 4}, {10, 200, 0}, {20, 100, 0}} {
		vals := s.Blank()
		vals[s.Input("a").Slot], vals[s.Input("b").Slot] = number(c.a), number(c.b)
		o := s.Evaluate(vals)
		if got := o.Value("c"); got.Num != c.want || got.Given() != (c.want != 0) {
			t.Errorf("a %v, b %v: %+v, want %v", c.a, c.b, got, c.want)
		}
		if cells := len(o.Cells()); cells == 1 != (c.want != 0) {
			t.Errorf("a %v, b %v rests on %d cells", c.a, c.b, cells)
		}
	}
	var text strings.Builder
	for _, p := range s.Formula(s.Column("c")) {
		text.WriteString(p.Lit)
	}
	if !strings.Contains(text.String(), `="","",INDEX(`) {
		t.Errorf("no guard of an empty cell: %s", text.String())
	}
	_, problems = load(strings.Replace(grid.Replace(stepsSheet), "a: next-down", "a: worst-between", 1))
	if len(problems) != 1 || !strings.Contains(problems[0].Message, "cells without a value") {
		t.Error(problems)
	}
}

package table_test

import (
	"math"
	"strings"
	"testing"

	"standclear/limits/source"
	"standclear/limits/table"
)

const small = `id: small
title: A small grid
standard: {id: House rule}
key: a
columns:
  a: {unit: mm, means: height}
  b100: {unit: mm, at: 100 mm, means: at 100, standing: single}
  b200: {unit: mm, at: 200 mm, means: at 200, standing: single}
rows:
  - {a: 0, b100: 5, b200: 4}
  - {a: 10, b100: 9, b200: 3, standing: {b200: memory}}
  - {a: 20, b100: 7}
`

func TestLoad(t *testing.T) {
	tab, ps := parse("small.yaml", small)
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	if tab.Rows[2][2].Value.Given() || tab.Rows[1][2].Standing != table.Memory || tab.Rows[0][2].Standing != table.Single {
		t.Errorf("%+v", tab.Rows)
	}
	if got := tab.Describe(1, 2); got != "a 10, at 200" {
		t.Error(got)
	}
	for _, c := range []struct {
		x        float64
		down, up int
	}{
		{-1, -1, 0}, {0, 0, 0}, {0.001, 0, 1}, {9.999, 0, 1}, {10, 1, 1}, {10.001, 1, 2}, {20, 2, 2}, {21, 2, 2},
		{math.Nextafter(10, 0), 1, 1}, {math.Nextafter(10, 20), 1, 1}, {10 - 1e-12, 0, 1}, {math.Inf(1), 2, 2}, {math.Inf(-1), -1, 0},
	} {
		if d, u := tab.Down(c.x), tab.Up(c.x); d != c.down || u != c.up {
			t.Errorf("%v lies between rows %d and %d, want %d and %d", c.x, d, u, c.down, c.up)
		}
	}
	if d, u := tab.HeadDown(150), tab.HeadUp(150); d != 0 || u != 1 {
		t.Errorf("150 lies between columns %d and %d", d, u)
	}
	for x, want := range map[float64]int{-1: -1, 0: 0, 9: -1, 10: 1, 20: 2, 21: -1} {
		if got := tab.At(x); got != want {
			t.Errorf("key %v is that of row %d, want %d", x, got, want)
		}
	}
	if got, beyond := tab.HeadAt(200), tab.HeadAt(201); got != 1 || beyond != -1 {
		t.Errorf("200 is column %d, 201 is %d", got, beyond)
	}
}

func TestLoadRefuses(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{"key: a", "key: z", "has no column z"},
		{"{a: 20, b100: 7}", "{a: 20, c: 7}", "has no column c"},
		{"{a: 20, b100: 7}", "{b100: 7}", "has no a"},
		{"{a: 20, b100: 7}", "{a: 5, b100: 7}", "must rise"},
		{"{a: 20, b100: 7}", "{a: 10, b100: 7}", "must rise"},
		{"{a: 20, b100: 7}", "{a: 20, b100: 7, standing: memory}", "a mapping of columns"},
		{"{a: 20, b100: 7}", "7", "a row of table small is a mapping"},
		{"{a: 20, b100: 7}", "{a: 20, b100: 1_000}", ""},
		{"{a: 20, b100: 7}", "{a: 20, b100: seven}", "expected a number in mm"},
		{"{a: 20, b100: 7}", "{a: 20, b100: [7]}", "is one value"},
		{"{a: 20, b100: 7}", "{a: 20, b100: 7, standing: {b100: sure}}", "standing of a cell"},
		{"unit: mm, at: 200 mm", "unit: mm, at: 50 mm", "columns of table small must rise"},
		{"unit: mm, at: 200 mm", "unit: mm, at: 100 mm", "columns of table small must rise"},
		{"unit: mm, at: 200 mm", "unit: mm, at: 0.05 m", "columns of table small must rise"},
		{"unit: mm, at: 200 mm", "unit: mm, at: 200 s", "cannot be turned into mm"},
		{"unit: mm, at: 200 mm", "unit: mm", "must stand together at the end"},
		{"unit: mm, at: 200 mm", "unit: furlong, at: 200 mm", "furlong"},
	} {
		if !strings.Contains(small, c.old) {
			t.Fatalf("no %q", c.old)
		}
		tab, ps := parse("small.yaml", strings.Replace(small, c.old, c.new, 1))
		if tab != nil || len(ps) == 0 || !says(ps, c.want) {
			t.Errorf("%s: %v", c.new, ps)
		}
	}
}

func says(ps []source.Problem, want string) bool {
	for _, p := range ps {
		if strings.Contains(p.Message+p.Hint+p.Expected, want) {
			return true
		}
	}
	return false
}

func TestStanding(t *testing.T) {
	order := []table.Standing{table.Confirmed, table.Single, table.Practice, table.Memory}
	for i, a := range order {
		for j, b := range order {
			if a.Worse(b) != (i > j) {
				t.Errorf("%s worse than %s: %v", a, b, a.Worse(b))
			}
		}
	}
	if got := (table.Standard{ID: "ISO 13855", Edition: "iso-13855-2010", Clause: "6.2"}).String(); got != "ISO 13855:2010, 6.2" {
		t.Error(got)
	}
	if got := (table.Standard{ID: "House rule"}).String(); got != "House rule" {
		t.Error(got)
	}
}

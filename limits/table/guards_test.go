package table_test

import (
	"slices"
	"strconv"
	"testing"

	"standclear/limits/source"
	"standclear/limits/table"
	"standclear/limits/table/tabletest"
)

func TestGuardHeights(t *testing.T) {
	ref := tabletest.ReadGuards(t)
	for name, c := range map[string]struct {
		ref   *tabletest.Heights
		known int // cells that are not from memory
	}{"low": {&ref.Low, 118}, "high": {&ref.High, 38}} {
		tab := embedded(t, "tables/guard-height-"+name+".yaml")
		if !slices.Equal(tab.Heads, c.ref.Heights) || len(tab.Rows) != len(c.ref.Rows) {
			t.Fatalf("%s: heights %v and %d rows, want %v and %d", name, tab.Heads, len(tab.Rows), c.ref.Heights, len(c.ref.Rows))
		}
		known := 0
		for _, e := range c.ref.Rows {
			for j, want := range e.Value {
				got := heightCell(t, tab, e.Key, j)
				if got.Value.Num != want || !got.Value.Given() {
					t.Errorf("%s (%s, %v) is %v, want %v", name, e.Key, c.ref.Heights[j], got.Value.Num, want)
				}
				if st := standing(c.ref.Stated(e.Key, c.ref.Heights[j])); got.Standing != st {
					t.Errorf("%s (%s, %v) is %s, want %s", name, e.Key, c.ref.Heights[j], got.Standing, st)
				}
				if got.Standing != table.Memory {
					known++
				}
				if j > 0 && want > e.Value[j-1] {
					t.Errorf("%s: row %s rises with the structure at %v", name, e.Key, c.ref.Heights[j])
				}
			}
		}
		if known != c.known {
			t.Errorf("%s: %d cells are known better than from memory, want %d", name, known, c.known)
		}
	}
}

func heightCell(t *testing.T, tab *table.Table, row string, col int) table.Cell {
	t.Helper()
	a, err := strconv.ParseFloat(row, 64)
	i := tab.At(a)
	if err != nil || i < 0 {
		t.Fatalf("%s has no row %s", tab.ID, row)
	}
	return tab.Rows[i][tab.First+col]
}

// At low risk nothing stands further back than at high risk.
func TestLowRiskIsNeverFarther(t *testing.T) {
	low, high := embedded(t, "tables/guard-height-low.yaml"), embedded(t, "tables/guard-height-high.yaml")
	for i := range low.Rows {
		j := high.At(low.Rows[i][low.Column("a")].Value.Num)
		for k, b := range low.Heads {
			m := high.HeadAt(b)
			if j >= 0 && m >= 0 && low.Rows[i][low.First+k].Value.Num > high.Rows[j][high.First+m].Value.Num {
				t.Errorf("(%s, %v): farther at low risk", low.RowKey(i), b)
			}
		}
	}
}

func TestOpenings(t *testing.T) {
	ref := tabletest.ReadGuards(t)
	for name, want := range map[string]source.Map[[]float64]{"openings-upper": ref.Openings.Upper, "openings-lower": ref.Openings.Lower} {
		compareRows(t, embedded(t, "tables/"+name+".yaml"), want)
	}
}

func TestBurnThresholds(t *testing.T) {
	tab := embedded(t, "tables/burn-threshold.yaml")
	compareRows(t, tab, tabletest.ReadGuards(t).Burn)
	for i := range tab.Rows {
		for j := tab.First + 1; j < len(tab.Columns); j++ {
			if was, now := tab.Rows[i][j-1].Value, tab.Rows[i][j].Value; was.Given() && now.Num >= was.Num {
				t.Errorf("%s: threshold does not sink at %v s", tab.RowKey(i), tab.Columns[j].At)
			}
		}
	}
	if c := cell(t, tab, "coated-metal", "t1"); c.Standing != table.Single {
		t.Errorf("coated metal at 1 s is %s, one place states it", c.Standing)
	}
}

// compareRows holds all columns behind the key against the rows keyed apart.
func compareRows(t *testing.T, tab *table.Table, want source.Map[[]float64]) {
	t.Helper()
	if len(tab.Rows) != len(want) {
		t.Fatalf("%s: %d rows, want %d", tab.ID, len(tab.Rows), len(want))
	}
	for i, e := range want {
		if tab.RowKey(i) != e.Key || len(tab.Columns) != len(e.Value)+1 {
			t.Fatalf("%s: row %s of %d columns, want %s of %d", tab.ID, tab.RowKey(i), len(tab.Columns), e.Key, len(e.Value)+1)
		}
		for j, x := range e.Value {
			if c := tab.Rows[i][j+1]; c.Value.Given() != (x >= 0) || x >= 0 && c.Value.Num != x {
				t.Errorf("%s: %s of %s is %v, want %v", tab.ID, tab.Columns[j+1].ID, e.Key, c.Value, x)
			}
		}
	}
}

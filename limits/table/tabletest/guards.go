package tabletest

import (
	"fmt"
	"os"
	"strconv"
	"testing"

	"standclear/limits/source"
)

// Guards is testdata/published/guards.yaml: tables of guards and of hot
// surfaces, keyed a second time. A value of -1 stands for none.
type Guards struct {
	source.Item
	Openings struct {
		source.Item
		Upper source.Map[[]float64] `yaml:"upper,required"`
		Lower source.Map[[]float64] `yaml:"lower,required"`
	} `yaml:"openings,required"`
	Low  Heights               `yaml:"low,required"`
	High Heights               `yaml:"high,required"`
	Burn source.Map[[]float64] `yaml:"burn,required"`
}

// Heights is a table of distances behind a structure, by height of the hazard,
// then of the structure.
type Heights struct {
	source.Item
	Heights []float64             `yaml:"heights,required"`
	Rows    source.Map[[]float64] `yaml:"rows,required"`
	Places  source.Map[int]       `yaml:"places,required"` // public places of the cells of a row
	But     source.Map[int]       `yaml:"but,required"`    // public places of one cell, by "row column"
}

// Stated is how many public places state a cell.
func (h *Heights) Stated(row string, column float64) int {
	cell := row + " " + strconv.FormatFloat(column, 'g', -1, 64)
	for _, e := range h.But {
		if e.Key == cell {
			return e.Value
		}
	}
	for _, e := range h.Places {
		if e.Key == row {
			return e.Value
		}
	}
	return -1
}

// LoadGuards reads them, from the package of a test two folders below the top.
func LoadGuards() (*Guards, error) {
	data, err := os.ReadFile("../../testdata/published/guards.yaml")
	if err != nil {
		return nil, err
	}
	var ps source.Problems
	g := new(Guards)
	if n := source.Parse("guards.yaml", data, &ps); n != nil {
		source.Decode(n, g, &ps)
	}
	for _, p := range ps.List() {
		return nil, fmt.Errorf("%v: %s", p.Pos, p.Message)
	}
	return g, nil
}

// ReadGuards reads them for a test.
func ReadGuards(t testing.TB) *Guards {
	t.Helper()
	g, err := LoadGuards()
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// Package tabletest reads the published figures that were keyed a second time,
// for tests that hold tables and sheets against them.
package tabletest

import (
	"os"
	"testing"

	"standclear/limits/source"
)

// Reference is testdata/published/tables.yaml: the same figures, keyed a second
// time.
type Reference struct {
	source.Item
	Regions source.Map[struct {
		source.Item
		F        float64  `yaml:"F,required"`
		FSources int      `yaml:"F_sources,required"`
		Factor   *float64 `yaml:"f"`
		K        float64  `yaml:"K,required"`
		KSources int      `yaml:"K_sources,required"`
		M        float64  `yaml:"m_H,required"`
		MSources int      `yaml:"m_H_sources,required"`
	}] `yaml:"regions,required"`
	Areas source.Map[struct {
		source.Item
		Region  string   `yaml:"region,required"`
		P       float64  `yaml:"p,required"`
		Sources int      `yaml:"p_sources,required"`
		Factor  *float64 `yaml:"f"`
	}] `yaml:"areas,required"`
	Without   source.Map[string]  `yaml:"without_value,required"`
	Gaps      source.Map[float64] `yaml:"gaps,required"`
	ReachOver struct {
		source.Item
		Edges     []float64             `yaml:"edges,required"`
		Rows      source.Map[[]float64] `yaml:"rows,required"`
		Memory    []float64             `yaml:"memory,required"`
		Confirmed [][]float64           `yaml:"confirmed,required"`
	} `yaml:"reach_over,required"`
}

// Read reads them, from the package of a test two folders below the top.
func Read(t *testing.T) *Reference {
	t.Helper()
	data, err := os.ReadFile("../../testdata/published/tables.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var ps source.Problems
	r := new(Reference)
	if n := source.Parse("tables.yaml", data, &ps); n != nil {
		source.Decode(n, r, &ps)
	}
	for _, p := range ps.List() {
		t.Fatalf("%v: %s", p.Pos, p.Message)
	}
	return r
}

package sheet_test

import (
	"math"
	"os"
	"slices"
	"strconv"
	"testing"

	"standclear/limits/sheet"
	"standclear/limits/source"
)

// contactTables is testdata/published/contact-tables.yaml.
type contactTables struct {
	source.Item
	Sources source.Map[struct {
		source.Item
		Title   string `yaml:"title,required"`
		Address string `yaml:"address,required"`
	}] `yaml:"sources,required"`
	Energy   []energyRow `yaml:"energy,required"`
	Register struct {
		source.Item
		Source []string            `yaml:"source,required"`
		Rows   source.Map[float64] `yaml:"rows,required"`
	} `yaml:"register_2011,required"`
	Speed struct {
		source.Item
		Masses   []float64 `yaml:"masses,required"`
		Area     float64   `yaml:"area,required"`
		Standing string    `yaml:"standing,required" choice:"memory|published"`
		Rows     []struct {
			source.Item
			Region string    `yaml:"region,required"`
			V      []float64 `yaml:"v,required"`
		} `yaml:"rows,required"`
		Without []struct {
			source.Item
			Region string `yaml:"region,required"`
			Why    string `yaml:"why,required"`
		} `yaml:"without,required"`
	} `yaml:"speed,required"`
}

type energyRow struct {
	source.Item
	Region   string   `yaml:"region,required"`
	E        float64  `yaml:"E,required"`
	F        float64  `yaml:"F,required"`
	Standing string   `yaml:"standing,required" choice:"memory|published"`
	Source   []string `yaml:"source"`
	Why      string   `yaml:"why"`
}

func readContactTables(t *testing.T) *contactTables {
	t.Helper()
	data, err := os.ReadFile("../../testdata/published/contact-tables.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var ps source.Problems
	f := new(contactTables)
	if n := source.Parse("contact-tables.yaml", data, &ps); n != nil {
		source.Decode(n, f, &ps)
	}
	for _, p := range ps.List() {
		t.Fatalf("%v: %s", p.Pos, p.Message)
	}
	return f
}

// atRegion works the sheet out for every body area of a region and gives the
// outcomes that have a permitted speed.
func atRegion(t *testing.T, lib *sheet.Library, s *sheet.Sheet, region string, mass, area float64) []sheet.Outcome {
	t.Helper()
	areas := lib.Table("contact-areas")
	column := areas.Column("region")
	var out []sheet.Outcome
	for i := range areas.Rows {
		if areas.Rows[i][column].Value.Text != region {
			continue
		}
		vals := s.Blank()
		vals[s.Input("area").Slot] = word(areas.RowKey(i))
		vals[s.Input("m_R").Slot], vals[s.Input("A").Slot] = number(mass), number(area)
		if o := s.Evaluate(vals); o.Value("v_max").Given() {
			out = append(out, o)
		}
	}
	return out
}

func twoDigits(x float64) float64 {
	v, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 2, 64), 64)
	return v
}

// Of the table of energy limits seven rows follow from the tables in use, to the
// two digits that it has. Each of the others says why not, and follows from the
// force that it was worked out with.
func TestEnergyTable(t *testing.T) {
	f, lib := readContactTables(t), library(t)
	s, regions := lib.Sheet("contact-transient"), lib.Table("contact-regions")
	seen, follow := map[string]bool{}, 0
	for _, r := range f.Energy {
		row := regions.Exact(r.Region)
		if row < 0 || seen[r.Region] {
			t.Fatalf("%v: %s is no region, or stands there twice", r.Pos(), r.Region)
		}
		seen[r.Region] = true
		if (r.Standing == "published") != (len(r.Source) > 0) {
			t.Errorf("%v: standing %s with sources %v", r.Pos(), r.Standing, r.Source)
		}
		K := regions.Rows[row][regions.Column("K")].Value.Num
		if own := math.Pow(2*r.F, 2) / (2 * K) / 1e3; twoDigits(own) != r.E {
			t.Errorf("%v: %s: %v N give %v J, the table has %v", r.Pos(), r.Region, r.F, own, r.E)
		}
		ours := atRegion(t, lib, s, r.Region, 5, 100) // so wide that force governs
		if r.Why != "" {
			for _, o := range ours {
				if E := o.Value("E_limit").Num; twoDigits(E) == r.E {
					t.Errorf("%v: %s follows all the same: %v J", r.Pos(), r.Region, E)
				}
			}
			continue
		}
		follow++
		if len(ours) == 0 {
			t.Errorf("%v: %s has no energy limit", r.Pos(), r.Region)
		}
		for _, o := range ours {
			if E := o.Value("E_limit").Num; twoDigits(E) != r.E {
				t.Errorf("%v: %s has %v J, the table %v", r.Pos(), r.Region, E, r.E)
			}
		}
	}
	if follow != 7 || len(seen) != len(regions.Rows) {
		t.Errorf("%d rows follow, %d of %d regions", follow, len(seen), len(regions.Rows))
	}
	older := map[string]string{"neck": "neck", "hands-fingers": "hands-fingers", "lower-legs": "feet"}
	for _, r := range f.Energy {
		if key := older[r.Region]; key != "" && of(f.Register.Rows, key) != r.F {
			t.Errorf("%v: the register has %v N", r.Pos(), of(f.Register.Rows, key))
		}
	}
}

// Every cell of the table of speeds is met within a tenth by the pressure of the
// worst body area, and each region is in the table or says why not.
func TestSpeedTable(t *testing.T) {
	f, lib := readContactTables(t), library(t)
	s, regions := lib.Sheet("contact-transient"), lib.Table("contact-regions")
	seen, worst, cells := map[string]bool{}, 0.0, 0
	for _, r := range f.Speed.Rows {
		if seen[r.Region] || len(r.V) != len(f.Speed.Masses) {
			t.Fatalf("%v: %s twice, or %d speeds for %d masses", r.Pos(), r.Region, len(r.V), len(f.Speed.Masses))
		}
		seen[r.Region] = true
		for i, mass := range f.Speed.Masses {
			list := atRegion(t, lib, s, r.Region, mass, f.Speed.Area)
			if len(list) == 0 {
				t.Fatalf("%v: %s permits no speed", r.Pos(), r.Region)
			}
			least := slices.MinFunc(list, func(a, b sheet.Outcome) int {
				return int(math.Copysign(1, a.Value("v_p").Num-b.Value("v_p").Num))
			})
			v := least.Value("v_p").Num
			off := math.Abs(r.V[i]/v - 1)
			worst, cells = max(worst, off), cells+1
			if off > 0.1 {
				t.Errorf("%v: %s at %v kg: %v mm/s, the table has %v", r.Pos(), r.Region, mass, v, r.V[i])
			}
			// what is permitted heeds the force as well
			if m := least.Value("v_max").Num; m > v || m > least.Value("v_F").Num || m > r.V[i]*1.1 {
				t.Errorf("%v: %s at %v kg: permitted %v", r.Pos(), r.Region, mass, m)
			}
		}
	}
	for _, x := range f.Speed.Without {
		if seen[x.Region] {
			t.Errorf("%v: %s is in the table", x.Pos(), x.Region)
		}
		seen[x.Region] = true
	}
	if cells != 54 || len(seen) != len(regions.Rows) {
		t.Errorf("%d cells, %d of %d regions", cells, len(seen), len(regions.Rows))
	}
	t.Logf("greatest difference %.1f %%", worst*100)
}

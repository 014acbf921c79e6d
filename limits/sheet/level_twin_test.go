package sheet_test

import (
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"sync"
	"testing"

	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/limits/source"
	"standclear/limits/table/tabletest"
)

// keyedLevels is testdata/published/levels.yaml: the tables of levels, keyed a
// second time, column by column.
type keyedLevels struct {
	source.Item
	Columns source.Map[source.Map[float64]] `yaml:"columns,required"`
	Printed []struct {
		source.Item
		Column string  `yaml:"column"`
		At     float64 `yaml:"at"`
		Source string  `yaml:"source"`
	} `yaml:"printed,required"`
	Simplified        source.Map[source.Map[string]] `yaml:"simplified,required"`
	SimplifiedPrinted []struct {
		source.Item
		Band   string `yaml:"band"`
		Column string `yaml:"column"`
	} `yaml:"simplified_printed,required"`
	Counting source.Map[[]string] `yaml:"counting,required"`
}

var levels = sync.OnceValue(func() *keyedLevels {
	data, err := os.ReadFile("../../testdata/published/levels.yaml")
	if err != nil {
		panic(err)
	}
	var ps source.Problems
	var k keyedLevels
	if n := source.Parse("levels.yaml", data, &ps); n != nil {
		source.Decode(n, &k, &ps)
	}
	if ps.Len() > 0 {
		panic(ps.List()[0].Message)
	}
	return &k
})

func in[T any](m source.Map[T], key string) (T, bool) {
	for _, e := range m {
		if e.Key == key {
			return e.Value, true
		}
	}
	var none T
	return none, false
}

// spreads fill a random row so that every band and every row of a table comes up.
var spreads = map[string]func(*rand.Rand, *sheet.Sheet, []expr.Value){
	"level-chain":    spreadChain,
	"level-estimate": spreadEstimate,
	"two-channels": func(r *rand.Rand, s *sheet.Sheet, vals []expr.Value) {
		for _, name := range []string{"C1", "C2"} {
			vals[s.Input(name).Slot] = number(math.Pow(10, 4*r.Float64()))
		}
	},
}

// spreadChain makes failure rates small, or takes them away and leaves a few
// parts of near levels.
func spreadChain(r *rand.Rand, s *sheet.Sheet, vals []expr.Value) {
	count := r.IntN(2) == 0
	parts, lowest := 1+r.IntN(6), r.IntN(5)
	for i, c := range s.Lists["PFH"] {
		vals[c.Slot].Num *= math.Pow(10, -8*r.Float64())
		if !count {
			continue
		}
		vals[c.Slot] = expr.Value{}
		level := &vals[s.Lists["levels"][i].Slot]
		if *level = (expr.Value{}); i < parts {
			*level = word(string("abcde"[min(4, lowest+r.IntN(2))]))
		}
	}
}

func spreadEstimate(r *rand.Rand, s *sheet.Sheet, vals []expr.Value) {
	if c := s.Input("MTTFD"); r.IntN(4) > 0 {
		vals[c.Slot] = number(2.5 * math.Pow(10, 3.2*r.Float64()))
	} else {
		vals[c.Slot] = expr.Value{}
	}
	if c := s.Input("DC_share"); vals[c.Slot].Given() && r.IntN(2) == 0 {
		vals[c.Slot] = number(1 - math.Pow(10, -3*r.Float64()))
	}
	for _, name := range []string{"CCF", "required"} { // else most rows say that one is missing
		if c := s.Input(name); !vals[c.Slot].Given() {
			vals[c.Slot] = random(r, c)
		}
	}
}

// bands of the failure rate, worst first, each with its upper end.
var levelBands = []struct {
	level string
	end   float64
}{{"a", 1e-4}, {"b", 1e-5}, {"c", 3e-6}, {"d", 1e-6}, {"e", 1e-7}}

func bandOf(rate float64) string {
	level := "none"
	for _, b := range levelBands {
		if rate < b.end {
			level = b.level
		}
	}
	return level
}

func chainTwin(_ *tabletest.Reference, g given) results {
	words := g.words("levels")
	rates := g.numbers("PFH")
	if len(rates) == 0 {
		return results{"PFH_sum": math.NaN(), "PL": counted(words)}
	}
	sum := 0.0
	for _, x := range rates {
		sum += x
	}
	level := bandOf(sum)
	if level != "none" {
		for _, l := range words {
			level = min(level, string(l))
		}
	}
	return results{"PFH_sum": sum, "PL": level}
}

func counted(words string) any {
	if words == "" {
		return "none"
	}
	lowest, n := words[0], 0
	for i := range words {
		lowest = min(lowest, words[i])
	}
	for i := range words {
		if words[i] == lowest {
			n++
		}
	}
	row, _ := in(levels().Counting, string(lowest))
	if most, _ := strconv.Atoi(row[0]); n > most {
		return row[1]
	}
	return string(lowest)
}

func estimateTwin(_ *tabletest.Reference, g given) results {
	category, coverage := g.text("category"), g.text("DC")
	if coverage == "" {
		switch share := g.num("DC_share"); {
		case share >= 0.99:
			coverage = "high"
		case share >= 0.9:
			coverage = "medium"
		case share >= 0.6:
			coverage = "low"
		case share >= 0:
			coverage = "none"
		default:
			return results{"PFH": math.NaN(), "PL": math.NaN()}
		}
	}
	if coverage == "high" && (category == "2" || category == "3") {
		coverage = "medium"
	}
	name := "cat" + category + "_" + coverage
	years := g.num("MTTFD")
	if math.IsNaN(years) {
		row, _ := in(levels().Simplified, g.text("MTTFD_band"))
		if level, ok := in(row, name); ok {
			return results{"PFH": math.NaN(), "PL": level}
		}
		return results{"PFH": math.NaN(), "PL": math.NaN()}
	}
	if category != "4" {
		years = math.Min(years, 100)
	}
	rate := math.NaN()
	column, _ := in(levels().Columns, name)
	if category == "B" && years >= 30 { // the column ends at 27, and the row of 30 has no value
		column = nil
	}
	for _, e := range column {
		if at, _ := strconv.ParseFloat(e.Key, 64); at <= years {
			rate = e.Value
		}
	}
	if math.IsNaN(rate) {
		return results{"PFH": rate, "PL": math.NaN()}
	}
	return results{"PFH": rate, "PL": bandOf(rate)}
}

// wearTwin counts hours between cycles and hours of life.
func wearTwin(_ *tabletest.Reference, g given) results {
	hoursAYear := g.num("days") * g.num("hours")
	life := g.num("B10D") * g.num("cycle") / 3600 // hours of use until a tenth has failed
	return results{"n_op": hoursAYear * 3600 / g.num("cycle"), "MTTFD": 10 * life / hoursAYear, "T10D": life / hoursAYear}
}

// channelsTwin: two thirds of the sum of both, less what they come to in series.
func channelsTwin(_ *tabletest.Reference, g given) results {
	most := 100.0
	if g.text("category") == "4" {
		most = 2500
	}
	a, b := math.Min(g.num("C1"), most), math.Min(g.num("C2"), most)
	return results{"MTTFD": 2 * (a*a + a*b + b*b) / (3 * (a + b))}
}

// The tables of levels are those of the second keying, and a cell is better
// known than from memory only where a source prints it.
func TestLevelTables(t *testing.T) {
	lib, k := library(t), levels()
	if _, ok := in(k.Columns, "cat4_high"); !ok || len(k.Columns) != 7 {
		t.Fatal("seven columns are keyed")
	}
	printed := map[string]bool{}
	for _, p := range k.Printed {
		printed[p.Column+" "+strconv.FormatFloat(p.At, 'g', -1, 64)] = true
	}
	tab, cells := lib.Table("level-by-mttfd"), 0
	for j := tab.First; j < len(tab.Columns); j++ {
		id := tab.Columns[j].ID
		column, ok := in(k.Columns, id)
		if !ok {
			t.Errorf("column %s is not keyed", id)
		}
		for i, row := range tab.Rows {
			want, keyed := in(column, tab.RowKey(i))
			if row[j].Value.Given() != keyed || row[j].Value.Num != want {
				t.Errorf("%s at %s years is %v, keyed %v", id, tab.RowKey(i), row[j].Value.Num, want)
			}
			if keyed {
				cells++
			}
			if got := row[j].Standing == "single"; got != printed[id+" "+tab.RowKey(i)] || !got && row[j].Standing != "memory" {
				t.Errorf("%s at %s years is %s", id, tab.RowKey(i), row[j].Standing)
			}
		}
	}
	if want := 24 + 14 + 4*38 + 14 + 35; cells != want {
		t.Errorf("%d cells, want %d", cells, want)
	}
	sources := map[string]bool{}
	for _, p := range k.SimplifiedPrinted {
		sources[p.Band+" "+p.Column] = true
	}
	tab = lib.Table("level-by-word")
	for i, row := range tab.Rows {
		keyed, _ := in(k.Simplified, tab.RowKey(i))
		for j := tab.First; j < len(tab.Columns); j++ {
			id := tab.Columns[j].ID
			if want, _ := in(keyed, id); row[j].Value.Text != want {
				t.Errorf("%s, MTTFD %s is %s, keyed %s", id, tab.RowKey(i), row[j].Value.Text, want)
			}
			if got := row[j].Standing == "confirmed"; got != sources[tab.RowKey(i)+" "+id] {
				t.Errorf("%s, MTTFD %s is %s", id, tab.RowKey(i), row[j].Standing)
			}
		}
	}
	tab = lib.Table("count-by-level")
	for i, row := range tab.Rows {
		want, _ := in(k.Counting, tab.RowKey(i))
		if got := []string{strconv.FormatFloat(row[1].Value.Num, 'g', -1, 64), row[3].Value.Text}; len(want) != 2 || got[0] != want[0] || got[1] != want[1] || row[2].Value.Text != tab.RowKey(i) {
			t.Errorf("counting at %s is %v, keyed %v", tab.RowKey(i), got, want)
		}
	}
}

// Down every column the failure rate sinks, and better coverage or a higher
// category is never worse in the same row.
func TestLevelTableSinks(t *testing.T) {
	tab := library(t).Table("level-by-mttfd")
	order := [][2]string{{"catB_none", "cat2_low"}, {"cat1_none", "cat2_low"}, {"cat2_low", "cat2_medium"}, {"cat2_medium", "cat3_low"}, {"cat3_low", "cat3_medium"}, {"cat3_medium", "cat4_high"}}
	for i, row := range tab.Rows {
		for j := tab.First; j < len(row) && i > 0; j++ {
			if was := tab.Rows[i-1][j].Value; was.Given() && row[j].Value.Given() && row[j].Value.Num >= was.Num {
				t.Errorf("%s does not sink at %s years", tab.Columns[j].ID, tab.RowKey(i))
			}
		}
		for _, o := range order {
			worse, better := row[tab.Column(o[0])].Value, row[tab.Column(o[1])].Value
			if worse.Given() && better.Given() && better.Num >= worse.Num {
				t.Errorf("%s is no better than %s at %s years", o[1], o[0], tab.RowKey(i))
			}
		}
	}
}

// The note of the sheet says how often the table of words is better than the one
// of years at the low end of a band: nine times, always by one level.
func TestWordsAgainstYears(t *testing.T) {
	tab, better := library(t).Table("level-by-mttfd"), 0
	for _, band := range levels().Simplified {
		from := map[string]float64{"low": 3, "medium": 10, "high": 30}[band.Key]
		for _, cell := range band.Value {
			rate := tab.Rows[tab.At(from)][tab.Column(cell.Key)].Value.Num
			switch off := int(cell.Value[0]) - int(bandOf(rate)[0]); off {
			case 0:
			case 1:
				better++
			default:
				t.Errorf("%s, MTTFD %s: %s by the word, %s by years", cell.Key, band.Key, cell.Value, bandOf(rate))
			}
		}
	}
	if better != 9 {
		t.Errorf("%d cells are better by the word, the note says nine", better)
	}
}

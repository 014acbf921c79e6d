package expr

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// dimensioned writes random expressions whose units agree: unit is one of the
// keys of its table.
type dimensioned struct{ *rand.Rand }

var leaves = map[string][]string{
	"mm":   {"d", "D", "C", "0.001*D", "v*T"},
	"mm/s": {"v", "V", "speed", "d/T", "D/t"},
	"N":    {"F", "p*A", "K*d", "K*D", "v*sqrt(mu*K)"},
	"1":    {"n", "m", "share", "d/D", "1.5", "rate*T", "v/V"},
	"mm2":  {"A", "d*D", "F/p", "d^2"},
}

func (r dimensioned) number(unit string, depth int) string {
	if depth <= 0 {
		list := leaves[unit]
		return list[r.IntN(len(list))]
	}
	x := r.number(unit, depth-1)
	switch r.IntN(11) {
	case 0:
		return "-(" + x + ")"
	case 1:
		return "(-(" + x + "))"
	case 2:
		return "min(" + x + ", " + r.number(unit, depth-1) + ")"
	case 3:
		return "max(0, " + x + ", " + r.number(unit, depth-2) + ")"
	case 4:
		return "abs(" + x + ")*(" + r.number("1", depth-2) + ")"
	case 5:
		return "(" + x + ")/(" + r.number("1", depth-2) + ")"
	case 6:
		return map[string]string{
			"mm": "sqrt(abs(" + r.number("mm2", depth-1) + "))", "mm2": "(" + r.number("mm", depth-1) + ")^2",
			"1": "(" + x + ")^" + []string{"2", "-1", "3"}[r.IntN(3)], "N": "(" + r.number("mm2", depth-1) + ")*p",
			"mm/s": "(" + r.number("mm", depth-1) + ")/T",
		}[unit]
	case 7:
		return "-(" + r.number("1", depth-1) + ")^2*(" + r.number(unit, depth-2) + ")"
	case 8:
		return "(" + x + ") - -(" + r.number(unit, depth-1) + ")"
	}
	return x + []string{" + ", " - "}[r.IntN(2)] + "(" + r.number(unit, depth-1) + ")"
}

func (r dimensioned) condition(depth int) string {
	units := []string{"mm", "mm/s", "N", "1", "mm2"}
	if depth > 0 {
		switch r.IntN(5) {
		case 0:
			return "not (" + r.condition(depth-1) + ")"
		case 1:
			return "given(d) and " + r.condition(depth-1)
		case 2, 3:
			return "(" + r.condition(depth-1) + []string{" and ", " or "}[r.IntN(2)] + r.condition(depth-1) + ")"
		}
	}
	switch r.IntN(6) {
	case 0:
		return "holds"
	case 1:
		return "shape " + []string{"=", "<>"}[r.IntN(2)] + " 'Slot'"
	case 2:
		return []string{"given(d)", "sum(PFH) > rate", "count(PFH) > 1", "given(PFH)"}[r.IntN(4)]
	}
	u := units[r.IntN(len(units))]
	return r.number(u, 1) + []string{" < ", " >= "}[r.IntN(2)] + r.number(u, 1)
}

// sheetBook is a sheet with a cell for each name, and lists of three.
type sheetBook struct {
	file  *excelize.File
	cells map[string]string
}

func newBook() *sheetBook {
	b := &sheetBook{file: excelize.NewFile(), cells: map[string]string{}}
	row := 0
	for _, name := range slices.Sorted(maps.Keys(cell)) {
		for _, member := range []string{name, name + "2", name + "3"} {
			row++
			b.cells[member] = "A" + strconv.Itoa(row)
		}
	}
	return b
}

func (b *sheetBook) fill(t *testing.T, given map[string]Value) {
	t.Helper()
	for name, at := range b.cells {
		var v any = ""
		switch g := given[name]; g.Kind {
		case Number:
			v = g.Num
		case Text:
			v = g.Text
		case Bool:
			v = g.Bool
		}
		if err := b.file.SetCellValue("Sheet1", at, v); err != nil {
			t.Fatal(err)
		}
	}
}

// formulas writes the guard that callers put round a formula, and the formula.
func (b *sheetBook) formulas(f *Fitted) (guard, formula string) {
	lists := map[string]bool{}
	for _, p := range f.Formula() {
		lists[p.Name] = lists[p.Name] || p.List
	}
	var text strings.Builder
	for _, p := range Expand(f.Formula(), func(string) int { return 3 }) {
		name := p.Name
		if p.Index > 0 {
			name += strconv.Itoa(p.Index + 1)
		}
		text.WriteString(p.Lit + b.cells[name])
	}
	guards := []string{"FALSE()"}
	for _, name := range f.Needs() {
		at := b.cells[name]
		if lists[name] {
			guards = append(guards, fmt.Sprintf("COUNT(%s,%s,%s)=0", at, b.cells[name+"2"], b.cells[name+"3"]))
		} else {
			guards = append(guards, at+`=""`)
		}
	}
	return "OR(" + strings.Join(guards, ",") + ")", text.String()
}

// calculate is the value of a cell, an error value where it has none.
func (b *sheetBook) calculate(t *testing.T, formula string) string {
	t.Helper()
	if err := b.file.SetCellFormula("Sheet1", "C1", formula); err != nil {
		t.Fatal(err)
	}
	got, err := b.file.CalcCellValue("Sheet1", "C1", excelize.Options{RawCellValue: true})
	if err != nil {
		return "#" + err.Error()
	}
	return got
}

// notCalculated tells that excelize 2.11 lost its way, which it does where a
// function stands within brackets in another function's arguments.
func notCalculated(cell string) bool {
	return strings.HasSuffix(cell, "formula not valid") || strings.Contains(cell, "IF accepts at most 3 arguments")
}

func (r dimensioned) values() map[string]Value {
	given := map[string]Value{}
	for _, name := range slices.Sorted(maps.Keys(cell)) {
		kind := cell[name]
		list := strings.HasPrefix(kind, "list ")
		for _, member := range []string{name, name + "2", name + "3"} {
			if r.IntN(12) == 0 || !list && member != name {
				continue // absent
			}
			switch typeOf(strings.TrimPrefix(kind, "list ")).Kind {
			case Text:
				given[member] = text([]string{"Slot", "slot", "round"}[r.IntN(3)])
			case Bool:
				given[member] = boolean(r.IntN(2) == 0)
			default:
				x, _ := strconv.ParseFloat(strconv.FormatFloat(math.Exp(r.NormFloat64()), 'g', 5, 64), 64)
				given[member] = num(x)
			}
		}
	}
	return given
}

// TestSheet compares Compile with the formula as another program calculates it.
func TestSheet(t *testing.T) {
	r := dimensioned{rand.New(rand.NewPCG(3, 5))}
	book := newBook()
	numbers, conditions, absents, unknown := 0, 0, 0, 0
	wanted := map[string]string{"mm": "m", "mm/s": "km/h", "N": "kN", "1": "%", "mm2": "cm2"}
	for i := range 1500 {
		unit := []string{"mm", "mm/s", "N", "1", "mm2"}[i%5]
		src, want := r.number(unit, 1+i%4), unit
		if i%7 == 0 {
			want = wanted[unit]
		}
		if i%2 == 0 {
			src, want = r.condition(1+i%3), "bool"
		}
		f := fitted(t, src, want)
		given := r.values()
		got := evaluate(f, given)
		book.fill(t, given)
		guard, formula := book.formulas(f)
		cell := ""
		if book.calculate(t, guard) != "TRUE" {
			cell = book.calculate(t, formula)
		}
		switch {
		case notCalculated(cell):
			unknown++
		case !got.Given():
			absents++
			if cell != "" && cell[0] != '#' && cell != "+INF" && cell != "-INF" {
				t.Fatalf("%s: absent, but cell %q by %s with %v", src, cell, formula, given)
			}
		case got.Kind == Bool:
			conditions++
			if !strings.EqualFold(cell, strconv.FormatBool(got.Bool)) && cell != map[bool]string{true: "1", false: "0"}[got.Bool] {
				t.Fatalf("%s: %v, but cell %q by %s with %v", src, got.Bool, cell, formula, given)
			}
		default:
			numbers++
			x, err := strconv.ParseFloat(cell, 64)
			if err != nil || math.Abs(x-got.Num) > 1e-9*math.Abs(got.Num)+1e-12 {
				t.Fatalf("%s: %v, but cell %q by %s with %v", src, got.Num, cell, formula, given)
			}
		}
	}
	t.Logf("%d numbers, %d conditions, %d absent, %d not calculated", numbers, conditions, absents, unknown)
	if numbers < 300 || conditions < 300 || absents < 50 {
		t.Errorf("too little compared: %d numbers, %d conditions, %d absent", numbers, conditions, absents)
	}
}

// Package trace follows the inputs of a check back to the values of the
// assessment file that they are made of, for every writer alike.
package trace

import (
	"cmp"
	"strings"

	"standclear/hazards"
	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/sheet"
)

// Ways in which parts make a value.
const (
	Plus  = "+"
	Most  = "the greatest of"
	Worst = "the worst of"
)

// Input is an input of a check with the parts that make it.
type Input struct {
	Name  string // as the sheet shows it
	Means string
	Value string // with unit, "" for none
	Sign  string // Plus, Most or Worst
	Parts []Part
}

// Part is a value that something else is made of: a fact by its path, a result
// of another check, or a value typed in.
type Part struct {
	Path   string // "" for a value typed in; of a result with "from " before it
	Value  string // with unit; with a tolerance the end that was used as well
	Origin string // "" where none is written
	Ref    string
	Sign   string
	Parts  []Part // what it is made of itself
}

// deepest bounds how far a value is followed; loading refuses circles.
const deepest = 8

// notGiven stands for a value that another check should give and does not.
const notGiven = "not given"

// Inputs lists the inputs of a check that have a value, or should get one from
// another check, a list member by member.
func Inputs(r *hazards.Result, c *hazards.Check) []Input {
	var out []Input
	for i := range c.Inputs {
		in := &c.Inputs[i]
		if in.Members == nil {
			out = follow(out, r, c.Sheet, in)
		}
		for j := range in.Members {
			out = follow(out, r, c.Sheet, &in.Members[j])
		}
	}
	return out
}

func follow(out []Input, r *hazards.Result, s *sheet.Sheet, in *hazards.Input) []Input {
	col := s.Column(in.Name)
	if col == nil || !in.Value.Given() && !in.Takes() {
		return out
	}
	t := Input{Name: col.Symbol, Means: col.Means, Value: cmp.Or(col.Show(in.Value), notGiven), Sign: sign(in.Pick)}
	for _, x := range in.Terms {
		p := part(r, x, col.UnitName(), in.End, 0)
		if x.Path == "" {
			p.Origin, p.Ref = in.Typed, in.Ref
		}
		t.Parts = append(t.Parts, p)
	}
	return append(out, t)
}

func sign(pick string) string {
	switch pick {
	case hazards.PickMax:
		return Most
	case hazards.PickWorst:
		return Worst
	}
	return Plus
}

// asUsed: a fact at the end that its kind says is the worse one, rather than at
// the one at which a check takes it.
const asUsed = "used"

// part is one term, in the unit in which it is written, at an end of its tolerance.
func part(r *hazards.Result, t hazards.Term, unit, end string, depth int) Part {
	if t.Path == "" {
		if t.Tol != 0 {
			return Part{Value: withUnit(t.Value, unit) + " ± " + withUnit(t.Tol, unit)}
		}
		return Part{Value: withUnit(t.Value, unit)}
	}
	if t.Check != "" {
		return result(r, t)
	}
	f := r.Fact(t.Path)
	if f == nil {
		return Part{Path: t.Path}
	}
	return fact(r, f, end, depth)
}

// result is what another check gives. What that rests on stands with it.
func result(r *hazards.Result, t hazards.Term) Part {
	p := Part{Path: "from " + t.Path}
	if c := r.Check(t.Check); c != nil {
		if col := c.Sheet.Column(t.Column); col != nil && c.Lends() {
			p.Value, p.Origin = col.Show(c.Outcome.Values[col.Slot]), c.Weakest()
			p.Ref = "weakest input of what is worked out"
		}
	}
	return p
}

// Fact gives a fact of the file as a part, with what it is made of.
func Fact(r *hazards.Result, f *hazards.Fact) Part { return fact(r, f, asUsed, 0) }

func fact(r *hazards.Result, f *hazards.Fact, end string, depth int) Part {
	p := Part{Path: f.Path, Value: value(f, end), Origin: f.Origin, Ref: f.Ref, Sign: Plus}
	if depth < deepest {
		for _, t := range f.Terms {
			p.Parts = append(p.Parts, part(r, t, f.Unit, end, depth+1))
		}
	}
	return p
}

// value is a fact as it was used, and as it is written where a tolerance makes
// a difference.
func value(f *hazards.Fact, end string) string {
	at := map[string]expr.Value{asUsed: f.Used, hazards.Up: f.High, hazards.Down: f.Low, "": f.Value}[end]
	if f.Used.Kind != expr.Number {
		return f.Used.Text
	}
	used := withUnit(at.Num, f.Unit)
	if !f.HasTol {
		return used
	}
	return used + " (" + withUnit(f.Value.Num, f.Unit) + " ± " + withUnit(f.Tol, f.Unit) + ")"
}

func withUnit(v float64, unit string) string {
	if unit == "1" {
		unit = ""
	}
	return strings.TrimSpace(quantity.Format(v, 6) + " " + unit)
}

// From says origin and reference, "" where nothing is written.
func (p Part) From() string {
	if p.Origin == "" || p.Ref == "" {
		return p.Origin + p.Ref
	}
	return p.Origin + ", " + p.Ref
}

// String gives path, value, and where it comes from in brackets.
func (p Part) String() string {
	out := strings.TrimSpace(p.Path + " " + p.Value)
	if from := p.From(); from != "" {
		out += " (" + from + ")"
	}
	return out
}

// Facts lists the facts that the inputs of checks are made of, directly or
// through others, in the order of the file.
func Facts(r *hazards.Result) []*hazards.Fact {
	used := map[string]bool{}
	for i := range r.Checks {
		for j := range r.Checks[i].Inputs {
			mark(r, used, r.Checks[i].Inputs[j].Terms)
		}
	}
	var out []*hazards.Fact
	for i := range r.Facts {
		if f := &r.Facts[i]; used[f.Path] {
			out = append(out, f)
		}
	}
	return out
}

func mark(r *hazards.Result, used map[string]bool, terms []hazards.Term) {
	for _, t := range terms {
		if t.Path == "" || used[t.Path] {
			continue
		}
		used[t.Path] = true
		if f := r.Fact(t.Path); f != nil {
			mark(r, used, f.Terms)
		}
	}
}

package estimate

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"standclear/limits/source"
)

// own are the keys of a sheet that a method writes; the others follow from it.
var own = []string{"about", "shared", "constants", "lookups", "steps", "rules", "notes", "examples"}

// statement makes a calculation sheet of a method: its factors are the inputs,
// and a value that is no score is refused, since in a spreadsheet anything can be
// typed.
func (m *Method) statement(st *methodStmt, ps *source.Problems) *source.Node {
	c := st.Calculation.node
	at := c.Pos
	for _, p := range c.Pairs {
		if !slices.Contains(own, p.Key.Value) {
			ps.Add(p.Key.Problem("unknown key `"+p.Key.Value+"` in `calculation`", "one of: "+strings.Join(own, ", "), source.DidYouMean(p.Key.Value, own)))
		}
	}
	inputs, rules := mapping(at), list(at)
	for i := range m.Factors {
		f := &m.Factors[i]
		put(inputs, f.ID, f.input(st.Factors[i].Pos))
		if f.numbers() {
			rules.Items = append(rules.Items, f.rule(st.Factors[i].Pos))
		}
	}
	if r := c.Get("rules"); r != nil {
		rules.Items = append(rules.Items, r.Items...)
	}
	out := mapping(at)
	put(out, "id", text(at, m.ID))
	put(out, "title", text(at, st.Title))
	put(out, "group", text(at, "method"))
	for _, key := range []string{"standard", "source", "standing"} {
		if v := st.Node().Get(key); v != nil {
			put(out, key, v)
		}
	}
	put(out, "inputs", inputs)
	results := list(at)
	for _, p := range c.Pairs {
		if p.Key.Value != "rules" {
			put(out, p.Key.Value, p.Value)
		}
	}
	for _, name := range []string{"score", "level"} {
		if c.Get("steps").Get(name) != nil || c.Get("lookups").Get(name) != nil {
			results.Items = append(results.Items, text(at, name))
		}
	}
	verdict := mapping(at)
	put(verdict, "why", text(at, "an estimate; its level says what is asked for"))
	put(out, "rules", rules)
	put(out, "verdict", verdict)
	put(out, "results", results)
	return out
}

// input is the factor as the input of a sheet.
func (f *Factor) input(at source.Pos) *source.Node {
	in := mapping(at)
	put(in, "means", text(at, strings.ToLower(f.Title)))
	if !f.numbers() {
		choice := list(at)
		for _, s := range f.Scores {
			choice.Items = append(choice.Items, text(at, s.Score))
		}
		put(in, "choice", choice)
		return in
	}
	least, most := f.Scores[0].Score, f.Scores[0].Score
	for _, s := range f.Scores {
		if number(s.Score) < number(least) {
			least = s.Score
		}
		if number(s.Score) > number(most) {
			most = s.Score
		}
	}
	put(in, "unit", text(at, "1"))
	put(in, "from", plain(at, least))
	put(in, "to", plain(at, most))
	return in
}

// maxReason is how long the reason of a rule may be, see limits/sheet.
const maxReason = 250

// rule refuses numbers that are no score.
func (f *Factor) rule(at source.Pos) *source.Node {
	var other, names []string
	for _, s := range f.Scores {
		other = append(other, f.ID+" <> "+s.Score)
		names = append(names, s.Score)
	}
	because := fmt.Sprintf("%s is none of its scores: %s", f.ID, strings.Join(names, ", "))
	if len(because) > maxReason {
		because = f.ID + " is none of its scores"
	}
	r := mapping(at)
	put(r, "verdict", text(at, "not-decided"))
	put(r, "if", text(at, strings.Join(other, " and ")))
	put(r, "because", text(at, because))
	return r
}

func mapping(at source.Pos) *source.Node {
	return &source.Node{Pos: at, Width: 1, Kind: source.Mapping}
}
func list(at source.Pos) *source.Node { return &source.Node{Pos: at, Width: 1, Kind: source.List} }

func text(at source.Pos, s string) *source.Node {
	n := plain(at, s)
	n.Quoted = true
	return n
}

func plain(at source.Pos, s string) *source.Node {
	return &source.Node{Pos: at, Width: 1, Kind: source.Scalar, Value: s, Start: -1, End: -1}
}

func put(n *source.Node, key string, value *source.Node) {
	n.Pairs = append(n.Pairs, source.Pair{Key: text(n.Pos, key), Value: value})
}

var (
	decimalForm = regexp.MustCompile(`^[0-9]+(\.[0-9]+)?$`)
	factorForm  = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9_]*$`)
	methodForm  = regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*$`)
	choiceForm  = regexp.MustCompile(`^[A-Za-z0-9]+$`)
)

// taken are names that a calculation or a row has for something else.
var taken = []string{"and", "or", "not", "given", "has", "sum", "count", "min", "max", "abs", "sqrt", "round",
	"score", "level", "action", "rule", "verdict", "why", "use"}

func factorName(s string) bool { return factorForm.MatchString(s) && !slices.Contains(taken, s) }
func methodName(s string) bool { return methodForm.MatchString(s) }
func choiceName(s string) bool { return choiceForm.MatchString(s) }
func decimal(s string) bool    { return decimalForm.MatchString(s) }

// number is a score as a number; only decimal ones are asked.
func number(score string) float64 {
	v, err := strconv.ParseFloat(score, 64)
	if err != nil {
		panic("estimate: " + score + " is no number")
	}
	return v
}

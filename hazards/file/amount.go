package file

import (
	"strings"

	"standclear/limits/quantity"
	"standclear/limits/source"
)

// Origins of a value. A value without an origin is assumed.
const (
	Measured      = "measured"
	Datasheet     = "datasheet"
	Standard      = "standard"
	Assumed       = "assumed"
	Configuration = "configuration" // stands in a safety configuration with a checksum
)

// Term is one summand: a path or a quantity.
type Term struct {
	Path     string            // "" for a literal
	Quantity quantity.Quantity // the literal; of a path see Index.Resolve
	Pos      source.Pos
	Width    int
}

// Amount is a quantity with its origin, or a sum of paths and quantities.
// In the file it is written `18.2 kg`, `{is: 18.2 kg, from: datasheet, ref: "p. 61"}`,
// or `jaws.mass + jar.mass`.
type Amount struct {
	source.Item
	Set   bool   // false: not in the file
	Terms []Term // one literal for a plain value
	From  string // origin of its literals; "" means assumed
	Ref   string // where it is written
}

// written is the long form of an amount.
type written struct {
	Is   sum    `yaml:"is,required" means:"the quantity, such as 18.2 kg"`
	From string `yaml:"from" choice:"measured|datasheet|standard|assumed" means:"origin of the value"`
	Ref  string `yaml:"ref" means:"where it is written, such as a page"`
}

// DecodeNode reads an amount. Whether its unit fits is checked later, with the
// unit that the field asks for.
func (a *Amount) DecodeNode(n *source.Node, ps *source.Problems) {
	if n.Kind == source.Mapping {
		var w written
		source.Decode(n, &w, ps)
		a.Terms, a.From, a.Ref = w.Is, w.From, w.Ref
	} else {
		a.Terms, _ = parseSum(n, ps)
	}
	a.Set = len(a.Terms) > 0
}

// Given is an input of a check: a quantity or a sum, a range, a choice, or a
// list. Only the sheet of the check knows which of them it asks for.
type Given struct {
	source.Item
	Text  string                // as written, for choices and texts
	Terms []Term                // for quantities
	Range *[2]quantity.Quantity // `700..2000 mm`
	List  []Given               // `[8.0e-8, 1.8e-7]`
	From  string
	Ref   string
}

// writtenGiven is the long form of an input of a check.
type writtenGiven struct {
	Is   Given  `yaml:"is,required" means:"the quantity, such as 18.2 kg"`
	From string `yaml:"from" choice:"measured|datasheet|standard|assumed" means:"origin of the value"`
	Ref  string `yaml:"ref" means:"where it is written, such as a page"`
}

// DecodeNode reads an input of a check in any of its forms.
func (g *Given) DecodeNode(n *source.Node, ps *source.Problems) {
	switch n.Kind {
	case source.Mapping:
		var w writtenGiven
		source.Decode(n, &w, ps)
		if is := n.Get("is"); is != nil && is.Kind == source.Mapping {
			ps.Add(is.Problem("found a mapping in a mapping", "a quantity, a word or a list", "write it on one level"))
			return
		}
		g.Text, g.Terms, g.Range, g.List, g.From, g.Ref = w.Is.Text, w.Is.Terms, w.Is.Range, w.Is.List, w.From, w.Ref
	case source.List:
		source.Decode(n, &g.List, ps)
		for _, item := range n.Items {
			if item.Kind == source.List {
				ps.Add(item.Problem("found a list in a list", "a quantity or a word", ""))
			}
		}
	default:
		g.scalar(n, ps)
	}
}

func (g *Given) scalar(n *source.Node, ps *source.Problems) {
	g.Text = n.Value
	switch {
	case !n.Quoted && (n.Value == "true" || n.Value == "false"):
		word := map[string]string{"true": "yes", "false": "no"}[n.Value]
		ps.Add(n.Problem("found `"+n.Value+"`", "`yes` or `no`, a quantity or a word", "did you mean `"+word+"`?"))
	case isRange(n.Value):
		lo, hi, err := quantity.ParseRange(n.Value)
		if err != nil {
			ps.Add(quantityProblem(n, err))
			return
		}
		g.Range = &[2]quantity.Quantity{lo, hi}
	case startsNumber(n.Value) && strings.Contains(n.Value, ", "):
		ps.Add(n.Problem("found `"+clip(n.Value)+"`, several values in one text", "a list",
			"write `["+clip(n.Value)+"]`"))
	case startsNumber(n.Value) || looksLikeSum(n.Value):
		g.Terms, _ = parseSum(n, ps)
	}
}

// Score is a factor of the method: a number or a word.
type Score struct {
	source.Item
	Text string
}

// DecodeNode reads a score. Numbers need not be whole: the product method has
// scores such as 0.5.
func (s *Score) DecodeNode(n *source.Node, ps *source.Problems) {
	const expected = "a score of the method, a number or a word, such as `3` or `serious`"
	if n.Kind != source.Scalar {
		ps.Add(n.Problem("found "+shape(n), expected, ""))
		return
	}
	if message, hint := source.PlainNumberProblem(n.Value); message != "" {
		ps.Add(n.Problem(message, expected, hint))
		return
	}
	if !scoreText.MatchString(n.Value) {
		ps.Add(n.Problem("found `"+clip(n.Value)+"`", expected, "give one score; a reason belongs in `situation` or `event`"))
		return
	}
	s.Text = n.Value
}

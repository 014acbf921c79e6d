package identify

import (
	"fmt"
	"regexp"
	"strings"

	"standclear/limits/expr"
	"standclear/limits/source"
)

// Rule says for each thing of a collection whether the entry applies to it.
type Rule struct {
	source.Item
	Each    string `yaml:"each,required" choice:"cell|robots|machines|tools|parts|safeguards|functions|people|spaces|tasks" means:"what may bear witness"`
	Where   string `yaml:"where" means:"condition; none: every one of them"`
	Because string `yaml:"because,required" means:"the reason in words, with {id} and {keys} of the witness"`

	holds func([]expr.Value) expr.Value // nil: always
}

var place = regexp.MustCompile(`\{([a-z_]+)\}`)

// compile reads the condition with the keys of the collection.
func (r *Rule) compile() error {
	s := schemas[r.Each]
	if s == nil {
		return fmt.Errorf("no collection `%s`", r.Each)
	}
	for _, m := range place.FindAllStringSubmatch(r.Because, -1) {
		if m[1] != "id" && s.key(m[1]) == nil {
			return fmt.Errorf("`{%s}` is no key of %s", m[1], r.Each)
		}
	}
	if r.Where == "" {
		return nil
	}
	tree, err := expr.Parse(r.Where)
	if err != nil {
		return fmt.Errorf("where: %v", err)
	}
	fitted, err := tree.Fit(s, expr.Type{Kind: expr.Bool})
	if err != nil {
		return fmt.Errorf("where: %v", err)
	}
	if bad := s.untold(r.Where); bad != nil {
		return fmt.Errorf("where: no such word for `%s`", strings.Join(bad, "`, `"))
	}
	r.holds = fitted.Compile(s.slot)
	return nil
}

// applies says whether the rule holds for a thing with these values. A condition
// that cannot be answered does not hold: a word that is not written is the word
// Unknown.
func (r *Rule) applies(values []expr.Value) bool {
	return r.holds == nil || r.holds(values).Bool
}

// why fills the reason in.
func (r *Rule) why(id string, values []expr.Value) string {
	s := schemas[r.Each]
	return place.ReplaceAllStringFunc(r.Because, func(m string) string {
		if name := strings.Trim(m, "{}"); name != "id" {
			return s.shown(values, name)
		}
		return id
	})
}

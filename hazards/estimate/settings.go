package estimate

import (
	"slices"
	"strings"

	"standclear/limits/source"
)

// A method may leave something to choose, such as one of two scales. Each way to
// choose is a method of its own with an id of its own, so that a file says by its
// `method` alone how it was estimated. In the file of the method a mapping with
// the single key by_NAME stands for what the choice of the setting NAME makes of it.

type settingStmt struct {
	source.Item
	Title string   `yaml:"title,required" means:"what is chosen"`
	Of    []string `yaml:"of,required" means:"the choices, first that of the bare name"`
}

type settings source.Map[settingStmt]

// DecodeNode does nothing: settings are read before the rest, see readSettings.
func (s *settings) DecodeNode(*source.Node, *source.Problems) {}

// Setting is something a method leaves to choose, and what was chosen.
type Setting struct {
	ID    string
	Title string
	Value string

	first bool
	of    []string
}

// way is one way to choose every setting.
type way []Setting

// maxWays is how many methods one file may stand for.
const maxWays = 64

// readSettings gives every way to choose, one empty way where nothing is left to choose.
func readSettings(n *source.Node, ps *source.Problems) []way {
	ways := []way{nil}
	at := n.Get("settings")
	if at == nil {
		return ways
	}
	var st source.Map[settingStmt]
	before := ps.Len()
	source.Decode(at, &st, ps)
	if ps.Len() > before {
		return nil
	}
	for _, e := range st {
		var more []way
		for _, w := range ways {
			for i, v := range e.Value.Of {
				s := Setting{ID: e.Key, Title: e.Value.Title, Value: v, first: i == 0, of: e.Value.Of}
				more = append(more, append(slices.Clone(w), s))
			}
		}
		if ways = more; len(ways) > maxWays || len(ways) == 0 {
			ps.Addf(e.Pos, "found %d ways to choose the settings, expected 1 to %d", len(ways), maxWays)
			return nil
		}
		for i, v := range e.Value.Of {
			if !choiceName(v) || slices.Contains(e.Value.Of[:i], v) {
				ps.Addf(e.Value.At("of"), "found `%s` as a choice of %s, expected letters and digits, each choice once", v, e.Key)
			}
		}
	}
	return ways
}

// suffix is what the id has behind that of the file: nothing for the first
// choice of everything.
func (w way) suffix() string {
	bare, out := true, ""
	for _, s := range w {
		bare = bare && s.first
		out += "-" + strings.ToLower(s.Value)
	}
	if bare {
		return ""
	}
	return out
}

// title says in words what was chosen.
func (w way) title() string {
	var parts []string
	for _, s := range w {
		parts = append(parts, s.Title+": "+s.Value)
	}
	if parts == nil {
		return ""
	}
	return " (" + strings.Join(parts, ", ") + ")"
}

// resolve puts in what was chosen. The node is left as it is.
func (w way) resolve(n *source.Node, ps *source.Problems) *source.Node {
	if n == nil || len(w) == 0 {
		return n
	}
	if len(n.Pairs) == 1 {
		for _, s := range w {
			if n.Pairs[0].Key.Value == "by_"+s.ID {
				return w.resolve(s.choose(n.Pairs[0].Value, ps), ps)
			}
		}
	}
	out := *n
	out.Pairs, out.Items = slices.Clone(n.Pairs), slices.Clone(n.Items)
	for i := range out.Pairs {
		out.Pairs[i].Value = w.resolve(out.Pairs[i].Value, ps)
	}
	for i := range out.Items {
		out.Items[i] = w.resolve(out.Items[i], ps)
	}
	return &out
}

// choose gives what stands under the choice; all choices must be there and no others.
func (s *Setting) choose(n *source.Node, ps *source.Problems) *source.Node {
	var keys []string
	for _, p := range n.Pairs {
		keys = append(keys, p.Key.Value)
	}
	for _, p := range n.Pairs {
		if !slices.Contains(s.of, p.Key.Value) {
			ps.Add(p.Key.Problem("found `"+p.Key.Value+"`, which is no choice of "+s.ID, "one of: "+source.Quoted(s.of), source.DidYouMean(p.Key.Value, s.of)))
		}
	}
	for _, v := range s.of {
		if !slices.Contains(keys, v) {
			ps.Add(n.Problem("found nothing for `"+v+"`, a choice of "+s.ID, "all of: "+source.Quoted(s.of), ""))
		}
	}
	if at := n.Get(s.Value); at != nil {
		return at
	}
	return n
}

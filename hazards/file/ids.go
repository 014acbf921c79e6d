package file

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"standclear/limits/source"
)

// reserved stands in paths of its own: arm.stopping.time is a look-up.
const reserved = "stopping"

// ids checks that ids are well written and unique in the whole file.
func (c *checker) ids() {
	first := map[string]*source.Node{}
	for f := range fields(c.records, isID) {
		if f.node == nil || f.node.Kind != source.Scalar || f.node.Null {
			continue
		}
		id := f.node.Value
		switch earlier := first[id]; {
		case earlier != nil:
			c.add(f.node, fmt.Sprintf("the id `%s` is used twice, first for %s at %d:%d",
				clip(id), kindWords[c.ix.kindAt(earlier, id)], earlier.Pos.Line, earlier.Pos.Col),
				"an id that is unique in the whole file", "rename one of them and what points at it")
			continue
		case !idText.MatchString(id):
			c.add(f.node, "found the id `"+clip(id)+"`",
				"a letter followed by letters, digits and hyphens, such as `jaws` or `H-07`", idHint(id))
		case id == reserved:
			c.add(f.node, "the id `stopping` is taken", "another id",
				"paths such as `arm.stopping.time` look up the stopping grid")
		}
		first[id] = f.node
	}
}

// kindAt is the kind of the item whose id stands at n.
func (ix *Index) kindAt(n *source.Node, id string) string {
	if it := ix.items[id]; it != nil && it.node == n {
		return it.kind
	}
	return ""
}

// idHint offers an id made of what was written.
func idHint(id string) string {
	better := strings.NewReplacer(" ", "-", "_", "-", ".", "-", "/", "-").Replace(strings.TrimSpace(id))
	better = strings.TrimLeft(better, "-0123456789")
	if !idText.MatchString(better) {
		return ""
	}
	return "did you mean `" + better + "`?"
}

// references checks that every reference leads to an item of the right kind.
func (c *checker) references() {
	for f := range fields(c.records, func(k *keyInfo) bool { return k.ref != nil }) {
		list := f.scalars()
		for i, n := range list {
			c.reference(n, f.ref)
			if twice(list, i) {
				c.add(n, "`"+clip(n.Value)+"` stands twice in this list", "each id once", "delete one of them")
			}
		}
	}
	c.uses()
}

// twice tells whether a text of a list stood there before.
func twice(list []*source.Node, i int) bool {
	return slices.ContainsFunc(list[:i], func(n *source.Node) bool { return n.Value == list[i].Value })
}

func isID(k *keyInfo) bool { return k.name == "id" }

func (c *checker) reference(n *source.Node, allowed []string) {
	if allowed[0] == "setting" {
		c.setting(n)
		return
	}
	it := c.ix.items[n.Value]
	for _, kind := range allowed {
		if it != nil && it.kind == kind || it == nil && c.broken[kind] {
			return
		}
	}
	if c.full() || it == nil && c.partOfContact(n, allowed) {
		return
	}
	expected := "the id of " + kindList(allowed)
	names := c.ix.IDs(allowed...)
	if len(names) > 0 {
		expected += ": " + source.Quoted(names)
	}
	hint := source.DidYouMean(n.Value, names)
	if it != nil {
		c.add(n, fmt.Sprintf("`%s` is %s (%d:%d)", n.Value, kindWords[it.kind], it.node.Pos.Line, it.node.Pos.Col), expected, hint)
		return
	}
	if len(names) == 0 {
		hint = "the file has none yet: add it, or leave the key out"
	}
	c.add(n, "no item has the id `"+clip(n.Value)+"`", expected, hint)
}

// partOfContact explains that checks which a contact expands to are not
// pointed at one by one.
func (c *checker) partOfContact(n *source.Node, allowed []string) bool {
	head, _, cut := strings.Cut(n.Value, "/")
	it := c.ix.items[head]
	if !cut || it == nil || it.kind != "contact" || !strings.Contains(strings.Join(allowed, " "), "contact") {
		return false
	}
	c.add(n, "found `"+clip(n.Value)+"`, one check of a contact", "the id of the contact",
		"write `"+head+"`: the worst of its checks governs")
	return true
}

// setting checks a reference written robot.setting.
func (c *checker) setting(n *source.Node) {
	_, id, _ := strings.Cut(n.Value, ".")
	if it := c.ix.items[id]; it != nil && it.kind == "setting" && it.path == n.Value || c.broken["setting"] || c.broken["robot"] || c.full() {
		return
	}
	var paths []string
	for _, id := range c.ix.IDs("setting") {
		paths = append(paths, c.ix.items[id].path)
	}
	expected := "a setting of a robot, written robot.setting"
	if len(paths) > 0 {
		expected += ": " + source.Quoted(paths)
	}
	hint := source.DidYouMean(n.Value, paths)
	if it := c.ix.items[n.Value]; it != nil && it.kind == "setting" {
		hint = "did you mean `" + it.path + "`?"
	}
	c.add(n, "no setting has the path `"+clip(n.Value)+"`", expected, hint)
}

// uses checks what the parts of a safety function name: an item, or words for
// what has no id. One word close to an id is taken for a slip.
func (c *checker) uses() {
	allowed := []string{"safeguard", "robot", "machine", "tool"}
	for f := range fields(c.records, func(k *keyInfo) bool { return k.name == "uses" }) {
		n := f.node
		if f.value.Kind() != reflect.String || n == nil || n.Kind != source.Scalar || c.full() {
			continue
		}
		names := c.ix.IDs(allowed...)
		if it := c.ix.items[n.Value]; it != nil {
			c.reference(n, allowed)
		} else if hint := source.DidYouMean(n.Value, names); hint != "" && !strings.Contains(n.Value, " ") {
			c.add(n, "no item has the id `"+clip(n.Value)+"`", "the id of "+kindList(allowed)+", or words for what has no id",
				hint+" If not, describe it in two words or more.")
		}
	}
}

// kindList words a choice of kinds.
func kindList(allowed []string) string {
	words := make([]string, len(allowed))
	for i, kind := range allowed {
		words[i] = kindWords[kind]
	}
	if len(words) == 1 {
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

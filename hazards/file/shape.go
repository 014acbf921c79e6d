package file

import (
	"fmt"
	"io/fs"
	"strings"
	"time"

	"standclear/limits/source"
)

// shapes checks what the types alone cannot say.
func (c *checker) shapes() {
	for f := range fields(c.records, func(k *keyInfo) bool { return k.form != "" || k.must && k.slice && !k.empty }) {
		if f.must && !f.empty && f.isEmptyList() {
			c.add(f.node, "the list `"+f.name+"` is empty", "at least one ("+f.tag.Get("means")+")", "")
		}
		for _, n := range f.scalars() {
			switch f.form {
			case "date":
				c.date(n)
			case "inside":
				c.inside(n)
			}
		}
	}
	for i := range c.a.Contacts {
		c.contact(&c.a.Contacts[i])
	}
	c.spots()
	for i := range c.a.Hazards {
		c.hazard(&c.a.Hazards[i])
	}
	for i := range c.a.Cell.Spaces {
		c.outline(&c.a.Cell.Spaces[i])
	}
}

func (f field) isEmptyList() bool {
	return f.slice && f.node != nil && f.node.Kind == source.List && len(f.node.Items) == 0
}

// Dates before or after these years are slips of the pen.
const firstYear, lastYear = 1950, 2150

// date checks for a day of the calendar.
func (c *checker) date(n *source.Node) {
	const expected = "a date written YYYY-MM-DD, such as `2026-11-23`"
	day, err := time.Parse(time.DateOnly, n.Value)
	if err == nil && day.Year() >= firstYear && day.Year() <= lastYear {
		return
	}
	message, hint := "found `"+clip(n.Value)+"`", ""
	switch {
	case err == nil:
		hint = "look at the year"
	case strings.Contains(err.Error(), "out of range"):
		message += ", a day that is in no calendar"
	default:
		hint = dateHint(n.Value)
	}
	c.add(n, message, expected, hint)
}

// dateHint offers the date that can only be meant.
func dateHint(s string) string {
	for _, form := range []string{"2006-1-2", "2006/1/2", "2006.1.2", "2.1.2006", "20060102", "2 January 2006", "January 2, 2006"} {
		if day, err := time.Parse(form, s); err == nil {
			return "did you mean `" + day.Format(time.DateOnly) + "`?"
		}
	}
	return ""
}

// inside checks that a file stays in the folder of the assessment.
func (c *checker) inside(n *source.Node) {
	const expected = "a path inside the folder of the assessment, such as `logs/hand-1.csv`"
	name := n.Value
	message, hint := "", ""
	switch {
	case strings.TrimSpace(name) == "":
		message = "found no file name"
	case strings.ContainsFunc(name, func(r rune) bool { return r < ' ' || r == 0x7f }):
		message = "found a file name with a control character"
	case len(name) > 1 && name[1] == ':':
		message = "found `" + clip(name) + "`, a path with a drive letter"
	case strings.Contains(name, `\`):
		message, hint = "found `"+clip(name)+"`, a path with a backslash", "write / between folders"
	case strings.HasPrefix(name, "/"), strings.HasPrefix(name, "~"):
		message, hint = "found `"+clip(name)+"`, which does not begin in the folder of the assessment", "copy the file into the folder"
	case strings.Contains("/"+name+"/", "/../"):
		message, hint = "found `"+clip(name)+"`, which leaves the folder of the assessment", "copy the file into the folder"
	case strings.Contains(name, "://"):
		message, hint = "found `"+clip(name)+"`, an address", "copy the file into the folder"
	case !fs.ValidPath(name):
		message, hint = "found `"+clip(name)+"`", "leave out `.` and `//`, and end with the name of a file"
	default:
		return
	}
	c.add(n, message, expected, hint)
}

// contact checks that a contact claims one class.
func (c *checker) contact(t *Contact) {
	var claims []string
	for _, key := range []string{"clamped", "free", "jaws"} {
		if t.Has(key) {
			claims = append(claims, key)
		}
	}
	if len(claims) > 1 {
		c.addKey(t.Item, claims[1], fmt.Sprintf("contact `%s` is both %s", t.ID, "`"+strings.Join(claims, "` and `")+"`"),
			"one of `clamped`, `free`, `jaws`, or none, which counts as clamped",
			"where both can happen write two contacts, or the worse one: `clamped`")
	}
}

// hazard checks that a row belongs to a task or to a place.
func (c *checker) hazard(h *Hazard) {
	if h.Node() == nil {
		return
	}
	const expected = "either `task`, or `where` with space and people"
	switch task, where := h.Has("task"), h.Has("where"); {
	case task && where:
		c.addKey(h.Item, "where", "row `"+h.ID+"` has both `task` and `where`", expected,
			"delete one of them, or split the row")
	case !task && !where:
		c.add(h.Node(), "row `"+h.ID+"` has neither `task` nor `where`", expected, "")
	}
}

// outline checks the corners of a space.
func (c *checker) outline(s *Space) {
	n := s.Node().Get("outline")
	if n == nil || n.Kind != source.List {
		return
	}
	if len(n.Items) < 3 {
		c.add(n, fmt.Sprintf("the outline of `%s` has %d corners", s.ID, len(n.Items)), "at least 3 corners",
			"write `[[0 mm, 0 mm], [1800 mm, 0 mm], [1800 mm, 900 mm]]`")
	}
	for _, corner := range n.Items {
		if corner.Kind == source.List && len(corner.Items) != 2 {
			c.add(corner, fmt.Sprintf("found a corner of %d values", len(corner.Items)), "x and y, such as `[1800 mm, 0 mm]`", "")
		}
	}
}

// addKey puts a problem at a key of an item.
func (c *checker) addKey(it source.Item, key, message, expected, hint string) {
	pos := it.KeyPos(key)
	if !c.said[pos] {
		c.ps.Add(source.Problem{Pos: pos, Width: len(key), Message: message, Expected: expected, Hint: hint})
	}
}

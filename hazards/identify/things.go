package identify

import (
	"reflect"
	"strings"

	"standclear/hazards/file"
	"standclear/limits/expr"
)

// cell is an assessment laid out as things of collections.
type cell struct {
	a      *file.Assessment
	value  func(path string) expr.Value // of a quantity of the file, absent where it has none
	things map[string][]*thing
	whole  *thing // what is asked of the whole cell
}

func layOut(a *file.Assessment, value func(path string) expr.Value) *cell {
	c := &cell{a: a, value: value, things: map[string][]*thing{}}
	c.whole = c.wholeCell()
	c.things["cell"] = []*thing{c.whole}
	for i := range a.Cell.Robots {
		r := &a.Cell.Robots[i]
		c.add("robots", r.ID, r.ID, r)
		for j := range r.Settings {
			c.add("settings", r.Settings[j].ID, r.ID+"."+r.Settings[j].ID, &r.Settings[j])
		}
	}
	for i := range a.Cell.Machines {
		m := &a.Cell.Machines[i]
		schemas["machines"].text(c.add("machines", m.ID, m.ID, m), "driven", driven(m))
	}
	addAll(c, "tools", a.Cell.Tools, func(t *file.Tool) string { return t.ID })
	addAll(c, "parts", a.Cell.Parts, func(p *file.Part) string { return p.ID })
	addAll(c, "safeguards", a.Cell.Safeguards, func(g *file.Safeguard) string { return g.ID })
	addAll(c, "functions", a.Cell.Functions, func(f *file.Function) string { return f.ID })
	addAll(c, "people", a.Cell.People, func(p *file.People) string { return p.ID })
	addAll(c, "modes", a.Cell.Modes, func(m *file.Mode) string { return m.ID })
	addAll(c, "spaces", a.Cell.Spaces, func(s *file.Space) string { return s.ID })
	for i := range a.Tasks {
		t := c.add("tasks", a.Tasks[i].ID, a.Tasks[i].ID, &a.Tasks[i])
		c.task(t, &a.Tasks[i])
	}
	for i := range a.Contacts {
		t := c.add("contacts", a.Contacts[i].ID, a.Contacts[i].ID, &a.Contacts[i])
		schemas["contacts"].text(t, "class", class(&a.Contacts[i]))
		schemas["contacts"].text(t, "head", headReach(&a.Contacts[i]))
	}
	return c
}

func addAll[T any](c *cell, collection string, items []T, id func(*T) string) {
	for i := range items {
		c.add(collection, id(&items[i]), id(&items[i]), &items[i])
	}
}

// add lays one item out: keys of the file that the schema names, and those of
// the whole cell.
func (c *cell) add(collection, id, path string, item any) *thing {
	s := schemas[collection]
	t := s.thing(id)
	for _, k := range s.keys {
		if own := schemas["cell"].key(k.name); own != nil {
			n := 1
			if k.list {
				n = listWidth
			}
			copy(t.values[k.first:][:n], c.whole.values[own.first:][:n])
		} else if f, ok := field(reflect.ValueOf(item).Elem().Interface(), k.name); ok {
			c.set(s, t, k, reflect.ValueOf(item).Elem().FieldByIndex(f.Index), path)
		}
	}
	c.things[collection] = append(c.things[collection], t)
	return t
}

func (c *cell) set(s *schema, t *thing, k *key, v reflect.Value, path string) {
	switch x := v.Interface().(type) {
	case string:
		s.text(t, k.name, x)
	case file.YesNo:
		s.text(t, k.name, string(x))
	case []string:
		s.list(t, k.name, x)
	case file.Amount:
		s.number(t, k.name, c.value(path+"."+k.name))
	}
}

// task lays out what a task points at.
func (c *cell) task(t *thing, spec *file.Task) {
	s := schemas["tasks"]
	s.list(t, "people", kindsOf(c.a.Cell.People, spec.People, func(p *file.People) (string, string) { return p.ID, p.Kind }))
	s.list(t, "machines", kindsOf(c.a.Cell.Machines, spec.Machines, func(m *file.Machine) (string, string) { return m.ID, m.Kind }))
	s.list(t, "tools", kindsOf(c.a.Cell.Tools, spec.Tools, func(x *file.Tool) (string, string) { return x.ID, x.Kind }))
	s.number(t, "people_count", count(len(spec.People)))
	s.number(t, "robot_count", count(len(spec.Robots)))
	s.number(t, "part_count", count(len(spec.Parts)))
}

// kindsOf gives the kinds of the items with these ids; nil ids: of all items.
func kindsOf[T any](items []T, ids []string, get func(*T) (id, kind string)) []string {
	var list []string
	for i := range items {
		id, kind := get(&items[i])
		if ids == nil || contains(ids, id) {
			list = append(list, kind)
		}
	}
	return list
}

func contains(list []string, word string) bool {
	for _, l := range list {
		if l == word {
			return true
		}
	}
	return false
}

func count(n int) expr.Value { return expr.Value{Kind: expr.Number, Num: float64(n)} }

// driven says whether a machine moves by other means than hand, spring or
// weight. One whose energies are not written may do so.
func driven(m *file.Machine) string {
	for _, e := range m.Energies {
		if e != "spring" && e != "gravity" {
			return "yes"
		}
	}
	if len(m.Energies) == 0 {
		return ""
	}
	return "no"
}

func drivenCount(list []file.Machine) int {
	n := 0
	for i := range list {
		if driven(&list[i]) != "no" {
			n++
		}
	}
	return n
}

func class(c *file.Contact) string {
	switch {
	case c.Jaws != nil:
		return "jaws"
	case c.Free != nil:
		return "free"
	case c.Clamped != nil:
		return "clamped"
	}
	return ""
}

func headReach(c *file.Contact) string {
	if c.Head == nil {
		return ""
	}
	return string(c.Head.Reach)
}

// wholeCell lays out what is asked of the whole cell.
func (c *cell) wholeCell() *thing {
	s, a := schemas["cell"], c.a
	t := s.thing("")
	s.list(t, "cell_people", kindsOf(a.Cell.People, nil, func(p *file.People) (string, string) { return p.ID, p.Kind }))
	s.list(t, "cell_machines", kindsOf(a.Cell.Machines, nil, func(m *file.Machine) (string, string) { return m.ID, m.Kind }))
	s.list(t, "cell_tools", kindsOf(a.Cell.Tools, nil, func(x *file.Tool) (string, string) { return x.ID, x.Kind }))
	s.list(t, "cell_safeguards", kindsOf(a.Cell.Safeguards, nil, func(g *file.Safeguard) (string, string) { return g.ID, g.Kind }))
	s.list(t, "cell_functions", kindsOf(a.Cell.Functions, nil, func(f *file.Function) (string, string) { return f.ID, f.Kind }))
	s.list(t, "cell_spaces", kindsOf(a.Cell.Spaces, nil, func(p *file.Space) (string, string) { return p.ID, p.Kind }))
	s.list(t, "cell_tasks", kindsOf(a.Tasks, nil, func(k *file.Task) (string, string) { return k.ID, k.Kind }))
	var mountings, involves, energies, givesOff, classes []string
	for i := range a.Cell.Robots {
		if m := a.Cell.Robots[i].Mounting; m != "" {
			mountings = append(mountings, m)
		}
	}
	for i := range a.Tasks {
		involves = append(involves, a.Tasks[i].Involves...)
	}
	for i := range a.Cell.Machines {
		energies, givesOff = append(energies, a.Cell.Machines[i].Energies...), append(givesOff, a.Cell.Machines[i].GivesOff...)
	}
	for i := range a.Cell.Tools {
		energies, givesOff = append(energies, a.Cell.Tools[i].Energies...), append(givesOff, a.Cell.Tools[i].GivesOff...)
	}
	for i := range a.Cell.Parts {
		givesOff = append(givesOff, a.Cell.Parts[i].GivesOff...)
	}
	for i := range a.Contacts {
		classes = append(classes, strings.TrimSpace(class(&a.Contacts[i])))
	}
	s.list(t, "cell_mountings", mountings)
	s.list(t, "cell_conditions", a.Limits.Other.Conditions)
	s.list(t, "cell_involves", involves)
	s.list(t, "cell_energies", energies)
	s.list(t, "cell_gives_off", givesOff)
	s.list(t, "cell_contacts", classes)
	s.number(t, "cell_robot_count", count(len(a.Cell.Robots)))
	s.number(t, "cell_machine_count", count(len(a.Cell.Machines)))
	s.number(t, "cell_driven_machine_count", count(drivenCount(a.Cell.Machines)))
	s.number(t, "cell_part_count", count(len(a.Cell.Parts)))
	s.number(t, "cell_tool_count", count(len(a.Cell.Tools)))
	s.number(t, "cell_task_count", count(len(a.Tasks)))
	c.control(t)
	return t
}

// estopSpans says whether the emergency stop stops every robot and
// every machine that is driven.
func (c *cell) estopSpans() string {
	k := &c.a.Cell.Control.EmergencyStop
	if k.Node() == nil {
		return ""
	}
	for i := range c.a.Cell.Robots {
		if !contains(k.Spans, c.a.Cell.Robots[i].ID) {
			return "part"
		}
	}
	for i := range c.a.Cell.Machines {
		if m := &c.a.Cell.Machines[i]; driven(m) != "no" && !contains(k.Spans, m.ID) {
			return "part"
		}
	}
	return "all"
}

// control lays out the answers about stops, restart, power and access.
func (c *cell) control(t *thing) {
	s, k := schemas["cell"], &c.a.Cell.Control
	s.text(t, "cell_estop_spans", c.estopSpans())
	s.text(t, "cell_reset_view", k.Reset.View)
	s.text(t, "cell_restart_automatic", string(k.Restart.Automatic))
	s.text(t, "cell_muting", string(k.Muting.Used))
	s.text(t, "cell_mode_selection", k.ModeSelection.By)
	s.text(t, "cell_power_return_starts", string(k.PowerReturn.Starts))
	s.text(t, "cell_air_return_starts", string(k.AirReturn.Starts))
	s.text(t, "cell_release_without_power", string(k.Release.WithoutPower))
	s.text(t, "cell_isolation_lockable", string(k.Isolation.Lockable))
	s.text(t, "cell_settings_protected_by", k.SettingsAccess.ProtectedBy)
	s.text(t, "cell_remote", k.SettingsAccess.Remote)
}

package identify

import (
	"reflect"
	"slices"

	"standclear/hazards/file"
	"standclear/limits/expr"
)

// cell is an assessment laid out as things of collections.
type cell struct {
	a      *file.Assessment
	value  func(path string) expr.Value // of a quantity of the file, absent where it has none
	kinds  map[string]string            // of people, machines and tools by id
	things map[string][]*thing
	whole  *thing // what is asked of the whole cell
}

func layOut(a *file.Assessment, value func(path string) expr.Value) *cell {
	c := &cell{a: a, value: value, kinds: map[string]string{}, things: map[string][]*thing{}}
	c.whole = c.wholeCell()
	c.things["cell"] = []*thing{c.whole}
	addAll(c, "robots", a.Cell.Robots, func(r *file.Robot) string { return r.ID })
	for i := range a.Cell.Machines {
		m := &a.Cell.Machines[i]
		c.kinds[m.ID] = m.Kind
		schemas["machines"].text(c.add("machines", m.ID, m), "driven", driven(m))
	}
	for i := range a.Cell.Tools {
		c.kinds[a.Cell.Tools[i].ID] = a.Cell.Tools[i].Kind
	}
	for i := range a.Cell.People {
		c.kinds[a.Cell.People[i].ID] = a.Cell.People[i].Kind
	}
	addAll(c, "tools", a.Cell.Tools, func(t *file.Tool) string { return t.ID })
	addAll(c, "parts", a.Cell.Parts, func(p *file.Part) string { return p.ID })
	addAll(c, "safeguards", a.Cell.Safeguards, func(g *file.Safeguard) string { return g.ID })
	addAll(c, "functions", a.Cell.Functions, func(f *file.Function) string { return f.ID })
	addAll(c, "people", a.Cell.People, func(p *file.People) string { return p.ID })
	addAll(c, "spaces", a.Cell.Spaces, func(s *file.Space) string { return s.ID })
	for i := range a.Tasks {
		c.task(c.add("tasks", a.Tasks[i].ID, &a.Tasks[i]), &a.Tasks[i])
	}
	return c
}

func addAll[T any](c *cell, collection string, items []T, id func(*T) string) {
	for i := range items {
		c.add(collection, id(&items[i]), &items[i])
	}
}

// add lays one item out: the keys of the file that the schema names.
func (c *cell) add(collection, id string, item any) *thing {
	s := schemas[collection]
	t := s.thing(id)
	for _, k := range s.keys {
		if k.field == nil {
			continue
		}
		switch x := reflect.ValueOf(item).Elem().FieldByIndex(k.field).Interface().(type) {
		case string:
			s.text(t, k.name, x)
		case file.YesNo:
			s.text(t, k.name, string(x))
		case []string:
			s.list(t, k.name, x)
		case file.Amount:
			s.number(t, k.name, c.value(id+"."+k.name))
		}
	}
	c.things[collection] = append(c.things[collection], t)
	return t
}

// values hands over each thing of a collection with its values behind those of
// the cell. They hold until the next one.
func (c *cell) values(collection string, visit func(t *thing, values []expr.Value)) {
	s := schemas[collection]
	if s.cell == nil {
		visit(c.whole, c.whole.values)
		return
	}
	all := make([]expr.Value, s.base()+s.slots)
	copy(all, c.whole.values)
	for _, t := range c.things[collection] {
		copy(all[s.base():], t.values)
		visit(t, all)
	}
}

// task lays out what a task points at. A task that names no people, machines,
// tools, robots or parts may have to do with all of them.
func (c *cell) task(t *thing, spec *file.Task) {
	s, all := schemas["tasks"], &c.a.Cell
	s.list(t, "people", c.kindsOf(spec.People))
	s.list(t, "machines", c.kindsOf(orAll(spec.Machines, all.Machines, func(m *file.Machine) string { return m.ID })))
	s.list(t, "tools", c.kindsOf(orAll(spec.Tools, all.Tools, func(x *file.Tool) string { return x.ID })))
	s.number(t, "robot_count", count(len(orAll(spec.Robots, all.Robots, func(r *file.Robot) string { return r.ID }))))
	s.number(t, "part_count", count(len(orAll(spec.Parts, all.Parts, func(p *file.Part) string { return p.ID }))))
}

func (c *cell) kindsOf(ids []string) []string {
	var list []string
	for _, id := range ids {
		if k := c.kinds[id]; !slices.Contains(list, k) {
			list = append(list, k)
		}
	}
	return list
}

// orAll gives ids, or those of all items where none are written.
func orAll[T any](ids []string, items []T, id func(*T) string) []string {
	if ids != nil {
		return ids
	}
	for i := range items {
		ids = append(ids, id(&items[i]))
	}
	return ids
}

func count(n int) expr.Value { return expr.Value{Kind: expr.Number, Num: float64(n)} }

// driven says whether a machine moves by other means than hand, spring or weight.
func driven(m *file.Machine) string {
	switch {
	case len(m.Energies) == 0:
		return "" // not written
	case m.Driven():
		return "yes"
	}
	return "no"
}

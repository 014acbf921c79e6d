package identify

import "standclear/hazards/file"

// wholeCell lays out what is asked of the whole cell.
func (c *cell) wholeCell() *thing {
	s, a := schemas["cell"], c.a
	t := s.thing("")
	s.list(t, "cell_people", each(a.Cell.People, func(p *file.People) []string { return []string{p.Kind} }))
	s.list(t, "cell_machines", each(a.Cell.Machines, func(m *file.Machine) []string { return []string{m.Kind} }))
	s.list(t, "cell_tools", each(a.Cell.Tools, func(x *file.Tool) []string { return []string{x.Kind} }))
	s.list(t, "cell_safeguards", each(a.Cell.Safeguards, func(g *file.Safeguard) []string { return []string{g.Kind} }))
	s.list(t, "cell_functions", each(a.Cell.Functions, func(f *file.Function) []string { return []string{f.Kind} }))
	s.list(t, "cell_spaces", each(a.Cell.Spaces, func(p *file.Space) []string { return []string{p.Kind} }))
	s.list(t, "cell_mountings", each(a.Cell.Robots, func(r *file.Robot) []string { return []string{r.Mounting} }))
	s.list(t, "cell_tasks", each(a.Tasks, func(k *file.Task) []string { return []string{k.Kind} }))
	s.list(t, "cell_involves", each(a.Tasks, func(k *file.Task) []string { return k.Involves }))
	s.list(t, "cell_contacts", each(a.Contacts, class))
	s.list(t, "cell_conditions", a.Limits.Other.Conditions)
	s.list(t, "cell_energies", append(each(a.Cell.Machines, func(m *file.Machine) []string { return m.Energies }),
		each(a.Cell.Tools, func(x *file.Tool) []string { return x.Energies })...))
	s.list(t, "cell_gives_off", append(append(each(a.Cell.Machines, func(m *file.Machine) []string { return m.GivesOff }),
		each(a.Cell.Tools, func(x *file.Tool) []string { return x.GivesOff })...),
		each(a.Cell.Parts, func(p *file.Part) []string { return p.GivesOff })...))
	c.counts(t)
	c.control(t)
	return t
}

// each gathers words of items; none is written where a word is empty.
func each[T any](items []T, words func(*T) []string) []string {
	var list []string
	for i := range items {
		for _, w := range words(&items[i]) {
			if w != "" {
				list = append(list, w)
			}
		}
	}
	return list
}

func class(c *file.Contact) []string {
	switch {
	case c.Jaws != nil:
		return []string{"jaws"}
	case c.Free != nil:
		return []string{"free"}
	case c.Clamped != nil:
		return []string{"clamped"}
	}
	return nil
}

func (c *cell) counts(t *thing) {
	s, a := schemas["cell"], &c.a.Cell
	driven := 0
	for i := range a.Machines {
		if a.Machines[i].Driven() {
			driven++
		}
	}
	s.number(t, "cell_robot_count", count(len(a.Robots)))
	s.number(t, "cell_machine_count", count(len(a.Machines)))
	s.number(t, "cell_driven_machine_count", count(driven))
	s.number(t, "cell_part_count", count(len(a.Parts)))
	s.number(t, "cell_tool_count", count(len(a.Tools)))
}

// control lays out the answers about stops, restart, power and access.
func (c *cell) control(t *thing) {
	s, k := schemas["cell"], &c.a.Cell.Control
	if k.EmergencyStop.Node() == nil {
		s.text(t, "cell_estop_spans", "")
	} else if c.a.Cell.Unspanned() == nil {
		s.text(t, "cell_estop_spans", "all")
	} else {
		s.text(t, "cell_estop_spans", "part")
	}
	s.text(t, "cell_reset_view", k.Reset.View)
	s.text(t, "cell_restart_automatic", string(k.Restart.Automatic))
	s.text(t, "cell_muting", string(k.Muting.Used))
	s.text(t, "cell_mode_selection", k.ModeSelection.By)
	s.text(t, "cell_power_return_starts", string(k.PowerReturn.Starts))
	s.text(t, "cell_air_return_starts", string(k.AirReturn.Starts))
	s.text(t, "cell_isolation_lockable", string(k.Isolation.Lockable))
	s.text(t, "cell_remote", k.SettingsAccess.Remote)
}

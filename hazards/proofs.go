package hazards

import (
	"standclear/hazards/file"
	"standclear/hazards/proof"
	"standclear/limits/quantity"
	"standclear/limits/sheet"
)

// ProofCase is a contact check as a measurement has to meet it.
func ProofCase(r *Result, c *Check) proof.Case {
	p := proof.Case{
		Clamped: c.Sheet.ID == clampedSheet, Jaws: c.Sheet.ID == jawSheet,
		Tool: unlessNone(c.Tool), Part: unlessNone(c.Part), PartMass: massOf(r, c.Part), Area: c.Area, Region: regionOf(r.Library, c.Area),
	}
	if v := inputOf(c, "v"); v != nil {
		p.Speed = v.Value.Num
	}
	if spec := contactSpec(r, c.Of); spec != nil {
		p.Spot = c.Spot
		if s := settingOf(r.File, spec.Spot(c.Spot).Speed); s != nil {
			p.Checksum = s.Checksum
		}
	}
	regions, areas := "contact-regions", "contact-areas"
	p.K = cellOf(r.Library, regions, p.Region, "K")
	p.ForceSteady = cellOf(r.Library, regions, p.Region, "F_s")
	p.PressureSteady = cellOf(r.Library, areas, c.Area, "p_s")
	p.ForcePeak = p.ForceSteady * max(1, cellOf(r.Library, regions, p.Region, "f_F"))
	p.PressurePeak = p.PressureSteady * max(1, cellOf(r.Library, areas, c.Area, "f_p"))
	return p
}

// ProofMeasured is what a validation point says by the figures read off the
// instrument. Of a speed with a tolerance the lower end counts.
func ProofMeasured(r *Result, p *file.Point) proof.Measured {
	ix := r.File.Index()
	m := proof.Measured{
		Clamped: string(p.Clamped), Tool: p.Tool, Part: p.Part, PartMass: massOf(r, p.Part),
		Area: p.Area, Region: regionOf(r.Library, p.Area), Checksum: p.Checksum, Spot: p.Spot,
	}
	if spec := contactSpec(r, p.Of); spec != nil && p.Spot == "" && len(spec.Spots) == 1 {
		m.Spot = spec.Spots[0].ID // it can be no other
	}
	if v := amountIn(ix, p.Speed, "mm/s", quantity.Quantity.Low); v != nil {
		m.Speed = *v
	}
	if p.Device != nil {
		if k := amountIn(ix, p.Device.Stiffness, "N/mm", nil); k != nil {
			m.Stiffness = *k
		}
	}
	if p.Force != nil {
		m.Peak = aboveZero(amountIn(ix, p.Force.Peak, "N", quantity.Quantity.High))
		m.Steady = amountIn(ix, p.Force.Steady, "N", quantity.Quantity.High)
	}
	if p.Pressure != nil {
		m.Pressure = aboveZero(amountIn(ix, p.Pressure.Peak, "N/cm2", quantity.Quantity.High))
	}
	return m
}

// aboveZero takes a peak of nothing for one that was not taken.
func aboveZero(v *float64) *float64 {
	if v != nil && *v <= 0 {
		return nil
	}
	return v
}

// amountIn is an amount in a unit, at the end of its tolerance that counts; nil
// where it is not given.
func amountIn(ix *file.Index, a file.Amount, unit string, end func(quantity.Quantity) quantity.Quantity) *float64 {
	q, _, err := ix.Resolve(a)
	if err != nil {
		return nil
	}
	if end != nil {
		q = end(q)
	}
	u, err := quantity.ParseUnit(unit)
	if err != nil {
		return nil
	}
	v, err := q.In(u)
	if err != nil {
		return nil
	}
	return &v
}

// inputOf is an input of a check by name, nil when it was not given.
func inputOf(c *Check, name string) *Input {
	for i := range c.Inputs {
		if c.Inputs[i].Name == name && c.Inputs[i].Value.Given() {
			return &c.Inputs[i]
		}
	}
	return nil
}

func contactSpec(r *Result, id string) *file.Contact {
	_, found, _, _ := r.File.Find(id)
	c, _ := found.(*file.Contact)
	return c
}

// limitsOf lists the values of safety configurations that an amount rests on.
func limitsOf(ix *file.Index, a file.Amount) []*file.Entry {
	var list []*file.Entry
	_, leaves, err := ix.Resolve(a)
	if err != nil {
		return nil
	}
	for _, l := range leaves {
		if e, ok := ix.Entry(l.Path); ok && e.Kind == "setting" {
			list = append(list, e)
		}
	}
	return list
}

// settingOf is the first safety configuration that an amount rests on, nil when
// it rests on none.
func settingOf(a *file.Assessment, amount file.Amount) *file.Setting {
	for _, e := range limitsOf(a.Index(), amount) {
		return settingAt(a, e)
	}
	return nil
}

// settingAt is the safety configuration in which a value stands.
func settingAt(a *file.Assessment, e *file.Entry) *file.Setting {
	_, found, _, _ := a.Find(e.Item)
	if s, ok := found.(*file.Setting); ok {
		return s
	}
	return &file.Setting{}
}

func unlessNone(id string) string {
	if id == none {
		return ""
	}
	return id
}

func massOf(r *Result, part string) float64 {
	_, found, _, _ := r.File.Find(part)
	if p, ok := found.(*file.Part); ok {
		if m := amountIn(r.File.Index(), p.Mass, "kg", nil); m != nil {
			return *m
		}
	}
	return 0
}

// regionOf is the body region of a body area.
func regionOf(lib *sheet.Library, area string) string {
	t := lib.Table("contact-areas")
	if t == nil {
		return ""
	}
	row, column := t.Exact(area), t.Column("region")
	if row < 0 || column < 0 {
		return ""
	}
	return t.Rows[row][column].Value.Text
}

// cellOf is a number of a table, 0 when there is none.
func cellOf(lib *sheet.Library, table, key, column string) float64 {
	t := lib.Table(table)
	if t == nil {
		return 0
	}
	row, c := t.Exact(key), t.Column(column)
	if row < 0 || c < 0 {
		return 0
	}
	return t.Rows[row][c].Value.Num
}

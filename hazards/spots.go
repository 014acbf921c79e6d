package hazards

import (
	"slices"

	"standclear/hazards/file"
)

// noTool says what a mass at the flange waits for.
const noTool = "the mass at the flange is not known: neither the contact nor its task names a tool; write `tools: []` if there is none"

// masses are the moving mass with tool and part, or the effective mass that the
// user states for the pose, to which tool and part are added.
func (e *expansion) masses(c *Check, spot *file.Spot, tool *file.Tool, part *file.Part) []Input {
	col := c.Sheet.Input("m_R")
	if !spot.EffectiveMass.Set || col == nil {
		var list []Input
		if e.arm != nil {
			if in, ok := e.amount(c.Sheet.Input("M"), e.arm.MovingMass); ok {
				list = append(list, in)
			}
		}
		return append(list, e.load(c, tool, part)...)
	}
	if e.noTool(c) {
		return nil
	}
	in, _ := e.amount(col, spot.EffectiveMass, tool.Mass, part.Mass)
	return []Input{in}
}

// spots are the points of a contact, "" for one that is a single point.
func (c *Contact) spots() []string { return c.Spec.SpotIDs() }

// worstAt is the worst check of a contact at one of its points, nil where there
// is none.
func (w *work) worstAt(k *Contact, spot string) *Check {
	var out *Check
	for _, j := range k.Checks {
		if c := &w.r.Checks[j]; !c.Shadow && c.Spot == spot && (out == nil || worse(c, out)) {
			out = c
		}
	}
	return out
}

// OwnEdges tells whether every point of a contact states its own edges, so that
// those of tool and part say nothing.
func (c *Contact) OwnEdges() bool {
	return len(c.Spec.Spots) > 0 && !slices.ContainsFunc(c.Spec.Spots, func(s file.Spot) bool { return s.Edges == "" })
}

// speedsOf are the speeds that a contact and its points state.
func speedsOf(spec *file.Contact) []file.Amount {
	var list []file.Amount
	if spec.Speed.Set {
		list = append(list, spec.Speed)
	}
	for i := range spec.Spots {
		if spec.Spots[i].Speed.Set {
			list = append(list, spec.Spots[i].Speed)
		}
	}
	return list
}

// lacking tells whether a contact, or one of its points, does without something.
func lacking(spec *file.Contact, has func(*file.Spot) bool) bool {
	for _, id := range spec.SpotIDs() {
		if s := spec.Spot(id); !has(&s) {
			return true
		}
	}
	return false
}

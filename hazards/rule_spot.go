package hazards

import (
	"cmp"
	"slices"

	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/quantity"
)

// spots: what the points of a contact say besides, and effective masses.
func (f *finder) spots(c *Contact) {
	f.milderEdges(c)
	if c.Class == Jaws {
		return
	}
	for _, id := range f.statedMasses(c) {
		s := c.Spec.Spot(id)
		if s.Pose == "" {
			f.raise("CO-22", c.ID, s.EffectiveMass.Pos(), "contact", cmp.Or(id, c.ID))
		}
		f.lightArm(c, id, &s)
	}
}

// statedMasses lists the points with an effective mass of their own, and one of
// those that take that of the contact.
func (f *finder) statedMasses(c *Contact) []string {
	var list []string
	seen := map[string]bool{}
	for _, id := range c.spots() {
		if s := c.Spec.Spot(id); s.EffectiveMass.Set {
			if path := f.r.File.Index().PathOf(s.EffectiveMass); !seen[path] {
				seen[path] = true
				list = append(list, id)
			}
		}
	}
	return list
}

// lightArm: an effective mass below the one that the published rule gives.
func (f *finder) lightArm(c *Contact, id string, s *file.Spot) {
	robot := f.movingRobot(c)
	i := slices.IndexFunc(f.governing(c), func(k *Check) bool { return k.Spot == id })
	if robot == nil || i < 0 || s.WhyMass != "" {
		return
	}
	half := f.governing(c)[i].Outcome.Value("half")
	stated, moving := f.r.usedFact(s.EffectiveMass), f.r.usedFact(robot.MovingMass)
	if !half.Given() || !stated.Given() || !moving.Given() {
		return
	}
	if least := moving.Num * half.Num; stated.Num < least && !expr.Equal(stated.Num, least) {
		f.raise("CO-20", c.ID, s.EffectiveMass.Pos(), "contact", cmp.Or(id, c.ID), "stated", quantity.Format(stated.Num, 6),
			"half", quantity.Format(least, 6), "robot", robot.ID)
	}
}

// usedFact is an amount of the file as it is used, at its worse end, in its own unit.
func (r *Result) usedFact(a file.Amount) expr.Value {
	return r.usedAt(r.File.Index().PathOf(a))
}

// movingRobot is the robot whose mass moves in a contact, nil where it is not known.
func (f *finder) movingRobot(c *Contact) *file.Robot {
	_, found, _, _ := f.r.File.Find(c.Robot)
	r, _ := found.(*file.Robot)
	return r
}

// milderEdges: the worse edge of tool or part has to be at one of the points, or
// a reason says why it cannot touch.
func (f *finder) milderEdges(c *Contact) {
	for i := range c.Spec.Spots {
		s := &c.Spec.Spots[i]
		if s.Edges == "" || s.WhyEdges != "" {
			continue
		}
		for _, id := range append(slices.Clone(c.Tools), c.Parts...) {
			if edges := f.edges(id); slices.Index(edgeOrder, edges) > slices.Index(edgeOrder, s.Edges) && !f.pointsHave(c, edges) {
				f.raise("CO-21", c.ID, s.At("edges"), "point", s.ID, "edges", s.Edges, "what", id, "worse", edges)
				break
			}
		}
	}
}

// pointsHave tells whether a point of a contact has an edge that is as bad.
func (f *finder) pointsHave(c *Contact, edges string) bool {
	return slices.ContainsFunc(c.Spec.Spots, func(s file.Spot) bool {
		return s.Edges == "" || slices.Index(edgeOrder, s.Edges) >= slices.Index(edgeOrder, edges)
	})
}

// badSpot words the edge of a point that may not touch, "" for any other.
func (f *finder) badSpot(k *Check, in *Input) string {
	if k.Spot == "" || in.Name != "edges" || len(in.Terms) > 0 || !f.w.looksAt("CO-07", in.Text) {
		return ""
	}
	return k.Spot + " (" + in.Text + ")"
}

package book

// spotKey heads the point of a contact at which a measurement was taken.
const spotKey = "contact_point"

// hasSpots tells whether a contact of the assessment has several points.
func (p *planner) hasSpots() bool {
	for i := range p.r.File.Contacts {
		if len(p.r.File.Contacts[i].Spots) > 0 {
			return true
		}
	}
	return false
}

package hazards

import "standclear/hazards/place"

// Reviews lists what people have to look at in the places of an assessment.
// It always ends with the reminder that rules differ and change.
func Reviews(r *Result, places []*place.Place) []ReviewItem {
	s := place.Situation{Date: r.File.Head.Placing.PutIntoService, Role: r.File.Head.Placing.Role}
	for i := range r.File.Cell.Robots {
		s.Robots = append(s.Robots, r.File.Cell.Robots[i].ID)
	}
	for i := range r.File.Contacts {
		s.Contacts = append(s.Contacts, r.File.Contacts[i].ID)
	}
	for i := range r.File.Cell.Safeguards {
		g := &r.File.Cell.Safeguards[i]
		s.Safeguards = append(s.Safeguards, place.Safeguard{ID: g.ID, Kind: g.Kind})
	}
	var list []ReviewItem
	for _, item := range place.Review(s, r.File.Head.Places, places) {
		list = append(list, ReviewItem(item))
	}
	return list
}

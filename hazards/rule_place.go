package hazards

import (
	"standclear/hazards/file"
	"standclear/hazards/place"
	"standclear/limits/expr"
)

// Reviews lists what people have to look at in the places of an assessment.
// It always ends with the reminder that rules differ and change.
func Reviews(r *Result, places []*place.Place) []ReviewItem {
	var list []ReviewItem
	for _, item := range place.Review(situation(r), r.File.Head.Places, places) {
		list = append(list, ReviewItem(item))
	}
	return list
}

// situation is what the file tells the rules of the places.
func situation(r *Result) place.Situation {
	placing, cell := &r.File.Head.Placing, &r.File.Cell
	s := place.Situation{Date: placing.PutIntoService, Role: placing.Role, State: placing.State,
		Around: r.File.Limits.Other.Conditions, Remote: cell.Control.SettingsAccess.Remote}
	for i := range cell.Robots {
		b := &cell.Robots[i]
		robot := place.Robot{ID: b.ID, Learned: b.LearnedMotion}
		if f := r.Fact(b.ID + ".motor_power"); f != nil && f.Used.Kind == expr.Number {
			robot.Power = &f.Used.Num
		}
		s.Robots = append(s.Robots, robot)
	}
	for i := range r.File.Contacts {
		s.Contacts = append(s.Contacts, r.File.Contacts[i].ID)
	}
	for i := range cell.Functions {
		f := &cell.Functions[i]
		s.Functions = append(s.Functions, place.Function{ID: f.ID, Learned: f.Learned})
	}
	s.Safeguards = things(cell.Safeguards, func(x *file.Safeguard) place.Thing { return place.Thing{ID: x.ID, Kind: x.Kind} })
	s.Machines = things(cell.Machines, func(x *file.Machine) place.Thing { return place.Thing{ID: x.ID, Kind: x.Kind} })
	s.Spaces = things(cell.Spaces, func(x *file.Space) place.Thing { return place.Thing{ID: x.ID, Kind: x.Kind} })
	s.Tasks = things(r.File.Tasks, func(x *file.Task) place.Thing { return place.Thing{ID: x.ID, Kind: x.Kind} })
	return s
}

func things[T any](list []T, of func(*T) place.Thing) []place.Thing {
	var out []place.Thing
	for i := range list {
		out = append(out, of(&list[i]))
	}
	return out
}

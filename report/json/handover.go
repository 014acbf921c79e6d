package json

import (
	"standclear/hazards"
	"standclear/limits/expr"
)

// handOver lists what leaves the house with the cell.
func handOver(r *hazards.Result) object {
	h := &r.HandOver
	return object{
		{"tell", each(h.Tell, func(t *hazards.Tell) object {
			return object{{"row", t.Row}, {"situation", t.Situation}, {"event", t.Event}, {"harm", t.Harm}, {"level", t.Level}, {"action", t.Action},
				{"manual", t.Manual}, {"marking", t.Marking}, {"training", t.Training}, {"protective_equipment", t.Gear}, {"to", list(t.To)}}
		})},
		{"gaps", each(h.Gaps, func(g *hazards.Gap) object {
			return object{{"row", g.Row}, {"level", g.Level}, {"why", g.Why}}
		})},
		{"upkeep", each(h.Upkeep, upkeep)},
		{"training", each(h.Training, func(t *hazards.Training) object {
			return object{{"person", t.Person}, {"who", t.Who}, {"present", t.Present}, {"written", t.Written}, {"tasks", list(t.Tasks)},
				{"told", each(t.Told, told)}, {"protective_equipment", each(t.Gear, told)}}
		})},
		{"asked", each(h.Asked, func(a *hazards.Asked) object {
			return object{{"place", a.Place}, {"clause", a.Clause}, {"who", a.Who}, {"papers", list(a.Papers)}}
		})},
		{"technical_file", each(h.Papers, paper)},
		{"declarations", each(h.Declarations, paper)},
	}
}

func each[T any](in []T, of func(*T) object) []object {
	out := []object{}
	for i := range in {
		out = append(out, of(&in[i]))
	}
	return out
}

func upkeep(u *hazards.Upkeep) object {
	o := object{{"id", u.ID}, {"what", u.What}}
	if u.Years.Kind == expr.Number {
		o = append(o, member{"within", object{{"value", u.Years.Num}, {"unit", "years"}}}, member{"check", u.Check})
	}
	if u.Every != "" {
		o = append(o, member{"every", u.Every}, member{"brakes_of", list(u.For)})
	}
	return o
}

func told(t *hazards.Told) object { return object{{"row", t.Row}, {"text", t.Text}} }

// paper is a document; a missing one has no place where it is.
func paper(p *hazards.Paper) object {
	o := object{{"kind", p.Kind}, {"about", p.About}, {"what", p.What}, {"by", p.By}, {"where", nil}, {"places", list(p.Places)},
		{"because", p.Because}, {"not_written", p.Silent}, {"standing", p.Standing}, {"sources", list(p.Sources)}}
	if p.Where != "" {
		o[4].value = p.Where
	}
	return o
}

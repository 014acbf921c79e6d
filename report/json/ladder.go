package json

import (
	"standclear/hazards"
	"standclear/limits/sheet"
)

// ladders gives the speeds by body region that the model permits; nobody has
// measured them.
func ladders(r *hazards.Result) []object {
	out := []object{}
	for i := range r.Ladders {
		l := &r.Ladders[i]
		o := object{{"robot", l.Robot}, {"state", "free contact, unmeasured"}, {"mass_of", l.MassOf}, {"area_of", l.AreaOf}}
		regions := []object{}
		for k := range l.Rungs {
			g := &l.Rungs[k]
			if k == 0 {
				o = append(o, member{"inputs", ladderInputs(l, g.Outcome.Sheet)})
			}
			regions = append(regions, object{{"region", g.Region}, {"body_area", g.Area}, {"verdict", rungState(g)}, {"v_max", speed(g)}, {"notes", list(g.Notes)}})
		}
		out = append(out, append(o, member{"regions", regions}))
	}
	return out
}

func ladderInputs(l *hazards.Ladder, s *sheet.Sheet) object {
	out := object{}
	for i := range l.Inputs {
		if c := s.Column(l.Inputs[i].Name); c != nil && l.Inputs[i].Value.Given() {
			out = append(out, member{c.Symbol, value(plain(l.Inputs[i].Value), c)})
		}
	}
	return out
}

// rungState is unmeasured where the model speaks, else why it does not.
func rungState(g *hazards.Rung) string {
	if g.Outcome.Value("p_limit").Given() {
		return "unmeasured"
	}
	return string(g.Outcome.Verdict)
}

func speed(g *hazards.Rung) any {
	if v := g.Speed(); v.Given() {
		return value(plain(v), g.Outcome.Sheet.Column("v_max"))
	}
	return nil
}

// speeds gives the measured speeds of released tasks.
func speeds(r *hazards.Result) []object {
	out := []object{}
	for _, s := range r.Speeds {
		out = append(out, object{{"task", s.Task}, {"contact", s.Contact}, {"point", s.Point}, {"speed", object{{"value", s.Speed}, {"unit", "mm/s"}}}})
	}
	return out
}

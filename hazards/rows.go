package hazards

import (
	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/source"
)

// rows estimates every hazard row before and after its measures, and lists what
// it rests on.
func (w *work) rows() {
	w.r.Rows = make([]Row, len(w.a.Hazards))
	for i := range w.a.Hazards {
		spec := &w.a.Hazards[i]
		row := &w.r.Rows[i]
		*row = Row{Spec: spec, ID: spec.ID, Task: spec.Task, People: w.people(spec)}
		if w.r.Method != nil {
			row.Before, row.After = w.estimate(spec.Before), w.estimate(spec.After)
			if !w.r.Method.Residual {
				row.After = Estimate{}
			}
		}
		for _, id := range spec.ShownBy {
			w.restOn(row, id)
		}
		for j := range spec.Measures {
			for _, id := range spec.Measures[j].ShownBy {
				w.restOn(row, id)
			}
		}
	}
}

func (w *work) people(spec *file.Hazard) []string {
	if spec.Where != nil {
		return spec.Where.People
	}
	_, found, _, _ := w.a.Find(spec.Task)
	if t, ok := found.(*file.Task); ok {
		return t.People
	}
	return nil
}

func (w *work) restOn(row *Row, id string) {
	if kind, _, _, _ := w.a.Find(id); kind == "point" {
		row.Points = addOnce(row.Points, id)
		return
	}
	row.Rests = addOnce(row.Rests, id)
}

// estimate works the method out for scores as written.
func (w *work) estimate(scores source.Map[file.Score]) Estimate {
	m := w.r.Method
	e := Estimate{Scores: make([]expr.Value, len(m.Factors))}
	if other := w.otherMethod(scores); other != nil {
		e.Of, scores = other.ID, nil
	}
	for i := range scores {
		s := &scores[i]
		f := m.Factor(s.Key)
		if f == nil {
			w.ps.Add(source.Problem{Pos: s.Pos, Width: len(s.Key), Message: "method `" + m.ID + "` has no factor `" + s.Key + "`",
				Expected: "one of: " + source.Quoted(m.FactorIDs()), Hint: source.DidYouMean(s.Key, m.FactorIDs())})
			continue
		}
		v, ok := f.Read(s.Value.Text)
		if !ok {
			w.ps.Add(source.Problem{Pos: s.Value.Pos(), Width: len(s.Value.Text), Message: "found `" + s.Value.Text + "` for " + f.ID,
				Expected: "a score of " + f.Title + ": " + source.Quoted(f.ScoreNames()), Hint: source.DidYouMean(s.Value.Text, f.ScoreNames())})
			continue
		}
		for j := range m.Factors {
			if m.Factors[j].ID == f.ID {
				e.Scores[j] = v
			}
		}
	}
	o := m.Evaluate(e.Scores)
	e.Outcome, e.Score, e.Level, e.Action, e.Done = &o.Sheet, o.Score, o.Level, o.Action, o.Done
	return e
}

// otherMethod is a method that all scores written belong to while they are not
// all of the method in use: the method of the file was changed since. None of
// them counts then, since the same name may stand for something else.
func (w *work) otherMethod(scores source.Map[file.Score]) *Method {
	m := w.r.Method
	if len(scores) == 0 || belong(scores, m) {
		return nil
	}
	for _, other := range w.methods {
		// one unknown factor at least: a mistyped score of the method in use is an error
		if belong(scores, other) && (other.Family == m.Family || !named(scores, m)) {
			return other
		}
	}
	return nil
}

// belong tells whether all scores are scores of a method.
func belong(scores source.Map[file.Score], m *Method) bool {
	for i := range scores {
		f := m.Factor(scores[i].Key)
		if f == nil || f.Find(scores[i].Value.Text) == nil {
			return false
		}
	}
	return true
}

// named tells whether a method has factors of all these names.
func named(scores source.Map[file.Score], m *Method) bool {
	for i := range scores {
		if m.Factor(scores[i].Key) == nil {
			return false
		}
	}
	return true
}

// Missing names the factors of an estimate that have no score.
func (e *Estimate) Missing(m *Method) []string {
	var out []string
	for i, s := range e.Scores {
		if !s.Given() {
			out = append(out, m.Factors[i].ID)
		}
	}
	return out
}

package hazards

import (
	"strings"

	"standclear/hazards/estimate"
	"standclear/hazards/file"
	"standclear/hazards/place"
	"standclear/limits/expr"
)

// HandOver is what leaves the house with the cell: what to tell whom, upkeep,
// training and papers, each in the order of the file or of the place.
type HandOver struct {
	Tell         []Tell
	Gaps         []Gap
	Upkeep       []Upkeep
	Training     []Training
	Asked        []Asked // papers that the local rules ask for with a review
	Papers       []Paper // index of the technical file
	Declarations []Paper
}

// Tell is a risk that remains and what is told about it.
type Tell struct {
	Row                             string
	Situation, Event, Harm          string
	Level, Action                   string // that remain; "" where the row is not scored
	Manual, Marking, Training, Gear string
	To                              []string // ids of people
}

// Gap is something that nobody is told.
type Gap struct{ Row, Level, Why string }

// Upkeep is one thing to do again and again, or before a time.
type Upkeep struct {
	ID    string // of the upkeep item, or of the check it comes from
	What  string
	Every string // interval in words; "" where none is given
	// Years is the time after which a part is exchanged, by a check; absent for
	// what wears by no check.
	Years expr.Value
	Check string   // the check that gives Years
	For   []string // ids of robots whose worn brakes it finds
}

// Training is what one kind of people has to be told and taught.
type Training struct {
	Person, Who, Present string
	Written              string // training by the file, "" where none is written
	Tasks                []string
	Told                 []Told // what training must tell about risks that remain
	Gear                 []Told // protective equipment
}

// Told is a text with the row it comes from.
type Told struct{ Row, Text string }

// Asked is what a local rule asks to be handed over.
type Asked struct {
	Place, Clause, Who string
	Papers             []string
}

// Paper is a document of the technical file or a declaration.
type Paper struct {
	Places                []string // ids of those that ask for it
	Kind, About, What, By string   // About: an id, "" for the cell
	Where                 string   // "" : missing
	Because               string   // what gave rise to it
	Silent                string   // what is not written, so that nobody knows whether it is wanted
	Standing              string
	Sources               []string
}

// handOver gathers what leaves the house.
func (w *work) handOver(places []*place.Place) {
	h := &w.r.HandOver
	for i := range w.r.Rows {
		w.tell(h, &w.r.Rows[i])
	}
	h.Upkeep = append(w.upkeep(), w.exchanges()...)
	for i := range w.a.Cell.People {
		h.Training = append(h.Training, w.training(h, &w.a.Cell.People[i]))
	}
	for _, item := range w.r.Review {
		if len(item.HandOver) > 0 {
			h.Asked = append(h.Asked, Asked{item.Place, item.Clause, item.Who, item.HandOver})
		}
	}
	index, declarations := place.Papers(situation(w.r), w.a.Head.Places, places)
	h.Papers, h.Declarations = w.papers(index), w.papers(declarations)
}

// tell notes what a row tells whom, or that it tells nobody.
func (w *work) tell(h *HandOver, row *Row) {
	s := row.Spec
	level, action := "", ""
	if row.After.Done {
		level, action = row.After.Level, row.After.Action
	}
	gap := func(why string) { h.Gaps = append(h.Gaps, Gap{row.ID, level, why}) }
	if s.Residual == nil || s.Residual.Inform == nil {
		switch before := row.Before.Action; {
		case asks(action):
			gap("a risk remains for which action is " + action + ", and nobody is told")
		case w.r.Method != nil && !w.r.Method.Residual && row.Before.Done && asks(before):
			gap("action was " + before + ", the method does not say what remains, and nobody is told")
		}
		return
	}
	in := s.Residual.Inform
	h.Tell = append(h.Tell, Tell{Row: row.ID, Situation: s.Situation, Event: s.Event, Harm: s.Harm, Level: level, Action: action,
		Manual: in.Manual, Marking: in.Marking, Training: in.Training, Gear: in.PPE, To: in.To})
	if in.Manual+in.Marking+in.Training+in.PPE == "" {
		gap("it is not written what to tell")
	}
	if len(in.To) == 0 {
		gap("it is not written whom to tell")
	}
}

// asks tells whether a level asks for action.
func asks(action string) bool {
	return action == estimate.Recommended || action == estimate.Required
}

// upkeep lists the upkeep of the file, with the robots whose brakes it minds.
func (w *work) upkeep() []Upkeep {
	var list []Upkeep
	for i := range w.a.Limits.Time.Upkeep {
		u := &w.a.Limits.Time.Upkeep[i]
		item := Upkeep{ID: u.ID, What: u.What, Every: u.Every}
		for _, id := range u.Of {
			if c := w.r.Check(id); c != nil && item.Check == "" {
				if life, _, worn := c.wornOut(); worn {
					item.Years, item.Check = life, id
				}
			}
		}
		for k := range w.a.Cell.Robots {
			if r := &w.a.Cell.Robots[k]; r.BrakeCheck == u.ID {
				item.For = append(item.For, r.ID)
			}
		}
		list = append(list, item)
	}
	return list
}

// exchanges lists parts that wear out within the mission time, by the checks
// that work out when. Those that an item of the file exchanges in time stand
// with it.
func (w *work) exchanges() []Upkeep {
	var list []Upkeep
	for i := range w.r.Checks {
		c := &w.r.Checks[i]
		if life, _, worn := c.wornOut(); worn && notExchanged(w.a, c.ID, life.Num) != "" {
			list = append(list, Upkeep{ID: c.ID, What: "replace before the time worked out here" + after(": ", c.Note), Years: life, Check: c.ID})
		}
	}
	return list
}

func after(sep, s string) string {
	if s == "" {
		return ""
	}
	return sep + s
}

// training gathers what one kind of people does and has to be told.
func (w *work) training(h *HandOver, p *file.People) Training {
	t := Training{Person: p.ID, Who: p.Who, Present: p.Present, Written: strings.TrimSpace(p.Training)}
	for i := range w.a.Tasks {
		if task := &w.a.Tasks[i]; has(task.People, p.ID) {
			t.Tasks = append(t.Tasks, task.ID)
		}
	}
	for i := range h.Tell {
		in := &h.Tell[i]
		if !has(in.To, p.ID) {
			continue
		}
		if in.Training != "" {
			t.Told = append(t.Told, Told{in.Row, in.Training})
		}
		if in.Gear != "" {
			t.Gear = append(t.Gear, Told{in.Row, in.Gear})
		}
	}
	return t
}

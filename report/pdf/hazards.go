package pdf

import (
	"cmp"
	"slices"
	"strings"

	"standclear/hazards"
	"standclear/hazards/estimate"
	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/report/words"
)

// hazards sets the rows before and after measures.
func (d *doc) hazards() {
	d.section("hazards")
	d.lead(d.w.Sentence("hazards_intro"))
	d.legend()
	if len(d.r.Rows) == 0 {
		d.put(one(d.w.Label("none"), text))
		return
	}
	what, scores, how, status := 44.0, 18.0, 52.0, 40.0
	if d.wordy() {
		what, scores, how, status = 40, 27, 44, 34
	}
	t := d.table(col{name: d.w.Label("id"), share: 14}, col{name: d.w.Label("hazard"), share: what}, col{name: d.w.Label("before"), share: scores},
		col{name: d.w.Label("measures"), share: how}, col{name: d.w.Label("after"), share: scores}, col{name: d.w.Label("status"), share: status})
	group := ""
	for i := range d.r.Rows {
		r := &d.r.Rows[i]
		if g := d.rowGroup(r); g != group || i == 0 {
			group = g
			t.over(one(g, cellBold), "")
		}
		t.row(row{cells: d.hazardCells(r), anchor: "row:" + r.ID, again: d.again(r.ID)})
	}
}

// wordy tells whether scores or levels of the method are words that need room.
func (d *doc) wordy() bool {
	const short = 8
	m := d.r.Method
	if m == nil {
		return false
	}
	for i := range m.Factors {
		for _, s := range m.Factors[i].Scores {
			if len(m.Factors[i].ID+s.Score) > short {
				return true
			}
		}
	}
	return slices.ContainsFunc(m.Actions, func(a estimate.Action) bool { return len(a.Level) > short })
}

// legend says what the factors, scores and levels of the method mean.
func (d *doc) legend() {
	m := d.r.Method
	if m == nil {
		return
	}
	g := d.grid(30, 142)
	for i := range m.Factors {
		f := &m.Factors[i]
		var scores []string
		for _, s := range f.Scores {
			scores = append(scores, firm(s.Score)+"\u00a0"+s.Means)
		}
		g.put(cell{{spans: []span{{text: f.ID, style: cellBold}, {text: "  " + f.Title, style: cellText}}}}, of(strings.Join(scores, "; "), cellGrey))
	}
	var levels []string
	for _, a := range m.Actions {
		levels = append(levels, joined(": ", a.Level, joined(", ", d.w.Actions.Of(a.Action).Word, a.Means)))
	}
	if len(levels) > 0 {
		g.put(of(d.w.Label("method"), cellBold), of(m.Title+". "+strings.Join(levels, "; "), cellGrey))
	}
	d.skip(2)
}

// rowGroup names the task or place of a row.
func (d *doc) rowGroup(r *hazards.Row) string {
	people := strings.Join(r.People, ", ")
	if s := r.Spec; s != nil && s.Task == "" && s.Where != nil {
		return joined("  ·  ", s.Where.Space, people)
	}
	for i := range d.r.File.Tasks {
		if t := &d.r.File.Tasks[i]; t.ID == r.Task {
			return joined("  ·  ", r.Task+": "+t.Name, people)
		}
	}
	return joined("  ·  ", r.Task, people)
}

func (d *doc) hazardCells(r *hazards.Row) []cell {
	s := r.Spec
	if s == nil {
		s = &file.Hazard{}
	}
	what := cell{one(s.Situation, cellText), d.labelled("event", s.Event), d.labelled("harm", s.Harm)}
	if s.Family != "" {
		what = append(what, one(s.Family, cellGrey))
	}
	return []cell{
		of(r.ID, cellBold),
		what,
		d.estimate(&r.Before),
		d.measures(s, r),
		d.estimate(&r.After),
		d.decision(s, r),
	}
}

func (d *doc) labelled(label, value string) para {
	return para{gap: 0.5, spans: []span{{text: d.w.Label(label) + "  ", style: cellGrey}, {text: value, style: cellText}}}
}

// estimate shows score, level, what the level asks for, and the factors.
func (d *doc) estimate(e *hazards.Estimate) cell {
	if !e.Done && e.Outcome == nil { // the method knows no state after measures
		return of(d.w.Label("no_value"), cellGrey)
	}
	if !e.Done {
		return cell{state("open", d.w.Rows.Of("open").Word)}
	}
	c := cell{state(e.Action, cmp.Or(e.Score, e.Level))} // a method without a score has a level alone
	if e.Score != "" && e.Level != e.Score {
		c = append(c, one(e.Level, cellBold))
	}
	var factors []string
	for i, v := range e.Scores {
		if d.r.Method == nil || i >= len(d.r.Method.Factors) {
			break
		}
		factor := d.r.Method.Factors[i].ID + "\u00a0" + scoreText(v, d.w)
		if v.Kind == expr.Text && d.wordy() {
			c = append(c, one(d.r.Method.Factors[i].ID+" "+v.Text, cellGrey))
			continue
		}
		factors = append(factors, factor)
	}
	if factors == nil {
		return c
	}
	return append(c, one(strings.Join(factors, " "), cellGrey))
}

func scoreText(v expr.Value, w *words.Words) string {
	switch v.Kind {
	case expr.Number:
		return quantity.Format(v.Num, 6)
	case expr.Text:
		return v.Text
	}
	return w.Label("no_value")
}

// measures are listed by step, each with what shows it.
func (d *doc) measures(s *file.Hazard, r *hazards.Row) cell {
	var c cell
	for _, step := range []string{"design", "safeguard", "information"} {
		first := true
		for i := range s.Measures {
			m := &s.Measures[i]
			if m.Step != step {
				continue
			}
			if first {
				p := one(d.w.Steps.Of(step).Word, cellGrey)
				if len(c) > 0 {
					p.gap = 0.7
				}
				c = append(c, p)
				first = false
			}
			c = append(c, d.measure(m))
			if m.WhyNotEarlier != "" {
				c = append(c, para{indent: 2, spans: []span{{text: d.w.Label("why_not") + " " + m.WhyNotEarlier, style: cellGrey}}})
			}
		}
	}
	if len(r.Rests) > 0 {
		var items []span
		for _, id := range r.Rests {
			items = append(items, d.ref(id, cellText))
		}
		c = append(c, para{gap: 0.7, spans: append([]span{{text: d.w.Label("rests") + "  ", style: cellGrey}}, list(items, cellGrey)...)})
	}
	if len(c) == 0 {
		c = of(d.w.Label("none"), cellGrey)
	}
	return c
}

func (d *doc) measure(m *file.Measure) para {
	p := para{indent: 2, spans: []span{{text: m.What, style: cellText}, {text: " " + firm(m.ID), style: cellGrey}}}
	if m.State == "planned" {
		p.spans = append(p.spans, span{text: ", " + d.w.Label("planned_measure"), style: cellBold})
	}
	return p
}

// decision shows the state of a row, why, and who decided what.
func (d *doc) decision(s *file.Hazard, r *hazards.Row) cell {
	c := cell{state(r.Status, d.w.Rows.Of(r.Status).Word)}
	if r.Why != "" {
		c = append(c, d.richPara(r.Why, cellText))
	}
	if res := s.Residual; res != nil {
		c = append(c, para{gap: 0.5, spans: []span{{text: d.w.Decisions.Of(res.Decision).Word + " ", style: cellBold},
			{text: d.w.Label("decision_by", res.By, res.Role, firm(res.Date)), style: cellText}}})
		if !strings.Contains(r.Why, res.Why) {
			c = append(c, one(res.Why, cellGrey))
		}
		if res.Second != nil {
			c = append(c, one(d.w.Label("second", res.Second.Name, res.Second.Role), cellText))
		}
	}
	if len(r.Findings) > 0 {
		var items []span
		for _, id := range r.Findings {
			items = append(items, linked(id, findingAnchor(id, r.ID), cellText))
		}
		c = append(c, para{gap: 0.5, spans: append([]span{{text: d.w.Heading("findings") + "  ", style: cellGrey}}, list(items, cellGrey)...)})
	}
	return c
}

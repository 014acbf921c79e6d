package book

import (
	"fmt"
	"strings"

	"standclear/hazards"
	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/sheet"
)

const hazardsBlock = "hazards"

// Before and after the measures: prefixes of keys.
const (
	before = "before."
	after  = "after."
)

// leastRests is how many columns there are at least for what a row rests on;
// the first shownRests are in sight.
const (
	leastRests = 3
	shownRests = 3
)

// hazards plans the rows of the assessment.
func (p *planner) hazards() *Sheet {
	b := &Block{ID: hazardsBlock}
	b.Columns = p.hazardColumns()
	for i := range p.r.Rows {
		b.Rows = append(b.Rows, p.hazardRow(b, &p.r.Rows[i]))
	}
	empty := p.emptyEstimate()
	b.addSpare(func(key string) expr.Value { return empty[key] })
	return &Sheet{ID: "hazards", Name: "Hazards", Blocks: []*Block{b},
		About: "One row for each way to be hurt. Scores are yours; score, level, action, verdicts and status follow at once."}
}

// rests is the number of columns for what a row rests on.
func (p *planner) rests() int {
	n := leastRests
	for i := range p.r.Rows {
		n = max(n, len(p.r.Rows[i].Rests))
	}
	return n
}

func (p *planner) hazardColumns() []*Column {
	cols := []*Column{
		{Key: refKey, Head: "Row", Width: 8, Look: Ident},
		{Key: "task", Head: "Task", Width: 13, Edit: true, Choice: p.ids("task", "task")},
		{Key: "where", Head: "Where and who", Width: 17},
		{Key: "situation", Head: "Situation", Width: 27, Edit: true},
		{Key: "event", Head: "Event", Width: 23, Edit: true},
		{Key: "harm", Head: "Harm", Width: 18, Edit: true},
	}
	cols = append(cols, p.scoreColumns(before, "Before: ")...)
	cols = append(cols, &Column{Key: "measures", Head: "Measures", Width: 13})
	if p.residual() {
		cols = append(cols, p.scoreColumns(after, "After: ")...)
	}
	for i := range p.rests() {
		k := restKey(i)
		cols = append(cols,
			&Column{Key: k, Head: fmt.Sprintf("Rests on %d", i+1), Width: 16, Edit: true, Hidden: i >= shownRests},
			&Column{Key: k + ".verdict", Head: "Verdict", Width: 15, Look: Word, Hidden: i >= shownRests,
				Formula: formula("IF(", own(k), `="","",IFERROR(`, find(verdictsBlock, "verdict", own(k)), `,"not-decided"))`)})
	}
	cols = append(cols,
		&Column{Key: "worst", Head: "Worst", Width: 15, Look: Word, Formula: p.worstFormula()},
		&Column{Key: "status", Head: "Status", Width: 12, Look: Word, Formula: statusFormula()},
		&Column{Key: "findings", Head: "Findings as built", Width: 18},
		&Column{Key: "decision", Head: "Decision", Width: 10, Edit: true, Choice: p.words("decision", "accept", "reduce", "refuse")},
		&Column{Key: "by", Head: "By", Width: 14, Edit: true},
		&Column{Key: "role", Head: "Role", Width: 14, Edit: true},
		&Column{Key: "second", Head: "Second person", Means: "where harm that remains cannot be undone", Width: 16, Edit: true},
		&Column{Key: "date", Head: "Date", Width: 11, Edit: true},
		&Column{Key: "why", Head: "Why", Width: 27, Edit: true},
		&Column{Key: "inform", Head: "Tell whom what", Width: 27, Edit: true},
	)
	cols = append(cols, p.workColumns(before)...)
	if p.residual() {
		cols = append(cols, p.workColumns(after)...)
	}
	cols = append(cols, p.statusColumns()...)
	edited := &Column{Key: changedKey, Head: "Edited", Width: 8, Look: Count, Hidden: true}
	for _, c := range cols {
		if c.Edit && (c.Choice != "" || strings.HasPrefix(c.Key, "rests.") || c.Key == "by" || c.Key == "second") {
			edited.Watch = append(edited.Watch, c.Key)
		}
	}
	return append(cols, edited)
}

// residual tells whether rows are estimated after measures too; some methods
// know no such state.
func (p *planner) residual() bool { return p.r.Method != nil && p.r.Method.Residual }

func restKey(i int) string { return fmt.Sprintf("rests.%d", i+1) }

// scoreColumns are the factors, which are typed in, and what the method makes
// of them.
func (p *planner) scoreColumns(prefix, head string) []*Column {
	m := p.r.Method
	if m == nil {
		return nil
	}
	var cols []*Column
	for _, f := range m.Factors {
		c := m.Sheet.Column(f.ID)
		width := 6.0
		if c.Type.Kind == expr.Text {
			width = 13
		}
		cols = append(cols, &Column{Key: prefix + f.ID, Head: f.ID, Means: head + strings.ToLower(f.Title), Width: max(width, 9), Edit: true,
			Choice: p.list("score "+f.ID, scoreValues(&f)), Unit: numberUnit(c)})
	}
	for _, name := range []string{"score", "level"} {
		if c := m.Sheet.Column(name); c != nil && c.Role != sheet.Input {
			cols = append(cols, &Column{Key: prefix + name, Head: c.Symbol, Means: head + c.Means, Width: 9.5, Unit: numberUnit(c),
				Formula: p.pieces(m.Sheet, m.Sheet.Formula(c), prefix)})
		}
	}
	level := own(prefix + "level")
	return append(cols, &Column{Key: prefix + "action", Head: "Action", Means: head + "what the level asks for", Width: 13, Look: Word,
		Formula: formula("IF(", level, `="","",IFERROR(`, find(actionsBlock, "action", level), `,""))`)})
}

func numberUnit(c *sheet.Column) string {
	if c.Type.Kind == expr.Number {
		return "1"
	}
	return ""
}

func scoreValues(f *hazards.Factor) []expr.Value {
	var out []expr.Value
	for _, s := range f.Scores {
		if v, ok := f.Read(s.Score); ok {
			out = append(out, v)
		}
	}
	return out
}

// workColumns are what else the method works out, hidden.
func (p *planner) workColumns(prefix string) []*Column {
	m := p.r.Method
	if m == nil {
		return nil
	}
	var cols []*Column
	for _, c := range m.Sheet.Columns {
		if c.Role == sheet.Input || c.Name == "score" || c.Name == "level" {
			continue
		}
		col := &Column{Key: prefix + c.Name, Head: c.Symbol, Means: c.Means, Width: 9, Look: Quiet, Hidden: true}
		if c.Role == sheet.Override {
			col.Edit = true
		} else {
			col.Formula = p.pieces(m.Sheet, m.Sheet.Formula(c), prefix)
		}
		cols = append(cols, col)
	}
	return cols
}

// worstFormula takes the worst of the verdicts that a row rests on.
func (p *planner) worstFormula() Formula {
	order := all(orderBlock, "verdict")
	var ranks Formula
	for i := range p.rests() {
		v := own(restKey(i) + ".verdict")
		ranks = ranks.plus(comma(i), "IF(", v, `="",99,MATCH(`, v, ",", order, ",0))")
	}
	return formula("IFERROR(INDEX(", order, ",MIN(", ranks, `)),"")`)
}

func (p *planner) hazardRow(b *Block, r *hazards.Row) *Row {
	vals := map[string]Cell{}
	put := func(key string, c Cell) { vals[key] = c }
	s := r.Spec
	put(refKey, show(r.ID))
	put("task", edit(text(s.Task)))
	if s.Where != nil {
		put("where", show(s.Where.Space+": "+joined(s.Where.People)))
	} else {
		put("where", show(joined(r.People)))
	}
	put("situation", edit(text(s.Situation)))
	put("event", edit(text(s.Event)))
	put("harm", edit(text(s.Harm)))
	var measures []string
	for _, m := range s.Measures {
		measures = append(measures, m.ID)
	}
	put("measures", leads(joined(measures)))
	p.putEstimate(vals, before, r.Before)
	if p.residual() {
		p.putEstimate(vals, after, r.After)
	}
	worst := ""
	for i := range p.rests() {
		id, verdict := "", ""
		if i < len(r.Rests) {
			id = r.Rests[i]
			verdict = string(p.verdictOf(id))
			worst = worse(worst, verdict)
		}
		put(restKey(i), Cell{Value: text(id), Edit: true, Leads: true})
		put(restKey(i)+".verdict", live(text(verdict)))
	}
	put("worst", live(text(worst)))
	put("status", live(text(r.Status)))
	put(builtKey, show(r.Status))
	put(besidesKey, show(p.besides(r)))
	put(rankKey, live(rankOf(r.Status)))
	put("findings", show(joined(r.Findings)))
	p.putDecision(vals, s.Residual)
	put(changedKey, live(num(0)))
	row := &Row{ID: r.ID, Cells: make([]Cell, len(b.Columns))}
	for i, c := range b.Columns {
		row.Cells[i] = vals[c.Key]
	}
	return row
}

// worse is the worse of two verdicts; of two that rank alike the one that
// stands first in the order.
func worse(a, b string) string {
	for _, v := range sheet.Order {
		if a == string(v) || b == string(v) {
			return string(v)
		}
	}
	return ""
}

func (p *planner) putEstimate(vals map[string]Cell, prefix string, e hazards.Estimate) {
	m := p.r.Method
	if m == nil {
		return
	}
	for i, f := range m.Factors {
		var v expr.Value
		if i < len(e.Scores) {
			v = e.Scores[i]
		}
		vals[prefix+f.ID] = edit(v)
	}
	for key, v := range p.estimateValues(e.Outcome, e.Level) {
		vals[prefix+key] = live(v)
	}
	for _, c := range m.Sheet.Columns {
		if c.Role == sheet.Override {
			vals[prefix+c.Name] = Cell{}
		}
	}
}

// estimateValues are what the method makes of the scores, by key.
func (p *planner) estimateValues(o *sheet.Outcome, level string) map[string]expr.Value {
	m := p.r.Method
	vals := map[string]expr.Value{}
	if o == nil {
		blank := m.Evaluate(make([]expr.Value, len(m.Factors)))
		o, level = &blank.Sheet, blank.Level
	}
	for _, c := range m.Sheet.Columns {
		if c.Role != sheet.Input && c.Role != sheet.Override {
			vals[c.Name] = o.Values[c.Slot]
		}
	}
	vals["action"] = text(m.Action(level))
	return vals
}

// emptyEstimate is what a row without scores shows.
func (p *planner) emptyEstimate() map[string]expr.Value {
	out := map[string]expr.Value{}
	if p.r.Method == nil {
		return out
	}
	for key, v := range p.estimateValues(nil, "") {
		out[before+key], out[after+key] = v, v
	}
	return out
}

func (p *planner) putDecision(vals map[string]Cell, d *file.Residual) {
	if d == nil {
		d = &file.Residual{}
	}
	second := ""
	if d.Second != nil {
		second = d.Second.Name
	}
	for key, v := range map[string]string{"decision": d.Decision, "by": d.By, "role": d.Role, "second": second,
		"date": d.Date, "why": d.Why, "inform": inform(d.Inform)} {
		vals[key] = edit(text(v))
	}
}

func inform(i *file.Inform) string {
	if i == nil {
		return ""
	}
	return details2([]string{"manual: ", i.Manual, "marking: ", i.Marking, "training: ", i.Training,
		"protective equipment: ", i.PPE, "to: ", joined(i.To)})
}

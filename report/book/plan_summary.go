package book

import (
	"fmt"
	"strings"

	"standclear/hazards"
	"standclear/limits/sheet"
	published "standclear/limits/table"
	"standclear/report/words"
)

// summaryState is the block that says how the document stands.
const summaryState = "state"

// summary plans the first sheet: what stands against release, under which
// conditions it was judged, and who decides.
func (p *planner) summary() *Sheet {
	return &Sheet{ID: "summary", Name: "Summary",
		About: "What stands against release, under which conditions it was judged, and who decides. Counts follow every edit; findings and open points are those of the last build.",
		Blocks: []*Block{p.state(), p.counts("rows", "Hazard rows by status", p.r.Counts.Rows, words.Default().Rows, p.countRows),
			p.counts("checks", "Checks by verdict", p.r.Counts.Checks, words.Default().Verdicts, p.countChecks), p.conditions(), p.findings(), p.open(), cautions()}}
}

func (p *planner) state() *Block {
	b := &Block{ID: summaryState, Bare: true, Columns: []*Column{
		{Key: refKey, Width: 30, Look: Label}, {Key: "value", Width: 24}, {Key: "note", Width: 90}}}
	add := func(id, label string, value Cell, note string) {
		b.Rows = append(b.Rows, &Row{ID: id, Cells: []Cell{show(label), value, show(note)}})
	}
	word := func(c Cell) Cell { c.Look = Word; return c }
	add("document", "State of the document", word(calc(text(p.r.Document), p.documentFormula())), "")
	b.Rows[0].Cells[2] = calc(text(words.Default().Document.Of(p.r.Document).Means), documentMeans())
	add("edited", "Inputs edited since it was built", calc(num(0), p.editedFormula()), "0 while the workbook stands as it was built")
	add("hazards", "Hazards not answered", calc(openEntriesAsBuilt(p.r), openEntries()), "hazards of the catalogue that apply and that neither a row nor a reason answers, see Identification")
	add("findings", "Findings", calc(num(float64(len(p.r.Findings))), countFilled("findings")), "rules of the trade that something breaks, listed below")
	add("open", "Open points", calc(num(float64(len(p.r.Open))), countFilled("open")), "what is not known well enough, listed below")
	add("again", "Findings and open points are", word(calc(text("as built"), formula("IF(", edits(), `=0,"as built","`+againText+`")`))),
		"worked out by the program, not by formulas; take the edits home and build again")
	add("built", "State as built", show(p.r.Document), "fingerprint "+p.r.Fingerprint)
	p.putAgainst(b)
	return b
}

// documentMeans says in words what the state of the document is.
func documentMeans() Formula {
	f := formula()
	states := []string{hazards.NotReady, hazards.ReadyToMeasure, hazards.ReadyForReview, hazards.Reviewed}
	for _, s := range states {
		f = f.plus("IF(", own("value"), "="+quoted(s)+","+quoted(words.Default().Document.Of(s).Means)+",")
	}
	return f.plus(`""`, strings.Repeat(")", len(states)))
}

// countFilled counts the rows of a list.
func countFilled(block string) Formula {
	return formula("COUNTIF(", all(block, "message"), `,"?*")`)
}

// mostAgainst is how many reasons the first sheet lists; the rest is counted.
const mostAgainst = 12

// putAgainst lists the first things that stand against release, and says how
// many more there are.
func (p *planner) putAgainst(b *Block) {
	list, label := p.r.Against, "Stands against release"
	for i, a := range list[:min(len(list), mostAgainst)] {
		why := a.Why
		if a.Kind != hazards.StandFinding {
			why = a.Word + ": " + why
		}
		b.Rows = append(b.Rows, &Row{ID: "against." + number(i+1), Cells: []Cell{show(label), leads(a.ID), show(why)}})
		label = ""
	}
	if n := len(list) - mostAgainst; n > 0 {
		b.Rows = append(b.Rows, &Row{ID: "against.more", Cells: []Cell{{}, show("… and " + number(n) + " more"), show("see the sheet Hazards, and the findings below")}})
	}
}

// documentFormula works the state out as hazards does. A review holds while
// nothing is edited; findings are not worked out here, so that an edited book is
// not ready until it is built again.
func (p *planner) documentFormula() Formula {
	rows := func(word string) Formula { return p.countRows(word) }
	var bad Formula
	for _, v := range sheet.Order {
		if !v.Holds() {
			bad = bad.plus("+", p.countChecks(string(v)))
		}
	}
	built := Part{Ref: Ref{Kind: At, Block: summaryState, Row: "built", Key: "value"}}
	findings := Part{Ref: Ref{Kind: At, Block: summaryState, Row: "findings", Key: "value"}}
	hazardsOpen := Part{Ref: Ref{Kind: At, Block: summaryState, Row: "hazards", Key: "value"}}
	return formula("IF(AND(", edits(), "=0,", built, `="reviewed"),"reviewed",IF(OR(`, edits(), ">0,", hazardsOpen, ">0,", findings, ">0,COUNTIF(", all(hazardsBlock, "status"), `,"?*")=0,`,
		rows(hazards.RowOpen), "+", rows(hazards.RowRefused), "+", rows(hazards.RowOutOfDate), bad, `>0),"not-ready",IF(`,
		rows(hazards.RowProvisional), "+", p.countChecks(string(sheet.WithinModel)), `>0,"ready-to-measure","ready-for-review")))`)
}

func (p *planner) countRows(word string) Formula {
	return formula("COUNTIF(", all(hazardsBlock, "status"), ","+quoted(word)+")")
}

// countChecks counts the checks of a verdict; those that only stand beside do
// not count.
func (p *planner) countChecks(word string) Formula {
	f := formula("(0")
	for _, s := range p.sheets {
		f = f.plus("+COUNTIF(", all(s.Key(), countsKey), ","+quoted(word)+")")
	}
	return append(f, lit(")"))
}

// editedFormula counts the rows whose inputs were edited.
func (p *planner) editedFormula() Formula {
	f := formula("0")
	blocks := []string{identBlock, factsBlock, wordsBlock, hazardsBlock, measuresBlock, pointsBlock}
	if len(p.r.Contacts) > 0 {
		blocks = append(blocks, contactsBlock)
	}
	for _, s := range p.sheets {
		blocks = append(blocks, s.Key())
	}
	if len(p.r.Nominal) > 0 {
		blocks = append(blocks, typedBlock)
	}
	for _, b := range blocks {
		f = f.plus("+SUM(", all(b, changedKey), ")")
	}
	return f
}

func (p *planner) counts(id, title string, counts []hazards.Count, means words.Vocabulary, count func(string) Formula) *Block {
	b := &Block{ID: "count-" + id, Title: title, Bare: true, Columns: []*Column{
		{Key: refKey, Width: 30, Look: Label}, {Key: "value", Width: 24, Look: Count}, {Key: "note", Width: 90}}}
	for _, c := range counts {
		b.Rows = append(b.Rows, &Row{ID: "count." + id + "." + c.Word, Cells: []Cell{show(c.Word), calc(num(float64(c.N)), count(c.Word)), show(means.Of(c.Word).Means)}})
	}
	return b
}

// conditions are what the judgement rests on.
func (p *planner) conditions() *Block {
	b := &Block{ID: "conditions", Title: "Conditions", Bare: true, Columns: []*Column{
		{Key: refKey, Width: 30, Look: Label}, {Key: "value", Width: 24}, {Key: "note", Width: 90}}}
	add := func(label, value, note string) {
		b.Rows = append(b.Rows, &Row{ID: "condition." + number(len(b.Rows)+1), Cells: []Cell{show(label), show(value), show(note)}})
	}
	h := &p.r.File.Head
	for i := range p.r.File.Cell.Robots {
		r := &p.r.File.Cell.Robots[i]
		for _, s := range r.Settings {
			add("Safety configuration "+r.ID+"."+s.ID, s.Checksum, details2([]string{"version ", s.Version, "mode ", s.Mode}))
		}
	}
	decides := "not named"
	if h.ApprovedBy != nil {
		decides = h.ApprovedBy.Name
		add("Who decides", decides, details2([]string{"", h.ApprovedBy.Role, "", h.ApprovedBy.Firm}))
	} else {
		add("Who decides", decides, "")
	}
	if m := p.r.Method; m != nil {
		add("Method of estimation", m.ID, m.Title)
	}
	for i, e := range p.editions() {
		label := ""
		if i == 0 {
			label = "Editions"
		}
		add(label, e.group, e.names)
	}
	add("Places", joined(h.Places), "put into service "+h.Placing.PutIntoService+", role "+h.Placing.Role+", scope "+h.Placing.Scope)
	if f := h.Former; f != nil {
		add("Revision before", f.Revision, f.File)
	}
	add("Program", p.r.Version, "assessment file SHA-256 "+p.r.InputSHA256)
	return b
}

// edition says by which standards the checks of one sheet were worked out.
type edition struct{ group, names string }

// editions lists the standards in use, with how many checks rest on each.
func (p *planner) editions() []edition {
	checks := map[*sheet.Sheet]int{}
	for i := range p.r.Checks {
		if c := &p.r.Checks[i]; !c.Shadow {
			checks[c.Sheet]++
		}
	}
	var out []edition
	for _, g := range groups {
		var names []string
		count := map[string]int{}
		for _, s := range p.sheets {
			name := published.Standard{ID: s.Standard.ID, Edition: s.Standard.Edition}.String()
			if s.Group != g.id || s.Standard.ID == "" || checks[s] == 0 {
				continue
			}
			if count[name] == 0 {
				names = append(names, name)
			}
			count[name] += checks[s]
		}
		for i, name := range names {
			names[i] = fmt.Sprintf("%s (checks: %d)", name, count[name])
		}
		if len(names) > 0 {
			out = append(out, edition{g.name, strings.Join(names, "; ")})
		}
	}
	return out
}

func (p *planner) findings() *Block {
	b := &Block{ID: "findings", Title: "Findings", Columns: []*Column{
		{Key: refKey, Head: "About", Width: 30, Look: Ident}, {Key: "rule", Head: "Rule", Width: 24}, {Key: "message", Head: "What breaks it, and the way out", Width: 90}}}
	for i := range p.r.Findings {
		f := &p.r.Findings[i]
		b.Rows = append(b.Rows, &Row{ID: "finding." + number(i+1), Cells: []Cell{leads(f.About), show(f.ID), show(sentence(f.Message, f.WayOut))}})
	}
	b.named("Findings")
	return b
}

// sentence joins what is wrong and the way out.
func sentence(what, wayOut string) string {
	if wayOut == "" {
		return what
	}
	return strings.TrimSuffix(what, ".") + ". " + wayOut
}

func (p *planner) open() *Block {
	b := &Block{ID: "open", Columns: []*Column{
		{Key: refKey, Head: "About", Width: 30, Look: Ident}, {Key: "kind", Head: "Kind", Width: 24}, {Key: "message", Head: "What is not known well enough", Width: 90}}}
	for i := range p.r.Open {
		o := &p.r.Open[i]
		b.Rows = append(b.Rows, &Row{ID: "open." + number(i+1), Cells: []Cell{leads(o.About), show(o.Kind), show(o.Message)}})
	}
	b.named("Open points")
	return b
}

// named gives a list of the last build its title. An empty one says so.
func (b *Block) named(title string) {
	b.Title = title + " as built"
	if len(b.Rows) == 0 {
		b.Rows = append(b.Rows, &Row{Cells: []Cell{show("none")}})
	}
}

// cautions say what the workbook is and is not.
func cautions() *Block {
	b := &Block{ID: "cautions", Title: "To bear in mind", Bare: true, Columns: []*Column{{Key: refKey, Width: 30, Look: Wide}}}
	for i, c := range words.Default().Cautions {
		b.Rows = append(b.Rows, &Row{ID: "caution." + number(i+1), Cells: []Cell{show(c)}})
	}
	return b
}

package book

import (
	"strings"

	"standclear/hazards"
	"standclear/limits/sheet"
)

// contacts plans one row for each contact; the worst of its checks governs.
func (p *planner) contacts() *Block {
	b := &Block{ID: contactsBlock, Short: "contacts", Title: "Contacts", Note: "The worst of the checks below governs each contact.", Columns: []*Column{
		{Key: refKey, Head: "Contact", Width: 26, Look: Ident},
		{Key: aboutKey, Head: "Task and class", Width: 24},
		{Key: "verdict", Head: "Verdict", Width: 15, Look: Word, Formula: p.worstOfContact()},
		{Key: "head", Head: "Head reached", Means: "can a head be reached here", Width: 15, Edit: true, Choice: p.words("yes or no", "yes", "no")},
		{Key: "where", Head: "Where", Width: 40},
		adviceColumn("verdict"),
		{Key: "points", Head: "Measured by", Width: 9},
		{Key: usersKey, Head: "Hazards", Means: "rows that rest on it", Width: 15},
		{Key: unansweredKey, Head: "Unanswered", Means: "1: a question is not answered without which nothing is decided", Width: 8, Look: Count, Hidden: true},
		{Key: "of", Head: "", Width: 8, Hidden: true},
		{Key: "mark", Head: "", Width: 8, Hidden: true},
		{Key: "counts", Head: "", Width: 8, Hidden: true},
		{Key: changedKey, Head: "Edited", Width: 8, Look: Count, Hidden: true, Watch: []string{"head"}},
		{Key: "exact", Head: "", Width: 9, Hidden: true},
		{Key: "areas", Head: "Body areas", Width: 20}, {Key: "tools", Head: "Tools", Width: 11.5}, {Key: "parts", Head: "Parts", Width: 11.5},
	}}
	for i := range p.r.Contacts {
		b.Rows = append(b.Rows, p.contactRow(&p.r.Contacts[i]))
	}
	return b
}

func (p *planner) contactRow(c *hazards.Contact) *Row {
	head := ""
	var because []string
	if h := c.Spec.Head; h != nil {
		head = string(h.Reach)
		because = append(because, "head: "+h.Because)
	}
	if c.Spec.Reason != "" {
		because = append(because, "left out: "+c.Spec.Reason)
	}
	class := c.Class
	switch {
	case c.Class == hazards.Free && c.Shown:
		class = "free, shown by the gap"
	case c.Class == hazards.Free:
		class = "claimed free, not shown: clamped governs"
	case c.Spec.Clamped != nil:
		class += " by " + c.Spec.Clamped.By
	}
	users := p.users[c.ID]
	return &Row{ID: c.ID, Cells: []Cell{
		show(c.ID), show(c.Task + " · " + class), live(text(string(c.Verdict))), edit(text(head)), show(strings.Join(append([]string{c.Spec.Where}, because...), "   ·   ")),
		p.contactAdvice(c), show(joined(p.pointsOf(c.ID))), leads(joined(users)), p.unanswered(c), {}, {}, {}, live(num(0)), {},
		show(joined(c.Spec.Areas)), show(joined(c.Tools)), show(joined(c.Parts)),
	}}
}

// contactSheets are the calculation sheets that judge contacts.
func (p *planner) contactSheets() []*sheet.Sheet {
	var out []*sheet.Sheet
	for _, s := range p.sheets {
		if s.Group == "contact" {
			out = append(out, s)
		}
	}
	return out
}

// worstOfContact takes the first verdict, worst first, that any check of the
// contact has. Nothing holds while a question is not answered.
func (p *planner) worstOfContact() Formula {
	f, ends, asked := formula(), len(sheet.Order), false
	for _, v := range sheet.Order {
		if v.Holds() && !asked {
			f, ends, asked = f.plus("IF(", own(unansweredKey), "<>0,"+quoted(string(sheet.NotDecided))+","), ends+1, true
		}
		f = f.plus("IF(OR(FALSE()")
		for _, s := range p.contactSheets() {
			f = f.plus(",ISNUMBER(MATCH(", own(refKey), `&"|`+string(v)+`",`, all(s.ID, markKey), ",0))")
		}
		f = f.plus(")," + quoted(string(v)) + ",")
	}
	return formula(f, quoted(string(sheet.NotDecided)), strings.Repeat(")", ends))
}

// pointsOf lists the validation points of a contact that the file holds.
func (p *planner) pointsOf(id string) []string {
	var out []string
	for i := range p.r.Points {
		if pt := &p.r.Points[i]; pt.Of == id && pt.Spec != nil {
			out = append(out, pt.ID)
		}
	}
	return out
}

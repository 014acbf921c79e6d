package book

import "standclear/hazards/file"

// review plans signatures, scope, and what a licensed person must look at.
func (p *planner) review() *Sheet {
	return &Sheet{ID: "review", Name: "Review", Blocks: []*Block{p.signatures(), p.scope(), p.reviewItems(), p.fingerprints()},
		About: "Outputs defer to local code and to licensed practice. A document signature covers the whole-document fingerprint in the footer; a row review is not a document signature."}
}

func (p *planner) signatures() *Block {
	b := &Block{ID: "signatures", Title: "Signatures", Columns: []*Column{
		{Key: refKey, Head: "Part", Width: 18, Look: Ident},
		{Key: "name", Head: "Name", Width: 22, Edit: true}, {Key: "role", Head: "Role", Width: 28, Edit: true},
		{Key: "firm", Head: "Firm", Width: 26, Edit: true}, {Key: "signature", Head: "Signature", Width: 60, Edit: true},
		{Key: "licence", Head: "Licence", Width: 18, Edit: true}, {Key: "date", Head: "Date", Width: 12, Edit: true},
	}}
	h := &p.r.File.Head
	for _, s := range []struct {
		part   string
		person *file.Person
	}{{"prepared", &h.PreparedBy}, {"checked", h.CheckedBy}, {"approved", h.ApprovedBy}, {"reviewed", reviewer(h.Reviewer)}} {
		n := s.person
		if n == nil {
			n = &file.Person{}
		}
		row := &Row{ID: s.part, Cells: []Cell{show(s.part)}}
		for _, v := range []string{n.Name, n.Role, n.Firm, "", n.Licence, n.Date} {
			row.Cells = append(row.Cells, edit(text(v)))
		}
		b.Rows = append(b.Rows, row)
	}
	return b
}

// reviewer is the reviewer as a person who signs.
func reviewer(r *file.Reviewer) *file.Person {
	if r == nil {
		return nil
	}
	return &file.Person{Name: r.Name, Role: r.Role, Firm: r.Firm, Licence: r.Licence, Date: r.Date}
}

// scope is what a reviewer states about the review.
func (p *planner) scope() *Block {
	b := &Block{ID: "scope", Title: "Scope of the review", Columns: []*Column{
		{Key: refKey, Head: "Item", Width: 18, Look: Ident}, {Key: "value", Head: "To be filled in by the reviewer", Width: 22, Edit: true}}}
	r := p.r.File.Head.Reviewer
	if r == nil {
		r = &file.Reviewer{}
	}
	for _, s := range [][2]string{{"relied on", r.RelyOn}, {"not reviewed", r.NotReviewed}, {"visited on", r.Visited}, {"seal"}} {
		b.Rows = append(b.Rows, &Row{ID: "scope." + s[0], Cells: []Cell{show(s[0]), edit(text(s[1]))}})
	}
	return b
}

func (p *planner) reviewItems() *Block {
	b := &Block{ID: "review-items", Title: "What a licensed person must look at", Columns: []*Column{
		{Key: refKey, Head: "Place", Width: 18, Look: Ident}, {Key: "who", Head: "Who", Width: 22},
		{Key: "clause", Head: "Clause", Width: 28}, {Key: "standing", Head: "Standing", Width: 26},
		{Key: "because", Head: "Because", Width: 60},
	}}
	for i, r := range p.r.Review {
		b.Rows = append(b.Rows, &Row{ID: "review-item." + number(i+1), Cells: []Cell{show(r.Place), show(r.Who), show(r.Clause), show(r.Standing), show(r.Because)}})
	}
	return b
}

// fingerprints lists what a review of each row is bound to.
func (p *planner) fingerprints() *Block {
	b := &Block{ID: "row-fingerprints", Title: "Rows and their fingerprints as built", Note: "A review of a row keeps its fingerprint; when what the row rests on changes, the review is out of date.",
		Columns: []*Column{
			{Key: refKey, Head: "Row", Width: 18, Look: Ident},
			{Key: "status", Head: "Status", Width: 22, Look: Word, Formula: formula("IFERROR(", find(hazardsBlock, "status", own(refKey)), `,"")`)},
			{Key: "fingerprint", Head: "Fingerprint", Width: 28, Look: Wide},
		}}
	for i := range p.r.Rows {
		r := &p.r.Rows[i]
		b.Rows = append(b.Rows, &Row{ID: "fingerprint." + r.ID, Cells: []Cell{leads(r.ID), live(text(r.Status)), show(r.Fingerprint)}})
	}
	return b
}

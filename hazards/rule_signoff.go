package hazards

import (
	"standclear/hazards/file"
	"standclear/limits/source"
)

// signature is one of the roles under a document.
type signature struct {
	did, key   string // prepared, prepared_by
	name, date string
	pos        source.Pos
}

// signOff: who answers for the document, and when.
func (f *finder) signOff() {
	list := f.signatures()
	f.missingSignatures(list)
	f.doubleSignatures(list)
	f.undated(list)
	f.order(list)
	f.reviewer()
	f.placing()
}

// signatures are those named, in their order.
func (f *finder) signatures() []signature {
	h := &f.r.File.Head
	var list []signature
	add := func(did, key string, p *file.Person) {
		if p != nil {
			list = append(list, signature{did, key, p.Name, p.Date, h.KeyPos(key)})
		}
	}
	add("prepared", "prepared_by", &h.PreparedBy)
	add("checked", "checked_by", h.CheckedBy)
	add("approved", "approved_by", h.ApprovedBy)
	return list
}

func (f *finder) missingSignatures(list []signature) {
	var missing []string
	h := &f.r.File.Head
	if h.CheckedBy == nil {
		missing = append(missing, "who checked it")
	}
	if h.ApprovedBy == nil {
		missing = append(missing, "who decides on release")
	}
	if missing != nil {
		f.raise("SO-01", "assessment", list[0].pos, "what", and(missing))
	}
}

// doubleSignatures: each role has a person of its own.
func (f *finder) doubleSignatures(list []signature) {
	for i := range list {
		for j := range i {
			if SamePerson(list[i].name, list[j].name) {
				f.raise("SO-02", "assessment."+list[i].key, list[i].pos, "name", list[i].name, "first", list[j].did, "second", list[i].did)
				break
			}
		}
	}
}

// undated: who approves dates it when the document is released.
func (f *finder) undated(list []signature) {
	for _, s := range list {
		if s.date == "" && s.key != "approved_by" {
			f.raise("SO-03", "assessment."+s.key, s.pos, "did", s.did, "name", s.name)
		}
	}
}

// order: a document is prepared, then checked, then approved; a review looks at
// what is there, and an approval at what has been decided. Dates compare as texts.
func (f *finder) order(list []signature) {
	late := func(s signature, what string) {
		f.raise("SO-04", "assessment."+s.key, s.pos, "did", s.did, "date", s.date, "what", what)
	}
	for i, s := range list {
		for _, before := range list[:i] {
			if s.date != "" && s.date < before.date {
				late(s, "it was "+before.did+" on "+before.date)
			}
		}
	}
	h := &f.r.File.Head
	if r := h.Reviewer; r != nil && r.Date != "" && r.Date < h.PreparedBy.Date {
		late(signature{"reviewed", "reviewer", r.Name, r.Date, h.KeyPos("reviewer")}, "it was prepared on "+h.PreparedBy.Date)
	}
	if a := h.ApprovedBy; a != nil && a.Date != "" {
		for i := range f.r.Rows {
			if row := &f.r.Rows[i]; row.Accepts() && a.Date < row.Spec.Residual.Date {
				late(list[len(list)-1], row.ID+" was decided on "+row.Spec.Residual.Date)
			}
		}
	}
}

// reviewer: a review says by whom, with which licence and of what.
func (f *finder) reviewer() {
	h := &f.r.File.Head
	r := h.Reviewer
	if r == nil {
		return
	}
	pos := h.KeyPos("reviewer")
	var lacks []string
	if r.Licence == "" {
		lacks = append(lacks, "licence")
	}
	if r.RelyOn+r.NotReviewed+r.Visited == "" {
		lacks = append(lacks, "scope")
	}
	if lacks != nil {
		f.raise("SO-05", "assessment.reviewer", pos, "name", r.Name, "what", and(lacks))
	}
	if SamePerson(r.Name, h.PreparedBy.Name) {
		f.raise("SO-06", "assessment.reviewer", pos, "name", r.Name)
	}
}

// placing: who places a cell has assessed it before. A revision of a cell in use
// comes later.
func (f *finder) placing() {
	h := &f.r.File.Head
	p := &h.Placing
	if p.State == "in-use" && p.PutIntoService > h.Date {
		f.raise("SO-08", "assessment.placing", p.At("state"), "date", p.PutIntoService, "document", h.Date)
	}
	if p.Role == "user" || p.State == "in-use" || p.PutIntoService >= h.Date {
		return
	}
	state := "no state is stated"
	if p.State != "" {
		state = "its state is `" + p.State + "`"
	}
	f.raise("SO-07", "assessment.placing", p.At("put_into_service"), "date", p.PutIntoService, "document", h.Date, "role", p.Role, "state", state)
}

package hazards

import (
	"slices"

	"standclear/hazards/file"
	"standclear/limits/source"
)

// decided: what a decision rests on is there, and was there when it was taken.
func (f *finder) decided() {
	for i := range f.r.Rows {
		row := &f.r.Rows[i]
		if r := row.Spec.Residual; r != nil {
			f.future(row.ID, "decided", r.Date, r.At("date"))
		}
		if row.Accepts() {
			f.unstated(row)
			f.bare(row)
			f.tooEarly(row)
			f.muted(row)
		}
	}
	for i := range f.r.File.Validation {
		if p := &f.r.File.Validation[i]; done(p) {
			f.future(p.ID, "tested", p.Date, p.At("date"))
		}
	}
}

// done says whether a validation point holds an outcome; the date of one that
// is planned may lie ahead.
func done(p *file.Point) bool { return measured(p) || p.Outcome != "" }

// future: a document knows nothing of what comes after its date.
func (f *finder) future(id, did, date string, pos source.Pos) {
	if document := f.r.File.Head.Date; date > document {
		f.raise("DE-10", id, pos, "about", id, "did", did, "date", date, "document", document)
	}
}

// bare: under a method that says nothing of the risk that remains, only a measure
// that is shown carries an acceptance.
func (f *finder) bare(row *Row) {
	if m := f.r.Method; m == nil || m.Residual {
		return
	}
	var lacks []string
	if len(row.Spec.Measures) == 0 {
		lacks = append(lacks, "measure")
	}
	if len(row.Rests)+len(row.Points) == 0 {
		lacks = append(lacks, "proof of one")
	}
	if lacks != nil {
		f.raise("DE-12", row.ID, row.Spec.Residual.At("decision"), "row", row.ID, "what", "names no "+and(lacks))
	}
}

// unstated: nobody has said whether a measure is in place.
func (f *finder) unstated(row *Row) {
	for i := range row.Spec.Measures {
		if m := &row.Spec.Measures[i]; m.State == "" {
			f.raise("DE-08", row.ID, positionOf(m.Item), "row", row.ID, "measure", m.ID)
		}
	}
}

// sortOfTest is the same for points that show the same in the same way. A repeat does not
// make the first one younger.
type sortOfTest struct{ of, method, tool, part, area, clamped string }

// tooEarly: a row is decided after the tests that it rests on.
func (f *finder) tooEarly(row *Row) {
	first := map[sortOfTest]*file.Point{}
	var order []sortOfTest
	for i := range f.r.File.Validation {
		p := &f.r.File.Validation[i]
		if p.Date == "" || !done(p) || !f.restsOnPoint(row, p) {
			continue
		}
		key := sortOfTest{p.Of, p.Method, p.Tool, p.Part, p.Area, string(p.Clamped)}
		if first[key] == nil {
			order = append(order, key)
		}
		if first[key] == nil || p.Date < first[key].Date {
			first[key] = p
		}
	}
	r := row.Spec.Residual
	for _, key := range order {
		if p := first[key]; p.Date > r.Date {
			f.raise("DE-09", row.ID, r.At("date"), "row", row.ID, "date", r.Date, "point", p.ID, "tested", p.Date)
		}
	}
}

// restsOnPoint: the row names the point, or what the point is of.
func (f *finder) restsOnPoint(row *Row, p *file.Point) bool {
	return has(row.Points, p.ID) || has(row.Rests, p.Of) ||
		slices.ContainsFunc(row.Spec.Measures, func(m file.Measure) bool { return m.ID == p.Of })
}

// muted: a safeguard that is muted at times does not carry a row alone.
func (f *finder) muted(row *Row) {
	m := &f.r.File.Cell.Control.Muting
	if m.Used != source.Yes {
		return
	}
	what := ""
	for _, id := range row.Rests {
		_, found, _, _ := f.r.File.Find(id)
		fn, ok := found.(*file.Function)
		switch {
		case !ok:
		case fn.Kind == mutingKind:
			return
		case slices.ContainsFunc(fn.Parts, func(p file.FunctionPart) bool { return has(m.Safeguards, p.Uses) }):
			what = id
		}
	}
	if what != "" {
		f.raise("DE-11", row.ID, row.Spec.Residual.At("decision"), "row", row.ID, "function", what)
	}
}

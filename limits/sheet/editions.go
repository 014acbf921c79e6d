package sheet

import (
	"standclear/limits/expr"
	"standclear/limits/table"
)

// One sheet may stand in several editions of its standard: several statements of
// one id, each of an edition of its own. One of them is the default; each other
// one says what differs in it.

// Key names a sheet alone: its id, and of an edition besides the default the
// edition behind it.
func (s *Sheet) Key() string {
	if s.Differs != "" {
		return s.ID + "/" + s.Standard.Edition
	}
	return s.ID
}

// Sheet gives a sheet by id, nil when there is none. Of several editions it is
// the default.
func (l *Library) Sheet(id string) *Sheet {
	if list := l.Editions(id); list != nil {
		return list[0]
	}
	return nil
}

// SheetOf gives a sheet by id and edition, nil when there is none.
func (l *Library) SheetOf(id, edition string) *Sheet {
	for _, s := range l.Sheets {
		if s.ID == id && s.Standard.Edition == edition {
			return s
		}
	}
	return nil
}

// Editions lists the sheets of one id, the default first.
func (l *Library) Editions(id string) []*Sheet {
	var first, then []*Sheet
	for _, s := range l.Sheets {
		switch {
		case s.ID != id:
		case s.Differs == "":
			first = append(first, s)
		default:
			then = append(then, s)
		}
	}
	return append(first, then...)
}

// EditionNames lists the editions of a sheet that name one, the default first.
func (l *Library) EditionNames(id string) []string {
	var out []string
	for _, s := range l.Editions(id) {
		if s.Standard.Edition != "" {
			out = append(out, s.Standard.Edition)
		}
	}
	return out
}

// arrange puts the editions of a sheet one behind the other, the default first,
// whatever their files are called.
func (l *Library) arrange() {
	var out []*Sheet
	done := map[string]bool{}
	for _, s := range l.Sheets {
		if !done[s.ID] {
			done[s.ID] = true
			out = append(out, l.Editions(s.ID)...)
		}
	}
	l.Sheets = out
}

// Knows tells whether a sheet has an input, list or range that a user calls name.
func (s *Sheet) Knows(name string) bool {
	_, list := s.Lists[name]
	_, ends := s.Ranges[name]
	return list || ends || s.Input(name) != nil
}

// ToCopy lists what is needed from a bought copy: the reason of every rule that
// says so, also where a worse one speaks first.
func (s *Sheet) ToCopy(vals []expr.Value) []string {
	var out []string
	for _, r := range s.rules {
		if r.verdict == NeedsCopy && r.test(vals) {
			out = append(out, r.because)
		}
	}
	return out
}

// ToCopyFormula is ToCopy as a spreadsheet formula, with semicolons between the
// reasons; nil where no rule asks for a copy.
func (s *Sheet) ToCopyFormula() []Piece {
	var each []Piece
	for _, r := range s.rules {
		if r.verdict == NeedsCopy {
			if each != nil {
				each = append(each, lit("&"))
			}
			each = join(each, lit("IF(("), noError(r.formula, "FALSE()"), lit(")=TRUE(),"+quote("; "+r.because)+`,"")`))
		}
	}
	if each == nil {
		return nil
	}
	return join(lit("MID("), each, lit(",3,9999)"))
}

// Held is the result that the sheet holds against a limit, nil where it compares
// none.
func (s *Sheet) Held() *Column {
	for _, r := range s.rules {
		for _, p := range r.formula {
			if c := s.byName[p.Ref.Name]; r.weighs && c != nil && c.Type.Kind == expr.Number && s.Result(c.Name) == c {
				return c
			}
		}
	}
	return nil
}

// Edition names standard and year, such as ISO 13855:2024.
func (s *Sheet) Edition() string {
	return table.Standard{ID: s.Standard.ID, Edition: s.Standard.Edition}.String()
}

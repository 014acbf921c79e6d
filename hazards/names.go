package hazards

import (
	"standclear/hazards/estimate"
	"standclear/hazards/file"
	"standclear/hazards/place"
	"standclear/limits/quantity"
	"standclear/limits/sheet"
	"standclear/limits/source"
	"standclear/limits/table"
)

// names checks the names that belong to the library and finds the method.
func (w *work) names(opt Options) {
	w.methods, w.r.Method = opt.Methods, estimate.Find(opt.Methods, w.a.Head.Method)
	for _, p := range w.a.CheckNames(names(w.lib, opt)) {
		w.ps.Add(p)
	}
}

// names are the names that an assessment may use.
func names(lib *sheet.Library, opt Options) file.Known {
	k := file.Known{Places: place.IDs(opt.Places), Papers: place.PaperIDs(opt.Places), Methods: estimate.IDs(opt.Methods), Editions: map[string][]string{}}
	k.Entries = opt.Catalogue.IDs()
	for _, kind := range opt.Findings.Kinds {
		k.MeasureKinds = append(k.MeasureKinds, kind.ID)
	}
	for _, s := range lib.Sheets {
		k.Sheets = addOnce(k.Sheets, s.ID)
		if e := s.Standard.Edition; e != "" && !has(k.Editions[s.Group], e) {
			k.Editions[s.Group] = append(k.Editions[s.Group], e)
		}
	}
	k.Areas, k.Regions = rowKeys(lib.Table("contact-areas")), rowKeys(lib.Table("contact-regions"))
	return k
}

func rowKeys(t *table.Table) []string {
	if t == nil {
		return nil
	}
	keys := make([]string, len(t.Rows))
	for i := range t.Rows {
		keys[i] = t.RowKey(i)
	}
	return keys
}

// misfit reports a quantity whose unit is not the one a column asks for.
func (w *work) misfit(pos source.Pos, width int, found string, col *sheet.Column) {
	w.ps.Add(source.Problem{Pos: pos, Width: width, Message: "found " + found + " for " + inputName(col),
		Expected: unitWords(col.Type.Unit) + ", " + col.Means})
}

// impossible reports a value that an input cannot have.
func (w *work) impossible(pos source.Pos, width int, found string, col *sheet.Column, fault string) {
	w.ps.Add(source.Problem{Pos: pos, Width: width, Message: "found " + found + " for " + inputName(col),
		Expected: fault + ", " + col.Means})
}

// wrongChoice reports a word that is none of the choices of a column.
func (w *work) wrongChoice(pos source.Pos, found string, col *sheet.Column) {
	w.ps.Add(source.Problem{Pos: pos, Width: len([]rune(found)), Message: "found `" + found + "` for " + inputName(col),
		Expected: "one of: " + source.Quoted(col.Choice), Hint: source.DidYouMean(found, col.Choice)})
}

// userName is what a user calls an input.
func userName(col *sheet.Column) string {
	if col.List != "" {
		return col.List
	}
	return col.Symbol
}

// inputName is userName in a message.
func inputName(col *sheet.Column) string { return "`" + userName(col) + "`" }

func unitWords(u quantity.Unit) string {
	if u.Name == "" || u.Name == "1" {
		return "a plain number"
	}
	return "a quantity in " + u.Name
}

func has(list []string, word string) bool {
	for _, l := range list {
		if l == word {
			return true
		}
	}
	return false
}

// addOnce appends a word unless it is there.
func addOnce(list []string, word string) []string {
	if word == "" || has(list, word) {
		return list
	}
	return append(list, word)
}

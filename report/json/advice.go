package json

import (
	"standclear/hazards"
	"standclear/limits/sheet"
	"standclear/report/words"
)

// advice lists what would make a check hold: the border unrounded, the value as
// shown rounded to the safe side of it.
func advice(list []hazards.Advice) []object {
	out := []object{}
	for i := range list {
		a := &list[i]
		o := object{{"input", a.Column.Symbol}, {"value", a.Border}, {"shown", a.Value}, {"unit", a.Column.UnitName()}, {"is", way(&a.Answer)}}
		if a.Ends {
			o = append(o, member{"until", a.Until})
		}
		if a.Path != "" {
			o = append(o, member{"path", a.Path})
		}
		out = append(out, o)
	}
	return out
}

// way is the direction in which a value holds: `most` it may be, or `least`; of
// what holds already how far it may go.
func way(a *sheet.Answer) string {
	word := "least"
	if a.Down {
		word = "most"
	}
	if a.Room {
		return "room-" + word
	}
	return word
}

// adviceText is the sentence that the other writers print.
func adviceText(c *hazards.Check) string { return words.Default().Advice(c.Advice, c.Model) }

// contactAdvice lists what would make all checks of a contact hold at once.
func contactAdvice(r *hazards.Result) []object {
	out := []object{}
	for i := range r.Contacts {
		if c := &r.Contacts[i]; len(c.Advice) > 0 {
			out = append(out, object{{"id", c.ID}, {"advice", advice(c.Advice)}, {"advice_text", words.Default().Advice(c.Advice, true)}})
		}
	}
	return out
}

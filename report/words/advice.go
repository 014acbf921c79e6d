package words

import (
	"strings"

	"standclear/hazards"
	"standclear/limits/sheet"
)

// Advice says in a sentence what would make a check hold, or how far it may go;
// "" where there is nothing to say. By the model: it is of a contact, which a
// measurement decides.
func (w *Words) Advice(list []hazards.Advice, model bool) string {
	var parts []string
	for i := range list {
		if a := &list[i]; !a.Room || i < mostRoom && a.Change() != 0 { // one that may not move at all says nothing
			parts = append(parts, w.advised(&list[i]))
		}
	}
	if parts == nil {
		return ""
	}
	key := "advice"
	if model {
		key = "advice_model"
	}
	return w.Sentence(key, strings.Join(parts, w.Sentence("advice_or")))
}

// mostRoom is for how many inputs it is said how far they may go; JSON has them all.
const mostRoom = 3

func (w *Words) advised(a *hazards.Advice) string {
	key := "advice_one"
	if a.Room {
		key = "advice_room"
	}
	if _, ok := w.Sentences.Find(key + "_" + a.Column.UnitName()); ok {
		key += "_" + a.Column.UnitName()
	}
	return w.Sentence(key, w.howFar(&a.Answer), w.input(a))
}

// howFar is the value with its direction.
func (w *Words) howFar(a *sheet.Answer) string {
	value := a.Shown(a.Value)
	switch {
	case a.Room && a.Down:
		return w.Sentence("advice_up_to", value)
	case a.Room:
		return w.Sentence("advice_down_to", value)
	case a.Ends && a.Down:
		return w.Sentence("advice_between", a.Shown(a.Until), value)
	case a.Ends:
		return w.Sentence("advice_between", value, a.Shown(a.Until))
	case a.Down:
		return w.Sentence("advice_less", value)
	}
	return w.Sentence("advice_more", value)
}

// input names the input and, so that it can be set, what it comes from.
func (w *Words) input(a *hazards.Advice) string {
	name := a.Column.Symbol
	change := a.Shown(a.Change())
	switch {
	case a.Sum && (a.Room || a.Change() == 0):
		return w.Sentence("advice_sum", name)
	case a.Sum && a.Value < a.Now.Num:
		return w.Sentence("advice_sum_less", name, change)
	case a.Sum:
		return w.Sentence("advice_sum_more", name, change)
	case a.Path != "" && a.Tolerance:
		return w.Sentence("advice_path_tolerance", name, a.Path)
	case a.Path != "":
		return w.Sentence("advice_path", name, a.Path)
	case a.Tolerance:
		return w.Sentence("advice_tolerance", name)
	}
	return name
}

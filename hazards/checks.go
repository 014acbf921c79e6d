package hazards

import (
	"slices"
	"strings"

	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/source"
	"standclear/limits/stopping"
)

// checks works out every calculation that is not a contact, and a chain of
// levels for each safety function whose parts are named. A check whose result
// another one takes is worked out before it; the list keeps the order of the file.
func (w *work) checks() {
	w.lenders, w.tried = map[string]*Check{}, map[*Check][][]expr.Value{}
	w.besides = map[string]*Check{}
	for i := range w.a.Checks {
		if c := w.lender(w.a.Checks[i].ID); c != nil {
			w.enlist(*c)
		}
	}
	for i := range w.a.Cell.Functions {
		if f := &w.a.Cell.Functions[i]; len(f.Parts) > 0 {
			w.chain(f)
		}
	}
	w.otherEditions()
}

func (w *work) addCheck(c Check) {
	w.workOut(&c)
	w.enlist(c)
}

// workOut works a check out whose inputs are known.
func (w *work) workOut(c *Check) {
	lacks := slices.Clone(c.lacks)
	c.each(func(in *Input) { c.lacks = addOnce(c.lacks, in.lacks) })
	c.corner()
	c.evaluate()
	c.beside(lacks)
	c.origin = w.originOf(c)
	if !c.Shadow {
		w.probe(c)
	}
}

func (w *work) enlist(c Check) {
	w.r.checks[c.ID] = len(w.r.Checks)
	w.r.Checks = append(w.r.Checks, c)
	if c.nominal != nil {
		w.r.nominal[c.ID] = len(w.r.Nominal)
		w.r.Nominal = append(w.r.Nominal, *c.nominal)
	}
}

// calculation works out a check of the file, nil where its sheet is not known.
func (w *work) calculation(spec *file.Check) *Check {
	s := w.sheetOf(spec)
	if s == nil {
		return nil // the name has been reported
	}
	c := &Check{ID: spec.ID, Of: spec.ID, Task: spec.Task, Sheet: s, Note: spec.Note, Pos: spec.Pos(), Model: s.Group == "contact"}
	grid := func(path string) string { return w.gridPoint(c, spec, path) }
	for i := range spec.Given {
		c.Inputs = append(c.Inputs, w.given(c, &spec.Given[i], grid)...)
	}
	if s.ID == chainSheet {
		c.waitForTaken()
	}
	if area := inputOf(c, "area"); area != nil && c.Model {
		c.Area = area.Text
	}
	w.workOut(c)
	return c
}

// gridPoint resolves a look-up in the stopping grid of a robot to the path of
// the point that governs: in the stop category of the check, at the load, speed
// and reach of its task or worse. A share that is not stated counts as 100 %.
func (w *work) gridPoint(c *Check, spec *file.Check, path string) string {
	id, key, _ := strings.Cut(path, ".stopping.")
	_, found, _, _ := w.a.Find(id)
	robot, ok := found.(*file.Robot)
	if !ok {
		return ""
	}
	if spec.StopCategory == "" {
		c.lacks = addOnce(c.lacks, "the stop category is missing: `stop_category`, for "+path)
		return ""
	}
	_, found, _, _ = w.a.Find(spec.Task)
	task, _ := found.(*file.Task)
	want, shares := w.r.stopCase(task, spec.StopCategory)
	for _, path := range shares {
		c.shares = addOnce(c.shares, path)
	}
	points, paths := w.r.stopGrid(robot, key)
	i, ok := stopping.Next(points, want)
	if !ok {
		c.lacks = addOnce(c.lacks, "no stop data as bad as category "+want.Category+", load "+percent(want.Load)+", speed "+
			percent(want.Speed)+", reach "+percent(want.Reach)+" of "+id)
		return ""
	}
	return paths[i]
}

func percent(share float64) string { return quantity.Format(share*100, 6) + " %" }

// chain judges a safety function by its parts.
func (w *work) chain(f *file.Function) {
	s := w.lib.Sheet(chainSheet)
	if s == nil {
		w.ps.Addf(f.Pos(), "the library has no sheet %s", chainSheet)
		return
	}
	c := Check{ID: f.ID, Of: f.ID, Sheet: s, Note: f.Does, Pos: f.Pos()}
	if most := len(s.Lists["PFH"]); len(f.Parts) > most {
		w.ps.Add(source.Problem{Pos: f.Parts[most].Pos(), Message: "function `" + f.ID + "` has " + count(len(f.Parts), "part"),
			Expected: "at most " + count(most, "part"), Hint: "put parts that belong together into one, with the sum of their rates"})
		return
	}
	c.Inputs = w.figures(&c, f)
	if r := f.Required; r != nil {
		c.Inputs = append(c.Inputs, word("required", r.Level, r.At("level")))
		if r.Category != "" {
			c.Inputs = append(c.Inputs, word("required_category", r.Category, r.At("category")))
		}
	}
	w.addCheck(c)
}

func word(name, v string, at source.Pos) Input {
	return Input{Name: name, Value: expr.Value{Kind: expr.Text, Text: v}, Text: v, Pos: at}
}

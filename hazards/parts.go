package hazards

import (
	"standclear/hazards/file"
	"standclear/limits/sheet"
	"standclear/limits/source"
)

// figures are what a chain knows of the parts of a safety function: failure
// rates, levels and categories. Where no part has a rate the sheet counts levels;
// where some have one and some have not it decides nothing. It does not see a part
// that states nothing, and a sum that leaves out a part would look better than the
// function is: where a part lacks a figure that is needed, rates and levels of all
// are left out. The check that a part names may come to give it, so that there
// they wait, see Together.
func (w *work) figures(c *Check, f *file.Function) []Input {
	pfh := Input{Name: "PFH", Pos: f.At("parts")}
	levels, categories := pfh, pfh
	levels.Name, categories.Name = "levels", "categories"
	rated, ranked := 0, 0
	var byCheck waiters
	for i := range f.Parts {
		p := partOf(w, c, &f.Parts[i], i)
		if p == nil {
			continue // reported
		}
		rated, ranked = rated+p.rate.add(&pfh), ranked+p.level.add(&levels)
		p.category.add(&categories)
		if f.Parts[i].By != "" {
			byCheck.lent = append(byCheck.lent, p)
		} else {
			byCheck.typed(p)
		}
	}
	n := len(f.Parts)
	if rated < n {
		for i := range f.Parts {
			c.unrated(&f.Parts[i], rated > 0 || ranked == 0)
		}
		lacking := len(c.lacks) > 0 && !byCheck.mayCount()
		if lacking {
			pfh.Members = nil
		}
		if lacking || ranked < n {
			levels.Members = nil
		}
	}
	c.wait([]*Input{&pfh, &levels}, &byCheck)
	var out []Input
	for _, in := range []Input{pfh, levels, categories} {
		if in.Members != nil {
			out = append(out, in)
		}
	}
	return out
}

// unrated says what a part lacks. A check that gives its figures speaks for itself.
func (c *Check) unrated(p *file.FunctionPart, rates bool) {
	switch {
	case p.By != "" || p.PFH.Set:
	case rates:
		c.lacks = addOnce(c.lacks, "the failure rate of "+p.Uses+" is missing")
	case p.Level == "":
		c.lacks = addOnce(c.lacks, "neither failure rate nor level of "+p.Uses+" is stated")
	}
}

// figure is an input that a part has or has not.
type figure struct {
	Input
	is bool
}

// add puts a figure on a list and counts it, where it is known or another check
// has to give it.
func (f *figure) add(list *Input) int {
	if f.is || f.Takes() {
		list.join(f.Input)
	}
	if f.is {
		return 1
	}
	return 0
}

// part is what is known of a part of a safety function.
type part struct{ rate, level, category figure }

// partOf reads part i of a function, nil where it names a check that gives no such figures.
func partOf(w *work, c *Check, p *file.FunctionPart, i int) *part {
	column := func(list string) *sheet.Column { return c.Sheet.Lists[list][i] }
	if p.By != "" {
		return w.partBy(c, p, i)
	}
	out := &part{}
	out.rate.Input, out.rate.is = w.amount(column("PFH"), p.PFH)
	out.rate.is = out.rate.is && out.rate.Value.Given()
	for _, x := range []struct {
		to       *figure
		list, at string
		word     string
	}{{&out.level, "levels", "level", p.Level}, {&out.category, "categories", "category", p.Category}} {
		if x.word != "" {
			*x.to = figure{word(column(x.list).Name, x.word, p.Pos()), true}
		}
	}
	return out
}

// partBy takes the figures of a part from a check of a sheet that gives them. A
// level without a rate comes from a word for MTTFD; levels are then counted.
func (w *work) partBy(c *Check, p *file.FunctionPart, i int) *part {
	from := w.lender(p.By)
	if from == nil {
		return nil
	}
	rate, level, category := from.Sheet.Result("PFH"), from.Sheet.Result("PL"), from.Sheet.Input("category")
	if rate == nil || level == nil || category == nil {
		w.ps.Add(source.Problem{Pos: p.At("by"), Width: len(p.By), Message: "check `" + p.By + "` is of sheet `" + from.Sheet.ID + "`, which gives no failure rate and level of a part",
			Expected: "a check of a sheet with results `PFH` and `PL` and input `category`", Hint: "one of sheet `level-estimate`"})
		return nil
	}
	fill := func(list string, col *sheet.Column) figure {
		x := w.lend(from, col)
		in := x.fill(c.Sheet.Lists[list][i], p.At("by"))
		return figure{in, in.Value.Given() || in.lacks != ""}
	}
	out := &part{fill("PFH", rate), fill("levels", level), fill("categories", category)}
	out.category.lacks, out.rate.lacks = "", "" // the level says it
	if out.rate.waived = true; out.level.Value.Given() {
		out.rate.is = out.rate.Value.Given()
	}
	return out
}

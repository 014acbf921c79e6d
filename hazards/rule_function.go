package hazards

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"standclear/hazards/estimate"
	"standclear/hazards/file"
	"standclear/limits/source"
)

// graphSheet gives the level that severity, exposure and avoidance ask for.
const graphSheet = "required-level"

// functions: the level each safety function needs, the parts that carry it out,
// and the devices that none uses.
func (f *finder) functions() {
	for i := range f.r.File.Cell.Functions {
		fn := &f.r.File.Cell.Functions[i]
		if fn.Kind == "" {
			f.raise("FU-12", fn.ID, positionOf(fn.Item), "function", fn.ID)
		}
		f.required(fn)
		if len(fn.Parts) == 0 {
			f.raise("FU-05", fn.ID, positionOf(fn.Item), "function", fn.ID)
		} else {
			f.figures(fn)
			f.bounded(fn)
			f.whole(fn)
		}
	}
	f.unused()
	for i := range f.r.Checks {
		f.rareCheck(&f.r.Checks[i])
		f.wear(&f.r.Checks[i])
		f.capped(&f.r.Checks[i])
	}
	for i := range f.r.Rows {
		f.askedByRow(&f.r.Rows[i])
	}
}

// required: the level is there, has its reason, and is not below what graph,
// kind and robot standards ask for.
func (f *finder) required(fn *file.Function) {
	r := fn.Required
	if r == nil {
		f.raise("FU-04", fn.ID, positionOf(fn.Item), "function", fn.ID)
		return
	}
	if b := branchOf(r.Because); b.whole() {
		f.belowGraph(fn, b)
	} else if what := unfounded(r, b); what != "" {
		f.raise("FU-02", fn.ID, r.At("because"), "function", fn.ID, "what", what)
	}
	f.category(fn)
	f.leastOfKind(fn)
}

// branch is what a reason says of severity, exposure and avoidance.
type branch struct{ S, F, P string }

func (b branch) whole() bool    { return b.S != "" && b.F != "" && b.P != "" }
func (b branch) String() string { return strings.Join(strings.Fields(b.S+" "+b.F+" "+b.P), " ") }

// branchWord is S1, F2, P1 …, also written together: S2F2P1, small or with a blank.
var branchWord = regexp.MustCompile(`(^|[^A-Za-z])([SFPsfp]) ?([12])($|[^0-9])`)

// branchOf reads S, F and P out of a reason; the worst of each counts.
func branchOf(because string) branch {
	var b branch
	for rest := because; ; {
		at := branchWord.FindStringSubmatchIndex(rest)
		if at == nil {
			return b
		}
		word := strings.ToUpper(rest[at[4]:at[5]]) + rest[at[6]:at[7]]
		of := map[byte]*string{'S': &b.S, 'F': &b.F, 'P': &b.P}[word[0]]
		*of = max(*of, word)
		rest = rest[at[7]-1:] // from the digit on, since the next letter may follow at once
	}
}

// standardWord is a standard: a name in capitals with a number of two digits at
// least. A clause alone does not say of what.
var standardWord = regexp.MustCompile(`\b[A-Z]{2,}[A-Z/ -]*[0-9]{2,}`)

// unfounded says what a reason lacks that names not all of S, F and P.
func unfounded(r *file.Required, b branch) string {
	switch {
	case r.Rare != "":
		return "gives `rare` and does not name S, F and P, from which it lowers the level"
	case b != branch{}:
		return "names only " + b.String() + " of S, F and P"
	case standardWord.MatchString(r.Because):
		return ""
	}
	return "names neither S, F and P nor a standard"
}

// bounded: the category of a part bounds its level.
func (f *finder) bounded(fn *file.Function) {
	for i := range fn.Parts {
		p := &fn.Parts[i]
		if most := f.w.level("FU-27", p.Category); most != "" && p.Level > most {
			f.raise("FU-27", fn.ID, p.At("level"), "part", p.Uses, "function", fn.ID, "level", p.Level, "category", p.Category, "most", most)
		}
	}
}

// reasoned says whether a text gives a reason: a word alone does not.
func reasoned(text string) bool { return len(strings.Fields(text)) > 2 }

// belowGraph holds a level against the graph. A rare event lowers it by one
// step, for a written reason.
func (f *finder) belowGraph(fn *file.Function, b branch) {
	r := fn.Required
	plain, lowered := f.graph(b, false), f.graph(b, true)
	what := "the graph gives " + plain + " for " + b.String()
	least := plain
	switch {
	case r.Rare != "" && reasoned(r.Rare):
		least = lowered
		what += ", and a rare event lowers it to " + lowered
	case r.Rare != "":
		what += ", and `rare` gives no reason"
	}
	if r.Level < least {
		f.raise("FU-01", fn.ID, r.At("level"), "function", fn.ID, "level", r.Level, "what", what)
	}
}

// askedByRow: where the method of the rows gives a required level, what a row
// rests on is asked for no less. A rare event lowers that by one step, for a
// written reason.
func (f *finder) askedByRow(row *Row) {
	if m := f.r.Method; m == nil || m.Gives != estimate.RequiredLevel || !row.Before.Done {
		return
	}
	var short []*file.Function
	for _, id := range row.Rests {
		_, found, _, _ := f.r.File.Find(id)
		fn, ok := found.(*file.Function)
		switch {
		case !ok || fn.Required == nil:
		case fn.Required.Level >= row.Before.Level, oneLower(fn.Required, row.Before.Level) && reasoned(fn.Required.Rare):
			return // what else it rests on comes on top
		default:
			short = append(short, fn)
		}
	}
	for _, fn := range short {
		what := ""
		switch r := fn.Required; {
		case r.Rare == "":
		case !reasoned(r.Rare):
			what = ", and `rare` gives no reason"
		default:
			what = ", and a rare event lowers it by one step only"
		}
		f.raise("FU-25", row.ID, positionOf(row.Spec.Item), "row", row.ID, "level", row.Before.Level, "function", fn.ID, "asked", fn.Required.Level, "what", what)
	}
}

// oneLower says whether a function is asked for one level less than another.
func oneLower(r *file.Required, level string) bool {
	return r.Rare != "" && r.Level[0]+1 == level[0]
}

// graph is the level that the sheet of the graph gives, "" where there is no such sheet.
func (f *finder) graph(b branch, rare bool) string {
	s := f.r.Library.Sheet(graphSheet)
	if s == nil {
		return ""
	}
	vals := s.Blank()
	words := []struct{ input, word string }{{"S", b.S}, {"F", b.F}, {"P", b.P}, {"rare", ""}}
	if rare {
		words[3].word = string(source.Yes)
	}
	for _, w := range words {
		if col := s.Input(w.input); col != nil && w.word != "" {
			vals[col.Slot] = text(w.word)
		}
	}
	o := s.Evaluate(vals)
	return o.Value("PL_r").Text
}

// rareCheck: the sheet of the graph is told that the event is rare.
func (f *finder) rareCheck(c *Check) {
	if c.Sheet.ID != graphSheet {
		return
	}
	if rare := inputOf(c, "rare"); rare != nil && rare.Value.Text == string(source.Yes) && !reasoned(c.Note) {
		f.raise("FU-03", c.ID, rare.Pos, "check", c.ID)
	}
}

// category: level d of a robot function goes with Category 3. A function whose
// kind is not stated counts as one where a robot carries it out.
func (f *finder) category(fn *file.Function) {
	r := fn.Required
	kind := fn.Kind
	if kind == "" && f.usesRobot(fn) {
		kind = "protective-stop" // it stops the robot, whatever else it does
	}
	if r.Level != f.w.level("FU-09", kind) {
		return
	}
	what := "names no category"
	if r.Category != "" {
		if n, err := strconv.Atoi(r.Category); err == nil && float64(n) >= f.w.value("FU-09", "category") { // B is no number
			return
		}
		what = "asks for Category " + r.Category
	}
	f.raise("FU-09", fn.ID, r.At("level"), "function", fn.ID, "level", r.Level, "what", what)
}

func (f *finder) usesRobot(fn *file.Function) bool {
	return slices.ContainsFunc(fn.Parts, func(p file.FunctionPart) bool { return f.kindOf(p.Uses) == "robot" })
}

// kindOf is the kind of an item, "" of words for what has no id.
func (f *finder) kindOf(id string) string {
	kind, _, _, _ := f.r.File.Find(id)
	return kind
}

// leastOfKind: some kinds have a least level that is public.
func (f *finder) leastOfKind(fn *file.Function) {
	if least := f.w.level("FU-10", fn.Kind); fn.Required.Level < least {
		f.raise("FU-10", fn.ID, fn.Required.At("level"), "function", fn.ID, "level", fn.Required.Level, "kind", fn.Kind, "least", least)
	}
}

// figures: each part has its rate, level and category, or a check that gives
// them. Where no part has a rate the levels are counted.
func (f *finder) figures(fn *file.Function) {
	rated := slices.ContainsFunc(fn.Parts, func(p file.FunctionPart) bool { return p.PFH.Set || p.By != "" })
	for i := range fn.Parts {
		p := &fn.Parts[i]
		if p.By != "" {
			continue
		}
		var what []string
		if rated && !p.PFH.Set {
			what = append(what, "no failure rate")
		}
		if v := amountIn(f.r.File.Index(), p.PFH, "1", nil); v != nil && *v <= 0 {
			what = append(what, "a failure rate of 0")
		}
		if p.Level == "" {
			what = append(what, "no level")
		}
		if p.Category == "" {
			what = append(what, "no category")
		}
		if what != nil {
			f.raise("FU-06", fn.ID, p.At("uses"), "function", fn.ID, "part", p.Uses, "what", and(what))
		}
	}
}

// whole: what some device has to notice names the device and what it stops.
// Words for what has no id may stand for either.
func (f *finder) whole(fn *file.Function) {
	if !f.w.looksAt("FU-07", fn.Kind) {
		return
	}
	notices, stops := false, false
	for i := range fn.Parts {
		kind := f.kindOf(fn.Parts[i].Uses)
		notices = notices || kind == "" || kind == "safeguard"
		stops = stops || kind == "" || kind != "safeguard"
	}
	what := ""
	switch {
	case len(fn.Parts) < 2:
		what = "has one part"
	case !stops:
		what = "has no part that stops anything"
	case !notices:
		what = "has no part that notices anything"
	default:
		return
	}
	f.raise("FU-07", fn.ID, fn.At("parts"), "function", fn.ID, "kind", fn.Kind, "what", what)
}

// unused: devices that no safety function uses.
func (f *finder) unused() {
	for i := range f.r.File.Cell.Safeguards {
		g := &f.r.File.Cell.Safeguards[i]
		if f.w.looksAt("FU-08", g.Kind) && len(f.usersOf(g.ID)) == 0 {
			f.raise("FU-08", g.ID, positionOf(g.Item), "safeguard", g.ID, "kind", g.Kind)
		}
	}
}

// usersOf are the functions that a device is a part of.
func (f *finder) usersOf(id string) []*file.Function {
	var list []*file.Function
	for i := range f.r.File.Cell.Functions {
		fn := &f.r.File.Cell.Functions[i]
		if slices.ContainsFunc(fn.Parts, func(p file.FunctionPart) bool { return p.Uses == id }) {
			list = append(list, fn)
		}
	}
	return list
}

package hazards

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"

	"standclear/hazards/file"
	"standclear/limits/expr"
	"standclear/limits/quantity"
	"standclear/limits/sheet"
	"standclear/limits/source"
)

// fingerprints writes down what every row and the document rest on, one line
// `path = canonical value` for each, sorted, and hashes the lines. Comments,
// the order of keys and the unit a quantity is written in make no difference.
func (w *work) fingerprints() {
	p := &prints{work: w, amount: map[*source.Node]string{}, lines: map[string][]string{}, of: map[string][]*Point{}}
	for _, e := range w.ix.Entries() {
		p.amount[e.Amount.Node()] = e.Path
	}
	for i := range w.r.Points {
		if q := &w.r.Points[i]; q.Spec != nil {
			p.of[q.Of] = append(p.of[q.Of], q)
		}
	}
	common := p.common()
	var lines []string
	for i := range w.r.Rows {
		row := &w.r.Rows[i]
		lines = append(append(lines[:0], common...), p.row(row)...)
		slices.Sort(lines)
		row.Evidence = slices.Clone(slices.Compact(lines))
		row.Fingerprint = hash(row.Evidence)
	}
	w.r.Fingerprint = hash(p.document(common))
}

func hash(lines []string) string {
	h := sha256.New()
	var part [1 << 10]byte // the hash takes bytes; lines are gathered to copy them once
	buf := part[:0]
	for i, l := range lines {
		if i > 0 {
			buf = append(buf, '\n')
		}
		if buf = append(buf, l...); len(buf) > len(part)/2 {
			h.Write(buf)
			buf = buf[:0]
		}
	}
	h.Write(buf)
	return hex.EncodeToString(h.Sum(nil))
}

type prints struct {
	*work
	amount map[*source.Node]string // paths of amounts
	lines  map[string][]string     // of contacts, checks, functions and points, by id
	of     map[string][]*Point     // points of the file by what they are of
}

// line writes one line of evidence; how a text was wrapped makes no difference.
func line(path, value string) string {
	if strings.ContainsAny(value, "\n\t") || strings.Contains(value, "  ") {
		value = strings.Join(strings.Fields(value), " ")
	}
	return path + " = " + strings.TrimSpace(value)
}

// common are the method and the editions.
func (p *prints) common() []string {
	var out []string
	if m := p.r.Method; m != nil {
		out = append(out, line("assessment.method", m.ID))
		if m.Sum != "" { // of the house: its file may change while the program does not
			out = append(out, line("assessment.method.sha256", m.Sum))
		}
	}
	return append(out, p.walk("assessment.basis", p.a.Head.Basis.Node())...)
}

// row lists what a row rests on.
func (p *prints) row(row *Row) []string {
	h := row.Spec
	out := p.walk(row.ID, h.Node(), "before", "after")
	out = append(out, p.scores(row.ID+".before", &row.Before)...)
	out = append(out, p.scores(row.ID+".after", &row.After)...)
	if _, found, _, _ := p.a.Find(row.Task); found != nil {
		if t, ok := found.(*file.Task); ok {
			out = append(out, line(t.ID+".people", commas(t.People)), line(t.ID+".setting", t.Setting))
			out = append(out, p.setting(t.Setting)...)
		}
	}
	for _, id := range row.Rests {
		out = append(out, p.item(id)...)
	}
	for _, id := range row.Points {
		out = append(out, p.item(id)...)
	}
	for i := range h.Measures {
		for _, q := range p.of[h.Measures[i].ID] {
			out = append(out, p.item(q.ID)...)
		}
	}
	return out
}

// scores lists the scores of an estimate and the cells of the tables they led to.
func (p *prints) scores(path string, e *Estimate) []string {
	var out []string
	for i, s := range e.Scores {
		switch s.Kind {
		case expr.Number:
			out = append(out, line(path+"."+p.r.Method.Factors[i].ID, quantity.Format(s.Num, 15)))
		case expr.Text:
			out = append(out, line(path+"."+p.r.Method.Factors[i].ID, s.Text))
		}
	}
	if e.Done {
		out = append(out, p.cells(e.Outcome)...)
	}
	return out
}

// item lists what a contact, check, function or point rests on, worked out once.
func (p *prints) item(id string) []string {
	if known, ok := p.lines[id]; ok {
		return known
	}
	var out []string
	if c := p.r.Contact(id); c != nil {
		out = p.walk(id, c.Spec.Node())
		for _, j := range c.Checks {
			out = append(out, p.check(&p.r.Checks[j])...)
		}
	} else if kind, found, _, _ := p.a.Find(id); kind == "check" {
		out = p.walk(id, found.(*file.Check).Node(), "given", "note")
	} else if kind == "function" {
		out = p.walk(id, found.(*file.Function).Node())
	} else if kind == "point" {
		out = p.walk(id, found.(*file.Point).Node())
	}
	if c := p.r.Check(id); c != nil {
		out = append(out, p.check(c)...)
	}
	for _, q := range p.of[id] {
		out = append(out, p.walk(q.ID, q.Spec.Node())...)
	}
	slices.Sort(out)
	out = slices.Compact(out)
	p.lines[id] = out
	return out
}

// check lists verdict, inputs, facts and table cells of a check.
func (p *prints) check(c *Check) []string {
	out := []string{line(c.ID+".verdict", string(c.Verdict)), line(c.ID+".edition", c.Sheet.Standard.Edition)}
	for i := range c.Inputs {
		in := &c.Inputs[i]
		if in.Members == nil {
			out = append(out, p.input(c, in)...)
		}
		for j := range in.Members {
			out = append(out, p.input(c, &in.Members[j])...)
		}
	}
	for _, path := range c.shares {
		out = append(out, p.fact(path)...)
	}
	return append(append(out, p.ownData(c)...), p.cells(c.Outcome)...)
}

func (p *prints) input(c *Check, in *Input) []string {
	value := in.exact
	if in.Takes() {
		value = written(in) // the number follows from what the other check rests on
	}
	if in.Typed != "" && in.Origin != "" {
		value += ", " + in.Origin
	}
	if in.Value.Kind == expr.Text && !in.Takes() {
		value = in.Value.Text
	}
	var out []string
	if len(in.Terms) == 0 || in.Typed != "" || in.Takes() { // else its facts say it
		out = append(out, line(c.ID+"."+in.Name, value))
	}
	for _, t := range in.Terms {
		if t.Check != "" {
			out = append(out, p.item(t.Check)...)
			continue
		}
		out = append(out, p.fact(t.Path)...)
	}
	return out
}

// written are the terms of an input that takes results of other checks. How far
// a result is worked out differs between machines, so that it stands by its path.
func written(in *Input) string {
	var out []string
	for _, t := range in.Terms {
		if t.Path == "" {
			out = append(out, quantity.Format(t.Value, 15))
			continue
		}
		out = append(out, t.Path)
	}
	return strings.Join(out, " + ")
}

// fact is a value of the cell with its origin, what it comes from, and the
// safety configuration it stands in.
func (p *prints) fact(path string) []string {
	x := p.known[path]
	if x == nil {
		return nil
	}
	f := &p.r.Facts[x.fact]
	value := f.Exact
	if f.Origin != "" {
		value += ", " + f.Origin
	}
	out := []string{line(path, value)}
	if f.Kind == "setting" {
		out = append(out, p.setting(strings.TrimSuffix(path, "."+f.Key))...)
	}
	for _, t := range f.Terms {
		out = append(out, p.fact(t.Path)...)
	}
	return out
}

// setting gives checksum and version of a safety configuration, robot.setting.
func (p *prints) setting(path string) []string {
	_, id, _ := strings.Cut(path, ".")
	_, found, _, _ := p.a.Find(id)
	if s, ok := found.(*file.Setting); ok {
		return []string{line(path+".checksum", s.Checksum), line(path+".version", s.Version)}
	}
	return nil
}

func (p *prints) cells(o *sheet.Outcome) []string {
	var out []string
	for _, c := range o.Cells() {
		value := c.Show()
		if c.Standing != "" {
			value += ", " + string(c.Standing)
		}
		value += ownPrint(c)
		out = append(out, line(c.Name(), value))
	}
	for _, k := range o.Sheet.Consts {
		out = append(out, line(o.Sheet.ID+": "+k.Name, k.Show(o.Values[k.Slot])+", "+string(k.Standing)))
	}
	return out
}

// walk lists the scalars below a node. Amounts are given by their facts; items
// with an id begin a path of their own.
func (p *prints) walk(path string, n *source.Node, without ...string) []string {
	switch {
	case n == nil || n.Null:
		return nil
	case p.amount[n] != "":
		return p.fact(p.amount[n])
	case n.Kind == source.Scalar:
		return []string{line(path, n.Value)}
	case n.Kind == source.List:
		return p.walkList(path, n)
	}
	var out []string
	for i := range n.Pairs {
		key := n.Pairs[i].Key.Value
		if key == "id" || slices.Contains(without, key) {
			continue
		}
		out = append(out, p.walk(path+"."+key, n.Pairs[i].Value)...)
	}
	return out
}

func (p *prints) walkList(path string, n *source.Node) []string {
	var words, out []string
	for i, item := range n.Items {
		switch id := item.Get("id"); {
		case item.Kind == source.Scalar && p.amount[item] == "":
			words = append(words, item.Value)
		case id != nil:
			words = append(words, id.Value)
			out = append(out, p.walk(id.Value, item)...)
		default:
			out = append(out, p.walk(fmt.Sprintf("%s-%d", strings.TrimSuffix(path, "s"), i+1), item)...)
		}
	}
	if words != nil || len(n.Items) == 0 {
		out = append(out, line(path, commas(words)))
	}
	return out
}

// document lists what a signature under the whole document covers: everything
// the file says but who signed, the tables used, and the version of the program
// with its catalogue and rules.
func (p *prints) document(common []string) []string {
	out := append(slices.Clone(common), line("program", p.r.Version))
	out = append(out, p.walk("assessment", p.a.Head.Node(), "prepared_by", "checked_by", "approved_by", "reviewer")...)
	root := p.a.Node()
	for i := range root.Pairs {
		switch key := root.Pairs[i].Key.Value; key {
		case "assessment", "hazards", "checks": // rows count by their fingerprints, checks as worked out
		default:
			out = append(out, p.walk(key, root.Pairs[i].Value)...)
		}
	}
	for i := range p.r.Rows {
		out = append(out, line(p.r.Rows[i].ID, p.r.Rows[i].Fingerprint))
	}
	for i := range p.r.Checks {
		c := &p.r.Checks[i]
		out = append(append(out, p.ownData(c)...), p.cells(c.Outcome)...)
		if c.ID == c.Of {
			out = append(out, p.item(c.ID)...)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

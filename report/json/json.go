// Package json writes results for other programs. Numbers are unrounded, in the
// unit named beside them; the order of everything is that of the Result.
package json

import (
	"bytes"
	stdjson "encoding/json"
	"io"
	"strings"

	"standclear/hazards"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/report/words"
)

// object is a JSON object that keeps its order.
type object []member

type member struct {
	key   string
	value any
}

// MarshalJSON writes the members in their order.
func (o object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, m := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		k, err := stdjson.Marshal(m.key)
		if err != nil {
			return nil, err
		}
		v, err := stdjson.Marshal(m.value)
		if err != nil {
			return nil, err
		}
		b.Write(k)
		b.WriteByte(':')
		b.Write(v)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

func encode(w io.Writer, v any) error {
	e := stdjson.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	return e.Encode(v)
}

// Calc writes the outcome of one sheet, at the worst corner of tolerances.
func Calc(w io.Writer, k *sheet.Corner) error {
	o := &k.Outcome
	var notes []string
	for _, n := range o.Notes() {
		notes = append(notes, n.Text)
	}
	notes = append(notes, o.FromMemory()...)
	said := hazards.AdviceOf(k)
	return encode(w, append(object{
		{"sheet", o.Sheet.ID},
		{"edition", o.Sheet.Standard.Edition},
		{"inputs", inputs(o)},
		{"results", results(o)},
		{"verdict", o.Verdict},
		{"why", o.Why},
		{"notes", list(notes)},
		{"advice", advice(said)},
		{"advice_text", words.Default().Advice(said, o.Sheet.Group == "contact")},
	}, corner(k.Words(), k.Nominal)...))
}

// inputs lists what was given; lists and ranges become arrays.
func inputs(o *sheet.Outcome) object {
	out := object{}
	for _, name := range o.Sheet.InputNames() {
		cols := columns(o.Sheet, name)
		var vals []any
		for _, c := range cols {
			if v := o.Values[c.Slot]; v.Given() {
				vals = append(vals, plain(v))
			}
		}
		switch {
		case len(vals) == 0:
		case len(cols) == 1:
			out = append(out, member{name, value(vals[0], cols[0])})
		default:
			out = append(out, member{name, value(vals, cols[0])})
		}
	}
	return out
}

func columns(s *sheet.Sheet, name string) []*sheet.Column {
	if l, ok := s.Lists[name]; ok {
		return l
	}
	if r, ok := s.Ranges[name]; ok {
		return r[:]
	}
	return []*sheet.Column{s.Input(name)}
}

func results(o *sheet.Outcome) object {
	out := object{}
	for _, c := range o.Sheet.Results {
		v := o.Values[c.Slot]
		if !v.Given() {
			out = append(out, member{c.Symbol, object{{"value", nil}, {"why", absent(o, c)}}})
			continue
		}
		out = append(out, member{c.Symbol, value(plain(v), c)})
	}
	return out
}

func absent(o *sheet.Outcome, c *sheet.Column) string {
	if reasons := o.Sheet.ToCopy(o.Values); reasons != nil {
		return strings.Join(reasons, "; ")
	}
	if m := o.Missing(c); m != c.Symbol {
		return m + " is missing"
	}
	return o.Why
}

func plain(v expr.Value) any {
	switch v.Kind {
	case expr.Number:
		return v.Num
	case expr.Text:
		return v.Text
	case expr.Bool:
		return v.Bool
	}
	return nil
}

func value(v any, c *sheet.Column) object {
	o := object{{"value", v}}
	if c.Type.Kind == expr.Number {
		o = append(o, member{"unit", c.UnitName()})
	}
	return o
}

func list[T any](in []T) []T {
	if in == nil {
		return []T{}
	}
	return in
}

// Check writes the whole result as `check --json` and `build` give it. built
// names the other outputs by their SHA-256, so that a later build can tell
// whether they were edited; nil when there are none.
func Check(w io.Writer, r *hazards.Result, built map[string]string) error {
	o := object{
		{"document", r.Document},
		{"counts", counts(r)},
		{"checks", checks(r)},
		{"contact_advice", contactAdvice(r)},
		{"editions", editions(r)},
		{"hazards", rows(r)},
		{"findings", findings(r)},
		{"open", open(r)},
		{"review", review(r)},
		{"hand_over", handOver(r)},
		{"free_speeds", ladders(r)},
		{"measured_speeds", speeds(r)},
		{"suggest", object{{"open", r.Counts.OpenHazards}, {"apply", r.Counts.Hazards}}},
		{"fingerprint", r.Fingerprint},
		{"input_sha256", r.InputSHA256},
		{"version", r.Version},
	}
	if built != nil {
		o = append(o, member{"built", built})
	}
	return encode(w, o)
}

func counts(r *hazards.Result) object {
	o := object{}
	part := func(name string, cs []hazards.Count) {
		in := object{}
		for _, c := range cs {
			in = append(in, member{c.Word, c.N})
		}
		o = append(o, member{name, in})
	}
	part("hazards", r.Counts.Rows)
	part("checks", r.Counts.Checks)
	return append(o, member{"findings", r.Counts.Findings}, member{"open", r.Counts.Open})
}

func checks(r *hazards.Result) []object {
	out := []object{}
	for i := range r.Checks {
		c := &r.Checks[i]
		o := object{
			{"id", c.ID}, {"of", c.Of}, {"sheet", c.Sheet.ID}, {"edition", c.Sheet.Standard.Edition},
			{"verdict", c.Verdict}, {"why", c.Why},
			{"inputs", inputs(c.Outcome)}, {"results", results(c.Outcome)},
			{"advice", advice(c.Advice)}, {"advice_text", adviceText(c)},
		}
		if c.Shadow {
			o = append(o, member{"beside", true})
		}
		if n := r.NominalOf(c.ID); n != nil {
			o = append(o, corner(c.Corner, n.Outcome)...)
		}
		out = append(out, o)
	}
	return out
}

func rows(r *hazards.Result) []object {
	out := []object{}
	for i := range r.Rows {
		h := &r.Rows[i]
		out = append(out, object{
			{"id", h.ID}, {"task", h.Task}, {"before", rowEstimate(h.Before)}, {"after", rowEstimate(h.After)},
			{"status", h.Status}, {"why", h.Why}, {"findings", list(h.Findings)}, {"rests_on", list(h.Rests)},
			{"fingerprint", h.Fingerprint},
		})
	}
	return out
}

func findings(r *hazards.Result) []object {
	out := []object{}
	for _, f := range r.Findings {
		out = append(out, object{{"id", f.ID}, {"about", f.About}, {"message", f.Message}, {"way_out", f.WayOut},
			{"where", object{{"file", base(f.Pos.File)}, {"line", f.Pos.Line}, {"column", f.Pos.Col}}}})
	}
	return out
}

// base keeps the file name alone, so that outputs do not depend on where they
// were built.
func base(path string) string {
	if i := strings.LastIndexAny(path, `/\`); i >= 0 {
		return path[i+1:]
	}
	return path
}

func open(r *hazards.Result) []object {
	out := []object{}
	for _, p := range r.Open {
		out = append(out, object{{"kind", p.Kind}, {"about", p.About}, {"message", p.Message}})
	}
	return out
}

func review(r *hazards.Result) []object {
	out := []object{}
	for _, p := range r.Review {
		out = append(out, object{{"place", p.Place}, {"clause", p.Clause}, {"who", p.Who}, {"because", p.Because},
			{"standing", p.Standing}, {"hand_over", list(p.HandOver)}, {"sources", list(p.Sources)}})
	}
	return out
}

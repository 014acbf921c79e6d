package hazards

import (
	"encoding/binary"
	"math"

	"standclear/limits/expr"
	"standclear/limits/sheet"
)

// Advice is the value of one input at which a check, or all checks of a contact,
// would hold, or how far the input may go where little is left. It comes from the
// same sheets as the verdict. For a contact it is by the model: the measurement
// decides.
type Advice struct {
	sheet.Answer
	Path      string // the one value of the file that the input comes from, "" where it adds up several or is typed in
	Tolerance bool   // a tolerance is in the value
	Sum       bool   // the input adds up several values
}

// AdviceOf is that of a calculation that belongs to no assessment.
func AdviceOf(k *sheet.Corner) (list []Advice) {
	for _, a := range sheet.AdviceAt(k) {
		list = append(list, Advice{Answer: a, Tolerance: k.Includes(&a)})
	}
	return list
}

// advise works out what would make checks hold. Equal cases are solved once.
//
// Where a measurement has decided there is none: the model cannot say what the
// instrument will read. Nor is there any while something of a
// contact is not permitted or a question is open that may make it so, since a
// slower speed is no way out of that.
func (w *work) advise() {
	v := &adviser{work: w, solved: map[string][]sheet.Answer{}}
	v.all()
}

type adviser struct {
	*work
	solved map[string][]sheet.Answer
	key    []byte
}

func (v *adviser) all() {
	for i := range v.r.Contacts {
		v.contact(&v.r.Contacts[i])
	}
	for i := range v.r.Checks {
		if c := &v.r.Checks[i]; v.r.Contact(c.Of) == nil && c.mayBeAdvised() {
			c.Advice = v.advice([]*Check{c})
		}
	}
}

// mayBeAdvised tells whether the sheet alone says why the check does or does not hold.
func (c *Check) mayBeAdvised() bool {
	return !c.Shadow && len(c.lacks) == 0 && c.Verdict == c.Outcome.Verdict && c.Why == c.Outcome.Why
}

func (v *adviser) contact(k *Contact) {
	if k.Verdict == sheet.NotPermitted || v.unanswered(k) != "" {
		return
	}
	var all []*Check
	whole := true
	for _, i := range k.Checks {
		switch c := &v.r.Checks[i]; {
		case c.Shadow || c.Verdict == sheet.WithinMeasured:
		case c.mayBeAdvised():
			c.Advice = v.advice([]*Check{c})
			all = append(all, c)
		default:
			whole = false
		}
	}
	switch {
	case !whole || len(all) == 0:
	case len(all) == 1:
		k.Advice = all[0].Advice
	default:
		k.Advice = v.advice(all)
	}
}

// advice is what would make all of the checks hold.
func (v *adviser) advice(all []*Check) []Advice {
	v.key = v.key[:0]
	some := false
	for _, c := range all {
		some = some || !c.Verdict.Holds() || c.Outcome.Tight()
		v.key = appendCase(v.key, c)
	}
	if !some {
		return nil
	}
	answers, done := v.solved[string(v.key)]
	if !done {
		cases := make([]sheet.Case, len(all))
		for i, c := range all {
			cases[i] = sheet.Case{Sheet: c.Sheet, Values: c.Outcome.Values}
			cases[i].Loose, _ = c.loosened()
		}
		answers = sheet.AdviceOn(cases)
		v.solved[string(v.key)] = answers
	}
	var out []Advice
	for _, a := range answers {
		out = append(out, v.behind(a, all))
	}
	return out
}

// appendCase appends what tells one case from another: the sheet, its inputs
// and their tolerances.
func appendCase(key []byte, c *Check) []byte {
	key = append(append(key, c.Sheet.Key()...), 0)
	for _, col := range c.Sheet.Columns {
		if col.Role != sheet.Input && col.Role != sheet.Override {
			continue
		}
		x := c.Outcome.Values[col.Slot]
		if key = append(key, byte(x.Kind)); x.Kind == expr.Number {
			key = binary.LittleEndian.AppendUint64(key, math.Float64bits(x.Num))
		} else if x.Kind == expr.Text {
			key = append(append(key, x.Text...), 0)
		}
	}
	list, _ := c.loosened()
	for i := range list {
		key = append(append(key, list[i].Column.Name...), 0)
		for _, e := range list[i].Ends {
			key = binary.LittleEndian.AppendUint64(key, math.Float64bits(e.Value.Num))
		}
	}
	return key
}

// behind says what of the file an input comes from. Of several checks that take
// it from different places none is named.
func (v *adviser) behind(answer sheet.Answer, all []*Check) Advice {
	a := Advice{Answer: answer}
	first := true
	for _, c := range all {
		in := inputOf(c, answer.Column.Name)
		if in == nil {
			continue
		}
		path, tolerance, sum := v.source(in.Terms)
		tolerance = tolerance || in.Low.Given() // also one that is typed in
		if a.Tolerance, a.Sum = a.Tolerance || tolerance, a.Sum || sum; first {
			a.Path, first = path, false
		} else if a.Path != path {
			a.Path = ""
		}
	}
	return a
}

// source follows terms to the one value they lead to.
func (v *adviser) source(terms []Term) (path string, tolerance, sum bool) {
	for _, t := range terms {
		if f := v.r.Fact(t.Path); t.Path != "" && f != nil {
			tolerance = tolerance || f.HasTol
		}
	}
	if len(terms) != 1 {
		return "", tolerance, len(terms) > 1
	}
	f := v.r.Fact(terms[0].Path)
	switch {
	case terms[0].Path == "" || f == nil:
		return "", tolerance, false
	case len(f.Terms) == 0:
		return f.Path, tolerance, false
	}
	path, inner, sum := v.source(f.Terms)
	return path, tolerance || inner, sum
}

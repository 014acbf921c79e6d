package hazards

import (
	"standclear/hazards/estimate"
	"standclear/hazards/file"
	"standclear/hazards/measure"
	"standclear/limits/source"
)

const information = "information"

// measures: order, credit and proof.
func (f *finder) measures() {
	for i := range f.r.Rows {
		row := &f.r.Rows[i]
		for j := range row.Spec.Measures {
			m := &row.Spec.Measures[j]
			if m.Step == information && m.WhyNotEarlier == "" {
				f.raise("ME-03", row.ID, positionOf(m.Item), "row", row.ID, "measure", m.ID)
			}
			if k := f.w.Kinds.Get(m.Kind); k != nil {
				f.credit(row, m, k)
			}
		}
		f.lowered(row)
		f.informationAlone(row)
	}
}

// credit: what one measure claims and what shows it.
func (f *finder) credit(row *Row, m *file.Measure, k *measure.Kind) {
	name := []string{"row", row.ID, "measure", m.ID, "kind", k.Title}
	var claimed []string
	for _, what := range m.Lowers {
		if !k.Lowers(what) {
			claimed = append(claimed, what)
		}
	}
	if claimed != nil {
		may := "nothing"
		if len(k.MayLower) > 0 {
			may = and(k.MayLower)
		}
		f.raise("ME-01", row.ID, m.At("lowers"), append(name, "claimed", and(claimed), "may", may)...)
	}
	if missing := k.Missing(f.proofs(row, m)); missing != nil {
		f.raise("ME-04", row.ID, positionOf(m.Item), append(name, "missing", and(missing))...)
	}
	if m.Step != k.Step {
		f.raise("ME-05", row.ID, m.At("step"), append(name, "step", m.Step, "right", k.Step)...)
	}
	if k.OperatorOnly == source.Yes && len(row.People) > 1 {
		f.raise("ME-07", row.ID, positionOf(m.Item), append(name, "people", few(row.People))...)
	}
}

// proofs are the kinds of what shows a measure: named by the measure or its
// row, or a validation point about the measure.
func (f *finder) proofs(row *Row, m *file.Measure) []string {
	var list []string
	for _, id := range append(append([]string(nil), m.ShownBy...), row.Spec.ShownBy...) {
		kind, found, _, _ := f.r.File.Find(id)
		list = addOnce(list, kind)
		if c, ok := found.(*file.Check); ok {
			list = addOnce(list, c.Sheet)
		}
	}
	if f.tested[m.ID] {
		list = addOnce(list, "point")
	}
	return list
}

// lowered: a score falls only by a measure that lowers its factor.
func (f *finder) lowered(row *Row) {
	if f.r.Method == nil {
		return
	}
	for i := range f.r.Method.Factors {
		factor := &f.r.Method.Factors[i]
		if i >= len(row.Before.Scores) || i >= len(row.After.Scores) || f.claimed(row, factor) {
			continue
		}
		before, after := f.rank(row, i, false), f.rank(row, i, true)
		if before >= 0 && after > before {
			f.raise("ME-02", row.ID, row.Spec.KeyPos("after"), "row", row.ID, "factor", factor.ID, "what", or(factor.Lowers),
				"before", factor.Scores[before].Score, "after", factor.Scores[after].Score)
		}
	}
}

// claimed tells whether a measure of the row lowers what the factor stands for,
// and its kind can.
func (f *finder) claimed(row *Row, factor *Factor) bool {
	for i := range row.Spec.Measures {
		m := &row.Spec.Measures[i]
		k := f.w.Kinds.Get(m.Kind)
		for _, what := range factor.Lowers {
			if k != nil && k.Lowers(what) && has(m.Lowers, what) {
				return true
			}
		}
	}
	return false
}

// rank is the place of a score among those of its factor, worst first; -1 where
// it is missing.
func (f *finder) rank(row *Row, factor int, after bool) int {
	e := &row.Before
	if after {
		e = &row.After
	}
	of := &f.r.Method.Factors[factor]
	for i, s := range of.Scores {
		if v, ok := of.Read(s.Score); ok && e.Scores[factor].Given() && v == e.Scores[factor] {
			return i
		}
	}
	return -1
}

// informationAlone: signs and training do not carry a high risk.
func (f *finder) informationAlone(row *Row) {
	if !row.Accepts() || row.Before.Action != estimate.Required || len(row.Spec.Measures) == 0 {
		return
	}
	for i := range row.Spec.Measures {
		if row.Spec.Measures[i].Step != information {
			return
		}
	}
	f.raise("ME-06", row.ID, row.Spec.Residual.At("decision"), "row", row.ID, "level", row.Before.Level)
}

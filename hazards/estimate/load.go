package estimate

import (
	"io/fs"
	"math"
	"strconv"

	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/limits/source"
	"standclear/limits/table"
)

type methodStmt struct {
	source.Item
	ID               string                 `yaml:"id,required"`
	Title            string                 `yaml:"title,required"`
	Standard         table.Standard         `yaml:"standard,required"`
	Source           []string               `yaml:"source"`
	Standing         string                 `yaml:"standing,required" choice:"confirmed|single|practice|memory"`
	IrreversibleFrom string                 `yaml:"irreversible_from"`
	Factors          source.Map[factorStmt] `yaml:"factors,required"`
	Actions          source.Map[actionStmt] `yaml:"actions,required"`
	Calculation      calculation            `yaml:"calculation,required"`
}

type factorStmt struct {
	source.Item
	Title  string             `yaml:"title,required"`
	Lowers string             `yaml:"lowers,required" choice:"severity|exposure|occurrence|avoidance"`
	Note   string             `yaml:"note"`
	Scores source.Map[string] `yaml:"scores,required"`
}

type actionStmt struct {
	source.Item
	Action string `yaml:"action,required" choice:"required|recommended|none"`
	Means  string `yaml:"means,required"`
}

// calculation keeps its node: it is a sheet.
type calculation struct{ node *source.Node }

// DecodeNode takes the sheet as it stands.
func (c *calculation) DecodeNode(n *source.Node, _ *source.Problems) { c.node = n }

// Load reads the methods in the folder methods of a folder laid out as
// templates/ is. Their calculations may use the tables and constants of lib.
func Load(fsys fs.FS, lib *sheet.Library) ([]*Method, []source.Problem) {
	var ps source.Problems
	var list []*Method
	source.EachFile(fsys, "methods", &ps, func(_ string, n *source.Node) {
		if m := read(n, lib, &ps); m != nil {
			list = append(list, m)
		}
	})
	return list, ps.List()
}

func read(n *source.Node, lib *sheet.Library, ps *source.Problems) *Method {
	var st methodStmt
	before := ps.Len()
	source.Decode(n, &st, ps)
	if ps.Len() > before {
		return nil
	}
	m := &Method{ID: st.ID, Title: st.Title, Standard: table.Standard{ID: st.Standard.ID, Edition: st.Standard.Edition}.String(),
		Clause: st.Standard.Clause, Standing: st.Standing, Source: st.Source, IrreversibleFrom: st.IrreversibleFrom}
	for _, e := range st.Factors {
		f := Factor{ID: e.Key, Title: e.Value.Title, Lowers: e.Value.Lowers, Note: e.Value.Note}
		for _, s := range e.Value.Scores {
			f.Scores = append(f.Scores, Score{Score: s.Key, Means: s.Value})
		}
		m.Factors = append(m.Factors, f)
	}
	for _, e := range st.Actions {
		m.Actions = append(m.Actions, Action{Level: e.Key, Action: e.Value.Action, Means: e.Value.Means})
	}
	if m.Sheet = sheet.Read(st.Calculation.node, lib, ps); m.Sheet != nil {
		m.check(&st, ps)
	}
	if ps.Len() > before {
		return nil
	}
	return m
}

// check holds the factors against the calculation: the same names in the same
// order, and scores that it takes.
func (m *Method) check(st *methodStmt, ps *source.Problems) {
	names := m.Sheet.InputNames()
	if len(names) != len(m.Factors) {
		ps.Addf(st.At("factors"), "method %s has %d factors and its calculation %d inputs", m.ID, len(m.Factors), len(names))
		return
	}
	for i := range m.Factors {
		f := &m.Factors[i]
		c := m.Sheet.Column(f.ID)
		if c == nil || names[i] != f.ID {
			ps.Addf(st.At("factors"), "factor %s of method %s is not input %d of its calculation", f.ID, m.ID, i+1)
			continue
		}
		for _, s := range f.Scores {
			if c.Type.Kind == expr.Number && math.IsNaN(value(s.Score)) {
				ps.Addf(st.At("factors"), "score %s of %s is not a number", s.Score, f.ID)
			}
		}
		if _, ok := m.Read(f, m.IrreversibleFrom); f.Lowers == Severity && m.IrreversibleFrom != "" && !ok {
			ps.Addf(st.At("irreversible_from"), "%s is no score of %s", m.IrreversibleFrom, f.ID)
		}
	}
	if m.Sheet.Column("level") == nil {
		ps.Addf(st.At("calculation"), "the calculation of method %s has no level", m.ID)
	}
}

// value is a score as a number, not a number for a word.
func value(score string) float64 {
	v, err := strconv.ParseFloat(score, 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

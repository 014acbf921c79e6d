package estimate

import (
	"io/fs"
	"slices"

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
	Residual         source.YesNo           `yaml:"residual" means:"no: the method knows no state after measures"`
	Gives            string                 `yaml:"gives" choice:"required-level" means:"what its levels are, where others hold something against them"`
	Settings         settings               `yaml:"settings" means:"what can be chosen, the first choice is that of the bare name"`
	IrreversibleFrom string                 `yaml:"irreversible_from"`
	Factors          source.Map[factorStmt] `yaml:"factors,required"`
	Actions          source.Map[actionStmt] `yaml:"actions,required"`
	Calculation      calculation            `yaml:"calculation,required"`
}

type factorStmt struct {
	source.Item
	Title  string             `yaml:"title,required"`
	Lowers []string           `yaml:"lowers,required" choice:"severity|exposure|occurrence|avoidance"`
	Note   string             `yaml:"note"`
	Scores source.Map[string] `yaml:"scores,required"`
}

type actionStmt struct {
	source.Item
	Action   string `yaml:"action,required" choice:"required|recommended|none"`
	Means    string `yaml:"means,required"`
	Standing string `yaml:"standing" choice:"confirmed|single|practice|memory"`
}

// calculation keeps its node: it is most of a sheet.
type calculation struct{ node *source.Node }

// DecodeNode takes the calculation as it stands.
func (c *calculation) DecodeNode(n *source.Node, ps *source.Problems) {
	if c.node = n; n.Kind != source.Mapping {
		ps.Add(n.Problem("found no keys", "look-ups and steps that give `level`", ""))
	}
}

// Load reads the methods in the folder methods of a folder laid out as
// templates/ is. Their calculations may use the tables and constants of lib.
func Load(fsys fs.FS, lib *sheet.Library) ([]*Method, []source.Problem) {
	var ps source.Problems
	list := readAll(fsys, "methods", lib, &ps)
	return list, ps.List()
}

func readAll(fsys fs.FS, dir string, lib *sheet.Library, ps *source.Problems) []*Method {
	var list []*Method
	source.EachFile(fsys, dir, ps, func(_ string, n *source.Node) {
		for _, m := range read(n, lib, ps) {
			if Find(list, m.ID) != nil {
				ps.Addf(n.Get("id").Pos, "found the method id %s a second time, expected an id of its own", m.ID)
				continue
			}
			list = append(list, m)
		}
	})
	return list
}

// read reads a file: one method, or one for every way to choose its settings.
func read(n *source.Node, lib *sheet.Library, ps *source.Problems) []*Method {
	before := ps.Len()
	ways := readSettings(n, ps)
	var list []*Method
	for _, way := range ways {
		if ps.Len() > before {
			return nil // other choices would only repeat it
		}
		if m := readOne(way.resolve(n, ps), way, lib, ps); m != nil {
			list = append(list, m)
		}
	}
	return list
}

func readOne(n *source.Node, way way, lib *sheet.Library, ps *source.Problems) *Method {
	var st methodStmt
	before := ps.Len()
	source.Decode(n, &st, ps)
	if ps.Len() > before {
		return nil
	}
	m := &Method{ID: st.ID + way.suffix(), Family: st.ID, Title: st.Title + way.title(), Settings: way,
		Standard: table.Standard{ID: st.Standard.ID, Edition: st.Standard.Edition}.String(),
		Clause:   st.Standard.Clause, Standing: st.Standing, Source: st.Source,
		Residual: st.Residual != source.No, Gives: st.Gives, IrreversibleFrom: st.IrreversibleFrom, at: st.Node().Get("id"), calculation: st.At("calculation")}
	for _, e := range st.Factors {
		f := Factor{ID: e.Key, Title: e.Value.Title, Lowers: e.Value.Lowers, Note: e.Value.Note}
		for _, s := range e.Value.Scores {
			f.Scores = append(f.Scores, Score{Score: s.Key, Means: s.Value})
		}
		m.Factors = append(m.Factors, f)
	}
	for _, e := range st.Actions {
		m.Actions = append(m.Actions, Action{Level: e.Key, Action: e.Value.Action, Means: e.Value.Means, Standing: e.Value.Standing})
	}
	m.check(&st, lib, ps)
	if ps.Len() > before {
		return nil
	}
	if m.Sheet = sheet.Read(m.statement(&st, ps), lib, ps); m.Sheet != nil {
		m.checkLevel(&st, ps)
	}
	if ps.Len() > before {
		return nil
	}
	return m
}

// check looks at what the shape of the file does not say.
func (m *Method) check(st *methodStmt, lib *sheet.Library, ps *source.Problems) {
	if !methodName(st.ID) {
		ps.Addf(st.At("id"), "found `%s` as the id of a method, expected small letters, digits and hyphens, a letter first", st.ID)
	}
	for i, key := range st.Source {
		if _, ok := lib.Source(key); !ok {
			ps.Add(st.Node().Get("source").Items[i].Problem("no source is called `"+key+"`", "a key of the list of sources",
				"leave `source` out, and name the document under `standard`"))
		}
	}
	if st.Gives == RequiredLevel {
		for _, e := range st.Actions {
			if !slices.Contains(performanceLevels, e.Key) {
				ps.Addf(e.Pos, "found level `%s`, expected a performance level, since the method gives the required level: one of %s", e.Key, source.Quoted(performanceLevels))
			}
		}
	}
	severe := false
	for i := range m.Factors {
		f := &m.Factors[i]
		f.check(st.Factors[i].Pos, ps)
		if f.May(Severity) && m.IrreversibleFrom != "" {
			_, known := f.Read(m.IrreversibleFrom)
			severe = severe || known
		}
	}
	if m.IrreversibleFrom != "" && !severe {
		ps.Addf(st.At("irreversible_from"), "%s is no score of a factor for severity", m.IrreversibleFrom)
	}
}

// check looks at name and scores of a factor.
func (f *Factor) check(at source.Pos, ps *source.Problems) {
	if !factorName(f.ID) {
		ps.Addf(at, "found `%s` as a factor, expected a letter, then letters, digits or _, and no word that calculations use", f.ID)
	}
	numbers := 0
	for i, s := range f.Scores {
		if decimal(s.Score) {
			numbers++
		}
		for _, t := range f.Scores[:i] {
			if decimal(s.Score) && decimal(t.Score) && number(s.Score) == number(t.Score) {
				ps.Addf(at, "factor %s has the score %s twice", f.ID, s.Score)
			}
		}
	}
	switch {
	case len(f.Scores) < 2:
		ps.Addf(at, "factor %s has %d scores, expected two or more", f.ID, len(f.Scores))
	case numbers > 0 && numbers < len(f.Scores):
		ps.Addf(at, "the scores of factor %s are partly numbers and partly words, expected either", f.ID)
	}
}

// checkLevel looks at what the calculation gives.
func (m *Method) checkLevel(st *methodStmt, ps *source.Problems) {
	at := st.At("calculation")
	if c := m.Sheet.Column("level"); c == nil || c.Role == sheet.Input || c.Type.Kind != expr.Text {
		ps.Addf(at, "the calculation of method %s gives no `level` that is a word, by look-up or step", m.ID)
	}
}

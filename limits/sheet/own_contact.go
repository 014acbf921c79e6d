package sheet

import (
	"cmp"
	"path"
	"regexp"
	"slices"
	"strings"

	"standclear/limits/expr"
	"standclear/limits/source"
	"standclear/limits/table"
)

// Tables of contact data, and what their columns say of who may be touched.
const (
	areasTable   = "contact-areas"
	regionsTable = "contact-regions"

	permittedColumn = "permitted"
	permitted       = "yes"
	never           = "never"
)

func isContact(id string) bool { return id == areasTable || id == regionsTable }

// contactStmt is a file with contact data of the user. Only the values that it
// names take the place of published ones; what it does not name stays.
type contactStmt struct {
	source.Item
	Title    string                 `yaml:"title,required" means:"what the values are"`
	Own      string                 `yaml:"own" means:"where the house took them from, such as a report"`
	Source   []string               `yaml:"source" means:"keys of sources"`
	Standing string                 `yaml:"standing,required" choice:"confirmed|single|practice|memory" means:"how well the values are known"`
	Sources  source.Map[sourceStmt] `yaml:"sources"`
	Regions  []ownRow               `yaml:"regions"`
	Areas    []ownRow               `yaml:"areas"`
}

// ownRow keeps its node: its keys are columns of the table.
type ownRow struct{ node *source.Node }

// DecodeNode takes the row as it stands.
func (r *ownRow) DecodeNode(n *source.Node, _ *source.Problems) { r.node = n }

// rowStmt is what a row may say of its own besides its values.
type rowStmt struct {
	Own      string   `yaml:"own"`
	Source   []string `yaml:"source"`
	Standing string   `yaml:"standing" choice:"confirmed|single|practice|memory"`
}

// ownContacts lays the contact data of the user over that built in. Regions of
// all files come before areas, which name them.
func (l *Library) ownContacts(list []Own, ps *source.Problems) {
	m := contactMerge{lib: l, areas: l.Table(areasTable), regions: l.Table(regionsTable), at: map[string]*source.Node{}}
	if len(list) == 0 || m.areas == nil || m.regions == nil {
		return
	}
	m.keep()
	for _, o := range list {
		o.there("contact data", ps)
		m.dir, m.found = o.Dir, 0
		before := ps.Len()
		o.each(ps, m.read)
		if m.found == 0 && ps.Len() == before {
			ps.Add(source.Problem{Pos: source.Pos{File: o.Dir}, Message: "there is no contact data in it", Expected: "a file such as `contact.yaml`"})
		}
	}
	m.complete(ps)
}

// contactMerge is the laying over of rows of the user.
type contactMerge struct {
	lib            *Library
	areas, regions *table.Table
	barred         map[string]bool // regions that are never touched, as published
	published      map[string]bool // rows of both tables as published
	at             map[string]*source.Node
	dir            string
	found          int
}

// keep notes what is published. A region is barred where none of its areas may
// be touched.
func (m *contactMerge) keep() {
	m.barred, m.published = map[string]bool{}, map[string]bool{}
	open := map[string]bool{}
	for i := range m.areas.Rows {
		m.published[areasTable+m.areas.RowKey(i)] = true
		region := textAt(m.areas, i, "region")
		m.barred[region] = true
		open[region] = open[region] || textAt(m.areas, i, permittedColumn) != never
	}
	for region := range open {
		m.barred[region] = !open[region]
	}
	for i := range m.regions.Rows {
		m.published[regionsTable+m.regions.RowKey(i)] = true
	}
}

func textAt(t *table.Table, row int, column string) string {
	if i := t.Column(column); i >= 0 {
		return t.Rows[row][i].Value.Text
	}
	return ""
}

// read lays one file over the tables.
func (m *contactMerge) read(name, file string, n *source.Node, ps *source.Problems) {
	if name == sources {
		m.lib.readSources(n, ps)
		return
	}
	m.found++
	var st contactStmt
	before := ps.Len()
	source.Decode(n, &st, ps)
	if ps.Len() > before {
		return
	}
	m.lib.addSources(st.Sources, ps)
	if len(st.Regions)+len(st.Areas) == 0 {
		ps.Add(n.Problem("there are no rows", "`areas` or `regions`, each a list of rows", ""))
	}
	own := table.OwnValue{File: file, Title: st.Title, Ref: st.Own, Source: st.Source}
	for _, r := range st.Regions {
		m.row(m.regions, r.node, own, st.Standing, ps)
	}
	for _, r := range st.Areas {
		m.row(m.areas, r.node, own, st.Standing, ps)
	}
}

var rowID = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

// row lays the values of one row over those of its table.
func (m *contactMerge) row(t *table.Table, n *source.Node, own table.OwnValue, standing string, ps *source.Problems) {
	if n == nil || n.Kind != source.Mapping {
		ps.Add(n.Problem("found no row", "a mapping, such as `{"+t.Key+": …}`", ""))
		return
	}
	key := n.Get(t.Key)
	switch {
	case key == nil || key.Null || key.Kind != source.Scalar:
		ps.Add(n.Problem("the row names no "+t.Key, "`"+t.Key+"`, the id of a body "+t.Key, ""))
		return
	case !rowID.MatchString(key.Value):
		ps.Add(key.Problem("found the id `"+key.Value+"`", "small letters, digits and single hyphens, such as `palm-d`", ""))
		return
	case m.at[t.ID+key.Value] != nil:
		first := m.at[t.ID+key.Value]
		ps.Add(key.Problem("`"+key.Value+"` stands in "+first.Pos.String()+" already", "each row once", ""))
		return
	}
	st, ok := m.said(n, own, standing, ps)
	if !ok {
		return
	}
	m.at[t.ID+key.Value] = m.under(key)
	before := ps.Len()
	published := t.Exact(key.Value) >= 0
	cells := map[int]table.Cell{}
	for _, p := range n.Pairs {
		if p.Key.Value == t.Key || slices.Contains([]string{"own", "source", "standing"}, p.Key.Value) {
			continue
		}
		if i, c, ok := m.cell(t, key.Value, p, published, ps); ok {
			c.Standing = table.Standing(st.standing)
			o := st.own
			o.Was = expr.Value{}
			if published {
				o.Was = t.Rows[t.Exact(key.Value)][i].Value
			}
			c.Own = &o
			cells[i] = c
		}
	}
	if ps.Len() > before {
		return
	}
	if len(cells) == 0 {
		ps.Add(n.Problem("the row of `"+key.Value+"` gives no value", "at least one of: "+columnList(t), ""))
		return
	}
	row := t.Row(key.Value)
	for i, c := range cells {
		row[i] = c
	}
}

// saidOf is what stands behind the values of a row.
type saidOf struct {
	own      table.OwnValue
	standing string
}

// said reads where the values of a row come from: as the row says, else as the file.
func (m *contactMerge) said(n *source.Node, own table.OwnValue, standing string, ps *source.Problems) (saidOf, bool) {
	before := ps.Len()
	var st rowStmt
	part := *n
	part.Pairs = slices.DeleteFunc(slices.Clone(n.Pairs), func(p source.Pair) bool {
		return !slices.Contains([]string{"own", "source", "standing"}, p.Key.Value)
	})
	source.Decode(&part, &st, ps)
	if st.Own != "" || len(st.Source) > 0 {
		own.Ref, own.Source = st.Own, st.Source
	}
	standing = cmp.Or(st.Standing, standing)
	for _, key := range own.Source {
		if _, ok := m.lib.Source(key); !ok {
			ps.Add(n.Problem("found the source `"+key+"`, which is not known", "a key of `sources` in this file, or of `sources.yaml` beside it", ""))
		}
	}
	places := len(own.Source)
	if own.Ref != "" {
		places++
	}
	switch {
	case places == 0:
		ps.Add(n.Problem("nothing says where the values come from", "`source` with keys of sources, or `own` with a reference of the house", ""))
	case standing == string(table.Confirmed) && places < 2:
		ps.Add(n.Problem("found the standing `confirmed` with one source", "two sources, or the standing `single`", ""))
	}
	return saidOf{own, standing}, ps.Len() == before
}

// complete checks what only the tables as a whole can tell.
func (m *contactMerge) complete(ps *source.Problems) {
	var own source.Problems
	for i := range m.regions.Rows {
		m.region(i, &own)
	}
	for i := range m.areas.Rows {
		m.area(i, &own)
	}
	for _, p := range own.List() {
		ps.Add(p)
	}
}

// under is the place of a row of the user with the folder that it stands in.
func (m *contactMerge) under(n *source.Node) *source.Node {
	at := *n
	at.Pos.File = path.Join(m.dir, at.Pos.File)
	return &at
}

func columnList(t *table.Table) string {
	var out []string
	for i := range t.Columns {
		if t.Columns[i].ID != t.Key {
			out = append(out, t.Columns[i].ID)
		}
	}
	return strings.Join(out, ", ")
}

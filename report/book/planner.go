package book

import (
	"fmt"
	"slices"
	"strings"

	"standclear/hazards"
	"standclear/limits/expr"
	"standclear/limits/sheet"
	"standclear/limits/table"
)

// Plan plans the workbook of a result.
func Plan(r *hazards.Result) *Book {
	p := newPlanner(r)
	h := r.File.Head
	p.book = &Book{Title: h.Title, Number: h.Number, Revision: h.Revision, Date: h.Date, State: r.Document,
		Version: r.Version, Fingerprint: r.Fingerprint, Input: r.InputSHA256}
	p.evidence()
	p.findTests()
	sheets := []*Sheet{p.summary(), p.cell(), p.tasks(), p.identification(), p.hazards()}
	for _, g := range groups {
		sheets = append(sheets, p.checks(g))
	}
	if s := p.nominal(); s != nil {
		sheets = append(sheets, s)
	}
	sheets = append(sheets, p.measures(), p.validation(), p.handOver(), p.review(), p.data(), p.sources(), p.carried())
	p.book.Sheets = sheets
	return p.book
}

// planner holds what several sheets of the plan share.
type planner struct {
	r    *hazards.Result
	book *Book

	lists     []*Block          // lists of choices
	listIDs   map[string]string // their ids by content
	sheets    []*sheet.Sheet    // calculation sheets in use, in the order of the library
	users     map[string][]string
	pairs     []*pair            // measurement and check, see plan_evidence.go
	tests     []test             // row and point, see plan_validation.go
	tables    map[string]bool    // tables in use
	summed    map[string]Formula // sums of facts by their terms
	tolerance Formula            // of a fact that comes from others
	relied    map[string]bool
	testsOf   map[*hazards.Row][]int
	verdict   map[string]sheet.Verdict // of contacts, checks and functions by id
	kind      map[string]string        // of facts by path
	lender    map[string]*sheet.Sheet  // of checks by id whose results others take
	takes     map[*sheet.Sheet]map[*sheet.Sheet]bool
}

func newPlanner(r *hazards.Result) *planner {
	p := &planner{r: r, listIDs: map[string]string{}, users: map[string][]string{}, tables: map[string]bool{}, summed: map[string]Formula{}, tolerance: formula("IFERROR(ABS(", own("high"), "-", own("value"), `),"")`), relied: map[string]bool{}, testsOf: map[*hazards.Row][]int{},
		verdict: map[string]sheet.Verdict{}, kind: map[string]string{},
		lender: map[string]*sheet.Sheet{}, takes: map[*sheet.Sheet]map[*sheet.Sheet]bool{}}
	used := map[*sheet.Sheet]bool{}
	for i := range r.Checks {
		used[r.Checks[i].Sheet] = true
	}
	for i := range r.OtherEditions {
		used[r.OtherEditions[i].Sheet] = true
	}
	for _, s := range r.Library.Sheets {
		if used[s] {
			p.sheets = append(p.sheets, s)
		}
	}
	for i := range r.Checks {
		if c := &r.Checks[i]; c.Of == c.ID {
			p.verdict[c.ID] = c.Verdict
		}
	}
	for i := range r.Contacts {
		p.verdict[r.Contacts[i].ID] = r.Contacts[i].Verdict
	}
	for i := range r.Facts {
		p.kind[r.Facts[i].Path] = r.Facts[i].Kind
	}
	p.findLinks()
	for i := range r.Rows {
		for _, id := range r.Rows[i].Rests {
			p.users[id] = append(p.users[id], r.Rows[i].ID)
		}
	}
	return p
}

// list gives the id of a list of choices, which is put on the sheet Data. Lists
// of the same words are one.
func (p *planner) list(name string, words []expr.Value) string {
	var key strings.Builder
	for _, w := range words {
		fmt.Fprintf(&key, "%v|", w)
	}
	if id, ok := p.listIDs[key.String()]; ok {
		return id
	}
	b := &Block{ID: "choices:" + name, Bare: true, Helper: true,
		Columns: []*Column{{Key: "list", Width: 28}, {Key: "choice", Width: 20}}}
	for _, w := range words {
		b.Rows = append(b.Rows, &Row{Cells: []Cell{show(name), {Value: w}}})
	}
	p.lists = append(p.lists, b)
	p.listIDs[key.String()] = b.ID + "/choice"
	return b.ID + "/choice"
}

func (p *planner) words(name string, words ...string) string {
	vals := make([]expr.Value, len(words))
	for i, w := range words {
		vals[i] = text(w)
	}
	return p.list(name, vals)
}

// pieces turns the formula of a calculation sheet into one of a block. prefix
// stands before the keys of the own row.
func (p *planner) pieces(s *sheet.Sheet, pieces []sheet.Piece, prefix string) Formula {
	out := make(Formula, 0, len(pieces))
	for _, pc := range pieces {
		p.tables[pc.Ref.Table] = true
		switch pc.Ref.Kind {
		case 0:
			out = append(out, lit(pc.Lit))
		case sheet.Self:
			out = append(out, own(prefix+pc.Ref.Name))
		case sheet.Const:
			out = append(out, Part{Ref: Ref{Kind: Named, Key: constName(p.r.Library.Constant(pc.Ref.Name, s))}})
		case sheet.TableColumn:
			out = append(out, all(tableID(pc.Ref.Table), pc.Ref.Name))
		case sheet.TableGrid:
			out = append(out, Part{Ref: Ref{Kind: Area, Block: tableID(pc.Ref.Table)}})
		case sheet.TableHeads:
			out = append(out, Part{Ref: Ref{Kind: HeadArea, Block: tableID(pc.Ref.Table)}})
		}
	}
	return out
}

// all calculation sheets in use, the method of estimation last.
func (p *planner) inUse() []*sheet.Sheet {
	list := append([]*sheet.Sheet(nil), p.sheets...)
	if s := p.ladderSheet(); s != nil && !slices.Contains(list, s) {
		list = append(list, s)
	}
	if p.r.Method != nil && p.r.Method.Sheet != nil {
		list = append(list, p.r.Method.Sheet)
	}
	return list
}

// constName is the name of a constant in formulas: its own if all sheets share
// it, else with the id of its sheet before it.
func constName(k *sheet.ConstantValue) string {
	if k.Of == "" {
		return k.Name
	}
	return strings.NewReplacer("-", "_", ".", "_", "/", "_").Replace(k.Of) + "_" + k.Name
}

func tableID(id string) string { return "table:" + id }

// tablesInUse lists the tables that formulas or choices of the sheets planned
// so far use.
func (p *planner) tablesInUse() []*table.Table {
	var out []*table.Table
	for _, t := range p.r.Library.Tables {
		if p.tables[t.ID] {
			out = append(out, t)
		}
	}
	return out
}

// joined lists ids in a cell.
func joined(ids []string) string { return strings.Join(ids, ", ") }

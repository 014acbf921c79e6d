package sheet

import (
	"strconv"
	"strings"

	"standclear/limits/expr"
)

// RefKind is what a reference of a formula points at.
type RefKind uint8

// Kinds of reference.
const (
	Self        RefKind = iota + 1 // a column of the same row
	Const                          // a constant
	TableColumn                    // all rows of a column of a table
	TableGrid                      // all grid cells of a table
	TableHeads                     // the row of keys above a grid
)

// Ref is a place that a formula points at; the writer knows where it lies.
type Ref struct {
	Kind  RefKind
	Table string
	Name  string
}

// Piece is literal formula text or a reference.
type Piece struct {
	Lit string
	Ref Ref
}

func lit(s string) Piece  { return Piece{Lit: s} }
func self(n string) Piece { return Piece{Ref: Ref{Kind: Self, Name: n}} }

func comma(out []Piece) Piece {
	if len(out) == 0 {
		return Piece{}
	}
	return lit(",")
}

func trim(ps []Piece) []Piece {
	out := ps[:0]
	for _, p := range ps {
		if p != (Piece{}) {
			out = append(out, p)
		}
	}
	return out
}

// or joins conditions, given with their commas.
func or(conds []Piece) []Piece { return join(lit("OR("), conds, lit(")")) }

// join strings pieces and lists of pieces together.
func join(parts ...any) []Piece {
	var out []Piece
	for _, p := range parts {
		switch p := p.(type) {
		case Piece:
			out = append(out, p)
		case []Piece:
			out = append(out, p...)
		}
	}
	return out
}

func quote(s string) string { return `"` + strings.ReplaceAll(s, `"`, `""`) + `"` }

func number(x float64) string { return strconv.FormatFloat(x, 'G', -1, 64) }

// pieces turns a fitted formula into references of this sheet.
func pieces(s *Sheet, parts []expr.Part) []Piece {
	out := make([]Piece, 0, len(parts))
	for _, p := range expr.Expand(parts, func(list string) int { return len(s.Lists[list]) }) {
		switch {
		case p.Range:
			l := s.Lists[p.Name]
			out = append(out, self(l[0].Name), lit(":"), self(l[len(l)-1].Name))
		case p.Name == "":
			out = append(out, lit(p.Lit))
		case p.Index >= 0 && len(s.Lists[p.Name]) > p.Index:
			out = append(out, self(s.Lists[p.Name][p.Index].Name))
		case s.byName[p.Name].Role == Constant:
			out = append(out, Piece{Ref: Ref{Kind: Const, Name: p.Name}})
		default:
			out = append(out, self(p.Name))
		}
	}
	return out
}

// Formula gives the spreadsheet formula of a column, nil for an input. Only
// functions that spreadsheets have had since 2007 are used.
func (s *Sheet) Formula(c *Column) []Piece {
	switch c.Role {
	case Lookup:
		return s.lookupFormula(c.lookup)
	case Step:
		return s.wrap(s.stepFormula(c.step))
	case Shown:
		x := self(c.of.Name)
		f := "ROUNDDOWN(ROUND("
		if c.Up {
			f = "ROUNDUP(ROUND("
		}
		return join(lit("IF("), x, lit(`="","",`+f), x, lit(","+strconv.Itoa(noiseDigits)+"),"+strconv.Itoa(c.Decimals)+"))"))
	case Rule:
		return s.ruleFormula()
	case Verd:
		return s.choose(string(s.is), func(r *rule) string { return string(r.verdict) })
	case Why:
		return s.choose(s.isWhy, func(r *rule) string { return r.because })
	case Use:
		if s.use != nil {
			return s.wrap(s.use.formula(s, `""`))
		}
		return []Piece{lit(`""`)}
	}
	return nil
}

// wrap withholds a value where the sheet says so, and shows nothing instead of
// an error.
func (s *Sheet) wrap(body []Piece) []Piece {
	var held []Piece
	for _, g := range s.withhold {
		held = join(held, comma(held), lit("("), noError(g.formula(s, "FALSE()"), "FALSE()"), lit(")=TRUE()"))
	}
	if held != nil {
		body = join(lit("IF("), or(trim(held)), lit(`,"",`), body, lit(")"))
	}
	return join(lit("IFERROR("), body, lit(`,"")`))
}

func (s *Sheet) stepFormula(st *step) []Piece {
	var body []Piece
	closing := 0
	for i := range st.cases {
		c := &st.cases[i]
		if c.cond == nil {
			body = join(body, c.is.formula(s, `""`))
			break
		}
		// an absent condition makes the step absent, whatever stands behind it
		if abs := c.cond.absence(s); len(abs) > 0 {
			body = join(body, lit("IF("), or(abs), lit(`,"",`))
			closing++
		}
		cond := pieces(s, c.cond.f.Formula())
		if mayBeAbsent(cond) {
			body = join(body, lit("IF(("), cond, lit(`)="","",`))
			closing++
		}
		body = join(body, lit("IF("), cond, lit(","), c.is.formula(s, `""`), lit(","))
		closing++
		if i == len(st.cases)-1 {
			body = append(body, lit(`""`))
		}
	}
	body = append(body, lit(strings.Repeat(")", closing)))
	if st.given != nil {
		g := self(st.given.Name)
		body = join(lit("IF("), g, lit(`<>"",`), g, lit(","), body, lit(")"))
	}
	return body
}

// mayBeAbsent tells whether a condition guards something within.
func mayBeAbsent(cond []Piece) bool {
	for _, p := range cond {
		if strings.Contains(p.Lit, `,"",`) {
			return true
		}
	}
	return false
}

func (s *Sheet) lookupFormula(l *lookup) []Piece {
	keys := Piece{Ref: Ref{Kind: TableColumn, Table: l.table.ID, Name: l.table.Key}}
	row := s.matchFormula(l.keys[0], keys, len(l.table.Rows))
	var value []Piece
	if l.col >= 0 {
		col := Piece{Ref: Ref{Kind: TableColumn, Table: l.table.ID, Name: l.table.Columns[l.col].ID}}
		value = cellFormula(col, row, [2][]Piece{})
	} else {
		heads := Piece{Ref: Ref{Kind: TableHeads, Table: l.table.ID}}
		grid := Piece{Ref: Ref{Kind: TableGrid, Table: l.table.ID}}
		value = cellFormula(grid, row, s.matchFormula(l.keys[1], heads, len(l.table.Heads)))
	}
	if l.gaps() {
		value = join(lit("IF("), value, lit(`="","",`), value, lit(")"))
	}
	var names []Piece
	for _, k := range l.keys {
		ends := []*Column{s.byName[k.name]}
		if r, ok := s.Ranges[k.name]; ok {
			ends = r[:]
		}
		for _, c := range ends {
			names = append(names, comma(names), self(c.Name), lit(`=""`))
		}
	}
	return join(lit("IFERROR(IF("), or(trim(names)), lit(`,"",`), value, lit(`),"")`))
}

// gaps tells whether the column, or the grid, has cells without a value.
func (l *lookup) gaps() bool {
	from, to := l.col, l.col+1
	if l.col < 0 {
		from, to = l.table.First, len(l.table.Columns)
	}
	for _, r := range l.table.Rows {
		for _, c := range r[from:to] {
			if !c.Value.Given() {
				return true
			}
		}
	}
	return false
}

// matchFormula gives the first and last index that a key takes in keys.
func (s *Sheet) matchFormula(k lookupKey, keys Piece, n int) [2][]Piece {
	lo, hi := self(k.name), self(k.name)
	if r, ok := s.Ranges[k.name]; ok {
		lo, hi = self(r[0].Name), self(r[1].Name)
	}
	match := func(x Piece, how string) []Piece {
		return join(lit("MATCH("), x, lit(","), keys, lit(","+how+")"))
	}
	upper := func() []Piece {
		m := match(hi, "1")
		return join(lit("IFERROR(IF(INDEX("), keys, lit(","), m, lit(")="), hi, lit(","), m, lit(",MIN("), m, lit("+1,"+strconv.Itoa(n)+")),1)"))
	}
	switch k.match {
	case exact:
		m := match(lo, "0")
		return [2][]Piece{m, m}
	case nextUp:
		u := upper()
		return [2][]Piece{u, u}
	case nextDown:
		m := match(lo, "1")
		return [2][]Piece{m, m}
	}
	return [2][]Piece{match(lo, "1"), upper()}
}

// cellFormula takes the one cell, or the greatest of the cells spanned.
func cellFormula(area Piece, row, col [2][]Piece) []Piece {
	at := func(r, c []Piece) []Piece {
		out := join(lit("INDEX("), area, lit(","), r)
		if c != nil {
			out = join(out, lit(","), c)
		}
		return append(out, lit(")"))
	}
	if same(row) && same(col) {
		return at(row[0], col[0])
	}
	return join(lit("MAX("), at(row[0], col[0]), lit(":"), at(row[1], col[1]), lit(")"))
}

func same(ends [2][]Piece) bool {
	if len(ends[0]) != len(ends[1]) {
		return false
	}
	for i := range ends[0] {
		if ends[0][i] != ends[1][i] {
			return false
		}
	}
	return true
}

// noError puts otherwise in place of the error that a division, a root or a
// power may give; the Go value is absent there.
func noError(body []Piece, otherwise string) []Piece {
	for _, p := range body {
		if strings.ContainsAny(p.Lit, "/^") || strings.Contains(p.Lit, "SQRT") {
			return join(lit("IFERROR("), body, lit(","+otherwise+")"))
		}
	}
	return body
}

func (s *Sheet) ruleFormula() []Piece {
	var out []Piece
	for i, r := range s.rules {
		out = join(out, lit("IF(("), noError(r.formula, "FALSE()"), lit(")=TRUE(),"+strconv.Itoa(i+1)+","))
	}
	return append(out, lit("0"+strings.Repeat(")", len(s.rules))))
}

func (s *Sheet) choose(none string, word func(*rule) string) []Piece {
	words := []string{none}
	for _, r := range s.rules {
		words = append(words, word(r))
	}
	var out []Piece
	closing := 0
	for first := 0; first < len(words); first += maxChoose {
		some := words[first:min(first+maxChoose, len(words))]
		if first+maxChoose < len(words) {
			out = join(out, lit("IF("), self("rule"), lit("<"+strconv.Itoa(first+maxChoose)+","))
			closing++
		}
		out = join(out, lit("CHOOSE("), self("rule"), lit("-"+strconv.Itoa(first)+"+1"))
		for _, w := range some {
			out = append(out, lit(","+quote(w)))
		}
		out = append(out, lit(")"))
		if first+maxChoose < len(words) {
			out = append(out, lit(","))
		}
	}
	return append(out, lit(strings.Repeat(")", closing)))
}

// maxChoose is how many texts one CHOOSE takes: an open spreadsheet stops at 30.
const maxChoose = 25

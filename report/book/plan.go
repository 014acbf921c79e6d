// Package book writes an assessment as a live workbook: every number is a
// formula with its value, and what may be edited looks like it.
//
// The workbook is planned as data first. A plan names sheets, blocks, columns
// and rows by ids and keys and never by coordinates; layout places the blocks
// and turns references into cell addresses; write puts them into a file. A
// reader that finds ids and keys in the file can use the same plan.
package book

import (
	"strings"

	"standclear/limits/expr"
)

// Book is a planned workbook.
type Book struct {
	Title, Number, Revision, Date string
	State                         string // of the document as built
	Version                       string // of the program
	Fingerprint                   string // of the document, in full
	Input                         string // SHA-256 of the assessment file
	Sheets                        []*Sheet
	Names                         []Name
}

// Name is a name for one cell that formulas of all sheets use.
type Name struct {
	Name string
	Cell Ref
}

// Sheet is one sheet of the workbook: blocks below each other.
type Sheet struct {
	ID     string // stands hidden in the first cell
	Name   string // on the tab
	About  string // one line of explanation
	Blocks []*Block
	Hidden bool
}

// Block is a table of a sheet. Its first, hidden column holds the id of each
// row, a hidden row above its heads the key of each column. Sorting its rows
// breaks nothing, since formulas elsewhere look rows up by id.
type Block struct {
	ID      string // unique in the workbook
	Title   string // "" when the sheet needs none
	Short   string // stands before the title, where the title would not fit a repeated column
	Note    string
	Columns []*Column
	Rows    []*Row
	Bare    bool // a list of labels and values: no heads
	Helper  bool // for formulas; stands at the end of its sheet and is not printed
}

// Column is a column of a block. Its formula and choices stand for every row
// whose cell brings none of its own.
type Column struct {
	Key     string
	Head    string // symbol or word
	Means   string
	Unit    string
	Width   float64 // characters
	Edit    bool
	Choice  string // list of choices: block and key, as in "table:contact-areas/area"
	Bounds  *Bounds
	Look    Look
	Hidden  bool
	Formula Formula
	At      *float64 // key of a grid column; stands in the head as a number
	Watch   []string // keys: 1 where a cell of theirs that may be edited no longer holds what the plan holds, else 0
}

// Bounds are what a spreadsheet checks when a number is typed; ends included.
type Bounds struct{ From, To float64 }

// Row is a row of a block.
type Row struct {
	ID    string
	Cells []Cell // as Columns
	Spare bool   // empty, prepared for a row to be added
}

// Cell is one cell. A zero Value is an empty cell.
type Cell struct {
	Value   expr.Value
	Formula Formula // nil: that of the column, if Live
	Live    bool    // a formula stands here
	Edit    bool
	Leads   bool // a link to the row whose id the text begins with, where there is one
	Look    Look // 0: that of the column
}

// Look is what a cell is, which decides how it is drawn.
type Look uint8

// Looks of cells.
const (
	Plain   Look = iota // wrapped text, numbers as they come
	Ident               // an id
	Word                // a verdict or state: the word counts, colour supports it
	Share               // a share of a limit, in per cent
	Count               // a whole number
	Label               // the name of a value beside it
	Quiet               // helper values, grey
	Heading             // a line that stands out
	Wide                // text that runs over the cells to its right
	Exact               // a result that is not rounded, shown to three decimals
)

// Part is a piece of a formula: literal text, or a reference.
type Part struct {
	Lit string
	Ref Ref
}

// Formula is a spreadsheet formula without "=", as a list of parts.
type Formula []Part

// RefKind is what a reference points at.
type RefKind uint8

// Kinds of reference.
const (
	Own      RefKind = iota + 1 // Key: the column of that key in the same row
	At                          // Block, Row, Key: one cell
	Range                       // Block, Key: all rows of a column
	Area                        // Block: all grid cells
	HeadArea                    // Block: the keys above the grid
	Named                       // Key: a name
)

// Ref is a symbolic reference.
type Ref struct {
	Kind            RefKind
	Block, Row, Key string
}

func lit(s string) Part          { return Part{Lit: s} }
func own(key string) Part        { return Part{Ref: Ref{Kind: Own, Key: key}} }
func all(block, key string) Part { return Part{Ref: Ref{Kind: Range, Block: block, Key: key}} }

// choiceRange is the range of a list of choices.
func choiceRange(choice string) Part {
	block, key, _ := strings.Cut(choice, "/")
	return all(block, key)
}

// formula strings parts, formulas and literal texts together.
func formula(pieces ...any) Formula { return make(Formula, 0, 2*len(pieces)).plus(pieces...) }

// plus appends to a formula, which is not to be used any further.
func (f Formula) plus(pieces ...any) Formula {
	for _, p := range pieces {
		switch p := p.(type) {
		case string:
			f = append(f, lit(p))
		case Part:
			f = append(f, p)
		case Formula:
			f = append(f, p...)
		}
	}
	return f
}

// find looks up the cell of a column by the id of its row. Ids in id cells
// never hold the signs * ? ~ that MATCH reads as patterns.
func find(block, key string, id any) Formula {
	return formula("INDEX(", all(block, key), ",MATCH(", id, ",", all(block, idKey), ",0))")
}

// orBlank shows nothing where a look-up fails or finds an empty cell.
func orBlank(f Formula) Formula {
	return formula("IFERROR(IF(", f, `="","",`, f, `),"")`)
}

// quoted is a text within a formula. A spreadsheet takes no more than 255
// characters in one, so that a long text is put together.
func quoted(s string) string {
	const most = 240
	runes := []rune(s)
	var out []string
	for len(out) == 0 || len(runes) > 0 {
		n := min(most, len(runes))
		out = append(out, `"`+strings.ReplaceAll(string(runes[:n]), `"`, `""`)+`"`)
		runes = runes[n:]
	}
	return strings.Join(out, "&")
}

// idKey is the key of the hidden first column of every block.
const idKey = "id"

func text(s string) expr.Value {
	if s == "" {
		return expr.Value{}
	}
	return expr.Value{Kind: expr.Text, Text: s}
}

func num(x float64) expr.Value { return expr.Value{Kind: expr.Number, Num: x} }

// show is a locked text.
func show(s string) Cell { return Cell{Value: text(s)} }

// leads is a locked text that leads to the row of the first id in it.
func leads(s string) Cell { return Cell{Value: text(s), Leads: true} }

// edit is an input cell.
func edit(v expr.Value) Cell { return Cell{Value: v, Edit: true} }

// live is a cell with the formula of its column.
func live(v expr.Value) Cell { return Cell{Value: v, Live: true} }

// calc is a cell with a formula of its own.
func calc(v expr.Value, f Formula) Cell { return Cell{Value: v, Live: true, Formula: f} }

// Column finds the place of a column by key, -1 when there is none.
func (b *Block) Column(key string) int {
	for i, c := range b.Columns {
		if c.Key == key {
			return i
		}
	}
	return -1
}

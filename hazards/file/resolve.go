package file

import (
	"errors"
	"fmt"
	"strings"

	"standclear/limits/quantity"
	"standclear/limits/source"
)

// Leaf is one literal that a value comes from, or a look-up in a stopping grid.
type Leaf struct {
	Path   string            // of the amount it is the whole of; of a grid look-up robot.stopping.time; "" for a number within a sum
	Value  quantity.Quantity // zero for a grid look-up
	Grid   bool              // the value depends on the task: look it up in the grid of the robot
	Origin string            // measured, datasheet, standard, assumed or configuration; "" for a grid look-up
	Ref    string
	Pos    source.Pos
}

// ErrNotGiven is returned for an amount that is not in the file.
var ErrNotGiven = errors.New("not given")

// ErrGrid is returned with the leaves when one of them is a look-up in a
// stopping grid: fill in its value and call Sum.
var ErrGrid = errors.New("rests on a stopping grid")

// mostLeaves bounds what sums of sums can grow to.
const mostLeaves = 500

// deepest bounds how many paths may lead on to another path.
const deepest = 100

// Resolve follows the paths of an amount down to its literals and adds them up.
// The error is ErrNotGiven, ErrGrid, or, for an amount that was not loaded from
// the file, a path that leads nowhere, a circle or dimensions that differ.
func (ix *Index) Resolve(a Amount) (quantity.Quantity, []Leaf, error) {
	if !a.Set {
		return quantity.Quantity{}, nil, ErrNotGiven
	}
	o := &Entry{Path: ix.PathOf(a), Origin: a.From, Ref: a.Ref, Amount: &a}
	if e := ix.byNode[a.Node()]; e != nil && a.Node() != nil {
		o = e
	}
	return ix.resolve(o, a.Terms)
}

// ResolveGiven is Resolve for an input of a check that is a quantity or a sum.
func (ix *Index) ResolveGiven(g Given) (quantity.Quantity, []Leaf, error) {
	if len(g.Terms) == 0 {
		return quantity.Quantity{}, nil, ErrNotGiven
	}
	from := g.From
	if from == "" {
		from = Assumed
	}
	return ix.resolve(&Entry{Origin: from, Ref: g.Ref}, g.Terms)
}

func (ix *Index) resolve(o *Entry, terms []Term) (quantity.Quantity, []Leaf, error) {
	r := resolver{ix: ix}
	if err := r.expand(o, terms); err != nil {
		return quantity.Quantity{}, nil, err
	}
	for _, l := range r.leaves {
		if l.Grid {
			return quantity.Quantity{}, r.leaves, ErrGrid
		}
	}
	q, err := Sum(r.leaves)
	return q, r.leaves, err
}

// Sum adds up the values of leaves, in the unit of the first.
func Sum(leaves []Leaf) (quantity.Quantity, error) {
	if len(leaves) == 0 {
		return quantity.Quantity{}, ErrNotGiven
	}
	total := leaves[0].Value
	for _, l := range leaves[1:] {
		var err error
		if total, err = total.Add(l.Value); err != nil {
			return quantity.Quantity{}, err
		}
	}
	return total, nil
}

type resolver struct {
	ix     *Index
	open   []string // paths being followed
	leaves []Leaf
}

// expand adds the leaves of the terms that stand in o.
func (r *resolver) expand(o *Entry, terms []Term) error {
	for _, t := range terms {
		if err := r.term(o, t, len(terms) == 1); err != nil {
			return err
		}
		if len(r.leaves) > mostLeaves {
			return &tooMuch{fmt.Sprintf("adds up more than %d values", mostLeaves)}
		}
	}
	return nil
}

func (r *resolver) term(o *Entry, t Term, whole bool) error {
	switch {
	case t.Path == "":
		l := Leaf{Value: t.Quantity, Origin: o.Origin, Ref: o.Ref, Pos: t.Pos}
		if l.Origin == "" {
			l.Origin = Assumed
		}
		if whole {
			l.Path = o.Path
		}
		r.leaves = append(r.leaves, l)
		return nil
	case t.IsGrid():
		r.leaves = append(r.leaves, Leaf{Path: t.Path, Grid: true, Pos: t.Pos})
		return nil
	}
	e, ok := r.ix.byPath[t.Path]
	if !ok || !e.Amount.Set {
		return fmt.Errorf("`%s` leads to no value", t.Path)
	}
	for i, p := range r.open {
		if p == t.Path {
			return &circle{append(r.open[i:len(r.open):len(r.open)], t.Path)}
		}
	}
	if len(r.open) >= deepest {
		return &tooMuch{fmt.Sprintf("follows more than %d paths", deepest)}
	}
	r.open = append(r.open, t.Path)
	err := r.expand(e, e.Amount.Terms)
	r.open = r.open[:len(r.open)-1]
	return err
}

// circle is the error for paths that lead back to where they began.
type circle struct{ paths []string }

func (c *circle) Error() string {
	return "goes round in a circle: `" + strings.Join(c.paths, "` -> `") + "`"
}

// tooMuch is the error for sums that no reader could follow.
type tooMuch struct{ what string }

func (t *tooMuch) Error() string { return t.what }

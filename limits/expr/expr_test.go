package expr

import (
	"strings"
	"testing"

	"standclear/limits/quantity"
)

// names is a scope: "mm", "text", "bool"; "list N" for a list.
type names map[string]string

func (s names) Lookup(name string) (Type, bool, bool) {
	text, ok := s[name]
	if !ok {
		return Type{}, false, false
	}
	text, list := strings.CutPrefix(text, "list ")
	return typeOf(text), list, true
}

func typeOf(text string) Type {
	switch text {
	case "text":
		return Type{Kind: Text}
	case "bool":
		return Type{Kind: Bool}
	}
	u, err := quantity.ParseUnit(text)
	if err != nil {
		panic(err)
	}
	return Type{Kind: Number, Unit: u}
}

var cell = names{
	"d": "mm", "d_0": "mm", "C": "mm", "T": "s", "t": "ms", "K_hand": "mm/s", "v": "mm/s", "V": "m/s", "D": "m",
	"mu": "kg", "K": "N/mm", "F": "N", "p": "N/cm2", "A": "cm2", "share": "%", "n": "", "m": "", "rate": "1/h", "speed": "km/h",
	"shape": "text", "under": "text", "holds": "bool", "ready": "bool", "PFH": "list 1/h", "words": "list text",
}

func fitted(t testing.TB, src, want string) *Fitted {
	t.Helper()
	tree, err := Parse(src)
	if err != nil {
		t.Fatalf("%s: %v", src, err)
	}
	f, err := tree.Fit(cell, typeOf(want))
	if err != nil {
		t.Fatalf("%s: %v", src, err)
	}
	return f
}

// sheetText is a formula with names as references.
func sheetText(f *Fitted) string {
	var b strings.Builder
	for _, p := range f.Formula() {
		b.WriteString(p.Lit + p.Name)
	}
	return b.String()
}

// evaluate computes with the given values; a list has members name1, name2, name3.
func evaluate(f *Fitted, given map[string]Value) Value {
	slots := map[string]int{}
	var vars []Value
	run := f.Compile(func(name string) (int, int) {
		first, ok := slots[name]
		if !ok {
			first = len(vars)
			slots[name] = first
			vars = append(vars, given[name], given[name+"2"], given[name+"3"])
		}
		return first, 3
	})
	return run(vars)
}

func num(x float64) Value  { return Value{Kind: Number, Num: x} }
func text(s string) Value  { return Value{Kind: Text, Text: s} }
func boolean(b bool) Value { return Value{Kind: Bool, Bool: b} }
func absent() (none Value) { return }
func same(a, b Value) bool { return a == b }

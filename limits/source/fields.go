package source

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"sync"
)

// fieldTag is what the tags of a struct field say.
type fieldTag struct {
	key      string
	required bool
	choice   []string
	means    string
	example  string
}

type field struct {
	fieldTag
	index []int
}

// fields is what Decode knows of a struct type.
type fields struct {
	list  []field
	keys  []string // sorted
	items [][]int  // embedded Items
	byKey map[string]int
}

var fieldCache sync.Map // reflect.Type to *fields

func fieldsOf(t reflect.Type) *fields {
	if f, ok := fieldCache.Load(t); ok {
		return f.(*fields)
	}
	f := &fields{byKey: map[string]int{}}
	f.collect(t, nil)
	for i := range f.list {
		key := f.list[i].key
		if _, twice := f.byKey[key]; twice {
			panic(fmt.Sprintf("source: %v has the key %q twice", t, key))
		}
		f.byKey[key] = i
		f.keys = append(f.keys, key)
	}
	slices.Sort(f.keys)
	fieldCache.Store(t, f)
	return f
}

func (f *fields) collect(t reflect.Type, above []int) {
	for i := range t.NumField() {
		sf := t.Field(i)
		index := append(slices.Clone(above), i)
		tag := sf.Tag.Get("yaml")
		switch {
		case tag == "-":
		case tag != "":
			if !sf.IsExported() {
				panic(fmt.Sprintf("source: field %s of %v has a key but is not exported", sf.Name, t))
			}
			f.list = append(f.list, field{parseTag(tag, sf.Tag), index})
		case sf.Type == reflect.TypeFor[Item]() && sf.Anonymous:
			f.items = append(f.items, index)
		case sf.Anonymous && sf.Type.Kind() == reflect.Struct:
			f.collect(sf.Type, index)
		}
	}
}

func parseTag(yaml string, tag reflect.StructTag) fieldTag {
	key, option, _ := strings.Cut(yaml, ",")
	t := fieldTag{key: key, required: option == "required", means: tag.Get("means"), example: tag.Get("example")}
	if choice := tag.Get("choice"); choice != "" {
		t.choice = strings.Split(choice, "|")
	}
	return t
}

func (f *fields) find(key string) *field {
	if i, ok := f.byKey[key]; ok {
		return &f.list[i]
	}
	return nil
}

func (f *fields) setItems(v reflect.Value, n *Node) {
	for _, index := range f.items {
		v.FieldByIndex(index).Set(reflect.ValueOf(Item{node: n}))
	}
}

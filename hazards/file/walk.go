package file

import (
	"iter"
	"reflect"
	"strconv"
	"strings"
	"sync"

	"standclear/limits/source"
)

// place says where in the assessment a struct stands.
type place struct {
	kind string // kind of the nearest item with an id
	id   string // its id
	item any    // pointer to it
	base string // its path, "" above any item
	path string // of the struct itself
	lost bool   // an id is missing, so that there is no path
}

// join is the place of a struct without id under a key.
func (p place) join(key string) place {
	if p.path != "" {
		key = p.path + "." + key
	}
	p.path = key
	return p
}

// enter is the place of an item with an id.
func (p place) enter(kind, id string, item any) place {
	if p.base != "" {
		id, p.id = p.base+"."+id, id
	} else {
		p.id = id
	}
	p.kind, p.item, p.base, p.path = kind, item, id, id
	p.lost = p.lost || p.id == ""
	return p
}

// record is one struct of the assessment.
type record struct {
	place
	owner *source.Node // the mapping it was read from, nil when that is missing
	value reflect.Value
	keys  []keyInfo // of its type
}

// keyInfo is what the type says about one key of a struct.
type keyInfo struct {
	name  string
	must  bool // the key is required
	empty bool // its list may be empty
	index int  // of the field
	slice bool
	ref   []string // kinds of items it points at
	known string   // names of the library it asks for
	form  string
	of    reflect.Type
	tag   reflect.StructTag
}

// field is one key of one struct, written or not.
type field struct {
	*keyInfo
	at    *record
	node  *source.Node // its value, nil when not written
	value reflect.Value
}

// fields gives the fields of records whose key is wanted.
func fields(records []*record, wanted func(*keyInfo) bool) iter.Seq[field] {
	return func(yield func(field) bool) {
		for _, r := range records {
			for i := range r.keys {
				if k := &r.keys[i]; wanted(k) && !yield(field{k, r, r.owner.Get(k.name), r.value.Field(k.index)}) {
					return
				}
			}
		}
	}
}

var keyCache sync.Map // reflect.Type to []keyInfo

// keysOfType reads the tags of a type once.
func keysOfType(t reflect.Type) []keyInfo {
	if keys, ok := keyCache.Load(t); ok {
		return keys.([]keyInfo)
	}
	var keys []keyInfo
	for i := range t.NumField() {
		tag := t.Field(i).Tag
		name, option, _ := strings.Cut(tag.Get("yaml"), ",")
		if name == "" {
			continue
		}
		k := keyInfo{name: name, must: option == "required", empty: tag.Get("empty") != "", index: i, known: tag.Get("known"),
			form: tag.Get("form"), of: t.Field(i).Type, tag: tag, slice: t.Field(i).Type.Kind() == reflect.Slice}
		if kinds := tag.Get("ref"); kinds != "" {
			k.ref = strings.Split(kinds, "|")
		}
		keys = append(keys, k)
	}
	keyCache.Store(t, keys)
	return keys
}

// kinds are the items with ids by type.
var kinds = map[reflect.Type]string{
	reflect.TypeFor[Misuse](): "misuse", reflect.TypeFor[Upkeep](): "upkeep",
	reflect.TypeFor[People](): "people", reflect.TypeFor[Mode](): "mode",
	reflect.TypeFor[Robot](): "robot", reflect.TypeFor[Setting](): "setting", reflect.TypeFor[Stopping](): "stopping",
	reflect.TypeFor[Machine](): "machine", reflect.TypeFor[Tool](): "tool", reflect.TypeFor[Part](): "part",
	reflect.TypeFor[Safeguard](): "safeguard", reflect.TypeFor[Function](): "function", reflect.TypeFor[Space](): "space",
	reflect.TypeFor[Task](): "task", reflect.TypeFor[Contact](): "contact", reflect.TypeFor[Spot](): "contact-point", reflect.TypeFor[Check](): "check",
	reflect.TypeFor[Hazard](): "hazard", reflect.TypeFor[Measure](): "measure", reflect.TypeFor[Point](): "point",
}

// kindWords name the kinds in messages.
var kindWords = map[string]string{
	"misuse": "a foreseeable misuse", "upkeep": "an upkeep item", "people": "a kind of people", "mode": "a mode",
	"robot": "a robot", "setting": "a setting of a robot", "stopping": "a point of a stopping grid", "machine": "a machine",
	"tool": "a tool", "part": "a part", "safeguard": "a safeguard", "function": "a safety function", "space": "a space",
	"task": "a task", "contact": "a contact", "contact-point": "a point of a contact", "check": "a check", "hazard": "a hazard row", "measure": "a measure",
	"point": "a validation point",
}

// leaves are the structs that stand for one value.
var leaves = map[reflect.Type]bool{
	reflect.TypeFor[Amount](): true, reflect.TypeFor[Given](): true, reflect.TypeFor[Score](): true,
}

// recordsOf lists every struct of the assessment.
func recordsOf(a *Assessment) []*record {
	var w walker
	w.visit(reflect.ValueOf(a).Elem(), place{})
	return w.list
}

type walker struct{ list []*record }

// visit lists a struct and all below it.
func (w *walker) visit(v reflect.Value, at place) {
	if kind, ok := kinds[v.Type()]; ok {
		at = at.enter(kind, v.FieldByName("ID").String(), v.Addr().Interface())
	}
	r := &record{at, v.Addr().Interface().(interface{ Node() *source.Node }).Node(), v, keysOfType(v.Type())}
	w.list = append(w.list, r)
	for i := range r.keys {
		w.descend(v.Field(r.keys[i].index), at, r.keys[i].name)
	}
}

// descend visits what stands under a key.
func (w *walker) descend(v reflect.Value, at place, key string) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			w.descend(v.Elem(), at, key)
		}
	case reflect.Struct:
		if !leaves[v.Type()] {
			w.visit(v, at.join(key))
		}
	case reflect.Slice:
		if v.Len() > 0 {
			w.items(v, at.join(key))
		}
	}
}

// items visits the structs of a list. One without id is numbered: the first of
// the parts of the function fn is fn.part-1.
func (w *walker) items(v reflect.Value, at place) {
	elem := v.Type().Elem()
	if elem.Kind() != reflect.Struct || leaves[elem] || v.Type().Name() != "" { // a source.Map holds values
		return
	}
	for i := range v.Len() {
		under := at
		if _, named := kinds[elem]; !named {
			under.path = strings.TrimSuffix(at.path, "s") + "-" + strconv.Itoa(i+1)
		} else {
			under.path = at.base
		}
		w.visit(v.Index(i), under)
	}
}

// scalars are the values of a field that are written as text, one or a list.
func (f field) scalars() []*source.Node {
	switch {
	case f.node == nil || f.node.Null:
		return nil
	case f.node.Kind == source.Scalar && !f.slice:
		return []*source.Node{f.node}
	case f.node.Kind == source.List && f.slice:
		var list []*source.Node
		for _, n := range f.node.Items {
			if n.Kind == source.Scalar && !n.Null {
				list = append(list, n)
			}
		}
		return list
	}
	return nil
}

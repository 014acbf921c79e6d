package file

import (
	"reflect"
	"strconv"
	"strings"

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

// field is one key of one struct, written or not.
type field struct {
	at    place
	key   string
	must  bool // the key is required
	tag   reflect.StructTag
	node  *source.Node // its value, nil when not written
	owner *source.Node // the mapping it stands in, nil when that is missing
	value reflect.Value
}

// kinds are the items with ids by type.
var kinds = map[reflect.Type]string{
	reflect.TypeFor[Misuse](): "misuse", reflect.TypeFor[Upkeep](): "upkeep",
	reflect.TypeFor[People](): "people", reflect.TypeFor[Mode](): "mode",
	reflect.TypeFor[Robot](): "robot", reflect.TypeFor[Setting](): "setting", reflect.TypeFor[Stopping](): "stopping",
	reflect.TypeFor[Machine](): "machine", reflect.TypeFor[Tool](): "tool", reflect.TypeFor[Part](): "part",
	reflect.TypeFor[Safeguard](): "safeguard", reflect.TypeFor[Function](): "function", reflect.TypeFor[Space](): "space",
	reflect.TypeFor[Task](): "task", reflect.TypeFor[Contact](): "contact", reflect.TypeFor[Check](): "check",
	reflect.TypeFor[Hazard](): "hazard", reflect.TypeFor[Measure](): "measure", reflect.TypeFor[Point](): "point",
}

// kindWords name the kinds in messages.
var kindWords = map[string]string{
	"misuse": "a foreseeable misuse", "upkeep": "an upkeep item", "people": "a kind of people", "mode": "a mode",
	"robot": "a robot", "setting": "a setting of a robot", "stopping": "a point of a stopping grid", "machine": "a machine",
	"tool": "a tool", "part": "a part", "safeguard": "a safeguard", "function": "a safety function", "space": "a space",
	"task": "a task", "contact": "a contact", "check": "a check", "hazard": "a hazard row", "measure": "a measure",
	"point": "a validation point",
}

// leaves are the structs that stand for one value.
var leaves = map[reflect.Type]bool{
	reflect.TypeFor[Amount](): true, reflect.TypeFor[Given](): true, reflect.TypeFor[Score](): true,
}

// fieldsOf lists every field of the assessment, struct by struct.
func fieldsOf(a *Assessment) []field {
	var w walker
	w.visit(reflect.ValueOf(a).Elem(), place{})
	return w.list
}

type walker struct{ list []field }

// visit lists the fields of a struct and of all below it.
func (w *walker) visit(v reflect.Value, at place) {
	owner := v.FieldByName("Item").Interface().(source.Item).Node()
	if kind, ok := kinds[v.Type()]; ok {
		at = at.enter(kind, v.FieldByName("ID").String(), v.Addr().Interface())
	}
	for i := range v.NumField() {
		tag := v.Type().Field(i).Tag
		key, option, _ := strings.Cut(tag.Get("yaml"), ",")
		if key == "" {
			continue
		}
		w.list = append(w.list, field{at, key, option == "required", tag, owner.Get(key), owner, v.Field(i)})
		w.descend(v.Field(i), at.join(key))
	}
}

func (w *walker) descend(v reflect.Value, at place) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			w.descend(v.Elem(), at)
		}
	case reflect.Struct:
		if !leaves[v.Type()] {
			w.visit(v, at)
		}
	case reflect.Slice:
		w.items(v, at)
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
	case f.node.Kind == source.Scalar && f.value.Kind() != reflect.Slice:
		return []*source.Node{f.node}
	case f.node.Kind == source.List && f.value.Kind() == reflect.Slice:
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

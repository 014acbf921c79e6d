package file

import (
	"cmp"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"standclear/limits/quantity"
	"standclear/limits/source"
)

// Entry is one amount of the file under its path.
type Entry struct {
	Path   string // arm.bench.tcp_speed
	Item   string // id of the nearest item, bench
	Kind   string // its kind: robot, setting, stopping, tool, part, safeguard, function, space, contact, task, point
	Key    string // last part of the path, tcp_speed
	Means  string // what it is, in words
	Unit   quantity.Unit
	Worse  string // "up" or "down": the end of a tolerance at which rules use it by itself; checks find their own
	Origin string // measured, datasheet, standard, assumed or configuration; "" where it holds only paths
	Ref    string // where it is written
	Amount *Amount
	Pos    source.Pos

	signed bool               // may be negative
	below  *quantity.Quantity // must stay below
}

// item is one item with an id.
type item struct {
	kind  string
	path  string // robot.setting for what stands inside another item
	value any
	node  *source.Node // of the id
}

// Index finds items by id and amounts by path.
type Index struct {
	entries []*Entry
	byPath  map[string]*Entry
	byNode  map[*source.Node]*Entry
	items   map[string]*item
	ids     []string // in file order
}

// Index is the index built when the file was loaded.
func (a *Assessment) Index() *Index { return a.index }

// Find gives the item with an id: its kind, a pointer to it (such as *Robot),
// and where its id is written. Kinds are misuse, upkeep, people, mode, robot,
// setting, stopping, machine, tool, part, safeguard, function, space, task,
// contact, contact-point, check, hazard, measure and point.
func (a *Assessment) Find(id string) (kind string, found any, pos source.Pos, ok bool) {
	it, ok := a.index.items[id]
	if !ok {
		return "", nil, source.Pos{}, false
	}
	return it.kind, it.value, it.node.Pos, true
}

// Entries are the amounts in the order of the file.
func (ix *Index) Entries() []*Entry { return ix.entries }

// Entry is the amount under a path.
func (ix *Index) Entry(path string) (*Entry, bool) {
	e, ok := ix.byPath[path]
	return e, ok
}

// PathOf is the path of an amount of the file, "" when it is none.
func (ix *Index) PathOf(a Amount) string {
	if e := ix.byNode[a.Node()]; e != nil && a.Node() != nil {
		return e.Path
	}
	return ""
}

// IDs are the ids of all items of the given kinds, in the order of the file.
func (ix *Index) IDs(kinds ...string) []string {
	var list []string
	for _, id := range ix.ids {
		if slices.Contains(kinds, ix.items[id].kind) {
			list = append(list, id)
		}
	}
	return list
}

// newIndex puts every id and amount into an index. Of items with the same id
// the first is found.
func newIndex(records []*record) *Index {
	ix := &Index{byPath: map[string]*Entry{}, byNode: map[*source.Node]*Entry{}, items: map[string]*item{}}
	for f := range fields(records, isIndexed) {
		switch v := f.value.Addr().Interface().(type) {
		case *Amount:
			ix.add(f, f.at.join(f.name), v)
		case *[]Corner:
			ix.addCorners(f, *v)
		case *string:
			if f.name == "id" && *v != "" && ix.items[*v] == nil {
				ix.items[*v] = &item{f.at.kind, f.at.path, f.at.item, f.node}
				ix.ids = append(ix.ids, *v)
			}
		}
	}
	slices.SortStableFunc(ix.entries, func(a, b *Entry) int {
		return cmp.Or(cmp.Compare(a.Pos.Line, b.Pos.Line), cmp.Compare(a.Pos.Col, b.Pos.Col))
	})
	slices.SortStableFunc(ix.ids, func(a, b string) int {
		p, q := ix.items[a].node.Pos, ix.items[b].node.Pos
		return cmp.Or(cmp.Compare(p.Line, q.Line), cmp.Compare(p.Col, q.Col))
	})
	return ix
}

func isIndexed(k *keyInfo) bool {
	return k.of == reflect.TypeFor[Amount]() || k.of == reflect.TypeFor[[]Corner]() || isID(k)
}

// add puts in one amount that is written in the file.
func (ix *Index) add(f field, at place, a *Amount) {
	if a.Node() == nil {
		return
	}
	e := &Entry{
		Path: at.path, Item: at.id, Kind: at.kind, Key: at.path[strings.LastIndex(at.path, ".")+1:],
		Means: f.tag.Get("means"), Unit: mustUnit(f.tag.Get("unit")), Amount: a, Pos: a.Pos(),
		Worse: f.tag.Get("worse"), signed: f.tag.Get("signed") != "",
	}
	if limit := f.tag.Get("below"); limit != "" {
		q := mustQuantity(limit)
		e.below = &q
	}
	if !onlyPaths(a.Terms) {
		e.Origin, e.Ref = origin(at, a)
	}
	ix.entries = append(ix.entries, e)
	ix.byNode[a.Node()] = e
	if !at.lost && ix.byPath[e.Path] == nil {
		ix.byPath[e.Path] = e
	}
}

// addCorners puts in an outline: the corners of the space hall are
// hall.corner-1.x, hall.corner-1.y, hall.corner-2.x and so on.
func (ix *Index) addCorners(f field, corners []Corner) {
	for i, corner := range corners {
		for j := range corner {
			axis := strconv.Itoa(j + 1)
			if j < 2 {
				axis = "xy"[j : j+1]
			}
			ix.add(f, f.at.join("corner-"+strconv.Itoa(i+1)).join(axis), &corner[j])
		}
	}
}

// origin says where the literals of an amount come from. A limit counts as set
// only where the safety configuration it stands in has a checksum; what a
// validation point holds was read off an instrument.
func origin(at place, a *Amount) (from, ref string) {
	switch it := at.item.(type) {
	case *Setting:
		if it.Checksum != "" {
			return Configuration, cmp.Or(a.Ref, "checksum "+it.Checksum)
		}
		return Assumed, a.Ref
	case *Stopping:
		return cmp.Or(a.From, it.From, Assumed), cmp.Or(a.Ref, it.Ref)
	case *Point:
		return cmp.Or(a.From, Measured), a.Ref
	}
	return cmp.Or(a.From, Assumed), a.Ref
}

// grid splits the path of a look-up in a stopping grid, robot.stopping.time or
// robot.stopping.distance. Its value depends on the task that asks.
func grid(path string) (robot, key string, ok bool) {
	robot, key, ok = strings.Cut(path, ".stopping.")
	return robot, key, ok && (key == "time" || key == "distance") && idText.MatchString(robot)
}

// IsGrid says whether a path is a look-up in a stopping grid.
func (t Term) IsGrid() bool {
	_, _, ok := grid(t.Path)
	return ok
}

// mustUnit reads the unit of a struct tag; a test walks all of them.
func mustUnit(s string) quantity.Unit {
	u, err := quantity.ParseUnit(s)
	if err != nil {
		panic("file: unit tag: " + err.Error())
	}
	return u
}

func mustQuantity(s string) quantity.Quantity {
	q, err := quantity.Parse(s)
	if err != nil {
		panic("file: tag: " + err.Error())
	}
	return q
}

// keysOf are the keys of an item's type that hold an amount of its own.
func keysOf(value any) []string {
	var list []string
	t := reflect.TypeOf(value).Elem()
	for i := range t.NumField() {
		if t.Field(i).Type == reflect.TypeFor[Amount]() {
			key, _, _ := strings.Cut(t.Field(i).Tag.Get("yaml"), ",")
			list = append(list, key)
		}
	}
	return list
}

package source

import "reflect"

// Map is a mapping with free keys, in file order.
type Map[T any] []Entry[T]

// Entry is one key of a Map; Pos is the place of the key.
type Entry[T any] struct {
	Key   string
	Pos   Pos
	Value T
}

// entries is how the decoder sees a Map of any T.
type entries interface {
	decodeEntries(d *decoder, n *Node, tag fieldTag)
}

func (m *Map[T]) decodeEntries(d *decoder, n *Node, tag fieldTag) {
	list := make(Map[T], len(n.Pairs))
	for i, p := range n.Pairs {
		list[i].Key, list[i].Pos = p.Key.Value, p.Key.Pos
		d.value(reflect.ValueOf(&list[i].Value).Elem(), p.Value, tag)
	}
	*m = list
}

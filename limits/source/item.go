package source

// Item remembers where a struct was read. Embed it; Decode fills it. The zero Item has no place.
type Item struct {
	node *Node
}

// Node is what the struct was read from, nil when it was not read from a file.
func (i Item) Node() *Node { return i.node }

// Pos is the place of the struct.
func (i Item) Pos() Pos {
	if i.node == nil {
		return Pos{}
	}
	return i.node.Pos
}

// At is the place of the value of key, or of the struct when the key is absent.
func (i Item) At(key string) Pos {
	if v := i.node.Get(key); v != nil {
		return v.Pos
	}
	return i.Pos()
}

// KeyPos is the place of the key itself, or of the struct when the key is absent.
func (i Item) KeyPos(key string) Pos {
	if p := i.node.pair(key); p != nil {
		return p.Key.Pos
	}
	return i.Pos()
}

// Has says whether the key is written.
func (i Item) Has(key string) bool { return i.node.pair(key) != nil }

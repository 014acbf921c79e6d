package source

// Kind is the shape of a Node.
type Kind uint8

// The shapes a Node can have. (Map is the ordered mapping that Decode fills.)
const (
	Mapping Kind = iota + 1 // keys with values
	List                    // items
	Scalar                  // one value
)

// Node is one value of a file with its place.
type Node struct {
	Pos Pos
	// Width is the number of characters on the line of Pos, quotes included; 1 for mappings and lists.
	Width int
	// Value is the text of a scalar, quotes and escapes resolved.
	Value string
	Kind  Kind
	// Quoted says the text was in quotes or a block, so that it is text whatever it looks like.
	Quoted bool
	// Null says there is nothing here: no value, or null or ~ without quotes. A value left out takes the place of its key.
	Null    bool
	refused bool // reported by Parse, so that Decode is silent

	Pairs []Pair  // of a mapping, in file order, each key once
	Items []*Node // of a list, in file order
	// Section is the key under which the node stands; items of a list share it. Empty at the top of the file.
	Section string
	// Start and End bound the bytes of a scalar as written, quotes included. Both are -1 where there is no text; End is
	// -1 for a block (| or >), whose Start is at the mark.
	Start, End int
}

// Pair is one key of a mapping and its value.
type Pair struct {
	Key   *Node
	Value *Node
}

// Get is the value of key, nil when absent. It may be called on a nil Node.
func (n *Node) Get(key string) *Node {
	if p := n.pair(key); p != nil {
		return p.Value
	}
	return nil
}

func (n *Node) pair(key string) *Pair {
	if n == nil {
		return nil
	}
	for i := range n.Pairs {
		if n.Pairs[i].Key.Value == key {
			return &n.Pairs[i]
		}
	}
	return nil
}

// Problem is a problem at this node. A nil Node gives one without a place.
func (n *Node) Problem(message, expected, hint string) Problem {
	p := Problem{Message: message, Expected: expected, Hint: hint}
	if n != nil {
		p.Pos, p.Width = n.Pos, n.Width
	}
	return p
}

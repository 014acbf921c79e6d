package source

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"unicode/utf8"
)

// NodeDecoder is implemented, on the pointer, by types that read themselves. DecodeNode is not called for a node that
// is empty or already refused.
type NodeDecoder interface {
	DecodeNode(n *Node, ps *Problems)
}

// MaxText is how many characters one text may have: well below the 32,767 that a cell of a workbook holds, since
// some cells join several texts.
const MaxText = 8000

var (
	nodeDecoderType = reflect.TypeFor[NodeDecoder]()
	entriesType     = reflect.TypeFor[entries]()
)

// Decode fills the value that into points at. Fields are matched by their tags:
//
//	yaml:"key" or yaml:"key,required"   the key; fields without this tag are left alone
//	choice:"a|b|c"                      the words allowed in a string, or in each string of a list or Map
//	example:"{a: 1, b: 2}"               how a mapping is written, shown where something else is found
//	means:"human words"                 repeated to the reader where the value is missing
//
// Text, numbers, true and false, YesNo, lists, pointers (optional values), structs, Map and NodeDecoder are read. An
// embedded Item is given the node; other embedded structs lend their fields. A nil node leaves everything as it is,
// since Parse has reported why. Everything that does not fit is added to ps and the field keeps its value. Decode
// panics when into is not a pointer or a type is none of these, since that is a fault of the program.
func Decode(n *Node, into any, ps *Problems) {
	v := reflect.ValueOf(into)
	if v.Kind() != reflect.Pointer || v.IsNil() {
		panic(fmt.Sprintf("source: Decode needs a pointer, not %T", into))
	}
	if n != nil {
		d := decoder{ps: ps}
		d.value(v.Elem(), n, fieldTag{})
	}
}

type decoder struct {
	ps *Problems
}

// refuse reports that the node is not what v wants.
func (d *decoder) refuse(n *Node, v reflect.Value, tag fieldTag, hint string) {
	d.ps.Add(n.Problem("found "+describe(n), wanted(v.Type(), tag), hint))
}

func (d *decoder) value(v reflect.Value, n *Node, tag fieldTag) {
	switch {
	case n.refused:
	case n.Null:
		message := "found nothing"
		if n.Section != "" {
			message += " for `" + clip(n.Section) + "`"
		}
		d.ps.Add(n.Problem(message, wanted(v.Type(), tag), ""))
	case n.Kind == Scalar && len(n.Value) > MaxText && utf8.RuneCountInString(n.Value) > MaxText:
		d.ps.Add(n.Problem(fmt.Sprintf("found %d characters", utf8.RuneCountInString(n.Value)), fmt.Sprintf("at most %d", MaxText),
			"shorten the text, and put the rest into a document that it names"))
	default:
		d.given(v, n, tag)
	}
}

func (d *decoder) given(v reflect.Value, n *Node, tag fieldTag) {
	pointer := reflect.PointerTo(v.Type())
	switch {
	case pointer.Implements(nodeDecoderType):
		if v.Kind() == reflect.Struct {
			fieldsOf(v.Type()).setItems(v, n)
		}
		v.Addr().Interface().(NodeDecoder).DecodeNode(n, d.ps)
		return
	case pointer.Implements(entriesType):
		if n.Kind != Mapping {
			d.refuse(n, v, tag, "")
			return
		}
		v.Addr().Interface().(entries).decodeEntries(d, n, tag)
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		fresh := reflect.New(v.Type().Elem())
		d.given(fresh.Elem(), n, tag)
		v.Set(fresh)
	case reflect.Struct:
		d.fields(v, n, tag)
	case reflect.Slice:
		d.list(v, n, tag)
	default:
		d.scalar(v, n, tag)
	}
}

func (d *decoder) list(v reflect.Value, n *Node, tag fieldTag) {
	if n.Kind != List {
		hint := ""
		if n.Kind == Scalar && !strings.ContainsAny(n.Value, ",[]{}\n") {
			hint = "for a list of one write `[" + clip(n.Value) + "]`"
		}
		d.refuse(n, v, tag, hint)
		return
	}
	list := reflect.MakeSlice(v.Type(), len(n.Items), len(n.Items))
	for i, item := range n.Items {
		d.value(list.Index(i), item, tag)
	}
	v.Set(list)
}

func (d *decoder) fields(v reflect.Value, n *Node, tag fieldTag) {
	known := fieldsOf(v.Type())
	if n.Kind != Mapping {
		d.refuse(n, v, tag, "")
		return
	}
	known.setItems(v, n)
	for _, p := range n.Pairs {
		if f := known.find(p.Key.Value); f != nil {
			d.value(v.FieldByIndex(f.index), p.Value, f.fieldTag)
		} else {
			d.unknown(p.Key, n, known)
		}
	}
	for _, f := range known.list {
		if f.required && n.pair(f.key) == nil {
			expected := "`" + f.key + "`"
			if f.means != "" {
				expected += " (" + f.means + ")"
			}
			d.ps.Add(n.Problem("missing key `"+f.key+"`"+in(n), expected, ""))
		}
	}
}

func (d *decoder) unknown(key, n *Node, known *fields) {
	free := slices.DeleteFunc(slices.Clone(known.keys), func(k string) bool { return n.pair(k) != nil })
	d.ps.Add(key.Problem("unknown key `"+clip(key.Value)+"`"+in(n), oneOf(known.keys), DidYouMean(key.Value, free)))
}

// in says in which section a node stands, to follow the name of a key.
func in(n *Node) string {
	if n.Section == "" {
		return ""
	}
	return " in `" + clip(n.Section) + "`"
}

func oneOf(words []string) string {
	switch len(words) {
	case 0:
		return "nothing"
	case 1:
		return "`" + words[0] + "`"
	}
	return "one of: " + strings.Join(words, ", ")
}

package source

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// scalar reads text, a number, or true and false.
func (d *decoder) scalar(v reflect.Value, n *Node, tag fieldTag) {
	var read func(reflect.Value, *Node, fieldTag)
	switch {
	case v.Kind() == reflect.String:
		read = d.text
	case v.Kind() == reflect.Bool:
		read = d.bool
	case v.CanInt(), v.CanUint():
		read = d.whole
	case v.CanFloat():
		read = d.float
	default:
		panic(fmt.Sprintf("source: Decode cannot fill a %v", v.Type()))
	}
	if n.Kind != Scalar {
		d.refuse(n, v, tag, "")
		return
	}
	read(v, n, tag)
}

func (d *decoder) text(v reflect.Value, n *Node, tag fieldTag) {
	text := n.Value
	if n.Quoted && n.End < 0 { // a block ends with the line break of its last line
		text = strings.TrimRight(text, "\n")
	}
	switch {
	case tag.choice != nil && !slices.Contains(tag.choice, text):
		d.refuse(n, v, tag, DidYouMean(text, tag.choice))
	case tag.choice == nil && !n.Quoted && switchWord(text):
		d.ps.Add(n.Problem("found `"+text+"` without quotes, which may be read as true or false", wanted(v.Type(), tag),
			"write `\""+text+"\"` if the word is meant"))
	case tag.required && strings.TrimSpace(text) == "":
		d.ps.Add(n.Problem("found empty text", wanted(v.Type(), tag), ""))
	default:
		v.SetString(text)
	}
}

func (d *decoder) bool(v reflect.Value, n *Node, tag fieldTag) {
	switch {
	case n.Quoted:
		d.refuse(n, v, tag, "")
	case n.Value == "true", n.Value == "false":
		v.SetBool(n.Value == "true")
	default:
		hint := ""
		if switchWord(n.Value) {
			hint = "did you mean `false`?"
			switch strings.ToLower(n.Value) {
			case "yes", "on", "y", "true":
				hint = "did you mean `true`?"
			}
		}
		d.refuse(n, v, tag, hint)
	}
}

func (d *decoder) whole(v reflect.Value, n *Node, tag fieldTag) {
	if !d.number(v, n, tag) {
		return
	}
	if !wholeNumber.MatchString(n.Value) {
		d.refuse(n, v, tag, "")
		return
	}
	digits := strings.TrimPrefix(n.Value, "+")
	var err error
	if v.CanInt() {
		var i int64
		i, err = strconv.ParseInt(digits, 10, v.Type().Bits())
		if err == nil {
			v.SetInt(i)
		}
	} else {
		var u uint64
		u, err = strconv.ParseUint(strings.TrimPrefix(digits, "-"), 10, v.Type().Bits())
		if strings.HasPrefix(digits, "-") {
			d.refuse(n, v, tag, "")
			return
		}
		if err == nil {
			v.SetUint(u)
		}
	}
	if err != nil {
		d.beyond(v, n, tag)
	}
}

func (d *decoder) float(v reflect.Value, n *Node, tag fieldTag) {
	if !d.number(v, n, tag) {
		return
	}
	x, err := strconv.ParseFloat(n.Value, v.Type().Bits())
	mantissa, _, _ := strings.Cut(strings.ToLower(n.Value), "e")
	if err != nil || x == 0 && strings.ContainsAny(mantissa, "123456789") {
		d.beyond(v, n, tag)
		return
	}
	v.SetFloat(x)
}

// number says whether the node is written as a plain number, and reports it when not.
func (d *decoder) number(v reflect.Value, n *Node, tag fieldTag) bool {
	if n.Quoted {
		hint := ""
		if plainNumber.MatchString(n.Value) {
			hint = "write it without quotes"
		}
		d.refuse(n, v, tag, hint)
		return false
	}
	if message, hint := PlainNumberProblem(n.Value); message != "" {
		d.ps.Add(n.Problem(message, wanted(v.Type(), tag), hint))
		return false
	}
	if !plainNumber.MatchString(n.Value) {
		hint := ""
		if word, _, more := strings.Cut(n.Value, " "); more && plainNumber.MatchString(word) {
			hint = "write the number alone: `" + word + "`"
		}
		d.refuse(n, v, tag, hint)
		return false
	}
	return true
}

func (d *decoder) beyond(v reflect.Value, n *Node, tag fieldTag) {
	d.ps.Add(n.Problem("found `"+clip(n.Value)+"`, a number too large or too small to hold", wanted(v.Type(), tag), ""))
}

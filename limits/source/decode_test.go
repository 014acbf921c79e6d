package source

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

type named struct {
	Item
	ID   string `yaml:"id,required" means:"short name"`
	Size int    `yaml:"size"`
}

type shared struct {
	Note string `yaml:"note"`
}

// length reads itself, from text or from a mapping.
type length struct {
	Item
	Text string
}

func (l *length) DecodeNode(n *Node, ps *Problems) {
	if n.Kind == Mapping {
		var given struct {
			Is string `yaml:"is,required"`
		}
		Decode(n, &given, ps)
		l.Text = given.Is
		return
	}
	l.Text = n.Value
}

type everything struct {
	Item
	shared
	Text    string      `yaml:"text" means:"any words"`
	Must    string      `yaml:"must,required"`
	Kind    string      `yaml:"kind" choice:"yes|no|later"`
	Kinds   []string    `yaml:"kinds" choice:"fast|slow"`
	Flag    bool        `yaml:"flag"`
	Whole   int         `yaml:"whole"`
	Byte    int8        `yaml:"byte"`
	Count   uint        `yaml:"count"`
	Float   float64     `yaml:"float"`
	Words   []string    `yaml:"words"`
	Maybe   *float64    `yaml:"maybe"`
	Thing   named       `yaml:"thing"`
	Things  []named     `yaml:"things"`
	Option  *named      `yaml:"option"`
	Map     Map[named]  `yaml:"map"`
	Sizes   Map[int]    `yaml:"sizes"`
	Choices Map[string] `yaml:"choices" choice:"a|b"`
	Answer  YesNo       `yaml:"answer"`
	Length  length      `yaml:"length"`
	Grid    [][]float64 `yaml:"grid"`
	Skipped chan int
	Off     chan int `yaml:"-"`
}

func TestDecode(t *testing.T) {
	n := mustParse(t, `
note: from the embedded
text: 5.10
must: "yes"
kind: yes
kinds: [slow, fast]
flag: true
whole: -12
byte: 127
count: +3
float: 4.3e-8
words: [a, "no", ""]
maybe: 1.5
thing: {id: t}
things:
- id: u
  size: 2
- {id: v}
option: {id: w}
map:
  z: {id: 1}
  a: {id: 2}
sizes: {big: 9, small: 1}
choices: {k: b}
answer: no
length: {is: 5 mm}
grid: [[1, 2], [], [3]]
`)
	var got everything
	var ps Problems
	Decode(n, &got, &ps)
	wantTold(t, &ps)
	half := 1.5
	want := everything{shared: shared{"from the embedded"}, Text: "5.10", Must: "yes", Kind: "yes", Kinds: []string{"slow", "fast"},
		Flag: true, Whole: -12, Byte: 127, Count: 3, Float: 4.3e-8, Words: []string{"a", "no", ""}, Maybe: &half,
		Thing: named{ID: "t"}, Things: []named{{ID: "u", Size: 2}, {ID: "v"}}, Option: &named{ID: "w"},
		Map:     Map[named]{{"z", Pos{"f.yaml", 21, 3}, named{ID: "1"}}, {"a", Pos{"f.yaml", 22, 3}, named{ID: "2"}}},
		Sizes:   Map[int]{{"big", Pos{"f.yaml", 23, 9}, 9}, {"small", Pos{"f.yaml", 23, 17}, 1}},
		Choices: Map[string]{{"k", Pos{"f.yaml", 24, 11}, "b"}}, Answer: No, Length: length{Text: "5 mm"}, Grid: [][]float64{{1, 2}, {}, {3}},
	}
	if diff := cmp.Diff(want, got, cmpopts.IgnoreTypes(Item{}), cmp.AllowUnexported(everything{})); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if pos := got.Things[1].Pos(); pos != (Pos{"f.yaml", 18, 3}) {
		t.Errorf("second thing at %v", pos)
	}
	if pos := got.Length.Pos(); pos != (Pos{"f.yaml", 26, 9}) {
		t.Errorf("what reads itself at %v", pos)
	}
}

func TestDecodeText(t *testing.T) {
	var got struct {
		Block  string `yaml:"block"`
		Folded string `yaml:"folded"`
		Quoted string `yaml:"quoted"`
	}
	var ps Problems
	Decode(mustParse(t, "block: |\n  a\n  b\n\nfolded: >\n  a\n  b\nquoted: \"a\\n\"\n"), &got, &ps)
	wantTold(t, &ps)
	if got.Block != "a\nb" || got.Folded != "a b" || got.Quoted != "a\n" {
		t.Errorf("got %q", got)
	}
}

func TestItem(t *testing.T) {
	var got named
	var ps Problems
	Decode(mustParse(t, "id: x\n"), &got, &ps)
	at := func(line, col int) Pos { return Pos{"f.yaml", line, col} }
	if got.Pos() != at(1, 1) || got.At("id") != at(1, 5) || got.KeyPos("id") != at(1, 1) || !got.Has("id") || got.Node().Kind != Mapping {
		t.Errorf("got %v %v %v", got.Pos(), got.At("id"), got.KeyPos("id"))
	}
	if got.At("size") != at(1, 1) || got.KeyPos("size") != at(1, 1) || got.Has("size") {
		t.Error("an absent key does not fall back to the item")
	}
	var zero Item
	if zero.Pos() != (Pos{}) || zero.At("x") != (Pos{}) || zero.KeyPos("x") != (Pos{}) || zero.Has("x") || zero.Node() != nil {
		t.Error("the zero item has a place")
	}
}

func TestDecodeRefuses(t *testing.T) {
	keys := "answer, byte, choices, count, flag, float, grid, kind, kinds, length, map, maybe, must, note, option, sizes, text, thing, things, whole, words"
	for _, c := range []struct{ text, want string }{
		{"speed: 1", "1:1+5 unknown key `speed` | one of: " + keys + " | "},
		{"flaot: 1", "1:1+5 unknown key `flaot` | one of: " + keys + " | did you mean `float`?"},
		{"thing: {id: a, siz: 1}", "1:16+3 unknown key `siz` in `thing` | one of: id, size | did you mean `size`?"},
		// A key already written is not meant a second time.
		{"thing: {id: a, size: 1, siz: 1}", "1:25+3 unknown key `siz` in `thing` | one of: id, size | "},
		{"things:\n- size: 1\n", "2:3+1 missing key `id` in `things` | `id` (short name) | "},
		{"map: {a: {}}", "1:10+1 missing key `id` in `a` | `id` (short name) | "},
		{"thing: [a]", "1:8+1 found a list | a mapping with one of: id, size | "},
		{"thing: a", "1:8+1 found `a` | a mapping with one of: id, size | "},
		{"map: [a]", "1:6+1 found a list | a mapping of keys and values | "},
		{"words: a", "1:8+1 found `a` | a list | for a list of one write `[a]`"},
		{"words: a, b", "1:8+4 found `a, b` | a list | "},
		{"words: {a: b}", "1:8+1 found a mapping of keys and values | a list | "},
		{"words: [[a], {b: c}]", "1:9+1 found a list | text | \n1:14+1 found a mapping of keys and values | text | "},
		{"text: yes", "1:7+3 found `yes` without quotes, which may be read as true or false | text (any words) | write `\"yes\"` if the word is meant"},
		{"words: [On, n, false]", "1:9+2 found `On` without quotes, which may be read as true or false | text | write `\"On\"` if the word is meant\n" +
			"1:13+1 found `n` without quotes, which may be read as true or false | text | write `\"n\"` if the word is meant\n" +
			"1:16+5 found `false` without quotes, which may be read as true or false | text | write `\"false\"` if the word is meant"},
		{"text:", "1:1+4 found nothing for `text` | text (any words) | "},
		{"text: ~", "1:7+1 found nothing for `text` | text (any words) | "},
		{"thing: null", "1:8+4 found nothing for `thing` | a mapping with one of: id, size | "},
		{"length:", "1:1+6 found nothing for `length` | a value | "},
		{"option:", "1:1+6 found nothing for `option` | a mapping with one of: id, size | "},
		{"words: [a, ~]", "1:12+1 found nothing for `words` | text | "},
		{"words:\n-\n- a", "2:2+1 found nothing for `words` | text | "},
		{"thing: {id: \" \"}", "1:13+3 found empty text | text (short name) | "},
		{"kind: latter", "1:7+6 found `latter` | one of: yes, no, later | did you mean `later`?"},
		{"kind: \"\"", "1:7+2 found empty text | one of: yes, no, later | "},
		{"kind: true", "1:7+4 found `true` | one of: yes, no, later | "},
		{"kinds: [fast, slwo]", "1:15+4 found `slwo` | one of: fast, slow | did you mean `slow`?"},
		{"choices: {k: c}", "1:14+1 found `c` | one of: a, b | "},
		{"flag: yes", "1:7+3 found `yes` | `true` or `false` | did you mean `true`?"},
		{"flag: Off", "1:7+3 found `Off` | `true` or `false` | did you mean `false`?"},
		{"flag: \"true\"", "1:7+6 found the text `true` | `true` or `false` | "},
		{"flag: 1", "1:7+1 found `1` | `true` or `false` | "},
		{"whole: 5.0", "1:8+3 found `5.0` | a whole number | "},
		{"whole: \"5\"", "1:8+3 found the text `5` | a whole number | write it without quotes"},
		{"whole: 5 mm", "1:8+4 found `5 mm` | a whole number | write the number alone: `5`"},
		{"whole: five", "1:8+4 found `five` | a whole number | "},
		{"whole: 0o7", "1:8+3 found `0o7`, an octal number | a whole number | write it in decimal"},
		{"whole: 010", "1:8+3 found `010`, a number that begins with 0 | a whole number | did you mean `10`?"},
		{"whole: 1_000", "1:8+5 found `1_000`, a number with underscores | a plain number, or text in quotes | did you mean `1000`?"},
		{"whole: 9223372036854775808", "1:8+19 found `9223372036854775808`, a number too large or too small to hold | a whole number | "},
		{"byte: -129", "1:7+4 found `-129`, a number too large or too small to hold | a whole number | "},
		{"count: -1", "1:8+2 found `-1` | a whole number, 0 or more | "},
		{"float: 1,5", "1:8+3 found `1,5`, a number with a decimal comma | a number | did you mean `1.5`?"},
		{"float: 1e999", "1:8+5 found `1e999`, a number too large or too small to hold | a number | "},
		{"float: 1e-999", "1:8+6 found `1e-999`, a number too large or too small to hold | a number | "},
		{"float: nan", "1:8+3 found `nan`, which is not a finite number | a number | write the number itself"},
		{"float: [1]", "1:8+1 found a list | a number | "},
		{"maybe: x", "1:8+1 found `x` | a number | "},
		{"grid: [[1, x], 2]", "1:12+1 found `x` | a number | \n1:16+1 found `2` | a list | for a list of one write `[2]`"},
		{"answer: true", "1:9+4 found `true` | `yes` or `no` | did you mean `yes`?"},
		{"answer: No", "1:9+2 found `No` | `yes` or `no` | did you mean `no`?"},
		{"answer: perhaps", "1:9+7 found `perhaps` | `yes` or `no` | "},
		{"answer: [yes]", "1:9+1 found a list | `yes` or `no` | "},
		{"length: {iss: 1}", "1:9+1 missing key `is` in `length` | `is` | \n1:10+3 unknown key `iss` in `length` | `is` | did you mean `is`?"},
		{"text: *x", "1:7+2 found an alias `*x` | the value itself, written out | text that begins with * needs quotes"},
		{"text: " + strings.Repeat("long ", 20) + "\nflag: " + strings.Repeat("x", 50), "2:7+50 found `" + strings.Repeat("x", 40) + "…` | `true` or `false` | "},
	} {
		t.Run("", func(t *testing.T) {
			var got everything
			var ps Problems
			text := c.text + "\nmust: x\n"
			Decode(Parse("f.yaml", []byte(text), &ps), &got, &ps)
			wantTold(t, &ps, c.want)
		})
	}
}

func TestDecodeRoot(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"hello", "1:1+5 found `hello` | a mapping with one of: id, size | "},
		{"~", "1:1+1 found nothing | a mapping with one of: id, size | "},
		{"- a", "1:1+1 found a list | a mapping with one of: id, size | "},
		{"{}", "1:1+1 missing key `id` | `id` (short name) | "},
	} {
		var got named
		var ps Problems
		Decode(mustParse(t, c.text), &got, &ps)
		wantTold(t, &ps, c.want)
	}
	before := named{ID: "kept"}
	var ps Problems
	Decode(nil, &before, &ps)
	if before.ID != "kept" || ps.Len() != 0 {
		t.Error("a nil node changed something")
	}
}

// All problems are told at once, and what is right is still read.
func TestDecodeAll(t *testing.T) {
	var got everything
	var ps Problems
	Decode(Parse("f.yaml", []byte("whole: x\nfloat: 1.5\nspeed: 1\nflag: yes\nfloat: 2\n"), &ps), &got, &ps)
	if got.Float != 1.5 {
		t.Errorf("float is %v", got.Float)
	}
	var at []Pos
	for _, p := range ps.List() {
		at = append(at, p.Pos)
	}
	want := []Pos{{"f.yaml", 1, 1}, {"f.yaml", 1, 8}, {"f.yaml", 3, 1}, {"f.yaml", 4, 7}, {"f.yaml", 5, 1}}
	if diff := cmp.Diff(want, at); diff != "" {
		t.Errorf("(-want +got):\n%s\n%s", diff, told(ps.List()))
	}
}

func TestDecodeFaultsOfTheProgram(t *testing.T) {
	n := mustParse(t, "id: x\n")
	for _, c := range []struct {
		name string
		into any
	}{
		{"no pointer", named{}}, {"nil", (*named)(nil)},
		{"kind", &struct {
			A chan int `yaml:"id"`
		}{}},
		{"twice", &struct {
			A string `yaml:"id"`
			B string `yaml:"id"`
		}{}},
		{"hidden", &struct {
			a string `yaml:"id"` //lint:ignore U1000 the tag is what is tested
		}{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			defer func() {
				if recover() == nil {
					t.Error("no panic")
				}
			}()
			Decode(n, c.into, &Problems{})
		})
	}
}

func TestLongText(t *testing.T) {
	type short struct {
		Item
		Text string `yaml:"text"`
	}
	for _, n := range []int{MaxText, MaxText + 1} {
		var ps Problems
		var s short
		Decode(Parse("a.yaml", []byte("text: "+strings.Repeat("ü", n)), &ps), &s, &ps)
		list := ps.List()
		if n == MaxText && len(list) > 0 || n > MaxText && (len(list) != 1 || list[0].Message != "found 8001 characters" || list[0].Pos.Col != 7) {
			t.Errorf("%d characters: %v", n, list)
		}
	}
}

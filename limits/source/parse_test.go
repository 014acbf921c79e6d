package source

import (
	"fmt"
	"strings"
	"testing"
)

const sample = `# a comment
title: Lid check, "line 2"
quoted: "a \"b\" é"   # behind a quote
single: 'it''s'
folded: >-
  several
  lines
plain: goes on
  over two lines
people: [packer, "passer by"]
robots:
- id: arm
  mass: {is: 18.2 kg, from: datasheet}
empty: ""
none:
wide: 手 ok
`

func TestParseValues(t *testing.T) {
	n := mustParse(t, sample)
	robot := n.Get("robots").Items[0]
	for _, c := range []struct {
		name              string
		node              *Node
		value, raw        string
		line, col, width  int
		quoted, null, blk bool
		section           string
	}{
		{"plain", n.Get("title"), `Lid check, "line 2"`, `Lid check, "line 2"`, 2, 8, 19, false, false, false, "title"},
		{"double", n.Get("quoted"), `a "b" é`, `"a \"b\" é"`, 3, 9, 11, true, false, false, "quoted"},
		{"single", n.Get("single"), `it's`, `'it''s'`, 4, 9, 7, true, false, false, "single"},
		{"block", n.Get("folded"), "several lines", "", 5, 9, 2, true, false, true, "folded"},
		{"two lines", n.Get("plain"), "goes on over two lines", "goes on\n  over two lines", 8, 8, 7, false, false, false, "plain"},
		{"item", n.Get("people").Items[0], "packer", "packer", 10, 10, 6, false, false, false, "people"},
		{"quoted item", n.Get("people").Items[1], "passer by", `"passer by"`, 10, 18, 11, true, false, false, "people"},
		{"in list", robot.Get("id"), "arm", "arm", 12, 7, 3, false, false, false, "id"},
		{"in braces", robot.Get("mass").Get("is"), "18.2 kg", "18.2 kg", 13, 14, 7, false, false, false, "is"},
		{"empty text", n.Get("empty"), "", `""`, 14, 8, 2, true, false, false, "empty"},
		{"nothing", n.Get("none"), "", "", 15, 1, 4, false, true, false, "none"},
		{"wide", n.Get("wide"), "手 ok", "手 ok", 16, 7, 4, false, false, false, "wide"},
	} {
		g := c.node
		if g == nil {
			t.Errorf("%s: absent", c.name)
			continue
		}
		if g.Value != c.value || g.Quoted != c.quoted || g.Null != c.null || g.Section != c.section {
			t.Errorf("%s: got %+v", c.name, g)
		}
		if g.Pos != (Pos{"f.yaml", c.line, c.col}) || g.Width != c.width {
			t.Errorf("%s: at %v+%d, want %d:%d+%d", c.name, g.Pos, g.Width, c.line, c.col, c.width)
		}
		switch {
		case c.null:
			if g.Start != -1 || g.End != -1 {
				t.Errorf("%s: bytes %d to %d of nothing", c.name, g.Start, g.End)
			}
		case c.blk:
			if g.End != -1 || sample[g.Start] != '>' {
				t.Errorf("%s: bytes %d to %d", c.name, g.Start, g.End)
			}
		case sample[g.Start:g.End] != c.raw:
			t.Errorf("%s: bytes are %q, want %q", c.name, sample[g.Start:g.End], c.raw)
		}
	}
}

func TestParseShapes(t *testing.T) {
	n := mustParse(t, "\xef\xbb\xbfa: {b: 1}\nc:\n  - [x]\n")
	if n.Kind != Mapping || n.Pos != (Pos{"f.yaml", 1, 1}) || n.Width != 1 {
		t.Errorf("root: %+v", n)
	}
	b := n.Get("a").Get("b")
	if b.Start != 10 || b.End != 11 || b.Pos.Col != 8 {
		t.Errorf("behind a byte order mark: %+v", b)
	}
	c := n.Get("c")
	if c.Kind != List || c.Pos.Line != 3 || c.Pos.Col != 3 || c.Items[0].Kind != List || c.Items[0].Items[0].Value != "x" {
		t.Errorf("list: %+v", c)
	}
	if n.Get("d") != nil || n.Get("a").Get("b").Get("e") != nil || (*Node)(nil).Get("a") != nil {
		t.Error("found what is not there")
	}
}

func TestParseLineEnds(t *testing.T) {
	n := mustParse(t, "a: \"x\"\r\nb: two\r\n  lines\r\n")
	if a := n.Get("a"); a.Value != "x" || a.Start != 3 || a.End != 6 {
		t.Errorf("a: %+v", a)
	}
	if b := n.Get("b"); b.Value != "two lines" || b.Pos.Line != 2 || b.Width != 3 || b.End != 23 {
		t.Errorf("b: %+v", b)
	}
}

const (
	bareHint = "a comma begins a new entry here; text with a comma needs quotes, and decimals are written with a point"
	numText  = "a plain number, or text in quotes"
)

func TestParseRefuses(t *testing.T) {
	long := ""
	for i := range 30 {
		long += fmt.Sprintf("k%d: 1\n", i)
	}
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"empty", "", []string{"1:1+0 found an empty file | keys and values | "}},
		{"comments only", "# x\n\n", []string{"1:1+0 found an empty file | keys and values | "}},
		{"bare document", "---\n", []string{"1:1+0 found an empty file | keys and values | "}},
		{"indenting tab", "a:\n\tb: 1\n  \t c: 2\n", []string{
			"2:1+1 found a tab in the indentation | spaces | ",
			"3:3+1 found a tab in the indentation | spaces | "}},
		{"inner tab", "a: b\t\tc\tb\na: 1\n", []string{
			"1:5+2 found a tab | spaces | in text write \\t between double quotes",
			"2:1+1 found the key `a` a second time | each key once; the first is at 1:1 | "}},
		{"second document", "a: 1\n---\na: [\n", []string{
			"2:1+3 found `---`, the start of a second document | one document in a file | what follows is not read"}},
		{"document end", "--- # first\na: 1\n...\n", []string{
			"3:1+3 found `...`, the end of a document | one document in a file, without this mark | what follows is not read"}},
		{"directive", "%YAML 1.2\n---\na: 1\n", []string{"1:1+9 found a YAML directive | a file without directives | "}},
		{"not UTF-8", "a: é\xff\xfe\nb: \xff\n", []string{
			"1:5+1 found the byte FF, which is not UTF-8 text | UTF-8 text | save the file as UTF-8",
			"2:4+1 found the byte FF, which is not UTF-8 text | UTF-8 text | save the file as UTF-8"}},
		{"control", "a: x\x00\x01\nb: \u202ey\nc: \u200bz\nd: \u2028\n\u00a0e: 1\nf: \rx\n", []string{
			"1:5+1 found the hidden character U+0000 | visible characters, spaces and line breaks | delete it",
			"2:4+1 found the hidden character U+202E | visible characters, spaces and line breaks | delete it",
			"3:4+1 found the hidden character U+200B | visible characters, spaces and line breaks | delete it",
			"4:4+1 found the hidden character U+2028 | visible characters, spaces and line breaks | delete it",
			"5:1+1 found the hidden character U+00A0 | visible characters, spaces and line breaks | delete it",
			"6:4+1 found the hidden character U+000D | visible characters, spaces and line breaks | delete it"}},
		{"later mark", "a: \ufeffx\n", []string{
			"1:4+1 found the hidden character U+FEFF | visible characters, spaces and line breaks | delete it"}},
		{"anchor and alias", "a: &x 1\nb: *x\n", []string{
			"1:4+2 found an anchor `&x` | the value without it | text that begins with & needs quotes",
			"2:4+2 found an alias `*x` | the value itself, written out | text that begins with * needs quotes"}},
		{"alias of nothing", "a: 1\nb: *stop\n", []string{
			"2:4+5 found an alias `*stop` | the value itself, written out | text that begins with * needs quotes"}},
		{"tags", "a: !!str 5\nb: !x {c: 1}\nc: ! y\n", []string{
			"1:4+5 found a tag `!!str` | the value without it | text that begins with ! needs quotes",
			"2:4+2 found a tag `!x` | the value without it | text that begins with ! needs quotes",
			"3:4+1 found a tag `!` | the value without it | text that begins with ! needs quotes"}},
		{"merge", "s:\n  <<: {a: 1}\n  b: 2\n", []string{
			"2:3+2 found a merge key `<<` | the keys themselves, written out | "}},
		{"duplicates", "s: {a: 1, a: 2}\nt: 1\ns: 2\n", []string{
			"1:11+1 found the key `a` a second time in `s` | each key once; the first is at 1:5 | ",
			"3:1+1 found the key `s` a second time | each key once; the first is at 1:1 | "}},
		{"duplicate in a long mapping", long + "k7: 1\n", []string{
			"31:1+2 found the key `k7` a second time | each key once; the first is at 8:1 | "}},
		{"keys", "? [q]\n: 1\n? {r: 1}\n: 2\n? s\n: 3\nx: [{? t}, ? , : u]\n", []string{
			"1:3+1 found a list as a key | a word | ",
			"3:3+1 found a mapping of keys and values as a key | a word | ",
			"5:3+1 found the key `s` behind a `?` | `key: value` | ",
			"7:8+1 found the key `t` behind a `?` | `key: value` | ",
			"7:15+1 found a value without a key | `key: value` | "}},
		{"numbers", "a: .nan\nb: [-.inf, 1_000]\nc: {d: 0x1F, e: 0b1}\nf: 0x_1\n", []string{
			"1:4+4 found `.nan`, which is not a finite number | " + numText + " | write the number itself",
			"2:5+5 found `-.inf`, which is not a finite number | " + numText + " | write the number itself",
			"2:12+5 found `1_000`, a number with underscores | " + numText + " | did you mean `1000`?",
			"3:8+4 found `0x1F`, a number in another base | " + numText + " | write it in decimal",
			"3:17+3 found `0b1`, a number in another base | " + numText + " | write it in decimal",
			"4:4+4 found `0x_1`, a number in another base | " + numText + " | write it in decimal"}},
		{"comma in braces", "a: {b: 1,5 mm, c: in, while on, d:1}\n", []string{
			"1:10+4 found `5 mm` without a value | `key: value` | " + bareHint,
			"1:23+8 found `while on` without a value | `key: value` | " + bareHint,
			"1:33+3 found `d:1` without a value | `key: value` | write a space after the `:`"}},
		{"depth", "a: " + strings.Repeat("[", 70) + strings.Repeat("]", 70) + "\nb: {b: 1, b: 2}\n", []string{
			"1:67+1 found more than 64 levels of mappings and lists in each other | at most 64 levels | ",
			"2:11+1 found the key `b` a second time in `b` | each key once; the first is at 2:5 | "}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var ps Problems
			Parse("f.yaml", []byte(c.text), &ps)
			wantTold(t, &ps, c.want...)
		})
	}
}

// What looks odd and is still plain YAML must not be refused.
func TestParseAccepts(t *testing.T) {
	for _, text := range []string{
		"--- \na: 1\n", "a: \"1_000\"\n", "a: 4C1D-09B2\n", "a: 1_000 pieces\n", "a: http://x/y#z\n",
		"a: '.nan'\n", "a: x_1\nb: 5.14\n", "a: [0 mm, 1 mm]\n", "a: \"---\"\n", "# ---\na: 1\n", "a: é 手 😀\n",
		"a: {b: }\n", "a: {\"b\": 1}\n", "a: |\n  x: y: z\n  'q\n", "a: 10:30\n", "a: 0xZ\nb: 150 mm/s ± 5 mm/s\n", "---\n# c\na: 1\n",
	} {
		mustParse(t, text)
	}
}

func TestParseSize(t *testing.T) {
	var ps Problems
	if n := Parse("f.yaml", make([]byte, MaxSize+1), &ps); n != nil {
		t.Error("read a file that is too large")
	}
	wantTold(t, &ps, "0:0+0 the file is larger than 32 MiB | at most 32 MiB | ")
}

// A comment may ask something; only a mark of its own stands before a key.
func TestQuestionInAComment(t *testing.T) {
	for _, text := range []string{"a:\n  # what is it?\n  c: 1\n", "# [?\na: 1\n", "a: why?\nb: {c: 1}\n", "a: 1 # so?\nb: 2\n"} {
		var ps Problems
		if Parse("x.yaml", []byte(text), &ps); ps.Len() > 0 {
			t.Errorf("%q: %v", text, ps.List())
		}
	}
}

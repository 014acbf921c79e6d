package source

import (
	"errors"
	"strings"
	"testing"
)

func TestParseSlips(t *testing.T) {
	const second = " found a second `: ` in the line | one key and one value; text with `: ` in quotes | if it is text, write "
	const quoted = " | such text in quotes | "
	const closed = "inside double quotes write \\\" for a quote, inside single quotes '' for '"
	for _, c := range []struct{ text, want string }{
		{"name: foo: bar\n", "1:10+1" + second + "`name: \"foo: bar\"`"},
		{"- id: x\n  name: foo: bar # c\n", "2:12+1" + second + "`name: \"foo: bar\"`"},
		{"a: {b: c, d: e: f}\n", "1:15+1" + second + "`d: \"e: f\"`"},
		{"key: |\n  text: a: b\n  'x\n\nname: a: \"b\n", "5:8+1 found a second `: ` in the line | one key and one value; text with `: ` in quotes | "},
		{"a: \"foo\nb: 1\n", "1:4+4 found a double quote that is not closed | the closing double quote | "},
		{"a: \"foo\nb: \"bar\"\n", "1:4+4 found a double quote that is not closed | the closing double quote | "},
		{"a: b\r\nc: 'd\r\n", "2:4+2 found a single quote that is not closed | the closing single quote | "},
		{"a: {b: 'x, c: 1}\n", "1:8+9 found a single quote that is not closed | the closing single quote | "},
		{"a: 'it's here'\n", "1:8+7 found `s here'` after the closing quote | the end of the line | " + closed},
		{"a: \"C:\\data\"\n", "1:7+2 found `\\d` in double quotes | `\\\\` for a backslash, or the text in single quotes | "},
		{"a: [1, 2\nb: [3]\nc: {d: 1}\n", "1:4+1 found `[` that is not closed | the closing `]` | "},
		{"l:\n  - {a: 1, b: 2\n  - {a: 3}\n", "2:5+1 found `{` that is not closed | the closing `}` | "},
		{"a: [1, {b: 1]\n", "1:8+1 found `{` that is not closed before the `]` of another bracket | the closing `}` | "},
		{"a: [1]]\n", "1:7+1 found `]` that closes nothing | the end of the line | "},
		{"a: [1] x\n", "1:8+1 found `x` after the closing bracket | the end of the line | "},
		{"a: [1,,2]\n", "1:7+1 found nothing before `,` | a value between two commas | "},
		{"a: [\"x\" \"y\"]\n", "1:9+3 found `\"y\"` directly after another value | `,` between entries, and text with quotes or brackets in it in quotes | "},
		{"a: [x[1]]\n", "1:6+1 found `[` directly after another value | `,` between entries, and text with quotes or brackets in it in quotes | "},
		{"a:\n    b: 1\n  c: 2\n", "3:3+1 found an indentation of 2, which is that of no line above | as many as a line above: 0, 4 | "},
		{"l:\n  - a\n  b: 1\n", "3:3+4 found a line that is no item of the list above | `- ` as above, or less indentation | "},
		{"a: 1\n- b\n", "2:1+1 found a list item among keys | `key: value`, or the list below a key with nothing after its `:` | "},
		{"a: - b\n", "1:4+3 found a list item on the line of its key | the list on the lines below, or `[a, b]` | "},
		{"a: 1\nfoo\nb: 2\n", "2:1+3 found `foo` without `: ` | `key: value` | "},
		{"a: 1\nb:2\nc: 3\n", "2:1+3 found `b:2` without `: ` | `key: value` | write a space after the `:`, `b: 2`"},
		{"a: text\n  more: here\n", "2:3+5 found `more:` below a line that already has a value | the same indentation as the key above, or nothing after the `:` of the key above | "},
		{"a: \"x\"\n  b: 1\n", "2:3+4 found a line indented below one that already has a value | the same indentation as the line above | "},
		{"{a: 1}\nb: 2\n", "2:1+4 found text after the end of the value above | one mapping or list in a file | "},
		{"a: @b\n", "1:4+2 found text that begins with `@`" + quoted + "write `\"@b\"`"},
		{"a: `b`\n", "1:4+3 found text that begins with a backtick" + quoted + "write `\"`b`\"`"},
		{"op: >= 5 # x\n", "1:5+4 found text that begins with `>`" + quoted + "write `\">= 5\"`"},
		{"a: {b: >= 5}\n", "1:8+4 found text that begins with `>`" + quoted + "write `\">= 5\"`"},
		{"a: !<x y\n", "1:4+3 found a tag `!<x` | the value without it | text that begins with ! needs quotes"},
		{"a: [!%z]\n", "1:5+3 found a tag `!%z` | the value without it | text that begins with ! needs quotes"},
		{"a: 1\n}b: 2\n", "2:1+2 found text that begins with `}`" + quoted + "write `\"}b\"`"},
		{"a: ?\nb: 1\n", "1:4+1 found text that begins with `?`" + quoted + "write `\"?\"`"},
		{"a: >11\n", "1:4+3 found text that begins with `>`" + quoted + "write `\">11\"`"},
		{"a: {\n, b: 1}\n", "2:1+1 found nothing before `,` | a value between two commas | "},
		{"!a!b: c\n", "1:1+5 found a tag `!a!b:` | the value without it | text that begins with ! needs quotes"},
		// Where no slip is known, the library's words are put plainly, on the line where it stopped.
		{"a: 1\n  \nb: &!\n", "3:1+5 found `*` or `&` at the start of a text | the text in quotes | "},
		{"a: {b: 1}\nb: {c,#}\n", "2:1+8 found no value | a value | "},
		{"\n>\ntext\n", "3:1+4 found text after the end of the value above | one mapping or list in a file | "},
		{"a: 1\n  # c\nb: \"\\x4\"\n", "3:1+8 found `\\x`, `\\u` or `\\U` in double quotes without its digits | 2, 4 or 8 hexadecimal digits, or single quotes | "},
		{"a: &b,c d\n", "1:1+9 found something that does not go on with the lines above | a key with the indentation of those above | "},
		{"a: &b:\n\n0: 1\nc\n", "1:1+6 found a `:` where no key can stand | `key: value`, with text in quotes when it contains `: ` | "},
		{"a: 1\nb: [- c]\n", "2:5+3 found a list item with a dash inside brackets | `[a, b]`, without dashes | "},
		{"a: [\"x\" y]\n", "1:9+1 found `y` directly after another value | `,` between entries, and text with quotes or brackets in it in quotes | "},
		{"a: *\n", "1:4+1 found text that begins with `*`" + quoted + "write `\"*\"`"},
		{"a: [%]\n", "1:5+1 found text that begins with `%`" + quoted + "write `\"%\"`"},
		{"]\n", "1:1+1 found text that begins with `]`" + quoted + "write `\"]\"`"},
		{": 1\n", "1:1+1 found a value without a key | `key: value` | "},
		{"a: {\"\": 1, : 2}\n", "1:12+1 found a value without a key | `key: value` | "},
		{strings.Repeat("- ", 11000) + "x\n", "1:129+1 found more than 64 levels of mappings and lists in each other | at most 64 levels | "},
		{strings.Repeat("{a: ", 11000) + "\n", "1:257+1 found more than 64 levels of mappings and lists in each other | at most 64 levels | "},
		// Beyond the size at which places are searched, the usual slips are still found.
		{strings.Repeat("# filler\n", longSearch/9+1) + "name: foo: bar\n", "29129:10+1" + second + "`name: \"foo: bar\"`"},
	} {
		t.Run("", func(t *testing.T) {
			var ps Problems
			if n := Parse("f.yaml", []byte(c.text), &ps); n != nil {
				t.Errorf("Parse(%.60q) gave a node", c.text)
			}
			wantTold(t, &ps, c.want)
		})
	}
}

// Words of the library that are not known here are passed on.
func TestExplainUnknown(t *testing.T) {
	var ps Problems
	ps.Add(explain("f.yaml", []byte("a: 1\n  # b\nc: d\n"), errors.New("something new")))
	wantTold(t, &ps, "3:1+4 found text that cannot be read as YAML: something new | `key: value` lines and `- ` items | ")
}

// The search for slips runs on wrong text only, but must not blame what is right in it.
func TestSlipsLeaveGoodText(t *testing.T) {
	for _, text := range []string{
		sample, "a:\n- b\n- c: 1\n  d: 2\n-   - e\n    - f\ng: 1\n", "- [a, [b, {c: d}], \"e, f\"]\n- {g: h, 'i': [j]}\n",
		"a: [x,\n  y,\n# c\n  z]\nb: >\n  t: u: v\n\n  w\nc: {d: 1,\n e: 2}\n", "a: x # y: z: q\n\"k l\": 'm: n: o'\n", "a: \"p\n  q\"\nb: 1\n",
		"a: http://x:80/y\nb: 10:30\nc: [d:e, f]\n", "--- # s\na: {}\nb: []\n", "a: |2-\n   x\nb: >+\n  y\n", "text\n  goes on\n",
		"a: {\"b\":1, c: [\"d\"]}\n", "a:\n  b:\n    c: 1\n  d: &x 2\n  e: *x\n",
	} {
		if _, err := load([]byte(text)); err != nil {
			t.Fatalf("%q is not good: %v", text, err)
		}
		if s := findSlip([]byte(text)); s != nil {
			t.Errorf("%q: found %+v", text, *s)
		}
	}
}

package source

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestRender(t *testing.T) {
	long := strings.Repeat("x", 200) + "HERE" + strings.Repeat("y", 200)
	files := map[string]string{
		"f.yaml": "\ufefffirst: 1\r\n\ta:\tbad\tvalue\n手首: 狭い x\ne\u0301: ab\n\n" + long + "\n" + strings.Repeat("\n", 5) + "last\x01 \xff!",
	}
	list := []Problem{
		{Pos{"f.yaml", 1, 8}, 1, "found one", "two", "did you mean `2`?"},
		{Pos{"f.yaml", 2, 5}, 3, "behind tabs", "", ""},
		{Pos{"f.yaml", 2, 4}, 1, "a tab", "", ""},
		{Pos{"f.yaml", 3, 5}, 2, "wide", "", "hint only"},
		{Pos{"f.yaml", 4, 5}, 9, "past the end", "", ""},
		{Pos{"f.yaml", 4, 7}, 1, "behind the end", "", ""},
		{Pos{"f.yaml", 5, 1}, 1, "an empty line", "x", ""},
		{Pos{"f.yaml", 6, 201}, 4, "cut", "", ""},
		{Pos{"f.yaml", 6, 1}, 0, "cut right", "", ""},
		{Pos{"f.yaml", 6, 405}, 1, "cut left", "", ""},
		{Pos{"f.yaml", 12, 5}, 4, "unprintable", "", ""},
		{Pos{"f.yaml", 99, 1}, 1, "no such line", "", ""},
		{Pos{"gone.yaml", 1, 1}, 1, "no text", "x", ""},
		{Pos{"f.yaml", 0, 0}, 0, "whole file", "x", ""},
		{Pos{}, 0, "nowhere", "", "do this"},
	}
	want := `f.yaml:1:8: found one
  1 | first: 1
    |        ^
    expected: two
    did you mean ` + "`2`" + `?
f.yaml:2:5: behind tabs
  2 |     a:  bad value
    |         ^^^
f.yaml:2:4: a tab
  2 |     a:  bad value
    |       ^^
f.yaml:3:5: wide
  3 | 手首: 狭い x
    |       ^^^^
    hint only
f.yaml:4:5: past the end
  4 | é: ab
    |    ^^
f.yaml:4:7: behind the end
  4 | é: ab
    |      ^
f.yaml:5:1: an empty line
   expected: x
f.yaml:6:201: cut
  6 | …` + strings.Repeat("x", 40) + "HERE" + strings.Repeat("y", 76) + `…
    |  ` + strings.Repeat(" ", 40) + `^^^^
f.yaml:6:1: cut right
  6 | ` + strings.Repeat("x", 120) + `…
    | ^
f.yaml:6:405: cut left
  6 | …` + strings.Repeat("y", 40) + `
    | ` + strings.Repeat(" ", 41) + `^
f.yaml:12:5: unprintable
  12 | last� �!
     |     ^^^^
f.yaml:99:1: no such line
gone.yaml:1:1: no text
   expected: x
f.yaml: whole file
   expected: x
nowhere
   do this
`
	var b strings.Builder
	Render(&b, list, func(file string) []byte { return []byte(files[file]) })
	if diff := cmp.Diff(strings.ReplaceAll(want, "é", "e\u0301"), b.String()); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

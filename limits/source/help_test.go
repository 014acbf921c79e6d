package source

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// told writes problems as "line:col+width message | expected | hint", one to a line.
func told(list []Problem) string {
	var b strings.Builder
	for _, p := range list {
		fmt.Fprintf(&b, "%d:%d+%d %s | %s | %s\n", p.Pos.Line, p.Pos.Col, p.Width, p.Message, p.Expected, p.Hint)
	}
	return b.String()
}

// wantTold compares problems with the lines expected.
func wantTold(t *testing.T, ps *Problems, want ...string) {
	t.Helper()
	text := ""
	if len(want) > 0 {
		text = strings.Join(want, "\n") + "\n"
	}
	if diff := cmp.Diff(text, told(ps.List())); diff != "" {
		t.Errorf("problems (-want +got):\n%s", diff)
	}
}

// mustParse reads text that has no problem.
func mustParse(t *testing.T, text string) *Node {
	t.Helper()
	var ps Problems
	n := Parse("f.yaml", []byte(text), &ps)
	if ps.Len() > 0 || n == nil {
		t.Fatalf("Parse(%q): %s", text, told(ps.List()))
	}
	return n
}

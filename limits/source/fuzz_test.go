package source

import (
	"bytes"
	"io"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

func seeds(f *testing.F) {
	for _, s := range []string{
		sample, "", "a: \"foo\nb: \"bar\"\n", "a: {b: c: d}\n", "a: [1, {b: 1]\n", "\ta: 1\n", "a: *x\nb: &y !!str 5\n<<: {a: 1}\n? [q]\n: 1\n",
		"a: 1\n---\nb\n", "%YAML 1.2\n...\n", "a: |\n  x\nb: >= 5\n", "a: .nan\nb: 1_000\nc: 0x1F\n", "a:\n    b: 1\n  c: 2\n", "a: \xff\u202e\x00\r\n",
		"\ufeffa: {b, c: 1,5}\n", "- - a\n  - b\n - c\n", "a: 'it's'\nb: \"\\q\"\n", "text: yes\nlist: x\nwhole: 0o7\nmap: {b: 1, a: [}\n",
		"text: 1\ncount: 5\nfloat: 1,5\nwords: [a, ~]\nmap: {z: {id: 1}}\nanswer: no\n",
	} {
		f.Add([]byte(s))
	}
}

// check says whether every problem lies in the file and the list is in order.
func check(t *testing.T, data []byte, ps *Problems) {
	t.Helper()
	list := ps.List()
	if !slices.IsSortedFunc(list, compare) || !slices.Equal(list, ps.List()) {
		t.Errorf("problems are not in a stable order: %v", list)
	}
	l := splitLines(bytes.TrimPrefix(data, byteOrderMark))
	for _, p := range list {
		if p.Message == "" || p.Pos.File != "f.yaml" || p.Width < 0 {
			t.Errorf("incomplete: %+v", p)
		}
		if p.Pos.Line < 1 || p.Pos.Line > l.count() || p.Pos.Col < 1 || p.Pos.Col > 1+utf8.RuneCount(l.line(p.Pos.Line)) {
			t.Errorf("outside of the file: %+v", p)
		}
	}
	Render(io.Discard, list, func(string) []byte { return data })
}

// visit goes through a tree and checks places and bytes.
func visit(t *testing.T, data []byte, n *Node) {
	if n.Kind < Mapping || n.Kind > Scalar || n.Pos.Line < 1 || n.Pos.Col < 1 || n.Width < 1 {
		t.Errorf("incomplete: %+v", n)
	}
	if n.End >= 0 {
		raw := string(data[n.Start:n.End])
		if value, ok := unquote(raw); ok && value != n.Value {
			t.Errorf("the bytes %q are not the value %q", raw, n.Value)
		}
	}
	for _, p := range n.Pairs {
		visit(t, data, p.Key)
		visit(t, data, p.Value)
	}
	for _, item := range n.Items {
		visit(t, data, item)
	}
}

// unquote gives the value of text on one line as written in a file; not ok where it goes over lines or had a tab.
func unquote(raw string) (value string, ok bool) {
	if strings.ContainsAny(raw, "\r\n\t") {
		return "", false
	}
	if raw == "" || raw[0] != '"' && raw[0] != '\'' {
		return raw, true
	}
	n := Parse("f.yaml", []byte("- "+raw+"\n"), &Problems{})
	if n == nil || len(n.Items) != 1 {
		return "not one quoted text", true
	}
	return n.Items[0].Value, true
}

func FuzzParse(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		var ps Problems
		n := Parse("f.yaml", data, &ps)
		check(t, data, &ps)
		if n == nil && ps.Len() == 0 {
			t.Error("nothing read and nothing reported")
		}
		if n != nil {
			visit(t, data, n)
		}
		findSlip(bytes.ToValidUTF8(data, nil)) // any text must be survived, also text that YAML accepts
	})
}

func FuzzDecode(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		var ps, again Problems
		n := Parse("f.yaml", data, &ps)
		var first, second everything
		Decode(n, &first, &ps)
		check(t, data, &ps)
		Decode(Parse("f.yaml", data, &again), &second, &again)
		if !slices.Equal(ps.List(), again.List()) {
			t.Error("a second reading finds other problems")
		}
	})
}

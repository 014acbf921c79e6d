package file

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"standclear/limits/source"
)

func TestOpenRefuses(t *testing.T) {
	dir := t.TempDir()
	big := filepath.Join(dir, "big.yaml")
	if err := os.WriteFile(big, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(big, source.MaxSize+1); err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]string{
		dir:                               "this is a folder",
		filepath.Join(dir, "none.yaml"):   "there is no such file",
		filepath.Join(big, "below.yaml"):  "the file cannot be read",
		filepath.Join(dir, "a\x00b.yaml"): "the file cannot be read",
		big:                               "larger than 32 MiB",
	} {
		a, data, problems := Open(path)
		if a != nil || data != nil || len(problems) != 1 {
			t.Errorf("%q: %v, %d bytes, %v", path, a, len(data), problems)
			continue
		}
		if p := problems[0]; !strings.Contains(p.Message, want) || p.Pos.File != path {
			t.Errorf("%q: %v: %s, want %s", path, p.Pos, p.Message, want)
		}
	}
}

// TestOtherEditors loads the small cell as other editors save it.
func TestOtherEditors(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(testdata, "ok", "small.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string][]byte{
		"byte order mark":      append([]byte("\ufeff"), data...),
		"line ends of Windows": bytes.ReplaceAll(data, []byte("\n"), []byte("\r\n")),
		"no last line end":     bytes.TrimRight(data, "\n"),
	} {
		if _, problems := Load("small.yaml", text); len(problems) > 0 {
			t.Errorf("%s:\n%s", name, render(problems, text))
		}
	}
}

// TestNoRowsYet loads a cell whose rows are still to be written.
func TestNoRowsYet(t *testing.T) {
	a := small(t, "answered_by: [H-01]", "answered_by: []")
	text := a.Node().Get("hazards")
	data, err := os.ReadFile(filepath.Join(testdata, "ok", "small.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.Replace(string(data), "answered_by: [H-01]", "answered_by: []", 1), "\n")
	head := strings.Join(lines[:text.Pos.Line-2], "\n") + "\nhazards: []\n"
	if _, problems := Load("small.yaml", []byte(head)); len(problems) > 0 {
		t.Errorf("%s", render(problems, []byte(head)))
	}
}

// TestLongSums refuses sums that double with every line and chains of paths.
func TestLongSums(t *testing.T) {
	parts := func(n int, value func(before string) string) string {
		var b strings.Builder
		for i := 1; i <= n; i++ {
			fmt.Fprintf(&b, "    - {id: p%d, mass: %s}\n", i, value(fmt.Sprintf("p%d.mass", i-1)))
		}
		return "    - {id: p0, mass: 1 kg}\n" + b.String()
	}
	data, err := os.ReadFile(filepath.Join(testdata, "ok", "small.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	for name, test := range map[string]struct{ parts, want string }{
		"doubling": {parts(60, func(p string) string { return p + " + " + p }), "adds up more than 500 values"},
		"chain":    {parts(300, func(p string) string { return p }), "follows more than 100 paths"},
		"terms":    {parts(1, func(p string) string { return strings.Repeat(p+" + ", 50) + p }), "a sum of too many terms"},
	} {
		text := strings.Replace(string(data), "  parts:\n", "  parts:\n"+test.parts, 1)
		a, problems := Load("small.yaml", []byte(text))
		if a != nil || len(problems) == 0 || !strings.Contains(problems[0].Message, test.want) {
			t.Errorf("%s: %v, %v", name, a != nil, problems)
		}
	}
}

func TestCheckNamesSkips(t *testing.T) {
	a := small(t, "method: hybrid", "method: unheard-of")
	if problems := a.CheckNames(Known{}); len(problems) > 0 {
		t.Errorf("nothing is known and yet: %v", problems)
	}
	if problems := a.CheckNames(Known{Methods: []string{"hybrid"}}); len(problems) != 1 {
		t.Errorf("%v, want the method alone", problems)
	}
}

func TestSplit(t *testing.T) {
	for text, want := range map[string][]string{
		"18.2 kg":                       {"18.2 kg"},
		"150 mm/s +/- 5 mm/s":           {"150 mm/s +/- 5 mm/s"},
		"1.5e+3 mm + 2 mm":              {"1.5e+3 mm", "2 mm"},
		"+3 mm":                         {"+3 mm"},
		"a.b+c.d":                       {"a.b", "c.d"},
		"a.b + 150 mm/s ± 5 mm/s + c.d": {"a.b", "150 mm/s ± 5 mm/s", "c.d"},
		"a.b +":                         {"a.b", ""},
	} {
		var got []string
		for _, p := range split(text) {
			got = append(got, p.text)
			if text[p.from:p.from+len(p.text)] != p.text {
				t.Errorf("%q: %q is not at %d", text, p.text, p.from)
			}
		}
		if fmt.Sprintf("%q", got) != fmt.Sprintf("%q", want) {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// FuzzLoad loads whatever it is given: it never panics, gives an assessment or
// problems and not both, and every problem stands in the file.
func FuzzLoad(f *testing.F) {
	for _, folder := range []string{"ok", "err"} {
		list, err := filepath.Glob(filepath.Join(testdata, folder, "*.yaml"))
		if err != nil {
			f.Fatal(err)
		}
		for _, path := range list {
			data, err := os.ReadFile(path)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		a, problems := Load("fuzz.yaml", data)
		if (a == nil) != (len(problems) > 0) {
			t.Fatalf("assessment %t with %d problems", a != nil, len(problems))
		}
		checkPositions(t, problems, data)
		render(problems, data)
		if a == nil {
			return
		}
		checkPositions(t, a.CheckNames(someNames), data)
		for _, e := range a.Index().Entries() {
			if _, _, err := a.Index().Resolve(*e.Amount); err != nil && err != ErrGrid {
				t.Errorf("%s: %v", e.Path, err)
			}
		}
	})
}

// Where an answer is written without its reason, the message shows how both are written.
func TestHeadWithoutReason(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(testdata, "err", "yes-as-text.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	data = bytes.Replace(data, []byte("head: {reach: never, because: plane}"), []byte("head: no"), 1)
	_, problems := Load("a.yaml", data)
	if len(problems) == 0 || !strings.HasPrefix(problems[0].Expected, "`{reach: no, because: …}`") {
		t.Errorf("%v", problems)
	}
}

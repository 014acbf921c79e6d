package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestReadme follows the README as a reader would: files are written as their
// blocks say, commands are run, and outputs must be those shown. A line of … in
// an output stands for any number of lines. With -update the outputs without …
// are rewritten.
func TestReadme(t *testing.T) {
	path, err := filepath.Abs("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	readme, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	blocks := fenced.FindAllStringSubmatchIndex(string(readme), -1)
	commands, out, last := 0, strings.Builder{}, 0
	for _, b := range blocks {
		info, body := string(readme[b[2]:b[3]]), string(readme[b[4]:b[5]])
		out.WriteString(string(readme[last:b[4]]))
		last = b[5]
		switch {
		case strings.HasPrefix(info, "yaml file="):
			writeText(t, strings.TrimPrefix(info, "yaml file="), body)
			if lines := strings.Count(body, "\n"); strings.HasSuffix(info, "house/gate.yaml") && lines > 10 {
				t.Errorf("the rule of the house takes %d lines, more than ten", lines)
			}
		case info == "console":
			commands++
			body = console(t, body)
		}
		out.WriteString(body)
	}
	out.WriteString(string(readme[last:]))
	if commands < 6 {
		t.Errorf("found %d commands in the README", commands)
	}
	if *update {
		writeText(t, path, out.String())
	}
}

var fenced = regexp.MustCompile("(?ms)^```([^\n]*)\n(.*?)^```$")

func writeText(t *testing.T, name, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// console runs the command of a block and gives the block as it should be.
func console(t *testing.T, body string) string {
	t.Helper()
	command, want, _ := strings.Cut(body, "\n")
	args := words(strings.TrimPrefix(command, "$ standclear "))
	var both bytes.Buffer
	run(args, &both, &both)
	got := both.String()
	if strings.Contains(want, "…") {
		if !matches(strings.Split(strings.TrimSpace(want), "\n"), strings.Split(strings.TrimSpace(got), "\n")) {
			t.Errorf("%s\nshould give\n%s\nand gives\n%s", command, want, got)
		}
		return body
	}
	if want != got && !*update {
		t.Errorf("%s\nshould give\n%s\nand gives\n%s", command, want, got)
	}
	return command + "\n" + got
}

// words splits a command line at blanks outside double quotes.
func words(line string) []string {
	var out []string
	for _, w := range regexp.MustCompile(`(?:[^\s"]+|"[^"]*")+`).FindAllString(line, -1) {
		out = append(out, strings.ReplaceAll(w, `"`, ""))
	}
	return out
}

// matches compares lines; … stands for any number of them.
func matches(want, got []string) bool {
	switch {
	case len(want) == 0:
		return len(got) == 0
	case want[0] == "…":
		for i := 0; i <= len(got); i++ {
			if matches(want[1:], got[i:]) {
				return true
			}
		}
		return false
	}
	return len(got) > 0 && want[0] == got[0] && matches(want[1:], got[1:])
}

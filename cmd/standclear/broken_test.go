package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"testing"
)

// Every broken file ends `build` with exit code 2; each problem names line and
// column and what was expected, and nothing is written.
func TestBrokenFilesAreRefused(t *testing.T) {
	files, err := filepath.Glob("../../testdata/err/*.yaml")
	if err != nil || len(files) < 40 {
		t.Fatalf("%d broken files, %v", len(files), err)
	}
	place := regexp.MustCompile(`(?m)^\S+\.yaml:\d+:\d+: .+`)
	expected := regexp.MustCompile(`(?m)^ +expected: .+`)
	for _, f := range files {
		t.Run(filepath.Base(f), func(t *testing.T) {
			out := filepath.Join(t.TempDir(), "out")
			var stdout, stderr bytes.Buffer
			if code := run([]string{"build", f, "-o", out}, &stdout, &stderr); code != exitInput {
				t.Errorf("exit code %d\n%s", code, stderr.String())
			}
			problems := len(place.FindAllString(stderr.String(), -1))
			if problems == 0 || len(expected.FindAllString(stderr.String(), -1)) < problems {
				t.Errorf("a problem without place or expectation:\n%s", stderr.String())
			}
			if _, err := os.Stat(out); !os.IsNotExist(err) {
				t.Errorf("something was written: %v", err)
			}
			if stdout.Len() > 0 {
				t.Errorf("stdout: %s", stdout.String())
			}
		})
	}
}

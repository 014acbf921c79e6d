package main

import (
	"io"
	"os"
	"path/filepath"
	"testing"

	"standclear/hazards/hazardstest"
	"standclear/templates"
)

// The whole of `check` and `build`, reading and writing included, on the demo
// cell and on 10,000 rows with 10,000 checks.

func BenchmarkCheckDemo(b *testing.B) { benchmark(b, demo(b), "check") }
func BenchmarkBuildDemo(b *testing.B) { benchmark(b, demo(b), "build") }
func BenchmarkCheck10k(b *testing.B)  { benchmark(b, large(), "check") }
func BenchmarkBuild10k(b *testing.B)  { benchmark(b, large(), "build") }

// large is 10,000 rows with 10,000 checks, half of them contacts.
func large() []byte {
	return hazardstest.YAML(hazardstest.Size{Hazards: 10_000, Contacts: 5_000, Checks: 5_000})
}

func demo(b *testing.B) []byte {
	data, err := templates.FS.ReadFile("cells/demo.yaml")
	if err != nil {
		b.Fatal(err)
	}
	return data
}

func benchmark(b *testing.B, data []byte, command string) {
	dir := b.TempDir()
	path := filepath.Join(dir, "cell.yaml")
	if err := os.WriteFile(path, data, 0o644); err != nil {
		b.Fatal(err)
	}
	args := []string{command, path}
	want := exitFindings
	if command == "build" {
		args = append(args, "-o", filepath.Join(dir, "out"))
		want = exitDone
	}
	b.ReportAllocs()
	for b.Loop() {
		if code := run(args, io.Discard, os.Stderr); code != want {
			b.Fatalf("exit code %d", code)
		}
	}
}

package source

import (
	"fmt"
	"strings"
	"testing"
)

// BenchmarkParseDecode reads 20,000 entries in 1.2 MB.
func BenchmarkParseDecode(b *testing.B) {
	var text strings.Builder
	text.WriteString("things:\n")
	for i := range 20000 {
		fmt.Fprintf(&text, "- {id: thing-%05d, size: %d, note: some words to fill}\n", i, i)
	}
	type entry struct {
		named
		Note string `yaml:"note"`
	}
	var file struct {
		Things []entry `yaml:"things"`
	}
	data := []byte(text.String())
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		var ps Problems
		Decode(Parse("f.yaml", data, &ps), &file, &ps)
		if ps.Len() != 0 || len(file.Things) != 20000 {
			b.Fatal(told(ps.List()))
		}
	}
}

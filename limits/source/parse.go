package source

import (
	"bytes"
)

// MaxSize is the largest file read, in bytes (32 MiB). MaxDepth is how many mappings and lists may stand in each other.
const (
	MaxSize  = 32 << 20
	MaxDepth = 64
)

const (
	tooDeep = "found more than 64 levels of mappings and lists in each other"
	flatter = "at most 64 levels"
)

var byteOrderMark = []byte("\xef\xbb\xbf")

// Parse reads a file. Problems are added to ps under the given name; the result is nil when nothing can be read. It
// never panics, whatever the data.
//
// Refused are: tabs, hidden and control characters, bytes that are not UTF-8, second documents, directives, anchors,
// aliases, merge keys, tags, duplicate keys, keys that are not text, infinities, underscores and other bases in
// numbers, an empty file, more than MaxDepth levels, more than MaxSize bytes. A byte order mark is skipped.
func Parse(name string, data []byte, ps *Problems) *Node {
	if len(data) > MaxSize {
		ps.Add(Problem{Pos: Pos{File: name}, Message: "the file is larger than 32 MiB", Expected: "at most 32 MiB"})
		return nil
	}
	body := bytes.TrimPrefix(data, byteOrderMark)
	whole := splitLines(body)
	s := scanner{lines: whole, name: name, ps: ps}
	text, ok := s.scan()
	if !ok {
		return nil
	}
	root, err := load(text)
	if err != nil {
		ps.Add(explain(name, text, err))
		return nil
	}
	if root == nil || isAbsent(root) {
		ps.Add(Problem{Pos: Pos{name, 1, 1}, Message: "found an empty file", Expected: "keys and values"})
		return nil
	}
	w := walker{cursor: cursor{lines: splitLines(text)}, name: name, base: len(data) - len(body), ps: ps}
	return w.node(root, "", 1)
}

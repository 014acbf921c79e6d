package book

import (
	"bytes"
	"slices"
	"testing"

	"standclear/limits/source"
)

// Whatever a file holds comes back, and its pieces are plain letters that fit a cell.
func FuzzEncode(f *testing.F) {
	for _, a := range awkward() {
		f.Add(a.Data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		form, pieces := encode(data)
		var list []carriedPiece
		for i, p := range pieces {
			if len(p) > mostText || slices.ContainsFunc([]byte(p), func(c byte) bool { return c < ' ' || c > '~' }) || escaped.MatchString(p) {
				t.Fatalf("the piece %.60q does not keep in a cell", p)
			}
			list = append(list, carriedPiece{i + 1, p})
		}
		got, err := decode(form, list, len(data))
		if err != nil || !bytes.Equal(got, data) {
			t.Fatalf("%.60q came back as %.60q, %v", data, got, err)
		}
	})
}

// Pieces that anybody may have written are read or refused, and never grow
// beyond the size that they say.
func FuzzDecode(f *testing.F) {
	for _, a := range awkward() {
		form, pieces := encode(a.Data)
		for _, p := range pieces[:min(2, len(pieces))] {
			f.Add(form, p, "", len(a.Data))
		}
	}
	f.Fuzz(func(t *testing.T, form, a, b string, size int) {
		row := carriedRow{1, map[string]string{formKey: form, sizeKey: "9", countKey: "2", sumKey: "x"}}
		if _, err := row.data([]carriedPiece{{1, a}, {2, b}}); err == nil {
			t.Error("a file without its hash is handed out")
		}
		size = min(max(size, 0), source.MaxSize)
		if data, err := decode(form, []carriedPiece{{2, b}, {1, a}}, size); err == nil && form == formPacked && len(data) > size+1 {
			t.Errorf("%d bytes, of %d", len(data), size)
		}
	})
}

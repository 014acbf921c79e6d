package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"standclear/hazards"
)

// unpacked writes the files of a script into a folder.
func unpacked(t *testing.T, script string) string {
	t.Helper()
	a, err := txtar.ParseFile("../../testdata/script/" + script)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	for _, f := range a.Files {
		writeText(t, filepath.Join(dir, f.Name), string(f.Data))
	}
	return dir
}

func judged(t *testing.T, path string) *hazards.Result {
	t.Helper()
	r, _, err := assess(path)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Everything that a house brings stands under the sources as the user's own,
// with its file.
func TestOwnStandsUnderSources(t *testing.T) {
	for _, tt := range []struct{ script, file, key, title, address string }{
		{"own.txtar", "own.yaml", "sheet house-gate", "the user's own: Height of a gate", "house/gate.yaml"},
		{"own.txtar", "own.yaml", "table level-by-mttfd", "the user's own: PFH by MTTFD", "copy/level.yaml"},
		{"estimate.txtar", "cell.yaml", "method firm", "the user's own: Method of the firm", "house/firm.yaml"},
		{"estimate.txtar", "cell.yaml", "table firm-weights", "the user's own: Weight of a harm", "house/tables/firm.yaml"},
		{"own-contact.txtar", "own.yaml", "contact data house/contact.yaml", "the user's own: Limits of the house", "house/contact.yaml; report 7"},
	} {
		found := false
		for _, s := range judged(t, filepath.Join(unpacked(t, tt.script), tt.file)).Sources {
			found = found || s.Key == tt.key && strings.HasPrefix(s.Title, tt.title) && s.Address == tt.address
		}
		if !found {
			t.Errorf("%s does not name %s, %s", tt.script, tt.key, tt.address)
		}
	}
}

// A change of a file of the house moves the fingerprint, even where no verdict does.
func TestOwnMovesFingerprints(t *testing.T) {
	for _, tt := range []struct{ script, file, own, find, put string }{
		{"own.txtar", "own.yaml", "house/gate.yaml", "is: 2*reach", "is: 2*reach + 0*reach"},
		{"own.txtar", "own.yaml", "copy/level.yaml", "1.83e-6", "1.82e-6"},
		{"estimate.txtar", "cell.yaml", "house/firm.yaml", "do something", "do anything"},
		{"own-contact.txtar", "own.yaml", "house/contact.yaml", "250 N/cm2", "251 N/cm2"},
		{"own-contact.txtar", "own.yaml", "house/contact.yaml", "least_gap: 8 cm", "least_gap: 81 mm"},
		{"own-contact.txtar", "own.yaml", "house/contact.yaml", "report 7", "report 8"},
	} {
		dir := unpacked(t, tt.script)
		before := judged(t, filepath.Join(dir, tt.file))
		path := filepath.Join(dir, tt.own)
		data, err := os.ReadFile(path)
		if err != nil || !strings.Contains(string(data), tt.find) {
			t.Fatalf("%s: %v, or no %s", path, err, tt.find)
		}
		writeText(t, path, strings.ReplaceAll(string(data), tt.find, tt.put))
		after := judged(t, filepath.Join(dir, tt.file))
		if before.Fingerprint == after.Fingerprint {
			t.Errorf("%s: %s in place of %s moves no fingerprint of the document", tt.own, tt.put, tt.find)
		}
		for i := range before.Rows {
			if before.Rows[i].Fingerprint == after.Rows[i].Fingerprint {
				t.Errorf("%s: %s in place of %s moves no fingerprint of %s", tt.own, tt.put, tt.find, before.Rows[i].ID)
			}
		}
	}
}

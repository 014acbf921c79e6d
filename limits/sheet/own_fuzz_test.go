package sheet_test

import (
	"testing"
	"testing/fstest"

	"standclear/limits/sheet"
	"standclear/templates"
)

// Contact data with a slip in it is refused or read, never a panic, and never
// permits an area with which no contact is permitted.
func FuzzContact(f *testing.F) {
	for at := 0; at < len(ownContact); at += 37 {
		f.Add(uint16(at), uint16(5), "x")
		f.Add(uint16(at), uint16(0), "larynx")
		f.Add(uint16(at), uint16(9), "{area: eye, permitted: \"yes\"}")
	}
	f.Fuzz(func(t *testing.T, at, cut uint16, put string) {
		from := int(at) % len(ownContact)
		to := min(from+int(cut)%60, len(ownContact))
		text := ownContact[:from] + put + ownContact[to:]
		fsys := fstest.MapFS{"c.yaml": {Data: []byte(text)}}
		lib, problems := sheet.LoadOwn(templates.FS, sheet.OwnData{Contact: []sheet.Own{{FS: fsys, Dir: "own", Name: "mine"}}})
		if len(problems) > 0 {
			return
		}
		for _, area := range []string{"larynx", "eye", "ear", "forehead", "temple", "masticatory-muscle"} {
			if c := cellOf(t, lib, "contact-areas", area, "permitted"); c.Value.Text != "never" {
				t.Errorf("%s: %s", area, c.Value.Text)
			}
		}
	})
}

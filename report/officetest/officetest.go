// Package officetest lets tests recalculate workbooks with LibreOffice, an
// engine that shares no code with this program. It is needed by tests only.
package officetest

import (
	"context"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// requireTools names the environment variable that turns a missing tool from a
// skipped test into a failed one.
const requireTools = "STANDCLEAR_REQUIRE_TOOLS"

// patience is how long one conversion may take. A book of 10,000 rows takes
// about ten seconds.
const patience = 5 * time.Minute

// profile makes LibreOffice work out every formula on loading, whatever value
// the file keeps (0: always; by default it believes the file).
const profile = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="ODFRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
`

// Need finds a program that a test calls. Where it is missing the test is
// skipped, or fails if STANDCLEAR_REQUIRE_TOOLS is 1.
func Need(t testing.TB, names ...string) string {
	t.Helper()
	for _, name := range names {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	Without(t, "not installed: "+strings.Join(names, ", "))
	return ""
}

// NeedSet gives the value of an environment variable that a test calls for, such
// as the folder of a reference library. Where it is not set the test is skipped
// or fails like that of a missing program.
func NeedSet(t testing.TB, name string) string {
	t.Helper()
	value := os.Getenv(name)
	if value == "" {
		Without(t, "not set: "+name)
	}
	return value
}

// Without ends a test that lacks something of this machine: it is skipped, and
// says so, or fails where every reference tool is required. No other test is
// ever skipped.
func Without(t testing.TB, what string) {
	t.Helper()
	if os.Getenv(requireTools) == "1" {
		t.Fatal(what)
	}
	t.Skip(what)
}

// Recalculate opens a workbook, works out every formula anew and gives the path
// of the workbook saved so, which is removed after the test.
func Recalculate(t testing.TB, xlsx string) string {
	t.Helper()
	return Convert(t, "xlsx", xlsx)[0]
}

// Convert turns files, whose names differ, into another format with LibreOffice,
// in a profile of its own that works out every formula. to is the ending, or
// "ending:filter". Several files at a time spare the start of the program.
func Convert(t testing.TB, to string, from ...string) []string {
	t.Helper()
	office := Need(t, "soffice", "libreoffice")
	home, out := t.TempDir(), t.TempDir()
	user := filepath.Join(home, "user")
	if err := os.MkdirAll(user, 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(user, "registrymodifications.xcu"), []byte(profile), 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithTimeout(context.Background(), patience)
	defer stop()
	address := url.URL{Scheme: "file", Path: filepath.ToSlash(home)}
	args := append([]string{"-env:UserInstallation=" + address.String(), "--headless", "--norestore", "--convert-to", to, "--outdir", out}, from...)
	said, err := exec.CommandContext(ctx, office, args...).CombinedOutput()
	ending, _, _ := strings.Cut(to, ":")
	paths := make([]string, len(from))
	for i, f := range from {
		base := filepath.Base(f)
		paths[i] = filepath.Join(out, strings.TrimSuffix(base, filepath.Ext(base))+"."+ending)
		if _, missing := os.Stat(paths[i]); err != nil || missing != nil {
			t.Fatalf("converting %s to %s: %v\n%s", base, to, err, said)
		}
	}
	return paths
}

package main

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"standclear/report/officetest"
)

// nodeModules names the folder that holds the npm package exceljs.
const nodeModules = "STANDCLEAR_NODE_MODULES"

// TestNodeReads opens the demo workbook with a reader from the npm world and
// looks for what any reader must see: the sheets, formulas with numbers behind
// them, and no error value.
func TestNodeReads(t *testing.T) {
	node := officetest.Need(t, "node")
	modules := officetest.NeedSet(t, nodeModules)
	dir := t.TempDir()
	if code := run([]string{"demo", "-o", dir}, io.Discard, os.Stderr); code != exitDone {
		t.Fatalf("demo ended with %d", code)
	}
	script := `
const {Workbook} = require('exceljs');
(async () => {
  const wb = new Workbook();
  await wb.xlsx.readFile(process.argv[1]);
  let formulas = 0, numbers = 0, errors = 0;
  wb.eachSheet(s => s.eachRow(r => r.eachCell(c => {
    if (c.formula === undefined) return;
    formulas++;
    if (typeof c.result === 'number') numbers++; // an empty text has no result here
    if (c.result !== null && typeof c.result === 'object') errors++;
  })));
  console.log(wb.worksheets.map(s => s.name).join('|'));
  console.log(formulas > 1000 && numbers > 1000 ? 'many' : [formulas, numbers], errors);
})().catch(e => { console.error(e); process.exit(1); });`
	cmd := exec.Command(node, "-e", script, filepath.Join(dir, "demo.xlsx"))
	cmd.Env = append(os.Environ(), "NODE_PATH="+modules)
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	sheets, rest, _ := strings.Cut(string(out), "\n")
	for _, name := range []string{"Summary", "Cell", "Tasks", "Hazards", "Contact", "Distance", "Functions", "Other checks", "Measures", "Validation", "Review", "Data", "Sources"} {
		if !strings.Contains("|"+sheets+"|", "|"+name+"|") {
			t.Errorf("sheet %s is not seen in %s", name, sheets)
		}
	}
	if strings.TrimSpace(rest) != "many 0" {
		t.Errorf("formulas with numbers, and errors: %s", rest)
	}
}

package main

import (
	"flag"
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "rewrite expected outputs in testdata/script")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"standclear": func() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) },
	})
}

// TestScripts runs every command as a user would; see testdata/script.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "../../testdata/script",
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		Setup: func(env *testscript.Env) error {
			return os.CopyFS(env.WorkDir+"/ok", os.DirFS("../../testdata/ok"))
		},
	})
}

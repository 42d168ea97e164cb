package main

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"mullwright/cmd/mullwright/internal/cli"
)

var update = flag.Bool("update", false, "rewrite the expected output inside the scripts")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"mullwright": func() { os.Exit(cli.Main(os.Args[1:], cli.System())) },
	})
}

// Every script runs the program end to end, mistakes included. Each has its own
// empty home, so that no catalogue or book of the machine's user is read.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(env *testscript.Env) error {
			home := filepath.Join(env.WorkDir, "home")
			for _, v := range []string{"HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME"} {
				env.Setenv(v, home)
			}
			env.Setenv("NO_COLOR", "1")
			return os.MkdirAll(home, 0o755)
		},
	})
}

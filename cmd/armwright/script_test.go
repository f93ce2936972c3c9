package main

import (
	"flag"
	"fmt"
	"os"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "rewrite what the scripts compare with")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"armwright": main, "alternate": alternate})
}

// The scripts of testdata/script run the command as a user would, a file a
// topic. [slow] stands for full searches, which -short leaves out.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Condition: func(cond string) (bool, error) {
			switch cond {
			case "slow":
				return !testing.Short(), nil
			case "root": // who may write anywhere
				return os.Geteuid() == 0, nil
			}
			return false, fmt.Errorf("no condition %q", cond)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"holds-nothing": holdsNothing,
			"pause":         pause,
		},
	})
}

// holdsNothing asserts that a folder is empty, hidden files counted.
func holdsNothing(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 1 {
		ts.Fatalf("usage: holds-nothing DIR")
	}
	entries, err := os.ReadDir(ts.MkAbs(args[0]))
	ts.Check(err)
	if (len(entries) == 0) == neg {
		ts.Fatalf("%s holds %v", args[0], entries)
	}
}

// pause waits for a background command to be well under way.
func pause(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: pause DURATION")
	}
	d, err := time.ParseDuration(args[0])
	ts.Check(err)
	time.Sleep(d)
}

package main

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"armwright/testdata"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "rewrite what the scripts compare with")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"armwright": main, "alternate": alternate})
}

// The scripts of testdata/script run the command as a user would, a file a
// topic. [slow] stands for full searches, which -short leaves out, [long] for those
// among the long tests only.
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
			case "long":
				return testdata.IsLong(), nil
			case "root": // who may write anywhere
				return os.Geteuid() == 0, nil
			}
			return false, fmt.Errorf("no condition %q", cond)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"frame":         frame,
			"holds-nothing": holdsNothing,
			"pause":         pause,
			"killed-often":  killedOften,
		},
	})
}

// frame writes a solved station of testdata to a file.
func frame(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: frame NAME FILE")
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), testdata.Frame(args[0]), 0o666))
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

// killedOften runs a command again and again, each time killed without warning
// after a random while, until one run ends by itself; at least one must have
// been killed.
func killedOften(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: killed-often COMMAND ARGUMENT...")
	}
	path, err := exec.LookPath(args[0])
	ts.Check(err)
	kills := 0
	for range 400 {
		cmd := exec.Command(path, args[1:]...)
		cmd.Dir = ts.MkAbs(".")
		var errors strings.Builder
		cmd.Stderr = &errors
		ts.Check(cmd.Start())
		// The longest while grows, so that a slow machine gets there too.
		timer := time.AfterFunc(5*time.Millisecond+rand.N(time.Duration(kills+1)*20*time.Millisecond), func() { _ = cmd.Process.Kill() })
		err := cmd.Wait()
		timer.Stop()
		switch {
		case err == nil && kills == 0:
			ts.Fatalf("the command ended before it was killed")
		case err == nil:
			ts.Logf("killed %d times", kills)
			return
		case cmd.ProcessState.ExitCode() != -1:
			ts.Fatalf("%v: %s", err, errors.String())
		}
		kills++
	}
	ts.Fatalf("never came to its end")
}

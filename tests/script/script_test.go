// Package script_test drives the whole command line by scripts: each *.txtar
// file runs the program as a person or a script would.
package script_test

import (
	"os"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"tubside/ui/command"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"tubside": func() {
			os.Exit(command.Main(command.Env{
				Args: os.Args[1:], In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Clock: time.Now, Getenv: os.Getenv,
				Tick: time.Tick,
			}))
		},
	})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:   ".",
		Setup: setup,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits":    exits,
			"jsonkeys": jsonKeys,
			"hold":     hold,
			"cut":      cut,
			"newer":    newer,
			"damage":   damage,
			"release":  release,
			"overtake": overtake,
			"rows":     rows,
		},
	})
}

// setup gives each script a book of its own, a winter noon in Berlin, and a
// plain terminal.
func setup(env *testscript.Env) error {
	env.Setenv("TUBSIDE_BOOK", env.WorkDir+"/book.db")
	env.Setenv("TUBSIDE_NOW", "2026-01-31T12:00:00+01:00")
	env.Setenv("TZ", "Europe/Berlin")
	env.Setenv("TERM", "dumb")
	env.Setenv("ESC", "\x1b")
	return nil
}

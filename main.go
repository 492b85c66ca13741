// Command tubside is the board beside the tub: a logbook of air plants that
// says what to soak, for how long, what is drying and where each one hangs.
package main

import (
	"os"
	"path/filepath"
	"time"

	"github.com/adrg/xdg"

	"tubside/ui/command"
)

func main() {
	os.Exit(command.Main(command.Env{
		Args: os.Args[1:], In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Clock: time.Now, Getenv: os.Getenv,
		Tick: time.Tick, Cache: filepath.Join(xdg.CacheHome, "tubside"),
		State: filepath.Join(xdg.StateHome, "tubside"),
	}))
}

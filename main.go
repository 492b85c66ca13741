// Command tubside is the board beside the tub: a logbook of air plants that
// says what to soak, for how long, what is drying and where each one hangs.
package main

import (
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"time"

	"github.com/adrg/xdg"

	"tubside/ui/command"
)

func main() {
	collectLate()
	os.Exit(command.Main(command.Env{
		Args: os.Args[1:], In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Clock: time.Now, Getenv: os.Getenv,
		Tick: time.Tick, Cache: filepath.Join(xdg.CacheHome, "tubside"),
		State: filepath.Join(xdg.StateHome, "tubside"),
	}))
}

// collectLate lets the heap reach 16 MB before it is looked through for the first time,
// and leaves it to Go's usual measure from then on. A start makes what stays, so looking
// at 4 MB, at 6 and at 10 finds little, and takes a core from what is being read.
func collectLate() {
	debug.SetGCPercent(400) // of the 4 MB at which Go begins
	runtime.AddCleanup(new([64]byte), func(usual int) { debug.SetGCPercent(usual) }, 100)
}

package command

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/ui/board"
	"tubside/ui/show"
)

// execute carries out the command line. A mistake in the program itself ends it with
// a sentence; what is of use to whoever mends it goes into a file.
func (r *run) execute(root *cobra.Command) (err error) {
	defer func() {
		if c := board.Caught(recover()); c != nil {
			err = c
		}
		var c *board.Crash
		if errors.As(err, &c) {
			r.began = true
			err = r.crashed(c)
		}
	}()
	return root.Execute()
}

// crashed writes a crash down and says what a person should know of it.
func (r *run) crashed(c *board.Crash) error {
	p := &model.Problem{What: c.Error(), Do: "every entry made is in the book: start it again"}
	if r.env.State == "" {
		return p
	}
	path := filepath.Join(r.env.State, crashFile)
	if err := writeCrash(path, r.env.Clock(), c); err != nil {
		p.Do += fmt.Sprintf("; more of it could not be written down (%v)", err)
		return p
	}
	p.Do += "; for whoever mends tubside, more of it is in " + show.Safe(path)
	return p
}

const (
	crashFile = "crashes.log"
	// mostCrashes bounds the file, in bytes: the newest stay. A choice.
	mostCrashes = 64 << 10
	// crashHead begins what is said of each.
	crashHead = "--- "
)

// writeCrash puts a crash at the end of the file, with nothing of the book in it
// beyond what the mistake itself says.
func writeCrash(path string, at time.Time, c *board.Crash) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	before, err := os.ReadFile(path)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		return err
	}
	text := fmt.Sprintf("%s%s%s tubside %s, %s, %s/%s\n%v\n%s\n", before, crashHead, at.UTC().Format(time.RFC3339),
		version(), runtime.Version(), runtime.GOOS, runtime.GOARCH, c.Error(), c.Stack)
	for len(text) > mostCrashes {
		next := strings.Index(text[1:], "\n"+crashHead)
		if next < 0 {
			text = text[:mostCrashes] // one alone: its end is the least of it
			break
		}
		text = text[next+2:]
	}
	return os.WriteFile(path, []byte(text), 0o600)
}

package command

import (
	"errors"
	"os"
	"time"

	"github.com/charmbracelet/x/term"
	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/store"
	"tubside/ui/board"
)

// board opens the full-screen board.
func (r *run) board(*cobra.Command, []string) error {
	if r.plain != "" {
		return r.look(r.sayScreens)
	}
	if !r.onTerminal() {
		return &model.Problem{What: "the board needs a terminal", Do: "without one, try: tubside triage"}
	}
	s, err := r.open(store.Options{As: store.AsBoard, CopyLater: true})
	begun := errors.Is(err, store.ErrMissing)
	if begun {
		if err := r.offer(err); err != nil {
			return err
		}
		s, err = r.open(store.Options{As: store.AsBoard, CopyLater: true})
	}
	if err != nil {
		return err
	}
	if err := r.trustClock(s, store.Options{}); err != nil {
		return r.ended(s, err)
	}
	return r.ended(s, board.Run(s, r.ticking(), board.Options{ASCII: r.ascii, First: begun && s.Book().Len() == 0,
		Cache: r.env.Cache}))
}

// allScreens is --plain without a screen.
const allScreens = "all"

// sayScreens writes what the board shows as plain lines.
func (r *run) sayScreens(s *store.Store) error {
	var names []string
	if r.plain != allScreens {
		names = []string{r.plain}
	}
	return board.Plain(r.env.Out, s, r.now, board.Options{ASCII: r.ascii, Cache: r.env.Cache}, names...)
}

// showDemoBoard opens the board on a made-up collection, and says so.
func (r *run) showDemoBoard(s *store.Store, scene string) error {
	return board.Run(s, r.ticking(), board.Options{ASCII: r.ascii, Demo: scene})
}

// ticking is the clock of a command that lasts: the real one, or the one that
// stands still.
func (r *run) ticking() func() time.Time {
	if r.fixed.IsZero() {
		return r.env.Clock
	}
	return r.now
}

// onTerminal reports whether a person can see a full screen and type into it.
func (r *run) onTerminal() bool {
	return isTerminal(r.env.In) && isTerminal(r.env.Out)
}

func isTerminal(stream any) bool {
	f, ok := stream.(*os.File)
	return ok && term.IsTerminal(f.Fd())
}

package command

import (
	"fmt"
	"time"

	"tubside/model"
	"tubside/store"
	"tubside/ui/show"
)

// trustClock asks once about a machine's clock that cannot be right, before it
// dates an entry. Without a terminal there is nobody to ask: it is a warning, and
// the entry is written. A time that was given is taken as said.
func (r *run) trustClock(s *store.Store, opt store.Options) error {
	if opt.ReadOnly || !r.fixed.IsZero() {
		return nil
	}
	now := r.now()
	doubt, ok := s.Book().DoubtClock(now)
	if !ok {
		return nil
	}
	what := doubted(doubt, now)
	if !isTerminal(r.env.In) || !isTerminal(r.env.Err) {
		r.warn("%s; the entry is written with it: check the clock", what)
		return nil
	}
	if r.asks(orNo, "%s. Is the clock right?", what) {
		return nil
	}
	return &model.Problem{
		What: what,
		Do:   "set the clock, or give the time with --now, then do it again: nothing was written",
	}
}

// doubted says what is odd about a clock.
func doubted(d model.ClockDoubt, now time.Time) string {
	clock := "this machine's clock says " + now.Format("2 Jan 2006 15:04")
	if d.Newest.IsZero() {
		return clock
	}
	side := "before"
	if d.Ahead {
		side = "long after"
	}
	return fmt.Sprintf("%s, %s the newest entry of %s", clock, side, show.Clock(d.Newest, now, time.Local))
}

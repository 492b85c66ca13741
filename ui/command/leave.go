package command

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"time"

	"tubside/model"
	"tubside/store"
	"tubside/ui/show"
)

// inUseWait is how long an entry waits for a book that another command has, or
// for what was left before it to be taken in. A script that logs each minute does
// not mind.
const inUseWait = 3 * time.Second

// inUseLook is how often it looks meanwhile.
const inUseLook = 100 * time.Millisecond

// patience is how long to wait for a book in use: a board will not let it go.
func (r *run) patience() time.Duration {
	if store.HeldByBoard(r.bookPath()) {
		return time.Millisecond
	}
	return inUseWait
}

// making makes entries on a book, anew each time.
type making func(*model.Book) (store.Left, error)

// leave leaves entries for whoever has the book, and answers. They are made on the
// book as it will be once what was left before is taken in. Where that makes another
// entry of them than the book as it is, they are only left once it was: what has
// not been written may yet be refused. inUse is why the book could not be had.
func (r *run) leave(inUse error, made making, answer func(store.Left, *model.Book) error) error {
	for looks := 0; ; looks++ {
		waiting, err := store.Inbox(r.bookPath())
		if err != nil {
			return err
		}
		builds := false
		err = r.look(func(s *store.Store) (err error) {
			then := store.Expect(s.Book(), waiting)
			if builds, err = buildsOn(then, s.Book(), made); builds {
				return err
			}
			l, err := made(then)
			if err == nil && len(l.Entries) > 0 {
				l.First = then.NextSeq()
				l.Edits(then)
				err = store.Leave(s.Path(), l)
			}
			r.sayRefused(waiting, 0)
			if err != nil {
				return err
			}
			return answer(l, then)
		})
		switch {
		case !builds:
			return err
		case r.env.Tick == nil || looks >= int(inUseWait/inUseLook):
			return fmt.Errorf("what was left before is not taken in yet, and this builds on it: %w", inUse)
		}
		<-r.env.Tick(inUseLook)
	}
}

// buildsOn reports whether what is made on a book as it will be, is not what would
// be made on the book as it is but for numbers.
func buildsOn(then, now *model.Book, made making) (bool, error) {
	if then == now {
		return false, nil
	}
	late, err := made(then)
	if err != nil {
		return false, nil // refused either way: the caller says why
	}
	early, err := made(now)
	if err != nil {
		return true, nil
	}
	for i := range early.Entries {
		e := &early.Entries[i]
		e.Seq, e.Plants = now.NextSeq()+model.Seq(i), slices.Clone(e.Plants)
	}
	then.Renumber(early.Entries...)
	early.Entries = slices.DeleteFunc(early.Entries, func(e model.Entry) bool {
		_, left := then.Once(e.Once)
		return left // before, under its key
	})
	a, errA := json.Marshal(store.Left{Entries: early.Entries})
	b, errB := json.Marshal(store.Left{Entries: late.Entries})
	return !bytes.Equal(a, b), errors.Join(errA, errB)
}

// takeIn writes what was left while the book was in use, before anything else is.
func (r *run) takeIn(s *store.Store) {
	refused, err := s.TakeIn(func(w store.Waiting) {
		first, last := w.Entries[0].Seq, w.Entries[len(w.Entries)-1].Seq
		if first == last {
			r.warn("took in entry %d: %s", first, show.Sentence(w.Entries[0], s.Book()))
		} else {
			r.warn("took in entries %d to %d: %s", first, last, show.Entries(w.Entries, w.From, s.Book()))
		}
	})
	for _, w := range refused {
		r.warn("an entry that was left could not be taken in: %v; see: tubside book inbox", w.Why)
	}
	if err != nil {
		r.warn("the inbox could not be emptied: %v", err)
	}
	if all, err := store.Inbox(s.Path()); err == nil {
		r.sayRefused(all, len(refused))
	}
}

// sayRefused warns of what lies refused in the inbox, but for those just said.
func (r *run) sayRefused(all []store.Waiting, said int) {
	n := -said
	for _, w := range all {
		if w.Refused {
			n++
		}
	}
	if n > 0 {
		r.warn("%s left while the book was in use could not be taken in; see: tubside book inbox",
			show.Count(n, "entry", "entries"))
	}
}

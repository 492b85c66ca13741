package command

import (
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/store"
	"tubside/ui/show"
)

// inUseWait is how long an entry waits for a book that another command has. Our
// own: a script that logs each minute does not mind.
const inUseWait = 3 * time.Second

// patience is how long to wait for a book in use: a board will not let it go.
func (r *run) patience() time.Duration {
	if store.HeldByBoard(r.bookPath()) {
		return time.Millisecond
	}
	return inUseWait
}

// writtenBefore says so when an entry with this key is in the book.
func (r *run) writtenBefore(b *model.Book) (bool, error) {
	e, ok := b.Once(r.once)
	if !ok {
		return false, nil
	}
	if !r.json {
		return true, r.say("written before, as %d: %s", e.Seq, show.Sentence(e, b))
	}
	return true, r.wrote(e, b)
}

// inboxAnswer is an entry left in the inbox.
type inboxAnswer struct {
	Left bool       `json:"left"` // always true: it waits to be taken in
	At   *time.Time `json:"at"`
	Kind model.Kind `json:"kind"`
	Once string     `json:"once,omitempty"`
}

// leave makes an entry on the book as it stands on disk and leaves it for
// whoever has the book.
func (r *run) leave(entry func(*model.Book) (model.Entry, error)) error {
	return r.look(func(s *store.Store) error {
		if done, err := r.writtenBefore(s.Book()); done {
			return err
		}
		e, err := entry(s.Book())
		if err != nil {
			return err
		}
		e.Once = r.once
		if err := s.Book().Check(e); err != nil {
			return err
		}
		if err := store.Leave(s.Path(), e); err != nil {
			return err
		}
		if r.json {
			return r.inJSON(inboxAnswer{true, when(e.At), e.Fact.Kind(), e.Once})
		}
		return r.say("the book is in use: left for it to take in: %s", show.Sentence(e, s.Book()))
	})
}

// takeIn writes what was left while the book was in use, before anything else is.
func (r *run) takeIn(s *store.Store) {
	refused, err := s.TakeIn(func(e model.Entry) {
		r.warn("took in entry %d: %s", e.Seq, show.Sentence(e, s.Book()))
	})
	for _, w := range refused {
		r.warn("an entry that was left could not be taken in: %v; see: tubside book inbox", w.Why)
	}
	if err != nil {
		r.warn("the inbox could not be emptied: %v", err)
	}
}

// waitingAnswer is an entry in the inbox.
type waitingAnswer struct {
	Name    string     `json:"name"`
	Left    *time.Time `json:"left"`
	Refused bool       `json:"refused"`
	Why     string     `json:"why,omitempty"`
	Kind    model.Kind `json:"kind,omitempty"`
	Text    string     `json:"text,omitempty"`
}

func (r *run) inbox() *cobra.Command {
	var again, drop string
	c := &cobra.Command{
		Use: "inbox", Short: "entries left while the book was in use", Args: nothing,
		Long: `List the entries that were left while the book was in use and were not taken in
yet, and those that the book could not take. --again NAME lets one be tried again,
--drop NAME throws it away; to mend one, enter it anew and drop it.`,
		Example: "  tubside book inbox\n  tubside book inbox --json",
		RunE: func(*cobra.Command, []string) error {
			switch {
			case again != "":
				return store.TryAgain(r.bookPath(), again)
			case drop != "":
				return store.Drop(r.bookPath(), drop)
			}
			return r.look(r.sayInbox)
		},
	}
	c.Flags().StringVar(&again, "again", "", "try the entry of this `name` again")
	c.Flags().StringVar(&drop, "drop", "", "throw the entry of this `name` away")
	c.MarkFlagsMutuallyExclusive("again", "drop")
	return c
}

func (r *run) sayInbox(s *store.Store) error {
	all, err := store.Inbox(s.Path())
	if err != nil {
		return err
	}
	answers := []waitingAnswer{}
	for _, w := range all {
		a := waitingAnswer{Name: w.Name, Left: when(w.Left), Refused: w.Refused}
		why := w.Why
		if why == nil {
			a.Kind, a.Text = w.Entry.Fact.Kind(), show.Sentence(w.Entry, s.Book())
			if w.Refused {
				why = s.Book().Check(s.Book().Renumber(w.Entry))
			}
		}
		if why != nil {
			a.Why = why.Error()
		}
		answers = append(answers, a)
	}
	if r.json {
		return r.inJSON(answers)
	}
	if len(answers) == 0 {
		return r.say("nothing is left in the inbox")
	}
	for _, a := range answers {
		if err := r.say("%s", a.line()); err != nil {
			return err
		}
	}
	return nil
}

// line is an entry of the inbox for a person.
func (a *waitingAnswer) line() string {
	text := fmt.Sprintf("%s  %s", show.Safe(a.Name), a.Text)
	switch {
	case a.Refused && a.Why == "":
		text += "\n  refused when it came, and could be taken now: try it with --again"
	case a.Refused:
		text += "\n  refused: " + show.Safe(a.Why)
	}
	return text
}

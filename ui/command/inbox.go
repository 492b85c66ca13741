package command

import (
	"cmp"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/store"
	"tubside/ui/show"
)

// waitingAnswer is what lies in the inbox.
type waitingAnswer struct {
	Name    string     `json:"name"`
	Left    *time.Time `json:"left"`
	Refused bool       `json:"refused"`
	Why     string     `json:"why,omitempty"`
	Kind    model.Kind `json:"kind,omitempty"`    // of one entry
	Entries int        `json:"entries,omitempty"` // none where nobody can tell before it is taken in
	File    string     `json:"file,omitempty"`    // that it came from
	Text    string     `json:"text,omitempty"`
}

func (r *run) inbox() *cobra.Command {
	var again, drop string
	c := &cobra.Command{
		Use: "inbox", Short: "entries left while the book was in use", Args: nothing,
		Long: `List what was left while the book was in use and was not taken in yet, and what
the book could not take, and why. --again NAME lets that be tried again, --drop
NAME throws it away; to mend it, enter it anew and drop it.`,
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
		answers = append(answers, answerWaiting(w, s.Book()))
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

func answerWaiting(w store.Waiting, b *model.Book) waitingAnswer {
	a := waitingAnswer{Name: w.Name, Left: when(w.At), Refused: w.Refused, Entries: len(w.Entries), File: w.From}
	why := w.Why
	switch {
	case why != nil:
	case w.Sheet != nil:
		a.File, a.Text = w.Sheet.File, "the list "+show.Safe(w.Sheet.File)
	default:
		a.Text = show.Entries(w.Entries, w.From, b)
		if len(w.Entries) == 1 {
			a.Kind = w.Entries[0].Fact.Kind()
		}
	}
	if w.Refused {
		why = cmp.Or(why, w.Try(b))
	}
	if why != nil {
		a.Why = why.Error()
	}
	return a
}

// line is what lies in the inbox for a person.
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

package command

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/model/day"
	"tubside/store"
	"tubside/ui/show"
)

// enteredAnswer is an entry that was written.
type enteredAnswer struct {
	Seq    model.Seq    `json:"seq"`
	At     *time.Time   `json:"at"`
	Kind   model.Kind   `json:"kind"`
	Plants []model.ID   `json:"plants"`
	Load   model.LoadID `json:"load,omitempty"`
	Vessel string       `json:"vessel,omitempty"`
	Due    *time.Time   `json:"due,omitempty"`
}

// plantsWanted is what a command that needs plants says when it gets none.
const plantsWanted = "name plants by number, range, shelf:A or load:3"

// acts is everything that can be entered.
var acts = slices.Concat(roomActs, soakActs, looksActs, waterActs, plantActs, houseActs, planActs)

// enter groups one command for every act.
func (r *run) enter() *cobra.Command {
	var from, on string
	var each bool
	c := &cobra.Command{
		Use:   "enter",
		Short: "write an entry: what was done or seen",
		Long: `Write an entry in the book: what was done or seen. Plants are named by number
(17), range (12-40), shelf (shelf:A), load (load:3), or by how they stand:
pulled, soaking, drying, dry, bloom, rot, new, trouble, offsets, fading, all.
Every entry can be undone: enter strike.
` + batchWords,
		Example: "  tubside enter signs 17 2 1 0\n  tubside enter --from saturday.txt",
		RunE: func(_ *cobra.Command, args []string) error {
			switch {
			case len(args) > 0:
				return misread(noAct(args[0]))
			case r.once != "":
				return misread(errors.New("enter: --once is of one entry, not of a file of them"))
			case from == "" && on != "":
				return misread(errors.New("enter: --day is of the hours of a file; give --from as well"))
			case from == "":
				return misread(errors.New("enter: say what to enter: reading, signs, soak, out, dry, hung and so on"))
			}
			return r.enterFrom(from, on, each)
		},
	}
	c.Flags().StringVar(&from, "from", "", "take entries from this `file`, a line an entry; - is standard input")
	c.Flags().StringVar(&on, "day", "", "with --from: the `day` of its hours, 2026-03-14")
	c.PersistentFlags().StringVar(&r.once, "once", "",
		"a `key` of the entry's own: said again, it is not written again")
	c.Flags().BoolVar(&each, "each", false, "with --from: write the lines that can be taken, and say which were not")
	for i := range acts {
		c.AddCommand(r.entering(&acts[i]))
	}
	return c
}

// noAct says that there is nothing of a name to enter.
func noAct(word string) error {
	var words []string
	for _, a := range acts {
		words = append(words, a.word)
	}
	return &model.Problem{
		What: fmt.Sprintf("there is nothing to enter called %q", word), Do: model.Meant(word, words, ""),
		Shell: "list them with: tubside enter --help",
	}
}

// entering is the command of one act.
func (r *run) entering(a *act) *cobra.Command {
	c := &cobra.Command{
		Use: a.word + " " + a.takes, Short: a.short, Long: a.long,
		Example: "  tubside enter " + a.examples[0] + "\n  tubside enter " + a.examples[1],
		RunE: func(c *cobra.Command, words []string) error {
			in := &said{act: a, words: words, flags: c.Flags(), now: r.now()}
			if _, err := in.fact(); err != nil {
				return misread(err)
			}
			var made model.Entry
			err := r.write(func(b *model.Book) (_ model.Entry, err error) {
				made, err = in.entry(b)
				return made, err
			})
			if err != nil {
				return err
			}
			return r.suggestName(made.Fact)
		},
	}
	for _, f := range a.flags {
		f.add(c.Flags(), f.name)
	}
	return c
}

// write makes an entry on the book as it stands, writes it and says so. Where
// another has the book it is left for it.
func (r *run) write(entry func(*model.Book) (model.Entry, error)) error {
	err := r.with(store.Options{Wait: r.patience()}, func(s *store.Store) error {
		if e, done := s.Book().Once(r.once); done {
			return r.wroteBefore(e, s.Book())
		}
		e, err := entry(s.Book())
		if err != nil {
			return err
		}
		e.Once = r.once
		if _, err := r.settle(s, e); err != nil {
			return err
		}
		if e, err = s.Append(e); err != nil {
			return err
		}
		return r.wrote(e, s.Book())
	})
	if !errors.Is(err, store.ErrInUse) {
		return err
	}
	return r.leave(err, func(b *model.Book) (l store.Left, err error) {
		if _, done := b.Once(r.once); done {
			return l, nil
		}
		e, err := entry(b)
		e.Once = r.once
		if err == nil {
			err = b.Check(e)
		}
		return store.Left{Entries: []model.Entry{e}}, err
	}, r.leftEntry)
}

// settle writes what of the agreed plan is settled by now, before entries by which it is
// followed on: who is left out stays so.
func (r *run) settle(s *store.Store, entries ...model.Entry) (wrote bool, err error) {
	follows := func(e model.Entry) bool { return day.Follows(e, r.now()) }
	if s.Book().AgreedPlan(r.now()) == nil || !slices.ContainsFunc(entries, follows) {
		return false, nil
	}
	p, err := day.Current(context.Background(), r.beliefs.Keeper(s.Book()), r.now())
	if err != nil {
		return false, nil // a plan that no vessel is left for keeps nobody from writing
	}
	a := p.Settle(s.Book(), r.now())
	if a == nil {
		return false, nil
	}
	r.warn("the plan: %s", show.PlanNews(p.News(s.Book())))
	_, err = s.Append(model.NewEntry(r.now(), a))
	return err == nil, err
}

// wroteBefore says so of an entry that is in the book with this key.
func (r *run) wroteBefore(e model.Entry, b *model.Book) error {
	if !r.json {
		return r.say("written before, as %d: %s", e.Seq, show.Sentence(e, b))
	}
	return r.wrote(e, b)
}

// inboxAnswer is an entry left in the inbox.
type inboxAnswer struct {
	Left bool       `json:"left"` // always true: it waits to be taken in
	At   *time.Time `json:"at"`
	Kind model.Kind `json:"kind"`
	Once string     `json:"once,omitempty"`
}

// leftEntry says that an entry was left; none was when it is there under its key.
func (r *run) leftEntry(l store.Left, b *model.Book) error {
	if len(l.Entries) == 0 {
		e, _ := b.Once(r.once)
		return r.wroteBefore(e, b)
	}
	e := l.Entries[0]
	if r.json {
		return r.inJSON(inboxAnswer{true, when(e.At), e.Fact.Kind(), e.Once})
	}
	return r.say("the book is in use: left for it to take in: %s", show.Sentence(e, b))
}

// wrote says what was written.
func (r *run) wrote(e model.Entry, b *model.Book) error {
	if !r.json {
		err := r.say("wrote %d: %s%s", e.Seq, show.Sentence(e, b), r.dayLoad(e, b)+besideLoads(e, b))
		for _, words := range r.andNow(e, b) {
			if err == nil {
				err = r.say("%s", r.folded(words))
			}
		}
		return err
	}
	a := enteredAnswer{Seq: e.Seq, At: when(e.At), Kind: e.Fact.Kind(), Plants: named(e)}
	if f, ok := e.Fact.(*model.Soak); ok {
		a.Load, a.Vessel, a.Due = f.Load, f.Vessel, when(f.Due)
	}
	return r.inJSON(a)
}

// andNow says what to know or to do now that something was written: from when on the clock
// of a load runs, and what is left to do by whoever stops for the day.
func (r *run) andNow(e model.Entry, b *model.Book) []string {
	switch f := e.Fact.(type) {
	case *model.Soak:
		words := "its clock runs from " + e.At.In(b.Zone()).Format("15:04") + ", when the first plant went in"
		if r.fixed.IsZero() {
			words += "; if that was earlier, undo this (tubside enter strike) and enter it with --now and that time"
		}
		return []string{words}
	case *model.Agreed:
		if p, err := day.Current(context.Background(), r.beliefs.Keeper(b), e.At); err == nil && p != nil && !f.Stop.IsZero() {
			return show.Stopped(b, p)
		}
	}
	return nil
}

// besideLoads says with which loads one that went into the water shares its vessel.
func besideLoads(e model.Entry, b *model.Book) string {
	into, ok := e.Fact.(*model.Soak)
	if !ok {
		return ""
	}
	text := ""
	for _, l := range b.InVessel(into.Vessel) {
		if l.ID != into.Load {
			text += fmt.Sprintf("; beside load %d, which is out at %s", l.ID, show.Clock(l.Due, e.At, b.Zone()))
		}
	}
	return text
}

// named lists the plants an entry is about, those it brings among them.
func named(e model.Entry) []model.ID {
	ids := append([]model.ID{}, e.Plants...)
	add := func(plants ...model.Plant) {
		for _, p := range plants {
			if !e.Plants.Has(p.ID) {
				ids = append(ids, p.ID)
			}
		}
	}
	switch f := e.Fact.(type) {
	case *model.Add:
		add(f.Plants...)
	case *model.Edit:
		add(f.Plants...)
	case *model.Import:
		add(f.Added...)
		add(f.Changed...)
	case *model.Split:
		add(f.New)
	}
	return ids
}

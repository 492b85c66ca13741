package command

import (
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
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

// enter groups one command for every kind of entry.
func (r *run) enter() *cobra.Command {
	c := &cobra.Command{
		Use:   "enter",
		Short: "write an entry: what was done or seen",
		Long: `Write an entry in the book: what was done or seen. Plants are named by number
(17), range (12-40), shelf (shelf:A), load (load:3), or by how they stand:
pulled, soaking, drying, dry, bloom, rot, new, trouble, offsets, fading, all.
Every entry can be struck.`,
		Args: wants(1, many, "say what to enter: reading, signs, soak, out, dry, hung and so on"),
		RunE: func(_ *cobra.Command, args []string) error {
			return misread(&model.Problem{What: fmt.Sprintf("there is nothing to enter called %q", args[0]), Do: "list them with: tubside enter --help"})
		},
	}
	c.AddCommand(
		r.trip(), r.back(),
		r.reading(), r.fan(), r.window(), r.shelf(), r.weight(), r.rule(), r.vessel(), r.bench(), r.shelfDay(),
		r.pull(), r.putBack(), r.soak(), r.out(), r.damp(), r.dry(), r.hung(),
		r.signs(), r.bloom(), r.rot(), r.mist(), r.note(),
		r.addPlant(), r.edit(), r.move(), r.split(), r.leave(),
		r.feedPlants(), r.bottle(), r.fill(), r.drain(), r.sample(),
		r.looked(), r.offsets(), r.separate(), r.fading(), r.quarantine(), r.trouble(),
		r.strike(),
	)
	return c
}

// build makes an entry's fact and names its plants, on the book as it stands.
type build func(b *model.Book, now time.Time) (model.Fact, model.IDs, error)

// write makes an entry, writes it and says so.
func (r *run) write(make build) error {
	return r.change(func(s *store.Store) error {
		fact, ids, err := make(s.Book(), r.now())
		if err != nil {
			return err
		}
		e, err := s.Append(model.NewEntry(r.now(), fact, ids...))
		if err != nil {
			return err
		}
		return r.wrote(e, s.Book())
	})
}

// writeOn writes a fact about the plants that words name.
func (r *run) writeOn(words []string, fact model.Fact) error {
	return r.write(func(b *model.Book, _ time.Time) (model.Fact, model.IDs, error) {
		ids, err := b.Choose(words...)
		return fact, ids, err
	})
}

// onPlants is an entry that says the same of each plant and has no flags.
func (r *run) onPlants(use, short string, fact model.Fact) *cobra.Command {
	return &cobra.Command{
		Use: use + " PLANTS...", Short: short, Args: wants(1, many, plantsWanted),
		RunE: func(_ *cobra.Command, args []string) error { return r.writeOn(args, fact) },
	}
}

// wrote says what was written.
func (r *run) wrote(e model.Entry, b *model.Book) error {
	if !r.json {
		return r.say("wrote %d: %s", e.Seq, show.Sentence(e, b))
	}
	a := enteredAnswer{Seq: e.Seq, At: when(e.At), Kind: e.Fact.Kind(), Plants: named(e)}
	if f, ok := e.Fact.(*model.Soak); ok {
		a.Load, a.Vessel, a.Due = f.Load, f.Vessel, when(f.Due)
	}
	return r.inJSON(a)
}

// named lists the plants an entry is about, those it brings among them.
func named(e model.Entry) []model.ID {
	ids := append([]model.ID{}, e.Plants...)
	switch f := e.Fact.(type) {
	case *model.Add:
		ids = append(ids, rowIDs(f.Plants)...)
	case *model.Edit:
		ids = append(ids, rowIDs(f.Plants)...)
	case *model.Import:
		ids = append(append(ids, rowIDs(f.Added)...), rowIDs(f.Changed)...)
	case *model.Split:
		ids = append(ids, f.New.ID)
	}
	return ids
}

func rowIDs(plants []model.Plant) []model.ID {
	ids := make([]model.ID, len(plants))
	for i, p := range plants {
		ids[i] = p.ID
	}
	return ids
}

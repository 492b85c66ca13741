package command

import (
	"errors"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
)

// addPlant brings one new row into the book.
func (r *run) addPlant() *cobra.Command {
	var w wording
	c := &cobra.Command{
		Use:   "add --label LABEL | --name NAME",
		Short: "a new plant, clump or tray",
		Long: `A new plant, clump or tray. What is not said of form, leaf and size is filled in
from the species list and marked as assumed.`,
		Example: `  tubside enter add --label Fuego --name "Tillandsia ionantha" --shelf A --spot 12`,
		Args:    nothing,
		RunE: func(c *cobra.Command, _ []string) error {
			p := model.Plant{Count: 1}
			if err := w.onto(&p, c.Flags()); err != nil {
				return misread(err)
			}
			if p.Label == "" && p.Name == "" {
				return misread(errors.New("enter add: give --label or --name"))
			}
			assume(&p)
			err := r.write(func(b *model.Book, _ time.Time) (model.Fact, model.IDs, error) {
				p.ID = b.NextID()
				return &model.Add{Plants: []model.Plant{p}}, nil, nil
			})
			if err != nil {
				return err
			}
			return r.suggestName(p)
		},
	}
	w.flags(c.Flags())
	return c
}

// edit changes what is said of plants: only what a flag names.
func (r *run) edit() *cobra.Command {
	var w wording
	c := &cobra.Command{
		Use:     "edit PLANTS... --form fuzzy",
		Short:   "change what is said of plants; only what a flag names",
		Example: `  tubside enter edit 17 --label Fuego --note ""`,
		Args:    wants(1, many, plantsWanted),
		RunE: func(c *cobra.Command, args []string) error {
			var trial model.Plant
			if err := w.onto(&trial, c.Flags()); err != nil {
				return misread(err)
			}
			if !w.any(c.Flags()) {
				return misread(errors.New("enter edit: say what changes, with a flag"))
			}
			return r.write(func(b *model.Book, _ time.Time) (model.Fact, model.IDs, error) {
				rows, err := w.edited(b, args, c.Flags())
				return &model.Edit{Plants: rows}, nil, err
			})
		},
	}
	w.flags(c.Flags())
	return c
}

// move gives plants a new home.
func (r *run) move() *cobra.Command {
	var to model.Home
	c := &cobra.Command{
		Use: "move PLANTS... --shelf A --spot 12", Short: "a new home", Args: wants(1, many, plantsWanted),
		RunE: func(_ *cobra.Command, args []string) error { return r.writeOn(args, &model.Move{To: to}) },
	}
	c.Flags().StringVar(&to.Shelf, "shelf", "", "the `shelf`")
	c.Flags().StringVar(&to.Spot, "spot", "", "the `spot` on it; none is somewhere on the shelf")
	return c
}

// split takes plants off a tray or clump as a row of their own. The part is
// described as the whole, but for what a flag names.
func (r *run) split() *cobra.Command {
	var w wording
	c := &cobra.Command{
		Use:     "split PLANT --count N",
		Short:   "plants taken off a tray or clump, as a row of their own",
		Example: `  tubside enter split 17 --count 3 --shelf B --label "Fuego pups"`,
		Args:    wants(1, 1, "name the one tray or clump"),
		RunE: func(c *cobra.Command, args []string) error {
			if !c.Flags().Changed("count") {
				return misread(errors.New("enter split: give --count"))
			}
			if err := w.onto(&model.Plant{}, c.Flags()); err != nil {
				return misread(err)
			}
			return r.write(func(b *model.Book, _ time.Time) (model.Fact, model.IDs, error) {
				ids, err := b.Choose(args...)
				if err != nil || len(ids) != 1 {
					return &model.Split{}, ids, err // several: the book says so itself
				}
				part := b.Row(ids[0]).Plant
				part.ID = b.NextID()
				err = w.onto(&part, c.Flags())
				return &model.Split{New: part}, ids, err
			})
		},
	}
	w.flags(c.Flags())
	return c
}

// leave marks plants gone.
func (r *run) leave() *cobra.Command {
	var cause, note string
	var sold, given bool
	c := &cobra.Command{
		Use:     "gone PLANTS... --lost CAUSE | --sold | --given",
		Short:   "lost, sold or given away; they leave the shelf, never the book",
		Example: "  tubside enter gone 17 --lost rot\n  tubside enter gone 18 --given --note \"a neighbour\"",
		Args:    wants(1, many, plantsWanted),
		RunE: func(_ *cobra.Command, args []string) error {
			if !sold && !given && cause == "" {
				return misread(errors.New("enter gone: give --lost with the cause, --sold or --given"))
			}
			return r.writeOn(args, &model.Leave{How: howGone(sold, given), Cause: cause, Note: note})
		},
	}
	c.Flags().StringVar(&cause, "lost", "", "the `cause`: rot, drought, pests, burn, cold, sun, age, unknown")
	c.Flags().BoolVar(&sold, "sold", false, "sold")
	c.Flags().BoolVar(&given, "given", false, "given away")
	c.Flags().StringVar(&note, "note", "", "for whom, for how much, what was seen")
	c.MarkFlagsMutuallyExclusive("lost", "sold", "given")
	return c
}

func howGone(sold, given bool) string {
	switch {
	case sold:
		return model.Sold
	case given:
		return model.Given
	}
	return model.Lost
}

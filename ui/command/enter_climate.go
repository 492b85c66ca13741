package command

import (
	"errors"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
)

// window says how the room with the drying plants is aired.
func (r *run) window() *cobra.Command {
	return &cobra.Command{
		Use:   "window shut|open|extractor",
		Short: "how the room with the drying plants is aired",
		Args:  wants(1, 1, "say shut, open or extractor"),
		RunE: func(_ *cobra.Command, args []string) error {
			w, err := model.ParseWindow(strings.ToLower(strings.TrimSpace(args[0])))
			if err != nil {
				return misread(err)
			}
			return r.writeOn(nil, &model.WindowSet{Window: w})
		},
	}
}

// shelf says how fast plants dry out in one place.
func (r *run) shelf() *cobra.Command {
	return &cobra.Command{
		Use:   "shelf NAME FACTOR",
		Short: "how much faster plants dry out on a shelf than elsewhere: 1.4 over a radiator",
		Long: `How much faster plants dry out on a shelf than elsewhere: 1.4 over a radiator,
0.8 in a damp corner, 1 as anywhere. It holds for the shelf's past too.`,
		Example: "  tubside enter shelf sill 1.4",
		Args:    wants(2, many, "name the shelf and its factor"),
		RunE: func(_ *cobra.Command, args []string) error {
			last := len(args) - 1
			factor, err := strconv.ParseFloat(args[last], 64)
			if err != nil {
				return misread(&model.Problem{What: strconv.Quote(args[last]) + " is not a factor", Do: "write 1.4 for 1.4 times as fast"})
			}
			name := strings.Join(args[:last], " ")
			return r.write(func(b *model.Book, _ time.Time) (model.Fact, model.IDs, error) {
				return &model.ShelfSet{Name: name, Factor: factor}, nil, nil
			})
		},
	}
}

// weight puts one row on the kitchen scale.
func (r *run) weight() *cobra.Command {
	grams, wet := of(0, "", "g", "grams"), false
	c := &cobra.Command{
		Use:   "weight PLANT --g N",
		Short: "a row on the kitchen scale: --wet when it comes out of the water, later without",
		Long: `A row on the kitchen scale. Weigh it --wet when it comes out of a long soak,
shaken and blotted, and again whenever you like before the next: what it has
lost says more than any sign.`,
		Example: "  tubside enter weight 17 --g 41.5 --wet\n  tubside enter weight 17 --g 33.2",
		Args:    wants(1, 1, "name one plant"),
		RunE: func(_ *cobra.Command, args []string) error {
			if !grams.given {
				return misread(errors.New("enter weight: give --g"))
			}
			return r.writeOn(args, &model.Weigh{Grams: grams.value, Wet: wet})
		},
	}
	c.Flags().Var(&grams, "g", "weight in grams")
	c.Flags().BoolVar(&wet, "wet", false, "fully soaked, shaken and blotted")
	return c
}

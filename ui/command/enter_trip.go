package command

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"tubside/model"
)

// trip writes a trip in the book; forecast --note does so as well.
func (r *run) trip() *cobra.Command {
	var from, until, note string
	c := &cobra.Command{
		Use:     "trip --from DAY --until DAY",
		Short:   "you will be, are or were away; a new trip replaces one that is not over",
		Example: `  tubside enter trip --from 2026-05-07 --until 2026-05-19 --note "the islands"`,
		Args:    nothing,
		RunE: func(*cobra.Command, []string) error {
			if from == "" || until == "" {
				return misread(errors.New("enter trip: give --from and --until"))
			}
			trip := &model.Trip{Note: note}
			leaving, err := dayOrTime(from, r.now().Location())
			if err != nil {
				return misread(fmt.Errorf("--from: %w", err))
			}
			back, err := dayOrTime(until, r.now().Location())
			if err != nil {
				return misread(fmt.Errorf("--until: %w", err))
			}
			trip.From, trip.Until = leaving.UTC(), back.UTC()
			return r.writeOn(nil, trip)
		},
	}
	c.Flags().StringVar(&from, "from", "", "the `day` you leave, 2026-05-07, or a time, 2026-05-07T08:00")
	c.Flags().StringVar(&until, "until", "", "the `day` you are back")
	c.Flags().StringVar(&note, "note", "", "anything worth remembering")
	return c
}

// back says that the grower is home.
func (r *run) back() *cobra.Command {
	return &cobra.Command{
		Use: "back", Short: "home again from the trip", Args: nothing,
		RunE: func(*cobra.Command, []string) error { return r.writeOn(nil, &model.Back{}) },
	}
}

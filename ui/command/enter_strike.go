package command

import (
	"errors"
	"fmt"
	"strconv"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
)

// strike takes an entry back, or brings one back.
func (r *run) strike() *cobra.Command {
	var back bool
	c := &cobra.Command{
		Use:   "strike [N]",
		Short: "take an entry back: the last one, or number N",
		Long: `Take an entry back: the last one, or number N (see: tubside book --entries). A
struck entry stays in the book and stops counting. --back brings the last
struck one back.`,
		Args: wants(0, 1, "give one entry's number, or none for the last"),
		RunE: func(_ *cobra.Command, args []string) error {
			if back && len(args) > 0 {
				return misread(errors.New("enter strike: --back brings back the last struck entry and takes no number"))
			}
			seq, err := readSeq(args)
			if err != nil {
				return misread(err)
			}
			return r.write(func(b *model.Book, _ time.Time) (model.Fact, model.IDs, error) {
				seq, err := toStrike(b, seq, back)
				return &model.Strike{Seq: seq}, nil, err
			})
		},
	}
	c.Flags().BoolVar(&back, "back", false, "bring the last struck entry back")
	return c
}

// readSeq reads an entry's number; none is 0.
func readSeq(args []string) (model.Seq, error) {
	if len(args) == 0 {
		return 0, nil
	}
	n, err := strconv.ParseUint(args[0], 10, 63)
	if err != nil || n == 0 {
		return 0, &model.Problem{What: fmt.Sprintf("%q is not the number of an entry", args[0]), Do: "list them with: tubside book --entries"}
	}
	return model.Seq(n), nil
}

// toStrike finds the entry to strike: the one named, the last that counts, or
// the last strike.
func toStrike(b *model.Book, seq model.Seq, back bool) (model.Seq, error) {
	if seq != 0 {
		return seq, nil
	}
	last, what := b.LastToStrike, "no entry is left to strike"
	if back {
		last, what = b.LastStrike, "the last entry is not a strike, so there is nothing to bring back"
	}
	e, ok := last()
	if !ok {
		return 0, &model.Problem{What: what, Do: "list the entries with: tubside book --entries"}
	}
	return e.Seq, nil
}

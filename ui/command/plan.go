package command

import (
	"context"
	"errors"
	"os"
	"os/signal"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/model/care"
	"tubside/store"
)

// planQuestion is a soak day as asked for on the command line.
type planQuestion struct {
	from, until, dryBy, shelf, file string
	pauses, bands                   []string
	feed, today, force              bool
}

// plan plans a soak day. It writes nothing into the book.
func (r *run) plan() *cobra.Command {
	var q planQuestion
	c := &cobra.Command{
		Use:   "plan [PLANTS...]",
		Short: "a soak day: what goes in where and when, what comes out when, dry before night",
		Long: `A soak day, planned: what goes into which vessel and when, what comes out when,
and what has no place in the day and why. Without plants it takes every plant
that is due; without hours it takes those of the house rules. Loads in the water
stay as they are. The book is not changed.

Never leave a child or a pet alone with a filled tub or bucket, and empty each at
once. Keep fans and cords away from the water; the local electrical code has the
last word.`,
		Example: `  tubside plan --from 09:00 --until 14:00 --dry-by 21:00 --pause 12:00-12:30
  tubside plan --shelf A --sheet saturday.html`,
		RunE: func(c *cobra.Command, args []string) error {
			ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
			defer stop()
			return r.look(func(s *store.Store) error {
				if err := r.onShelf(s.Book(), q.shelf); err != nil {
					return err
				}
				keeper := care.New(s.Book())
				ask, err := q.ask(s.Book(), keeper, r.now(), args)
				if err != nil {
					return misread(err)
				}
				p, err := keeper.Plan(ctx, r.now(), ask)
				if err != nil {
					return err
				}
				return r.sayPlan(s.Book(), p, &q)
			})
		},
	}
	flags := c.Flags()
	flags.StringVar(&q.from, "from", "", "`hour` from which the hands are free, 09:00")
	flags.StringVar(&q.until, "until", "", "`hour` by which they are done, 14:00")
	flags.StringVar(&q.dryBy, "dry-by", "", "`hour` by which all must be dry, 21:00")
	flags.StringArrayVar(&q.pauses, "pause", nil, "`hours` without hands, 12:00-12:30; may be given again")
	flags.StringVar(&q.shelf, "shelf", "", "only plants of this `shelf`")
	flags.BoolVar(&q.today, "week", false, "only the plants whose turn in the week it is")
	flags.StringSliceVar(&q.bands, "band", nil, "only these bands, by name or letter: `long,deep`")
	flags.BoolVar(&q.feed, "feed", false, "plants due a feed soak in the vessels for fed water")
	flags.StringVar(&q.file, "sheet", "", "write it as a sheet to print, `FILE`.txt or FILE.html")
	flags.BoolVar(&q.force, "force", false, "replace the sheet's file if there is one")
	return c
}

// sayPlan answers with the plan, as was asked for.
func (r *run) sayPlan(b *model.Book, p *care.Plan, q *planQuestion) error {
	switch {
	case q.file != "" && r.json:
		return misread(errors.New("plan: give --sheet or --json, not both"))
	case q.file != "":
		if err := r.planSheet(b, p, q); err != nil {
			return err
		}
		return r.say("the sheet is in %s", q.file)
	case r.json:
		return r.inJSON(answerPlan(p))
	}
	return r.planTables(b, p)
}

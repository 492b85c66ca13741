package command

import (
	"context"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
)

// planActs say yes to a soak day's plan.
var planActs = []act{{
	word: "plan", takes: "[PLANTS...]", words: arity{0, many, plantsWanted},
	short: "agree to the soak day's plan: board, shell and paper keep to it",
	long: `Agree to the soak day's plan, as tubside plan makes it now. From then on board,
shell and paper show this one; what is done is ticked off, and times slide. When
a load can no longer be done in time, it is left out and you are told. --give-up
drops the plan.`,
	examples: [2]string{"plan --until 14:00", "plan --give-up"},
	flags: []flag{
		text("from", "`hour` from which you are free, 09:00"),
		text("until", "`hour` by which they are done, 14:00"),
		text("dry-by", "`hour` by which all must be dry, 21:00"), text("shelf", "only plants of this `shelf`"),
		list("pause", "`hours` in which you are away, 12:00-12:30; may be given again"),
		list("help-from", "`hours` in which somebody helps you, 10:00-11:00"),
		yes("feed", "plants due a feed soak in the vessels for fed water"),
		yes("small-loads", "loads of any size, also of a plant or two"),
		yes("week", "only the plants whose turn in the week it is"),
		yes("give-up", "no plan any more"),
	},
	only: []string{"give-up", "from"},
	fact: func(*said) (model.Fact, error) { return &model.Agreed{}, nil },
	on: func(in *said, b *model.Book, f model.Fact) (model.IDs, error) {
		if in.yes("give-up") {
			return nil, nil
		}
		q := planQuestion{
			from: in.text("from"), until: in.text("until"), dryBy: in.text("dry-by"), shelf: in.text("shelf"),
			pauses: in.list("pause"), helps: in.list("help-from"), feed: in.yes("feed"), small: in.yes("small-loads"), today: in.yes("week"),
		}
		k := estimate.New(b)
		ask, err := q.ask(b, k, in.now, in.words)
		if err != nil {
			return nil, err
		}
		p, err := day.NewPlan(context.Background(), k, in.now, ask)
		if err != nil {
			return nil, err
		}
		if len(p.Loads) == 0 {
			return nil, &model.Problem{What: "no plant needs water today: there is nothing to agree to"}
		}
		*f.(*model.Agreed) = *p.Agree(b, in.now)
		return nil, nil
	},
}, {
	word: "stop", takes: "", words: arity{0, 0, "nothing more"},
	short: "stop for today: what is still to go in waits for another day",
	long: `Stop for today, once all is out of the water (tubside enter out soaking). What is
still to go in of the plan waits for another day, and nothing more is proposed
until a plan is asked for again.`,
	examples: [2]string{"stop", "stop --now 2026-01-31T15:00:00Z"},
	fact:     func(*said) (model.Fact, error) { return &model.Agreed{}, nil },
	on: func(in *said, b *model.Book, f model.Fact) (model.IDs, error) {
		if len(b.OpenLoads()) > 0 {
			return nil, &model.Problem{What: "there are plants in the water", Do: "take them out first", Shell: "tubside enter out soaking"}
		}
		p, err := day.Current(context.Background(), estimate.New(b), in.now)
		if err == nil {
			*f.(*model.Agreed) = *day.Stop(b, p, in.now)
		}
		return nil, err
	},
}}

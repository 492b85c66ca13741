package command

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/store"
	"tubside/ui/paper"

	"github.com/spf13/cobra"
)

// planQuestion is a soak day as asked for on the command line.
type planQuestion struct {
	from, until, dryBy, shelf, file string
	pauses, bands                   []string
	helps                           []string
	feed, today, again, small       bool
	calendar                        calendarFile
}

// asksAnew reports whether something is asked for that an agreed plan may not
// answer.
func (q *planQuestion) asksAnew(words []string) bool {
	return q.again || q.from+q.until+q.dryBy+q.shelf != "" || len(q.pauses)+len(q.bands)+len(q.helps)+len(words) > 0 ||
		q.feed || q.today || q.small
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
stay as they are. The book is not changed. A plan that is agreed (tubside enter
plan) is shown as it stands, until something else is asked for.

Never leave a child or a pet alone with a filled tub or bucket, and empty each at
once. Keep fans and cords away from the water, and follow your local electrical
code.`,
		Example: `  tubside plan --from 09:00 --until 14:00 --dry-by 21:00 --pause 12:00-12:30
  tubside plan --shelf A --sheet saturday.html`,
		RunE: func(c *cobra.Command, args []string) error {
			ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
			defer stop()
			return r.look(func(s *store.Store) error {
				if err := r.onShelf(s.Book(), q.shelf); err != nil {
					return err
				}
				keeper := r.keeper(s.Book())
				ask, err := q.ask(s.Book(), keeper, r.now(), args)
				if err != nil {
					return misread(err)
				}
				var p *day.Plan
				if !q.asksAnew(args) {
					p, err = day.Current(ctx, keeper, r.now())
				}
				if err == nil && p == nil {
					p, err = day.NewPlan(ctx, keeper, r.now(), ask)
				}
				if err != nil {
					return err
				}
				return r.sayPlan(ctx, keeper, p, &q)
			})
		},
	}
	flags := c.Flags()
	flags.StringVar(&q.from, "from", "", "`hour` from which you are free, 09:00")
	flags.StringVar(&q.until, "until", "", "`hour` by which they are done, 14:00")
	flags.StringVar(&q.dryBy, "dry-by", "", "`hour` by which all must be dry, 21:00")
	flags.StringArrayVar(&q.pauses, "pause", nil, "`hours` in which you are away, 12:00-12:30; may be given again")
	flags.StringArrayVar(&q.helps, "help-from", nil,
		"`hours` in which somebody helps you, 10:00-11:00; may be given again")
	flags.BoolVar(&q.again, "again", false, "make a new plan although one is agreed")
	flags.StringVar(&q.shelf, "shelf", "", "only plants of this `shelf`")
	flags.BoolVar(&q.today, "week", false, "only the plants whose turn in the week it is")
	flags.StringSliceVar(&q.bands, "band", nil, "only these bands, by name or letter: `long,deep`")
	flags.BoolVar(&q.small, "small-loads", false, "loads of any size, also of a plant or two")
	flags.BoolVar(&q.feed, "feed", false, "plants due a feed soak in the vessels for fed water")
	flags.StringVar(&q.file, "sheet", "", "write it as a sheet to print, `FILE`.txt or FILE.html; - prints it here")
	q.calendar.flags(c)
	return c
}

// sayPlan answers with the plan, as was asked for.
func (r *run) sayPlan(ctx context.Context, k *estimate.Keeper, p *day.Plan, q *planQuestion) error {
	b := k.Book()
	switch {
	case q.file != "" && r.json:
		return misread(errors.New("plan: give --sheet or --json, not both"))
	case q.file != "":
		if err := r.planSheet(ctx, k, p, q); err != nil || q.file == toStandardOut {
			return err
		}
		return r.say("the sheet is in %s", q.file)
	case q.calendar.path != "":
		if p.Agreed.IsZero() {
			r.warn("no plan is agreed: this is the one to be made now")
		}
		return r.writeCalendar(q.calendar, paper.PlanCalendar(b, p))
	}
	offers := day.Offers(ctx, k, r.now(), p)
	if r.json {
		return r.inJSON(answerPlan(b, p, offers))
	}
	return r.planTables(b, p, offerWords(p, offers, b.Rules(), r.now()))
}

// ask reads what was asked for. Hours are of today, or of tomorrow where the
// last of them is past; where none are given, those of a pause are of the day that the plan is for.
func (q *planQuestion) ask(b *model.Book, k *estimate.Keeper, now time.Time, words []string) (day.Ask, error) {
	a := day.Ask{Shelf: q.shelf, Feed: q.feed, Small: q.small}
	var err error
	if a.Bands, err = readBands(q.bands); err != nil {
		return a, err
	}
	if len(words) > 0 {
		if a.Plants, err = b.Choose(words...); err != nil {
			return a, err
		}
	}
	if err := q.hours(&a, b.Rules(), now); err != nil {
		return a, err
	}
	if q.today {
		return a, q.turn(&a, b, k, now)
	}
	return a, nil
}

// turn asks for the plants whose turn in the week it is on the day of the plan.
func (q *planQuestion) turn(a *day.Ask, b *model.Book, k *estimate.Keeper, now time.Time) error {
	if len(a.Plants) > 0 {
		return &model.Problem{What: "plan: plants named, and --week", Do: "give one of them"}
	}
	from := cmp.Or(a.From, now).In(b.Zone())
	if a.Turn = day.NewWeek(k, now).Plants(model.WeekdayOf(from)); len(a.Turn) == 0 {
		return &model.Problem{
			What: "no plant has its turn on a " + from.Format("Monday"),
			Do:   "see the week: tubside week",
		}
	}
	return nil
}

func (q *planQuestion) hours(a *day.Ask, rules model.Rules, now time.Time) error {
	if q.from == "" && q.until == "" {
		usual, err := day.Ask{}.Filled(rules, now)
		if err != nil {
			return err
		}
		return q.rest(a, usual.From, usual.From)
	}
	on := now
	for range 2 {
		if err := q.on(a, rules, on); err != nil {
			return err
		}
		if end := a.Until; end.After(now) || end.IsZero() && model.AtHour(a.From, rules[model.DayUntil]).After(now) {
			break
		}
		on = now.AddDate(0, 0, 1)
	}
	after := a.From
	if after.IsZero() {
		after = on
	}
	return q.rest(a, on, after)
}

// on reads the hours as those of a day.
func (q *planQuestion) on(a *day.Ask, rules model.Rules, date time.Time) (err error) {
	if a.From, err = day.ReadHour(q.from, date, time.Time{}); err != nil {
		return fmt.Errorf("--from: %w", err)
	}
	if a.Until, err = day.ReadHour(q.until, date, a.From); err != nil {
		return fmt.Errorf("--until: %w", err)
	}
	return nil
}

// rest reads the dry-by hour and the pauses.
func (q *planQuestion) rest(a *day.Ask, on, after time.Time) (err error) {
	if a.DryBy, err = day.ReadHour(q.dryBy, on, after); err != nil {
		return fmt.Errorf("--dry-by: %w", err)
	}
	if a.Pauses, err = day.ReadStretches("pause", q.pauses, on); err != nil {
		return fmt.Errorf("--pause: %w", err)
	}
	if a.Help, err = day.ReadStretches("time of help", q.helps, on); err != nil {
		return fmt.Errorf("--help-from: %w", err)
	}
	return nil
}

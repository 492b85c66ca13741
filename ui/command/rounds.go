package command

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/model/advice"
	"tubside/store"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// roundAnswer is one round. A plant stands in exactly one of the three lists.
type roundAnswer struct {
	Job     advice.RoundJob `json:"job"`
	At      *time.Time      `json:"at"`
	Asks    []string        `json:"asks"`
	Notes   []string        `json:"notes"`
	Due     []stopAnswer    `json:"due"`
	Later   []stopAnswer    `json:"later"`
	Skipped []stopAnswer    `json:"skipped"`
}

type stopAnswer struct {
	ID      model.ID   `json:"id"`
	Label   string     `json:"label"`
	Shelf   string     `json:"shelf"`
	Spot    string     `json:"spot"`
	When    *time.Time `json:"when"` // due since or from; null when there is no day
	Reasons []string   `json:"reasons"`
}

// rounds lists whom to stop at on a walk.
func (r *run) rounds() *cobra.Command {
	var shelf string
	var all bool
	c := &cobra.Command{
		Use:   "rounds [mist|feed|look|weigh]",
		Short: "whom to mist, feed, look over or weigh, in walking order, and who is skipped and why",
		Long: `Whom to mist, feed or look over, in walking order, and who is skipped and why.
Without a job, all three; who is to be weighed of the ten: rounds weigh. What
was done is entered with: enter mist, enter feed, enter looked, enter weight.`,
		Example: "  tubside rounds mist --shelf A\n  tubside rounds feed --json",
		Args:    wants(0, 1, "say mist, feed, look or weigh"),
		RunE: func(_ *cobra.Command, args []string) error {
			jobs, err := readJobs(args)
			if err != nil {
				return misread(err)
			}
			return r.look(func(s *store.Store) error {
				if err := r.onShelf(s.Book(), shelf); err != nil {
					return err
				}
				var rounds []advice.Round
				keeper := r.keeper(s.Book())
				for _, job := range jobs {
					round := advice.NewRound(keeper, job, r.now())
					if shelf != "" {
						round = round.OnShelf(s.Book(), shelf)
					}
					rounds = append(rounds, round)
				}
				return r.sayRounds(s.Book(), rounds, all)
			})
		},
	}
	c.Flags().StringVar(&shelf, "shelf", "", "only plants of this `shelf`")
	c.Flags().BoolVar(&all, "all", false, "also those whose day has not come")
	return c
}

func readJobs(args []string) ([]advice.RoundJob, error) {
	if len(args) == 0 {
		return advice.RoundJobs, nil
	}
	for _, job := range append(slices.Clone(advice.RoundJobs), advice.WeighRound) {
		if strings.EqualFold(string(job), args[0]) {
			return []advice.RoundJob{job}, nil
		}
	}
	return nil, &model.Problem{What: fmt.Sprintf("there is no %q round", args[0]), Do: "say mist, feed, look or weigh"}
}

func (r *run) sayRounds(b *model.Book, rounds []advice.Round, all bool) error {
	if r.json {
		answers := []roundAnswer{}
		for _, round := range rounds {
			answers = append(answers, answerRound(b, round))
		}
		return r.inJSON(answers)
	}
	for i, round := range rounds {
		if i > 0 {
			if err := r.say(""); err != nil {
				return err
			}
		}
		if err := r.sayRound(b, round, all); err != nil {
			return err
		}
	}
	return nil
}

func answerRound(b *model.Book, round advice.Round) roundAnswer {
	a := show.About{Book: b, Now: round.At}
	return roundAnswer{
		Job: round.Job, At: when(round.At), Asks: a.Reasons(round.Asks), Notes: a.Reasons(round.Notes),
		Due: answerStops(a, round.Due), Later: answerStops(a, round.Later), Skipped: answerStops(a, round.Skipped),
	}
}

func answerStops(a show.About, stops []advice.Stop) []stopAnswer {
	answers := []stopAnswer{}
	for _, s := range stops {
		a.Row = a.Book.Row(s.ID)
		answers = append(answers, stopAnswer{s.ID, label(a.Row), a.Row.Home.Shelf, a.Row.Home.Spot, when(s.When),
			a.Reasons(s.Reasons)})
	}
	return answers
}

// sayRound answers a person: what to settle, whom to stop at, whom to leave.
func (r *run) sayRound(b *model.Book, round advice.Round, all bool) error {
	a := show.About{Book: b, Now: round.At}
	err := r.say("%s round: %d due, %d later, %d skipped", round.Job, len(round.Due), len(round.Later),
		len(round.Skipped))
	for _, ask := range append(round.Asks, round.Notes...) {
		if err == nil {
			err = r.print(r.headed(show.Line(string(round.Job)), a.Reason(ask)))
		}
	}
	t := paper.Table{Columns: []paper.Column{
		{Head: "id", Right: true}, {Head: "plant", Least: 12}, {Head: "home", Least: 6}, {Head: "do"},
		{Head: "why", Least: 20},
	}}
	add := func(stops []advice.Stop, do func(advice.Stop) string) {
		for _, s := range stops {
			a.Row = b.Row(s.ID)
			t.Add(s.ID.String(), a.Row.Title(), a.Row.Home.String(), do(s), strings.Join(a.Reasons(s.Reasons), "; "))
		}
	}
	add(round.Due, func(advice.Stop) string { return string(round.Job) })
	add(round.Skipped, func(advice.Stop) string { return "skip" })
	if all {
		add(round.Later, func(s advice.Stop) string { return "from " + show.Date(s.When, b.Zone()) })
	}
	if err != nil || len(t.Rows) == 0 {
		return err
	}
	return r.table(&t)
}

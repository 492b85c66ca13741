package command

import (
	"cmp"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/model/advice"
	"tubside/store"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// dryAnswer is one plant between the water and its shelf.
type dryAnswer struct {
	ID       model.ID   `json:"id"`
	Label    string     `json:"label"`
	State    standing   `json:"state"`
	OutAt    *time.Time `json:"out_at"`
	Low      *time.Time `json:"dry_low"`
	Expected *time.Time `json:"dry_expected"`
	High     *time.Time `json:"dry_high"`
	Overdue  bool       `json:"overdue"`
	Reasons  []string   `json:"reasons"`
}

func (r *run) drying() *cobra.Command {
	var file calendarFile
	c := &cobra.Command{
		Use:   "drying",
		Short: "what is drying, when each plant should be dry, and what holds it up",
		Long: `What is out of the water and not hung back: when each plant should be dry, and
what holds it up. The overdue come first, then those to be dry soonest.`,
		Example: "  tubside drying\n  tubside drying --ics drying.ics",
		Args:    nothing,
		RunE: func(*cobra.Command, []string) error {
			return r.look(func(s *store.Store) error { return r.sayDrying(s.Book(), file) })
		},
	}
	file.flags(c)
	return c
}

func (r *run) sayDrying(b *model.Book, file calendarFile) error {
	all := advice.Look(r.keeper(b), r.now()).Drying
	slices.SortFunc(all, func(x, y advice.Drying) int {
		if x.Overdue != y.Overdue {
			if x.Overdue {
				return -1
			}
			return 1
		}
		return cmp.Or(x.Expected.Compare(y.Expected), cmp.Compare(x.ID, y.ID))
	})
	if file.path != "" {
		return r.writeCalendar(file, paper.DryingCalendar(b, all, r.now()))
	}
	if r.json {
		answers := []dryAnswer{}
		for _, d := range all {
			row := b.Row(d.ID)
			answers = append(answers, dryAnswer{
				d.ID, label(row), standingOf(b, row), when(d.OutAt), when(d.Low), when(d.Expected), when(d.High), d.Overdue,
				r.about(b, row).Reasons(d.Reasons),
			})
		}
		return r.inJSON(answers)
	}
	return r.dryTable(b, all)
}

func (r *run) dryTable(b *model.Book, all []advice.Drying) error {
	if len(all) == 0 {
		return r.say("nothing is drying")
	}
	t := paper.Table{Columns: []paper.Column{
		{Head: "id", Right: true}, {Head: "plant", Least: 12}, {Head: "home", Least: 6}, {Head: "out"},
		{Head: "dry at"}, {Head: "between", Least: 13}, {Head: "why", Least: 16},
	}}
	for _, d := range all {
		row := b.Row(d.ID)
		t.Add(d.ID.String(), row.Title(), row.Home.String(), r.clock(d.OutAt), r.dryAt(row, d), r.between(row, d),
			r.about(b, row).First(d.Reasons))
	}
	return r.table(&t)
}

// clock is a time of day as this command says it.
func (r *run) clock(t time.Time) string { return show.Clock(t, r.now(), time.Local) }

func (r *run) dryAt(row *model.Row, d advice.Drying) string {
	switch {
	case row.State == model.Dry:
		return "dry"
	case d.Overdue:
		return "overdue"
	}
	return r.clock(d.Expected)
}

func (r *run) between(row *model.Row, d advice.Drying) string {
	if row.State == model.Dry || d.Low.IsZero() || d.High.IsZero() {
		return ""
	}
	return r.clock(d.Low) + " – " + r.clock(d.High)
}

package command

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"tubside/model"
	"tubside/model/day"
	"tubside/store"
	"tubside/ui/paper"
	"tubside/ui/show"
)

// weekAnswer is the collection spread over a week.
type weekAnswer struct {
	Days    []weekDayAnswer   `json:"days"`
	Shelves []shelfTurnAnswer `json:"shelves"`
	Short   []shortAnswer     `json:"short"`
	Changes []string          `json:"changes,omitempty"`
}

type weekDayAnswer struct {
	Day    model.Weekday `json:"day"`
	Next   *time.Time    `json:"next"`
	Has    float64       `json:"hours"`
	Needs  float64       `json:"needs_hours"`
	Hands  float64       `json:"hands_hours"`
	Vessel float64       `json:"vessel_hours"`
	Plants float64       `json:"plants"`
	Bench  float64       `json:"bench_share"`
	Fits   bool          `json:"fits"`
}

type shelfTurnAnswer struct {
	Shelf  string        `json:"shelf"`
	Day    model.Weekday `json:"day"`
	Second model.Weekday `json:"second"`
	Kept   bool          `json:"kept"`
	Plants int           `json:"plants"`
	Twice  int           `json:"twice_weekly"`
	Rare   int           `json:"every_second_week"`
	Hands  float64       `json:"hands_hours"`
}

type shortAnswer struct {
	ID     model.ID `json:"id"`
	Days   float64  `json:"days"`
	Reason string   `json:"reason"`
}

// week spreads the collection over the days of the week.
func (r *run) week() *cobra.Command {
	var move string
	var keep bool
	var file calendarFile
	c := &cobra.Command{
		Use:   "week",
		Short: "the collection spread over the week: which shelf on which day, and how many hours it takes",
		Long: `The collection spread over the week, so that each plant is soaked as often as it
wants, the hours level out, and shelf-mates share a day. How many hours each day
has is a house rule: soak-mon to soak-sun. Shelves whose day is in the book keep
it; --keep writes the others.`,
		Example: `  tubside week
  tubside week --move A:sat
  tubside week --keep
  tubside week --ics week.ics`,
		Args: nothing,
		RunE: func(*cobra.Command, []string) error {
			if move != "" {
				return r.moveShelf(move, keep)
			}
			if keep {
				return r.keepWeek()
			}
			return r.look(func(s *store.Store) error {
				if file.path != "" {
					return r.weekCalendar(s.Book(), file)
				}
				return r.sayWeek(s.Book(), day.NewWeek(r.keeper(s.Book()), r.now()), nil)
			})
		},
	}
	c.Flags().StringVar(&move, "move", "", "what moving a shelf to another day does: `SHELF:DAY`")
	c.Flags().BoolVar(&keep, "keep", false, "write the days into the book")
	file.flags(c)
	return c
}

// keepWeek writes the days that are not in the book yet.
func (r *run) keepWeek() error {
	return r.write(func(b *model.Book) (model.Entry, error) {
		fact := day.NewWeek(r.keeper(b), r.now()).Keep()
		if fact == nil {
			return model.Entry{}, &model.Problem{
				What: "every shelf's day is in the book already",
				Do:   "change one with: tubside enter shelfday SHELF DAY",
			}
		}
		return model.NewEntry(r.now(), fact), nil
	})
}

// moveShelf says what a shelf's move to another day does, and writes it where
// it is to be kept.
func (r *run) moveShelf(words string, keep bool) error {
	shelf, word, ok := strings.Cut(words, ":")
	if !ok {
		return misread(errors.New("week: --move takes a shelf and a day, A:sat"))
	}
	to, err := model.ParseWeekday(word)
	if err != nil {
		return misread(err)
	}
	if keep {
		return r.write(func(*model.Book) (model.Entry, error) {
			return model.NewEntry(r.now(), &model.ShelfDays{Days: map[string]model.Weekday{shelf: to}}), nil
		})
	}
	return r.look(func(s *store.Store) error {
		w, changes, err := day.NewWeek(r.keeper(s.Book()), r.now()).Move(shelf, to)
		if err != nil {
			return err
		}
		return r.sayWeek(s.Book(), w, show.Moved(changes))
	})
}

func (r *run) sayWeek(b *model.Book, w *day.Week, changes []string) error {
	if r.json {
		return r.inJSON(answerWeek(w, changes))
	}
	text := ""
	for _, line := range changes {
		text += line + "\n"
	}
	if changes != nil {
		text += "\n"
	}
	text += r.text(weekDays(w)) + "\n" + r.text(weekShelves(w))
	if len(w.Short) > 0 {
		text += "\ntwice a week is too seldom for these: mist them in between, or move them to\nmoister air\n"
		text += r.text(weekShort(b, w))
	}
	return r.print(text)
}

func weekDays(w *day.Week) *paper.Table {
	t := &paper.Table{Columns: []paper.Column{
		{Head: "day"}, {Head: "plants", Right: true}, {Head: "needs", Right: true}, {Head: "has", Right: true},
		{Head: "hands", Right: true}, {Head: "vessels", Right: true}, {Head: "bench", Right: true}, {Head: ""},
	}}
	for _, d := range w.Days {
		fits := ""
		if !d.Fits {
			fits = "does not fit"
		}
		t.Add(string(d.Day), count(d.Plants), hours(d.Needs), hours(d.Has), hours(d.Hands), hours(d.Vessel),
			show.Percent(d.Bench), fits)
	}
	return t
}

func weekShelves(w *day.Week) *paper.Table {
	t := &paper.Table{Columns: []paper.Column{
		{Head: "shelf", Least: 6}, {Head: "day"}, {Head: "and"}, {Head: "plants", Right: true},
		{Head: "twice", Right: true},
		{Head: "2nd week", Right: true}, {Head: "hands", Right: true}, {Head: ""},
	}}
	for _, s := range w.Shelves {
		kept := "proposed"
		if s.Kept {
			kept = "kept"
		}
		t.Add(s.Shelf, string(s.Day), string(s.Second), fmt.Sprint(s.Plants), fmt.Sprint(s.Twice), fmt.Sprint(s.Rare),
			hours(s.Hands), kept)
	}
	return t
}

func weekShort(b *model.Book, w *day.Week) *paper.Table {
	t := &paper.Table{Columns: []paper.Column{{Head: "id", Right: true}, {Head: "plant", Least: 12},
		{Head: "home", Least: 6}, {Head: "wants a soak every", Right: true}}}
	for _, s := range w.Short {
		row := b.Row(s.ID)
		t.Add(s.ID.String(), row.Title(), row.Home.String(), fmt.Sprintf("%.1f days", s.Days))
	}
	return t
}

// count is a mean number of plants, to the next whole.
func count(n float64) string { return fmt.Sprintf("%.0f", n) }

// hours is a number of hours as a person says it.
func hours(h float64) string { return show.Minutes(math.Round(h * 60)) }

func answerWeek(w *day.Week, changes []string) weekAnswer {
	a := weekAnswer{Days: []weekDayAnswer{}, Shelves: []shelfTurnAnswer{}, Short: []shortAnswer{}, Changes: changes}
	for _, d := range w.Days {
		a.Days = append(a.Days, weekDayAnswer{
			d.Day, when(d.Next), round(d.Has, 2), round(d.Needs, 2), round(d.Hands, 2), round(d.Vessel, 2),
			round(d.Plants, 1), round(d.Bench, 3), d.Fits,
		})
	}
	for _, s := range w.Shelves {
		a.Shelves = append(a.Shelves, shelfTurnAnswer{s.Shelf, s.Day, s.Second, s.Kept, s.Plants, s.Twice, s.Rare,
			round(s.Hands, 2)})
	}
	for _, s := range w.Short {
		a.Short = append(a.Short, shortAnswer{s.ID, round(s.Days, 1), show.WantsOften(s)})
	}
	return a
}

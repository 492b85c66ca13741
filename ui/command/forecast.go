package command

import (
	"cmp"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/estimate"
	"tubside/model/trip"
	"tubside/store"
	"tubside/ui/paper"
	"tubside/ui/show"

	"github.com/rickb777/date/v2"
	"github.com/spf13/cobra"
)

// tripQuestion is a trip asked about, and what to do with the answer.
type tripQuestion struct {
	away, from, until string
	temp, rh          quantity
	shelf             string
	limit             int
	note              string
	sitter            string
	force             bool
	where             paper.Places
}

func (r *run) forecast() *cobra.Command {
	q := tripQuestion{temp: aTemperature(), rh: aHumidity()}
	c := &cobra.Command{
		Use:   "forecast --away 12d | --until DAY [--from DAY]",
		Short: "before a trip: each plant on return, whom to soak last, what to ask of a sitter",
		Long: `What each plant will be like after a trip, whom to soak on the last day so that
all is dry before you leave, whom to move, and what one job to ask of a sitter.
The driest on return come first. Without --from you leave now; a day is its noon.

The room is taken to be as this book read it at the same season last year, else
as lately, else as the house rules say, unless --temp and --rh tell it.`,
		Example: `  tubside forecast --away 12d
  tubside forecast --from 2026-05-07 --until 2026-05-19 --note "the islands"
  tubside forecast --away 3w --sitter sitter.html --fan-where "in the hall"`,
		Args: nothing,
		RunE: func(c *cobra.Command, _ []string) error {
			when, err := q.dates(r.now())
			if err != nil {
				return misread(err)
			}
			if _, _, err := q.sheetKind(); err != nil {
				return misread(err)
			}
			if c.Flags().Changed("note") {
				return r.planTrip(when, q)
			}
			return r.look(func(s *store.Store) error { return r.sayTrip(s.Book(), when, q, nil) })
		},
	}
	f := c.Flags()
	f.StringVar(&q.away, "away", "", "how `long`: 12d, 2w, 36h")
	f.StringVar(&q.from, "from", "", "the `day` you leave, 2026-05-07, or a time, 2026-05-07T08:00")
	f.StringVar(&q.until, "until", "", "the `day` you are back")
	f.Var(&q.temp, "temp", "the room's temperature while you are away, °C or 70F")
	f.Var(&q.rh, "rh", "its relative humidity in %")
	f.StringVar(&q.shelf, "shelf", "", "list only plants of this `shelf`")
	f.IntVar(&q.limit, "limit", 0, "list at most `N` plants; 0 is all")
	f.StringVar(&q.note, "note", "", "write the trip in the book, with this `note`; then coming home is known")
	f.StringVar(&q.sitter, "sitter", "", "write a sitter's sheet to this `file`, .txt or .html")
	f.BoolVar(&q.force, "force", false, "replace the sitter's sheet if there is one")
	for flag, p := range map[string]*string{
		"fan-where": &q.where.Fan, "bucket-where": &q.where.Bucket, "tray-where": &q.where.Tray,
		"water-where": &q.where.Water, "fuses-where": &q.where.Fuses, "phone": &q.where.Phone,
	} {
		f.StringVar(p, flag, "", "for the sitter's sheet; left out, a line to write on")
	}
	return c
}

// planTrip writes the trip in the book and says the forecast.
func (r *run) planTrip(when tripDates, q tripQuestion) error {
	trip := func(b *model.Book) (model.Entry, error) {
		e := model.NewEntry(r.now(), &model.Trip{From: when.from.UTC(), Until: when.until.UTC(), Note: q.note})
		return e, cmp.Or(r.onShelf(b, q.shelf), b.Check(e)) // before the trip is written
	}
	err := r.with(store.Options{Wait: r.patience()}, func(s *store.Store) error {
		e, err := trip(s.Book())
		if err == nil {
			e, err = s.Append(e)
		}
		if err != nil {
			return err
		}
		return r.sayTrip(s.Book(), when, q, &e)
	})
	if !errors.Is(err, store.ErrInUse) {
		return err
	}
	return r.leave(err, func(b *model.Book) (store.Left, error) {
		e, err := trip(b)
		return store.Left{Entries: []model.Entry{e}}, err
	}, func(_ store.Left, b *model.Book) error {
		r.warn("the book is in use: the trip is left for it to take in")
		return r.sayTrip(b, when, q, nil)
	})
}

func (r *run) sayTrip(b *model.Book, when tripDates, q tripQuestion, wrote *model.Entry) error {
	if err := r.onShelf(b, q.shelf); err != nil {
		return err
	}
	keeper := r.keeper(b)
	expected := keeper.ExpectAir(r.now(), when.from, when.until)
	if q.temp.given {
		if err := (air.Air{TempC: q.temp.value, RH: q.rh.value / 100}).Valid(); err != nil {
			return misread(err)
		}
		expected = estimate.AirGiven(q.temp.value, q.rh.value)
	}
	away := trip.NewForecast(keeper, r.now(), when.from, when.until, expected)
	job := trip.SitterJob(keeper, away)
	if err := r.writeSitter(b, away, job, q); err != nil {
		return err
	}
	left := q.pick(b, away)
	if r.json {
		return r.inJSON(answerTrip(b, away, job, left, wrote))
	}
	return r.sayTripLines(b, away, job, left, q, wrote)
}

// pick is the plants to list, the driest on return first.
func (q *tripQuestion) pick(b *model.Book, t *trip.Forecast) []trip.Left {
	var left []trip.Left
	for _, l := range t.Plants {
		if q.shelf == "" || strings.EqualFold(b.Row(l.ID).Home.Shelf, q.shelf) {
			left = append(left, l)
		}
	}
	slices.SortFunc(left, func(x, y trip.Left) int {
		return cmp.Or(cmp.Compare(x.Return.RWC, y.Return.RWC), cmp.Compare(x.ID, y.ID))
	})
	if q.limit > 0 && len(left) > q.limit {
		left = left[:q.limit]
	}
	return left
}

// sheetKind is how to write the sitter's sheet, by the name of its file.
func (q *tripQuestion) sheetKind() (html, wanted bool, err error) {
	switch strings.ToLower(filepath.Ext(q.sitter)) {
	case "":
		if q.sitter == "" {
			return false, false, nil
		}
	case ".txt":
		return false, true, nil
	case ".html", ".htm":
		return true, true, nil
	}
	return false, false, &model.Problem{
		What: fmt.Sprintf("--sitter %q", q.sitter),
		Do:   "name a file that ends in .txt or .html",
	}
}

func (r *run) writeSitter(b *model.Book, trip *trip.Forecast, job trip.Job, q tripQuestion) error {
	html, wanted, _ := q.sheetKind()
	if !wanted {
		return nil
	}
	page := paper.SitterSheet(b, trip, job, q.where)
	text := page.Text()
	if r.ascii {
		text = show.ASCII(text)
	}
	if html {
		var err error
		if text, err = page.HTML(); err != nil {
			return err
		}
	}
	return newFile(q.sitter, text, q.force)
}

// tripDates is when a trip begins and ends.
type tripDates struct{ from, until time.Time }

func (q *tripQuestion) dates(now time.Time) (d tripDates, err error) {
	d.from = now
	if q.from != "" {
		if d.from, err = dayOrTime(q.from, now.Location()); err != nil {
			return d, fmt.Errorf("--from: %w", err)
		}
		if date.NewAt(d.from.In(now.Location())) == date.NewAt(now) {
			d.from = later(d.from, now) // today, though its noon may be over
		}
	}
	switch {
	case (q.away == "") == (q.until == ""):
		return d, errors.New("forecast: give --away, or --until with or without --from")
	case q.temp.given != q.rh.given:
		return d, errors.New("forecast: give --temp and --rh together")
	case inPercent(q.rh.value) != nil:
		return d, inPercent(q.rh.value)
	case q.away != "":
		d.until, err = after(d.from, q.away)
	default:
		if d.until, err = dayOrTime(q.until, now.Location()); err != nil {
			err = fmt.Errorf("--until: %w", err)
		}
	}
	switch {
	case err != nil:
		return d, err
	case d.until.Before(d.from):
		return d, &model.Problem{What: "a trip that ends before it begins", Do: "check the two dates"}
	case d.until.Sub(d.from) > model.MaxTrip:
		return d, &model.Problem{What: "a trip of more than a year", Do: "check the year"}
	case d.from.Before(now):
		return d, &model.Problem{
			What: "a trip that has begun",
			Do:   "give a day to come, or leave --from out to leave now",
		}
	}
	return d, nil
}

// dayOrTime reads a day, as its noon, or a day with an hour.
func dayOrTime(text string, zone *time.Location) (time.Time, error) {
	for _, layout := range []string{time.RFC3339, "2006-01-02T15:04", "2006-01-02 15:04"} {
		if t, err := time.ParseInLocation(layout, text, zone); err == nil {
			return t, nil
		}
	}
	d, err := model.ParseDay(text, model.ISO)
	if err != nil {
		return time.Time{}, &model.Problem{
			What: fmt.Sprintf("%q is not a date", text),
			Do:   "write it as 2026-01-31, or with an hour as 2026-01-31T08:00",
		}
	}
	return model.NoonOf(d, zone), nil
}

// mostAway bounds the number in --away, whatever its unit: a year of
// hours.
const mostAway = 9000

// after reads a length of days, weeks or hours from a moment. Days are those of
// the calendar, so that the clocks may change on the way.
func after(from time.Time, text string) (time.Time, error) {
	words := strings.ToLower(strings.ReplaceAll(text, " ", ""))
	for _, unit := range []struct {
		ends []string
		add  func(n int) time.Time
	}{
		{[]string{"days", "day", "d"}, func(n int) time.Time { return from.AddDate(0, 0, n) }},
		{[]string{"weeks", "week", "w"}, func(n int) time.Time { return from.AddDate(0, 0, 7*n) }},
		{[]string{"hours", "hour", "h"}, func(n int) time.Time { return from.Add(time.Duration(n) * time.Hour) }},
	} {
		for _, end := range unit.ends {
			if n, err := strconv.Atoi(strings.TrimSuffix(words, end)); err == nil && n >= 0 && n <= mostAway &&
				strings.HasSuffix(words, end) {
				return unit.add(n), nil
			}
		}
	}
	return time.Time{}, &model.Problem{What: fmt.Sprintf("--away %q", text), Do: "write 12d, 2w or 36h"}
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

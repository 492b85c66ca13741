package command

import (
	"fmt"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/care"
)

// ask reads what was asked for. Hours are of today, or of tomorrow where the
// last of them is past.
func (q *planQuestion) ask(b *model.Book, k *care.Keeper, now time.Time, words []string) (care.Ask, error) {
	a := care.Ask{Shelf: q.shelf, Feed: q.feed}
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
func (q *planQuestion) turn(a *care.Ask, b *model.Book, k *care.Keeper, now time.Time) error {
	if len(a.Plants) > 0 {
		return &model.Problem{What: "plan: plants named, and --week", Do: "give one of them"}
	}
	day := a.From
	if day.IsZero() {
		day = now
	}
	day = day.In(b.Zone())
	if a.Turn = k.Week(now).Plants(model.WeekdayOf(day)); len(a.Turn) == 0 {
		return &model.Problem{What: "no plant has its turn on a " + day.Format("Monday"), Do: "see the week: tubside week"}
	}
	return nil
}

func (q *planQuestion) hours(a *care.Ask, rules model.Rules, now time.Time) error {
	if q.from == "" && q.until == "" {
		return q.rest(a, now, now)
	}
	day := now
	for range 2 {
		if err := q.on(a, rules, day); err != nil {
			return err
		}
		if end := a.Until; end.After(now) || end.IsZero() && care.HourOf(a.From, rules[model.DayUntil]).After(now) {
			break
		}
		day = now.AddDate(0, 0, 1)
	}
	after := a.From
	if after.IsZero() {
		after = day
	}
	return q.rest(a, day, after)
}

// on reads the hours as those of a day.
func (q *planQuestion) on(a *care.Ask, rules model.Rules, day time.Time) (err error) {
	if a.From, err = hourOn(q.from, day, time.Time{}); err != nil {
		return fmt.Errorf("--from: %w", err)
	}
	if a.Until, err = hourOn(q.until, day, a.From); err != nil {
		return fmt.Errorf("--until: %w", err)
	}
	return nil
}

// rest reads the dry-by hour and the pauses.
func (q *planQuestion) rest(a *care.Ask, day, after time.Time) (err error) {
	if a.DryBy, err = hourOn(q.dryBy, day, after); err != nil {
		return fmt.Errorf("--dry-by: %w", err)
	}
	for _, text := range q.pauses {
		from, until, ok := strings.Cut(text, "-")
		if !ok {
			return fmt.Errorf("--pause: %w", &model.Problem{What: fmt.Sprintf("%q is not a pause", text), Do: "write it as 12:00-12:30"})
		}
		var p care.Stretch
		if p.From, err = hourOn(from, day, time.Time{}); err == nil {
			p.Until, err = hourOn(until, day, p.From)
		}
		if err != nil {
			return fmt.Errorf("--pause: %w", err)
		}
		a.Pauses = append(a.Pauses, p)
	}
	return nil
}

// hourOn reads an hour as the first of that name on a day, or on the one after
// where it would not be after another time. None is the zero time.
func hourOn(text string, day, after time.Time) (time.Time, error) {
	if text = strings.TrimSpace(text); text == "" {
		return time.Time{}, nil
	}
	if t, err := time.Parse(time.RFC3339, text); err == nil {
		return t, nil
	}
	for _, layout := range []string{"15:04", "15.04", "15"} {
		t, err := time.Parse(layout, text)
		if err != nil {
			continue
		}
		y, m, d := day.Date()
		at := time.Date(y, m, d, t.Hour(), t.Minute(), 0, 0, day.Location())
		if !after.IsZero() && !at.After(after) {
			at = time.Date(y, m, d+1, t.Hour(), t.Minute(), 0, 0, day.Location())
		}
		return at, nil
	}
	return time.Time{}, &model.Problem{What: fmt.Sprintf("%q is not an hour", text), Do: "write it as 09:00"}
}

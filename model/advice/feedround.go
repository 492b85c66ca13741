package advice

import (
	"fmt"
	"time"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/feed"
)

// feed places a plant on a feed round.
func (w *walk) feed(row *model.Row) placed {
	if why, barred := feedBar(row, w.rules, w.now); barred {
		return skip(row, Capped, "%s", why)
	}
	open, season := feedSeason(w.rules, w.now)
	if !open {
		until, _ := feed.TooSoon(row.Fed.In(w.now.Location()), feedEvery(row.Plant, w.rules, false), season)
		return w.from(row, model.Later(season, midnight(until, season)), Because(Capped, "winter light is low: no feeding before %s", onDay(season, w.now)), w.lastFed(row))
	}
	until, soon := feed.TooSoon(row.Fed.In(w.now.Location()), w.every(row), w.now)
	if soon {
		return w.from(row, midnight(until, w.now), w.lastFed(row))
	}
	reasons := []Reason{w.lastFed(row)}
	if need := w.look.Need(row); need.Band.InWater() {
		reasons = append(reasons, Because(Hint, "thirsty: soak it first, feed it after"))
	}
	return placed{Stop{row.ID, midnight(until, w.now), reasons}, listDue}
}

// feedBar says what is against feeding a plant at all, whatever the day. Growers'
// habit: none in bloom, sick, new or just separated.
func feedBar(row *model.Row, rules model.Rules, now time.Time) (why string, barred bool) {
	lately := func(t time.Time) bool { return !t.IsZero() && now.Sub(t).Hours() < 24*rules[model.FeedAfterDays] }
	var came time.Time
	if row.Acquired != 0 {
		came = model.NoonOf(row.Acquired, now.Location())
	}
	switch {
	case !row.Rot.IsZero():
		return "suspected rot: no feed", true
	case len(row.Troubles) > 0:
		return fmt.Sprintf("trouble (%s): no feed", row.Troubles[0].What), true
	case !row.Quarantine.IsZero():
		return "in quarantine: no feed", true
	case !row.Bloom.IsZero():
		return "in bloom: no feed", true
	case lately(row.Separated):
		return "just separated: no feed", true
	case lately(row.Released), lately(came):
		return "new: no feed yet", true
	}
	return "", false
}

// feedSeason reports whether this is a month of feeding, and if not, when the
// next begins.
func feedSeason(rules model.Rules, now time.Time) (open bool, begins time.Time) {
	from, to := int(rules[model.FeedFromMonth]), int(rules[model.FeedToMonth])
	month := int(now.Month())
	in := from <= month && month <= to
	if from > to { // over the new year, as in the southern half
		in = month >= from || month <= to
	}
	if in || rules[model.FeedWinter] > 0 {
		return true, time.Time{}
	}
	year := now.Year()
	if month > from {
		year++
	}
	return false, time.Date(year, time.Month(from), 1, 0, 0, 0, 0, now.Location())
}

// halfPace reports whether it is winter, and the house rule feeds half as often.
func halfPace(rules model.Rules, now time.Time) bool {
	if rules[model.FeedWinter] != 1 {
		return false
	}
	rules[model.FeedWinter] = 0
	open, _ := feedSeason(rules, now)
	return !open
}

// feedEvery is how many days lie between two feeds of a plant.
func feedEvery(p model.Plant, rules model.Rules, half bool) int {
	days := rules[model.FeedDays]
	if p.Leaf == model.Xeric {
		days = rules[model.FeedDaysSlow]
	}
	if half {
		days *= 2
	}
	return int(days)
}

func (w *walk) every(row *model.Row) int {
	return feedEvery(row.Plant, w.rules, halfPace(w.rules, w.now))
}

// midnight is the day that feed gives, in the grower's zone; zero stays zero.
func midnight(day, now time.Time) time.Time {
	if day.IsZero() {
		return day
	}
	return time.Date(day.Year(), day.Month(), day.Day(), 0, 0, 0, 0, now.Location())
}

func (w *walk) lastFed(row *model.Row) Reason {
	if row.Fed.IsZero() {
		return Because(Saw, "no feed on record")
	}
	how := ""
	if row.FedHow != "" {
		how = " by " + string(row.FedHow)
	}
	if row.FedMix != nil && row.FedMix.PPM > 0 {
		how += fmt.Sprintf(", %g ppm N", row.FedMix.PPM)
	}
	return Because(Saw, "fed %s%s", onDay(row.Fed, w.now), how)
}

// MayFeed says whether plants may be fed at a time: nil, or a [model.Problem]
// that names the first that may not, why, and until when. It is asked before
// anything that feeds: a feed, a load in fed water, a walk with a fed bottle.
func MayFeed(k *estimate.Keeper, ids model.IDs, now time.Time) error {
	w := newWalk(k, now.In(k.Book().Zone()))
	for _, id := range ids {
		row := w.book.Row(id)
		if row == nil || row.State == model.Gone {
			continue // the book says so itself
		}
		if s := w.feed(row); s.place != listDue {
			return &model.Problem{
				What: fmt.Sprintf("plant %d (%s) is not to be fed now: %s%s", id, row.Title(), s.Reasons[0].Text, w.again(s.When)),
				Do:   "leave it out, or say that it is fed all the same",
			}
		}
	}
	return nil
}

// again is the tail that says from when, if there is a day.
func (w *walk) again(when time.Time) string {
	if when.IsZero() {
		return ""
	}
	return ", again from " + onDay(when, w.now)
}

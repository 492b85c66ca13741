package advice

import (
	"time"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/feed"
)

// feed places a plant on a feed round.
func (w *walk) feed(row *model.Row) placed {
	if bar := feedBar(row, w.rules, w.now); bar != NoCode {
		return skip(row, bar)
	}
	open, season := feedSeason(w.rules, w.now)
	if !open {
		until, _ := feed.TooSoon(row.Fed.In(w.now.Location()), feedEvery(row.Plant, w.rules, false), season)
		return w.from(
			row,
			model.Later(season, midnight(until, season)),
			because(NoFeedWinter, float64(season.Unix())),
			w.lastFed(row),
		)
	}
	until, soon := feed.TooSoon(row.Fed.In(w.now.Location()), w.every(row), w.now)
	if soon {
		return w.from(row, midnight(until, w.now), w.lastFed(row))
	}
	reasons := []Reason{w.lastFed(row)}
	if need := w.look.Need(row); need.Band.InWater() {
		reasons = append(reasons, because(SoakItFirst))
	}
	return placed{Stop{row.ID, midnight(until, w.now), reasons}, listDue}
}

// feedBar says what is against feeding a plant at all, whatever the day. Growers'
// habit: none in bloom, sick, new or just separated.
func feedBar(row *model.Row, rules model.Rules, now time.Time) Code {
	lately := func(t time.Time) bool { return !t.IsZero() && now.Sub(t).Hours() < 24*rules[model.FeedAfterDays] }
	var came time.Time
	if row.Acquired != 0 {
		came = model.NoonOf(row.Acquired, now.Location())
	}
	switch {
	case !row.Rot.IsZero():
		return NoFeedRot
	case len(row.Troubles) > 0:
		return NoFeedTrouble
	case !row.Quarantine.IsZero():
		return NoFeedQuarantine
	case !row.Bloom.IsZero():
		return NoFeedBloom
	case lately(row.Separated):
		return NoFeedSeparated
	case lately(row.Released), lately(came):
		return NoFeedNew
	}
	return NoCode
}

// inSeason reports whether a month is one of feeding.
func inSeason(rules model.Rules, month time.Month) bool {
	from, to := time.Month(rules[model.FeedFromMonth]), time.Month(rules[model.FeedToMonth])
	if from > to { // over the new year, as in the southern half
		return month >= from || month <= to
	}
	return from <= month && month <= to
}

// feedSeason reports whether plants are fed now at all, and if not, when the next
// season begins.
func feedSeason(rules model.Rules, now time.Time) (open bool, begins time.Time) {
	if inSeason(rules, now.Month()) || rules.WinterFeed() != model.WinterOff {
		return true, time.Time{}
	}
	from, year := time.Month(rules[model.FeedFromMonth]), now.Year()
	if now.Month() > from {
		year++
	}
	return false, time.Date(year, from, 1, 0, 0, 0, 0, now.Location())
}

// halfPace reports whether it is winter, and the house rule feeds half as often.
func halfPace(rules model.Rules, now time.Time) bool {
	return rules.WinterFeed() == model.WinterHalf && !inSeason(rules, now.Month())
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
		return because(NeverFed)
	}
	return because(LastFed)
}

// NotToFeed finds the first of some plants that may not be fed at a time, with
// why not, and until when. It is asked before anything that feeds: a feed, a load
// in fed water, a walk with a fed bottle. Plants that are not in the book are left
// to it to refuse.
func NotToFeed(k *estimate.Keeper, ids model.IDs, now time.Time) (s Stop, found bool) {
	w := newWalk(k, now.In(k.Book().Zone()))
	for _, id := range ids {
		row := w.book.Row(id)
		if row == nil || row.State == model.Gone {
			continue
		}
		if s := w.feed(row); s.place != listDue {
			return s.Stop, true
		}
	}
	return Stop{}, false
}

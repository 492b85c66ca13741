package advice

import (
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// RoundJob is what a round is walked for.
type RoundJob string

// The jobs.
const (
	MistRound RoundJob = "mist"
	FeedRound RoundJob = "feed"
	LookRound RoundJob = "look"
)

// RoundJobs lists the jobs of walks past every plant.
var RoundJobs = []RoundJob{MistRound, FeedRound, LookRound}

// Round is a walk with one job. Every plant not gone that it passes stands in exactly
// one of its three lists, each in walking order.
type Round struct {
	Job     RoundJob
	At      time.Time
	Due     []Stop
	Later   []Stop   // nothing against it but the day
	Skipped []Stop   // left out, whatever the day
	Asks    []Reason // to settle before the first plant
	Notes   []Reason // what holds for the whole round
}

// Stop is one plant on a round.
type Stop struct {
	ID      model.ID
	When    time.Time // since when it is due, or from when it will be; zero: nothing to go by, or never
	Reasons []Reason  // the first is the one to show in a list
}

// NewRound lists whom a walk at a time has to stop at.
func NewRound(k *estimate.Keeper, job RoundJob, now time.Time) Round {
	now = now.In(k.Book().Zone())
	r := Round{Job: job, At: now}
	w := newWalk(k, now)
	w.pulled = map[model.ID]bool{}
	for _, id := range w.book.Waiting() {
		w.pulled[id] = true
	}
	if job == WeighRound {
		w.weighRound(&r)
		return r
	}
	for _, id := range w.book.Walk(w.book.IDs()) {
		if row := w.book.Row(id); row.State != model.Gone {
			r.place(w.stop(job, row))
		}
	}
	r.open(w.book)
	return r
}

func (r *Round) place(s placed) {
	list := map[place]*[]Stop{listDue: &r.Due, listLater: &r.Later, listSkipped: &r.Skipped}[s.place]
	*list = append(*list, s.Stop)
}

// place is the list a stop belongs to.
type place int

const (
	listDue place = iota
	listLater
	listSkipped
)

// placed is a stop and its list.
type placed struct {
	Stop
	place place
}

// walk is a round being made up.
type walk struct {
	keeper *estimate.Keeper
	book   *model.Book
	look   *Context
	now    time.Time
	rules  model.Rules
	room   estimate.RoomAir
	pulled map[model.ID]bool
}

func newWalk(k *estimate.Keeper, now time.Time) *walk {
	b := k.Book()
	room := estimate.RoomNow(b, now)
	return &walk{keeper: k, book: b, look: At(k, now, room), now: now, rules: b.Rules(), room: room}
}

// stop places one plant. A plant off its shelf is nobody's business on a walk.
func (w *walk) stop(job RoundJob, row *model.Row) placed {
	switch {
	case row.State.Away():
		return skip(row, OffItsShelf)
	case w.pulled[row.ID]:
		return skip(row, PulledForSoak)
	}
	switch job {
	case MistRound:
		return w.mist(row)
	case FeedRound:
		return w.feed(row)
	}
	return w.looked(row)
}

func skip(row *model.Row, c Code, n ...float64) placed {
	return placed{Stop{ID: row.ID, Reasons: []Reason{because(c, n...)}}, listSkipped}
}

// from places a stop by the time from which it is due; the zero time is due now.
func (w *walk) from(row *model.Row, when time.Time, reasons ...Reason) placed {
	s := placed{Stop{row.ID, when, reasons}, listDue}
	if when.After(w.now) {
		s.place = listLater
	}
	return s
}

// open adds what to settle first, and what holds for the whole walk.
func (r *Round) open(b *model.Book) {
	bottle := b.Bottle()
	switch r.Job {
	case MistRound:
		if bottle.Fed != nil {
			r.Asks = append(r.Asks, because(BottleStillFed))
		}
		r.Notes = append(r.Notes, because(MistInTheMorning))
	case FeedRound:
		r.Asks = append(r.Asks, askFed(b)...)
		r.Notes = append(r.Notes, because(FeedCaution))
	case LookRound:
		r.Notes = append(r.Notes, because(LookDry))
	}
}

// askFed asks about the bottle before a feed round.
func askFed(b *model.Book) []Reason {
	bottle, warn := b.Bottle(), b.Rules()[model.FeedWarn]
	switch {
	case bottle.Fed == nil:
		return []Reason{because(BottleNotFed)}
	case bottle.Fed.PPM > warn:
		return []Reason{because(BottleTooStrong, bottle.Fed.PPM, warn)}
	}
	return nil
}

// Fact is what doing a stop of the round writes about its plant, given what the
// mist bottle holds; nil for a feed round with no fed water in it.
func (r Round) Fact(b *model.Book) model.Fact {
	bottle := b.Bottle()
	switch r.Job {
	case MistRound:
		return &model.Mist{Of: bottle.Of}
	case FeedRound:
		if bottle.Fed == nil {
			return nil
		}
		return &model.Feed{How: model.ByMist, Mix: *bottle.Fed}
	}
	return &model.LookedOver{}
}

// OnShelf is the round of one shelf alone.
func (r Round) OnShelf(b *model.Book, shelf string) Round {
	elsewhere := func(s Stop) bool { return !strings.EqualFold(b.Row(s.ID).Home.Shelf, shelf) }
	for _, list := range []*[]Stop{&r.Due, &r.Later, &r.Skipped} {
		*list = slices.DeleteFunc(slices.Clone(*list), elsewhere)
	}
	return r
}

// mist places a plant on a mist round. A plant in bloom and one just separated
// have no other water, and are on it every day; nor has one that its grower never soaks; a throat or a fuzzy coat that
// stays wet is left alone (common practice, no source).
func (w *walk) mist(row *model.Row) placed {
	need := w.look.Need(row)
	switch {
	case !row.Rot.IsZero():
		return skip(row, KeepDry)
	case !row.Bloom.IsZero():
		return w.daily(row, because(BloomLeavesOnly))
	case healing(row, w.rules, w.now):
		return w.daily(row, because(JustSeparatedMist))
	case row.MistOnly:
		return w.mistOnly(row)
	case row.Form == model.Bulbous:
		return skip(row, ThroatHoldsWater)
	case row.Form == model.Fuzzy && w.room.RH >= w.rules[model.MistFuzzyRH]:
		return skip(row, CoatStaysWet)
	case need.Band.InWater():
		return skip(row, WantsASoak, float64(need.Band))
	case need.Band == soak.Mist:
		return w.misted(row, time.Time{})
	}
	return w.resting(row, need)
}

// daily is a plant that is misted every day.
func (w *walk) daily(row *model.Row, why Reason) placed {
	var next time.Time
	if !row.Misted.IsZero() {
		next = row.Misted.Add(mistedHours * time.Hour)
	}
	return w.from(row, next, why, w.lastMist(row))
}

// mistOnly is a plant that has no other water, by what its grower said: as often as its
// leaf and the room ask for.
func (w *walk) mistOnly(row *model.Row) placed {
	var next time.Time
	if !row.Misted.IsZero() {
		next = row.Misted.Add(max(mistEvery(row.Plant, w.rules, w.room.DeficitKPa)-walkSlack, mistedHours*time.Hour))
	}
	return w.from(row, next, because(MistOnly), w.lastMist(row))
}

// misted is a plant whose last mist is over.
func (w *walk) misted(row *model.Row, next time.Time) placed {
	since := w.lastSoak(row)
	if row.Misted.Before(row.LastSoak()) || row.Misted.IsZero() {
		return w.from(row, next, since)
	}
	return w.from(row, next, w.lastMist(row), since)
}

// resting is a plant that wants nothing yet: its day comes some days after the
// soak, and an interval after the last mist. What a look said against it, as a
// leaf that is still dark, leaves it out.
func (w *walk) resting(row *model.Row, need Need) placed {
	var next time.Time
	if soaked := row.LastSoak(); !soaked.IsZero() {
		next = soaked.Add(
			time.Duration(max(w.rules[model.MistDays], w.rules[model.RestDays]) * 24 * float64(time.Hour)),
		)
	}
	if !row.Misted.IsZero() {
		next = model.Later(
			next,
			row.Misted.Add(max(mistEvery(row.Plant, w.rules, w.room.DeficitKPa)-walkSlack, mistedHours*time.Hour)),
		)
	}
	if !next.After(w.now) {
		return placed{Stop{ID: row.ID, Reasons: need.Reasons[:1]}, listSkipped}
	}
	return w.misted(row, next)
}

func (w *walk) lastMist(row *model.Row) Reason {
	if row.Misted.IsZero() {
		return because(NeverMisted)
	}
	return because(LastMisted, w.now.Sub(row.Misted).Minutes())
}

func (w *walk) lastSoak(row *model.Row) Reason {
	if row.LastSoak().IsZero() {
		return because(NoSoakEver)
	}
	return because(LastSoaked, w.now.Sub(row.LastSoak()).Minutes())
}

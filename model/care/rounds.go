package care

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tubside/model"
	"tubside/model/feed"
)

// RoundJob is what a round is walked for.
type RoundJob string

// The jobs.
const (
	MistRound RoundJob = "mist"
	FeedRound RoundJob = "feed"
	LookRound RoundJob = "look"
)

// RoundJobs lists the jobs.
var RoundJobs = []RoundJob{MistRound, FeedRound, LookRound}

// Round is a walk with one job. Every plant not gone stands in exactly one of
// its three lists, each in walking order.
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

// Round lists whom a walk at a time has to stop at.
func (k *Keeper) Round(job RoundJob, now time.Time) Round {
	now = now.In(k.book.Zone())
	r := Round{Job: job, At: now}
	w := walk{Keeper: k, now: now, rules: k.book.Rules(), room: roomNow(k.book, now)}
	w.pulled = map[model.ID]bool{}
	for _, id := range k.book.Waiting() {
		w.pulled[id] = true
	}
	for _, id := range k.book.Walk(k.book.IDs()) {
		row := k.book.Row(id)
		if row.State == model.Gone {
			continue
		}
		s := w.stop(job, row)
		list := map[place]*[]Stop{listDue: &r.Due, listLater: &r.Later, listSkipped: &r.Skipped}[s.place]
		*list = append(*list, s.Stop)
	}
	k.open(&r)
	return r
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
	*Keeper
	now    time.Time
	rules  model.Rules
	room   RoomAir
	pulled map[model.ID]bool
}

// stop places one plant. A plant off its shelf is nobody's business on a walk.
func (w *walk) stop(job RoundJob, row *model.Row) placed {
	switch {
	case row.State.Away():
		return skip(row, Saw, "%s", row.State)
	case w.pulled[row.ID]:
		return skip(row, Saw, "pulled for the soak")
	}
	switch job {
	case MistRound:
		return w.mist(row)
	case FeedRound:
		return w.feed(row)
	}
	return w.look(row)
}

func reason(kind ReasonKind, format string, args ...any) Reason {
	return Reason{Text: fmt.Sprintf(format, args...), Kind: kind}
}

func skip(row *model.Row, kind ReasonKind, format string, args ...any) placed {
	return placed{Stop{ID: row.ID, Reasons: []Reason{reason(kind, format, args...)}}, listSkipped}
}

// from places a stop by the time from which it is due; the zero time is due now.
func (w *walk) from(row *model.Row, when time.Time, reasons ...Reason) placed {
	s := placed{Stop{row.ID, when, reasons}, listDue}
	if when.After(w.now) {
		s.place = listLater
	}
	return s
}

// onDay is a day as it is said: "2 Feb", with the year when it is another.
func onDay(t, now time.Time) string {
	t = t.In(now.Location())
	if t.Year() != now.Year() {
		return t.Format("2 Jan 2006")
	}
	return t.Format("2 Jan")
}

// open adds what to settle first, and what holds for the whole walk.
func (k *Keeper) open(r *Round) {
	bottle := k.book.Bottle()
	switch r.Job {
	case MistRound:
		if bottle.Fed != nil {
			r.Asks = append(r.Asks, reason(Warning, "the mist bottle holds fed water since %s: is it emptied and filled with plain?", onDay(bottle.At, r.At)))
		}
		r.Notes = append(r.Notes, reason(Advice, "mist to run-off in the morning, so that all is dry by midday; wipe up what drips"))
	case FeedRound:
		r.Asks = append(r.Asks, k.askFed(bottle)...)
		r.Notes = append(r.Notes, reason(Warning, "%s", feed.Caution))
	case LookRound:
		r.Notes = append(r.Notes, reason(Advice, "look dry, before any water: it hides scale and cotton; base, leaf axils, new tips, with a lens"))
	}
}

// askFed asks about the bottle before a feed round.
func (k *Keeper) askFed(bottle model.BottleAt) []Reason {
	warn := k.book.Rules()[model.FeedWarn]
	switch {
	case bottle.Fed == nil:
		return []Reason{reason(Advice, "the mist bottle is not said to hold fed water: mix it first, and enter it")}
	case bottle.Fed.PPM > warn:
		return []Reason{reason(Warning, "%g ppm nitrogen in the bottle is over %g: thin it for leaves", bottle.Fed.PPM, warn)}
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

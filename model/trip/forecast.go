// Package trip is before, meanwhile and after an absence: how the plants will
// stand on return, whom to soak last, what to ask of a sitter, and what there is
// to do at home again.
package trip

import (
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/leaf"
)

// HalfGone is the thirst at which a plant has lost half its water. A choice, two
// thirds of the way to where injury begins (see [leaf.LethalFrom]).
const HalfGone = 0.50

// Trip is what an absence does to the plants.
type Forecast struct {
	Now, From, Until time.Time
	Air              estimate.ExpectedAir
	DryBy            time.Time // by when what is soaked last must be dry
	Damp             float64   // how many times as long that takes, with all of it in the room
	Plants           []Left    // every plant not gone, by number
}

// Left is one plant left alone.
type Left struct {
	ID        model.ID
	Leaving   float64        // RWC when the grower leaves, mean of what is believed
	Lines     Lines          // crossed before the return, without a last soak
	Return    estimate.Stand // on return, without a last soak
	Last      *LastSoak
	StillWet  bool            // may not be dry when the grower leaves
	Why       Why             // it gets no last soak
	Bars      []advice.Reason // house rules and warnings that keep it from a last soak, or cut it
	SlowHours float64         // that it may take to dry after its last soak; 0 when that is within the house rule
	Move      Move            // off its shelf, while the grower is away
	Faster    float64         // than elsewhere it dries out there; 0 unless it is to be moved off a dry shelf
}

// Why is why a plant gets no last soak.
type Why int

// Why a plant gets no last soak.
const (
	NotNeeded     Why = iota // or its house rules keep it from one
	MayBeWet                 // when the grower leaves
	HangBackFirst            // it is still out
	RotSuspected
	TooLate    // it would not dry in time
	LittleGain // on return
)

// Move is whether a plant should hang elsewhere while the grower is away.
type Move int

// Where to move a plant.
const (
	Stay Move = iota
	OffDryShelf
	ToMoistAir // off heaters and out of the sun
)

// Lines is when a plant's expected thirst crosses each line, to the hour; zero
// when it does not while the grower is away. A line crossed before counts from
// when the grower leaves.
type Lines struct {
	Soak     time.Time // the house rule from which a plant is soaked
	HalfGone time.Time
	Injury   time.Time // where injury begins: Benzing & Dahle 1971, for T. ionantha
}

// NewForecast says what each plant will be like after an absence, in the air given
// (see [estimate.Keeper.ExpectAir]), and whom to soak on the last day. Past entries are
// taken as they are: from and until should not lie before now.
func NewForecast(k *estimate.Keeper, now, from, until time.Time, expected estimate.ExpectedAir) *Forecast {
	t := &Forecast{
		Now:   now,
		From:  from,
		Until: until,
		Air:   expected,
		DryBy: lastEvening(k.Book().Rules(), now, from),
		Damp:  1,
	}
	f := forecaster{trip: t, keeper: k, book: k.Book(), room: estimate.RoomNow(k.Book(), now)}
	f.dry = estimate.NewDryTimes(k, f.room, now)
	f.water = k.Project(now, expected, f.dry)
	var courses []*estimate.Course
	for _, id := range f.book.IDs() {
		if row := f.book.Row(id); row.State != model.Gone {
			c := f.water.Course(row, f.dryHours)
			courses, t.Plants = append(courses, c), append(t.Plants, f.left(row, c))
		}
	}
	f.slowEachOther()
	for i := range t.Plants {
		f.plan(f.book.Row(t.Plants[i].ID), courses[i], &t.Plants[i])
	}
	return t
}

// forecaster works out one trip.
type forecaster struct {
	trip   *Forecast
	keeper *estimate.Keeper
	book   *model.Book
	room   estimate.RoomAir
	dry    *estimate.DryTimes
	water  *estimate.Projection
}

// left is a plant to which nothing is done.
func (f *forecaster) left(row *model.Row, c *estimate.Course) Left {
	l := Left{ID: row.ID, Leaving: c.Stand(f.trip.From).RWC, Return: c.Stand(f.trip.Until)}
	l.Lines = f.lines(c, l.Return)
	l.StillWet = c.WetUntil.After(model.Later(f.trip.DryBy, f.trip.From))
	return l
}

// lines finds when a course crosses each line before the return.
func (f *forecaster) lines(c *estimate.Course, home estimate.Stand) Lines {
	when := func(thirst float64) time.Time {
		if home.Thirst() < thirst {
			return time.Time{}
		}
		return c.Crossing(1-thirst, f.trip.From, f.trip.Until)
	}
	return Lines{
		Soak:     when(f.book.Rules()[model.SoakFrom] / 100),
		HalfGone: when(HalfGone),
		Injury:   when(leaf.LethalFrom),
	}
}

// TripCount counts the plants of a trip.
type Count struct {
	Plants, Soak             int // all; to soak on the last day
	Crossing, Half, Injured  int // over each line on return, left alone
	HalfAfter, InjuredAfter  int // after the last soaks
	StillWet, Move, Blooming int
	Handling                 time.Duration // of all last soaks, in and out
}

// Count counts what the forecast says.
func (t *Forecast) Count(b *model.Book) Count {
	n := Count{Plants: len(t.Plants)}
	for i := range t.Plants {
		l := &t.Plants[i]
		_, after := l.AtReturn()
		if l.Last != nil {
			in, out := estimate.HandSeconds(b.Row(l.ID).Plant, b.Rules())
			n.Handling += time.Duration((in + out) * float64(time.Second))
		}
		for _, c := range []struct {
			counts bool
			in     *int
		}{
			{l.Last != nil, &n.Soak}, {l.StillWet, &n.StillWet}, {l.Move != Stay, &n.Move},
			{!b.Row(l.ID).Bloom.IsZero(), &n.Blooming},
			{!l.Lines.Soak.IsZero(), &n.Crossing}, {!l.Lines.HalfGone.IsZero(), &n.Half},
			{!l.Lines.Injury.IsZero(), &n.Injured},
			{!after.HalfGone.IsZero(), &n.HalfAfter}, {!after.Injury.IsZero(), &n.InjuredAfter},
		} {
			if c.counts {
				*c.in++
			}
		}
	}
	return n
}

// LastSoakTimes is the earliest of the latest times to put a plant in, and the
// latest to take one out, among the last soaks. Both are zero when there are
// none.
func (t *Forecast) LastSoakTimes() (firstIn, lastOut time.Time) {
	for _, l := range t.Plants {
		if l.Last == nil {
			continue
		}
		if firstIn.IsZero() || l.Last.InBy.Before(firstIn) {
			firstIn = l.Last.InBy
		}
		lastOut = model.Later(lastOut, l.Last.OutBy)
	}
	return firstIn, lastOut
}

package advice

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// Outlook is what every plant needs at one moment, and why.
type Outlook struct {
	At     time.Time
	Needs  []Need           // every plant not gone, by number
	Drying []Drying         // every plant out of the water and not hung, by number
	Air    estimate.RoomAir // the room now
}

// Need is what one plant needs now.
type Need struct {
	ID model.ID
	estimate.Stand
	DaysSince float64 // days since it came out of its last soak; negative when never heard of
	Band      soak.Band
	From, To  float64  // minutes in water; both 0 for Rest and Mist
	Reasons   []Reason // the first is the one to show in a list
	LookFirst bool     // what was seen is not thirst, or not only: look before soaking
}

// Reason is one step on the way to a number.
type Reason struct {
	Text string // a short clause for a person: "12 days since the soak"
	Kind ReasonKind
}

// ReasonKind says what sort of step a reason is.
type ReasonKind int

// The kinds of reason.
const (
	Saw      ReasonKind = iota // what the grower saw or did
	Computed                   // what the numbers say
	Capped                     // what a house rule changed
	Hint                       // what to do with it
	Warning                    // what to look at before anything else
)

// Drying is how far a plant out of the water has come, and what to do about it.
type Drying struct {
	estimate.DryOut
	Reasons []Reason
}

// Need is what a plant needs, or nil when it is gone or unknown.
func (o *Outlook) Need(id model.ID) *Need {
	i, ok := slices.BinarySearchFunc(o.Needs, id, func(n Need, id model.ID) int { return int(n.ID) - int(id) })
	if !ok {
		return nil
	}
	return &o.Needs[i]
}

// DryOut is how far a plant has come with drying, or nil when it is not out of
// the water.
func (o *Outlook) DryOut(id model.ID) *Drying {
	i, ok := slices.BinarySearchFunc(o.Drying, id, func(d Drying, id model.ID) int { return int(d.ID) - int(id) })
	if !ok {
		return nil
	}
	return &o.Drying[i]
}

// Refresh brings an outlook up to date after an entry. An entry that touches
// only its own plants costs only those; any other is a new look.
func Refresh(k *estimate.Keeper, o *Outlook, e model.Entry, now time.Time) {
	switch e.Fact.(type) {
	case *model.Look, *model.Weigh, *model.Mist, *model.Bloom, *model.Rot, *model.Note, *model.Move, *model.Pull, *model.PutBack:
		c := At(k, now, o.Air)
		for _, id := range e.Plants {
			if n := o.Need(id); n != nil {
				*n = c.Need(k.Book().Row(id))
			}
			if d := o.DryOut(id); d != nil {
				*d = dryingOf(k, k.Book().Row(id), now)
			}
		}
	default:
		*o = *Look(k, now)
	}
}

// Look says what every plant needs at a time. Times must not run before the
// newest entry for the answer to mean much; it is given all the same.
func Look(k *estimate.Keeper, now time.Time) *Outlook {
	b := k.Book()
	o := &Outlook{At: now, Air: estimate.RoomNow(b, now), Needs: make([]Need, 0, b.Len())}
	c := At(k, now, o.Air)
	for _, id := range b.IDs() {
		row := b.Row(id)
		if row.State == model.Gone {
			continue
		}
		o.Needs = append(o.Needs, c.Need(row))
		if row.State == model.Drying || row.State == model.Dry {
			o.Drying = append(o.Drying, dryingOf(k, row, now))
		}
	}
	return o
}

// NeedOf is what one plant needs at a time.
func NeedOf(k *estimate.Keeper, id model.ID, now time.Time) (Need, bool) {
	row := k.Book().Row(id)
	if row == nil || row.State == model.Gone {
		return Need{}, false
	}
	return At(k, now, estimate.RoomNow(k.Book(), now)).Need(row), true
}

// dampRoom is the humidity in % from which opening a window is worth saying.
// Our own.
const dampRoom = 60

// dryingOf is how far a plant has come that is out of the water, and what to do.
func dryingOf(k *estimate.Keeper, row *model.Row, now time.Time) Drying {
	d := Drying{DryOut: k.DryOut(row, now)}
	if row.State == model.Dry {
		d.say(Saw, "dry: hang it back on %s", cmp.Or(row.Home.String(), "its shelf"))
		return d
	}
	wet := model.Minutes(now.Sub(row.Out).Minutes())
	switch {
	case now.After(d.Limit):
		d.say(Warning, "wet for %s; %s is the limit", wet, model.Minutes(k.Traits(row.ID).WetLimit*60))
	case d.Overdue:
		d.say(Warning, "out for %s and should be dry: look into the heart", wet)
	case row.DampAt.After(row.Out):
		d.say(Saw, "still damp when looked at %s ago", model.Minutes(now.Sub(row.DampAt).Minutes()))
	}
	d.say(Computed, "%s", holdUpWords(d.HoldUp, d.PeakRH))
	for _, do := range dryAdvice(k.Book(), row, &d, now) {
		d.say(Hint, "%s", do)
	}
	d.say(Computed, "leaves about %s, heart about %s; 8 in 10 such plants between %s and %s",
		model.Minutes(d.FilmHours*60), model.Minutes(d.PocketHours*60),
		model.Minutes(d.Low.Sub(row.Out).Minutes()), model.Minutes(d.High.Sub(row.Out).Minutes()))
	d.say(Computed, "%s", dryingPaceWords(k, row.ID))
	return d
}

func (d *Drying) say(kind ReasonKind, format string, args ...any) {
	d.Reasons = append(d.Reasons, Because(kind, format, args...))
}

func holdUpWords(h estimate.HoldUp, peakRH float64) string {
	switch h {
	case estimate.HeldByRoom:
		return fmt.Sprintf("held up by the room: the drying plants bring it to %.0f %% humidity", 100*peakRH)
	case estimate.HeldByPocket:
		return "held up by water at the heart"
	}
	return "held up by water on the leaves"
}

// dryAdvice is what would help, the quickest first, for a plant that is late or
// is going to be.
func dryAdvice(b *model.Book, row *model.Row, d *Drying, now time.Time) []string {
	if !d.Overdue && !d.Expected.After(d.Limit) {
		return nil
	}
	room := estimate.RoomNow(b, now)
	var do []string
	if d.HoldUp != estimate.HeldByFilm && !row.Inverted {
		do = append(do, "tip it out, lay it upside down")
	} else if d.HoldUp == estimate.HeldByPocket {
		do = append(do, "shake it again, turn it")
	}
	if room.Fan == model.FanOff || room.Fan == model.FanLow {
		do = append(do, "more fan, across the plants, away from the water")
	}
	if d.HoldUp == estimate.HeldByRoom || room.RH >= dampRoom {
		do = append(do, "open a window or a door")
	}
	if len(do) == 0 {
		do = append(do, "spread them out, blot the bases")
	}
	return do
}

package advice

import (
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
	DaysSince int // calendar days since it came out of its last soak; negative when nobody knows it
	Band      soak.Band
	From, To  float64     // minutes in water: the shortest soak that does it, and the longest it may have; both 0 for Rest and Mist
	Again     bool        // and a second soak a day later
	Reasons   []Reason    // the first is the one to show in a list
	LookFirst bool        // what is believed is not to be trusted: look before soaking
	Signs     model.Signs // as last seen since the last soak; model.NoSigns when not
	SignsAt   time.Time   // when
}

// Casualty reports whether the plant may be past saving: it has lost nearly as much
// water as its kind is known to bear.
func (n *Need) Casualty() bool {
	return slices.ContainsFunc(n.Reasons, func(r Reason) bool { return r.Code == Casualty })
}

// Drying is how far a plant out of the water has come, and what to do about it.
type Drying struct {
	estimate.DryOut
	Reasons []Reason
}

// Need is what a plant needs, or nil when it is gone or unknown.
func (o *Outlook) Need(id model.ID) *Need {
	i, ok := o.Place(id)
	if !ok {
		return nil
	}
	return &o.Needs[i]
}

// Place is where a plant's need stands among [Outlook.Needs].
func (o *Outlook) Place(id model.ID) (int, bool) {
	low, high := 0, len(o.Needs)
	for low < high {
		if mid := (low + high) / 2; o.Needs[mid].ID < id {
			low = mid + 1
		} else {
			high = mid
		}
	}
	return low, low < len(o.Needs) && o.Needs[low].ID == id
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
// only its own plants costs only those; any other is a new look. It reports whether
// the entry touched only its own.
func Refresh(k *estimate.Keeper, o *Outlook, e model.Entry, now time.Time) (own bool) {
	if k.ReadAgain(e) {
		*o = *Look(k, now)
		return false
	}
	switch e.Fact.(type) {
	case *model.Look, *model.Weigh, *model.Mist, *model.Bloom, *model.Rot, *model.Note, *model.Move, *model.Swap,
		*model.Pull, *model.PutBack:
		c := At(k, now, o.Air)
		for _, id := range e.Plants {
			if n := o.Need(id); n != nil {
				*n = c.Need(k.Book().Row(id))
			}
			if d := o.DryOut(id); d != nil {
				*d = dryingOf(k, k.Book().Row(id), now)
			}
		}
		return true
	}
	*o = *Look(k, now)
	return false
}

// manyPlants is for how many plants the reasons get their room at once: enough
// that it costs little, and few enough that little is wasted.
const manyPlants = 64

// Look says what every plant needs at a time. Times must not run before the
// newest entry for the answer to mean much; it is given all the same.
func Look(k *estimate.Keeper, now time.Time) *Outlook {
	b := k.Book()
	o := &Outlook{At: now, Air: estimate.RoomNow(b, now), Needs: make([]Need, 0, b.Len())}
	c := At(k, now, o.Air)
	c.many = manyPlants
	k.Ponder()
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

// dryingOf is how far a plant has come that is out of the water, and what to do.
func dryingOf(k *estimate.Keeper, row *model.Row, now time.Time) Drying {
	d := Drying{DryOut: k.DryOut(row, now)}
	if row.State == model.Dry {
		d.because(ReadyToHang)
		return d
	}
	wet := now.Sub(row.Out).Minutes()
	switch {
	case now.After(d.Limit):
		d.because(WetBeyondLimit, wet, d.Foreseen.Sub(row.Out).Minutes(), d.Limit.Sub(row.Out).Minutes())
	case d.Overdue:
		d.because(ShouldBeDry, wet)
	case row.DampAt.After(row.Out):
		d.because(FeltDamp, now.Sub(row.DampAt).Minutes())
	}
	switch d.HoldUp {
	case estimate.HeldByRoom:
		d.because(HeldUpByRoom, d.PeakRH)
	case estimate.HeldByPocket:
		d.because(HeldUpByPocket)
	default:
		d.because(HeldUpByFilm)
	}
	if d.Foreseen.After(d.Worry) && !now.After(d.Limit) {
		d.because(SlowHere, d.Foreseen.Sub(row.Out).Minutes(), d.Worry.Sub(row.Out).Minutes())
	}
	d.help(k.Book(), row, now)
	d.because(
		DryingTimes,
		d.FilmHours*60,
		d.PocketHours*60,
		d.Low.Sub(row.Out).Minutes(),
		d.High.Sub(row.Out).Minutes(),
	)
	code := DryingFromKin
	p, _ := k.DryingMultiplier(row.ID)
	if p.Own > 0 {
		code = DryingFromMarks
	}
	d.because(code, p.Median, p.Low, p.High, float64(p.Own))
	return d
}

func (d *Drying) because(c Code, n ...float64) { d.Reasons = append(d.Reasons, because(c, n...)) }

// dampRoom is the humidity in % from which opening a window is worth saying.
// A choice.
const dampRoom = 60

// help is what would help, the quickest first, for a plant that is late or is
// going to be.
func (d *Drying) help(b *model.Book, row *model.Row, now time.Time) {
	if !d.Overdue && !d.Expected.After(d.Worry) {
		return
	}
	before := len(d.Reasons)
	if d.HoldUp != estimate.HeldByFilm && !row.Inverted {
		d.because(LayUpsideDown)
	} else if d.HoldUp == estimate.HeldByPocket {
		d.because(ShakeAgain)
	}
	room := estimate.RoomNow(b, now)
	if room.Fan == model.FanOff || room.Fan == model.FanLow {
		d.because(MoreFan)
	}
	if d.HoldUp == estimate.HeldByRoom || room.RH >= dampRoom {
		d.because(OpenAWindow)
	}
	if len(d.Reasons) == before {
		d.because(SpreadOut)
	}
}

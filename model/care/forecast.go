package care

import (
	"time"

	"tubside/model"
	"tubside/model/belief"
	"tubside/model/drying"
	"tubside/model/leaf"
)

// HalfGone is the thirst at which a plant has lost half its water. Our own
// line, two thirds of the way to where injury begins (see [leaf.LethalFrom]).
const HalfGone = 0.50

// Trip is what an absence does to the plants.
type Trip struct {
	Now, From, Until time.Time
	Air              ExpectedAir
	DryBy            time.Time // by when what is soaked last must be dry
	Damp             float64   // how many times as long that takes, with all of it in the room
	Plants           []Left    // every plant not gone, by number
}

// Left is one plant left alone.
type Left struct {
	ID       model.ID
	Leaving  float64 // RWC when the grower leaves, mean of what is believed
	Lines    Lines   // crossed before the return, without a last soak
	Return   Stand   // on return, without a last soak
	Last     *LastSoak
	StillWet bool // may not be dry when the grower leaves
	Move     bool // off its shelf, while the grower is away
	Reasons  []Reason
}

// Stand is how a plant stands: RWC 0..1, the mean and the 80 % range of what is
// believed of its pace. The room's air is taken as expected.
type Stand struct{ RWC, Low, High float64 }

// Thirst is the share of the plant's water that is gone.
func (s Stand) Thirst() float64 { return 1 - s.RWC }

// Lines is when a plant's expected thirst crosses each line, to the hour; zero
// when it does not while the grower is away. A line crossed before counts from
// when the grower leaves.
type Lines struct {
	Soak     time.Time // the house rule from which a plant is soaked
	HalfGone time.Time
	Injury   time.Time // where injury begins: Benzing & Dahle 1971, for T. ionantha
}

// Forecast says what each plant will be like after an absence, in the air given
// (see [Keeper.ExpectAir]), and whom to soak on the last day. Past entries are
// taken as they are: from and until should not lie before now.
func (k *Keeper) Forecast(now, from, until time.Time, expected ExpectedAir) *Trip {
	t := &Trip{Now: now, From: from, Until: until, Air: expected, DryBy: lastEvening(k.book.Rules(), now, from), Damp: 1}
	f := forecaster{Keeper: k, Trip: t, dry: k.newDryTimes(roomNow(k.book, now), now)}
	f.wet = drying.PowerOf(f.dry.stream(fanSpeed(f.dry.room.Fan)), drying.TypicalLeafWidthM)
	var courses []*course
	for _, id := range k.book.IDs() {
		if row := k.book.Row(id); row.State != model.Gone {
			c := f.courseOf(row, &f.water[row.ID].stretch)
			courses, t.Plants = append(courses, c), append(t.Plants, f.left(row, c))
		}
	}
	f.crowd()
	for i := range t.Plants {
		f.plan(k.book.Row(t.Plants[i].ID), courses[i], &t.Plants[i])
	}
	return t
}

// forecaster works out one trip.
type forecaster struct {
	*Keeper
	*Trip
	dry *dryTimes
	wet drying.Power // of the room now, on wet leaves
}

// left is a plant to which nothing is done.
func (f *forecaster) left(row *model.Row, c *course) Left {
	l := Left{ID: row.ID, Leaving: c.stand(f.From).RWC, Return: c.stand(f.Until)}
	l.Lines = f.lines(c, l.Return)
	l.StillWet = c.wet.After(later(f.DryBy, f.From))
	return l
}

// course is one plant's water from now on, if nothing is done to it.
type course struct {
	shares belief.Shares
	rate   float64                // of water loss, per day and kPa, at pace 1
	before [belief.Points]float64 // RWC for each pace until it is dry
	full   [belief.Points]float64 // RWC for each pace when it is dry
	dry    time.Time              // when it is dry
	wet    time.Time              // until when it may be wet
	dose   func(from, to time.Time) float64
}

// courseOf begins at what is believed of a stretch. A plant in the water comes
// out when it is due, and one out of it is dry when expected.
func (f *forecaster) courseOf(row *model.Row, s *stretch) *course {
	w, kd := f.water[row.ID], f.kinds[row.ID]
	c := &course{shares: *f.lossOf(f.plants[row.ID]), rate: kd.k, before: s.full, full: s.full, dry: w.dry}
	c.dose = func(dry, to time.Time) float64 {
		if dry.Equal(w.dry) { // on another shelf for part of it, perhaps
			return s.spent + w.factor*(f.dose(dry, s.since, to)-s.bare)
		}
		return w.factor * f.dose(dry, dry, to)
	}
	switch {
	case w.wet && row.State == model.Soaking:
		out := later(f.book.Load(row.Load).Due, f.Now)
		f.refill(c, out.Sub(row.In).Minutes(), row)
		c.dry, c.wet = out, out.Add(hoursLong(f.dryHours(row)))
	case w.wet && row.State == model.Drying:
		d := f.dryOut(row, f.Now)
		c.dry, c.wet = later(d.Expected, f.Now), later(d.High, f.Now)
	case w.wet:
		c.dry = f.Now
	}
	return c
}

// refill soaks a plant in its course, shaken out into the room as it is now.
func (f *forecaster) refill(c *course, minutes float64, row *model.Row) {
	kd := f.kinds[row.ID]
	leaf.NewSoak(minutes, kd.tau).Wearing(kd.filmIn(f.wet).Film).Refill(c.full[:])
}

// dose is the drying power of the room on a plant dry since dry, between two
// times: of the past as it was read, of what is to come as it is expected.
func (f *forecaster) dose(dry, from, to time.Time) float64 {
	days := func(t time.Time) float64 { return t.Sub(dry).Hours() / 24 }
	total := 0.0
	if from.Before(f.Now) {
		total = f.climate.dose(dry, from, earlier(to, f.Now))
	}
	if to.After(f.Now) {
		total += leaf.Dose(days(later(from, f.Now)), days(to), f.Air.Deficit)
	}
	return total
}

// at fills rwc with the relative water content at a time, for each pace.
func (c *course) at(t time.Time, rwc *[belief.Points]float64) {
	if t.Before(c.dry) {
		*rwc = c.before
		return
	}
	belief.Decay(c.rate*c.dose(c.dry, t), rwc)
	for i, full := range c.full {
		rwc[i] *= full
	}
}

func (c *course) mean(t time.Time) float64 {
	var rwc [belief.Points]float64
	c.at(t, &rwc)
	return c.shares.MeanOf(&rwc)
}

func (c *course) stand(t time.Time) Stand {
	var rwc [belief.Points]float64
	c.at(t, &rwc)
	low, high := c.shares.QuantileOf(&rwc, 0.1), c.shares.QuantileOf(&rwc, 0.9)
	return Stand{c.shares.MeanOf(&rwc), min(low, high), max(low, high)}
}

// lines finds when a course crosses each line before the return.
func (f *forecaster) lines(c *course, home Stand) Lines {
	when := func(thirst float64) time.Time {
		if home.Thirst() < thirst {
			return time.Time{}
		}
		return c.crossing(1-thirst, f.From, f.Until)
	}
	return Lines{
		Soak:     when(f.book.Rules()[model.SoakFrom] / 100),
		HalfGone: when(HalfGone),
		Injury:   when(leaf.LethalFrom),
	}
}

// crossing finds when the mean falls to a line that it has fallen to by until.
func (c *course) crossing(line float64, from, until time.Time) time.Time {
	if c.mean(from) <= line {
		return from
	}
	for until.Sub(from) > time.Hour {
		if m := middle(from, until); c.mean(m) <= line {
			until = m
		} else {
			from = m
		}
	}
	return until
}

func hoursLong(h float64) time.Duration { return time.Duration(h * float64(time.Hour)) }

package demo

import (
	"math/rand/v2"
	"slices"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// past is the invented home while its past is being lived.
type past struct {
	rng      *rand.Rand
	now      time.Time
	zone     *time.Location
	today    date.Date
	scene    Scene
	weather  *weather
	lives    []*life // in the order they come
	next     model.ID
	trips    []journey
	vessels  []model.Vessel // for plain water
	load     model.LoadID   // the next one
	guests   int            // newcomers so far
	fan      model.Fan
	open     bool         // the window, today
	water    model.Source // of the session at hand
	lastFeed date.Date    // the last feed round
	told     []*line
}

// line is an entry before it has its number.
type line struct {
	model.Entry
	takesBack *line // set for a strike
}

// Streams of random numbers, so that one part does not shift another. The
// numbers themselves mean nothing.
const (
	plantStream = iota + 1
	natureStream
	weatherStream
	pastStream
)

func newPast(seed uint64, now time.Time, scene Scene) *past {
	p := &past{
		rng: stream(seed, pastStream), now: now, zone: now.Location(), today: date.NewAt(now), scene: scene,
		vessels: slices.Clone(model.NewBook(now.Location()).Vessels()), load: 1, next: 1, fan: model.FanLow,
	}
	p.trips = p.journeys()
	p.weather = inventWeather(stream(seed, weatherStream), p.today-yearDays-30, p.today, p.zone)
	nature := stream(seed, natureStream)
	for _, plant := range invent(stream(seed, plantStream)) {
		l := beginLife(nature, plant)
		l.Acquired, l.newcomer = plant.acquired(p.today), plant.newcomer()
		p.lives = append(p.lives, l)
	}
	return p
}

func stream(seed, n uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, n)) }

// arrive gives a plant the next number. It was last full and dry at a time.
func (p *past) arrive(l *life, dry time.Time) {
	l.ID, l.here, l.dry = p.next, true, dry
	p.next++
}

// say writes a line about the room or the house.
func (p *past) say(at time.Time, fact model.Fact) *line {
	l := &line{Entry: model.NewEntry(at, fact)}
	p.told = append(p.told, l)
	return l
}

// tell writes a line about plants; about none, it writes nothing.
func (p *past) tell(at time.Time, fact model.Fact, lives ...*life) {
	if len(lives) == 0 {
		return
	}
	l := p.say(at, fact)
	for _, x := range lives {
		l.Plants = append(l.Plants, x.ID)
	}
}

// takeBack strikes the line last written, a little later.
func (p *past) takeBack() {
	last := p.told[len(p.told)-1]
	p.say(last.At.Add(p.minutes(0.5, 3)), &model.Strike{}).takesBack = last
}

// journal puts what was told in the order of its time and numbers it. A strike
// learns the number of the line it takes back, which always came before.
func (p *past) journal() []model.Entry {
	slices.SortStableFunc(p.told, func(a, b *line) int { return a.At.Compare(b.At) })
	entries := make([]model.Entry, len(p.told))
	for i, l := range p.told {
		l.Seq = model.Seq(i + 1)
		if l.takesBack != nil {
			l.Fact = &model.Strike{Seq: l.takesBack.Seq}
		}
		entries[i] = l.Entry
	}
	return entries
}

// clock is a time of day d, in hours.
func (p *past) clock(d date.Date, hours float64) time.Time {
	return clock(d, int(hours*60), p.zone)
}

// minutes is a random length of time.
func (p *past) minutes(from, to float64) time.Duration {
	return time.Duration((from + (to-from)*p.rng.Float64()) * float64(time.Minute))
}

// happens is true with a chance of 0 to 1.
func (p *past) happens(chance float64) bool { return p.rng.Float64() < chance }

// pick is one of some.
func pick[T any](p *past, some []T) T { return some[p.rng.IntN(len(some))] }

// here lists the plants that have come and are not gone and that want holds
// for, in walking order.
func (p *past) here(want func(*life) bool) []*life {
	var some []*life
	for _, l := range p.lives {
		if l.here && want(l) {
			some = append(some, l)
		}
	}
	slices.SortStableFunc(some, func(a, b *life) int {
		if c := model.NaturalCompare(a.Home.Shelf, b.Home.Shelf); c != 0 {
			return c
		}
		return model.NaturalCompare(a.Home.Spot, b.Home.Spot)
	})
	return some
}

func anyLife(*life) bool { return true }

package estimate

import (
	"math"
	"time"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/belief"
	"tubside/model/drying"
)

// DryOut is how far one plant has come from dripping to dry.
type DryOut struct {
	ID          model.ID
	Load        model.LoadID
	OutAt       time.Time
	Low         time.Time // 10 % of what is believed lies before
	Expected    time.Time // the median
	High        time.Time // 90 % lies before
	Limit       time.Time // the house rule: a plant that is wet beyond this is out too long
	Worry       time.Time // from when the trade worries; the limit is never earlier
	Foreseen    time.Time // when it was expected to be dry, whatever was felt since
	Overdue     bool      // ended High or Limit and not marked dry
	Progress    float64   // 0..1 of the expected time; 1 when dry
	HoldUp      HoldUp
	FilmHours   float64 // from out until its leaves are dry, by the numbers alone; 0 when it is dry
	PocketHours float64 // the same, its heart
	PeakRH      float64 // the highest humidity (0 to 1) that the drying plants bring the room to
}

// HoldUp is what keeps a plant from being dry.
type HoldUp string

// The hold-ups.
const (
	HeldByFilm   HoldUp = "film"   // water on the leaves
	HeldByPocket HoldUp = "pocket" // water at the heart, between the leaf bases
	HeldByRoom   HoldUp = "room"   // damp air
	HeldByNone   HoldUp = ""       // dry
)

// RoomAir is the room as it is taken to be at a time.
type RoomAir struct {
	TempC, RH, DeficitKPa float64   // RH in %
	ReadAt                time.Time // zero when there is no reading and the house rule's default stands
	Fan                   model.Fan
	Window                model.Window
}

// roomShare is how much longer than in the bare room a plant must take before
// the damp air is named as what holds it up. A choice.
const roomShare = 1.3

// dryingRoom is the plants out of the water, solved together with the air they
// share. It holds from one entry to the next, while the room stays as it is and the
// clock is not set back behind what came out.
type dryingRoom struct {
	start    RoomAir   // when somebody asked
	asked    time.Time // when that was, or when the last of them came out, if that was earlier
	bench    onBench
	groups   map[dryKey]dryGroup
	forecast drying.Forecast
	peakRH   float64
}

// dryGroup is the hours from out to dry of the plants of a group.
type dryGroup struct {
	shared drying.Estimate // in the room with the others
	alone  drying.Estimate // in the room as it was before
}

func (g dryGroup) hours() float64 { return g.shared.Hours() }

// dryKey is what plants of one group have in common.
type dryKey struct {
	out      int64
	plant    drying.Plant // without area and pocket mass
	handling drying.Handling
	speed    float64 // of the air over it, m/s
}

// onBench is all plants that are drying, in groups, and their room.
type onBench struct {
	at     time.Time // the moment it is solved from
	last   time.Time // when the last plant came out
	order  []dryKey
	groups []drying.Group
	room   drying.Room
	before float64       // vapour in the room before the plants came out, kg/m3
	opened drying.Airing // with the window open
	fan    model.Fan     // of the room at large
	places []model.Bench // with fans of their own
}

// room is the drying plants and their room. What is made of them does not depend on
// who asked when: a reading may be dated ahead, or be too old by now.
func (k *Keeper) room(now time.Time) *dryingRoom {
	start := RoomNow(k.book, now)
	if d := k.drying; d == nil || d.start != start || !d.asked.Equal(model.Earlier(now, d.bench.last)) {
		k.drying = k.survey(now).solve()
		k.drying.start, k.drying.asked = start, model.Earlier(now, k.drying.bench.last)
	}
	return k.drying
}

// survey finds the plants that are drying. The room is solved from when the
// first of them came out, or of those dry and not yet hung, or from a reading
// taken since, so that the answer stands still between two entries.
func (k *Keeper) survey(now time.Time) onBench {
	start, places := RoomNow(k.book, now), map[dryKey]int{}
	first, wet := now, false
	b := onBench{at: now, fan: start.Fan, places: k.book.Benches()}
	for _, id := range k.book.IDs() {
		row := k.book.Row(id)
		if row.State != model.Drying && row.State != model.Dry {
			continue
		}
		kd := *k.plants[id].traits
		key := b.keyOf(row, kd)
		at, ok := places[key]
		if !ok {
			at = len(b.groups)
			places[key] = at
			b.order = append(b.order, key)
			b.groups = append(b.groups, drying.Group{Plant: kd.Drying, Handling: key.handling, Speed: key.speed})
		}
		first, b.last = model.Earlier(first, row.Out), model.Later(b.last, row.Out)
		if row.State == model.Drying {
			add(&b.groups[at], kd.Drying)
			wet = true
			b.at = model.Earlier(b.at, row.Out)
		}
	}
	if !wet {
		b.at = first
	}
	before := RoomNow(k.book, b.at)
	if !start.ReadAt.After(b.at) {
		start = before
	}
	b.at = model.Later(b.at, start.ReadAt)
	b.place(k.book, before, start)
	return b
}

// place sets the bench in its room. What comes in from outside is taken to keep
// the room as it was before the plants came out.
func (b *onBench) place(book *model.Book, before, start RoomAir) {
	rules := book.Rules()
	for i, key := range b.order {
		b.groups[i].MinutesOut = b.at.Sub(time.Unix(key.out, 0)).Minutes()
	}
	usual := air.Air{TempC: before.TempC, RH: before.RH / 100}
	in := func(w model.Window, at time.Time) drying.Airing {
		outdoors, known := book.Outside(at)
		return airing(rules, w, usual, outdoors, known)
	}
	now := in(book.Window(b.at).Window, b.at)
	b.before = usual.VapourDensity()
	b.room = drying.Room{
		VolumeM3: rules[model.RoomVolume], AirChanges: now.AirChanges, SupplyDensity: now.SupplyDensity,
		Air: air.Air{TempC: start.TempC, RH: start.RH / 100},
	}
	for _, w := range book.Windows() {
		if w.At.After(b.at) {
			next := in(w.Window, w.At)
			next.Hours = w.At.Sub(b.at).Hours()
			b.room.Airings = append(b.room.Airings, next)
		}
	}
	b.opened = in(model.WindowOpen, b.at)
}

// airing is what comes in when the drying room is aired in some way. What leaks in
// always is taken to keep the room as it usually is. What an open window lets in
// more is the air outdoors where that is known, warmed to the room: dry in winter.
func airing(rules model.Rules, w model.Window, usual air.Air, outdoors model.ReadingAt, known bool) drying.Airing {
	a := drying.Airing{AirChanges: rules.AirChangesWith(w), SupplyDensity: usual.VapourDensity()}
	if w == model.WindowOpen && known {
		leak := rules.AirChangesWith(model.WindowShut)
		out := air.Air{TempC: outdoors.TempC, RH: outdoors.RH / 100}
		if more := a.AirChanges - leak; more > 0 {
			a.SupplyDensity = (leak*a.SupplyDensity + more*out.VapourDensity()) / a.AirChanges
		}
	}
	return a
}

// outside is the room's air without the drying plants.
func (b *onBench) outside() air.Air { return b.room.Air.WithVapourDensity(b.before) }

// solve works out the bench.
func (b onBench) solve() *dryingRoom {
	d := &dryingRoom{bench: b, groups: make(map[dryKey]dryGroup, len(b.order))}
	outside := map[float64]*powers{}
	var err error
	d.forecast, err = b.room.Dry(b.groups)
	d.peakRH = d.forecast.PeakRH
	for i, key := range b.order {
		if outside[key.speed] == nil {
			outside[key.speed] = &powers{stream: drying.Stream{Air: b.outside(), Speed: key.speed}}
		}
		power := outside[key.speed].on(b.groups[i].Plant.LeafWidthM)
		g := dryGroup{alone: clamped(b.groups[i].Plant.DryIn(power, b.groups[i].Handling))}
		g.shared = g.alone
		if err == nil {
			g.shared = clamped(sinceOut(d.forecast.Groups[i], b.groups[i], g.alone))
		}
		d.groups[key] = g
	}
	return d
}

// combine puts one more plant into a group, keeping the mean of its water.
func add(g *drying.Group, p drying.Plant) {
	addTo(&g.Plant, g.Count, p)
	g.Count++
}

// sinceOut turns hours from the moment solved from into hours since out. What
// was dry before that moment keeps its own estimate.
func sinceOut(e drying.Estimate, g drying.Group, alone drying.Estimate) drying.Estimate {
	if e.FilmHours > 0 {
		alone.FilmHours = e.FilmHours + g.MinutesOut/60
	}
	if e.PocketHours > 0 {
		alone.PocketHours = e.PocketHours + g.MinutesOut/60
	}
	return alone
}

// clamped keeps an endless time within what a calendar can show.
func clamped(e drying.Estimate) drying.Estimate {
	return drying.Estimate{
		FilmHours:   math.Min(e.FilmHours, drying.Horizon),
		PocketHours: math.Min(e.PocketHours, drying.Horizon),
	}
}

// dryLawSpread is how far off the law of drying may be from one day to another, as a standard deviation of the
// logarithm: it is made for air and plants that differ, and the same plant is judged on a damp day by what it did on
// dry ones. A guess; a bench timed in all weathers would replace it.
const dryLawSpread = 0.11

// eventStep is one drying of a plant to come.
var eventStep = belief.NewStep(math.Hypot(eventSpread, dryLawSpread))

// times is how many times its estimate a plant takes to dry, by what is believed: 1 in 10
// less than low, 1 in 10 more than high.
type times struct{ low, middle, high float64 }

func timesOf(takes *belief.Mass) (t times) {
	t.low, t.high = takes.Range(0.8)
	t.middle, _ = takes.Range(0)
	return t
}

// nextTime is that of a plant's next drying, or one of which nothing was felt yet: its
// multiplier, and the chance of the day.
func (k *Keeper) nextTime(p *plantState) times {
	mass, l := k.dryMass(p), &p.dryTime
	if l.next == (times{}) {
		takes := eventStep.MessageDown(mass)
		l.next = timesOf(&takes)
	}
	return l.next
}

// thisTime is the same of a plant that is out of the water: it may have been felt to be
// damp still.
func (k *Keeper) thisTime(p *plantState, row *model.Row, hours float64) times {
	if !row.DampAt.After(row.Out) {
		return k.nextTime(p)
	}
	takes := eventStep.MessageDown(k.dryMass(p))
	var still grid
	belief.LogLonger(row.DampAt.Sub(row.Out).Hours()/hours, &still)
	takes = takes.ObserveLog(&still)
	return timesOf(&takes)
}

// DryOut is the estimate for one plant that is out of the water.
func (k *Keeper) DryOut(row *model.Row, now time.Time) DryOut {
	p, room := k.plants[row.ID], k.room(now)
	g := room.groups[room.bench.keyOf(row, *p.traits)]
	takes := k.thisTime(p, row, g.hours())
	d := DryOut{
		ID: row.ID, Load: row.Load, OutAt: row.Out,
		Low: g.after(row.Out, takes.low), Expected: g.after(row.Out, takes.middle), High: g.after(row.Out, takes.high),
		Worry: row.Out.Add(model.Hours(p.traits.WetLimit)), Foreseen: g.after(row.Out, k.nextTime(p).middle),
	}
	d.Limit = model.Later(d.Worry, d.Foreseen.Add(model.Hours(k.book.Rules()[model.WetPast])))
	if row.State == model.Dry {
		d.Progress = 1
		return d
	}
	d.Overdue = now.After(d.High) || now.After(d.Limit)
	if span := d.Expected.Sub(row.Out); span > 0 {
		d.Progress = math.Min(1, now.Sub(row.Out).Hours()/span.Hours())
	}
	d.HoldUp, d.PeakRH = holdUp(g), room.peakRH
	d.FilmHours, d.PocketHours = g.shared.FilmHours, g.shared.PocketHours
	return d
}

// after is when a plant is dry that takes some multiple of its estimate.
func (g dryGroup) after(out time.Time, multiple float64) time.Time {
	return out.Add(time.Duration(multiple * g.hours() * float64(time.Hour))).Round(time.Minute)
}

func holdUp(g dryGroup) HoldUp {
	switch {
	case g.hours() > roomShare*g.alone.Hours():
		return HeldByRoom
	case g.shared.Last() == drying.Pocket:
		return HeldByPocket
	}
	return HeldByFilm
}

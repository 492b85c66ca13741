package care

import (
	"math"
	"time"

	"tubside/model"
	"tubside/model/air"
	"tubside/model/belief"
	"tubside/model/drying"
)

// roomShare is how much longer than in the bare room a plant must take before
// the damp air is named as what holds it up. Our own.
const roomShare = 1.3

// dryingRoom is the plants out of the water, solved together with the air they
// share. It holds from one entry to the next.
type dryingRoom struct {
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
}

func keyOf(row *model.Row, kd kind) dryKey {
	return dryKey{row.Out.Unix(), bareOf(kd.dry), kd.handling(model.Out{Shaken: row.Shaken, Inverted: row.Inverted})}
}

// onBench is all plants that are drying, in groups, and their room.
type onBench struct {
	at     time.Time // the moment it is solved from
	order  []dryKey
	groups []drying.Group
	room   drying.Room
	speed  float64
}

// survey finds the plants that are drying. The room is solved from when the
// first of them came out, or of those dry and not yet hung, or from a reading
// taken since, so that the answer stands still between two entries.
func (k *Keeper) survey(now time.Time) onBench {
	start, places := roomNow(k.book, now), map[dryKey]int{}
	first, wet := now, false
	b := onBench{at: now, speed: fanSpeed(start.Fan)}
	for _, id := range k.book.IDs() {
		row := k.book.Row(id)
		if row.State != model.Drying && row.State != model.Dry {
			continue
		}
		kd := k.kinds[id]
		key := keyOf(row, kd)
		at, ok := places[key]
		if !ok {
			at = len(b.groups)
			places[key] = at
			b.order = append(b.order, key)
			b.groups = append(b.groups, drying.Group{Plant: kd.dry, Handling: key.handling, Speed: b.speed})
		}
		first = earlier(first, row.Out)
		if row.State == model.Drying {
			add(&b.groups[at], kd.dry)
			wet = true
			b.at = earlier(b.at, row.Out)
		}
	}
	if !wet {
		b.at = first
	}
	before := roomNow(k.book, b.at)
	if !start.ReadAt.After(b.at) {
		start = before
	}
	b.at = later(b.at, start.ReadAt)
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
	b.room = drying.Room{
		VolumeM3: rules[model.RoomVolume], AirChanges: rules.AirChangesWith(book.Window(b.at).Window),
		Air:           air.Air{TempC: start.TempC, RH: start.RH / 100},
		SupplyDensity: air.Air{TempC: before.TempC, RH: before.RH / 100}.VapourDensity(),
	}
	for _, w := range book.Windows() {
		if w.At.After(b.at) {
			b.room.Airings = append(b.room.Airings, drying.Airing{Hours: w.At.Sub(b.at).Hours(), AirChanges: rules.AirChangesWith(w.Window)})
		}
	}
}

// outside is the room's air without the drying plants.
func (b *onBench) outside() air.Air { return b.room.Air.WithVapourDensity(b.room.SupplyDensity) }

// solve works out the bench.
func (b onBench) solve() *dryingRoom {
	d := &dryingRoom{bench: b, groups: make(map[dryKey]dryGroup, len(b.order))}
	power := drying.PowerOf(drying.Stream{Air: b.outside(), Speed: b.speed}, drying.TypicalLeafWidthM)
	var err error
	d.forecast, err = b.room.Dry(b.groups)
	d.peakRH = d.forecast.PeakRH
	for i, key := range b.order {
		g := dryGroup{alone: clamped(b.groups[i].Plant.DryIn(power, b.groups[i].Handling))}
		g.shared = g.alone
		if err == nil {
			g.shared = clamped(sinceOut(d.forecast.Groups[i], b.groups[i], g.alone))
		}
		d.groups[key] = g
	}
	return d
}

// add puts one more plant into a group, keeping the mean of its water.
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

var eventStep = belief.NewStep(eventSpread)

// times is what is believed of how many times its estimate a plant takes this
// time: its pace, the chance of the day, and that it was still damp when looked
// at.
func (k *Keeper) times(p *kept, row *model.Row, hours float64) belief.Shares {
	takes := eventStep.Down(k.lingerOf(p))
	if !row.DampAt.After(row.Out) {
		return takes
	}
	var still grid
	belief.LogInterval(row.DampAt.Sub(row.Out).Hours()/hours, math.Inf(1), 0, &still)
	return takes.Given(&still)
}

// dryOut is the estimate for one plant that is out of the water.
func (k *Keeper) dryOut(row *model.Row, now time.Time) DryOut {
	if k.drying == nil {
		k.drying = k.survey(now).solve()
	}
	p := k.plants[row.ID]
	g := k.drying.groups[keyOf(row, *p.kind)]
	takes := k.times(p, row, g.hours())
	low, high := takes.Range(0.8)
	middle, _ := takes.Range(0)
	d := DryOut{
		ID: row.ID, Load: row.Load, OutAt: row.Out,
		Low: g.after(row.Out, low), Expected: g.after(row.Out, middle), High: g.after(row.Out, high),
		Limit: row.Out.Add(time.Duration(p.kind.limit * float64(time.Hour))),
	}
	if row.State == model.Dry {
		d.Progress = 1
		d.Reasons = []Reason{{Text: "dry: hang it back on " + orElse(row.Home.String(), "its shelf"), Kind: Saw}}
		return d
	}
	d.Overdue = now.After(d.High) || now.After(d.Limit)
	if span := d.Expected.Sub(row.Out); span > 0 {
		d.Progress = math.Min(1, now.Sub(row.Out).Hours()/span.Hours())
	}
	d.HoldUp = holdUp(g)
	d.Reasons = k.dryReasons(row, p, d, g, now)
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

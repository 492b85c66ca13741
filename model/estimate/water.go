package estimate

import (
	"math"
	"time"

	"tubside/model"
	"tubside/model/belief"
	"tubside/model/drying"
	"tubside/model/leaf"
)

// A plant of whose last soak nothing is known is taken to have had one this
// long before it came into the book. A guess. Growers asked how long ago the last
// soak of what they buy may be would replace it.
const unknownDays = 14

// Grid is one number for each multiplier that a plant may have (see [belief.Multipliers]).
type Grid = [belief.Points]float64

type grid = Grid

// water is one plant's water: for each multiplier on the grid, and however it drinks, how full it was when
// it last began to dry; and what was seen of it since.
type water struct {
	stretch
	seen      *spell    // what was seen since the last soak; nil nothing
	dry       time.Time // since when it loses water
	in        time.Time // when it last went into the water
	wet       bool      // in the water or drying: it loses none
	soakKnown bool      // the last soak is on record
	odd       int       // soaks in a row after which it looked thirsty too soon

	shelf    string
	shelfKey string  // its [model.ShelfKey], which is asked for at every look
	factor   float64 // how many times as fast plants dry out there

	leavesDry time.Time // when what was on its leaves last is gone
	misted    time.Time // last; zero not since it was dry
	doubted   *stretch  // as a weight has it that nothing explains, and that is asked about; nil none since the soak
	left      *absence  // nil when it was not misted since a trip began
}

// stretch is water going out of a plant from one wetting to the next.
type stretch struct {
	full  waters    // RWC when it began
	since time.Time // when it began: when the plant was dry, or misted last
	spent float64   // cumulativeVPD by the last change of shelf since then, days of the reference air, shelves counted
	bare  float64   // the same, shelves not counted

	thirsty, fullest float64 // thirst before the last soak and after it, of a plant that loses water as its traits say
}

// absence is the stretch that was broken off by the first mist after a trip
// began: what was forecast for the return goes by it.
type absence struct {
	from time.Time // the trip
	stretch
}

// newWater is a plant that comes into the book at a time; told is its last
// soak, zero when nobody knows.
func newWater(told, at time.Time) water {
	var w water
	known := !told.IsZero()
	if !known {
		told = at.AddDate(0, 0, -unknownDays)
	}
	w.refill(told)
	w.soakKnown = known
	return w
}

// copy is the same water in another plant.
func (w *water) copy() water {
	twin := *w // what it was before a mist never changes
	if w.seen != nil {
		seen := *w.seen
		seen.settled, seen.last, seen.watered = seen.settled.Clone(), seen.last.Clone(), seen.watered.Clone()
		twin.seen = &seen
	}
	return twin
}

// soaking reports whether the plant is in the water.
func (w *water) soaking() bool { return w.wet && w.dry.Before(w.in) }

// refill says the plant was full and dry at a time.
func (w *water) refill(dry time.Time) {
	w.soakKnown = true
	w.thirsty, w.fullest = 0, 0
	w.foundDry(dry)
	for n := range w.full {
		w.full[n] = grid(belief.Level())
	}
}

// vague reports whether the last soak is only guessed: then what is seen says
// less of the multiplier than of the guess.
func (w *water) vague() bool { return !w.soakKnown }

// cumulativeVPD is the drying power on the plant since it was dry, in days of the reference air.
func (w *water) cumulativeVPD(t time.Time, c *climate) float64 {
	return w.spent + w.factor*(c.cumulativeVPD(w.dry, w.since, t)-w.bare)
}

// hang moves the plant to a shelf that dries it out faster or slower.
func (w *water) hang(t time.Time, shelf string, factor float64, c *climate) {
	if factor != w.factor && !w.wet && t.After(w.since) {
		w.spent, w.bare = w.cumulativeVPD(t, c), c.cumulativeVPD(w.dry, w.since, t)
	}
	w.put(shelf, factor)
}

// put puts the plant on a shelf.
func (w *water) put(shelf string, factor float64) {
	w.shelf, w.shelfKey, w.factor = shelf, model.ShelfKey(shelf), factor
	if w.seen != nil { // what was believed before a look goes by the shelf as well
		w.seen.eyed = false
	}
}

// waters is how full the plant is at a time.
func (w *water) waters(t time.Time, kd *Traits, c *climate) waters {
	if w.wet {
		return w.full
	}
	return w.full.after(kd.LossRate * w.cumulativeVPD(t, c))
}

// shown is how the water is shown and planned with: as the scale has it, where a weight
// is in doubt. Nothing is learned from that until it is weighed again.
func (w *water) shown() *water {
	if w.doubted == nil {
		return w
	}
	weighed := *w
	weighed.stretch = *w.doubted
	return &weighed
}

// at fills rwc with the relative water content at a time, for each multiplier.
func (w *water) at(t time.Time, kd *Traits, c *climate, rwc *grid) {
	left := w.waters(t, kd, c)
	left.mean(rwc)
}

// goIn ends a spell of drying out: the plant is as full as each multiplier says.
func (w *water) goIn(t time.Time, kd *Traits, c *climate) {
	w.lose(t, kd, c)
	w.soaks()
	w.wet, w.in, w.doubted = true, t, nil
}

// soaks begins a soak: how full the plant is goes by its loss alone (see [stretch.untold]).
func (s *stretch) soaks() {
	s.full.blend()
	s.thirsty = s.full.thirst()
	s.fullest = s.thirsty
}

// lose takes what a dry plant lost until a time.
func (w *water) lose(t time.Time, kd *Traits, c *climate) {
	if w.wet {
		return
	}
	w.full = w.waters(t, kd, c)
}

// comeOut fills the plant for the time it was in, and with what it drinks of the
// film it wears then, which it returns: that takes some hours, and counts at once.
func (w *water) comeOut(t time.Time, taus [2]float64, worn film) leaf.Film {
	fresh := w.wetted(w.in, worn.hours)
	w.leavesDry = t.Add(model.Hours(worn.hours))
	part := worn.Part(fresh)
	w.full.fill(t.Sub(w.in).Minutes(), taus, part)
	w.fullest = w.full.thirst()
	w.dry, w.soakKnown = t, true
	w.begin(t)
	return part
}

// foundDry starts the loss of water.
func (w *water) foundDry(t time.Time) {
	w.dry, w.wet, w.misted, w.left = t, false, time.Time{}, nil
	w.begin(t)
}

// begin begins a stretch.
func (w *water) begin(t time.Time) { w.since, w.spent, w.bare, w.doubted = t, 0, 0, nil }

// film is the water on a plant's leaves, which it goes on drinking until they are
// dry.
type film struct {
	leaf.Film
	hours float64 // until the leaves are dry
}

// filmIn is the film that a plant wears out of the water, in air of some drying
// power. The heart, a clump's inside and the damp that drying plants make keep
// leaves wet longer than that, and what they drink is gone from the film sooner:
// all left out.
func (t *Traits) filmIn(power drying.Power) film {
	hours := math.Min(t.Drying.DryIn(power, drying.Handling{}).FilmHours, drying.Horizon)
	return film{leaf.Film{Share: t.Film, Hours: hours * (1 - t.Drying.FilmPower)}, hours}
}

// wetted is how much of a film is new on leaves that are wetted at a time, and
// notes when they are dry again, that many hours after. What they wore till then
// was counted to its end when they put it on.
func (w *water) wetted(t time.Time, hours float64) float64 {
	still := w.leavesDry.Sub(t).Hours()
	w.leavesDry = model.Later(w.leavesDry, t.Add(model.Hours(hours)))
	return 1 - math.Min(math.Max(still/hours, 0), 1)
}

// mist takes up the film of a mist, worn being that of a soak. Wet leaves hold no
// more.
func (w *water) mist(t time.Time, kd *Traits, taus [2]float64, c *climate, worn film) {
	if w.wet || t.Before(w.since) {
		return
	}
	w.lose(t, kd, c)
	w.begin(t)
	fresh := drying.MistFilm * w.wetted(t, drying.MistFilm*worn.hours)
	w.full.fill(0, taus, worn.Part(fresh))
	w.misted = t
}

// wetIn is the drying power of the room on leaves that are wetted at a time, as
// far as the room was known then. Plants of a load share their time.
type wetIn struct {
	at time.Time
	powers
}

// powerAt is the drying power of the room at a time.
func (k *Keeper) powerAt(at time.Time, widthM float64) drying.Power {
	if w := &k.wetted; !w.at.Equal(at) || w.known == nil {
		*w = wetIn{at, powers{stream: drying.Stream{Air: k.climate.dayBefore(at), Speed: fanSpeed(k.bench.fan)}}}
	}
	return k.wetted.on(widthM)
}

// filmFrom is the film of a plant wetted at a time.
func (k *Keeper) filmFrom(p *plantState, at time.Time) film {
	return p.traits.filmIn(k.powerAt(at, p.traits.Drying.LeafWidthM))
}

// mist wets the leaves of a plant where it hangs.
func (k *Keeper) mist(p *plantState, at time.Time) {
	if !k.leaving.IsZero() && at.After(k.leaving) && !p.misted.After(k.leaving) {
		p.left = &absence{k.leaving, p.stretch}
	}
	p.mist(at, p.traits, k.taus(p), k.climate, k.filmFrom(p, at))
}

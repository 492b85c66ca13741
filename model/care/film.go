package care

import (
	"math"
	"time"

	"tubside/model/drying"
	"tubside/model/leaf"
)

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
func (k *kind) filmIn(power drying.Power) film {
	hours := math.Min(k.dry.DryIn(power, drying.Handling{}).FilmHours, drying.Horizon)
	return film{leaf.Film{Share: k.film, Hours: hours * (1 - k.dry.FilmPower)}, hours}
}

// wetted is how much of a film is new on leaves that are wetted at a time, and
// notes when they are dry again, that many hours after. What they wore till then
// was counted to its end when they put it on.
func (w *water) wetted(t time.Time, hours float64) float64 {
	still := w.leavesDry.Sub(t).Hours()
	w.leavesDry = later(w.leavesDry, t.Add(hoursLong(hours)))
	return 1 - math.Min(math.Max(still/hours, 0), 1)
}

// mist takes up the film of a mist, worn being that of a soak. Wet leaves hold no
// more.
func (w *water) mist(t time.Time, k *kind, c *climate, worn film) {
	if w.wet || t.Before(w.since) {
		return
	}
	w.lose(t, k, c)
	w.begin(t)
	fresh := drying.MistFilm * w.wetted(t, drying.MistFilm*worn.hours)
	leaf.NewSoak(0, k.tau).Wearing(worn.Part(fresh)).Refill(w.full[:])
	w.misted = t
}

// wetIn is the drying power of the room on leaves that are wetted at a time, as
// far as the room was known then. Plants of a load share their time.
type wetIn struct {
	at     time.Time
	widthM float64
	power  drying.Power
}

// powerAt is the drying power of the room at a time.
func (k *Keeper) powerAt(at time.Time, widthM float64) drying.Power {
	if w := &k.wetted; !w.at.Equal(at) || w.widthM != widthM {
		*w = wetIn{at, widthM, drying.PowerOf(drying.Stream{Air: k.climate.dayBefore(at), Speed: fanSpeed(k.bench.fan)}, widthM)}
	}
	return k.wetted.power
}

// filmFrom is the film of a plant wetted at a time.
func (k *Keeper) filmFrom(p *kept, at time.Time) film {
	return p.kind.filmIn(k.powerAt(at, p.kind.dry.LeafWidthM))
}

// mist wets the leaves of a plant where it hangs.
func (k *Keeper) mist(p *kept, at time.Time) {
	if !k.leaving.IsZero() && at.After(k.leaving) && !p.misted.After(k.leaving) {
		p.left = &absence{k.leaving, p.stretch}
	}
	p.mist(at, p.kind, k.climate, k.filmFrom(p, at))
}

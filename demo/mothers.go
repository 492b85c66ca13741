package demo

import (
	"math"
	"time"

	"tubside/model"
)

// mother is a plant's offsets. Most plants bloom once, then have offsets and
// fade over a year or two (common practice, no source).
type mother struct {
	since  time.Time // when its bloom was spent; zero: no mother
	pups   int       // on it now
	seen   float64   // the biggest as the book has it, as a part of the parent's size
	fading bool
	parted time.Time // when it was itself taken off its mother; zero: it never was
}

// Offsets. Invented, but for the size at which they are taken off: a third to a
// half of the parent's (San Diego Bromeliad Society, FAQ).
const (
	spentBefore = 0.14 // of single plants, in the year before the book
	barren      = 0.15 // of mothers
	mostPups    = 3
	pupsAfter   = 30   // days after the bloom
	pupsAYear   = 0.55 // how much of the parent's size the biggest gains
	pupsGrown   = 0.8  // of the parent's size: they stay so
	firstSeen   = 0.1  // of the parent's size
	seenAgain   = 0.25 // how much it has grown when it is noted again
	partedFrom  = 0.4  // of the parent's size
	fadesAfter  = 210  // days after the bloom
	fades       = 0.06 // of such mothers, at each look
)

// spend makes a plant a mother whose bloom was spent at a time. Trays and clumps
// are many plants, and bloom on.
func (p *past) spend(l *life, at time.Time) {
	if l.Count > 1 {
		return
	}
	l.since = at
	if !p.happens(barren) {
		l.pups = 1 + p.rng.IntN(mostPups)
	}
}

// share is how big the biggest offset of a mother is, in steps of a tenth.
func (l *life) share(at time.Time) float64 {
	if l.pups == 0 {
		return 0
	}
	grown := pupsAYear * (at.Sub(l.since).Hours()/24 - pupsAfter) / yearDays
	return math.Round(10*min(max(grown, 0), pupsGrown)) / 10
}

// countsPups notes on a look round the offsets that are new or have grown, and
// the mothers that are giving out.
func (p *past) countsPups(at time.Time, walk []*life) {
	alike := map[model.Offsets][]*life{}
	var order []model.Offsets
	var fading []*life
	for _, l := range walk {
		if share := l.share(at); share >= firstSeen && share >= l.seen+seenAgain {
			l.seen = share
			f := model.Offsets{Count: l.pups, Share: share}
			if alike[f] == nil {
				order = append(order, f)
			}
			alike[f] = append(alike[f], l)
		}
		if !l.fading && !l.since.IsZero() && at.Sub(l.since).Hours() > 24*fadesAfter && p.happens(fades) {
			l.fading = true
			fading = append(fading, l)
		}
	}
	for i, f := range order {
		p.tell(at.Add(time.Duration(i)*10*time.Second), &f, alike[f]...)
	}
	p.tell(at.Add(4*time.Minute), &model.Fading{}, fading...)
}

// separates takes an offset off its mother and hangs it somewhere. In the cold
// and dark half of the year it is left on her.
func (p *past) separates(at time.Time) {
	if m := at.In(p.zone).Month(); m < time.March || m > time.September {
		return
	}
	from := p.someone(func(l *life) bool { return l.plain() && l.seen >= partedFrom && l.pups > 0 })
	if from == nil {
		return
	}
	pup := *from
	p.arrive(&pup, from.dry)
	pup.Label, pup.Note, pup.Count, pup.Mother = "", "", 1, from.ID
	pup.Size = math.Round(from.Size * from.seen)
	pup.Acquired, pup.SoakedOn = 0, 0
	pup.Home = randomSpot(p.rng)
	pup.newcomer, pup.sentinel = false, false
	pup.own *= math.Exp(pupSpread * p.rng.NormFloat64())
	pup.bloom, pup.mother = bloom{}, mother{parted: at}
	from.pups--
	if from.pups == 0 {
		from.seen = 0
	}
	p.tell(at, &model.Split{New: pup.Plant, Offset: true}, from)
	p.lives = append(p.lives, &pup)
}

// pupSpread is how far an offset's own pace lies from its mother's, as the
// standard deviation of a logarithm. Invented.
const pupSpread = 0.15

// healing reports whether a plant was taken off its mother so lately that it is
// not soaked.
func (l *life) healing(at time.Time) bool {
	return within(l.parted, at, house[model.SeparatedDays])
}

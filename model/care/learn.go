package care

import (
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/belief"
)

// How far paces lie apart: standard deviations of the logarithm of what all
// plants share, of what a form shares, and of a plant's own part. All guesses:
// the rate of loss is known to about a factor of two, and the three together
// put 80 % of plants between 0.53 and 1.9 times it; film and pocket of a real
// plant are known hardly better. A few hundred plants weighed and timed would
// replace them.
var (
	lossSpreads   = belief.Spreads{All: 0.25, Group: 0.20, Own: 0.38}
	lingerSpreads = belief.Spreads{All: 0.27, Group: 0.20, Own: 0.22}
)

// vagueSpread is how much wider the belief in a plant's thirst is while its
// last soak is a guess: the standard deviation of the logarithm. A guess.
// Lists with and without a last soak, held against later signs, would replace it.
const vagueSpread = 0.62

// How long evidence counts: after so many days, half. A plant grows, the light
// changes, a lamp moves; and the same eye is off in the same way each time it
// grades the same plant, so that a year of grades tells little more than a
// season of them. Guesses: with them, 80 % ranges hold the truth about that
// often in invented years with such errors. Plants weighed through a year would
// replace them.
const (
	lossMemory   = 70.0
	lingerMemory = 365.0
)

var (
	lossKinship   = belief.NewKinship(lossSpreads)
	lingerKinship = belief.NewKinship(lingerSpreads)

	multipliers = belief.Multipliers()
	unlearned   = belief.Prior(math.Sqrt(square(lossSpreads.All) + square(lossSpreads.Group) + square(lossSpreads.Own))).Shares()
	vagueStep   = belief.NewStep(vagueSpread)
)

func square(x float64) float64 { return x * x }

// learned is what is known of one pace of a plant from its own past.
type learned struct {
	member int       // its number in the family
	log    grid      // log likelihood of all that is settled; of the loss see lossLog
	summed bool      // log is up to date
	count  int       // soaks or dryings in it
	last   time.Time // the newest of it

	shares  belief.Shares // what is believed, when fresh
	version int           // of the family, that shares belong to
	fresh   bool
	words   string // the same, said
}

// inherit takes over what is known of another plant.
func (l *learned) inherit(from *learned) {
	l.log, l.summed, l.count, l.last, l.fresh = from.log, from.summed, from.count, from.last, false
}

// fade is what is left of what was learned before a time, as that counts one
// more piece of evidence.
func (l *learned) fade(t time.Time, memory float64) float64 {
	fade := 1.0
	if days := t.Sub(l.last).Hours() / 24; l.count > 0 && days > 0 {
		fade = math.Exp2(-days / memory)
	}
	l.count++
	l.last, l.fresh = t, false
	return fade
}

// learnLoss adds what was seen in a spell to what is known of a plant's loss.
func (k *Keeper) learnLoss(p *kept, seen *shown, t time.Time) {
	fade := p.loss.fade(t, lossMemory)
	for way := range p.shows {
		for i, l := range seen[way] {
			p.shows[way][i] = fade*p.shows[way][i] + l
		}
	}
	p.loss.summed, p.learnedOn = false, model.ShelfKey(p.shelf)
	k.untold = append(k.untold, p)
}

// lossLog is what is settled about a plant's loss, whichever way it shows its
// thirst.
func (p *kept) lossLog() *grid {
	if !p.loss.summed {
		p.loss.log, p.loss.summed = p.shows.marginal(), true
	}
	return &p.loss.log
}

// learnLinger adds the marks of one drying to what is known of a plant's time
// to dry.
func (k *Keeper) learnLinger(p *kept, marks *grid, t time.Time) {
	fade := p.linger.fade(t, lingerMemory)
	for i, l := range marks {
		p.linger.log[i] = fade*p.linger.log[i] + l
	}
	k.untold = append(k.untold, p)
}

// tellFamilies brings what was learned to the families: every plant's newest,
// once. What its shelf does to a plant is not its kin's.
func (k *Keeper) tellFamilies() {
	if len(k.untold) == 0 {
		return
	}
	slices.SortFunc(k.untold, func(a, b *kept) int { return int(a.id) - int(b.id) })
	new := slices.Compact(k.untold)
	for _, p := range new {
		if p.loss.count > 0 {
			p.own = sumUp(p.lossLog())
		}
	}
	k.weighShelves()
	for _, p := range new {
		p.steps = unknownSteps
		if p.linger.count > 0 {
			k.linger.Tell(p.linger.member, &p.linger.log)
		}
	}
	for _, p := range k.plants {
		if steps := k.stepsOn(p.learnedOn); p.loss.count > 0 && p.steps != steps {
			p.steps = steps
			log := belief.ShiftedLog(p.lossLog(), -steps)
			k.loss.Tell(p.loss.member, &log)
		}
	}
	k.untold = k.untold[:0]
}

// unknownSteps is the steps of a plant that the family has not heard of.
const unknownSteps = math.MinInt

// kinOf is what its kin say of a plant's loss, where it hangs now.
func (k *Keeper) kinOf(p *kept) belief.Shares {
	k.tellFamilies()
	return k.loss.Prior(p.loss.member).Shifted(k.stepsOn(p.shelf))
}

// lossOf is what is believed of how fast a plant loses water.
func (k *Keeper) lossOf(p *kept) *belief.Shares {
	k.tellFamilies()
	l := &p.loss
	if version := k.loss.Version(); !l.fresh || l.version != version {
		kin := k.kinOf(p)
		l.shares = p.given(&kin)
		l.version, l.fresh, l.words = version, true, ""
	}
	return &l.shares
}

// lossBeforeLook is what was believed of it before the last look.
func (k *Keeper) lossBeforeLook(p *kept) belief.Shares {
	blind := *p
	if blind.seen = nil; p.seen != nil && p.seen.settled != (shown{}) {
		before := *p.seen
		before.last, before.oddLast = shown{}, false
		blind.seen = &before
	}
	kin := k.kinOf(p)
	return blind.given(&kin)
}

// given is what is believed of a plant's loss when its kin say prior.
func (p *kept) given(prior *belief.Shares) belief.Shares {
	if p.vague() {
		wide := vagueStep.Down(prior)
		prior = &wide
	}
	switch {
	case p.seen != nil && !p.suspect():
		all := p.shows
		all.add(&p.seen.settled)
		all.add(&p.seen.last)
		log := all.marginal()
		return prior.Given(&log)
	case p.loss.count == 0:
		return *prior
	}
	return prior.Given(p.lossLog())
}

// lingerOf is what is believed of how long a plant takes to dry.
func (k *Keeper) lingerOf(p *kept) *belief.Shares {
	k.learnMornings()
	k.tellFamilies()
	l := &p.linger
	if version := k.linger.Version(); !l.fresh || l.version != version {
		l.shares = *k.linger.Prior(l.member)
		if l.count > 0 {
			l.shares = l.shares.Given(&l.log)
		}
		l.version, l.fresh, l.words = version, true, ""
	}
	return &l.shares
}

// formPlace is the place of a form among the forms.
func formPlace(f model.Form) int { return slices.Index(model.Forms, orElse(f, assumedForm)) }

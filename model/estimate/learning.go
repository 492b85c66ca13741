package estimate

import (
	"cmp"
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/belief"
)

// How far multipliers lie apart: standard deviations of the logarithm of what
// all plants share, of what a form shares, and of a plant's own part. All
// guesses: the rates rest on one measured plant and on what growers do, so that
// all of them together are hardly a quarter off, and a plant of its kind may be
// half or double: the three put 80 % of plants between 0.54 and 1.8 times the
// rate; film and pocket of a real plant are known hardly better. One plant in
// fifty is odd: it goes under another plant's leaf, which is a factor of 1.7 to
// 2.9 off. A few hundred plants weighed and timed would replace them.
var (
	lossSpreads = belief.Spreads{All: 0.20, Group: 0.20, Own: 0.38, Odd: 0.02, OddOwn: 0.80}
	drySpreads  = belief.Spreads{All: 0.27, Group: 0.20, Own: 0.22}
)

// vagueSpread is how much wider the belief in a plant's thirst is while its
// last soak is a guess: the standard deviation of the logarithm. A guess.
// Lists with and without a last soak, held against later signs, would replace it.
const vagueSpread = 0.62

// lossDrift is how far a plant's multiplier wanders in a week: the standard deviation
// of the logarithm. A plant grows, the light changes, a lamp moves; and the same
// eye is off in the same way for a while, so that a year of grades tells little
// more than a season of them. A guess: with it, 80 % ranges hold the truth about
// that often in invented years with such errors, where multipliers wander half as far.
// Plants weighed through a year would replace it.
const lossDrift = 0.04

// dryMarkMemory is how long a dry mark counts: after so many days, half. A guess,
// made like lossDrift. Plants timed through a year would replace it.
const dryMarkMemory = 365.0

var (
	lossPrior = belief.NewHierarchicalPrior(lossSpreads)
	dryPrior  = belief.NewHierarchicalPrior(drySpreads)

	multipliers = belief.Multipliers()
	unlearned   = belief.Prior(math.Sqrt(square(lossSpreads.All) + square(lossSpreads.Group) + square(lossSpreads.Own)))
	vagueStep   = belief.NewStep(vagueSpread)
)

func square(x float64) float64 { return x * x }

// learned is what is known of one multiplier of a plant from its own past.
type learned struct {
	member int       // its number in the population
	count  int       // soaks or dryings in it
	last   time.Time // the newest of it

	mass       belief.Mass // what is believed, when fresh
	version    int         // of the population, that mass belongs to
	fresh      bool
	multiplier Multiplier // the same, summed up; the zero value not yet
}

// inherit takes over what is known of another plant.
func (l *learned) inherit(from *learned) {
	l.count, l.last, l.fresh = from.count, from.last, false
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
func (k *Keeper) learnLoss(p *plantState, s *spell, t time.Time) {
	p.observe(&p.evidence, s, t)
	p.loss.count++
	p.loss.last, p.loss.fresh = t, false
	p.marginalized, p.learnedOn = false, model.ShelfKey(p.shelf)
	k.pending = append(k.pending, p)
}

// observe adds a spell that ended at a time to what a plant's loss was learned from.
func (p *plantState) observe(all *signEvidence, s *spell, t time.Time) {
	if days := t.Sub(p.loss.last).Hours() / 24; all.any && days > 0 {
		all.randomWalk(lossDrift * math.Sqrt(days/7))
	}
	all.combine(&s.settled)
	all.combine(&s.last)
}

// lossLikelihood is the likelihood of what is settled about a plant's loss, whichever
// way it shows its thirst.
func (p *plantState) lossLikelihood() *belief.Likelihood {
	if !p.marginalized {
		p.likelihood, p.marginalized = p.evidence.marginal(), true
	}
	return &p.likelihood
}

// learnDryTime adds the marks of one drying to what is known of a plant's time
// to dry.
func (k *Keeper) learnDryTime(p *plantState, marks *grid, t time.Time) {
	fade := p.dryTime.fade(t, dryMarkMemory)
	for i, l := range marks {
		p.marks[i] = fade*p.marks[i] + l
	}
	k.pending = append(k.pending, p)
}

// updatePopulations brings what was learned to the populations: every plant's newest,
// once. What its shelf does to a plant is not its group's.
func (k *Keeper) updatePopulations() {
	if len(k.pending) == 0 {
		return
	}
	slices.SortFunc(k.pending, func(a, b *plantState) int { return int(a.id) - int(b.id) })
	fresh := slices.Compact(k.pending)
	for _, p := range fresh {
		if p.loss.count > 0 {
			p.ownEstimate = sumUp(p.lossLikelihood())
		}
	}
	k.weighShelves()
	for _, p := range fresh {
		p.steps = unknownSteps
		if p.dryTime.count > 0 {
			said := belief.LikelihoodOf(&p.marks)
			k.dryPopulation.Observe(p.dryTime.member, &said)
		}
	}
	for _, p := range k.plants {
		if steps := k.stepsOn(p.learnedOn); p.loss.count > 0 && p.steps != steps {
			p.steps = steps
			said := p.lossLikelihood().Shifted(-steps)
			k.lossPopulation.Observe(p.loss.member, &said)
		}
	}
	k.pending = k.pending[:0]
}

// unknownSteps is the steps of a plant that the population has not heard of.
const unknownSteps = math.MinInt

// groupPrior is what its group says of a plant's loss, where it hangs now.
func (k *Keeper) groupPrior(p *plantState) belief.Mass {
	k.updatePopulations()
	return k.lossPopulation.Prior(p.loss.member).Shifted(k.stepsOn(p.shelf))
}

// lossMass is what is believed of how fast a plant loses water.
func (k *Keeper) lossMass(p *plantState) *belief.Mass {
	k.updatePopulations()
	l := &p.loss
	if version := k.lossPopulation.Version(); !l.fresh || l.version != version {
		prior := k.groupPrior(p)
		l.mass = p.posterior(&prior)
		l.version, l.fresh, l.multiplier = version, true, Multiplier{}
	}
	return &l.mass
}

// lossBeforeLook is what was believed of it before the last look.
func (k *Keeper) lossBeforeLook(p *plantState) belief.Mass {
	blind := *p
	if blind.seen = nil; p.seen != nil && p.seen.settled.any {
		before := *p.seen
		before.last, before.oddLast = signEvidence{}, false
		blind.seen = &before
	}
	prior := k.groupPrior(p)
	return blind.posterior(&prior)
}

// posterior is what is believed of a plant's loss when its group says prior.
func (p *plantState) posterior(prior *belief.Mass) belief.Mass {
	if p.vague() {
		wide := vagueStep.MessageDown(prior)
		prior = &wide
	}
	switch {
	case p.seen != nil && !p.suspect():
		all := p.evidence
		p.observe(&all, p.seen, p.seen.at)
		said := all.marginal()
		return prior.Observe(&said)
	case p.loss.count == 0:
		return *prior
	}
	return prior.Observe(p.lossLikelihood())
}

// dryMass is what is believed of how long a plant takes to dry.
func (k *Keeper) dryMass(p *plantState) *belief.Mass {
	k.learnSessions()
	k.updatePopulations()
	l := &p.dryTime
	if version := k.dryPopulation.Version(); !l.fresh || l.version != version {
		l.mass = *k.dryPopulation.Prior(l.member)
		if l.count > 0 {
			l.mass = l.mass.ObserveLog(&p.marks)
		}
		l.version, l.fresh, l.multiplier = version, true, Multiplier{}
	}
	return &l.mass
}

// formPlace is the place of a form among the forms.
func formPlace(f model.Form) int { return slices.Index(model.Forms, cmp.Or(f, AssumedForm)) }

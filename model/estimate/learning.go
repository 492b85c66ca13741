package estimate

import (
	"cmp"
	"iter"
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/belief"
	"tubside/model/leaf"
)

// How far multipliers lie apart: standard deviations of the logarithm of what
// all plants share, of what a form shares, and of a plant's own part. All
// guesses: the rates rest on one measured plant and on what growers do, so that
// all of them together are hardly a quarter off, and a plant of its kind may be
// half or double: the three put 80 % of plants between 0.59 and 1.7 times the
// rate; film and pocket of a real plant are known hardly better. Three plants in
// a hundred are odd: one goes under another plant's leaf, which is a factor of 1.7 to
// 2.9 off. A few hundred plants weighed and timed would replace them.
var (
	lossSpreads = belief.Spreads{All: 0.20, Group: 0.17, Own: 0.31, Odd: 0.03, OddOwn: 0.80}
	drySpreads  = belief.Spreads{All: 0.27, Group: 0.20, Own: 0.22}
)

// vagueSpread is how much wider the belief in a plant's thirst is while its
// last soak is a guess: the standard deviation of the logarithm. A guess.
// Lists with and without a last soak, held against later signs, would replace it.
const vagueSpread = 0.62

// lossDrift is how far a plant's multiplier wanders in a week: the standard deviation
// of the logarithm. A plant grows, the light changes, a lamp moves; and the same
// eye is off in the same way for a while, so that a year of grades tells little
// more than a season of them. A guess. Plants weighed through a year would
// replace it.
const lossDrift = 0.05

// coarsened is how many plants' evidence counts, at most, for what all plants
// share. The law by which signs are read is a guess, and where it is wrong it is
// wrong for all plants alike: the grades of a thousand would prove nonsense. How far
// it is off shows in the looks as well, see [misfit]. A choice: fewer put plants in a worse order
// in the worlds of tests/calibration.
const coarsened = 50

// dryMarkMemory is how long a dry mark counts: after so many days, half. A guess,
// made like lossDrift. Plants timed through a year would replace it.
const dryMarkMemory = 365.0

var (
	lossPrior = belief.NewJointPrior(lossSpreads, signRows).Coarsened(coarsened)
	dryPrior  = belief.NewHierarchicalPrior(drySpreads)

	multipliers = belief.Multipliers()
	unlearned   = func() belief.JointMass { p := lossPrior.Population(1); return p.Prior(p.Join(0)).Clone() }()
	vagueStep   = belief.NewStep(vagueSpread)
)

func square(x float64) float64 { return x * x }

// learned is what is known of one multiplier of a plant from its own past.
type learned struct {
	member int       // its number in the population
	count  int       // soaks or dryings in it
	last   time.Time // the newest of it
	untold bool      // the population has not heard the newest

	mass       *belief.Mass `snapshot:"-"` // what is believed, when fresh; nil: nobody asked yet
	version    int          `snapshot:"-"` // of the population, that mass belongs to
	fresh      bool         `snapshot:"-"`
	multiplier Multiplier   `snapshot:"-"` // the same, summed up; the zero value not yet
	next       times        `snapshot:"-"` // of the time to dry, what the next may be; the zero value not yet
}

// believe keeps what is believed by a version of the population.
func (l *learned) believe(m belief.Mass, version int) {
	if l.mass == nil {
		l.mass = new(belief.Mass)
	}
	*l.mass, l.version, l.fresh, l.multiplier, l.next = m, version, true, Multiplier{}, times{}
}

// inherit takes over what is known of another plant.
func (l *learned) inherit(from *learned) {
	l.count, l.last, l.fresh, l.untold = from.count, from.last, false, from.count > 0
}

// fade is what is left of what was learned before a time, as that counts one
// more piece of evidence.
func (l *learned) fade(t time.Time, memory float64) float64 {
	fade := 1.0
	if days := t.Sub(l.last).Hours() / 24; l.count > 0 && days > 0 {
		fade = math.Exp2(-days / memory)
	}
	l.count++
	l.last, l.fresh, l.untold = t, false, true
	return fade
}

// learnLoss adds what was seen in a spell to what is known of a plant's loss.
func (k *Keeper) learnLoss(p *plantState, s *spell, t time.Time) {
	k.tellLater(p)
	p.wander(p.evidence, t)
	p.evidence = k.combine(k.combine(p.evidence, s.settled), s.last)
	s.settled, s.last = nil, nil
	if p.weighings += s.weighed; s.weighed > 0 {
		k.lossPopulation.Measured(p.loss.member)
	}
	if !s.look.IsZero() || s.weighed > 0 {
		p.loss.count++
	}
	p.loss.last, p.loss.fresh, p.loss.untold = t, false, true
	p.learnedOn = p.shelfKey
}

// wander takes what was seen of a plant's loss up to a time.
func (p *plantState) wander(evidence belief.JointLikelihood, t time.Time) {
	if days := t.Sub(p.loss.last).Hours() / 24; evidence != nil && days > 0 {
		evidence.RandomWalk(lossDrift * math.Sqrt(days/7))
	}
}

// learnDryTime adds the marks of one drying to what is known of a plant's time
// to dry.
func (k *Keeper) learnDryTime(p *plantState, marks *grid, t time.Time) {
	k.tellLater(p)
	fade := p.dryTime.fade(t, dryMarkMemory)
	for i, l := range marks {
		p.marks[i] = fade*p.marks[i] + l
	}
}

// tellLater notes a plant of which something new is about to be learned.
func (k *Keeper) tellLater(p *plantState) {
	if !p.loss.untold && !p.dryTime.untold {
		k.pending = append(k.pending, p)
	}
}

// updatePopulations brings what was learned to the populations: every plant's newest,
// once. What its shelf does to a plant is not its group's.
func (k *Keeper) updatePopulations() {
	if len(k.pending) == 0 {
		return
	}
	slices.SortFunc(k.pending, func(a, b *plantState) int { return int(a.id) - int(b.id) })
	reweigh := false
	for _, p := range k.pending {
		if p.dryTime.untold {
			p.dryTime.untold = false
			said := belief.LikelihoodOf(&p.marks)
			k.dryPopulation.Observe(p.dryTime.member, belief.JointLikelihood{said})
		}
		if p.loss.untold {
			p.loss.untold, reweigh = false, true
			p.ownEstimates, p.steps = sumUp(p.evidence), unknownSteps
		}
	}
	if reweigh {
		k.weighShelves()
		k.tellLoss()
	}
	k.pending = k.pending[:0]
}

// tellLoss tells the population of each plant of which something new was learned,
// or on whose shelf plants are now taken to lose water faster or slower than before.
func (k *Keeper) tellLoss() {
	var moved []*plantState
	var members []int
	for _, p := range k.plants {
		if steps := k.stepsOn(p.learnedOn); p.evidence != nil && p.steps != steps {
			p.steps = steps
			moved, members = append(moved, p), append(members, p.loss.member)
		}
	}
	k.lossPopulation.ObserveEach(members, func(place int, l belief.JointLikelihood) {
		p := moved[place]
		p.evidence.ShiftInto(l, -p.steps)
	})
}

// unknownSteps is the steps of a plant that the population has not heard of.
const unknownSteps = math.MinInt

// groupPrior is what its group says of a plant's loss, where it hangs now. It holds
// until the next plant is asked for.
func (k *Keeper) groupPrior(p *plantState) belief.JointMass {
	k.updatePopulations()
	return k.lossPopulation.Prior(p.loss.member).ShiftedInto(k.shifted[:], k.stepsOn(p.shelfKey))
}

// lossMass is what is believed of how fast a plant loses water.
func (k *Keeper) lossMass(p *plantState) *belief.Mass {
	k.updatePopulations()
	l := &p.loss
	if version := k.lossVersion(); !l.fresh || l.version != version {
		l.believe(p.posterior(k.groupPrior(p), k.misfit.spread()), version)
	}
	return l.mass
}

// Ponder works out on every core how fast each plant loses water, which else is done for
// one after the other as somebody asks.
func (k *Keeper) Ponder() {
	k.updatePopulations()
	version := k.lossVersion()
	var stale []*plantState
	for _, p := range k.plants {
		if l := &p.loss; !l.fresh || l.version != version {
			stale = append(stale, p)
		}
	}
	belief.InParts(len(stale), func(places iter.Seq[int]) {
		room, shifted := k.lossPopulation.Room(), make(belief.JointMass, leaf.SignRows)
		for place := range places {
			p := stale[place]
			prior := k.lossPopulation.PriorIn(&room, p.loss.member).ShiftedInto(shifted, k.stepsOn(p.shelfKey))
			p.loss.believe(p.posterior(prior, k.misfit.spread()), version)
		}
	})
}

// lossVersion changes whenever what is believed of a plant's loss may have, but for what is seen of that plant.
func (k *Keeper) lossVersion() int { return k.lossPopulation.Version() + k.misfit.version }

// lossBeforeLook is what was believed of it, and of when its signs come, before the
// last look.
func (k *Keeper) lossBeforeLook(p *plantState) belief.JointMass {
	blind := *p
	if blind.seen = nil; p.seen != nil && p.seen.settled != nil {
		before := *p.seen
		before.last, before.oddLast = nil, false
		blind.seen = &before
	}
	prior, all := blind.given(k.groupPrior(p))
	joint := prior.Observe(all).Clone()
	joint.RandomWalk(k.misfit.spread())
	return joint
}

// posterior is what is believed of a plant's loss when its group says prior, in a home where the law may be so far off.
func (p *plantState) posterior(prior belief.JointMass, misfit float64) belief.Mass {
	prior, all := p.given(prior)
	after := prior.MarginalAfter(all)
	after.RandomWalk(misfit)
	return after
}

// given is what is believed of a plant when its group says prior, and what was
// seen of it.
func (p *plantState) given(prior belief.JointMass) (belief.JointMass, belief.JointLikelihood) {
	if p.vague() {
		prior = prior.Widened(vagueStep)
	}
	if p.seen == nil || p.suspect() {
		return prior, p.evidence
	}
	all := p.evidence.Clone()
	p.wander(all, p.seen.at)
	return prior, all.Combine(p.seen.settled).Combine(p.seen.last)
}

// dryMass is what is believed of how long a plant takes to dry.
func (k *Keeper) dryMass(p *plantState) *belief.Mass {
	k.learnSessions()
	k.updatePopulations()
	l := &p.dryTime
	if version := k.dryPopulation.Version(); !l.fresh || l.version != version {
		mass := k.dryPopulation.Prior(l.member)[0]
		if l.count > 0 {
			mass = mass.ObserveLog(&p.marks)
		}
		l.believe(mass, version)
	}
	return l.mass
}

// formPlace is the place of a form among the forms.
func formPlace(f model.Form) int { return slices.Index(model.Forms, cmp.Or(f, AssumedForm)) }

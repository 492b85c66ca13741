package estimate

import (
	"cmp"
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/belief"
)

// How far paces lie apart: standard deviations of the logarithm of what all
// plants share, of what a form shares, and of a plant's own part. All guesses:
// the rates rest on one measured plant and on what growers do, so that all of
// them together are hardly a quarter off, and a plant of its kind may be half or
// double: the three put 80 % of plants between 0.54 and 1.8 times the rate; film and pocket of a real
// plant are known hardly better. One plant in fifty is odd: it goes under another
// plant's leaf, which is a factor of 1.7 to 2.9 off. A few hundred plants weighed
// and timed would replace them.
var (
	lossSpreads   = belief.Spreads{All: 0.20, Group: 0.20, Own: 0.38, Odd: 0.02, OddOwn: 0.80}
	lingerSpreads = belief.Spreads{All: 0.27, Group: 0.20, Own: 0.22}
)

// vagueSpread is how much wider the belief in a plant's thirst is while its
// last soak is a guess: the standard deviation of the logarithm. A guess.
// Lists with and without a last soak, held against later signs, would replace it.
const vagueSpread = 0.62

// lossDrift is how far a plant's pace wanders in a week: the standard deviation
// of the logarithm. A plant grows, the light changes, a lamp moves; and the same
// eye is off in the same way for a while, so that a year of grades tells little
// more than a season of them. A guess: with it, 80 % ranges hold the truth about
// that often in invented years with such errors, where paces wander half as far.
// Plants weighed through a year would replace it.
const lossDrift = 0.04

// lingerMemory is how long a dry mark counts: after so many days, half. A guess,
// made like lossDrift. Plants timed through a year would replace it.
const lingerMemory = 365.0

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
	count  int       // soaks or dryings in it
	last   time.Time // the newest of it

	shares  belief.Shares // what is believed, when fresh
	version int           // of the family, that shares belong to
	fresh   bool
	pace    Pace // the same, summed up; the zero value not yet
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
func (k *Keeper) learnLoss(p *kept, s *spell, t time.Time) {
	p.hear(&p.shows, s, t)
	p.loss.count++
	p.loss.last, p.loss.fresh = t, false
	p.summed, p.learnedOn = false, model.ShelfKey(p.shelf)
	k.untold = append(k.untold, p)
}

// hear adds a spell that ended at a time to what a plant's loss was learned from.
func (p *kept) hear(all *heard, s *spell, t time.Time) {
	if days := t.Sub(p.loss.last).Hours() / 24; all.some && days > 0 {
		all.wander(lossDrift * math.Sqrt(days/7))
	}
	all.add(&s.settled)
	all.add(&s.last)
}

// lossSaid is the likelihood of what is settled about a plant's loss, whichever
// way it shows its thirst.
func (p *kept) lossSaid() *belief.Shares {
	if !p.summed {
		p.said, p.summed = p.shows.marginal(), true
	}
	return &p.said
}

// learnLinger adds the marks of one drying to what is known of a plant's time
// to dry.
func (k *Keeper) learnLinger(p *kept, marks *grid, t time.Time) {
	fade := p.linger.fade(t, lingerMemory)
	for i, l := range marks {
		p.marks[i] = fade*p.marks[i] + l
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
			p.own = sumUp(p.lossSaid())
		}
	}
	k.weighShelves()
	for _, p := range new {
		p.steps = unknownSteps
		if p.linger.count > 0 {
			said := belief.Likelihood(&p.marks)
			k.linger.Tell(p.linger.member, &said)
		}
	}
	for _, p := range k.plants {
		if steps := k.stepsOn(p.learnedOn); p.loss.count > 0 && p.steps != steps {
			p.steps = steps
			said := p.lossSaid().ShiftedLikelihood(-steps)
			k.loss.Tell(p.loss.member, &said)
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
		l.version, l.fresh, l.pace = version, true, Pace{}
	}
	return &l.shares
}

// lossBeforeLook is what was believed of it before the last look.
func (k *Keeper) lossBeforeLook(p *kept) belief.Shares {
	blind := *p
	if blind.seen = nil; p.seen != nil && p.seen.settled.some {
		before := *p.seen
		before.last, before.oddLast = heard{}, false
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
		p.hear(&all, p.seen, p.seen.at)
		said := all.marginal()
		return prior.Told(&said)
	case p.loss.count == 0:
		return *prior
	}
	return prior.Told(p.lossSaid())
}

// lingerOf is what is believed of how long a plant takes to dry.
func (k *Keeper) lingerOf(p *kept) *belief.Shares {
	k.learnMornings()
	k.tellFamilies()
	l := &p.linger
	if version := k.linger.Version(); !l.fresh || l.version != version {
		l.shares = *k.linger.Prior(l.member)
		if l.count > 0 {
			l.shares = l.shares.Given(&p.marks)
		}
		l.version, l.fresh, l.pace = version, true, Pace{}
	}
	return &l.shares
}

// formPlace is the place of a form among the forms.
func formPlace(f model.Form) int { return slices.Index(model.Forms, cmp.Or(f, AssumedForm)) }

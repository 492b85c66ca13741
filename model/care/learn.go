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
const vagueSpread = 0.62

// memoryDays is after how long evidence counts half: a plant grows, the light
// changes, a lamp moves. A guess; a plant watched through two years would
// replace it.
const memoryDays = 365

var (
	multipliers = belief.Multipliers()
	unlearned   = belief.Prior(math.Sqrt(square(lossSpreads.All) + square(lossSpreads.Group) + square(lossSpreads.Own))).Shares()
	vagueStep   = belief.NewStep(vagueSpread)
)

func square(x float64) float64 { return x * x }

// learned is what is known of one pace of a plant from its own past.
type learned struct {
	member int       // its number in the family
	log    grid      // log likelihood of all that is settled
	count  int       // soaks or dryings in it
	last   time.Time // the newest of it

	shares  belief.Shares // what is believed, when fresh
	version int           // of the family, that shares belong to
	fresh   bool
	words   string // the same, said
}

// inherit takes over what is known of another plant.
func (l *learned) inherit(from *learned) {
	l.log, l.count, l.last, l.fresh = from.log, from.count, from.last, false
}

// learn adds evidence to a pace. What was learned long ago fades.
func (k *Keeper) learn(p *kept, l *learned, log *grid, t time.Time) {
	fade := 1.0
	if days := t.Sub(l.last).Hours() / 24; l.count > 0 && days > 0 {
		fade = math.Exp2(-days / memoryDays)
	}
	for i, new := range log {
		l.log[i] = fade*l.log[i] + new
	}
	l.count++
	l.last, l.fresh = t, false
	k.untold = append(k.untold, p)
}

// tellFamilies brings what was learned to the families: every plant's newest,
// once.
func (k *Keeper) tellFamilies() {
	if len(k.untold) == 0 {
		return
	}
	slices.SortFunc(k.untold, func(a, b *kept) int { return int(a.id) - int(b.id) })
	for _, p := range slices.Compact(k.untold) {
		if p.loss.count > 0 {
			k.loss.Tell(p.loss.member, &p.loss.log)
		}
		if p.linger.count > 0 {
			k.linger.Tell(p.linger.member, &p.linger.log)
		}
	}
	k.untold = k.untold[:0]
}

// lossOf is what is believed of how fast a plant loses water.
func (k *Keeper) lossOf(p *kept) *belief.Shares {
	k.tellFamilies()
	l := &p.loss
	if version := k.loss.Version(); !l.fresh || l.version != version {
		l.shares = p.given(k.loss.Prior(l.member))
		l.version, l.fresh, l.words = version, true, ""
	}
	return &l.shares
}

// lossBeforeLook is what was believed of it before the last look.
func (k *Keeper) lossBeforeLook(p *kept) belief.Shares {
	k.tellFamilies()
	blind := *p
	if blind.seen = nil; p.seen != nil && p.seen.settled != (grid{}) {
		before := *p.seen
		before.last, before.oddLast = grid{}, false
		blind.seen = &before
	}
	return blind.given(k.loss.Prior(p.loss.member))
}

// given is what is believed of a plant's loss when its kin say prior.
func (p *kept) given(prior *belief.Shares) belief.Shares {
	if p.vague() {
		wide := vagueStep.Down(prior)
		prior = &wide
	}
	log := p.loss.log
	if p.seen != nil && !p.suspect() {
		seen := p.seen.all()
		for i, l := range seen {
			log[i] += l
		}
	} else if p.loss.count == 0 {
		return *prior
	}
	return prior.Given(&log)
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

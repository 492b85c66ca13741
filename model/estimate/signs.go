package estimate

import (
	"math"
	"time"

	"tubside/model"
	"tubside/model/belief"
	"tubside/model/leaf"
)

// againHours is how soon a second look counts as a correction of the first,
// not as new evidence. A choice.
const againHours = 6

// A plant that looks thirsty within soonDays of drying, when the numbers give
// that less than oddChance, contradicts them: it did not drink, or what looks
// like thirst is none. A choice.
const (
	soonDays  = 3
	oddChance = 0.05
)

// Agreement says how a look stands to what was believed before it.
type Agreement int

// How a look may stand.
const (
	Agrees Agreement = iota
	LooksDrier
	LooksFuller
)

// Eye is the last look at a plant beside what was believed before it.
type Eye struct {
	Says   Agreement
	Thirst float64 // the mean of what was believed of its thirst then, where it does not agree

	before *belief.Mass // what was believed of its multiplier
}

// lookAgain is the chance under which a look contradicts what was believed
// before it: two grades off, since one is a misclassification. A choice.
const lookAgain = 0.02

// eyeOn compares the last look at a plant with what was believed before it.
func (k *Keeper) eyeOn(p *plantState) Eye {
	if p.seen == nil || p.seen.look.IsZero() || p.wet {
		return Eye{}
	}
	k.updatePopulations()
	s, curl := p.seen, int8(k.book.Row(p.id).Signs.Curl)
	if version := k.lossPopulation.Version(); !s.eyed || s.eyeVersion != version {
		s.eye, s.eyed, s.eyeVersion = k.compare(p, curl), true, version
	}
	return s.eye
}

func (k *Keeper) compare(p *plantState, curl int8) Eye {
	if curl == leaf.NotSeen {
		return Eye{}
	}
	var drier, fuller grid
	for i, r := range &p.seen.left {
		drier[i] = p.traits.Signs.CurlChance(curl, 1-r)
		fuller[i] = 1 - p.traits.Signs.CurlChance(curl+1, 1-r)
	}
	before := k.lossBeforeLook(p)
	eye := Eye{Thirst: 1 - before.MeanOf(&p.seen.left), before: &before}
	switch {
	case before.MeanOf(&drier) < lookAgain:
		eye.Says = LooksDrier
	case before.MeanOf(&fuller) < lookAgain:
		eye.Says = LooksFuller
	default:
		return Eye{}
	}
	return eye
}

// spell is what was seen of a plant between two soaks: evidence on its multiplier, for
// each way in which it may show its thirst.
type spell struct {
	settled signEvidence // all but the last look
	last    signEvidence // the last look
	look    time.Time
	at      time.Time // the newest of it, looks and weights
	soon    bool      // looked at soon after the soak
	odd     bool      // and it contradicted, the last look left out
	oddLast bool      // the last look contradicts

	left       grid // relative water content at the last look, for each multiplier
	eye        Eye  // how the last look stands to what was believed before, when eyed
	eyed       bool
	eyeVersion int // of the population, that eye belongs to
}

// contradicts reports whether a look said that the soak did not help.
func (s *spell) contradicts() bool { return s != nil && (s.odd || s.oddLast) }

// suspect reports whether the plant looked thirsty right after two soaks in a
// row. Then it is not thirst: what is seen no longer counts as such.
func (p *plantState) suspect() bool { return p.odd > 0 && p.seen.contradicts() }

// spell is what was seen since the last soak, begun if need be.
func (k *Keeper) spell(p *plantState) *spell {
	if p.seen != nil {
		return p.seen
	}
	if n := len(k.spells); n > 0 {
		p.seen, k.spells = k.spells[n-1], k.spells[:n-1]
		*p.seen = spell{}
	} else {
		p.seen = &spell{}
	}
	return p.seen
}

// look takes signs as evidence on the multiplier. A look soon after another replaces
// it.
func (k *Keeper) look(p *plantState, t time.Time, signs model.Signs) {
	if p.wet {
		return // wet leaves say nothing about thirst
	}
	s := k.spell(p)
	if !s.look.IsZero() && t.Sub(s.look).Hours() >= againHours {
		s.settled.combine(&s.last)
		s.odd = s.odd || s.oddLast
	}
	var rwc grid
	p.at(t, p.traits, k.climate, &rwc)
	s.last = signLikelihood(signs, &rwc, p.traits.Signs)
	s.look, s.at, s.left, s.eyed = t, t, rwc, false
	s.oddLast = false
	if t.Sub(p.dry).Hours() <= soonDays*24 {
		s.soon = true
		s.oddLast = signs.Curl > 0 && p.chanceOfCurl(signs.Curl, &rwc) < oddChance
	}
	p.loss.fresh = false
}

// chanceOfCurl is how likely the plant's own past makes at least so much curl,
// by the water it has at each multiplier.
func (p *plantState) chanceOfCurl(grade model.Grade, rwc *grid) float64 {
	shares := unlearned.Observe(p.lossLikelihood())
	var chance grid
	for i, r := range rwc {
		chance[i] = p.traits.Signs.CurlChance(int8(grade), 1-r)
	}
	return shares.MeanOf(&chance)
}

// settle ends a spell: what was seen in it goes over into what is learned,
// unless it contradicts the soak or nobody knows when that was.
func (k *Keeper) settle(p *plantState, t time.Time) {
	s := p.seen
	if s == nil {
		return
	}
	p.seen = nil
	if s.contradicts() {
		p.odd++
		p.loss.fresh = false
		return
	}
	if s.soon {
		p.odd = 0
	}
	if p.vague() {
		p.loss.fresh = false
		return
	}
	k.learnLoss(p, s, t)
	k.spells = append(k.spells, s)
}

// scale is a plant's wet weight and how full it was then, for each multiplier.
type scale struct {
	grams float64
	at    time.Time
	full  grid
}

// weigh takes a weight as evidence: far stronger than any sign.
func (k *Keeper) weigh(p *plantState, t time.Time, f *model.Weigh) {
	if f.Wet {
		p.scale = &scale{f.Grams, t, p.full}
		return
	}
	if p.scale == nil || p.wet {
		return
	}
	s := k.spell(p)
	var rwc grid
	p.at(t, p.traits, k.climate, &rwc)
	s.at = t
	days := t.Sub(p.scale.at).Hours() / 24
	var log grid
	for i, r := range rwc {
		log[i] = leaf.LogWeight(f.Grams/p.scale.grams, r, p.scale.full[i], days)
	}
	weighed := signEvidence{any: true}
	for way := range weighed.nodes {
		weighed.nodes[way] = belief.LikelihoodOf(&log)
	}
	s.settled.combine(&weighed)
	p.loss.fresh = false
}

// Every plant shows its thirst in its own way, and the same way each time: one
// lifts its edges early, another late. showSpread is how far plants of a form
// lie apart in this, as thirst (standard deviation). A guess; growers say that
// curl is read against the plant's own picture. Plants graded and weighed
// through a few weeks would replace it.
const showSpread = 0.035

// nodes are the ways to show thirst that are taken into account: the three points of
// Gauss and Hermite for a normal distribution (Abramowitz & Stegun 1964, table
// 25.10; from memory), as how much later than usual the signs come, and how
// common each is.
var quadrature = [3]struct{ later, share float64 }{
	{0, 2.0 / 3},
	{math.Sqrt(3) * showSpread, 1.0 / 6},
	{-math.Sqrt(3) * showSpread, 1.0 / 6},
}

// signEvidence is what a plant was seen to show: the likelihood at each multiplier, for each
// way of showing thirst. The zero value has heard nothing.
type signEvidence struct {
	nodes [len(quadrature)]belief.Likelihood
	any   bool
}

// signLikelihood is the likelihood of signs on a plant that has so much water left at
// each multiplier.
func signLikelihood(s model.Signs, rwc *grid, scale leaf.SignsScale) (h signEvidence) {
	h.any = true
	plain := belief.Level()
	leaf.Signs{Curl: leaf.NotSeen, Tips: int8(s.Tips), Shift: int8(s.Shift)}.TimesLikelihood(plain[:], rwc[:], scale)
	for i := range quadrature {
		h.nodes[i] = plain
	}
	if s.Curl == model.NotSeen {
		return h
	}
	curl := leaf.Signs{Curl: int8(s.Curl), Tips: leaf.NotSeen, Shift: leaf.NotSeen}
	for i, way := range quadrature {
		its := scale
		its.CurlShift += way.later
		curl.TimesLikelihood(h.nodes[i][:], rwc[:], its)
	}
	return h
}

// least is as unlikely as anything gets, beside the likeliest: what is seen
// later can outweigh it.
const least = 1e-30

// combine takes in more that was seen of the same plant.
func (h *signEvidence) combine(more *signEvidence) {
	switch {
	case !more.any:
		return
	case !h.any:
		*h = *more
		return
	}
	top := 0.0
	for way := range h.nodes {
		its := &h.nodes[way]
		for i, likelihood := range &more.nodes[way] {
			both := its[i] * likelihood
			its[i] = both
			if both > top {
				top = both
			}
		}
	}
	lift := 1 / top
	for way := range h.nodes {
		its := &h.nodes[way]
		for i, likelihood := range its {
			if likelihood *= lift; likelihood < least {
				likelihood = least
			}
			its[i] = likelihood
		}
	}
}

// randomWalk lets the multiplier wander since it was heard of.
func (h *signEvidence) randomWalk(spread float64) {
	for way := range h.nodes {
		h.nodes[way].RandomWalk(spread)
	}
}

// marginal is the likelihood at each multiplier, whichever way the plant shows its
// thirst.
func (h *signEvidence) marginal() belief.Likelihood {
	if !h.any {
		return belief.Level()
	}
	var said belief.Likelihood
	for way := range h.nodes {
		for i, likelihood := range &h.nodes[way] {
			said[i] += quadrature[way].share * likelihood
		}
	}
	return said
}

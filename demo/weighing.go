package demo

import (
	"math"
	"time"

	"tubside/model"
	"tubside/model/leaf"
)

// Weighing. Invented.
const (
	sentinels   = 5
	sentinelCM  = 8.0  // and larger
	gramsAt10CM = 24.0 // of a full plant
	gramsPower  = 2.3
	scaleError  = 0.012 // of the weight: the scale, and water left in the axils
	weighedWet  = 0.12  // of the times a sentinel comes out of the water
)

// weighAll puts the sentinels on the scale as they hang.
func (p *past) weighAll(at time.Time) {
	for i, l := range p.here(func(l *life) bool { return l.sentinel }) {
		p.weigh(at.Add(time.Duration(i)*time.Minute), l, false)
	}
}

// chooseSentinels picks the plants that are weighed: single ones, large enough
// for a kitchen scale, far from each other.
func (p *past) chooseSentinels() {
	some := p.here(func(l *life) bool { return l.Count == 1 && l.Size >= sentinelCM })
	for i := range sentinels {
		l := some[(2*i+1)*len(some)/(2*sentinels)]
		l.sentinel, l.grams = true, gramsAt10CM*math.Pow(l.Size/10, gramsPower)
	}
}

// weigh puts one plant on the scale.
func (p *past) weigh(at time.Time, l *life, wet bool) {
	grams := l.grams * leaf.MassShare(l.water(at, p.weather)) * math.Exp(scaleError*p.rng.NormFloat64())
	p.tell(at, &model.Weigh{Grams: math.Round(10*grams) / 10, Wet: wet}, l)
}

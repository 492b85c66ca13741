package care

import (
	"math"

	"tubside/model"
	"tubside/model/belief"
	"tubside/model/leaf"
)

// Every plant shows its thirst in its own way, and the same way each time: one
// lifts its edges early, another late. showSpread is how far plants of a form
// lie apart in this, as thirst (standard deviation). A guess; growers say that
// curl is read against the plant's own picture. Plants graded and weighed
// through a few weeks would replace it.
const showSpread = 0.035

// ways are the ways to show thirst that are reckoned with: the three points of
// Gauss and Hermite for a normal distribution (Abramowitz & Stegun 1964, table
// 25.10; from memory), as how much later than usual the signs come, and how
// common each is.
var ways = [3]struct{ later, share float64 }{
	{0, 2.0 / 3},
	{math.Sqrt(3) * showSpread, 1.0 / 6},
	{-math.Sqrt(3) * showSpread, 1.0 / 6},
}

// heard is what a plant was seen to show: the likelihood at each pace, for each
// way of showing thirst. The zero value has heard nothing.
type heard struct {
	ways [len(ways)]belief.Shares
	some bool
}

// seenAs is the likelihood of signs on a plant that has so much water left at
// each pace.
func seenAs(s model.Signs, rwc *grid, scale leaf.SignsScale) (h heard) {
	h.some = true
	plain := belief.Level()
	leaf.Signs{Curl: leaf.NotSeen, Tips: int8(s.Tips), Shift: int8(s.Shift)}.TimesLikelihood(plain[:], rwc[:], scale)
	for i := range ways {
		h.ways[i] = plain
	}
	if s.Curl == model.NotSeen {
		return h
	}
	curl := leaf.Signs{Curl: int8(s.Curl), Tips: leaf.NotSeen, Shift: leaf.NotSeen}
	for i, way := range ways {
		its := scale
		its.CurlShift += way.later
		curl.TimesLikelihood(h.ways[i][:], rwc[:], its)
	}
	return h
}

// least is as unlikely as anything gets, beside the likeliest: what is seen
// later can outweigh it.
const least = 1e-30

// add takes in more that was seen of the same plant.
func (h *heard) add(more *heard) {
	switch {
	case !more.some:
		return
	case !h.some:
		*h = *more
		return
	}
	top := 0.0
	for way := range h.ways {
		its := &h.ways[way]
		for i, likelihood := range &more.ways[way] {
			both := its[i] * likelihood
			its[i] = both
			if both > top {
				top = both
			}
		}
	}
	lift := 1 / top
	for way := range h.ways {
		its := &h.ways[way]
		for i, likelihood := range its {
			if likelihood *= lift; likelihood < least {
				likelihood = least
			}
			its[i] = likelihood
		}
	}
}

// wander lets the pace wander since it was heard of.
func (h *heard) wander(spread float64) {
	for way := range h.ways {
		h.ways[way].Wander(spread)
	}
}

// marginal is the likelihood at each pace, whichever way the plant shows its
// thirst.
func (h *heard) marginal() belief.Shares {
	if !h.some {
		return belief.Level()
	}
	var said belief.Shares
	for way := range h.ways {
		for i, likelihood := range &h.ways[way] {
			said[i] += ways[way].share * likelihood
		}
	}
	return said
}

package care

import (
	"math"

	"tubside/model"
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
// 25.10; from memory), as how much later than usual the signs come, and the log
// of how common each is.
var ways = [3]struct{ later, log float64 }{
	{0, math.Log(2.0 / 3)},
	{math.Sqrt(3) * showSpread, math.Log(1.0 / 6)},
	{-math.Sqrt(3) * showSpread, math.Log(1.0 / 6)},
}

// shown is a log likelihood at each pace, for each way of showing thirst.
type shown [len(ways)]grid

// seenAs is the log likelihood of signs on a plant that has so much water left
// at each pace.
func seenAs(s model.Signs, rwc *grid, scale leaf.SignsScale) (log shown) {
	leaf.Signs{Curl: leaf.NotSeen, Tips: int8(s.Tips), Shift: int8(s.Shift)}.AddLogLikelihood(log[0][:], rwc[:], scale)
	for i := range ways[1:] {
		log[i+1] = log[0]
	}
	if s.Curl == model.NotSeen {
		return log
	}
	curl := leaf.Signs{Curl: int8(s.Curl), Tips: leaf.NotSeen, Shift: leaf.NotSeen}
	for i, way := range ways {
		its := scale
		its.CurlShift += way.later
		curl.AddLogLikelihood(log[i][:], rwc[:], its)
	}
	return log
}

func (s *shown) add(more *shown) {
	for way := range s {
		for i, l := range more[way] {
			s[way][i] += l
		}
	}
}

// marginal is the log likelihood at each pace, whichever way the plant shows
// its thirst.
func (s *shown) marginal() (log grid) {
	for i := range log {
		top := math.Inf(-1)
		for way := range s {
			top = max(top, s[way][i]+ways[way].log)
		}
		sum := 0.0
		for way := range s {
			sum += math.Exp(s[way][i] + ways[way].log - top)
		}
		log[i] = top + math.Log(sum)
	}
	return log
}

package alien

import "math"

// DryLimit is the least width that an 80 % range of a plant's hours to dry can have, as a factor from its lower to its
// upper end, to who knew the law, the air and the neighbours and had timed every drying of the plant so far to the
// minute: what is left is what differs from one drying to the next, and what so few dryings say of the plant.
func (h *Home) DryLimit(p *Plant) float64 {
	own := 1 / (1/(driesOwn*driesOwn) + float64(len(p.dried))/(driesOnce*driesOnce))
	return math.Exp(2 * tenth * math.Sqrt(own+driesOnce*driesOnce))
}

// tenth is the 90 % point of the standard normal distribution.
const tenth = 1.2816

// Hours is how long after it came out a plant is truly dry.
func (p *Plant) Hours() float64 { return p.dry.Sub(p.out).Hours() }

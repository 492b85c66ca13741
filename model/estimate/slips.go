package estimate

import (
	"time"

	"tubside/model/leaf"
)

// slips is how often second looks confirmed the first, and how often they took it back.
type slips struct{ confirmed, tookBack float64 }

// slipLooks is how many second looks what is usual counts for. A choice: second looks are asked for where the first was
// odd, which is where slips are, so that one says little of all the others.
const slipLooks = 200

// again takes in a second look at the curl of a plant.
func (c *slips) again(s *spell, curl int8, since time.Duration) {
	switch same := curl == s.curl; {
	case since < sameLook:
		s.sure = s.sure && same
	case curl == leaf.NotSeen || s.curl == leaf.NotSeen:
		s.sure = false
	case same:
		s.sure = true
		c.confirmed++
	default:
		s.sure = false
		c.tookBack++
	}
}

// share is the share of this grower's grades that are one too low, and as many are one too high.
func (c *slips) share() float64 {
	return (leaf.CommonSlip*slipLooks + c.tookBack/2) / (slipLooks + c.confirmed + c.tookBack)
}

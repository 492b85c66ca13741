package estimate

import (
	"math"

	"tubside/model"
	"tubside/model/belief"
	"tubside/model/leaf"
)

// unwritten is what a home's looks say of water that nobody writes down: of each plant
// that was looked at, whether it looks as estimated or as if it had been in water since.
type unwritten struct {
	log   [len(unwrittenShares)]float64 // log likelihood of each share
	looks float64
}

// unwrittenShares are the shares of plants that may have had water since their last
// soak which is not in the book, and how likely each is before anything is seen.
// Guesses: most growers write nearly all of it down, and few homes have two who water.
// A home with a diary beside the book would replace them.
var unwrittenShares = [...]struct{ share, chance float64 }{{0.01, 0.40}, {0.05, 0.25}, {0.10, 0.18}, {0.20, 0.12},
	{0.35, 0.05}}

const (
	// unwrittenLooks is how many looks count at most: what makes plants look fuller than
	// estimated may be the law and not the water. A choice.
	unwrittenLooks = 100
	// unwrittenFrom is how many days after a soak a plant must be for a look to tell. A choice.
	unwrittenFrom = 5.0
)

// wateredSince are relative water contents of a plant that had water in between. A guess.
var wateredSince = [...]float64{0.98, 0.95, 0.91}

// wateredLook is how likely a look at a plant is, in each row, if it had water since.
func wateredLook(p *plantState, seen model.Signs) (rows [leaf.SignRows]float64) {
	var since [leaf.SignRows][len(wateredSince)]float64
	var into [leaf.SignRows][]float64
	for r := range since {
		into[r] = since[r][:]
	}
	signsOf(seen).Rows(into[:], wateredSince[:], p.traits.Signs)
	for r := range rows {
		for _, chance := range since[r] {
			rows[r] += chance / float64(len(wateredSince))
		}
	}
	return rows
}

// read is what a look says of water that nobody wrote down.
func (p *plantState) read(watered *[leaf.SignRows]float64, likelihood belief.JointLikelihood) (one unwritten, ratio float64) {
	expected, all, since := 0.0, 0.0, 0.0
	for r := range unlearned {
		inRow := 0.0
		for i, prior := range &unlearned[r] {
			if p.evidence != nil {
				prior *= p.evidence[r][i]
			}
			inRow += prior
			expected += prior * likelihood[r][i]
		}
		all += inRow
		since += inRow * watered[r]
	}
	if expected > 0 && all > 0 {
		one.looks, ratio = 1, since/expected
		for i, s := range unwrittenShares {
			one.log[i] = math.Log((1-s.share)*expected/all + s.share*since/all)
		}
	}
	return one, ratio
}

// wateredChance is how likely a plant had water since its last soak that is not in
// the book, by what is usual in this home and how it was seen since. A weight says how
// much water there is, wherever it came from.
func (k *Keeper) wateredChance(p *plantState) float64 {
	share := k.unwritten.share()
	switch s := p.seen; {
	case s == nil || s.lastWater.looks == 0 && s.weighed == 0:
		return share
	case s.weighed > 0:
		return 0
	default:
		return share * s.ratio / (share*s.ratio + 1 - share)
	}
}

// past takes the last look of a spell for one that is over: what it says of the plant's loss
// counts with the doubt that the plant may have had water, which the home's other
// looks make as likely as they do. The last look counts without it: what is seen
// today is how the plant is today, whatever it had.
func (k *Keeper) past(s *spell) {
	if s.last == nil || s.lastWater.looks == 0 {
		return
	}
	share := k.unwritten.share()
	for r := range s.last {
		for i, likelihood := range &s.last[r] {
			s.last[r][i] = likelihood + share*(s.watered[r]-likelihood)
		}
	}
	s.water.add(&s.lastWater)
}

// add takes in more looks.
func (u *unwritten) add(more *unwritten) {
	u.looks += more.looks
	for i, log := range more.log {
		u.log[i] += log
	}
}

// share is the share of plants that is to be expected.
func (u *unwritten) share() float64 {
	power, top := unwrittenLooks/(unwrittenLooks+u.looks), math.Inf(-1)
	for _, log := range u.log {
		top = max(top, log)
	}
	sum, mean := 0.0, 0.0
	for i, s := range unwrittenShares {
		chance := s.chance * math.Exp(power*(u.log[i]-top))
		sum += chance
		mean += chance * s.share
	}
	return mean / sum
}

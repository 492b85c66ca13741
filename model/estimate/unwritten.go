package estimate

import (
	"maps"
	"math"
	"slices"
	"time"

	"tubside/model/belief"
	"tubside/model/leaf"
)

// unwritten is what a home's looks say of water that nobody writes down: of each shelf
// on each walk, whether its plants look as estimated or as if they had been in water since.
type unwritten struct {
	log [len(unwrittenShares)]float64 // log likelihood of each share
}

// unwrittenShares are the shares of plants that may have water in a week
// which is not in the book, and how likely each is before anything is seen.
// Guesses: most growers write nearly all of it down, and few homes have two who water.
// A home with a diary beside the book would replace them.
var unwrittenShares = [...]struct{ share, chance float64 }{{0.002, 0.40}, {0.05, 0.25}, {0.10, 0.18}, {0.20, 0.12},
	{0.35, 0.05}}

const (
	// unwrittenFrom is how many days after a soak a plant must be for a look to tell. A choice.
	unwrittenFrom = 5.0
	// unwrittenDays is how long it is reckoned with that a plant got water which nobody wrote down, on the day after a
	// soak and a month later. A choice: from soak to soak it is a week or two, and whoever goes away for longer asks
	// how plants stand that are left alone.
	unwrittenDays = 10
)

// wateredAgo is when a plant may have had water in between, as shares of the time since its soak: two points that stand
// for any (Gauss and Legendre; Abramowitz & Stegun 1964, table 25.4; from memory). It is taken to be filled as its soak
// filled it.
var wateredAgo = [...]float64{0.2113, 0.7887}

// wateredLook is how likely the leaves look so, if the plant had water since.
func (k *Keeper) wateredLook(p *plantState, t time.Time, seen leaf.Signs) belief.JointLikelihood {
	since := k.plane()
	for n, ago := range wateredAgo {
		left := p.full.after(ago * p.traits.LossRate * p.cumulativeVPD(t, k.climate))
		var rwc grid
		left.mean(&rwc)
		if n == 0 {
			signLikelihood(seen, &rwc, p.traits.Signs, since)
			continue
		}
		one := k.plane()
		signLikelihood(seen, &rwc, p.traits.Signs, one)
		for r := range since {
			for i, chance := range &one[r] {
				since[r][i] = (since[r][i] + chance) / 2
			}
		}
		k.planes = append(k.planes, one)
	}
	return since
}

// read is what a look says of water that nobody wrote down, and of how far the law is off in this home.
func (k *Keeper) read(p *plantState, t time.Time, signs leaf.Signs, s *spell) {
	k.forget(s)
	s.watered = k.wateredLook(p, t, signs)
	before := k.plane()
	defer func() { k.planes = append(k.planes, before) }()
	var expected, since float64
	for r := range unlearned {
		prior, seen, watered := (*belief.Mass)(&before[r]), &s.last[r], &s.watered[r]
		*prior = unlearned[r]
		if p.evidence != nil {
			for i, likelihood := range &p.evidence[r] {
				prior[i] *= likelihood
			}
		}
		for i, chance := range prior {
			expected += chance * seen[i]
			since += chance * watered[i]
		}
	}
	if !(expected > 0 && since > 0) {
		k.forget(s)
		return
	}
	s.ratio = since / expected
	if p.loss.count >= foretoldFrom && t.Sub(s.look).Hours() >= againHours {
		k.misfit.foretold(before, s.last)
	}
}

// forget takes back what the last look of a spell said of such water.
func (k *Keeper) forget(s *spell) {
	if s.ratio = 0; s.watered != nil {
		k.planes = append(k.planes, s.watered)
		s.watered = nil
	}
}

// wateredChance is how likely a plant had water since its last soak that is not in
// the book, by what is usual in this home and how it was seen since. A weight says how
// much water there is, wherever it came from.
func (k *Keeper) wateredChance(p *plantState) float64 {
	usual := k.unwritten.usual()
	switch s := p.seen; {
	case s != nil && s.weighed > 0:
		return 0
	case s == nil || s.watered == nil:
		return usual
	default:
		return usual * s.ratio / (usual*s.ratio + 1 - usual)
	}
}

// hint is what the looks at the plants of a shelf, on one walk, say together.
type hint struct {
	plants float64
	since  time.Duration // their soaks, added up
	log    float64       // log of how many times as likely the looks are if these plants had water
}

// hint takes in a look at a plant. Who waters in secret waters a shelf: what is said of one
// plant is little, and of all on a shelf at once it is much.
func (k *Keeper) hint(p *plantState, at time.Time) {
	s, key := p.seen, p.shelfKey
	h := k.walk.watered[key]
	if s.watered == nil || k.walk.watered == nil {
		return
	}
	h.plants++
	h.since += at.Sub(p.dry)
	h.log += math.Log(s.ratio)
	k.walk.watered[key] = h
}

// weighHints takes in what was hinted: of the walk before, for what is usual in this home, and of the last, for
// what is usual on it. It is done when plants go into the water, since then all are looked at anew.
func (k *Keeper) weighHints() {
	for _, h := range k.hinted {
		k.unwritten.add(h)
	}
	k.hinted = nil
	if len(k.walk.watered) > 0 {
		k.walk.usual = usualHint(k.walk.watered)
	}
}

// hints are what a walk that is over says of each shelf.
func (w *walk) hints() (all []hint) {
	if len(w.watered) == 0 {
		return nil
	}
	usual := usualHint(w.watered)
	for _, key := range slices.Sorted(maps.Keys(w.watered)) {
		h := w.watered[key]
		h.log -= h.plants * usual
		all = append(all, h)
	}
	return all
}

// usualHint is what the middle shelf says, of one plant: what all say is not water but a law that is off.
func usualHint(shelves map[string]hint) float64 {
	var all []float64
	for _, h := range shelves {
		all = append(all, h.log/h.plants)
	}
	slices.Sort(all)
	return max(all[len(all)/2], 0)
}

// odds are how many times as likely the looks at a shelf are if it had water. Its plants stand in the same air and are
// read by the same law, so that many count for less than as many.
func (h hint) odds() float64 { return math.Exp(hintPlants / (hintPlants + h.plants) * h.log) }

// hintPlants is how many plants of a shelf count at most. A choice.
const hintPlants = 15

// past takes the last look of a spell for one that is over: what it says of the plant's loss
// counts with the doubt that the plant may have had water, which the other looks at its shelf
// and the home's make as likely as they do. The last look counts without it: what is seen
// today is how the plant is today, whatever it had.
func (k *Keeper) past(p *plantState, s *spell) {
	if s.last == nil || s.watered == nil {
		return
	}
	share := k.unwritten.usual()
	if h := k.walk.watered[p.shelfKey]; h.plants > 1 && !s.look.Before(k.walk.began) {
		others := h.plants - 1
		odds := hint{plants: others, log: h.log - math.Log(s.ratio) - others*k.walk.usual}.odds()
		share = share * odds / (share*odds + 1 - share)
	}
	for r := range s.last {
		for i, likelihood := range &s.last[r] {
			s.last[r][i] = likelihood + share*(s.watered[r][i]-likelihood)
		}
	}
	k.forget(s)
}

// add takes in what was hinted of a shelf.
func (u *unwritten) add(h hint) {
	odds, since := h.odds(), h.since/time.Duration(h.plants)
	for i, s := range unwrittenShares {
		chance := within(s.share, since)
		u.log[i] += math.Log(1 - chance + chance*odds)
	}
}

// share is the share of plants that is to be expected.
func (u *unwritten) share() float64 {
	top := math.Inf(-1)
	for _, log := range u.log {
		top = max(top, log)
	}
	sum, mean := 0.0, 0.0
	for i, s := range unwrittenShares {
		chance := s.chance * math.Exp(u.log[i]-top)
		sum += chance
		mean += chance * s.share
	}
	return mean / sum
}

// within is how likely water is within some time, where a share of plants has it in a week.
func within(share float64, t time.Duration) float64 {
	return 1 - math.Pow(1-share, max(t.Hours(), 0)/(7*24))
}

// usual is how likely a plant is to have had water since its soak.
func (u *unwritten) usual() float64 { return within(u.share(), unwrittenDays*24*time.Hour) }

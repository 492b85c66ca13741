package estimate

import (
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/belief"
	"tubside/model/leaf"
)

// Unweighed is what would be believed of a book in which nothing was ever weighed.
func Unweighed(b *model.Book) *Keeper {
	k := &Keeper{book: b, blind: true}
	k.reread()
	return k
}

// Weighings is how many weights a plant's loss was learned from: each was held against one before.
func (k *Keeper) Weighings(id model.ID) int {
	p := k.plants[id]
	if p == nil {
		return 0
	}
	n := p.weighings
	if p.seen != nil {
		n += p.seen.weighed
	}
	return n
}

// Range is a number as it is believed: its middle, and the 80 % range.
type Range struct{ Low, Median, High float64 }

// Times is a range of so many times as much.
func (r Range) Times(by float64) Range { return Range{r.Low * by, r.Median * by, r.High * by} }

// Range is the multiplier as a range.
func (m Multiplier) Range() Range { return Range{m.Low, m.Median, m.High} }

// AssumedLoss is what is believed of the multiplier of any plant's loss before anything was seen in a home.
var AssumedLoss = func() Range {
	m := unlearned.Marginal()
	low, high := m.Range(0.8)
	return Range{low, m.QuantileOf(&multipliers, 0.5), high}
}()

// AssumedUptake is the same of the multiplier of its time to drink.
var AssumedUptake = func() Range {
	population := uptakePrior.Population(1)
	m := population.Prior(population.Join(0))[0]
	low, high := m.Range(0.8)
	return Range{low, m.QuantileOf(&multipliers, 0.5), high}
}()

// Edges are the thirsts at which the leaves of a form begin to lift, to channel and to roll, as this grower grades
// them.
type Edges [3]Range

// CurlEdges are those of a form as they are believed now, and before anything was seen in a home.
func (k *Keeper) CurlEdges(form model.Form) (now, assumed Edges) {
	k.updatePopulations()
	place := formPlace(form)
	scale := traitsOf(model.Plant{Form: form}, k.book.Rules()).Signs
	fresh := lossPrior.Population(place + 1)
	return edgesOf(k.lossPopulation.Group(place).OfRows(), scale), edgesOf(fresh.Group(place).OfRows(), scale)
}

// edgesOf spreads each row evenly to half way to its neighbours.
func edgesOf(rows []float64, scale leaf.SignsScale) (e Edges) {
	at := func(q float64) float64 {
		below := 0.0
		for r, share := range rows {
			if below+share >= q || r == len(rows)-1 {
				return leaf.RowMultiple(r) * math.Exp(leaf.SignStep*((q-below)/share-0.5))
			}
			below += share
		}
		return 1
	}
	for g := range e {
		begins := scale.CurlBegins(int8(g + 1))
		e[g] = Range{at(0.1), at(0.5), at(0.9)}.Times(begins)
	}
	return e
}

// Weighed lists the plants, not gone, that something was learned of by weighing them.
func (k *Keeper) Weighed() (ids model.IDs) {
	for id := range k.plants {
		if k.Weighings(id) > 0 && k.book.Row(id).State != model.Gone {
			ids = append(ids, id)
		}
	}
	slices.Sort(ids)
	return ids
}

// Scales is the last weight of a plant beside what was believed before it. It agrees where some rate of loss explains
// it as well as not.
type Scales struct {
	Says   Agreement
	Thirst float64 // the mean of what was believed before, where it does not agree
}

// holdAgainst takes a weight as evidence beside the one that it is held against, and what is left in the plant as it
// is believed then. A rate of loss that explains the weight gains by it; where none does, the weight tells of the water
// and nothing of the rate: from then on the plant is as full as the scale has it.
func (k *Keeper) holdAgainst(p *plantState, left *waters, t time.Time, grams float64) {
	s := k.spell(p)
	step := k.book.Rules()[model.ScaleStep] / p.scale.grams
	share, on := grams/p.scale.grams, leaf.NewScale(t.Sub(p.scale.at).Hours()/24, step)
	losses, odd := p.soFar(s), on.Unforeseen()
	var said belief.Likelihood
	var explained, expected float64 // of the weight by the rates; of the water after it, not yet a mean
	for i, full := range p.scale.full {
		rwc, _ := on.Says(share, full)
		expected += losses[i] * odd * rwc
		said[i] = leaf.Misweighed
		for n := range left {
			fits := on.Fits(share, left[n][i], full) / 2
			explained += losses[i] * fits
			expected += losses[i] * fits * left[n][i]
			said[i] += fits
		}
	}
	weighed := k.plane()
	for r := range weighed {
		weighed[r] = said
	}
	s.settled = k.combine(s.settled, weighed)
	s.weighed++
	s.at, s.eyed, p.loss.fresh, s.scale = t, false, false, Scales{}
	if t.Before(p.since) {
		return // written late: the plant was wetted since
	}
	unexplained := odd / (explained + odd)
	if p.doubted = nil; unexplained <= 0.5 {
		return // the rates say what the weight says
	}
	expected /= explained + odd
	after, learned := p.weighedAs(*left, unexplained, on, share), losses.Observe(&said)
	after.raise(expected - after.meanOf(&learned))
	// What is not known of the weight shows in the range, and wears off.
	p.doubted = &stretch{full: after, since: t, fullest: after.thirst(), thirsty: 1}
	before := left.meanOf(losses)
	s.scale = Scales{LooksDrier, 1 - before}
	if expected > before {
		s.scale.Says = LooksFuller
	}
}

// weighedAs moves the water that is left towards what a scale says, by the share of its weight that no rate explains.
// So the water still falls where the multiplier rises. How well the scale knows it is put between a quick drinker and
// a slow one.
func (p *plantState) weighedAs(left waters, unexplained float64, on leaf.Scale, share float64) waters {
	for i, full := range p.scale.full {
		rwc, spread := on.Says(share, full)
		spread = min(spread, rwc, 1-rwc)
		left[0][i] += unexplained * (rwc + spread - left[0][i])
		left[1][i] += unexplained * (rwc - spread - left[1][i])
	}
	return left
}

// raise adds to the water.
func (w *waters) raise(by float64) {
	for n := range w {
		for i := range w[n] {
			w[n][i] = min(max(w[n][i]+by, 0), 1)
		}
	}
}

// soFar is what a plant's own past and what was seen in a spell say of its loss.
func (p *plantState) soFar(s *spell) *belief.Mass {
	all := p.evidence
	if s.settled != nil {
		all = all.Clone().Combine(s.settled)
	}
	losses := unlearned.Observe(all).Marginal()
	return &losses
}

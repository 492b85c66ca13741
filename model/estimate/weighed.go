package estimate

import (
	"math"
	"slices"

	"tubside/model"
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

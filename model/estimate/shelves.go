package estimate

import (
	"cmp"
	"math"
	"slices"

	"tubside/model"
	"tubside/model/belief"
	"tubside/model/leaf"
)

// shelfSpread is how far shelves lie apart in how fast plants dry out on them:
// the standard deviation of the logarithm. A guess; a thermometer and a
// hygrometer on each shelf would replace it.
const shelfSpread = 0.15

// When a shelf's climate is worth suggesting. A choice.
const (
	suggestPlants = 8   // with soaks of their own
	suggestFrom   = 1.2 // times as fast as elsewhere, or as slow
)

// Shelf is how fast plants dry out in one place.
type Shelf struct {
	Name      string
	Plants    int     // that hang there
	Set       float64 // as set by hand; 1 until then
	Factor    float64 // what the multipliers of its plants come to, beside what is set: 1.4 dries out 1.4 times as fast as the rest
	Low, High float64 // the 80 % range of Factor
	Suggest   bool    // worth setting: Set times Factor
}

// shelfSums is what the plants of a shelf say of it.
type shelfSums struct {
	name         string
	n            int
	weight, mean float64 // of the logarithm of its factor
}

// ownEstimate is what a plant's own evidence comes to: its multiplier, as a logarithm, and
// how uncertain that is.
type ownEstimate struct{ mean, variance float64 }

// ownEstimates are those for each thirst at which signs may come, and how likely the
// evidence makes it, as a logarithm.
type ownEstimates [leaf.SignRows]struct {
	ownEstimate
	log float64
}

// sumUp boils a likelihood down to means and variances: what it makes of a
// wide belief, that belief taken out again.
func sumUp(said belief.JointLikelihood) (own ownEstimates) {
	for r := range said {
		own[r].variance = math.Inf(1)
		var mean, square, all float64
		for i, likelihood := range &said[r] {
			share := wide[i] * likelihood
			u := math.Log(multipliers[i])
			all += share
			mean += share * u
			square += share * u * u
		}
		own[r].log = math.Log(all)
		mean /= all
		variance := max(square/all-mean*mean, 1e-4)
		if free := 1/variance - 1/(wideSpread*wideSpread); free > 1e-3 {
			own[r].ownEstimate = ownEstimate{mean / variance / free, 1 / free}
		}
	}
	return own
}

// in is the estimate when the rows are so likely. What all plants share of them sets no
// shelf apart, so that only what is uncertain in each row counts.
func (o *ownEstimates) in(rows *[leaf.SignRows]float64) ownEstimate {
	weight, mean := 0.0, 0.0
	for r, share := range rows {
		if w := share / o[r].variance; w > 0 {
			weight += w
			mean += w * o[r].mean
		}
	}
	if weight == 0 {
		return ownEstimate{variance: math.Inf(1)}
	}
	return ownEstimate{mean / weight, 1 / weight}
}

// rowsOf is how likely each row is by the evidence of many plants.
func rowsOf(told []*plantState) (rows [leaf.SignRows]float64) {
	top, log := math.Inf(-1), rows
	for r := range log {
		z := math.Log(leaf.RowMultiple(r)) / signRows.All
		log[r] = -z * z / 2
		for _, p := range told {
			log[r] += p.ownEstimates[r].log
		}
		top = max(top, log[r])
	}
	sum := 0.0
	for r := range rows {
		rows[r] = math.Exp(log[r] - top)
		sum += rows[r]
	}
	for r := range rows {
		rows[r] /= sum
	}
	return rows
}

const wideSpread = 0.8

var wide = belief.Prior(wideSpread)

// shelfSweeps is how often forms and shelves are set against each other: enough
// for both to stand still to a hundredth.
const shelfSweeps = 8

// weighShelves finds what is left to each shelf when all plants and each form
// have had their part: least squares, each part held near 0 by its spread. It
// starts afresh each time, so that the answer depends on the evidence alone.
func (k *Keeper) weighShelves() {
	forms := make([]float64, len(model.Forms))
	shelves := map[string]*shelfSums{}
	var told []*plantState
	for _, id := range k.book.IDs() {
		if p := k.plants[id]; p != nil && p.evidence != nil {
			told = append(told, p)
		}
	}
	rows := rowsOf(told)
	told = slices.DeleteFunc(told, func(p *plantState) bool {
		p.ownEstimate = p.ownEstimates.in(&rows)
		return p.ownEstimate.variance >= square(wideSpread)
	})
	for _, p := range told {
		if shelves[p.learnedOn] == nil {
			shelves[p.learnedOn] = &shelfSums{name: p.learnedOn}
		}
	}
	for range shelfSweeps {
		sweepForms(told, forms, shelves)
		sweepShelves(told, forms, shelves)
	}
	k.shelves = shelves
}

// weightOf is how much one plant counts.
func weightOf(p *plantState) float64 { return 1 / (square(lossSpreads.Own) + p.ownEstimate.variance) }

func sweepForms(told []*plantState, forms []float64, shelves map[string]*shelfSums) {
	sums, weights := make([]float64, len(forms)), make([]float64, len(forms))
	for _, p := range told {
		w := weightOf(p)
		sums[p.form] += w * (p.ownEstimate.mean - shelves[p.learnedOn].mean)
		weights[p.form] += w
	}
	apart := 1 / (square(lossSpreads.All) + square(lossSpreads.Group))
	for f := range forms {
		forms[f] = sums[f] / (weights[f] + apart)
	}
}

func sweepShelves(told []*plantState, forms []float64, shelves map[string]*shelfSums) {
	for _, s := range shelves {
		s.n, s.weight, s.mean = 0, 1/square(shelfSpread), 0
	}
	for _, p := range told {
		s, w := shelves[p.learnedOn], weightOf(p)
		s.n++
		s.weight += w
		s.mean += w * (p.ownEstimate.mean - forms[p.form])
	}
	for _, s := range shelves {
		s.mean /= s.weight
	}
}

// stepsOn is how many steps of the grid faster plants lose water on a shelf, by its
// [model.ShelfKey], than elsewhere.
func (k *Keeper) stepsOn(key string) int {
	s := k.shelves[key]
	if s == nil {
		return 0
	}
	return int(math.Round(s.mean / belief.LogStep()))
}

// Shelves is what is known of each shelf's climate from the multipliers of the plants
// on it, in walking order.
func (k *Keeper) Shelves() []Shelf {
	k.updatePopulations()
	var all []Shelf
	at := map[string]int{}
	for _, id := range k.book.IDs() {
		row := k.book.Row(id)
		key := model.ShelfKey(row.Home.Shelf)
		if row.State == model.Gone || key == "" {
			continue
		}
		i, known := at[key]
		if !known {
			i = len(all)
			at[key] = i
			all = append(all, k.Shelf(row.Home.Shelf))
		}
		all[i].Plants++
	}
	slices.SortStableFunc(all, func(a, b Shelf) int {
		return cmp.Or(model.NaturalCompare(a.Name, b.Name), cmp.Compare(a.Name, b.Name))
	})
	return all
}

// Shelf is what is known of one shelf's climate; its Plants are not counted.
func (k *Keeper) Shelf(name string) Shelf {
	k.updatePopulations()
	s := Shelf{
		Name:   name,
		Set:    k.book.ShelfFactor(name),
		Factor: 1,
		Low:    math.Exp(-tenthZ * shelfSpread),
		High:   math.Exp(tenthZ * shelfSpread),
	}
	sums := k.shelves[model.ShelfKey(name)]
	if sums == nil {
		return s
	}
	reach := tenthZ / math.Sqrt(sums.weight)
	s.Factor, s.Low, s.High = math.Exp(sums.mean), math.Exp(sums.mean-reach), math.Exp(sums.mean+reach)
	s.Suggest = sums.n >= suggestPlants &&
		(s.Low > 1 && s.Factor >= suggestFrom || s.High < 1 && s.Factor <= 1/suggestFrom)
	return s
}

// tenthZ is the 90 % point of the standard normal distribution.
const tenthZ = 1.2816

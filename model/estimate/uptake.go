package estimate

import (
	"math"
	"time"

	"tubside/model"
	"tubside/model/belief"
	"tubside/model/leaf"
)

// uptakeSpreads is how far plants lie apart in how long they take to drink, like lossSpreads.
// Four kinds of Tillandsia took up from 36 to 116 % of their leaf's water in one test (2020,
// Biotribology 19; the time is not known), which is a spread of 0.5 in what they took. That all plants
// share half of that, and that a plant has more of its own, is a guess. Plants weighed before and
// after soaks of half an hour would replace it.
var uptakeSpreads = belief.Spreads{All: 0.20, Group: 0.15, Own: 0.30}

var uptakePrior = belief.NewHierarchicalPrior(uptakeSpreads)

// waters is how full a plant is for each multiplier of its loss, as it drinks quickly or slowly: the
// time constant of its uptake one standard deviation of the logarithm under what is believed of it
// and one over. Both are as likely, which is the rule of Gauss and Hermite with two points (Abramowitz & Stegun
// 1964, table 25.10; from memory).
type waters [2]grid

func (w *waters) mean(rwc *grid) {
	for i := range rwc {
		rwc[i] = (w[0][i] + w[1][i]) / 2
	}
}

// meanOf is the expected water by what is believed of the loss.
func (w *waters) meanOf(shares *belief.Mass) float64 {
	return (shares.MeanOf(&w[0]) + shares.MeanOf(&w[1])) / 2
}

// after is what is left after a loss, in days of the reference air times the rate.
func (w *waters) after(loss float64) (left waters) {
	belief.Decay(loss, &left[0])
	left[1] = left[0]
	for n := range w {
		leaf.LeftOfEach(w[n][:], left[n][:])
	}
	return left
}

// thirst is that of a plant that loses water as its traits say.
func (w *waters) thirst() float64 { return 1 - (w[0][belief.Points/2]+w[1][belief.Points/2])/2 }

// blend makes both alike.
func (w *waters) blend() {
	w.mean(&w[0])
	w[1] = w[0]
}

// untold is the share of what is not known of a plant's uptake that shows in its water, when it is so full: all of it
// right after a soak, and nothing when it is as thirsty again as it was before. For how thirsty plants get from soak to
// soak is what their rates of loss are set by (see [leaf.KMesic]) and learned from, however they drink.
func (w *stretch) untold(left *waters) float64 {
	now, fullest := left.thirst(), w.fullest
	if !(w.thirsty > fullest) {
		return 0
	}
	return min(max((w.thirsty-now)/(w.thirsty-fullest), 0), 1)
}

// fill is a soak.
func (w *waters) fill(minutes float64, taus [2]float64, worn leaf.Film) {
	for n := range w {
		leaf.NewSoak(minutes, taus[n]).Wearing(worn).Refill(w[n][:])
	}
}

// drinks is what is believed of the multiplier of a plant's time to drink: the mean and the
// standard deviation of its logarithm.
type drinks struct{ mean, spread float64 }

func drinksOf(m *belief.Mass) (d drinks) {
	var square float64
	for i, share := range m {
		u := math.Log(multipliers[i])
		d.mean += share * u
		square += share * u * u
	}
	d.spread = math.Sqrt(max(square-d.mean*d.mean, 0))
	return d
}

// taus are the time constants of a plant that drinks quickly and one that drinks slowly.
func (d drinks) taus(tau float64) [2]float64 {
	return [2]float64{tau * math.Exp(d.mean-d.spread), tau * math.Exp(d.mean+d.spread)}
}

// uptakes is what is believed of how plants drink. What a weight says of one plant is told to the others when plants go
// into the water or come out next: the water that a soak leaves goes by it, and a weight changes what is believed of no other plant.
type uptakes struct {
	population *belief.Population
	untold     []*plantState // of which the population does not know the newest
	kin        *belief.Mass  `snapshot:"-"` // what is taken from other plants, where there is one plant alone
	forms      []drinks      // of plants that were not weighed, by form
	version    int           // of the population, that forms belong to
}

func newUptakes() uptakes {
	return uptakes{population: uptakePrior.Population(len(model.Forms)), forms: make([]drinks, len(model.Forms))}
}

// tell tells the population what is new.
func (u *uptakes) tell() {
	for _, p := range u.untold {
		u.hear(p)
	}
	u.untold = nil
}

// hear tells the population of all that was seen of one plant.
func (u *uptakes) hear(p *plantState) {
	u.population.Observe(p.uptake.member, belief.JointLikelihood{belief.LikelihoodOf(p.drank)})
}

// drinks is what is believed of how a plant drinks.
func (k *Keeper) drinks(p *plantState) drinks {
	u := &k.uptakes
	if version := u.population.Version(); u.version != version {
		u.version = version
		clear(u.forms)
	}
	if p.uptake.count > 0 {
		return drinksOf(k.uptakeMass(p))
	}
	if u.forms[p.form].spread == 0 {
		u.forms[p.form] = drinksOf(k.uptakeMass(p))
	}
	return u.forms[p.form]
}

// uptakeMass is what is believed of the multiplier of a plant's time to drink.
func (k *Keeper) uptakeMass(p *plantState) *belief.Mass {
	l, population := &p.uptake, k.uptakes.population
	if version := population.Version(); !l.fresh || l.version != version {
		mass := population.Prior(l.member)[0]
		if k.uptakes.kin != nil {
			mass = *k.uptakes.kin
		}
		if l.count > 0 {
			mass = mass.ObserveLog(p.drank)
		}
		l.believe(mass, version)
	}
	return l.mass
}

// taus are the time constants of a plant's uptake, in hours.
func (k *Keeper) taus(p *plantState) [2]float64 { return k.drinks(p).taus(p.traits.Tau) }

// Tau is the time constant of a plant's uptake in hours, as far as it was learned.
func (k *Keeper) Tau(id model.ID) float64 {
	p := k.plants[id]
	return p.traits.Tau * math.Exp(k.drinks(p).mean)
}

// UptakeMultiplier is how many times as long as the numbers say for its form and leaf a plant
// takes to drink, learned from weights before and after a soak. It returns false for a plant
// that is not in the book.
func (k *Keeper) UptakeMultiplier(id model.ID) (Multiplier, bool) {
	p := k.plants[id]
	if p == nil {
		return Multiplier{}, false
	}
	k.uptakeMass(p)
	return *p.uptake.summedUp(), true
}

// weighing is a weight and how full the plant was then, for each multiplier of its loss.
type weighing struct {
	grams float64
	at    time.Time
	rwc   grid
}

// weighedSoak is a soak before which the plant was weighed.
type weighedSoak struct {
	weighing
	in      waters // how full it was when it went in
	minutes float64
	worn    leaf.Film
}

// besideSoak is how long before and after a soak a weight still tells of it. A choice: what is lost
// meanwhile is counted, by a loss that is known only so well.
const besideSoak = 48 * time.Hour

// keepWeight keeps a plant's weight for after the soak it goes into.
func (p *plantState) keepWeight(t time.Time) {
	before := p.weighed
	p.weighed, p.weighedSoak, p.inWater = nil, nil, nil
	if before != nil && t.Sub(before.at) <= besideSoak {
		p.weighedSoak = &weighedSoak{weighing: *before, in: p.full}
	}
}

// learnUptake takes the first weight after a soak as evidence on how fast the plant drinks.
// What it lost before it went in counts as it is believed, and no more: whoever drank much
// may have been thirstier. What is believed of its uptake then also says how full this
// soak left it.
func (k *Keeper) learnUptake(p *plantState, t time.Time, grams float64) {
	s := p.weighedSoak
	p.weighedSoak = nil
	if s == nil || t.Sub(p.dry) > besideSoak {
		return
	}
	var share grid // what is left since it was dry, of each multiplier
	belief.Decay(p.traits.LossRate*p.cumulativeVPD(t, k.climate), &share)
	worn := s.worn
	if p.wet {
		share, worn = grid(belief.Level()), leaf.Film{} // weighed blotted
	}
	losses := unlearned.Observe(p.evidence).Marginal()
	var in grid
	s.in.mean(&in)
	days, step := t.Sub(s.at).Hours()/24, k.book.Rules()[model.ScaleStep]/s.grams
	var said grid
	for j, multiplier := range multipliers {
		after, left, sum := in, share, 0.0
		leaf.NewSoak(s.minutes, p.traits.Tau*multiplier).Wearing(worn).Refill(after[:])
		leaf.LeftOfEach(after[:], left[:])
		for i, loss := range losses {
			if loss > 1e-6 {
				sum += loss * math.Exp(leaf.LogWeight(grams/s.grams, left[i], s.rwc[i], days, step))
			}
		}
		said[j] = math.Log(sum)
	}
	k.learnDrinking(p, &said, t)
	if p.since.Equal(p.dry) { // not misted since
		p.full = s.in
		p.full.fill(s.minutes, k.taus(p), s.worn)
	}
}

// learnDrinking adds what weights say of how fast a plant drinks, as log likelihoods.
func (k *Keeper) learnDrinking(p *plantState, said *grid, t time.Time) {
	if p.drank == nil {
		p.drank = &grid{}
	}
	for j, log := range said {
		p.drank[j] += log
	}
	p.uptake.count++
	p.uptake.last, p.uptake.fresh = t, false
	k.uptakes.untold = append(k.uptakes.untold, p)
}

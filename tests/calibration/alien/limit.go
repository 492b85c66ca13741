package alien

import (
	"math"
	"slices"

	"tubside/model"
)

// Limit is what could be believed of each plant's water by one who knows the laws of this world, how far homes, forms
// and plants lie apart in it, the true air and shelf of every plant and all that happened to it without a word: all but
// the home's and the plants' own numbers, which it learns from the same looks. It is computed by the rule of Bayes on a
// grid of leaks and measures, the plants bound together by what their form and their home share.
type Limit struct {
	home *Home
	of   []hypotheses
	curl [measures][thirsts]([4]float64)
	tips [measures][thirsts]([4]float64)
}

// The grid: leaks and lifts as logarithms around the usual, and fillings.
const (
	leaks    = 41
	leakStep = 1.15 * 2 / (leaks - 1)
	measures = 21
	liftStep = 0.85 * 2 / (measures - 1)
	fillings = 5
	thirsts  = 401 // of a table from 0 to 1
)

// The points and weights of Gauss and Hermite for a normal distribution (Abramowitz & Stegun 1964, table 25.10; from
// memory).
var hermite = [fillings]struct{ z, weight float64 }{{0, 8.0 / 15}, {-1.355626, 0.222076}, {1.355626, 0.222076},
	{-2.856970, 0.011257}, {2.856970, 0.011257}}

// table is one number for each leak and measure.
type table [leaks][measures]float64

// hypotheses are all a plant may be, its water under each, and how likely what was seen makes them.
type hypotheses struct {
	plant *Plant
	heard int // of its past
	water [leaks][fillings]store
	worst [leaks][fillings][3]float64
	said  [leaks][fillings][measures]float64
}

// NewLimit begins to follow a home that has not begun to live.
func NewLimit(h *Home) *Limit {
	l := &Limit{home: h, of: make([]hypotheses, len(h.Plants))}
	for i, p := range h.Plants {
		of := &l.of[i]
		of.plant = p
		for u := range leaks {
			for f := range fillings {
				of.water[u][f] = store{brimful, brimful}
				for v := range measures {
					of.said[u][f][v] = 1
				}
			}
		}
	}
	for v := range measures {
		for t := range thirsts {
			thirst := float64(t) / (thirsts - 1)
			l.curl[v][t] = curlChance(thirst+h.Eye, l.measure(v))
			l.tips[v][t] = tipsChance(thirst, l.measure(v))
		}
	}
	return l
}

// measure is that of a plant of no sort that curls readily.
func (l *Limit) measure(v int) float64 {
	middle := usualLift
	if l.home.Lift > 0 {
		middle = l.home.Lift
	}
	return middle / liftsAt * math.Exp(liftStep*float64(v-measures/2))
}

func at(chance *[thirsts][4]float64, thirst float64, g model.Grade) float64 {
	return chance[min(max(int(thirst*(thirsts-1)+0.5), 0), thirsts-1)][g]
}

// follow takes in what happened to a plant since.
func (l *Limit) follow(of *hypotheses) {
	p := of.plant
	spread := math.Hypot(fillHome, l.home.Uptake)
	for ; of.heard < len(p.past); of.heard++ {
		m := &p.past[of.heard]
		if m.looked {
			l.sees(of, m)
			continue
		}
		for u := range leaks {
			leak := p.sort.leak * math.Exp(leakStep*float64(u-leaks/2))
			for f := range fillings {
				m.change(&of.water[u][f], &of.worst[u][f], leak, p.sort.toFill*math.Exp(spread*hermite[f].z))
			}
		}
	}
}

func (l *Limit) sees(of *hypotheses, m *moment) {
	top := 0.0
	for u := range leaks {
		for f := range fillings {
			water, worst := &of.water[u][f], &of.worst[u][f]
			// A plant that curls at a smaller measure looks as one does that is as much thirstier.
			thirst := (1-water.left()+l.home.Eye)/of.plant.sort.curls - l.home.Eye
			most := max(worst[0], worst[1], worst[2]) / of.plant.sort.curls
			drop := shiftChance(water.outer)
			for v := range measures {
				said := &of.said[u][f][v]
				switch {
				case m.unwritten:
					*said *= at(&l.curl[v], thirst, 0)
					if m.signs.Tips != model.NotSeen {
						*said *= at(&l.tips[v], most, 0) + at(&l.tips[v], most, 1)
					}
				default:
					*said *= at(&l.curl[v], thirst, m.signs.Curl)
					if m.signs.Tips != model.NotSeen {
						*said *= at(&l.tips[v], most, m.signs.Tips) * drop[m.signs.Shift]
					}
				}
				top = max(top, *said)
			}
		}
	}
	for u := range leaks {
		for f := range fillings {
			for v := range measures {
				of.said[u][f][v] /= top
			}
		}
	}
}

// Belief is what is believed of a plant's water: its mean and 80 % range.
type Belief struct{ Mean, Low, High float64 }

// Now is what is believed of every plant now.
func (l *Limit) Now() []Belief {
	said := make([]table, len(l.of))
	up := make([]table, len(l.of)) // to its form
	own := step(leakOwn, curlsOwn)
	byForm := map[model.Form]*table{}
	for i := range l.of {
		of := &l.of[i]
		l.follow(of)
		for u := range leaks {
			for v := range measures {
				for f := range fillings {
					said[i][u][v] += hermite[f].weight * of.said[u][f][v]
				}
			}
		}
		up[i] = own.spread(&said[i])
		form := of.plant.is
		if byForm[form] == nil {
			byForm[form] = level()
		}
		byForm[form].times(&up[i])
	}
	l.meet(byForm)
	beliefs := make([]Belief, len(l.of))
	for i := range l.of {
		others := *byForm[l.of[i].plant.is]
		others.without(&up[i])
		prior := own.spread(&others)
		beliefs[i] = l.of[i].belief(&prior)
	}
	return beliefs
}

// meet lets the forms speak to one another by what the home shares: each holds what is believed of it then.
func (l *Limit) meet(byForm map[model.Form]*table) {
	lifts := curlsHome
	if l.home.Lift > 0 {
		lifts = liftStep / 4
	}
	apart, ups := step(leakForm, curlsForm), map[model.Form]table{}
	for form, t := range byForm {
		ups[form] = apart.spread(t)
	}
	for form, t := range byForm {
		all := normal(leakHome, lifts)
		for _, f := range forms {
			if other, ok := ups[f.form]; ok && f.form != form {
				all.times(&other)
			}
		}
		down := apart.spread(all)
		t.times(&down)
	}
}

// belief is the quantiles of a plant's water.
func (of *hypotheses) belief(prior *table) (b Belief) {
	type share struct{ left, weight float64 }
	shares := make([]share, 0, leaks*fillings)
	all := 0.0
	for u := range leaks {
		for f := range fillings {
			weight := 0.0
			for v := range measures {
				weight += prior[u][v] * of.said[u][f][v]
			}
			weight *= hermite[f].weight
			s := share{of.water[u][f].left(), weight}
			shares = append(shares, s)
			all += weight
			b.Mean += weight * s.left
		}
	}
	b.Mean /= all
	slices.SortFunc(shares, func(a, b share) int {
		if a.left < b.left {
			return -1
		}
		return 1
	})
	quantile := func(q float64) float64 { // each share in the middle of its own, straight lines between
		sum, last := 0.0, shares[0].left
		lastAt := 0.0
		for _, s := range shares {
			middle := (sum + s.weight/2) / all
			if middle >= q {
				return last + (s.left-last)*(q-lastAt)/(middle-lastAt)
			}
			sum, last, lastAt = sum+s.weight, s.left, middle
		}
		return last
	}
	b.Low, b.High = quantile(0.1), quantile(0.9)
	return b
}

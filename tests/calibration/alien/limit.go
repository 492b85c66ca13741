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
	home   *Home
	not    Ignorance // what it is not told
	of     []hypotheses
	laws   []reading
	middle float64 // thirst at which leaves lift in the middle of the grid, as a logarithm
	lifts  float64 // how far homes lie apart in it
}

// reading is how signs are read by one law.
type reading struct {
	law
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
	by    []likelihoods // by each law
}

// likelihoods is how likely what was seen of a plant is by one law: the highest 1, beside a logarithm.
type likelihoods struct {
	said [leaks][fillings][measures]float64
	log  float64
}

// NewLimit begins to follow a home that has not begun to live.
func NewLimit(h *Home) *Limit {
	if h.Lift > 0 {
		return newLimit(h, math.Log(h.Lift), liftStep/4, truly)
	}
	return newLimit(h, math.Log(usualLift), curlsHome, truly)
}

// NewHonestLimit is the same for one who does not know how abruptly leaves roll, nor when a drop tells, nor about where
// leaves lift in this kind of home, and learns all that from the same looks: within the laws that go from gentle to
// abrupt and from early to late, with the true one in the middle.
func NewHonestLimit(h *Home) *Limit {
	var laws []law
	for _, abrupt := range []float64{2.4, 3, 3.75} {
		for _, drop := range []float64{0.6, 1, 1.7} {
			laws = append(laws, law{abrupt, drop})
		}
	}
	return newLimit(h, math.Log(usualLift), curlsHome, laws...)
}

// NewLimitBut is the limit of one who does not know all that.
func NewLimitBut(h *Home, not Ignorance) *Limit {
	l := NewLimit(h)
	l.not = not
	if not.Drop {
		l.laws[0].drop = 0
	}
	return l
}

func newLimit(h *Home, middle, lifts float64, laws ...law) *Limit {
	l := &Limit{home: h, of: make([]hypotheses, len(h.Plants)), laws: make([]reading, len(laws)), middle: middle, lifts: lifts}
	for i, p := range h.Plants {
		of := &l.of[i]
		of.plant, of.by = p, make([]likelihoods, len(laws))
		for u := range leaks {
			for f := range fillings {
				of.water[u][f] = store{brimful, brimful}
				for n := range laws {
					for v := range measures {
						of.by[n].said[u][f][v] = 1
					}
				}
			}
		}
	}
	for n, law := range laws {
		l.laws[n].law = law
		for v := range measures {
			// of a plant of no sort that curls readily
			lifts := math.Exp(middle + liftStep*float64(v-measures/2))
			for t := range thirsts {
				thirst := float64(t) / (thirsts - 1)
				l.laws[n].curl[v][t] = law.curlChance(thirst+h.Eye, lifts)
				l.laws[n].tips[v][t] = tipsChance(thirst, lifts/liftsAt)
			}
		}
	}
	return l
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
			for n := range l.laws {
				l.laws[n].sees(of, &of.by[n], m, l.home.Eye, &l.not)
			}
			continue
		}
		for u := range leaks {
			leak := l.not.usualLeak(p) * math.Exp(leakStep*float64(u-leaks/2))
			for f := range fillings {
				l.not.change(p, m, &of.water[u][f], &of.worst[u][f], leak, p.sort.toFill*math.Exp(spread*hermite[f].z))
			}
		}
	}
}

func (l *reading) sees(of *hypotheses, by *likelihoods, m *moment, eye float64, not *Ignorance) {
	top := 0.0
	for u := range leaks {
		for f := range fillings {
			water, worst := &of.water[u][f], &of.worst[u][f]
			// A plant that curls at a smaller measure looks as one does that is as much thirstier.
			thirst := (1-water.left()+eye)/of.plant.sort.curls - eye
			most := max(worst[0], worst[1], worst[2]) / of.plant.sort.curls
			drop := l.shiftChance(not.outer(water))
			for v := range measures {
				said := &by.said[u][f][v]
				switch {
				case m.unwritten:
					*said *= at(&l.curl[v], thirst, 0)
					if m.signs.Tips != model.NotSeen && !not.Tips {
						*said *= at(&l.tips[v], most, 0) + at(&l.tips[v], most, 1)
					}
				default:
					*said *= at(&l.curl[v], thirst, m.signs.Curl)
					if m.signs.Tips != model.NotSeen {
						*said *= drop[m.signs.Shift]
						if !not.Tips {
							*said *= at(&l.tips[v], most, m.signs.Tips)
						}
					}
				}
				top = max(top, *said)
			}
		}
	}
	if top == 0 { // by this law no plant can look so
		by.log = math.Inf(-1)
		return
	}
	for u := range leaks {
		for f := range fillings {
			for v := range measures {
				by.said[u][f][v] /= top
			}
		}
	}
	by.log += math.Log(top)
}

// Belief is what is believed of a plant's water: its mean and 80 % range.
type Belief struct{ Mean, Low, High float64 }

// Now is what is believed of every plant now.
func (l *Limit) Now() []Belief {
	for i := range l.of {
		l.follow(&l.of[i])
	}
	shares, logs := make([][]share, len(l.of)), make([]float64, len(l.laws))
	for n := range l.laws {
		var priors []table
		if priors, logs[n] = l.meet(n); math.IsInf(logs[n], -1) {
			continue // what was seen cannot be, by this law
		}
		for i := range l.of {
			shares[i] = l.of[i].shares(shares[i], n, &priors[i])
		}
	}
	top, beliefs := slices.Max(logs), make([]Belief, len(l.of))
	for i := range l.of {
		for k := range shares[i] {
			shares[i][k].weight *= math.Exp(logs[shares[i][k].law] - top)
		}
		beliefs[i] = believed(shares[i])
	}
	return beliefs
}

// meet is what the other plants say of each plant by one law, and how likely all looks are by it, as a logarithm.
func (l *Limit) meet(n int) (priors []table, log float64) {
	said, up := make([]table, len(l.of)), make([]table, len(l.of)) // to its form
	own, byForm := step(l.ownLeak(), curlsOwn), map[model.Form]*table{}
	for i := range l.of {
		of := &l.of[i]
		for u := range leaks {
			for v := range measures {
				for f := range fillings {
					said[i][u][v] += hermite[f].weight * of.by[n].said[u][f][v]
				}
			}
		}
		up[i] = own.spread(&said[i])
		form := of.plant.is
		if byForm[form] == nil {
			byForm[form] = level()
		}
		log += of.by[n].log + byForm[form].times(&up[i])
	}
	log += l.meetForms(byForm)
	priors = make([]table, len(l.of))
	for i := range l.of {
		others := *byForm[l.of[i].plant.is]
		others.without(&up[i])
		priors[i] = own.spread(&others)
	}
	return priors, log
}

// meetForms lets the forms speak to one another by what the home shares: each holds what is believed of it then. It
// returns how likely what all say is, as a logarithm.
func (l *Limit) meetForms(byForm map[model.Form]*table) (log float64) {
	apart, ups := step(leakForm, curlsForm), map[model.Form]table{}
	home := normal(leakHome, l.lifts)
	for _, f := range forms {
		if t := byForm[f.form]; t != nil {
			up := apart.spread(t)
			ups[f.form] = up
			log += home.times(&up)
		}
	}
	log += math.Log(home.sum())
	for form, t := range byForm {
		all := normal(leakHome, l.lifts)
		for _, f := range forms {
			if other, ok := ups[f.form]; ok && f.form != form {
				all.times(&other)
			}
		}
		down := apart.spread(all)
		t.times(&down)
	}
	return log
}

// share is a part of what is believed of a plant's water.
type share struct {
	left, weight float64
	law          int
}

// shares adds what is believed by one law: in all 1.
func (of *hypotheses) shares(to []share, law int, prior *table) []share {
	from, all := len(to), 0.0
	for u := range leaks {
		for f := range fillings {
			weight := 0.0
			for v := range measures {
				weight += prior[u][v] * of.by[law].said[u][f][v]
			}
			weight *= hermite[f].weight
			to = append(to, share{of.water[u][f].left(), weight, law})
			all += weight
		}
	}
	for k := range to[from:] {
		to[from+k].weight /= all
	}
	return to
}

// believed is the quantiles of a plant's water.
func believed(shares []share) (b Belief) {
	all := 0.0
	for _, s := range shares {
		all += s.weight
		b.Mean += s.weight * s.left
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

// ownLeak is how far plants of a form are taken to lie apart in what they lose.
func (l *Limit) ownLeak() float64 {
	if l.not.Shelves {
		return math.Hypot(leakOwn, math.Hypot(shelfSpread, 0.1)) // a radiator at one of eight
	}
	return leakOwn
}

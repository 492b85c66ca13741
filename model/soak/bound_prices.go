package soak

import (
	"math"
	"slices"
)

// prices are what a second of hands, of a vessel, a place in the room and on a
// bench cost at each instant. Any prices give a bound: what all that there is
// costs, and for each plant what it is worth beyond the cheapest way to serve
// it (Lagrange multipliers; Geoffrion 1974, Mathematical Programming Study
// 2:82-114). Products are rounded before they are added, so that every machine
// gives the same number.
type prices struct {
	now, least []float64 // as tried, and those of the lowest bound
	move       []float64
	sums, use  []float64
	bound      float64 // the lowest
	aim        float64 // a step aims at a bound lower by this part
	idle       int     // evaluations since a gain
	evals      int
}

// startAt is prices to start from.
func startAt(now []float64) *prices {
	n := len(now)
	z := &prices{now: slices.Clone(now), least: slices.Clone(now), move: make([]float64, n), sums: make([]float64, n), use: make([]float64, n)}
	z.restart()
	return z
}

// restart goes on from the best prices for another relaxation.
func (z *prices) restart() {
	copy(z.now, z.least)
	clear(z.move)
	z.bound, z.aim, z.idle = math.Inf(1), firstAim, 0
}

// value is the bound that the prices give. It leaves in use what would be used
// of everything.
func (z *prices) value(s *shares) float64 {
	z.evals++
	total := z.addUp(s)
	clear(z.use)
	n, room := s.width(), s.roomRow()
	for x := range s.items {
		p := &s.items[x]
		cost, by, tub := z.cheapest(s, p)
		gain := p.worth - cost
		if gain <= 0 {
			continue
		}
		total += gain
		z.use[by.in] += p.in
		z.use[by.out] += p.out
		z.use[s.tubRow(tub)+int(by.out)] += p.holds[tub]
		z.use[room+int(by.out)]++
		z.use[room+int(by.dry)]--
		rack := s.rackRow(int(by.rack))
		z.use[rack+int(by.out)] += p.room
		z.use[rack+int(by.dry)] -= p.room
	}
	for row := 0; row < len(z.use); row += n {
		for k := row + 1; k < row+n; k++ {
			z.use[k] += z.use[k-1]
		}
	}
	return total
}

// addUp sums each row's prices from the end, so that what is used up by an
// instant and ever after has one price; it returns what everything costs.
func (z *prices) addUp(s *shares) float64 {
	n, total := s.width(), 0.0
	for row := 0; row < len(z.now); row += n {
		sum := 0.0
		z.sums[row+n-1] = 0
		for k := row + n - 2; k >= row; k-- {
			if z.now[k] > 0 {
				sum += z.now[k]
				total += float64(z.now[k] * s.supply[k])
			}
			z.sums[k] = sum
		}
	}
	return total
}

// cheapest is the cheapest way to serve a plant, and kind of vessel.
func (z *prices) cheapest(s *shares, p *share) (cost float64, by *way, tub int) {
	cost = math.Inf(1)
	n, room, tubs := s.width(), z.sums[s.roomRow():], z.sums[s.width():]
	for w := range p.ways {
		y := &p.ways[w]
		c := float64(p.in*z.sums[y.in]) + float64(p.out*z.sums[y.out]) + (room[y.out] - room[y.dry])
		if c >= cost {
			continue
		}
		if p.room > 0 {
			rack := z.sums[s.rackRow(int(y.rack)):]
			c += float64(p.room * (rack[y.out] - rack[y.dry]))
		}
		for k, hold := range p.holds { // never less than c where it is infinite, or not a number
			if h := float64(hold * tubs[k*n+int(y.out)]); c+h < cost {
				cost, by, tub = c+h, y, k
			}
		}
	}
	return cost, by, tub
}

// Steps of lower. Found by trying.
const (
	firstAim  = 0.05 // a step aims at a bound lower by this part
	patience  = 4    // evaluations without a gain after which it aims less low
	aimLess   = 0.7
	gain      = 0.001 // a lower bound by less than this part is none
	momentum  = 0.5
	farOff    = 1.02
	leastRoom = 10 // a supply counts as this fraction of the row's largest at least
)

// lower looks for prices of a lower bound, in so many evaluations, until one is
// below enough: subgradient steps of Polyak's length (Held, Wolfe & Crowder
// 1974, Mathematical Programming 6:62-88) that keep some of the step before
// (Camerini, Fratta & Maffioli 1975, Mathematical Programming Study 3:26-34).
func (z *prices) lower(s *shares, evals int, enough float64) float64 {
	scale := s.scale()
	for range evals {
		v := z.value(s)
		if v > z.bound*(1-gain) {
			z.idle++
		} else {
			z.idle = 0
		}
		if v < z.bound {
			z.bound = v
			copy(z.least, z.now)
		}
		if z.bound < enough {
			break
		}
		if z.idle >= patience {
			z.aim, z.idle = z.aim*aimLess, 0
			if v > z.bound*farOff {
				copy(z.now, z.least)
				clear(z.move)
				continue
			}
		}
		if !z.step(s, scale, z.aim, v) {
			break
		}
	}
	return z.bound
}

// step changes the prices; false if there is nothing to change.
func (z *prices) step(s *shares, scale []float64, aim, v float64) bool {
	length := 0.0
	for k := range z.now {
		if scale[k] == 0 {
			continue
		}
		over := (z.use[k] - s.supply[k]) / scale[k]
		if z.now[k] <= 0 && over < 0 {
			over = 0
		}
		z.move[k] = over + float64(momentum*z.move[k])
		length += float64(z.move[k] * z.move[k])
	}
	if length == 0 {
		return false
	}
	by := aim / firstAim * (v - float64(z.bound*(1-aim))) / length
	for k := range z.now {
		if scale[k] > 0 {
			z.now[k] = max(0, z.now[k]+float64(by*z.move[k])/scale[k])
		}
	}
	return true
}

// scale is by row and instant what a use is measured in; 0 where there is no
// limit.
func (s *shares) scale() []float64 {
	n := s.width()
	scale := make([]float64, len(s.supply))
	for row := 0; row < len(scale); row += n {
		most := s.whole(row)
		for k := row; k < row+n; k++ {
			most = max(most, s.supply[k])
		}
		for k := row; k < row+n-1; k++ {
			scale[k] = max(s.supply[k], most/leastRoom)
		}
	}
	return scale
}

// whole is a row's supply if nothing of it were taken, for rows of which all
// may be; else 0.
func (s *shares) whole(row int) float64 {
	switch rack := row/s.width() - 2 - len(s.tubs); {
	case rack == -1 && s.b.p.s.Room != nil:
		return float64(max(1, s.crowd.to))
	case rack >= 0 && !s.unlimited(rack):
		return s.b.p.benches[s.racks[rack]].Room
	}
	return 0
}

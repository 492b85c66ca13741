package calibration_test

import (
	"math"

	"tubside/model"
	"tubside/model/leaf"
)

// How well could anybody rank? The limit is the posterior, on a grid, of the invented
// world: it has the world's own equations and figures, the true air, the true
// hours of drying, every last soak and what the radiator does. It lacks what
// nobody told: how much water each plant wears when it is shaken, what all plants share and each form has of its own, and of every
// plant its pace, how that drifted, when its edges lift and whether the book has
// the right leaf. All that is learned from the same signs that the grower wrote
// down. What the estimates lose against it, they throw away; what it lacks itself
// is not in the book.

// moment is one thing that truly happened to a plant, or was seen of it.
type moment struct {
	dose      float64     // kPa day, of water lost; or
	minutes   float64     // in the water, and then
	filmHours float64     // in a film, if it is the usual one; or
	drifted   bool        // a week of drift; or
	signs     model.Signs // that were written down
}

// fill is what the soak does, and the film after it: of the usual film, which is a share of a full leaf's water, the plant wears so
// many times as much.
func (m moment) fill(rwc []float64, usual, times, tau float64) {
	film := leaf.Film{Share: usual, Hours: m.filmHours}
	leaf.NewSoak(m.minutes, tau).Wearing(film.Part(times)).Refill(rwc)
}

// lost adds to what the plant lost since the last other moment.
func (l *life) lost(dose float64) {
	if dose == 0 {
		return
	}
	if n := len(l.past); n > 0 && l.past[n-1].dose > 0 {
		l.past[n-1].dose += dose
		return
	}
	l.past = append(l.past, moment{dose: dose})
}

// Paces that are told apart: the distance of two in the logarithm, and how many
// lie on each side of the middle.
const (
	fineStep  = 0.10
	fineReach = 22
	finePaces = 2*fineReach + 1
)

type fine [finePaces]float64

// offsets are the five points of Gauss and Hermite for a normal distribution
// (Abramowitz & Stegun 1964, table 25.10; from memory), with their weights.
var offsets = [...]struct{ z, weight float64 }{
	{-2.856970, 0.0112574}, {-1.355626, 0.2220759}, {0, 0.5333333}, {1.355626, 0.2220759}, {2.856970, 0.0112574},
}

// tale is what the past of one plant says of it, if it has a leaf: the likelihood
// of each pace that it may have by now, and its thirst at each.
type tale struct {
	thirst, likelihood fine
}

// tales is one for each leaf, its likelihood times how likely that leaf is.
func (w *world) tales(l *life, grades *chances) (all []tale) {
	for _, blade := range model.Leaves {
		if chance := w.chanceOfLeaf(l, blade); chance > 0 {
			all = append(all, w.tale(l, blade, chance, grades))
		}
	}
	return all
}

// chanceOfLeaf is how likely a plant of which the book has a leaf truly has
// another.
func (w *world) chanceOfLeaf(l *life, blade model.Leaf) float64 {
	for _, f := range forms {
		for _, of := range f.leaves {
			switch {
			case f.form != l.row.Form || of != blade:
			case blade == l.row.Leaf:
				return 1 - w.wrongLeaf*2/3
			default:
				return w.wrongLeaf / 3
			}
		}
	}
	return 0
}

func (w *world) tale(l *life, blade model.Leaf, chance float64, grades *chances) (t tale) {
	truly := l.row
	truly.Leaf = blade
	var rate fine
	r := reckoner{world: w, grades: grades, tau: tauOf(truly)}
	if l.row.Form == model.Bulbous {
		r.usual = leaf.CurlsReadily
	}
	for i := range r.rwc {
		rate[i] = lossRate(truly) * l.place * math.Exp(fineStep*float64(i-fineReach))
		r.rwc[i] = 1
		for o := range offsets {
			r.weight[i][o] = chance * offsets[o].weight
		}
	}
	for _, m := range l.past {
		switch {
		case m.drifted:
			r.drifts()
		case m.minutes > 0:
			m.fill(r.rwc[:], usualFilm(truly, l.clings), 1, r.tau)
		case m.dose > 0:
			for i := range r.rwc {
				r.rwc[i] = leaf.Remaining(r.rwc[i], rate[i], m.dose)
			}
		default:
			r.sees(m.signs)
		}
	}
	for i := range r.rwc {
		t.thirst[i] = 1 - r.rwc[i]
		for o := range offsets {
			t.likelihood[i] += r.weight[i][o]
		}
	}
	return t
}

// reckoner follows one plant's water at every pace, and weighs each pace and
// offset of its curl by what was seen.
type reckoner struct {
	*world
	grades     *chances
	tau, usual float64
	rwc        fine
	weight     [finePaces][len(offsets)]float64
}

// drifts lets a share of each pace go over to its neighbours, with their water.
func (r *reckoner) drifts() {
	moves := r.drift * r.drift / (2 * fineStep * fineStep)
	was := *r
	for i := range r.rwc {
		var water, all float64
		r.weight[i] = [len(offsets)]float64{}
		for _, from := range [...]struct {
			i     int
			share float64
		}{{max(i-1, 0), moves}, {i, 1 - 2*moves}, {min(i+1, finePaces-1), moves}} {
			for o, weight := range was.weight[from.i] {
				weight *= from.share
				r.weight[i][o] += weight
				water += weight * was.rwc[from.i]
				all += weight
			}
		}
		if all > 0 {
			r.rwc[i] = water / all
		}
	}
}

func (r *reckoner) sees(s model.Signs) {
	for i, rwc := range r.rwc {
		thirst := 1 - rwc
		p := r.grades.of(1, s.Tips, thirst) * r.grades.of(2, s.Shift, thirst)
		for o := range offsets {
			r.weight[i][o] *= p * r.grades.of(0, s.Curl, thirst-r.usual-r.curlOffset*offsets[o].z)
		}
	}
}

// chances is how likely each grade is to be written down, tabled over thirst.
type chances [len(tabledSigns)][4][tableEnd + tableEnd + 1]float64

var tabledSigns = [...]sign{curl, tips, shift}

// The table goes from -1 to 1 of thirst, beyond what any offset makes of it.
const tableEnd = 1000

func (w *world) chances() *chances {
	c := &chances{}
	for n, s := range tabledSigns {
		for g := range len(s.begins) + 1 {
			for i := range c[n][g] {
				c[n][g][i] = w.chance(s, g, float64(i-tableEnd)/tableEnd)
			}
		}
	}
	return c
}

// of is the chance of a grade that was written down: of the first, second or
// third of the tabled signs.
func (c *chances) of(n int, grade model.Grade, thirst float64) float64 {
	if grade == model.NotSeen {
		return 1
	}
	at := min(max((thirst+1)*tableEnd, 0), 2*tableEnd-1)
	i := int(at)
	row := &c[n][grade]
	return row[i] + (row[i+1]-row[i])*(at-float64(i))
}

// chance is how likely a grade is to be written down.
func (w *world) chance(s sign, g int, thirst float64) float64 {
	last, off := len(s.begins), w.wrongGrade/2
	chance := (1 - w.wrongGrade) * s.is(g, thirst)
	for _, really := range [...]int{g - 1, g + 1} {
		if really < 0 || really > last { // the end of the scale is written again
			really = g
		}
		chance += off * s.is(really, thirst)
	}
	return chance
}

// is the chance that the true grade of a thirst is g.
func (s sign) is(g int, thirst float64) float64 {
	atLeast := func(g int) float64 {
		switch {
		case g <= 0:
			return 1
		case g > len(s.begins):
			return 0
		}
		return 1 / (1 + math.Exp(-(thirst-s.begins[g-1])/s.blur))
	}
	return atLeast(g) - atLeast(g+1)
}

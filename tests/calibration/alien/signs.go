package alien

import (
	"math"
	"math/rand/v2"

	"tubside/model"
)

// A leaf rolls by and by: how far it is open falls as exp(-(thirst/measure)^3), the measure being each plant's own.
// What the eye makes of it is up to a tenth off, evenly, and one grade in fifteen is off by one.
const (
	openOff    = 0.12
	wrongGrade = 0.065
)

// How open a leaf is at most to be called lifting, deep and rolled.
var openAt = [3]float64{0.75, 0.45, 0.20}

// liftsAt is the thirst at which a leaf is said to lift, as a share of the plant's measure.
var liftsAt = math.Cbrt(-math.Log(openAt[0]))

// law is a law by which signs come: how abruptly a leaf rolls, and how empty the outer store is, as a multiple of this
// world's, when a drop tells of it; 0: a drop tells nothing.
type law struct{ abrupt, drop float64 }

// truly is the law of this world.
var truly = law{3, 1}

// open is how open a leaf is whose edges lift at some thirst.
func (l law) open(thirst, lifts float64) float64 {
	return math.Exp(math.Log(openAt[0]) * math.Pow(max(thirst, 0)/lifts, l.abrupt))
}

// curlChance is the chance of each grade of curl to be seen.
func (l law) curlChance(thirst, lifts float64) (chance [4]float64) {
	o := l.open(thirst, lifts)
	atLeast := [5]float64{0: 1}
	for g, at := range openAt {
		atLeast[g+1] = min(max((at-o)/(2*openOff)+0.5, 0), 1)
	}
	for g := range chance {
		chance[g] = atLeast[g] - atLeast[g+1]
	}
	return slipped(chance)
}

// slipped lets grades be off by one.
func slipped(really [4]float64) (written [4]float64) {
	for g, c := range really {
		written[g] += (1 - wrongGrade) * c
		written[max(g-1, 0)] += wrongGrade / 2 * c
		written[min(g+1, 3)] += wrongGrade / 2 * c
	}
	return written
}

// tipsChance: tips brown by the worst thirst of three weeks, beside the measure, and by much else.
func tipsChance(worst, measure float64) (chance [4]float64) {
	z := (worst/measure - 0.9) / 0.35
	some := 0.08 + 0.8*logistic(1.6*z)
	many := some * (0.1 + 0.8*logistic(1.6*(z-0.8)))
	most := many * (0.1 + 0.8*logistic(1.6*(z-1.6)))
	return slipped([4]float64{1 - some, some - many, many - most, most})
}

func logistic(z float64) float64 { return 1 / (1 + math.Exp(-z)) }

// shiftChance: a drop darkens a leaf the quicker the emptier its outer store is; one in forty stays pale.
func (l law) shiftChance(outer float64) (chance [4]float64) {
	if l.drop == 0 {
		return [4]float64{0.25, 0.25, 0.25, 0.25}
	}
	empty := (1 - outer) / l.drop
	quick := min(max((empty-0.10)/0.35, 0), 1)
	slow := (1 - quick) * min(max(empty/0.15, 0.05), 1)
	return slipped([4]float64{(1 - quick - slow) * 0.975, slow * 0.975, quick * 0.975, 0.025})
}

// see is what the grower sees of a plant, closely or only at a glance.
func (p *Plant) see(rng *rand.Rand, eye float64, closely bool) model.Signs {
	s := model.NoSigns
	s.Curl = draw(rng, truly.curlChance(1-p.Left()+eye, p.curls*liftsAt))
	tips, shift := draw(rng, tipsChance(p.worstSeen(), p.curls)), draw(rng, truly.shiftChance(p.water.outer))
	if closely {
		s.Tips, s.Shift = tips, shift
	}
	return s
}

func draw(rng *rand.Rand, chance [4]float64) model.Grade {
	u := rng.Float64()
	for g, c := range chance {
		if u -= c; u < 0 {
			return model.Grade(g)
		}
	}
	return 3
}

// fine reports whether there is nothing wrong with what was seen.
func fine(s model.Signs) bool { return s.Curl <= 0 && s.Tips <= 1 }

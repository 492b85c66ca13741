package alien

import (
	"math"
	"math/rand/v2"
	"time"
)

// The air of a home, for each half day: the day and its night.
type halfDay struct {
	tempC, rh float64
	deficit   float64 // kPa
}

// kPa is the vapour pressure deficit, with the saturation of FAO-56, equation 11.
func kPa(tempC, rh float64) float64 {
	return (1 - rh/100) * 0.6108 * math.Exp(17.27*tempC/(tempC+237.3))
}

// usualDeficit is the deficit at which usual leaks are given: 21 °C and 40 %.
const usualDeficit = 1.49

// nightShare is how much of a usual day's loss is lost by night, whatever the air (Lange & Medina 1979: it does not
// rise with the deficit). A guess.
const nightShare = 0.35

// weather draws the air of some days: heated rooms at 25 to 40 % in winter and damper ones in summer (Kent, Handegord &
// Robson, ASHRAE Transactions 72), wandering from day to day.
func weather(rng *rand.Rand, begin time.Time, days int) []halfDay {
	winter := 25 + 15*rng.Float64()
	sway, halves := 0.0, make([]halfDay, 2*days)
	for i := range halves {
		if i%2 == 0 {
			sway = 0.8*sway + 0.6*7*rng.NormFloat64()
		}
		summer := 0.5 - 0.5*math.Cos(2*math.Pi*float64(begin.YearDay()+i/2-20)/365)
		h := &halves[i]
		h.tempC = 20 + 4*summer - 0.8*float64(i%2)
		h.rh = min(max(winter+16*summer+sway+2*float64(i%2), 12), 80)
		h.deficit = kPa(h.tempC, h.rh)
	}
	return halves
}

// strength is how many times its usual leak a plant loses in some air.
func (n *Nature) strength(h halfDay) float64 {
	if n.AirPower > 0 {
		return math.Pow(h.deficit/usualDeficit, n.AirPower)
	}
	return nightShare + (1-nightShare)*h.deficit/usualDeficit
}

// season is how many times as much plants lose at a time of the year, by their growth and the light: shift is when it
// peaks, in years.
func (n *Nature) season(at time.Time, shift float64) float64 {
	return 1 + n.Season*math.Cos(2*math.Pi*(float64(at.YearDay())/365-shift))
}

// How plants dry: by the first law in proportion to the deficit, and more slowly the more plants lie beside them; by
// the second as its square root, and as much slower for large ones, with a heart that some days holds far more water
// than on others.
const (
	benchDeficit = 1.25   // kPa, at which usual drying times are given
	crowding     = 0.0025 // how much of the deficit each plant that dries beside takes; about the published room's mass balance
)

func (n *Nature) dryHours(p *Plant, deficit float64, beside int) float64 {
	crowded := deficit * math.Exp(-crowding*float64(beside))
	first := p.sort.dries * benchDeficit / crowded * math.Pow(p.Row.Size/15, 0.15)
	second := p.sort.dries * math.Sqrt(benchDeficit/deficit) * math.Pow(p.Row.Size/15, 0.5)
	return math.Pow(first, 1-n.OtherDrying) * math.Pow(second, n.OtherDrying)
}

// How far drying times lie apart: standard deviations of the logarithm, of a home, a form, a plant and one drying.
// Guesses.
const (
	driesHome, driesForm, driesOwn, driesOnce = 0.22, 0.18, 0.22, 0.20
)

// once is the factor of one drying.
func (n *Nature) once(rng *rand.Rand) float64 {
	first := math.Exp(driesOnce * rng.NormFloat64())
	second := 0.75 + 0.35*rng.ExpFloat64() // a pocket that now and then is deep
	return math.Pow(first, 1-n.OtherDrying) * math.Pow(second, n.OtherDrying)
}

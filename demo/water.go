package demo

import (
	"math"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
)

// The water of this home, invented: a tap of middling lime, and a rain barrel.
const (
	tapEC, rainEC    = 0.38, 0.04 // dS/m
	ecSpread         = 0.08       // of the value
	ecMeasured       = 0.2        // of fillings
	tempMeasured     = 0.4        // of fillings
	roomWarm         = 20.5       // °C, of water that stood in the room
	drawnWarm        = 18.5       // °C, of water just drawn and mixed
	waterSpread      = 1.2        // °C
	rainy, rainier   = 0.25, 0.4  // of sessions with water from the barrel, in winter; more in summer
	stoodFrom        = 13         // hours that tap water stood in cans before the day
	stoodFor         = 8          // hours more, at most
	probedAfterwards = 0.05       // of fillings, the meter is put in a little later
)

// draws decides which water a session uses.
func (p *past) draws(at time.Time) {
	p.water = model.RestedTap
	if p.happens(rainy + rainier*summer(date.NewAt(at))) {
		p.water = model.Rain
	}
}

// pours fills a vessel: first of all with what stood ready, then with rain or
// from the tap.
func (p *past) pours(at time.Time, vessel string, first bool) {
	f := &model.Fill{Vessel: vessel, Of: []model.Source{p.water}}
	warm, ec := roomWarm, tapEC
	switch {
	case p.water == model.Rain:
		ec = rainEC
	case first:
		f.Stood = float64(stoodFrom + p.rng.IntN(stoodFor))
	default:
		f.Of[0], warm = model.Tap, drawnWarm
	}
	ec = math.Round(1000*ec*(1+ecSpread*p.rng.NormFloat64())) / 1000
	warm = math.Round(10*(warm+waterSpread*p.rng.NormFloat64())) / 10
	if p.happens(ecMeasured) {
		f.EC = ec
	}
	if p.happens(tempMeasured) {
		f.TempC = warm
	}
	p.say(at, f)
	if p.happens(probedAfterwards) {
		p.say(at.Add(20*time.Second), &model.Sample{Vessel: vessel, EC: ec, TempC: warm})
	}
}

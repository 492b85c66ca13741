package drying

import (
	"math"

	"tubside/model/air"
)

// Part is the part of a plant that is the last to dry.
type Part int

// The parts that hold water.
const (
	Film   Part = iota // the leaves
	Pocket             // between the leaf bases, where rot begins
)

// String returns the part in lower case.
func (p Part) String() string {
	if p == Pocket {
		return "pocket"
	}
	return "film"
}

// Estimate is how long the two waters of a plant last, hours. +Inf means never in such air.
type Estimate struct {
	FilmHours, PocketHours float64
}

// Hours returns how long until all of the plant is dry.
func (e Estimate) Hours() float64 { return math.Max(e.FilmHours, e.PocketHours) }

// Last returns the part that is the last to dry.
func (e Estimate) Last() Part {
	if e.PocketHours > e.FilmHours {
		return Pocket
	}
	return Film
}

// airReach is how much air movement opens a pocket to the air, s/m: diffusion in the gap is (1 + airReach u) times
// that of still gas. A guess. Dry times of bulbs with the fan at each setting would replace it.
const airReach = 1.0

const (
	waterDensity   = 1000.0 // kg/m3
	secondsPerHour = 3600.0
)

// Power is the drying power of a stream on leaves of one width that stand alone: all that the stream contributes to
// drying. Many plants in one stream share it.
type Power struct {
	film   float64 // kg/(m2 s) from a face, which is mm/s
	pocket float64 // recession of a meniscus against a unit of resistance, m/s per m2 s/mol
	gap    float64 // resistance of a metre of gap, m s/mol
	skin   float64 // resistance of the boundary layer over the gap, m2 s/mol
}

// PowerOf returns the drying power of a valid stream on leaves of the given width, m.
//
// The pocket's is a Stefan tube (diffusion of vapour through still air out of a gap, J. Stefan 1873; R. B. Bird, W.
// E. Stewart and E. N. Lightfoot, Transport Phenomena, "diffusion through a stagnant gas film") ending in the leaf's
// boundary layer. Its water is taken to be half as cool as the leaf, a guess: the core of a plant lags behind its
// leaves.
func PowerOf(s Stream, widthM float64) Power {
	wet := Leaf{WidthM: widthM, Shelter: 1, WetFaces: 2, HeatFaces: 2}.In(s)
	g := gasOf(s.Air)
	inAir := s.Air.Vapour() / s.Air.Pa()
	atWater := air.Saturation((s.Air.TempC+wet.TempC)/2) / s.Air.Pa()
	drive := math.Max(0, math.Log((1-inAir)/(1-atWater)))
	return Power{
		film:   math.Max(0, wet.Evaporation/2),
		pocket: molarMassWater / waterDensity * drive,
		gap:    1 / (g.molarDensity * g.vapour * (1 + airReach*s.Speed)),
		skin:   1 / wet.Conductance.Vapour,
	}
}

// filmRate is the share of the film's time that passes in an hour. A film with dW/dt = -E (W/W0)^p lasts W0/(E
// (1-p)), and (W/W0)^(1-p) falls evenly, so that power is the film's clock whatever the air does.
func (w Power) filmRate(p Plant) float64 {
	return w.film * p.Shelter * secondsPerHour * (1 - p.FilmPower) / p.FilmMM
}

// pocketRate is the share of a pocket of depthM that dries in an hour when its meniscus stands downM below the mouth.
func (w Power) pocketRate(p Plant, depthM, downM float64) float64 {
	return w.pocket / (downM*w.gap + w.skin/p.Shelter) * secondsPerHour / depthM
}

// pocketHours integrates pocketRate: the square of the depth for the gap, the depth for the boundary layer.
func (w Power) pocketHours(p Plant, depthM float64) float64 {
	if depthM == 0 {
		return 0
	}
	return (depthM*depthM*w.gap/2 + depthM*w.skin/p.Shelter) / (w.pocket * secondsPerHour)
}

// DryIn returns how long a valid plant takes to dry in air that stays as it is, with the power of its stream on
// leaves of its width.
func (p Plant) DryIn(w Power, h Handling) Estimate {
	speed := p.speedUp(h)
	e := Estimate{PocketHours: w.pocketHours(p, p.depthM(h)) / speed}
	if p.FilmMM > 0 {
		e.FilmHours = 1 / (w.filmRate(p) * speed)
	}
	return e
}

// Dry returns how long a valid plant takes to dry in a stream that stays as it is. For many plants in one stream, DryIn
// saves working out the stream again.
func (p Plant) Dry(s Stream, h Handling) Estimate { return p.DryIn(PowerOf(s, p.LeafWidthM), h) }

func (p Plant) depthM(h Handling) float64 { return p.PocketMM * p.pocketFactor(h) / 1000 }

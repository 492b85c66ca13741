// Package sample draws soak days that look like a home collection's, for checks
// and benchmarks. The shares of forms, the sizes and the drying times are guesses
// after growers' habits; nothing here is a measurement.
package sample

import (
	"math/rand/v2"

	"tubside/model/soak"
)

const (
	minute = 60
	hour   = 3600
)

// sort is one kind of plant in a collection.
type sort struct {
	share           float64 // of the collection
	least, most     int     // minutes in water
	low, high       float64 // span, cm
	fill            float64 // share of its box
	hands           soak.Hands
	dryLow, dryHigh int // minutes
}

// hands is the usual minute a plant, and slow that of plants that are held upside
// down or squeezed out.
var (
	hands = soak.Hands{Pull: 12, In: 10, Out: 15, Lay: 8, Hang: 15}
	slow  = soak.Hands{Pull: 12, In: 15, Out: 30, Lay: 10, Hang: 15}
)

var sorts = []sort{
	{0.46, 30, 180, 6, 14, 0.25, hands, 90, 180},   // rosettes, Short
	{0.18, 120, 240, 8, 18, 0.25, hands, 100, 200}, // rosettes, Long
	{0.12, 30, 120, 8, 20, 0.15, hands, 80, 150},   // wispy
	{0.10, 30, 90, 10, 20, 0.2, slow, 180, 330},    // bulbous, held upside down
	{0.06, 5, 15, 8, 16, 0.25, hands, 60, 110},     // fuzzy, a dip
	{0.04, 10, 60, 6, 14, 0.25, hands, 60, 120},    // any, a dip
	{0.04, 30, 180, 14, 24, 0.3, slow, 240, 420},   // clumps
}

// Collection is a soak day for n plants, due because they are thirsty: a tub, a
// crate, two buckets, one tap and a day by the usual house rules, enough for
// about 500.
func Collection(n int, seed uint64) *soak.Session {
	rng := rand.New(rand.NewPCG(seed, 7))
	s := &soak.Session{
		Vessels: []soak.Vessel{
			{Room: 100, Fill: 10 * minute, Rinse: 2 * minute, Loads: 2, LastIn: 2 * hour},
			{Room: 45, Fill: 270, Rinse: 2 * minute, Loads: 2, LastIn: 2 * hour},
			{Room: 10, Fill: minute, Rinse: minute, Loads: 2, LastIn: 2 * hour},
			{Room: 10, Fill: minute, Rinse: minute, Loads: 2, LastIn: 2 * hour},
		},
		Benches: []soak.Bench{{Room: 500, Factor: 0.7}, {Room: 900, Factor: 1}},
		Hours: []soak.Hours{
			{From: 8 * hour, To: 12*hour + 30*minute, DryBy: 21 * hour},
			{From: 13 * hour, To: 18 * hour, DryBy: 21 * hour},
		},
		Room:   func(drying int) float64 { return 1 + 0.0005*float64(drying) },
		Limits: soak.Limits{Loads: 8, Plants: 5, Share: 1.0 / 3},
	}
	for i := range n {
		s.Items = append(s.Items, plant(rng, i+1))
	}
	return s
}

func plant(rng *rand.Rand, id int) soak.Item {
	k := pick(rng)
	span := k.low + rng.Float64()*(k.high-k.low)
	it := soak.Item{
		ID: id, Least: k.least * minute, Most: k.most * minute,
		Bulk:   soak.Bulk(span, k.fill, 1),
		Hands:  k.hands,
		Thirst: 0.12 + 0.4*rng.Float64()*rng.Float64(),
		Walk:   id,
		DryFor: (k.dryLow + rng.IntN(k.dryHigh-k.dryLow)) * minute,
	}
	it.BenchRoom = span * span / 100
	switch r := rng.Float64(); {
	case r < 0.04:
		it.Company = soak.Newcomer
	case r < 0.06:
		it.Company = soak.Suspect
	case r < 0.065:
		it.Company = soak.Sick
	}
	return it
}

func pick(rng *rand.Rand) sort {
	r := rng.Float64()
	for _, k := range sorts {
		if r -= k.share; r < 0 {
			return k
		}
	}
	return sorts[0]
}

// Package sample draws soak days that look like a home collection's, for checks
// and benchmarks. The shares of forms, the sizes and the drying times are our
// own, after growers' habits; nothing here is a measurement.
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
	share            float64 // of the collection
	from, to         int     // minutes in water
	low, high        float64 // span, cm
	fill             float64 // share of its box
	handsIn, handOut int
	dryLow, dryHigh  int // minutes
}

var sorts = []sort{
	{0.36, 20, 60, 6, 14, 0.25, 15, 20, 90, 180},   // rosettes, Short
	{0.24, 60, 180, 8, 18, 0.25, 15, 20, 100, 200}, // rosettes, Long
	{0.12, 20, 60, 8, 20, 0.15, 15, 20, 80, 150},   // wispy
	{0.10, 20, 90, 10, 20, 0.2, 20, 35, 180, 330},  // bulbous, held upside down
	{0.08, 2, 10, 8, 16, 0.25, 15, 20, 60, 110},    // fuzzy, a dip
	{0.06, 2, 20, 6, 14, 0.25, 15, 20, 60, 120},    // any, a dip
	{0.04, 20, 60, 14, 24, 0.3, 25, 40, 240, 420},  // clumps
}

// Collection is a soak day for n plants, due because they are thirsty: a tub,
// three buckets and hours from the morning on, enough for about so many.
func Collection(n int, seed uint64) *soak.Session {
	rng := rand.New(rand.NewPCG(seed, 7))
	s := &soak.Session{
		Vessels: []soak.Vessel{
			{Room: 110, Refill: 18 * minute, Loads: 3},
			{Room: 18, Refill: 4 * minute, Loads: 3}, {Room: 18, Refill: 4 * minute, Loads: 3}, {Room: 12, Refill: 3 * minute, Loads: 2},
		},
		Benches: []soak.Bench{{Room: 500, Factor: 0.7}, {Room: 900, Factor: 1}},
		Hours:   Days(n),
		Room:    func(drying int) float64 { return 1 + 0.0005*float64(drying) },
	}
	for i := range n {
		s.Items = append(s.Items, plant(rng, i+1))
	}
	return s
}

// Days are the hours in which two hands can see to n plants: days from seven in
// the morning, with a pause at noon, plants dry by ten at night.
func Days(n int) []soak.Hours {
	var all []soak.Hours
	const mostADay = 700
	for day := 0; day*mostADay < n; day++ {
		t := day * 24 * hour
		all = append(all,
			soak.Hours{From: t + 7*hour, To: t + 12*hour, DryBy: t + 22*hour},
			soak.Hours{From: t + 12*hour + 30*minute, To: t + 17*hour, DryBy: t + 22*hour})
	}
	return all
}

func plant(rng *rand.Rand, id int) soak.Item {
	k := pick(rng)
	span := k.low + rng.Float64()*(k.high-k.low)
	it := soak.Item{
		ID: id, From: k.from * minute, To: k.to * minute,
		Bulk:    soak.Bulk(span, k.fill, 1),
		HandsIn: k.handsIn, HandsOut: k.handOut,
		Thirst: 0.12 + 0.4*rng.Float64()*rng.Float64(),
		Shelf:  id / 25,
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

package soak

import (
	"math"
	"strconv"
	"testing"
)

// oneTub is a filled tub of one litre from eight in the morning (0) on, and n
// plants of one litre, each in the water for ten minutes at least.
func oneTub(n, hours int) *Session {
	s := &Session{Vessels: []Vessel{{Room: 1, Water: &Water{}}}, Hours: []Hours{{To: hours, DryBy: 10 * hours}}}
	for i := range n {
		s.Items = append(s.Items, Item{ID: i, From: 600, To: 1200, Bulk: 1, HandsIn: HandsIn, HandsOut: HandsOut, Thirst: 1})
	}
	return s
}

func bounds(s *Session) (thirst float64, free int) {
	p := prepare(s)
	p = p.with(p.all())
	b := p.bounder()
	all := make([]int, p.n)
	for i := range all {
		all[i] = i
	}
	return b.thirst(), b.handsFree(all)
}

// Each plant is a load of its own, held 600 s and the lesser of 15 s in and
// 20 s out: ten of them take 6150 s, where the best plan takes 6200. An hour
// holds 3600/615 = 5.85 of them. Arithmetic.
func TestOneTubHoldsOneLoadAfterTheOther(t *testing.T) {
	if _, free := bounds(oneTub(10, 20_000)); free < 6100 || free > 6150 {
		t.Errorf("bound on the hands free %d, want just below 6150", free)
	}
	if thirst, _ := bounds(oneTub(10, 3600)); thirst < 5.853 || thirst > 5.9 {
		t.Errorf("bound on the thirst %g, want 3600/615 = 5.85", thirst)
	}
}

// Two loads to a fill and 100 s to refill: five refills for ten plants, less
// the fill the tub opens with, are 400 s more. Arithmetic.
func TestRefillsTakeTheirTime(t *testing.T) {
	s := oneTub(10, 20_000)
	s.Vessels[0].Loads, s.Vessels[0].Refill = 2, 100
	if _, free := bounds(s); free < 6500 || free > 6550 {
		t.Errorf("bound on the hands free %d, want just below 6150 + 400", free)
	}
}

// A room in which more plants than it can take make each other dry twice as
// slowly: six hours then are twelve, and too long. Plants come out within the
// hour, so all would dry together, and no more can be served. Arithmetic.
func TestNoMoreDryAtOnceThanTheDryingTimesAllow(t *testing.T) {
	s := oneTub(40, 3600)
	s.Vessels[0].Room = 40
	s.Hours[0].DryBy = 8 * 3600
	for i := range s.Items {
		s.Items[i].DryFor, s.Items[i].BenchRoom = 6*3600, 1
	}
	for most := 1; most < 40; most++ {
		s.Room = func(drying int) float64 {
			if drying > most {
				return 2
			}
			return 1
		}
		if thirst, _ := bounds(s); thirst < float64(most) || thirst > 1.03*float64(most) {
			t.Errorf("bound on the thirst %g in a room for %d", thirst, most)
		}
	}
	s.Room, s.Benches = nil, []Bench{{Room: 3, Factor: 1}}
	if thirst, _ := bounds(s); thirst < 3 || thirst > 3.1 {
		t.Errorf("bound on the thirst %g with a bench for three, want 3", thirst)
	}
}

// A room for four, twelve plants, an hour to dry each: four out after ten
// minutes, four when those are dry, the last four two hours later than the
// first at the soonest. Arithmetic; shares of plants can do it a little sooner,
// as their pieces of time are coarse.
func TestPlantsWaitUntilOthersAreDry(t *testing.T) {
	s := oneTub(12, 5*3600)
	s.Vessels[0].Room = 12
	s.Hours[0].DryBy = 8 * 3600
	for i := range s.Items {
		s.Items[i].DryFor = 3600
	}
	s.Room = func(drying int) float64 {
		if drying > 4 {
			return 100
		}
		return 1
	}
	if _, free := bounds(s); free < 600+3600 || free > 600+2*3620+4*HandsOut {
		t.Errorf("bound on the hands free %d, want well above the 840 s without the room, at most %d", free, 600+2*3620+4*HandsOut)
	}
}

// Plants that must be out within 20 minutes to be dry in time, in a tub that
// holds one: 1200 s are 1.95 of them, however long the hours are. Arithmetic.
func TestPlantsThatDrySlowlyAreOutEarly(t *testing.T) {
	s := oneTub(10, 20_000)
	for i := range s.Items {
		s.Items[i].DryFor = s.Hours[0].DryBy - 1200
	}
	if thirst, _ := bounds(s); thirst < 1200./615 || thirst > 1.96 {
		t.Errorf("bound on the thirst %g, want 1200/615 = 1.95", thirst)
	}
}

func BenchmarkBound(b *testing.B) {
	for _, n := range []int{80, 640, 5000} {
		s := &Session{Hours: []Hours{{To: 36_000, DryBy: 43_200}}, Room: func(n int) float64 { return 1 + float64(0.001*float64(n)) },
			Benches: []Bench{{Room: float64(n) / 2, Factor: 1}, {Room: math.Inf(1), Factor: 1.4}},
			Vessels: []Vessel{{Room: 100, Refill: 720, Loads: 2}, {Room: 45, Refill: 390, Loads: 2}, {Room: 10, Refill: 180, Loads: 2}}}
		for i := range n {
			s.Items = append(s.Items, Item{ID: i, From: 480 + i*7919%7200, To: 11_000, Bulk: float64(1+i*31%40) / 20, HandsIn: HandsIn, HandsOut: HandsOut,
				Thirst: float64(1+i*17%30) / 50, DryFor: 3600 + i*6151%20_000, BenchRoom: 1})
		}
		p := prepare(s)
		p = p.with(p.all() / 3)
		few := p.able()
		if len(few) > n/3 {
			few = few[:n/3]
		}
		b.Run("thirst/"+strconv.Itoa(n), func(b *testing.B) {
			for b.Loop() {
				p.bounder().thirst()
			}
		})
		b.Run("hands free/"+strconv.Itoa(n), func(b *testing.B) {
			for b.Loop() {
				p.bounder().handsFree(few)
			}
		})
	}
}

package drying

import (
	"math"
	"testing"

	"tubside/model/air"
)

// Vapour in a room with a constant source E and n air changes an hour: rho = rho_s + E/(n V) (1 - exp(-n t)), the
// closed form of the room's balance.
func TestConstantEvaporationHasAClosedForm(t *testing.T) {
	const source, changes, supply, volume = 0.2, 0.44, 0.0069, 40.0 // kg/h, 1/h, kg/m3, m3
	f := func(y, rates []float64) { rates[0] = source - changes*(y[0]-supply*volume) }
	s := newSolver(f, []float64{supply * volume}, []float64{0.692})
	hours, step := 0.0, 0.01
	for hours < 6 {
		err := s.try(step)
		next := resized(step, err)
		if err <= 1 {
			s.accept()
			hours += step
			want := supply*volume + source/changes*(1-math.Exp(-changes*hours))
			if math.Abs(s.y[0]/want-1) > 3e-4 {
				t.Errorf("%v kg after %v h, closed form %v", s.y[0], hours, want)
			}
		}
		step = next
	}
}

// The pair is of third order: half the step leaves an eighth of the error.
func TestHalfTheStepLeavesAnEighthOfTheError(t *testing.T) {
	errorAt := func(steps int) float64 {
		s := newSolver(func(y, rates []float64) { rates[0] = -y[0] }, []float64{1}, []float64{1})
		for range steps {
			s.try(1 / float64(steps))
			s.accept()
		}
		return math.Abs(s.y[0] - math.Exp(-1))
	}
	if ratio := errorAt(20) / errorAt(40); math.Abs(ratio-8) > 0.5 {
		t.Errorf("error falls by %v", ratio)
	}
}

// A value that falls evenly from 1 at 3 an hour is gone after a third of an hour.
func TestCrossingIsFoundWithinTheStep(t *testing.T) {
	s := newSolver(func(_, rates []float64) { rates[0] = -3 }, []float64{1}, []float64{1})
	s.try(0.5)
	if share, ok := s.crossing(0, 0.5); !ok || math.Abs(share-2.0/3) > 1e-9 {
		t.Errorf("crosses at %v of the step (%v)", share, ok)
	}
	s.try(0.3)
	if share, ok := s.crossing(0, 0.3); ok {
		t.Errorf("crosses at %v of a step too short to cross", share)
	}
}

// The plainest way to the same end: everything moved on by its rate, eighteen thousand times an hour. It shares the
// drying power with the solver, and neither its steps nor its endings.
func TestRoomAgreesWithTinyPlainSteps(t *testing.T) {
	a := air.Air{TempC: 20, RH: 0.4}
	room := Room{VolumeM3: 40, AirChanges: 0.44, Air: a, SupplyDensity: 0.8 * a.VapourDensity()}
	fuzzy := Group{Plant: Fuzzy(), Handling: Handling{Shaken: true}, Count: 120, Speed: On}
	bulbous := Group{Plant: Bulbous(), Handling: Handling{Inverted: true, Clump: ClumpTime}, Count: 60, Speed: Near}
	got, err := room.Dry([]Group{fuzzy, bulbous})
	if err != nil {
		t.Fatal(err)
	}
	want, peak := plainSteps(room, []Group{fuzzy, bulbous})
	for i, w := range want {
		if g := got.Groups[i]; math.Abs(g.FilmHours-w.FilmHours) > 0.005 ||
			math.Abs(g.PocketHours-w.PocketHours) > 0.005 {
			t.Errorf("group %d: %+v, in plain steps %+v", i+1, g, w)
		}
	}
	if math.Abs(got.PeakRH-peak) > 0.001 {
		t.Errorf("peak %v, in plain steps %v", got.PeakRH, peak)
	}
}

func plainSteps(room Room, groups []Group) (dry []Estimate, peak float64) {
	const step = 1.0 / 18000 // h
	dry = make([]Estimate, len(groups))
	filmG, downM := make([]float64, len(groups)), make([]float64, len(groups))
	for i, g := range groups {
		filmG[i] = g.Plant.FilmWaterG()
	}
	vapour, wet := room.Air.VapourDensity(), true
	for hours := 0.0; wet; hours += step {
		wet = false
		a := room.Air.WithVapourDensity(vapour)
		peak = math.Max(peak, a.RH)
		gained := room.AirChanges * (room.SupplyDensity - vapour)
		for i, g := range groups {
			power, depth := PowerOf(Stream{Air: a, Speed: g.Speed}, g.Plant.LeafWidthM), g.Plant.depthM(g.Handling)
			grams := 0.0
			if full := g.Plant.FilmWaterG(); filmG[i] > 1e-9*full {
				loss := power.film * 3600 * g.Plant.Shelter * g.Plant.AreaCM2 / 10 // g/h, all wet
				grams += loss * math.Pow(filmG[i]/full, g.Plant.FilmPower) * g.Plant.speedUp(g.Handling)
				dry[i].FilmHours, wet = hours, true
			}
			filmG[i] -= grams * step
			if downM[i] < depth {
				rate := power.pocketRate(g.Plant, depth, downM[i]) * g.Plant.speedUp(g.Handling)
				downM[i] += rate * depth * step
				grams += rate * g.Plant.PocketG * g.Plant.pocketFactor(g.Handling)
				dry[i].PocketHours, wet = hours, true
			}
			gained += float64(g.Count) * grams / 1000 / room.VolumeM3
		}
		vapour += gained * step
	}
	return dry, peak
}

package drying_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/air"
	"tubside/model/drying"
)

// Going through the past in even steps comes to what the solver with its error
// control says, within the 3 % promised.
func TestRetellAgreesWithTheSolver(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := air.Air{TempC: rapid.Float64Range(16, 26).Draw(t, "temp"),
			RH: rapid.Float64Range(0.25, 0.65).Draw(t, "rh")}
		room := drying.Room{
			VolumeM3:   rapid.Float64Range(20, 100).Draw(t, "volume"),
			AirChanges: rapid.Float64Range(0.2, 4).Draw(t, "changes"),
			Air:        a, SupplyDensity: a.VapourDensity(),
		}
		speed := rapid.SampledFrom([]float64{drying.Off, drying.Low, drying.On}).Draw(t, "speed")
		var groups []drying.Group
		var batches []drying.Batch
		for _, p := range []drying.Plant{drying.OpenRosette(), drying.Typical(), drying.Fuzzy(), drying.Bulbous()} {
			h := drying.Handling{Shaken: true, Inverted: rapid.Bool().Draw(t, "inverted")}
			n := rapid.IntRange(0, 60).Draw(t, "count")
			groups = append(groups, drying.Group{Plant: p, Handling: h, Count: n, Speed: speed})
			batches = append(batches, drying.Batch{Plant: p, Handling: h, Count: n, Speed: speed})
		}
		exact, err := room.Dry(groups)
		if err != nil {
			t.Fatal(err)
		}
		for i, took := range room.Replay(batches) {
			want := math.Min(exact.Groups[i].Hours(), drying.Horizon)
			if math.Abs(took-want) > 0.03*want {
				t.Errorf("batch %d: %.3f h, the solver says %.3f h", i, took, want)
			}
		}
	})
}

// A batch that comes out later finds the room as the others have left it.
func TestRetellLetsLaterBatchesIntoADampRoom(t *testing.T) {
	a := air.Air{TempC: 20, RH: 0.4}
	room := drying.Room{VolumeM3: 40, AirChanges: drying.WinterAirChanges, Air: a, SupplyDensity: a.VapourDensity()}
	one := func(out float64, n int) drying.Batch {
		return drying.Batch{Plant: drying.Typical(), Handling: drying.Handling{Shaken: true}, Count: n,
			Speed: drying.On, OutHours: out}
	}
	alone := room.Replay([]drying.Batch{one(0, 1)})[0]
	took := room.Replay([]drying.Batch{one(0, 100), one(1, 1)})
	if took[1] < 1.2*alone {
		t.Errorf("out an hour after a hundred others: %.2f h, alone %.2f h", took[1], alone)
	}
	if later := room.Replay([]drying.Batch{one(2, 1)})[0]; math.Abs(later-alone) > 0.03*alone {
		t.Errorf("alone, but two hours on: %.2f h, want %.2f h", later, alone)
	}
}

func BenchmarkRetellAMorning(b *testing.B) {
	a := air.Air{TempC: 20, RH: 0.4}
	room := drying.Room{VolumeM3: 40, AirChanges: drying.WinterAirChanges, Air: a, SupplyDensity: a.VapourDensity()}
	var batches []drying.Batch
	for load := range 8 {
		for _, p := range []drying.Plant{drying.OpenRosette(), drying.Typical(), drying.Fuzzy(), drying.Bulbous()} {
			batches = append(batches, drying.Batch{Plant: p, Handling: drying.Handling{Shaken: true, Inverted: true},
				Count: 10, Speed: drying.Low, OutHours: float64(load) / 2})
		}
	}
	for range b.N {
		room.Replay(batches)
	}
}

package estimate_test

import (
	"testing"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/tests/household"
)

// lived is a book of n plants over some years: soaked weekly in loads of sixty,
// a fifth looked at before, a reading a day.
func lived(b *testing.B, n, years int) (household.Home, time.Time) {
	h := household.New(b)
	var plants []model.Plant
	var ids model.IDs
	for i := range n {
		id := model.ID(i + 1)
		plants = append(plants, model.Plant{
			ID: id, Count: 1, Form: model.Forms[i%len(model.Forms)], Leaf: model.Leaves[i%3], Size: float64(6 + i%25),
			Home: model.Home{Shelf: string(rune('A' + i%12)), Spot: id.String()},
		})
		ids = append(ids, id)
	}
	now := may(1, 8)
	h.Say(now, &model.Add{Plants: plants})
	for d := range years * 365 {
		now = may(1, 8).AddDate(0, 0, d+1)
		h.Say(now, &model.Reading{TempC: 20 + float64(d%7)/2, RH: 35 + float64(d*7%20)})
		if d%7 != 6 {
			continue
		}
		for part := range 5 {
			if (d/7+part)%5 == 0 {
				h.Say(now, &model.Look{Signs: model.Signs{Curl: model.Grade(d / 7 % 2), Tips: 0,
					Shift: model.NotSeen}}, ids[part*n/5:(part+1)*n/5]...)
			}
		}
		for from := 0; from < n; from += 60 {
			load := ids[from:min(from+60, n)]
			in := now.Add(time.Duration(from) * time.Minute / 10)
			h.Say(in, &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: in.Add(2 * time.Hour)}, load...)
			h.Say(in.Add(2*time.Hour), &model.Out{Shaken: true}, load...)
			h.Say(in.Add(8*time.Hour), &model.FoundDry{}, load...)
			h.Say(in.Add(9*time.Hour), &model.Hung{}, load...)
		}
	}
	return h, now.AddDate(0, 0, 2)
}

func benchmarkLook(b *testing.B, n, years int) {
	h, now := lived(b, n, years)
	k := estimate.New(h.Book)
	advice.Look(k, now)
	for b.Loop() {
		now = now.Add(time.Minute)
		advice.Look(k, now)
	}
}

// The budget is 3 ms.
func BenchmarkLook640(b *testing.B) { benchmarkLook(b, 640, 1) }

// The budget is 20 ms.
func BenchmarkLook5000PlantsTenYears(b *testing.B) { benchmarkLook(b, 5000, 10) }

// Opening a book must leave room in the 60 ms to the first frame.
func BenchmarkOpenAYearOf640(b *testing.B) {
	h, now := lived(b, 640, 1)
	for b.Loop() {
		advice.Look(estimate.New(h.Book), now)
	}
}

// A look at one plant costs that plant.
func BenchmarkASignIsTakenIn(b *testing.B) {
	h, now := lived(b, 5000, 1)
	k := estimate.New(h.Book)
	o := advice.Look(k, now)
	e := model.NewEntry(now, &model.Look{Signs: lifting}, 7)
	for b.Loop() {
		k.Follow(e)
		advice.Refresh(k, o, e, now)
	}
}

// The first time that somebody asks how long plants take to dry, a year of marks is read.
func BenchmarkAYearOfDryMarks640(b *testing.B) {
	h, now := lived(b, 640, 1)
	for b.Loop() {
		b.StopTimer()
		k := estimate.New(h.Book)
		advice.Look(k, now)
		b.StartTimer()
		k.DryingMultiplier(1)
	}
}

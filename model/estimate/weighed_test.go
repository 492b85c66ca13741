package estimate_test

import (
	"math"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/leaf"
	"tubside/tests/household"
)

// weighedAndGraded are eight plants that dry out for a month after a long soak, twice, weighed full and again when they
// are graded: their edges lift at a thirst, and not before.
func weighedAndGraded(t *testing.T, lifts float64, weighed bool) *estimate.Keeper {
	t.Helper()
	h := household.Greens(t, 12)
	eight := model.IDs{1, 2, 3, 4, 5, 6, 7, 8}
	for month := range 2 {
		soaked := may(1, 8).AddDate(0, 0, 31*month)
		h.Say(soaked, &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: soaked.Add(5 * time.Hour)}, eight...)
		h.Say(soaked.Add(5*time.Hour), &model.Out{Shaken: true}, eight...)
		h.Say(soaked.Add(9*time.Hour), &model.FoundDry{}, eight...)
		for i, id := range eight {
			rate := leaf.KMesic * (0.8 + 0.05*float64(i))
			if weighed {
				h.Say(soaked.Add(9*time.Hour), &model.Weigh{Grams: 40, Wet: true}, id)
			}
			h.Say(soaked.Add(10*time.Hour), &model.Hung{}, id)
			for _, days := range []int{6, 12, 18, 24, 30} {
				at, thirst := soaked.AddDate(0, 0, days), 1-leaf.Remaining(1, rate, float64(days))
				curl := model.Signs{Curl: 0, Tips: model.NotSeen, Shift: model.NotSeen}
				for _, begins := range []float64{1, 1.4, 1.8} {
					if thirst > lifts*begins {
						curl.Curl++
					}
				}
				h.Say(at, &model.Look{Signs: curl}, id)
				if weighed {
					h.Say(at, &model.Weigh{Grams: math.Round(400*leaf.MassShare(1-thirst)) / 10}, id)
				}
			}
		}
	}
	last := may(1, 8).AddDate(0, 0, 62)
	h.Say(last, &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: last.Add(5 * time.Hour)}, eight...)
	return estimate.New(h.Book)
}

// Graded and weighed on the same day, plants say at what thirst their leaves lift: of leaves that lift early and of
// such that lift late. Graded alone they say it far less well.
func TestPlantsGradedAndWeighedSayWhenLeavesLift(t *testing.T) {
	for _, lifts := range []float64{0.13, 0.26} {
		k := weighedAndGraded(t, lifts, true)
		now, assumed := k.CurlEdges(model.Rosette)
		if e := now[0]; lifts < e.Low-0.01 || lifts > e.High+0.01 {
			t.Errorf("leaves lift at %.2f, believed %.3f (%.3f to %.3f)", lifts, e.Median, e.Low, e.High)
		}
		graded, _ := weighedAndGraded(t, lifts, false).CurlEdges(model.Rosette)
		wide := func(r estimate.Range) float64 { return math.Log(r.High / r.Low) }
		if a, b, c := wide(assumed[0]), wide(graded[0]), wide(now[0]); c > 0.6*a || c > 0.75*b {
			t.Errorf("leaves lift at %.2f: range %.2f at first, %.2f graded, %.2f weighed as well", lifts, a, b, c)
		}
		for g := range 2 {
			if now[g].Median >= now[g+1].Median {
				t.Errorf("edges out of order: %+v", now)
			}
		}
		if n := k.Weighings(1); n != 10 {
			t.Errorf("%d weights tell of plant 1, want 10", n)
		}
	}
}

// Without the scale the same is believed as where there never was one.
func TestUnweighedIsAsIfThereWereNoScale(t *testing.T) {
	never := weighedAndGraded(t, 0.2, false)
	without := estimate.Unweighed(weighedAndGraded(t, 0.2, true).Book())
	at := may(1, 8).AddDate(0, 0, 61)
	for _, id := range never.Book().IDs() {
		if a, b := never.Plant(id, at).Stand, without.Plant(id, at).Stand; a != b {
			t.Errorf("plant %d: %+v where there is no scale, %+v without it", id, a, b)
		}
	}
	page := advice.WhatWeighingShowed(weighedAndGraded(t, 0.13, true), at.AddDate(0, 0, 9))
	if len(page.Plants) != 8 || page.Others != 4 || len(page.Forms) != 1 || page.Forms[0].Plants != 8 {
		t.Errorf("the page: %+v", page)
	}
}

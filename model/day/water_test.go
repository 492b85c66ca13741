package day_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/tests/household"
	"tubside/ui/show"
)

func TestFedPlantsKeepToTheVesselForFedWater(t *testing.T) {
	h := household.Greens(t, 6)
	h.Say(may(2, 9), &model.Feed{How: model.ByMist, Mix: model.Mix{PPM: 50}}, 1, 2)
	p := planned(t, h, may(8, 6), day.Ask{Feed: true})
	if len(p.Left) != 4 || !strings.Contains(show.LeftOut(h.Book, p, p.Left[0]), "no vessel is marked for fed water") {
		t.Fatalf("without such a vessel left out: %v", p.Left)
	}
	h.Say(may(2, 10), &model.VesselSet{Vessel: model.Vessel{Name: "bucket 2", Litres: 10, Fed: true}})
	p = planned(t, h, may(8, 6), day.Ask{Feed: true})
	for _, l := range p.Loads {
		for _, plant := range l.Plants {
			if fed := plant.ID > 2; l.Fed != fed || (l.Vessel == "bucket 2") != fed {
				t.Errorf("plant %d in %s, fed %v", plant.ID, l.Vessel, l.Fed)
			}
		}
	}
	if p.Count() != 6 || !slices.ContainsFunc(texts(h, p), func(s string) bool { return strings.HasPrefix(s, "mix fed water in bucket 2") }) {
		t.Errorf("%d planned: %q", p.Count(), texts(h, p))
	}
	if plain := planned(t, h, may(8, 6), day.Ask{}); slices.ContainsFunc(plain.Loads, func(l day.Load) bool { return l.Fed || l.Vessel == "bucket 2" }) {
		t.Error("nobody asked for a feed, and the vessel for fed water is used")
	}
}

func TestAPlantFedLatelyIsRefusedWithTheDate(t *testing.T) {
	h := household.Greens(t, 2)
	h.Say(may(2, 9), &model.Feed{How: model.ByMist, Mix: model.Mix{PPM: 50}}, 1)
	h.Say(may(2, 10), &model.VesselSet{Vessel: model.Vessel{Name: "bucket 2", Litres: 10, Fed: true}})
	p := planned(t, h, may(8, 6), day.Ask{Feed: true, Plants: model.IDs{1, 2}})
	if len(p.Left) != 1 || p.Left[0].ID != 1 || !strings.Contains(show.LeftOut(h.Book, p, p.Left[0]), "again from 1 Jun") {
		t.Errorf("left out: %v", p.Left)
	}
}

func TestWaterThatPlantsWereInIsNotUsedForLong(t *testing.T) {
	h := household.Greens(t, 40)
	for _, v := range slices.Clone(h.Vessels()[1:]) {
		h.Say(may(2, 9), &model.VesselSet{Vessel: v, Away: true})
	}
	h.Say(may(2, 9), &model.VesselSet{Vessel: model.Vessel{Name: "tub", Litres: 18}})
	for _, minutes := range []float64{300, 720} { // a load takes an hour or more
		h.Say(may(3, 9), &model.VesselSet{Vessel: model.Vessel{Name: "tub", Litres: 18, Hours: minutes / 60}})
		p := planned(t, h, may(8, 6), day.Ask{Until: may(8, 20), DryBy: may(8, 24)})
		if len(p.Loads) < 2 {
			t.Fatalf("%d loads", len(p.Loads))
		}
		limit := time.Duration(minutes) * time.Minute
		for i, l := range p.Loads[1:] {
			if l.Fill == p.Loads[i].Fill && l.Start.Sub(p.Loads[i].Start) > limit {
				t.Errorf("a load at %v into water in use since %v", l.Start, p.Loads[i].Start)
			}
		}
	}
	h.Say(may(4, 9), &model.VesselSet{Vessel: model.Vessel{Name: "tub", Litres: 18, Hours: 0.5}})
	if p := planned(t, h, may(8, 6), day.Ask{Until: may(8, 20), DryBy: may(8, 24)}); p.Fills != len(p.Loads) {
		t.Errorf("%d fills for %d loads, each longer than the half hour that water may be used", p.Fills, len(p.Loads))
	}
}

func TestFillsAreCountedThroughTheDayAndTheNight(t *testing.T) {
	h := household.Greens(t, 3)
	for _, v := range slices.Clone(h.Vessels()[1:]) {
		h.Say(may(2, 9), &model.VesselSet{Vessel: v, Away: true})
	}
	h.Say(may(2, 9), &model.Add{Plants: []model.Plant{{ID: 9, Count: 1, Form: model.Fuzzy, Leaf: model.Xeric, Size: 10}}})
	h.Say(may(7, 9), &model.Look{Signs: model.Signs{Curl: 3, Tips: 3, Shift: model.NotSeen}}, 1, 2, 3)
	p := planned(t, h, may(25, 6), day.Ask{})
	if len(p.Loads) != 2 || p.Loads[0].Fill != 1 || p.Loads[1].Fill != 2 || !p.Loads[1].Night || p.Fills != 2 {
		t.Errorf("%d fills, loads %+v", p.Fills, p.Loads)
	}
}

func TestWaterThatStandsIsUsedIfItIsFreshAndOfItsKind(t *testing.T) {
	mix := model.Mix{PPM: 50}
	for name, c := range map[string]struct {
		fill  *model.Fill
		used  bool // by a load that went out four hours before
		fills int
	}{
		"nothing stands":  {nil, false, 1},
		"fresh and plain": {&model.Fill{Vessel: "tub"}, false, 0},
		"fed":             {&model.Fill{Vessel: "tub", Fed: &mix}, false, 1},
		"used too long":   {&model.Fill{Vessel: "tub"}, true, 1},
	} {
		h := household.Greens(t, 6)
		for _, v := range slices.Clone(h.Vessels()[1:]) {
			h.Say(may(2, 9), &model.VesselSet{Vessel: v, Away: true})
		}
		if c.fill != nil {
			h.Say(may(8, 1), c.fill)
		}
		if c.used {
			h.Say(may(8, 2), &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: may(8, 3)}, 6)
			h.Say(may(8, 3), &model.Out{Shaken: true}, 6)
		}
		p := planned(t, h, may(8, 8), day.Ask{Plants: model.IDs{1, 2, 3}})
		if p.Count() != 3 || p.Fills != c.fills {
			t.Errorf("%s: %d planned with %d fills, not %d", name, p.Count(), p.Fills, c.fills)
		}
	}
}

// Water that must stand is drawn the evening before, one vessel after the other, for
// the day's first fill only.
func TestWaterThatMustStandIsDrawnTheEveningBefore(t *testing.T) {
	h := household.Greens(t, 40)
	h.Say(may(6, 8), &model.Fill{Vessel: "tub", Of: []model.Source{model.Tap}})
	h.Say(may(6, 9), &model.Drain{Vessel: "tub"})
	p := planned(t, h, may(7, 15), day.Ask{From: may(8, 8)})
	var until time.Time
	first := 0
	for _, s := range p.Steps {
		if s.Do != soak.Fill || !s.At.Before(p.Ask.From) {
			continue
		}
		first++
		if s.Until.After(may(7, 20)) || s.At.Before(until) || s.Litres == 0 {
			t.Errorf("%s is filled from %v until %v, the one before until %v", s.Vessel, s.At, s.Until, until)
		}
		until = s.Until
		if !strings.Contains(show.Step(h.Book, p, &s), "the evening before") {
			t.Errorf("said: %s", show.Step(h.Book, p, &s))
		}
	}
	if first == 0 || !p.Ahead {
		t.Errorf("nothing is drawn the evening before: %+v", p.Steps)
	}
}

// A tap that is opened this second is not one of the evening before.
func TestATapOpenedNowIsNotOfTheEveningBefore(t *testing.T) {
	m := household.Moment{Scene: "homecoming", Seed: 1, Now: time.Date(2026, time.November, 28, 9, 0, 0, 0, time.UTC)}
	h, p := lived(t, m), proposed(t, m)
	h.Say(m.Now, p.Agree(h.Book, m.Now))
	fills := 0
	for seconds := 20; seconds < 3600; seconds += 340 {
		p = current(t, h, m.Now.Add(time.Duration(seconds)*time.Second))
		for _, s := range p.Steps {
			if s.Do != soak.Fill || s.Done {
				continue
			}
			if fills++; strings.Contains(show.Step(h.Book, p, &s), "the evening before") {
				t.Errorf("after %d s: %s", seconds, show.Step(h.Book, p, &s))
			}
		}
	}
	if fills == 0 {
		t.Error("nothing is filled: it shows nothing")
	}
}

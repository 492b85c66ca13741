package plan_test

import (
	"testing"

	"tubside/model/soak"
)

// bathroom is one tub, filled, from nine to five, plants dry by nine at night.
func bathroom(items ...soak.Item) *soak.Session {
	return &soak.Session{
		Items:   items,
		Vessels: []soak.Vessel{{Room: 100, Refill: 15 * minute, Water: &soak.Water{}}},
		Hours:   []soak.Hours{{From: 9 * hour, To: 17 * hour, DryBy: 21 * hour}},
	}
}

// rosettes are n plants alike, each with a Short soak.
func rosettes(n int) []soak.Item {
	items := make([]soak.Item, n)
	for i := range items {
		items[i] = soak.Item{ID: i + 1, From: 20 * minute, To: 60 * minute, Bulk: 0.5,
			HandsIn: soak.HandsIn, HandsOut: soak.HandsOut, Thirst: 0.2, DryFor: 3 * hour}
	}
	return items
}

// with changes every item.
func with(items []soak.Item, change func(i int, it *soak.Item)) []soak.Item {
	for i := range items {
		change(i, &items[i])
	}
	return items
}

func only(t *testing.T, p *soak.Plan) soak.LeftOut {
	t.Helper()
	if len(p.Left) != 1 {
		t.Fatalf("%d left out, want 1: %+v", len(p.Left), p.Left)
	}
	return p.Left[0]
}

// 80 plants in 20 minutes, out in 26.7, the first out after 30: same order out,
// soaks run from 30.0 to 36.6 minutes. Arithmetic; the trade's reason for first
// in, first out.
func TestEightyPlantsFirstInFirstOut(t *testing.T) {
	p := arrange(t, bathroom(with(rosettes(80), func(_ int, it *soak.Item) { it.From = 30 * minute })...), soak.Effort{})
	if len(p.Loads) != 1 {
		t.Fatalf("%d loads, want one", len(p.Loads))
	}
	plants := p.Loads[0].Plants
	first, last := plants[0], plants[79]
	if got := first.Out - first.In; got != 30*minute {
		t.Errorf("the first soaks %d s, want 1800", got)
	}
	if got := last.Out - last.In; got != 30*minute+79*5 {
		t.Errorf("the last soaks %d s, want 2195: 36.6 min", got)
	}
	if want := 9*hour + 30*minute + 80*20; p.HandsFree != want || p.Bound.HandsFree != want {
		t.Errorf("hands free at %d, bound %d, want %d", p.HandsFree, p.Bound.HandsFree, want)
	}
}

func TestAPauseIsKeptAndSoakedThrough(t *testing.T) {
	s := bathroom(with(rosettes(4), func(_ int, it *soak.Item) { it.From, it.To = 60*minute, 180*minute })...)
	s.Hours = []soak.Hours{{From: 9 * hour, To: 9*hour + 30*minute, DryBy: 21 * hour}, {From: 11 * hour, To: 12 * hour, DryBy: 21 * hour}}
	p := arrange(t, s, soak.Effort{})
	if len(p.Left) != 0 || p.Loads[0].Out != 11*hour {
		t.Errorf("left out %v, first out at %d; want all out after the pause, at %d", p.Left, p.Loads[0].Out, 11*hour)
	}
}

// An overnight soak goes in last in the evening and comes out in the morning;
// the hands are free in the evening.
func TestOvernightSoakComesOutInTheMorning(t *testing.T) {
	long := with(rosettes(3), func(_ int, it *soak.Item) { it.From, it.To = 480*minute, 720*minute })
	s := bathroom(long...)
	s.Hours = []soak.Hours{{From: 18 * hour, To: 22 * hour, DryBy: 23 * hour}}
	p := arrange(t, s, soak.Effort{})
	if len(p.Left) != 3 || p.Left[0].Why != soak.NoHours || p.Left[0].Help[0] != soak.MorningHours {
		t.Fatalf("without a morning: %+v", p.Left)
	}
	s.Hours = append(s.Hours, soak.Hours{From: 31 * hour, To: 33 * hour, DryBy: 45 * hour, OutOnly: true})
	p = arrange(t, s, soak.Effort{})
	if len(p.Left) != 0 || p.Loads[0].Out < 31*hour {
		t.Fatalf("left out %v, loads %+v", p.Left, p.Loads)
	}
	if p.HandsFree >= 23*hour || p.HandsFree < 19*hour {
		t.Errorf("hands free at %d, want in the evening, late enough for 12 h in water", p.HandsFree)
	}
}

// Common practice, no source: the healthy first, the sick last and apart.
func TestCompanyInTheWater(t *testing.T) {
	items := with(rosettes(8), func(i int, it *soak.Item) { it.Company = soak.Company(i / 2) })
	p := arrange(t, bathroom(items...), soak.Effort{})
	if len(p.Loads) != 4 || p.Fills != 1 {
		t.Fatalf("%d loads, %d fills; want one load a company, and fresh water for the sick alone", len(p.Loads), p.Fills)
	}
	for c, l := range p.Loads {
		if l.Company != soak.Company(c) {
			t.Errorf("load %d is %v, want %v", c+1, l.Company, soak.Company(c))
		}
	}
	s := bathroom(items...)
	all := p.Actions(s)
	if last := all[len(all)-1]; last.Do != soak.Empty {
		t.Errorf("the day ends with %v, want the water of the sick thrown out", last.Do)
	}
}

func TestNothingToPlanWith(t *testing.T) {
	s := bathroom(rosettes(3)...)
	s.Vessels = nil
	for _, l := range arrange(t, s, soak.Effort{}).Left {
		if l.Why != soak.NoVessel {
			t.Errorf("no vessels: plant %d: %v", l.ID, l.Why)
		}
	}
	if p := arrange(t, bathroom(), soak.Effort{}); len(p.Loads) != 0 || p.HandsFree != 9*hour || p.AllDry != 9*hour {
		t.Errorf("no plants: %+v", p)
	}
}

func TestFedPlantsNeedAFedVessel(t *testing.T) {
	s := bathroom(with(rosettes(2), func(i int, it *soak.Item) { it.Fed = i == 0 })...)
	if l := only(t, arrange(t, s, soak.Effort{})); l.ID != 1 || l.Why != soak.NoVessel {
		t.Errorf("%+v", l)
	}
	s.Vessels = append(s.Vessels, soak.Vessel{Room: 10, Refill: 5 * minute, Fed: true})
	if p := arrange(t, s, soak.Effort{}); len(p.Left) != 0 {
		t.Errorf("left out %+v", p.Left)
	}
}

// The plan says by how much earlier a plant would have to start, and then it
// is dry in time, to the second.
func TestAPlantThatDriesTooSlowly(t *testing.T) {
	s := bathroom(with(rosettes(5), func(i int, it *soak.Item) {
		if i == 2 {
			it.DryFor = 14 * hour
		}
	})...)
	l := only(t, arrange(t, s, soak.Effort{}))
	if l.ID != 3 || l.Why != soak.DriesTooSlow || l.Help[0] != soak.StartEarlier {
		t.Fatalf("%+v", l)
	}
	s.Hours[0].From -= l.By - 1
	if p := arrange(t, s, soak.Effort{}); len(p.Left) != 1 {
		t.Errorf("a second less: left out %+v", p.Left)
	}
	s.Hours[0].From--
	if p := arrange(t, s, soak.Effort{}); len(p.Left) != 0 {
		t.Errorf("so much earlier: left out %+v", p.Left)
	}
}

// Slow driers come out first when that is what makes them dry in time.
func TestSlowDriersComeOutFirst(t *testing.T) {
	s := bathroom(with(rosettes(120), func(i int, it *soak.Item) {
		if i%4 == 3 {
			it.DryFor = 10*hour + 50*minute
		}
	})...)
	if p := arrange(t, s, soak.Effort{}); len(p.Left) != 0 {
		t.Errorf("%d left out, the first %+v", len(p.Left), p.Left[0])
	}
}

func TestTheThirstiestAreServed(t *testing.T) {
	s := bathroom(with(rosettes(200), func(i int, it *soak.Item) { it.Thirst = 0.1 + float64(i)/1000 })...)
	s.Hours[0].To = 10 * hour
	p := arrange(t, s, soak.Effort{})
	if len(p.Left) < 90 || p.Left[0].Why != soak.HandsTaken {
		t.Fatalf("%d left out, %+v", len(p.Left), p.Left[0])
	}
	for k, l := range p.Left {
		if l.Index != k {
			t.Fatalf("plant %d is left out, a less thirsty one is not", l.ID)
		}
	}
}

// Three dry for three hours before three more have room; a fan makes it less.
func TestBenchRoomWhenItComesOut(t *testing.T) {
	s := bathroom(with(rosettes(9), func(_ int, it *soak.Item) { it.BenchRoom = 1 })...)
	s.Hours[0].To = 14 * hour
	s.Benches = []soak.Bench{{Room: 3, Factor: 1}}
	p := arrange(t, s, soak.Effort{})
	if len(p.Left) != 3 {
		t.Errorf("%d left out, want 3", len(p.Left))
	}
	for _, l := range p.Left {
		if l.Why != soak.BenchesTaken || l.Help[0] != soak.MoreBench {
			t.Errorf("plant %d: %v", l.ID, l.Why)
		}
	}
	s.Benches[0].Factor = 0.5
	if p := arrange(t, s, soak.Effort{}); len(p.Left) != 0 {
		t.Errorf("with a fan: %d left out, want none", len(p.Left))
	}
	s.Benches[0].Room = 0.5
	for _, l := range arrange(t, s, soak.Effort{}).Left {
		if l.Why != soak.NoBenchSize {
			t.Errorf("plant %d: %v", l.ID, l.Why)
		}
	}
}

// A fan that stands free is used; where its room is short it is for those that
// need it to be dry in time.
func TestTheFanIsForThoseThatNeedIt(t *testing.T) {
	s := bathroom(with(rosettes(6), func(i int, it *soak.Item) {
		it.BenchRoom = 1
		if i < 2 {
			it.DryFor = 13 * hour
		}
	})...)
	s.Benches = []soak.Bench{{Room: 10, Factor: 1}, {Room: 10, Factor: 0.5}}
	for room := 10.0; room >= 2; room -= 8 {
		s.Benches[1].Room = room
		p := arrange(t, s, soak.Effort{})
		if len(p.Left) != 0 {
			t.Fatalf("fan over room for %g: left out %+v", room, p.Left)
		}
		for _, l := range p.Loads {
			for _, plant := range l.Plants {
				if fan := plant.Bench == 1; fan != (room == 10 || plant.ID <= 2) {
					t.Errorf("fan over room for %g: plant %d under it: %v", room, plant.ID, fan)
				}
			}
		}
	}
}

func TestShelfMatesStayTogether(t *testing.T) {
	s := bathroom(with(rosettes(40), func(i int, it *soak.Item) { it.Shelf = i % 4 })...)
	changes, before := 0, -1
	for _, l := range arrange(t, s, soak.Effort{}).Loads {
		for _, plant := range l.Plants {
			if plant.Shelf != before {
				changes, before = changes+1, plant.Shelf
			}
		}
	}
	if changes > 4 {
		t.Errorf("the walk changes shelves %d times, want once a shelf", changes)
	}
}

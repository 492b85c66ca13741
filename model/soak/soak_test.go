package soak

import (
	"context"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

const (
	minute = 60
	hour   = 3600
)

// rosette is a plant of a minute's work, with half an hour to three in the water.
func rosette(id int) Item {
	return Item{
		ID: id, Least: 30 * minute, Most: 180 * minute, Bulk: 1, Thirst: 0.2, DryFor: 2 * hour,
		Hands: Hands{Pull: 10, In: 15, Out: 12, Lay: 8, Hang: 15},
	}
}

// aDay is one from nine to five with one vessel, filled.
func aDay(items ...Item) *Session {
	return &Session{
		Items: items, Vessels: []Vessel{{Room: 20, Fill: 10 * minute, Rinse: 2 * minute, Water: &Water{}}},
		Hours: []Hours{{From: 9 * hour, To: 17 * hour, DryBy: 21 * hour}},
	}
}

// withTimes is a schedule of a load for each list of items, worked on in an order, with its
// times.
func withTimes(t *testing.T, s *Session, order []Visit, loads ...[]int) (*trier, schedule) {
	t.Helper()
	by := newTrier(prepare(s).with(1))
	var d schedule
	for _, items := range loads {
		l := load{items: items, kind: by.p.kind(items[0])}
		by.p.sum(&l)
		d.loads = append(d.loads, l)
	}
	d.order = order
	if _, ok := by.try(&d); !ok {
		t.Fatalf("no times: %v", by.clock.fault.why)
	}
	return by, d
}

// A load that would be out too late goes in later: its clock slides, and its order
// does not change.
func TestTheClockSlidesWhatAWindowAsksFor(t *testing.T) {
	short, long := rosette(1), rosette(2)
	short.Most = 40 * minute
	long.Hands.Out = 20 * minute // a giant clump
	s := aDay(short, long)
	order := []Visit{{Pull, 1}, {PutIn, 1}, {Pull, 0}, {PutIn, 0}, {GetOut, 1}, {GetOut, 0}}
	by, _ := withTimes(t, s, order, []int{0}, []int{1})
	first, second := by.clock.loads[0], by.clock.loads[1]
	if soaked := first.out - first.in; first.out != second.end || soaked != 40*minute {
		t.Errorf("out at %d after %d s, and the other is out at %d; want 2400 s, right after it", first.out, soaked, second.end)
	}
	if first.in < 9*hour+10*minute {
		t.Errorf("in at %d: it has not slid", first.in)
	}
}

// Two loads of a kind may lie in one vessel as two heaps; of two kinds they may not,
// and never more than two, nor more than it holds.
func TestTwoHeapsShareAVessel(t *testing.T) {
	both := []Visit{{Pull, 0}, {Pull, 1}, {PutIn, 0}, {PutIn, 1}, {GetOut, 0}, {GetOut, 1}}
	by, _ := withTimes(t, aDay(rosette(1), rosette(2)), both, []int{0}, []int{1})
	if a, b := by.clock.loads[0].heap, by.clock.loads[1].heap; a != 1 || b != 2 {
		t.Errorf("heaps %d and %d, want 1 and 2", a, b)
	}
	for name, change := range map[string]func(s *Session){
		"a newcomer beside the healthy": func(s *Session) { s.Items[1].Company = Newcomer },
		"more than the vessel holds":    func(s *Session) { s.Vessels[0].Room = 1.5 },
	} {
		s := aDay(rosette(1), rosette(2))
		change(s)
		p := newTrier(prepare(s).with(1))
		d := schedule{order: both}
		for i := range s.Items {
			l := load{items: []int{i}, kind: p.p.kind(i)}
			p.p.sum(&l)
			d.loads = append(d.loads, l)
		}
		if _, ok := p.try(&d); ok || p.clock.fault.why != VesselsTaken {
			t.Errorf("%s: they share a vessel", name)
		}
	}
}

// A change of no use is given up early, and never one that is of use.
func TestWhatServesTooLittleIsGivenUp(t *testing.T) {
	late := rosette(2)
	late.DryFor = 20 * hour // finds no place to dry
	order := []Visit{{Pull, 0}, {PutIn, 0}, {GetOut, 0}}
	by, d := withTimes(t, aDay(rosette(1), late), order, []int{0, 1})
	if len(d.loads[0].items) != 1 {
		t.Fatalf("%d plants find a place, want 1", len(d.loads[0].items))
	}
	worth := by.p.weight[0]
	both := load{items: []int{0, 1}, kind: by.p.kind(0)}
	by.p.sum(&both)
	again := schedule{loads: []load{both}, order: order}
	if _, ok := by.atLeast(&again, worth+1); ok {
		t.Error("it serves less than is asked, and is kept")
	}
	if sc, ok := by.atLeast(&again, worth); !ok || sc.weight != worth {
		t.Errorf("it serves as much as is asked: %v, %v", sc, ok)
	}
}

// What is overdue comes out shortest first, so that the least time is lost for all.
func TestOverdueShortestFirst(t *testing.T) {
	many, few := Given{Vessel: 0, Due: true}, Given{Vessel: 1, Due: true}
	for id := range 30 {
		many.Items, many.In = append(many.Items, rosette(100+id)), append(many.In, 8*hour)
	}
	few.Items, few.In = []Item{rosette(200)}, []int{8 * hour}
	s := aDay(rosette(1))
	s.Vessels = append(s.Vessels, s.Vessels[0])
	s.Vessels[0].Water, s.Vessels[0].Room, s.Vessels[1].Water = nil, 30, nil
	s.Given = []Given{many, few}
	p, err := Arrange(context.Background(), s, Effort{Work: 1000})
	if err != nil {
		t.Fatal(err)
	}
	first := slices.IndexFunc(p.Actions, func(a Action) bool { return a.Do.Hands() })
	if a := p.Actions[first]; a.Do != GetOut || a.Vessel != 1 {
		t.Errorf("the hands begin with %v of vessel %d", a.Do, a.Vessel)
	}
}

// Whatever the day: no pair of hands is in two places, no load holds two companies, and
// every plant is planned or left out, once.
func TestAnyDayKeepsItsPromises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := aDay()
		for id := range rapid.IntRange(0, 40).Draw(t, "plants") {
			it := rosette(id + 1)
			it.Least = rapid.IntRange(1, 120).Draw(t, "least") * minute
			it.Most = it.Least + rapid.IntRange(0, 120).Draw(t, "longer")*minute
			it.Company = Company(rapid.IntRange(0, int(Sick)).Draw(t, "company"))
			s.Items = append(s.Items, it)
		}
		s.Vessels = append(s.Vessels, Vessel{Room: 6, Fill: 2 * minute, Rinse: minute, Loads: 2})
		if rapid.Bool().Draw(t, "help") {
			s.Help = []Stretch{{9 * hour, 10 * hour}}
		}
		p, err := Arrange(context.Background(), s, Effort{Work: 5000})
		if err != nil {
			t.Fatal(err)
		}
		free := map[int]int{}
		for _, a := range p.Actions {
			if !a.Do.Hands() {
				continue
			}
			if a.At < free[a.Hands] {
				t.Fatalf("pair %d is wanted at %d, and busy until %d", a.Hands, a.At, free[a.Hands])
			}
			free[a.Hands] = a.Until
		}
		times := map[int]int{}
		for _, l := range p.Loads {
			for _, x := range l.Plants {
				times[x.ID]++
				if x.Company != l.Company {
					t.Fatalf("plant %d is %v, in a load of %v", x.ID, x.Company, l.Company)
				}
				if soaked := x.Out - x.In; soaked < x.Least || soaked > x.Most {
					t.Fatalf("plant %d soaks %d s, its window is %d to %d", x.ID, soaked, x.Least, x.Most)
				}
			}
		}
		for _, l := range p.Left {
			times[l.ID]++
		}
		for _, it := range s.Items {
			if times[it.ID] != 1 {
				t.Fatalf("plant %d is planned or left out %d times", it.ID, times[it.ID])
			}
		}
	})
}

// The plants of a load go in as they hang along the shelves, where their windows let
// them, and those whose do not are at its ends.
func TestALoadGoesInAlongTheShelves(t *testing.T) {
	s := aDay()
	s.Vessels[0].Room = 100
	for id := range 60 {
		it := rosette(id + 1)
		it.Walk = (id * 37) % 60
		it.DryFor += id * minute
		if id%20 == 0 {
			it.Most = 31 * minute // must be among the first out
		}
		s.Items = append(s.Items, it)
	}
	p, err := Arrange(context.Background(), s, Effort{})
	if err != nil || len(p.Loads) != 1 || len(p.Left) > 0 {
		t.Fatalf("%v, %d loads, left out %v", err, len(p.Loads), p.Left)
	}
	walks := 1
	plants := p.Loads[0].Plants
	for k := range plants[1:] {
		if plants[k+1].Walk < plants[k].Walk {
			walks++
		}
	}
	if walks > 2 {
		t.Errorf("fetched in %d walks, want one for those that come out first and one for the rest", walks)
	}
}

// A child can drown in a tub or a bucket (U.S. Consumer Product Safety Commission): water that
// nothing more goes into is let out before the hands begin with anything else.
func TestWaterThatNothingGoesIntoIsLetOutFirst(t *testing.T) {
	item := func(id int) Item {
		return Item{ID: id, Least: 1800, Most: 7200, Bulk: 1, Hands: Hands{Pull: 60, In: 20, Out: 20, Lay: 10}, Thirst: 1, DryFor: 3600}
	}
	s := &Session{
		Items:   []Item{item(1), item(2)},
		Vessels: []Vessel{{Room: 10, Fill: 60, Rinse: 120}, {Room: 10, Fill: 60, Rinse: 120, Water: &Water{}}},
		Hours:   []Hours{{From: 0, To: 36000, DryBy: 46000}},
		Given:   []Given{{Vessel: 0, Due: true}},
	}
	before := Before{AtOnce: 2, Loads: []LoadBefore{{Vessel: 1, IDs: []int{1, 2}}}, Order: []Visit{{Pull, 0}, {PutIn, 0}, {GetOut, 0}}}
	p, err := Slide(t.Context(), s, before)
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range p.Actions {
		if a.Do.Hands() {
			if a.Do != Empty || a.Vessel != 0 {
				t.Errorf("first they %v vessel %d at %d", a.Do, a.Vessel, a.At)
			}
			break
		}
	}
}

package plan_test

import (
	"context"
	"errors"
	"math"
	"reflect"
	"slices"
	"testing"

	"tubside/model/soak"
	"tubside/tests/plan/check"
	"tubside/tests/plan/sample"
)

// minuteOfHands is a plant's hands as the trade counts them, common practice, no
// source: 15 s in and 20 s out of the water, a minute in all.
var minuteOfHands = soak.Hands{Pull: 10, In: 15, Out: 12, Lay: 8, Hang: 15}

// bathroom is one tub, filled, from nine to five, plants dry by nine at night.
func bathroom(items ...soak.Item) *soak.Session {
	return &soak.Session{
		Items:   items,
		Vessels: []soak.Vessel{{Room: 100, Fill: 10 * minute, Rinse: 2 * minute, Water: &soak.Water{}}},
		Hours:   []soak.Hours{{From: 9 * hour, To: 17 * hour, DryBy: 21 * hour}},
	}
}

// rosettes are n plants alike, each with a Short soak.
func rosettes(n int) []soak.Item {
	items := make([]soak.Item, n)
	for i := range items {
		items[i] = soak.Item{ID: i + 1, Least: 30 * minute, Most: 180 * minute, Bulk: 0.5,
			Hands: minuteOfHands, Thirst: 0.2, DryFor: 3 * hour}
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
	p := arrange(t, bathroom(rosettes(80)...), soak.Effort{})
	if len(p.Loads) != 1 || p.Visits != 2 {
		t.Fatalf("%d loads, %d visits, want one load and two visits", len(p.Loads), p.Visits)
	}
	plants := p.Loads[0].Plants
	first, last := plants[0], plants[79]
	if got := first.Out - first.In; got != 30*minute {
		t.Errorf("the first soaks %d s, want 1800", got)
	}
	if got := last.Out - last.In; got != 30*minute+79*5 {
		t.Errorf("the last soaks %d s, want 2195: 36.6 min", got)
	}
	if want := 9*hour + 80*10 + 30*minute + 80*20 + 2*minute; p.HandsFree != want {
		t.Errorf("hands free at %d, want %d: pulled, soaked, out, the tub rinsed", p.HandsFree, want)
	}
}

// Pulling comes before laying in, so that a short window holds: a dip of ten
// minutes is not for a hundred plants.
func TestADipIsNotForAHundredPlants(t *testing.T) {
	s := bathroom(with(rosettes(100), func(_ int, it *soak.Item) { it.Least, it.Most = 2*minute, 10*minute })...)
	p := arrange(t, s, soak.Effort{})
	if len(p.Left) != 0 || len(p.Loads) < 3 {
		t.Errorf("%d loads, left out %d: 15 s each in, at most 40 are in within ten minutes", len(p.Loads), len(p.Left))
	}
}

func TestAPauseIsKeptAndSoakedThrough(t *testing.T) {
	s := bathroom(with(rosettes(4), func(_ int, it *soak.Item) { it.Least = 60 * minute })...)
	s.Hours = []soak.Hours{{From: 9 * hour, To: 9*hour + 30*minute, DryBy: 21 * hour}, {From: 11 * hour, To: 12 * hour, DryBy: 21 * hour}}
	p := arrange(t, s, soak.Effort{})
	if len(p.Left) != 0 || p.Loads[0].Out != 11*hour {
		t.Errorf("left out %v, first out at %d; want all out after the pause, at %d", p.Left, p.Loads[0].Out, 11*hour)
	}
}

// An overnight soak goes in last in the evening and comes out in the morning;
// the hands are free in the evening.
func TestOvernightSoakComesOutInTheMorning(t *testing.T) {
	long := with(rosettes(3), func(_ int, it *soak.Item) { it.Least, it.Most = 480*minute, 720*minute })
	s := bathroom(long...)
	s.Hours = []soak.Hours{{From: 18 * hour, To: 22 * hour, DryBy: 23 * hour}}
	p := arrange(t, s, soak.Effort{})
	if len(p.Left) != 3 || p.Left[0].Why != soak.NoHours {
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
	if last := p.Actions[len(p.Actions)-1]; last.Do != soak.Empty {
		t.Errorf("the day ends with %v, want the water of the sick thrown out", last.Do)
	}
}

func TestFedPlantsNeedAFedVessel(t *testing.T) {
	s := bathroom(with(rosettes(2), func(i int, it *soak.Item) { it.Fed = i == 0 })...)
	if l := only(t, arrange(t, s, soak.Effort{})); l.ID != 1 || l.Why != soak.NoVessel {
		t.Errorf("%+v", l)
	}
	s.Vessels = append(s.Vessels, soak.Vessel{Room: 10, Fill: 5 * minute, Fed: true})
	if p := arrange(t, s, soak.Effort{}); len(p.Left) != 0 {
		t.Errorf("left out %+v", p.Left)
	}
}

// Four vessels and one tap: the fills follow each other. With two taps two run.
func TestOneTapFillsOneVesselAfterTheOther(t *testing.T) {
	s := bathroom(with(rosettes(120), func(_ int, it *soak.Item) { it.Most = 60 * minute })...)
	s.Vessels[0].Water = nil
	s.Vessels = append(s.Vessels, s.Vessels[0], s.Vessels[0])
	for taps := 1; taps <= 2; taps++ {
		s.Taps = taps
		arrange(t, s, soak.Effort{})
	}
}

// Few, full loads: at most as many as the house rule says, none of a plant or two.
func TestFewFullLoads(t *testing.T) {
	s := sample.Collection(640, 3)
	for _, limit := range []int{3, 8} {
		s.Limits.Loads = limit
		p := arrange(t, s, soak.Effort{Work: 50_000})
		if len(p.Left) == 0 == (limit == 3) {
			t.Errorf("%d loads: %d left out", limit, len(p.Left))
		}
	}
}

// What is due comes out before anything else is done.
func TestOverdueFirst(t *testing.T) {
	s := bathroom(rosettes(20)...)
	s.Vessels = append(s.Vessels, soak.Vessel{Room: 50, Fill: 5 * minute})
	given := with(rosettes(30), func(i int, it *soak.Item) { it.ID = 100 + i })
	s.Given = []soak.Given{{Vessel: 0, Items: given, In: slices.Repeat([]int{8 * hour}, 30), Due: true}}
	p := arrange(t, s, soak.Effort{})
	for _, a := range p.Actions {
		if a.Do.Hands() {
			if a.Do != soak.GetOut || a.At != 9*hour {
				t.Errorf("the hands begin with %v at %d", a.Do, a.At)
			}
			break
		}
	}
	if len(p.Late) != 0 || len(p.Left) != 0 {
		t.Errorf("late %v, left out %v", p.Late, p.Left)
	}
}

// Two lengths that no window holds share a tub as two heaps, each with its clock.
func TestTwoLengthsShareATubAsTwoHeaps(t *testing.T) {
	s := bathroom(with(rosettes(40), func(i int, it *soak.Item) {
		if i < 20 {
			it.Least, it.Most = 240*minute, 300*minute
		}
	})...)
	s.Hours[0].To = 14*hour + 30*minute
	p := arrange(t, s, soak.Effort{})
	if len(p.Left) != 0 || len(p.Loads) != 2 || p.Loads[0].Heap+p.Loads[1].Heap != 3 {
		t.Errorf("left out %d, loads in heaps %+v", len(p.Left), p.Loads)
	}
}

// Another pair of hands for an hour lets more be served, or the hands be free
// earlier.
func TestASecondPairOfHandsHelps(t *testing.T) {
	s := sample.Collection(640, 2)
	s.Hours = []soak.Hours{{From: 8 * hour, To: 13 * hour, DryBy: 21 * hour}}
	alone := arrange(t, s, soak.Effort{Work: 100_000})
	s.Help = []soak.Stretch{{From: 8 * hour, To: 10 * hour}}
	helped := arrange(t, s, soak.Effort{Work: 100_000})
	if helped.Thirst <= alone.Thirst {
		t.Errorf("with help for two hours a thirst of %.1f is served, alone %.1f", helped.Thirst, alone.Thirst)
	}
}

// A plant that may be beyond rescue goes before any thirst.
func TestNobodyBeyondRescueWaits(t *testing.T) {
	s := bathroom(with(rosettes(200), func(i int, it *soak.Item) { it.Urgent = i >= 190; it.Thirst = 0.3 - float64(i)/1000 })...)
	s.Hours[0].To = 10*hour + 30*minute
	p := arrange(t, s, soak.Effort{})
	for _, l := range p.Left {
		if l.ID > 190 {
			t.Errorf("plant %d is beyond rescue, and waits", l.ID)
		}
	}
	if len(p.Left) == 0 {
		t.Error("the day is long enough for all: it shows nothing")
	}
}

// What stands in the way of a plant is said.
func TestWhyNotToday(t *testing.T) {
	for name, c := range map[string]struct {
		change func(s *soak.Session)
		why    soak.Why
	}{
		"dries too slowly": {func(s *soak.Session) { s.Items[2].DryFor = 14 * hour }, soak.DriesTooSlow},
		"no bench for it": {func(s *soak.Session) {
			s.Benches, s.Items[2].BenchRoom = []soak.Bench{{Room: 5, Factor: 1}}, 6
		}, soak.NoBenchSize},
		"no vessel for it":  {func(s *soak.Session) { s.Items[2].Bulk = 101 }, soak.NoVessel},
		"no hours":          {func(s *soak.Session) { s.Items[2].Least, s.Items[2].Most = 9*hour, 9*hour }, soak.NoHours},
		"too few of a kind": {func(s *soak.Session) { s.Items[2].Least, s.Items[2].Most = 4*hour, 4*hour; s.Limits.Plants = 2 }, soak.TooFew},
		"no more loads":     {func(s *soak.Session) { s.Items[2].Least, s.Items[2].Most = 4*hour, 4*hour; s.Limits.Loads = 1 }, soak.LoadsTaken},
		"neither more loads nor enough for one": {func(s *soak.Session) {
			s.Items[2].Least, s.Items[2].Most, s.Limits.Loads, s.Limits.Plants = 4*hour, 4*hour, 1, 2
		}, soak.LoadsTaken},
		"no room on benches": {func(s *soak.Session) {
			s.Benches = []soak.Bench{{Room: 19, Factor: 3}}
			with(s.Items, func(_ int, it *soak.Item) { it.BenchRoom = 1 })
			s.Items[2].Thirst = 0.1
		}, soak.BenchesTaken},
	} {
		t.Run(name, func(t *testing.T) {
			s := bathroom(rosettes(20)...)
			c.change(s)
			if l := only(t, arrange(t, s, soak.Effort{})); l.ID != 3 || l.Why != c.why {
				t.Errorf("plant %d: %v, want %v", l.ID, l.Why, c.why)
			}
		})
	}
}

// No load is under five plants, or less than a third of its vessel, but where fewer are due than
// two such loads have.
func TestNoLoadIsSmallUnlessFewAreDue(t *testing.T) {
	for name, c := range map[string]struct {
		due, others, left int
		share             float64
	}{
		"too few plants":          {30, 4, 4, 0},
		"enough plants":           {30, 5, 0, 0},
		"few are due":             {9, 4, 0, 0},
		"too little for the tub":  {150, 20, 20, 1.0 / 3},
		"a third of the tub":      {150, 67, 0, 1.0 / 3},
		"little is due for a tub": {100, 20, 0, 1.0 / 3},
	} {
		t.Run(name, func(t *testing.T) {
			s := bathroom(with(rosettes(c.due), func(i int, it *soak.Item) {
				if i < c.others {
					it.Least, it.Most = 210*minute, 300*minute
				}
			})...)
			s.Limits = soak.Limits{Loads: 8, Plants: 5, Share: c.share}
			if p := arrange(t, s, soak.Effort{Work: 200_000}); len(p.Left) != c.left {
				t.Errorf("%d left out, want %d", len(p.Left), c.left)
			}
		})
	}
}

// Days that nobody has, but that a book's numbers may come to.
func TestOddSessions(t *testing.T) {
	for name, change := range map[string]func(*soak.Session){
		"no plants":         func(s *soak.Session) { s.Items = nil },
		"no vessels":        func(s *soak.Session) { s.Vessels = nil },
		"only a morning":    func(s *soak.Session) { s.Hours[0].OutOnly = true },
		"before the origin": func(s *soak.Session) { s.Hours[0] = soak.Hours{From: -24 * hour, To: -20 * hour, DryBy: -15 * hour} },
		"plants of no size": func(s *soak.Session) { with(s.Items, func(_ int, it *soak.Item) { it.Bulk, it.BenchRoom = 0, 0 }) },
		"benches without limit": func(s *soak.Session) {
			s.Benches = []soak.Bench{{Room: math.Inf(1), Factor: 1}, {Room: math.Inf(1), Factor: 0.5}}
		},
		"a bench that never dries":  func(s *soak.Session) { s.Benches = []soak.Bench{{Room: 100, Factor: 1e300}, {Room: 100, Factor: 1}} },
		"a room that dries faster":  func(s *soak.Session) { s.Room = func(int) float64 { return 0.01 } },
		"a room that dries at once": func(s *soak.Session) { s.Room = func(int) float64 { return 0 } },
		"a room that never dries":   func(s *soak.Session) { s.Room = func(n int) float64 { return math.Inf(min(1, n-5)) } },
		"hands taken by given loads": func(s *soak.Session) {
			given := with(rosettes(2000), func(i int, it *soak.Item) { it.ID = 1000 + i })
			s.Given = []soak.Given{{Items: given, In: make([]int, len(given))}}
		},
		"water to let out": func(s *soak.Session) {
			s.Vessels[0].Water, s.Given = nil, []soak.Given{{Due: true}}
		},
	} {
		t.Run(name, func(t *testing.T) {
			s := bathroom(rosettes(60)...)
			change(s)
			arrange(t, s, soak.Effort{Work: 20_000})
		})
	}
}

// The same day gives the same plan, and a context that ends ends the planning.
func TestTheSameDayGivesTheSamePlan(t *testing.T) {
	s := sample.Collection(300, 9)
	one, two := arrange(t, s, soak.Effort{}), arrange(t, s, soak.Effort{})
	if !reflect.DeepEqual(one, two) {
		t.Error("two plans of one day differ")
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := soak.Arrange(ctx, s, soak.Effort{}); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}

// An agreed plan slides: the same loads in the same order, later.
func TestAPlanSlides(t *testing.T) {
	s := sample.Collection(320, 4)
	p := arrange(t, s, soak.Effort{})
	before := soak.Before{AtOnce: p.AtOnce, Order: p.Order}
	for _, l := range p.Loads {
		was := soak.LoadBefore{Vessel: l.Vessel}
		for _, x := range l.Plants {
			was.IDs = append(was.IDs, x.ID)
		}
		before.Loads = append(before.Loads, was)
	}
	for _, late := range []int{0, 20 * minute, 3 * hour, 7 * hour} {
		s.Hours[0].From = 8*hour + late
		if late > 4*hour {
			s.Hours = []soak.Hours{{From: 8*hour + late, To: 18 * hour, DryBy: 21 * hour}}
		}
		q, err := soak.Slide(context.Background(), s, before)
		if err != nil {
			t.Fatal(err)
		}
		for _, fault := range check.Plan(s, q) {
			t.Errorf("%d s late: %s", late, fault)
		}
		if late <= 20*minute {
			if len(q.Left) != len(p.Left) || len(q.Loads) != len(p.Loads) {
				t.Errorf("%d s late: %d loads and %d left out, not %d and %d", late, len(q.Loads), len(q.Left), len(p.Loads), len(p.Left))
			}
		} else if late > 4*hour && len(q.Left) <= len(p.Left) {
			t.Errorf("%d s late: nobody is left out", late)
		}
	}
}

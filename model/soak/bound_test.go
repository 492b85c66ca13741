package soak

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// drawSession is a session of everything that a session can have.
func drawSession(t *rapid.T, most int) *Session {
	const minute = 60
	between := func(name string, from, to int) int { return rapid.IntRange(from, to).Draw(t, name) }
	s := &Session{}
	open := between("hours", 60, 600) * minute
	due := open + between("dry after hours", -100, 300)*minute
	s.Hours = []Hours{{From: 0, To: open, DryBy: due}}
	if between("pause", 0, 2) == 0 {
		s.Hours = []Hours{{From: 0, To: open / 2, DryBy: due}, {From: open/2 + 30*minute, To: open + 30*minute, DryBy: due + between("later", 0, 1)*60*minute}}
	}
	if between("morning", 0, 2) == 0 {
		s.Hours = append(s.Hours, Hours{From: 1440 * minute, To: 1600 * minute, DryBy: 2000 * minute, OutOnly: true})
	}
	for range between("vessels", 1, 4) {
		v := Vessel{Room: float64(between("room", 2, 30)), Refill: between("refill", 0, 20) * minute, Loads: between("loads", 0, 3), Fed: between("fed", 0, 5) == 0}
		if between("limit", 0, 3) == 0 {
			v.Age = between("age", 100, 400) * minute
		}
		if between("young", 0, 3) == 0 {
			v.LastIn = between("last in", 10, 200) * minute
		}
		if between("water", 0, 2) == 0 {
			v.Water = &Water{Loads: between("served", 0, 2), Since: -between("since", 0, 200) * minute, Worst: Company(between("worst", 0, 2))}
		}
		s.Vessels = append(s.Vessels, v)
	}
	for range between("benches", 0, 2) {
		s.Benches = append(s.Benches, Bench{Room: float64(between("bench", 2, 30)), Factor: float64(between("bench factor", 5, 20)) / 10})
	}
	if len(s.Benches) > 0 && between("endless", 0, 1) == 0 {
		s.Benches[0].Room = math.Inf(1)
	}
	from, spread, dry := between("from", 0, 90), between("spread", 0, 90), between("dry", 1, 500)
	item := func(id int) Item {
		it := Item{ID: id, From: (from + between("more", 0, spread)) * minute, Bulk: float64(between("bulk", 1, 40)) / 10,
			HandsIn: between("in", 1, 4) * 10, HandsOut: between("out", 1, 6) * 10, Thirst: float64(between("thirst", 1, 9)),
			DryFor: between("dry for", dry/2, dry) * minute, BenchRoom: float64(between("lies", 0, 20)) / 10, Fed: between("wants fed", 0, 8) == 0}
		it.To = it.From + between("window", 1, 120)*minute
		if between("company", 0, 9) == 0 {
			it.Company = Company(between("which", 1, 3))
		}
		return it
	}
	for i := range between("plants", 1, most) {
		s.Items = append(s.Items, item(i+1))
	}
	if between("given", 0, 2) == 0 {
		g := Given{Vessel: between("holds", 0, len(s.Vessels)-1)}
		for i := range between("in it", 1, 6) {
			g.Items = append(g.Items, item(1000+i))
			g.In = append(g.In, -40*minute+i*minute)
		}
		s.Given = append(s.Given, g)
	}
	for range between("drying", 0, 3) {
		s.Drying = append(s.Drying, Drying{Bench: between("lies on", 0, max(0, len(s.Benches)-1)), Room: 1, Until: between("until", 0, 600) * minute})
	}
	if between("crowding", 0, 1) == 0 {
		step := float64(between("crowd", 0, 100)) / float64(10*most)
		s.Room = func(n int) float64 { return 1 + float64(step*float64(n)) }
	}
	return s
}

// No plan of a session, whatever number of plants it allows to dry at once, is
// better than a bound made for any other.
func TestNoPlanBeatsABound(t *testing.T) {
	for _, size := range []struct {
		name         string
		plants, work int
	}{{"few", 8, 4000}, {"some", 30, 20_000}, {"many", 120, 40_000}} {
		t.Run(size.name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				s := drawSession(t, size.plants)
				if err := s.Check(); err != nil {
					t.Fatal(err)
				}
				p := prepare(s)
				p = p.with(rapid.IntRange(0, p.all()).Draw(t, "bound's crowd"))
				b := p.bounder()
				most := b.thirst()
				for _, crowd := range []int{p.all(), rapid.IntRange(1, p.all()).Draw(t, "plan's crowd")} {
					plan := planWith(prepare(s).with(crowd), size.work)
					if plan.Thirst > most+1e-6 {
						t.Fatalf("a plan serves %g, the bound is %g", plan.Thirst, most)
					}
					var items []int
					for _, l := range plan.Loads {
						for _, x := range l.Plants {
							if x.Index >= 0 {
								items = append(items, x.Index)
							}
						}
					}
					if free := b.handsFree(items); free > plan.HandsFree {
						t.Fatalf("a plan has the hands free at %d, the bound is %d", plan.HandsFree, free)
					}
				}
			})
		})
	}
}

// planWith is a plan with drying times for a number of plants drying at once.
func planWith(p *problem, work int) *Plan {
	s := newSearch(p, 0, never)
	for _, r := range rules() {
		s.offer(s.d.build(r, p.wanted), s.d.score())
	}
	s.improve(1, work)
	s.fillUp()
	return s.plan(0)
}

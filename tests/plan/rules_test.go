package plan_test

import (
	"context"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"tubside/model/soak"
	"tubside/tests/plan/check"
)

const (
	minute = 60
	hour   = 3600
)

// anySession draws a soak day with every rule in it: pauses, a morning after,
// fed water, all companies, loads in the water, little bench room, damp rooms.
var anySession = rapid.Custom(func(t *rapid.T) *soak.Session {
	s := &soak.Session{Hours: anyHours(t)}
	s.Benches = rapid.SliceOfN(rapid.Custom(anyBench), 0, 3).Draw(t, "benches")
	s.Vessels = rapid.SliceOfN(rapid.Custom(anyVessel), 1, 4).Draw(t, "vessels")
	s.Items = rapid.SliceOfN(rapid.Custom(anyItem), 0, 25).Draw(t, "items")
	for i := range s.Items {
		s.Items[i].ID = i + 1
	}
	for v := range s.Vessels {
		if rapid.IntRange(0, 3).Draw(t, "load in it") == 0 {
			s.Given = append(s.Given, anyGiven(t, v, len(s.Given)))
		}
	}
	if len(s.Given) > 0 && rapid.Bool().Draw(t, "not all in yet") {
		s.Given[0].More = rapid.SliceOfNDistinct(rapid.IntRange(0, max(0, len(s.Items)-1)), 0, min(6, len(s.Items)), rapid.ID[int]).Draw(t, "to go in")
	}
	if rapid.Bool().Draw(t, "there was a plan") {
		s.Before = anyBefore(t, s)
	}
	if len(s.Benches) > 0 && rapid.Bool().Draw(t, "some dry already") {
		s.Drying = []soak.Drying{{Bench: 0, Room: min(3, s.Benches[0].Room), Until: s.Hours[0].From + rapid.IntRange(-600, 4*hour).Draw(t, "until")}}
	}
	if rapid.Bool().Draw(t, "damp room") {
		s.Room = func(drying int) float64 { return 1 + 0.03*float64(drying) }
	}
	return s
})

func anyHours(t *rapid.T) []soak.Hours {
	from := rapid.IntRange(7, 16).Draw(t, "from") * hour
	noon := from + rapid.IntRange(10, 200).Draw(t, "until the pause")*minute
	after := noon + rapid.IntRange(0, 90).Draw(t, "pause")*minute
	end := after + rapid.IntRange(10, 200).Draw(t, "after it")*minute
	dryBy := end + rapid.IntRange(-60, 360).Draw(t, "dry by")*minute
	hours := []soak.Hours{{From: from, To: noon, DryBy: dryBy}, {From: after, To: end, DryBy: dryBy}}
	if rapid.Bool().Draw(t, "morning after") {
		hours = append(hours, soak.Hours{From: 31 * hour, To: 33 * hour, DryBy: 45 * hour, OutOnly: true})
	}
	return hours
}

func anyBench(t *rapid.T) soak.Bench {
	return soak.Bench{Room: float64(rapid.IntRange(0, 30).Draw(t, "room")), Factor: float64(rapid.IntRange(2, 6).Draw(t, "factor")) / 4}
}

func anyVessel(t *rapid.T) soak.Vessel {
	v := soak.Vessel{
		Room:   float64(rapid.IntRange(1, 12).Draw(t, "litres")),
		Refill: rapid.IntRange(0, 15).Draw(t, "refill") * minute,
		Loads:  rapid.IntRange(0, 3).Draw(t, "loads"),
		Age:    rapid.SampledFrom([]int{0, 0, 2 * hour, 5 * hour}).Draw(t, "age"),
		LastIn: rapid.SampledFrom([]int{0, 0, hour, 3 * hour}).Draw(t, "last in"),
		Fed:    rapid.IntRange(0, 4).Draw(t, "fed") == 0,
	}
	if rapid.Bool().Draw(t, "filled") {
		v.Water = &soak.Water{
			Loads: rapid.IntRange(0, 2).Draw(t, "served"),
			Since: 6 * hour,
			Worst: soak.Company(rapid.IntRange(0, 3).Draw(t, "worst")),
			Ready: rapid.SampledFrom([]int{0, 6 * hour, 9 * hour}).Draw(t, "poured by"),
		}
	}
	return v
}

func anyItem(t *rapid.T) soak.Item {
	from := rapid.SampledFrom([]int{0, 2, 20, 60, 90, 480}).Draw(t, "from")
	return soak.Item{
		From: from * minute, To: (from + rapid.SampledFrom([]int{0, 5, 40, 120, 240}).Draw(t, "width")) * minute,
		Bulk:    float64(rapid.IntRange(0, 20).Draw(t, "bulk")) / 4,
		HandsIn: rapid.IntRange(1, 40).Draw(t, "in"), HandsOut: rapid.IntRange(1, 60).Draw(t, "out"),
		Company:   soak.Company(rapid.SampledFrom([]int{0, 0, 0, 1, 2, 3}).Draw(t, "company")),
		Fed:       rapid.IntRange(0, 5).Draw(t, "fed") == 0,
		Thirst:    float64(rapid.IntRange(1, 60).Draw(t, "thirst")) / 100,
		Shelf:     rapid.IntRange(0, 3).Draw(t, "shelf"),
		DryFor:    rapid.IntRange(0, 300).Draw(t, "dry") * minute,
		BenchRoom: float64(rapid.IntRange(0, 6).Draw(t, "bench room")),
	}
}

func anyGiven(t *rapid.T, v, nth int) soak.Given {
	g := soak.Given{Vessel: v}
	in := 7*hour - rapid.IntRange(0, 120).Draw(t, "in since")*minute
	for k := range rapid.IntRange(1, 4).Draw(t, "plants in it") {
		it := anyItem(t)
		it.ID = 1000 + 10*nth + k
		it.Company, it.Fed = soak.Healthy, false
		g.Items, g.In = append(g.Items, it), append(g.In, in)
		in += it.HandsIn
	}
	return g
}

// anyBefore is a plan that may have little to do with the day any more.
func anyBefore(t *rapid.T, s *soak.Session) *soak.Before {
	b := &soak.Before{AtOnce: rapid.IntRange(0, 40).Draw(t, "dried at once")}
	for range rapid.IntRange(0, 6).Draw(t, "loads before") {
		b.Loads = append(b.Loads, soak.LoadBefore{
			Vessel: rapid.IntRange(0, len(s.Vessels)-1).Draw(t, "went into"),
			IDs:    rapid.SliceOfN(rapid.IntRange(1, 30), 0, 8).Draw(t, "plants before"),
		})
	}
	return b
}

func TestEveryPlanKeepsEveryRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySession.Draw(t, "session")
		p, err := soak.Arrange(context.Background(), s, soak.Effort{Work: 4000})
		if err != nil {
			t.Fatal(err)
		}
		for _, fault := range check.Plan(s, p) {
			t.Error(fault)
		}
	})
}

func TestTheSamePlanEveryTime(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySession.Draw(t, "session")
		a, _ := soak.Arrange(context.Background(), s, soak.Effort{Work: 3000})
		b, _ := soak.Arrange(context.Background(), s, soak.Effort{Work: 3000})
		if !reflect.DeepEqual(a, b) {
			t.Fatal("two plans of one session differ")
		}
	})
}

func TestMoreWorkNeverMakesAWorsePlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySession.Draw(t, "session")
		s.Room = nil // another guess of how many dry at once is another session
		short, _ := soak.Arrange(context.Background(), s, soak.Effort{Work: 1})
		long, _ := soak.Arrange(context.Background(), s, soak.Effort{Work: 5000})
		if long.Thirst < short.Thirst*(1-1e-5) || long.Thirst == short.Thirst && long.HandsFree > short.HandsFree {
			t.Fatalf("thirst %g then %g, hands free %d then %d", short.Thirst, long.Thirst, short.HandsFree, long.HandsFree)
		}
	})
}

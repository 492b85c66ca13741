package plan_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"tubside/model/soak"
	"tubside/tests/plan/check"
	"tubside/tests/plan/sample"
)

// shuffled is a session with its plants in another order: the same day, for which the
// search draws other changes.
func shuffled(s *soak.Session, seed uint64) *soak.Session {
	t := *s
	t.Items = slices.Clone(s.Items)
	if seed > 0 {
		rng := rand.New(rand.NewPCG(seed, 0))
		rng.Shuffle(len(t.Items), func(i, j int) { t.Items[i], t.Items[j] = t.Items[j], t.Items[i] })
	}
	return &t
}

// stuffy is a collection in a room in which many dry slowly, so that it matters how
// many do at once.
func stuffy(n int, seed uint64) *soak.Session {
	s := sample.Collection(n, seed)
	s.Room = func(drying int) float64 { return 1 + float64(drying)/float64(n) }
	for i := range s.Items {
		s.Items[i].DryFor *= 2
	}
	return s
}

// The bound is the day's: the same in whatever order its plants are, and not below the
// thirst that any plan serves. The small days' proven most comes from another solver.
func TestNoPlanBeatsTheBoundOfTheDay(t *testing.T) {
	var days []exactDay
	var answers []exactAnswer
	readJSON(t, "exact/instances.json", &days)
	readJSON(t, "exact/answers.json", &answers)
	for i, a := range answers {
		s := days[i].session()
		all, most := 0.0, a.Worth
		for _, it := range s.Items {
			all += it.Thirst
		}
		for _, it := range s.Items {
			if it.Urgent && most > all+1e-6 {
				most -= all // what its being urgent adds
			}
		}
		if bound := check.MostThirst(s); bound < most-1e-6 {
			t.Errorf("%s: a bound of %.3f, and %.3f can be served", a.Name, bound, most)
		}
	}
	for seed := range uint64(3) {
		for _, n := range []int{60, 200} {
			s, best := stuffy(n, seed), 0.0
			bound := check.MostThirst(s)
			for k := range uint64(4) {
				order := shuffled(s, k)
				best = max(best, arrange(t, order, soak.Effort{Work: 1 + 50_000*int(k)}).Thirst)
				if again := check.MostThirst(order); math.Abs(again-bound) > 1e-6 {
					t.Errorf("%d plants, no. %d: a bound of %.3f in one order, of %.3f in another", n, seed, bound, again)
				}
			}
			if bound < best {
				t.Errorf("%d plants, no. %d: a bound of %.3f, and %.3f are served", n, seed, bound, best)
			}
			t.Logf("%d plants, no. %d: %.2f served, bound %.2f", n, seed, best, bound)
		}
	}
}

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
		for _, bound := range []float64{check.MostThirst(s), closest(s, &soak.Plan{})} {
			if bound < most-1e-6 {
				t.Errorf("%s: a bound of %.3f, and %.3f can be served", a.Name, bound, most)
			}
		}
	}
	for seed := range uint64(3) {
		for _, n := range []int{60, 200} {
			s, best := stuffy(n, seed), 0.0
			bound, closer := check.MostThirst(s), closest(s, &soak.Plan{})
			for k := range uint64(4) {
				order := shuffled(s, k)
				best = max(best, arrange(t, order, soak.Effort{Work: 1 + 50_000*int(k)}).Thirst)
				if again := check.MostThirst(order); math.Abs(again-bound) > 1e-6 {
					t.Errorf("%d plants, no. %d: a bound of %.3f in one order, of %.3f in another", n, seed, bound, again)
				}
			}
			if closer < best || closer > bound {
				t.Errorf("%d plants, no. %d: a bound of %.3f, a closer one of %.3f, and %.3f are served", n, seed, bound, closer, best)
			}
			t.Logf("%d plants, no. %d: %.2f served, bound %.2f", n, seed, best, bound)
		}
	}
}

// overdue is a day with as many seconds of hands as ten plants take, whose water is let out
// then, and four that are overdue in a bucket, whose water is too. Arithmetic.
func overdue(hands int) *soak.Session {
	from := 9 * hour
	rosette := func(i int, it *soak.Item) { it.Least, it.Most = minute, 30*minute }
	bucket := soak.Given{Vessel: 1, Due: true, Items: with(rosettes(4), rosette), In: slices.Repeat([]int{from - 20*minute}, 4)}
	for k := range bucket.Items {
		bucket.Items[k].ID, bucket.Items[k].DryFor = 100+k, hour
	}
	return &soak.Session{
		Items:   with(rosettes(10), rosette),
		Vessels: []soak.Vessel{{Room: 5, Rinse: 2 * minute, Loads: 1, Water: &soak.Water{}}, {Room: 2, Rinse: 2 * minute, Loads: 1, Water: &soak.Water{Loads: 1}}},
		Hours:   []soak.Hours{{From: from, To: from + hands, DryBy: from + 12*hour}},
		Given:   []soak.Given{bucket},
	}
}

// Days that just suffice: the closer bound lets all be served, as the plan does, and with a
// second less it does not, as no plan can.
func TestTheCloserBoundIsMet(t *testing.T) {
	const need = 10*(10+15+12+8) + 2*minute + 4*(12+8) + 2*minute
	slow := func(due bool, dryBy int) *soak.Session { // goes into the bucket when the others are out, or first, into the tub
		s := overdue(2 * hour)
		s.Vessels[1].Loads = 2
		s.Items = s.Items[:1]
		s.Items[0].Hands.Pull = 0
		if s.Given[0].Due = due; !due { // they have five minutes to go
			with(s.Given[0].Items, func(_ int, it *soak.Item) { it.Least = 25 * minute })
		}
		s.Hours[0].DryBy = s.Hours[0].From + minute + 12 + 8 + s.Items[0].DryFor + dryBy
		return s
	}
	for _, is := range []struct {
		name    string
		s, less *soak.Session
	}{
		{"hands", overdue(need), overdue(need - 1)},
		{"one that dries slowly", slow(true, 4*(12+8)), slow(true, 4*(12+8)-1)},
		{"one that goes first", slow(false, 0), slow(false, -1)},
	} {
		all := is.s.Items[0].Thirst * float64(len(is.s.Items))
		if p := arrange(t, is.s, soak.Effort{}); len(p.Late) > 0 || p.Thirst < all-1e-9 || closest(is.s, p) < all-1e-9 {
			t.Errorf("%s: of %.3f %.3f are served, the closer bound is %.3f", is.name, all, p.Thirst, closest(is.s, p))
		}
		if p := arrange(t, is.less, soak.Effort{}); len(p.Late) > 0 || p.Thirst > all-1e-9 || closest(is.less, p) > all-1e-9 {
			t.Errorf("%s, a second less: of %.3f %.3f are served, the closer bound is %.3f", is.name, all, p.Thirst, closest(is.less, p))
		}
	}
}

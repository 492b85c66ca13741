package plan_test

import (
	"cmp"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"tubside/model/soak"
	"tubside/tests/plan/check"
)

// How the distance between plan and bound is looked into: it takes from minutes to an hour.
var (
	gaps   = flag.Bool("gaps", false, "show what is between plan and bound")
	draws  = flag.Int("draws", 6, "how often each day is planned, each time a little otherwise")
	scenes = flag.String("scenes", "homecoming,soakday,bench,first", "the demo's scenes that are looked at")
)

// homes is in how many homes each scene is looked at.
const homes = 3

// found is the plan of a day as it is, and the best that several searches find. A search is
// drawn by telling it each plant's thirst a little, a good deal or much otherwise than it is:
// with its plants in another order alone it finds the same plan again.
func found(t *testing.T, s *soak.Session) (plan, best *soak.Plan, thirst float64) {
	t.Helper()
	for seed := range *draws {
		by := [...]float64{0.001, 0.15, 0.5}[seed%3]
		if seed == 0 {
			by = 0
		}
		told, rng := deep(s), rand.New(rand.NewPCG(uint64(seed), 0))
		for i := range told.Items {
			told.Items[i].Thirst *= 1 + by*(2*rng.Float64()-1)
		}
		p := arrange(t, told, soak.Effort{})
		served := 0.0
		for _, l := range p.Loads {
			for _, x := range l.Plants {
				if x.Index >= 0 {
					served += s.Items[x.Index].Thirst
				}
			}
		}
		if seed == 0 {
			plan = p
		}
		if best == nil || served > thirst {
			best, thirst = p, served
		}
	}
	return plan, best, thirst
}

// inEachHome does something for each scene that is asked for, in each home.
func inEachHome(t *testing.T, do func(scene string, s *soak.Session)) {
	if !*gaps {
		t.Skip("takes many minutes: -gaps")
	}
	for _, scene := range strings.Split(*scenes, ",") {
		for seed := range uint64(homes) {
			do(scene, demoDay(t, home(scene, seed+1)).Session)
		}
	}
}

// closest is the bound with all that one heeds. Where a plan is late with what lies in the
// water, that is not heeded.
func closest(s *soak.Session, p *soak.Plan) float64 {
	in := len(p.Late) == 0
	return check.Heeds{Finely: true, Rinses: true, Overdue: in, Lying: in}.MostThirst(s)
}

// atOnce is a day on which no more plants than so many dry at once, and all as slowly as that.
func atOnce(s *soak.Session, n int) *soak.Session {
	t := *s
	t.Room = func(drying int) float64 {
		if drying > n {
			return math.Inf(1)
		}
		return s.Room(n)
	}
	return &t
}

// The bound, with one thing after the other that it need not forget, and for as many plants at
// once as in the best plan that is found; for as much of the hands' time as goes to its plants;
// that plan and the usual one; and what the best one leaves out that could be dry in time if it
// lay on the bench in the first half of the hands' day, and not later.
func TestWhatIsBetweenPlanAndBound(t *testing.T) {
	text := fmt.Sprintf("%-11s %6s %6s %7s %6s %6s  %6s %6s  %6s %6s  %6s\n", "day", "bound", "finely", "overdue", "lying", "rinses", "at", "worked", "found", "plan", "early")
	inEachHome(t, func(scene string, s *soak.Session) {
		p, best, thirst := found(t, s)
		text += fmt.Sprintf("%-11s", scene)
		in := len(p.Late) == 0
		var heeds check.Heeds
		for _, heed := range []func(){func() {}, func() { heeds.Finely = true }, func() { heeds.Overdue = in }, func() { heeds.Lying = in }, func() { heeds.Rinses = true }} {
			heed()
			bound := heeds.MostThirst(s)
			if bound < thirst {
				t.Errorf("%s: a thirst of %.2f is served, above a bound of %.2f", scene, thirst, bound)
			}
			text += fmt.Sprintf(" %6.2f", bound)
		}
		at, early := atOnce(s, best.AtOnce), 0.0
		worked := *at
		worked.Hours = []soak.Hours{{From: s.Hours[0].From, To: s.Hours[0].From + handling(best), DryBy: s.Hours[len(s.Hours)-1].DryBy}}
		worked.Given, worked.Help = nil, nil
		half := (s.Hours[0].From + s.Hours[len(s.Hours)-1].To) / 2
		for _, l := range best.Left {
			it := &s.Items[l.Index]
			first := s.Hours[0].From + it.Hands.Pull + max(it.Least, it.Hands.In) + it.Hands.Out + it.Hands.Lay
			if last := s.Hours[0].DryBy - int(float64(it.DryFor)*s.Room(best.AtOnce)); first <= last && last < half {
				early += it.Thirst
			}
		}
		bound := closest(at, p)
		text += fmt.Sprintf("  %6.2f %6.2f  %6.2f %6.2f  %6.2f\n", bound, min(bound, check.MostThirst(&worked)), thirst, p.Thirst, early)
	})
	t.Log("\n" + text)
}

// handling is the seconds that the hands work for the plants that a plan puts in.
func handling(p *soak.Plan) (sum int) {
	for _, l := range p.Loads {
		for _, x := range l.Plants {
			if x.Index >= 0 {
				sum += x.Hands.Pull + x.Hands.In + x.Hands.Out + x.Hands.Lay
			}
		}
	}
	return sum
}

// relief is a day with a rule less.
type relief struct {
	name string
	give func(s *soak.Session)
}

var reliefs = []relief{
	{"as it is", func(*soak.Session) {}},
	{"hands twice as quick", eachItem(func(it *soak.Item) {
		h := &it.Hands
		h.Pull, h.In, h.Out, h.Lay, h.Hang = h.Pull/2, h.In/2, h.Out/2, h.Lay/2, h.Hang/2
	})},
	{"a second pair of hands", func(s *soak.Session) {
		s.Help = append(s.Help, soak.Stretch{From: s.Hours[0].From, To: s.Hours[len(s.Hours)-1].To})
	}},
	{"hands until all must be dry", func(s *soak.Session) {
		last := &s.Hours[len(s.Hours)-1]
		last.To = last.DryBy
	}},
	{"all pulled the evening before", eachItem(func(it *soak.Item) { it.Hands.Pull = 0 })},
	{"a tap for each vessel, ten times as quick", func(s *soak.Session) {
		s.Taps = len(s.Vessels)
		eachVessel(func(v *soak.Vessel) { v.Fill /= 10 })(s)
	}},
	{"no rinsing, no rest", eachVessel(func(v *soak.Vessel) { v.Rinse, v.Rest = 0, 0 })},
	{"water good all day", eachVessel(func(v *soak.Vessel) { v.Loads, v.LastIn = 0, 0 })},
	{"two more tubs", func(s *soak.Session) {
		tub := s.Vessels[0]
		tub.Water = nil
		s.Vessels = append(s.Vessels, tub, tub)
	}},
	{"as many loads as you like", func(s *soak.Session) { s.Limits.Loads = 0 }},
	{"loads of any size", func(s *soak.Session) { s.Limits.Plants, s.Limits.Share = 0, 0 }},
	{"nobody kept apart", eachItem(func(it *soak.Item) { it.Company = soak.Healthy })},
	{"no walk along the shelves", eachItem(func(it *soak.Item) { it.Walk = 0 })},
	{"soaks as long as you like", eachItem(func(it *soak.Item) { it.Most = max(it.Most, 10*hour) })},
	{"soaks as short as you like", eachItem(func(it *soak.Item) { it.Least = min(it.Least, minute) })},
	{"no hour to be dry by", func(s *soak.Session) {
		for h := range s.Hours {
			s.Hours[h].DryBy += 24 * hour
		}
	}},
	{"a fan: dry in half the time", eachItem(func(it *soak.Item) { it.DryFor /= 2 })},
	{"many dry as fast as one", func(s *soak.Session) { s.Room = nil }},
	{"benches without end", func(s *soak.Session) {
		for b := range s.Benches {
			s.Benches[b].Room = math.Inf(1)
		}
	}},
	{"no slack of ten minutes", func(s *soak.Session) { s.Hours[0].From -= 10 * minute }},
}

func eachVessel(change func(v *soak.Vessel)) func(s *soak.Session) {
	return func(s *soak.Session) {
		for v := range s.Vessels {
			change(&s.Vessels[v])
		}
	}
}

// eachItem changes the plants that are still to go in.
func eachItem(change func(it *soak.Item)) func(s *soak.Session) {
	return func(s *soak.Session) {
		for i := range s.Items {
			change(&s.Items[i])
		}
	}
}

// deep is a session of which all can be changed.
func deep(s *soak.Session) *soak.Session {
	t := *s
	t.Items, t.Vessels, t.Hours = slices.Clone(s.Items), slices.Clone(s.Vessels), slices.Clone(s.Hours)
	t.Benches, t.Help = slices.Clone(s.Benches), slices.Clone(s.Help)
	return &t
}

// What each rule costs, in three homes together. What is served with all rules can be served
// with one less: a bound may not be below that, and where the search finds less that figure
// stands.
func TestWhatEachRuleCosts(t *testing.T) {
	type sum struct{ found, bound, closer float64 }
	sums := map[string][]sum{}
	inEachHome(t, func(scene string, day *soak.Session) {
		if sums[scene] == nil {
			sums[scene] = make([]sum, len(reliefs))
		}
		as := 0.0
		for n, r := range reliefs {
			t.Run(scene+", "+r.name, func(t *testing.T) {
				s := deep(day)
				r.give(s)
				p, _, thirst := found(t, s)
				as = cmp.Or(as, thirst)
				bound := closest(s, p)
				if thirst = max(thirst, as); bound < thirst {
					t.Errorf("a closer bound of %.2f, and %.2f are served", bound, thirst)
				}
				is := &sums[scene][n]
				is.found, is.bound, is.closer = is.found+thirst, is.bound+check.MostThirst(s), is.closer+bound
			})
		}
	})
	text := ""
	for _, scene := range strings.Split(*scenes, ",") {
		for n, is := range sums[scene] {
			text += fmt.Sprintf("%-11s %-42s %6.1f %6.1f %6.1f\n", scene, reliefs[n].name, is.found, is.bound, is.closer)
		}
	}
	t.Log("\n" + text)
}

package plan_test

import (
	"cmp"
	"flag"
	"fmt"
	"slices"
	"testing"
	"time"

	"tubside/model/soak"
	"tubside/tests/plan/check"
)

// How long is looked for a better plan: each day is planned so often, its plants in
// another order each time, with so many times the usual work.
var (
	restarts = flag.Int("restarts", 1, "how often each day is planned")
	times    = flag.Int("times", 1, "how many times the usual work each plan gets")
)

// longest is the best plan that a long search finds.
func longest(t *testing.T, s *soak.Session) *soak.Plan {
	t.Helper()
	var best *soak.Plan
	for seed := range uint64(*restarts) {
		p := arrange(t, shuffled(s, seed), soak.Effort{Work: soak.DefaultWork * *times})
		if best == nil || p.Thirst > best.Thirst {
			best = p
		}
	}
	return best
}

// The demo's days: how much of the distance between plan and bound a longer search wins,
// and what the rest of it is: plants that dry too slowly beside so many others, the hands'
// time that goes to rinsing and to what lay in the water, that in which they wait, and
// that the thirstiest for the hands' time find no place.
func TestWhatIsBetweenPlanAndBound(t *testing.T) {
	if testing.Short() {
		t.Skip("the demo's days planned twice")
	}
	now := time.Date(2026, 1, 17, 10, 12, 0, 0, time.UTC)
	text := fmt.Sprintf("%-11s %6s %6s %6s %7s %7s %7s %7s\n", "day", "plan", "found", "bound", "slower", "rinsing", "waiting", "choice")
	for _, name := range []string{"homecoming", "soakday", "bench", "quiet", "first"} {
		s, _ := demoDay(t, name, now)
		p, long := arrange(t, s, soak.Effort{}), longest(t, s)
		all, rinsing, working := spent(s, long)
		bound := check.MostThirst(s)
		text += fmt.Sprintf("%-11s %6.1f %6.1f %6.1f", name, p.Thirst, long.Thirst, bound)
		for _, seconds := range []int{all, all - rinsing, working} { // what is lost to each, after the one before
			less := min(bound, mostBy(s, long, seconds))
			text += fmt.Sprintf(" %7.1f", bound-less)
			bound = less
		}
		text += fmt.Sprintf(" %7.1f\n", bound-long.Thirst)
	}
	t.Log("\n" + text)
}

// spent is the hands' time of a day in seconds: all of it, what goes to rinsing and
// to what lay in the water already, and what goes to the plants that the plan serves.
func spent(s *soak.Session, p *soak.Plan) (all, rinsing, working int) {
	for _, h := range s.Hours {
		all += h.To - h.From
	}
	for _, a := range p.Actions {
		if a.Do == soak.Empty {
			rinsing += a.Until - a.At
		}
	}
	for _, l := range p.Loads {
		for _, x := range l.Plants {
			if x.Index < 0 {
				rinsing += x.Hands.Out + x.Hands.Lay
				continue
			}
			working += handling(x.Item)
		}
	}
	return all, rinsing, working
}

func handling(it soak.Item) int { return it.Hands.Pull + it.Hands.In + it.Hands.Out + it.Hands.Lay }

// mostBy is the most thirst that so many seconds of hands serve if they never wait and
// nothing else is in the way, of the plants that a plan could have dry.
func mostBy(s *soak.Session, p *soak.Plan, seconds int) float64 {
	slow := map[int]bool{}
	for _, l := range p.Left {
		slow[l.ID] = l.Why == soak.DriesTooSlow
	}
	items := slices.DeleteFunc(slices.Clone(s.Items), func(it soak.Item) bool { return slow[it.ID] })
	slices.SortFunc(items, func(a, b soak.Item) int {
		return cmp.Compare(b.Thirst*float64(handling(a)), a.Thirst*float64(handling(b)))
	})
	sum := 0.0
	for _, it := range items {
		if seconds -= handling(it); seconds < 0 {
			return sum + it.Thirst*float64(seconds+handling(it))/float64(handling(it))
		}
		sum += it.Thirst
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
	{"no slack of ten minutes", noSlack},
	{"as many loads as you like", func(s *soak.Session) { s.Limits.Loads = 0 }},
	{"loads of any size", func(s *soak.Session) { s.Limits.Plants, s.Limits.Share = 0, 0 }},
	{"nobody kept apart", func(s *soak.Session) {
		for i := range s.Items {
			s.Items[i].Company = soak.Healthy
		}
	}},
	{"a tap for each vessel", func(s *soak.Session) { s.Taps = len(s.Vessels) }},
	{"no rinsing", func(s *soak.Session) { eachVessel(s, func(v *soak.Vessel) { v.Rinse = 0 }) }},
	{"water good all day", func(s *soak.Session) { eachVessel(s, func(v *soak.Vessel) { v.Loads, v.LastIn = 0, 0 }) }},
	{"another tub", func(s *soak.Session) {
		tub := s.Vessels[0]
		tub.Water = nil
		s.Vessels = append(s.Vessels, tub)
	}},
	{"many dry as fast as one", func(s *soak.Session) { s.Room = nil }},
	{"soaks as long as you like", func(s *soak.Session) {
		for i := range s.Items {
			s.Items[i].Most = max(s.Items[i].Most, 10*hour)
		}
	}},
	{"all pulled the evening before", func(s *soak.Session) {
		for i := range s.Items {
			s.Items[i].Hands.Pull = 0
		}
	}},
}

func eachVessel(s *soak.Session, change func(v *soak.Vessel)) {
	for v := range s.Vessels {
		change(&s.Vessels[v])
	}
}

// noSlack gives a session the ten minutes that a plan is made without, and a quarter of
// each window at most, or half where the plant is in the water.
func noSlack(s *soak.Session) {
	for i := range s.Items {
		it := &s.Items[i]
		it.Most += min(10*minute, (it.Most-it.Least)/3)
	}
	for g := range s.Given {
		for i := range s.Given[g].Items {
			it := &s.Given[g].Items[i]
			it.Most += min(10*minute, it.Most-it.Least)
		}
	}
	for h := range s.Hours {
		s.Hours[h].To, s.Hours[h].DryBy = s.Hours[h].To+10*minute, s.Hours[h].DryBy+10*minute
	}
	eachVessel(s, func(v *soak.Vessel) {
		if v.LastIn > 0 {
			v.LastIn += 10 * minute
		}
	})
}

// deep is a session of which all can be changed.
func deep(s *soak.Session) *soak.Session {
	t := *s
	t.Items, t.Vessels, t.Hours, t.Given = slices.Clone(s.Items), slices.Clone(s.Vessels), slices.Clone(s.Hours), slices.Clone(s.Given)
	for g := range t.Given {
		t.Given[g].Items = slices.Clone(t.Given[g].Items)
	}
	return &t
}

// What each rule costs, on the two days that are farthest from their bound. What is
// served with all rules can be served with one less: a bound may not be below that.
func TestWhatEachRuleCosts(t *testing.T) {
	if testing.Short() {
		t.Skip("two of the demo's days planned a dozen times")
	}
	now := time.Date(2026, 1, 17, 10, 12, 0, 0, time.UTC)
	text := fmt.Sprintf("%-42s %6s %6s %6s\n", "", "found", "plants", "bound")
	for _, name := range []string{"homecoming", "first"} {
		day, _ := demoDay(t, name, now)
		served := 0.0
		for _, r := range reliefs {
			s := deep(day)
			r.give(s)
			p := longest(t, s)
			bound := check.MostThirst(s)
			if served = cmp.Or(served, p.Thirst); bound < served {
				t.Errorf("%s, %s: a bound of %.2f, and %.2f are served without", name, r.name, bound, served)
			}
			text += fmt.Sprintf("%-42s %6.1f %6d %6.1f\n", name+", "+r.name, p.Thirst, len(s.Items)-len(p.Left), bound)
		}
	}
	t.Log("\n" + text)
}

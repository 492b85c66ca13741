package day_test

import (
	"context"
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/tests/household"
)

// claims holds what a plan says of those that it leaves out against the plan itself.
type claims struct {
	*testing.T
	b       *model.Book
	k       *estimate.Keeper
	now     time.Time
	p       *day.Plan
	items   map[int]soak.Item
	session *soak.Session
	asked   int
}

func newClaims(t *testing.T, b *model.Book, now time.Time) *claims {
	k := estimate.New(b)
	p, err := day.NewPlan(context.Background(), k, now, day.Ask{})
	if err != nil {
		t.Fatal(err)
	}
	s, err := day.Session(k, now, day.Ask{})
	if err != nil {
		t.Fatal(err)
	}
	c := &claims{T: t, b: b, k: k, now: now, p: p, items: map[int]soak.Item{}, session: s}
	for _, it := range s.Items {
		c.items[it.ID] = it
	}
	return c
}

// dries is how long a plant dries among so many, on the best place to.
func (c *claims) dries(it soak.Item) time.Duration {
	best, room := 1e9, 1.0
	if c.session.Room != nil {
		room = c.session.Room(c.p.AtOnce)
	}
	for _, bench := range c.session.Benches {
		best = min(best, float64(it.DryFor)*bench.Factor*room)
	}
	return time.Duration(best) * time.Second
}

// left is the litres that a load leaves of its vessel.
func (c *claims) left(l *day.Load) float64 {
	v, _ := c.b.Vessel(l.Vessel)
	free := v.Litres
	for i := range c.p.Loads {
		m := &c.p.Loads[i]
		if m.Vessel == l.Vessel && m.Start.Before(l.End) && m.End.After(l.Start) {
			for _, x := range m.Plants {
				free -= x.Bulk
			}
		}
	}
	return free
}

// alone reports whether a plant has a place when nobody else is planned.
func (c *claims) alone(id model.ID) bool {
	ask := c.p.Ask
	ask.Plants, ask.Small = model.IDs{id}, true
	p, err := day.NewPlan(context.Background(), c.k, c.now, ask)
	if err != nil {
		c.Fatal(err)
	}
	_, _, ok := p.Placed(id)
	return ok
}

// hold checks what is said of one.
func (c *claims) hold(l day.LeftOut) {
	it, why := c.items[int(l.ID)], l.Unplaced.Why
	switch why {
	case soak.NoVessel, soak.NoHours, soak.NoBenchSize, soak.DriesTooSlow:
		if c.asked++; c.asked <= 12 && c.alone(l.ID) {
			c.Errorf("plant %d: %v, and alone it has a place", l.ID, why)
		}
		return
	case soak.NoSpare:
		return
	}
	for n := range c.p.Loads {
		load := &c.p.Loads[n]
		if !load.ToCome() || load.Night || load.Company != it.Company || load.Fed != it.Fed {
			continue
		}
		for _, x := range load.Plants {
			c.instead(l.ID, why, it, load, x)
		}
		last := load.Plants[len(load.Plants)-1]
		in := last.In.Add(time.Duration(last.Hands.In) * time.Second)
		soaks := load.End.Sub(in)
		if why == soak.DryTooLate && it.Bulk <= c.left(load) && soaks >= time.Duration(it.Least)*time.Second && soaks <= time.Duration(it.Most)*time.Second &&
			!load.End.Add(time.Duration(it.Hands.Out+it.Hands.Lay)*time.Second+c.dries(it)).After(c.p.Ask.DryBy.Add(-time.Minute)) {
			c.Errorf("plant %d: %v, and as the last of load %d it would be dry in time", l.ID, why, n+1)
		}
	}
}

// instead checks that a plant has no right to another's place: it is as quickly done with, as
// small, soaks as long and is dry in time there, and is thirstier.
func (c *claims) instead(id model.ID, why soak.Why, it soak.Item, load *day.Load, x day.Plant) {
	q := c.items[int(x.ID)]
	soaks := x.Out.Sub(x.In)
	switch laid := x.Out.Add(time.Duration(it.Hands.Out+it.Hands.Lay) * time.Second); {
	case q.Thirst > it.Thirst-0.001, q.Urgent && !it.Urgent:
	case soaks < time.Duration(it.Least)*time.Second || soaks > time.Duration(it.Most)*time.Second:
	case it.Bulk > x.Bulk+max(0, c.left(load)), it.BenchRoom > q.BenchRoom:
	case it.Hands.Pull > q.Hands.Pull, it.Hands.In > q.Hands.In, it.Hands.Out+it.Hands.Lay > q.Hands.Out+q.Hands.Lay:
	case laid.Add(c.dries(it)).After(x.Dry), laid.Add(c.dries(it)).After(c.p.Ask.DryBy.Add(-time.Minute)):
	default:
		c.Errorf("plant %d: %v, and plant %d, which is less thirsty (%.3f, %.3f), has a place that would do for it", id, why, x.ID, q.Thirst, it.Thirst)
	}
}

// Whoever is left out is told why, and it is true: it has no place even alone, or as the
// plan stands would be dry too late in every load that it fits into; and in no case does a
// less thirsty one have a place that would do for it.
func TestWhyAPlantIsLeftOutIsTrue(t *testing.T) {
	homes := []struct {
		scene string
		seed  uint64
		hour  int
	}{{"homecoming", 1, 13}, {"first", 1, 8}, {"homecoming", 2, 15}, {"soakday", 1, 13}, {"bench", 1, 9}, {"homecoming", 3, 16}, {"first", 2, 12}}
	if testing.Short() {
		homes = homes[:2]
	}
	told := map[soak.Why]int{}
	for _, h := range homes {
		now := time.Date(2026, time.November, 28, h.hour, 0, 0, 0, time.UTC)
		c := newClaims(t, household.Moment{Scene: h.scene, Seed: h.seed, Now: now}.Book(t), now)
		for _, l := range c.p.Left {
			if l.Unplaced != nil {
				told[l.Unplaced.Why]++
				c.hold(l)
			}
		}
	}
	t.Log(told)
	if len(told) < 3 {
		t.Errorf("of few reasons: %v", told)
	}
}

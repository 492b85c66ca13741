package soak

import (
	"errors"
	"fmt"
	"math"
)

// ErrSession is what every error about a session's own numbers wraps.
var ErrSession = errors.New("session cannot be planned")

func wrong(format string, args ...any) error {
	return fmt.Errorf("%w: %s", ErrSession, fmt.Sprintf(format, args...))
}

// Check says what is wrong with the numbers of a session, naming the part and
// the field. The error wraps [ErrSession].
func (s *Session) Check() error {
	for _, check := range []func() error{s.checkHours, s.checkVessels, s.checkBenches, s.checkGiven} {
		if err := check(); err != nil {
			return err
		}
	}
	for i := range s.Items {
		if err := s.Items[i].check(); err != nil {
			return err
		}
	}
	return nil
}

// mostSeconds is how far from the origin a time may lie, either way, and how
// long anything may take: eight years, so that sums of a few fit into an int.
const mostSeconds = 1 << 28

func near(times ...int) bool {
	for _, t := range times {
		if t < -mostSeconds || t > mostSeconds {
			return false
		}
	}
	return true
}

func (s *Session) checkHours() error {
	if len(s.Hours) == 0 {
		return wrong("no hours; give at least one stretch of time in which the hands can work")
	}
	for i, h := range s.Help {
		if !near(h.From, h.To) || h.To <= h.From {
			return wrong("help %d from %d to %d", i+1, h.From, h.To)
		}
	}
	for i, h := range s.Hours {
		switch {
		case !near(h.From, h.To, h.DryBy):
			return wrong("hours %d: from %d to %d, dry by %d; give times within %d s of the origin", i+1, h.From, h.To, h.DryBy, mostSeconds)
		case h.To <= h.From:
			return wrong("hours %d end at %d, not after their start at %d", i+1, h.To, h.From)
		case i > 0 && h.From < s.Hours[i-1].To:
			return wrong("hours %d start before the ones in front of them end", i+1)
		case i > 0 && h.DryBy < s.Hours[i-1].DryBy:
			return wrong("hours %d want plants dry before the ones in front of them", i+1)
		case i > 0 && s.Hours[i-1].OutOnly && !h.OutOnly:
			return wrong("hours %d start new loads after hours that only take out", i+1)
		}
	}
	return nil
}

// mostLitres is more than any vessel holds that is filled by hand.
const mostLitres = 100_000

func (s *Session) checkVessels() error {
	for i, v := range s.Vessels {
		switch {
		case !(v.Room > 0 && v.Room <= mostLitres):
			return wrong("vessel %d: room of %g l; give litres above 0, at most %d", i+1, v.Room, mostLitres)
		case v.Fill < 0 || v.Rinse < 0 || v.Rest < 0 || v.Loads < 0 || v.LastIn < 0:
			return wrong("vessel %d: filling, rinsing, resting, loads and last load in cannot be negative", i+1)
		case !near(v.Fill, v.Rinse, v.Rest, v.LastIn):
			return wrong("vessel %d: filling, rinsing, resting and last load in can be %d s at most", i+1, mostSeconds)
		case v.Water != nil && (v.Water.Loads < 0 || !near(v.Water.Since, v.Water.Ready) || !v.Water.Worst.known()):
			return wrong("vessel %d: its water has served %d loads since %d, the worst %d", i+1, v.Water.Loads, v.Water.Since, v.Water.Worst)
		}
	}
	switch l := s.Limits; {
	case s.Taps < 0:
		return wrong("%d taps", s.Taps)
	case l.Loads < 0 || l.Plants < 0 || !(l.Share >= 0 && l.Share <= 1):
		return wrong("at most %d loads, of at least %d plants and %g of a vessel; none can be negative, the last at most 1", l.Loads, l.Plants, l.Share)
	}
	return nil
}

func (s *Session) checkBenches() error {
	for i, b := range s.Benches {
		if !(b.Room >= 0) || !(b.Factor > 0) || !finite(b.Factor) {
			return wrong("bench %d: room %g, factor %g; give a room of 0 or more and a factor above 0", i+1, b.Room, b.Factor)
		}
	}
	for i, d := range s.Drying {
		if d.Bench < 0 || d.Bench >= max(1, len(s.Benches)) || !finite(d.Room) || !near(d.From, d.Dry, d.Until) || d.Dry > d.Until || d.Hang < 0 {
			return wrong("drying %d: room %g on bench %d of %d until %d, dry at %d, hung in %d s", i+1, d.Room, d.Bench, len(s.Benches), d.Until, d.Dry, d.Hang)
		}
	}
	return nil
}

func (s *Session) checkGiven() error {
	more := make([]bool, len(s.Items))
	for i, g := range s.Given {
		if g.Vessel < 0 || g.Vessel >= len(s.Vessels) {
			return wrong("load %d in the water: no vessel %d", i+1, g.Vessel)
		}
		if len(g.Items) != len(g.In) {
			return wrong("load %d in the water: %d plants, %d times in", i+1, len(g.Items), len(g.In))
		}
		if err := g.check(i); err != nil {
			return err
		}
		for _, m := range g.More {
			if m < 0 || m >= len(s.Items) || more[m] || len(g.Items) == 0 {
				return wrong("load %d in the water: no item %d, or it is to go in twice", i+1, m)
			}
			more[m] = true
		}
	}
	return nil
}

func (g *Given) check(i int) error {
	if g.Heap < 0 || g.Heap > mostHeaps {
		return wrong("load %d in the water: no heap %d", i+1, g.Heap)
	}
	for k := range g.Items {
		if !near(g.In[k]) {
			return wrong("load %d in the water: plant %d went in at %d; give times within %d s of the origin", i+1, g.Items[k].ID, g.In[k], mostSeconds)
		}
		if k > 0 && g.In[k] < g.In[k-1] {
			return wrong("load %d in the water: plant %d went in before the one in front of it", i+1, g.Items[k].ID)
		}
		if err := g.Items[k].check(); err != nil {
			return err
		}
	}
	return nil
}

func (c Company) known() bool { return c >= Healthy && c < companyCount }

// finite reports whether a number is 0 or more, and no more than can be.
func finite(x float64) bool { return x >= 0 && !math.IsInf(x, 1) }

func (it *Item) check() error {
	h := it.Hands
	switch {
	case !near(it.Least, it.Most, it.DryFor, h.Pull, h.In, h.Out, h.Lay, h.Hang):
		return wrong("plant %d: soak of %d to %d s, hands of %+v s, dry after %d s; each can be %d s at most", it.ID, it.Least, it.Most, h, it.DryFor, mostSeconds)
	case it.Least < 0 || it.Most < it.Least || it.Spare < 0 || it.latest() < it.Least:
		return wrong("plant %d: soak of %d to %d s", it.ID, it.Least, it.Most)
	case !finite(it.Bulk) || !finite(it.BenchRoom):
		return wrong("plant %d: bulk %g, bench room %g; neither can be negative, or without limit", it.ID, it.Bulk, it.BenchRoom)
	case h.In < 1 || h.Out < 1 || h.Pull < 0 || h.Lay < 0 || h.Hang < 0:
		return wrong("plant %d: hands of %+v s; give at least 1 s in and 1 s out, and nothing below 0", it.ID, h)
	case it.DryFor < 0:
		return wrong("plant %d: dry after %d s; it cannot be negative", it.ID, it.DryFor)
	case !it.Company.known():
		return wrong("plant %d: company %d", it.ID, it.Company)
	case !(it.Thirst > 0) || !finite(it.Thirst):
		return wrong("plant %d: thirst %g; give one above 0, or leave the plant out", it.ID, it.Thirst)
	}
	return nil
}

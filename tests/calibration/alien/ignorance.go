package alien

import "math"

// Ignorance is what a limit is not told of its world. What it is not told it takes in the simplest form that fits the
// same published facts, or as somebody else does. The zero value is told all.
type Ignorance struct {
	Secrets bool // what happened without a word: mists, soaks, moves
	Air     bool // the air between readings, and the season: it goes by the last reading
	Shelves bool // what each shelf's air does: it is one more thing in which plants differ
	Stores  bool // that water lies in two stores: loss is exponential, and a drop tells of all the water that is gone
	Drop    bool // that a drop tells anything
	Tips    bool // that brown tips tell anything

	// Rate is what a plant is taken to lose, of its water in a day of the usual air, by the book; nil: what is usual for
	// what it truly is.
	Rate func(*Plant) float64
	// Drink is how much water a plant has after some minutes in water, beside that in it before; slow is how many times
	// as slowly as usual it is taken to drink; nil: by the law of this world.
	Drink func(p *Plant, minutes, slow, left float64) float64
}

// usualLeak is what is taken to be usual for a plant.
func (not *Ignorance) usualLeak(p *Plant) float64 {
	if not.Rate != nil {
		return freshly * not.Rate(p)
	}
	return p.sort.leak
}

// leaks is how many times its own leak a plant is taken to lose in a moment.
func (not *Ignorance) leaks(m *moment) float64 {
	at, shelf := m.leak/m.shelf, m.shelf
	if not.Air {
		at = m.told
	}
	if not.Secrets {
		shelf = m.booked
	}
	if not.Shelves {
		return at
	}
	return at * shelf
}

// change is what a moment does to a plant's water, as far as it is known.
func (not *Ignorance) change(p *Plant, m *moment, s *store, worst *[3]float64, leak, toFill float64) {
	known := *m
	if m.days > 0 {
		known.leak = not.leaks(m)
	}
	switch {
	case not.Secrets && m.secret:
		return
	case m.soak > 0 && not.Drink != nil:
		s.inner = not.Drink(p, m.minutes, toFill/p.sort.toFill, s.left())
		s.outer = max(s.outer, brimful)
		if not.Stores {
			s.outer = s.inner
		}
	case m.days > 0 && not.Stores:
		s.inner *= math.Exp(-leak * known.leak / freshly * m.days)
		s.outer = s.inner
		worst[0] = max(worst[0], 1-s.inner)
	default:
		known.change(s, worst, leak, toFill)
		if left := s.left(); not.Stores {
			s.outer, s.inner = left, left
		}
	}
}

// emptied is how full the outer store of a plant is that was full and lost water until it had so much left: a table by
// thirst.
var emptied = func() (table [thirsts]float64) {
	s, next := store{brimful, brimful}, 0
	for next < thirsts && s.left() > 0.02 {
		for next < thirsts && 1-s.left() >= float64(next)/(thirsts-1) {
			table[next] = s.outer
			next++
		}
		s.lose(0.01, 0.05)
	}
	return table
}()

// outer is how full a plant's outer store is taken to be.
func (not *Ignorance) outer(s *store) float64 {
	if not.Stores {
		return emptied[min(max(int((1-s.left())*(thirsts-1)+0.5), 0), thirsts-1)]
	}
	return s.outer
}

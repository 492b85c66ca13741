package demo

import (
	"time"

	"tubside/model"
)

// Truth is what the invented plants are really like, which no book knows: the
// answers to hold an estimate against. Plants that are gone are not in it.
type Truth struct {
	At     time.Time
	Plants map[model.ID]Nature
}

// Nature is one plant as it really is.
type Nature struct {
	Pace float64 // multiplies the rate of water loss of its true form, leaf and size
	Here float64 // the part of Pace that is its shelf's; 1 where plants dry out as elsewhere
	Rate float64 // that rate with the pace in it, a day of the reference air
	RWC  float64 // relative water content at Truth.At, 0 to 1
}

// truthAt looks behind the book.
func truthAt(lives []*life, t time.Time, w *weather) *Truth {
	truth := &Truth{At: t, Plants: make(map[model.ID]Nature, len(lives))}
	for _, l := range lives {
		if l.here {
			truth.Plants[l.ID] = Nature{Pace: l.pace(), Here: paceOn(l.Home.Shelf), Rate: l.rate * l.pace(),
				RWC: l.water(t, w)}
		}
	}
	return truth
}

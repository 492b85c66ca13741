package model

import (
	"fmt"
	"time"
)

// Mix is fed water: what was mixed in, and how strong it became. Either PPM or
// Part is given, or both.
type Mix struct {
	Powder string  `json:"powder,omitempty"` // the product, as on its label
	N      float64 `json:"n,omitempty"`      // nitrogen in it, % by mass; 0 not said
	PPM    float64 `json:"ppm,omitempty"`    // nitrogen in the water, mg/L; 0 not said
	Part   float64 `json:"part,omitempty"`   // part of the label's rate, 0.25 is a quarter; 0 not said
	Over   bool    `json:"over,omitempty"`   // stronger than the house rule takes, and meant so
}

// mostN is the most nitrogen a solid fertiliser has, % by mass: pure urea,
// CO(NH2)2, 46.6 %, rounded up.
const mostN = 47

// check refuses a mix that cannot be. There may be none.
func (m *Mix) check() error {
	switch {
	case m == nil:
		return nil
	case !(m.N >= 0 && m.N <= mostN):
		return &Problem{
			What: fmt.Sprintf("a powder with %g %% nitrogen", m.N),
			Do:   fmt.Sprintf("give the first number of the label, up to %d", mostN),
		}
	case !(m.PPM >= 0 && m.PPM <= 1e6):
		return &Problem{What: fmt.Sprintf("fed water of %g ppm", m.PPM), Do: "give its nitrogen in mg to the litre"}
	case !(m.Part >= 0 && m.Part <= 1):
		return &Problem{
			What: fmt.Sprintf("fed water of %g times the label's rate", m.Part),
			Do:   "give a part of it, up to 1: a quarter is 0.25",
		}
	case m.PPM == 0 && m.Part == 0:
		return &Problem{
			What: "fed water without a strength",
			Do:   "give ppm of nitrogen, or the part of the label's rate",
		}
	case TooLong(m.Powder):
		return &Problem{What: fmt.Sprintf("a product's name of more than %d characters", MaxText), Do: "shorten it"}
	}
	return nil
}

// allow refuses a mix that is stronger than the house rule, unless the grower
// means it.
func (m *Mix) allow(rules Rules) error {
	if m == nil || m.PPM <= rules[FeedRefuse] || m.Over {
		return nil
	}
	return &Problem{
		What: fmt.Sprintf("fed water of %g ppm nitrogen is over the house rule's %s", m.PPM, rules.Word(FeedRefuse)),
		Do:   "thin it, or say that it is meant so",
	}
}

// Feeding is how a plant was fed.
type Feeding string

// The ways of feeding.
const (
	ByMist Feeding = "mist" // sprayed on the leaves
	ByDip  Feeding = "dip"  // in and out of a bucket
	ByBath Feeding = "bath" // a soak in fed water
)

// Feedings lists the ways of feeding, in the order a field offers them.
var Feedings = []Feeding{ByMist, ByDip, ByBath}

// ParseFeeding reads a way of feeding by its word.
func ParseFeeding(s string) (Feeding, error) { return oneOf("feeding", s, Feedings) }

// feed notes that a plant was fed.
func (r *Row) feed(at time.Time, how Feeding, m Mix) {
	if !at.Before(r.Fed) {
		r.Fed, r.FedHow, r.FedMix = at, how, &m
	}
}

// Package ledger is the arithmetic of losses: how long plants of a kind have lasted, counting fairly those that are
// still alive. It knows numbers only.
package ledger

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Observation is how long one plant was watched.
type Observation struct {
	Days float64 // from the day it came, or from the event asked about, to the loss or the last look; 0 or more
	Lost bool    // it was lost then; false: it was alive when last looked at, or was sold or given away (censored)
}

// Step is the curve at one time at which a plant was lost or watching ended. It holds until the next step.
type Step struct {
	Days   float64
	AtRisk int     // plants alive and watched just before
	Lost   int     // lost at this time
	Left   int     // watched no longer, though alive; they were at risk at this time, as is usual
	Alive  float64 // estimated share alive after this time, 0 to 1
	StdErr float64 // its standard error by Greenwood's formula; 0 where nobody was lost yet, or nobody is left

	// Low and High are the ends of the band around Alive. Before the first loss and at zero there is no band (see
	// Banded), and both are Alive.
	Low, High float64
}

// Banded reports whether Low and High are a band. They are none before the first loss and when the share alive is zero:
// there "100 %" or "0 %" is what was seen, without any measure of doubt, and should be shown with its count.
func (s Step) Banded() bool { return s.Alive > 0 && s.Alive < 1 }

// Curve is a Kaplan-Meier curve: its steps in order of time, one for each time in the observations. Before the first
// step all are alive.
type Curve []Step

// Survival estimates the share still alive over time by the product-limit estimator (E. L. Kaplan and P. Meier 1958, J.
// Am. Stat. Assoc. 53:457-481). Level is the coverage of the band at each single time, above 0 and below 1 (0.95 is
// usual). No observations give an empty curve. Observations may come in any order.
//
// It takes for granted that a plant which left the watch was as likely to live on as one that stayed. Giving away the
// sickly ones makes the curve too good, and no arithmetic mends that.
func Survival(observations []Observation, level float64) (Curve, error) {
	if !(level > 0 && level < 1) {
		return nil, fmt.Errorf("survival: coverage %v: give a share above 0 and below 1, such as 0.95", level)
	}
	for i, o := range observations {
		if !(o.Days >= 0) || math.IsInf(o.Days, 1) {
			return nil, fmt.Errorf("survival: observation %d, days: %v: give 0 or more", i+1, o.Days)
		}
	}
	return estimate(tally(observations), quantile(level)), nil
}

// tally counts the observations at each time, in order.
func tally(observations []Observation) Curve {
	sorted := slices.Clone(observations)
	slices.SortFunc(sorted, func(a, b Observation) int { return cmp.Compare(a.Days, b.Days) })
	var c Curve
	for i, o := range sorted {
		if len(c) == 0 || c[len(c)-1].Days != o.Days {
			c = append(c, Step{Days: o.Days, AtRisk: len(sorted) - i})
		}
		c[len(c)-1].count(o.Lost)
	}
	return c
}

func (s *Step) count(lost bool) {
	if lost {
		s.Lost++
	} else {
		s.Left++
	}
}

// estimate fills in the shares. Greenwood's sum is the variance of the logarithm of the share alive: M. Greenwood 1926,
// Reports on Public Health and Medical Subjects 33, HMSO.
func estimate(c Curve, z float64) Curve {
	alive, greenwood := 1.0, 0.0
	for i := range c {
		s := &c[i]
		risk, lost := float64(s.AtRisk), float64(s.Lost)
		alive *= 1 - lost/risk
		if alive > 0 {
			greenwood += lost / (risk * (risk - lost))
			s.StdErr = alive * math.Sqrt(greenwood)
		}
		s.Alive = alive
		s.Low, s.High = band(alive, math.Sqrt(greenwood), z)
	}
	return c
}

// At returns the step that holds at a time, and whether the curve says anything there: it says nothing past the last
// time watched, unless none are left alive. Before the first step all are alive and the step is otherwise empty.
func (c Curve) At(days float64) (Step, bool) {
	after, _ := slices.BinarySearchFunc(c, days, func(s Step, d float64) int {
		if s.Days <= d {
			return -1
		}
		return 1
	})
	if after == 0 {
		return Step{Alive: 1, Low: 1, High: 1}, len(c) > 0 && days >= 0
	}
	s := c[after-1]
	return s, after < len(c) || days == s.Days || s.Alive == 0
}

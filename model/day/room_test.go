package day_test

import (
	"testing"
	"time"

	"tubside/tests/household"
)

// Hands are not as even as a plan has them: a new plan has every plant out two minutes
// before its longest soak is over, or a quarter of its window where that is less.
func TestANewPlanLeavesRoomForUnevenHands(t *testing.T) {
	now := time.Date(2026, time.November, 28, 9, 0, 0, 0, time.UTC)
	for _, scene := range []string{"homecoming", "soakday", "quiet"} {
		p := proposed(t, household.Moment{Scene: scene, Seed: 1, Now: now})
		for _, l := range p.Loads {
			for _, x := range l.Plants {
				if l.Start.Before(p.Ask.From) || l.Night {
					continue
				}
				room := min(2*time.Minute, time.Duration(x.Most-x.Least)*time.Second/4)
				if stays, most := x.Out.Sub(x.In), time.Duration(x.Most)*time.Second; stays > most-room {
					t.Errorf("%s: plant %d is to be out after %v, and may stay %v", scene, x.ID, stays, most)
				}
			}
		}
	}
}

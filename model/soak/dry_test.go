package soak

import (
	"testing"

	"pgregory.net/rapid"
)

// The room on a bench against a plain count of every second.
func TestRackAgainstACountOfEverySecond(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const seconds = 200
		r := newRack(10, 0, seconds, 1)
		var taken [seconds]int
		for range rapid.IntRange(0, 20).Draw(t, "plants") {
			from := rapid.IntRange(0, seconds-1).Draw(t, "from")
			to := rapid.IntRange(from+1, seconds).Draw(t, "to")
			need := rapid.IntRange(1, 6).Draw(t, "need")
			fits, blocked := true, 0 // the last second without room
			for s := from; s < to; s++ {
				if taken[s]+need > 10 {
					fits, blocked = false, s
				}
			}
			ok, again := r.fits(from, to, float64(need))
			if ok != fits {
				t.Fatalf("%d from %d to %d: fits %v, counted %v", need, from, to, ok, fits)
			}
			if !fits {
				if again != blocked+1 && (again < seconds || blocked < seconds-1) {
					t.Fatalf("blocked until %d, ask again at %d", blocked, again)
				}
				continue
			}
			r.add(from, to, float64(need))
			r.sum()
			for s := from; s < to; s++ {
				taken[s] += need
			}
		}
	})
}

// On a coarse grid a rack may say no too often, never too seldom.
func TestACoarseRackIsCareful(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fine, coarse := newRack(10, -100, 600, 1), newRack(10, -100, 600, 30)
		for range rapid.IntRange(0, 20).Draw(t, "plants") {
			from := rapid.IntRange(-100, 300).Draw(t, "from")
			to := from + rapid.IntRange(1, 200).Draw(t, "for")
			need := float64(rapid.IntRange(1, 6).Draw(t, "need"))
			if ok, _ := coarse.fits(from, to, need); ok {
				if ok, _ := fine.fits(from, to, need); !ok {
					t.Fatalf("%g from %d to %d fits only the coarse rack", need, from, to)
				}
				fine.add(from, to, need)
				coarse.add(from, to, need)
				fine.sum()
				coarse.sum()
			}
		}
	})
}

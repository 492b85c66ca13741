package soak

import (
	"testing"

	"pgregory.net/rapid"
)

// The room on a bench against a plain count of every second.
func TestRackAgainstACountOfEverySecond(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const seconds = 200
		r := newRack(10, 1)
		var taken [seconds]int
		for range rapid.IntRange(0, 20).Draw(t, "plants") {
			from := rapid.IntRange(0, seconds-1).Draw(t, "from")
			to := rapid.IntRange(from+1, seconds).Draw(t, "to")
			need := rapid.IntRange(1, 6).Draw(t, "need")
			fits, blocked := true, 0
			for s := from; s < to; s++ {
				if taken[s]+need > 10 {
					fits, blocked = false, s
					break
				}
			}
			ok, again := r.fits(from, to, float64(need))
			if ok != fits {
				t.Fatalf("%d from %d to %d: fits %v, counted %v", need, from, to, ok, fits)
			}
			if !fits {
				for s := blocked; s < again; s++ {
					if taken[s]+need <= 10 {
						t.Fatalf("blocked at %d, ask again at %d, but free at %d", blocked, again, s)
					}
				}
				continue
			}
			r.add(from, to, float64(need))
			for s := from; s < to; s++ {
				taken[s] += need
			}
		}
	})
}

// On a coarse grid a rack may say no too often, never too seldom.
func TestACoarseRackIsCareful(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fine, coarse := newRack(10, 1), newRack(10, 30)
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
			}
		}
	})
}

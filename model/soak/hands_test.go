package soak

import (
	"testing"

	"pgregory.net/rapid"
)

// The hands' time against a plain list of every second.
func TestHandsAgainstAListOfEverySecond(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const seconds = 300
		hours := []Hours{{From: 10, To: 120}, {From: 150, To: 220}, {From: 220, To: 290, OutOnly: true}}
		h := hands{hours: hours, least: 1}
		var hourOf, busy [seconds]int
		for i, hr := range hours {
			h.gaps = append(h.gaps, gap{hr.From, hr.To, i})
			for s := hr.From; s < hr.To; s++ {
				hourOf[s] = i + 1
			}
		}
		free := func(from, need int, in bool) bool {
			for s := from; s < from+need; s++ {
				if s >= seconds || busy[s] > 0 || hourOf[s] == 0 || hourOf[s] != hourOf[from] || in && hours[hourOf[s]-1].OutOnly {
					return false
				}
			}
			return true
		}
		for range rapid.IntRange(1, 15).Draw(t, "pieces") {
			from := rapid.IntRange(0, seconds).Draw(t, "from")
			need := rapid.IntRange(1, 40).Draw(t, "need")
			in := rapid.Bool().Draw(t, "in")
			want := from
			for want < seconds && !free(want, need, in) {
				want++
			}
			got, i := h.slot(h.seek(from), from, need, in)
			if i < 0 {
				got = seconds
			}
			if got != want {
				t.Fatalf("%d s from %d on: at %d, want %d", need, from, got, want)
			}
			if i >= 0 {
				h.take(got, need)
				for s := got; s < got+need; s++ {
					busy[s]++
				}
			}
		}
	})
}

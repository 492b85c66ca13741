package soak

import (
	"testing"

	"pgregory.net/rapid"
)

// crowded is a soak day of plants for handfuls, in hours that may be too short
// for all of them.
func crowded(plants, hours int, seed uint64) *Session {
	s := manyPlants(plants, seed)
	s.Hours[0].To = hours * 3600
	return s
}

// A draft of handfuls may lose a plant when they are taken apart; a little work
// makes good for it. So no first draft, of handfuls or of single plants, is
// better than the plan.
func TestNoFirstDraftIsBetterThanThePlan(t *testing.T) {
	for seed := range 20 {
		s := crowded(60+7*seed, 2+seed%7, uint64(seed))
		a := &arranging{work: 1000 * len(s.Items), over: never}
		p := prepare(s)
		a.arrange(p)
		got := a.best.bestScore
		rough, _ := p.rough()
		for _, from := range []*problem{rough, p} {
			first := from.seeds(&arranging{work: a.work, over: never})[0].drafts[0].score
			if got.lost > first.lost || got.lost == first.lost && got.free > first.free {
				t.Errorf("handfuls %v, day %d: lost %d, free at %d; the best first draft lost %d, free at %d", from.n < p.n, seed, got.lost, got.free, first.lost, first.free)
			}
		}
	}
}

// Tightening changes nothing for the worse, and never allows more plants to dry
// at once.
func TestTighteningKeepsThePlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := prepare(crowded(rapid.IntRange(60, 200).Draw(t, "plants"), rapid.IntRange(2, 8).Draw(t, "hours"), rapid.Uint64().Draw(t, "seed")))
		a := &arranging{work: 1, over: never}
		a.walk(p)
		before, atOnce := a.best.bestScore, a.best.p.atOnce
		a.tighten()
		if after := a.best.bestScore; after.compare(before) > 0 {
			t.Fatalf("%+v, before it was %+v", after, before)
		}
		if now, peak := a.best.p.atOnce, int(a.best.d.crowd.peak); now > atOnce || peak > now {
			t.Fatalf("%d dry at once, drying times are for %d, before for %d", peak, now, atOnce)
		}
	})
}

package day_test

import (
	"testing"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/tests/household"
)

// bothInTheTub is a home whose agreed plan has two loads of the tub at the same hours, the long
// one by the tap and the short one at the far end, and another after them.
func bothInTheTub(t *testing.T) (h household.Home, long, short, after model.IDs) {
	h = household.Greens(t, 36)
	ids := h.IDs()
	long, short, after = ids[:12], ids[12:24], ids[24:]
	load := func(heap int, plants model.IDs, in, from, to int) model.AgreedLoad {
		l := model.AgreedLoad{Vessel: "tub", Heap: heap, Plants: plants,
			Start: may(8, 8).Add(time.Duration(in) * time.Minute), Out: may(8, 8).Add(time.Duration(in+from) * time.Minute)}
		for range plants {
			l.Least, l.Most = append(l.Least, from*60), append(l.Most, to*60)
		}
		return l
	}
	h.Say(may(8, 8), &model.Agreed{Since: may(8, 8), From: may(8, 8), Until: may(8, 16), DryBy: may(8, 23), AtOnce: 40,
		Loads: []model.AgreedLoad{load(1, long, 15, 180, 240), load(2, short, 45, 30, 45), load(2, after, 120, 30, 45)},
		Order: []model.AgreedWork{{Do: "pull", Load: 1}, {Do: "in", Load: 1}, {Do: "pull", Load: 2}, {Do: "in", Load: 2}, {Do: "out", Load: 2},
			{Do: "pull", Load: 3}, {Do: "in", Load: 3}, {Do: "out", Load: 3}, {Do: "out", Load: 1}}})
	h.Say(may(8, 8).Add(time.Minute), &model.Fill{Vessel: "tub"})
	return h, long, short, after
}

// heapOf is which heap of its vessel a plan and the book have a plant in the water be.
func heapOf(t *testing.T, h household.Home, p *day.Plan, id model.ID) int {
	t.Helper()
	load, _, ok := p.Placed(id)
	if !ok {
		t.Fatalf("plant %d has no place in the plan", id)
	}
	if row := h.Row(id); row.State == model.Soaking && h.Load(row.Load).Heap != p.Loads[load].Heap {
		t.Errorf("plant %d lies in heap %d by the plan, and in heap %d by the book", id, p.Loads[load].Heap, h.Load(row.Load).Heap)
	}
	return p.Loads[load].Heap
}

// A heap lies where it was laid until it is out: whoever is sent to the tap end takes out the
// wrong plants, when the heap that was laid at the far end is called so.
func TestAHeapKeepsItsPlaceUntilItIsOut(t *testing.T) {
	h, long, short, after := bothInTheTub(t)
	want := func(when string, now time.Time, heaps map[model.ID]int) {
		t.Helper()
		for name, p := range map[string]*day.Plan{
			"agreed": current(t, h, now),
			"anew":   planned(t, h, now, day.Ask{From: now, Until: may(8, 16), DryBy: may(8, 23)}),
		} {
			for id, heap := range heaps {
				if name == "anew" && h.Row(id).State != model.Soaking {
					continue
				}
				if is := heapOf(t, h, p, id); is != heap {
					t.Errorf("%s, plan %s: plant %d lies in heap %d, and was laid in heap %d", when, name, id, is, heap)
				}
			}
		}
	}
	put := func(at time.Time, minutes int, ids model.IDs) {
		h.Say(at, &model.Pull{}, ids...)
		h.Say(at, &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: at.Add(time.Duration(minutes) * time.Minute)}, ids...)
	}
	at := func(minutes int) time.Time { return may(8, 8).Add(time.Duration(minutes) * time.Minute) }
	want("nothing is in", at(2), map[model.ID]int{long[0]: 1, short[0]: 2, after[0]: 2})
	put(at(15), 180, long)
	want("one is in", at(20), map[model.ID]int{long[0]: 1, short[0]: 2, after[0]: 2})
	put(at(45), 30, short[:5])
	put(at(47), 30, short[5:])
	want("both are in", at(50), map[model.ID]int{long[0]: 1, short[0]: 2, short[7]: 2, after[0]: 2})
	h.Say(at(80), &model.Out{}, short...)
	want("one is out", at(81), map[model.ID]int{long[0]: 1, short[0]: 2, after[0]: 2})
	put(at(120), 30, after)
	h.Say(at(140), &model.Out{}, long...)
	want("the one at the far end is left", at(141), map[model.ID]int{long[0]: 1, after[0]: 2})
}

// Loads that nobody planned lie as the Soak screen shows them, the first by the tap: one that
// goes in beside the second, when the first is out, lies by the tap again.
func TestHeapsOfNoPlanLieAtBothEnds(t *testing.T) {
	h := household.Greens(t, 8)
	ids := h.IDs()
	heaps := func(want ...int) {
		t.Helper()
		for i, heap := range want {
			if row := h.Row(ids[2*i]); row.State == model.Soaking && h.Load(row.Load).Heap != heap {
				t.Errorf("load %d of %d lies in heap %d, want %d", i+1, len(want), h.Load(row.Load).Heap, heap)
			}
		}
	}
	put := func(i int) {
		at := may(8, 8).Add(time.Duration(i) * time.Minute)
		h.Say(at, &model.Soak{Load: h.NextLoad(), Vessel: "tub", Due: at.Add(time.Hour)}, ids[2*i:2*i+2]...)
	}
	put(0)
	heaps(0)
	put(1)
	heaps(1, 2)
	h.Say(may(8, 8).Add(time.Minute), &model.Out{}, ids[:2]...)
	put(2)
	heaps(0, 2, 1)
	put(3) // more than two nobody tells apart
	heaps(0, 2, 1, 0)
}

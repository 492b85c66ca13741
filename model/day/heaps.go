package day

import (
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// heap is what lies in a vessel with one clock: a load of the book, or what is in of a load
// of the agreed plan, in however many goes it was laid in.
type heap struct {
	soak.Given
	load *model.Load // the first of the book's
	of   int         // 1 + place in the loads of the agreed plan; 0 for none
	past bool        // its time is up by now; [soak.Given.Due] may be of when the hands began with what they are at
}

// heaps is what is still in of a load: one heap, but for plants whose windows have no time
// in common. Plants soak as agreed, or else at least as long as the load was meant to, each
// from when the hands came to it, and each may wait for those in front of it to come out.
func (p *planning) heaps(vessel int, l *model.Load) (heaps []heap) {
	in, wait := l.In, 0
	ids := p.book.StillIn(l)
	said := slices.ContainsFunc(ids, func(id model.ID) bool { return p.book.Row(id).In.After(l.In) })
	for _, id := range ids {
		row := p.book.Row(id)
		least := secondsUp(l.Minutes())
		most := max(least+wait, secondsDown(p.longestInWater(row)))
		of, n := p.agreedSoak(id, l.Vessel)
		if of > 0 {
			least, most = p.agreed.Loads[of-1].Least[n], p.agreed.Loads[of-1].Most[n]
		}
		it := p.item(row, least, most)
		it.Fed = l.Fed != nil
		if said { // when the hands came to each
			in = row.In
		}
		at := p.sec(model.Earlier(in, model.Later(p.now, p.free)))
		in = in.Add(time.Duration(it.Hands.In) * time.Second)
		wait += it.Hands.Out + it.Hands.Lay
		p.loads[it.ID] = l.ID
		k := slices.IndexFunc(heaps, func(h heap) bool {
			h.Items, h.In = append(slices.Clip(h.Items), it), append(slices.Clip(h.In), at)
			return h.shares() >= 0
		})
		if k < 0 {
			k, heaps = len(heaps), append(heaps, heap{soak.Given{Vessel: vessel, Due: !l.Due.After(p.handsSince()), Heap: l.Heap}, l, of, !l.Due.After(p.now)})
		}
		heaps[k].Items, heaps[k].In = append(heaps[k].Items, it), append(heaps[k].In, at)
	}
	return heaps
}

// agreedSoak is which load of the agreed plan, from 1, has a plant soak in a vessel, and
// which of its plants it is; 0 for none.
func (p *planning) agreedSoak(id model.ID, vessel string) (load, plant int) {
	if p.agreed == nil {
		return 0, 0
	}
	for n, l := range p.agreed.Loads {
		if i := slices.Index(l.Plants, id); i >= 0 && l.Vessel == vessel {
			return n + 1, i
		}
	}
	return 0, 0
}

// together adds heaps to others in the vessel. A load of the agreed plan that was laid in
// piece by piece is one heap again, where that leaves the hands time enough.
func (p *planning) together(heaps, more []heap) []heap {
	for _, h := range more {
		k := slices.IndexFunc(heaps, func(o heap) bool {
			return o.of > 0 && o.of == h.of && o.with(h).shares() >= int(lagWorthIt.Seconds())
		})
		if k < 0 {
			heaps = append(heaps, h)
			continue
		}
		if heaps[k].Heap != h.Heap {
			h.Heap = p.agreed.Loads[h.of-1].Heap
		}
		heaps[k], heaps[k].Heap = heaps[k].with(h), h.Heap
	}
	return heaps
}

// with is two heaps as one.
func (h heap) with(o heap) heap {
	h.Items, h.In, h.Due = slices.Concat(h.Items, o.Items), slices.Concat(h.In, o.In), h.Due && o.Due
	h.past = h.past && o.past
	inOrder(&h.Given)
	return h
}

// latestOut is by when a heap has to begin to come out, in turn.
func (h heap) latestOut() int {
	latest, out := never, 0
	for k, it := range h.Items {
		latest = min(latest, h.In[k]+it.Most-out)
		out += it.Hands.Out + it.Hands.Lay
	}
	return latest
}

// shares is for how long a heap could begin to come out with each plant in its window, in
// s; below 0 for never.
func (h heap) shares() int {
	from, out := math.MinInt, 0
	for k, it := range h.Items {
		from = max(from, h.In[k]+it.Least-out)
		out += it.Hands.Out + it.Hands.Lay
	}
	return h.latestOut() - from
}

// inOrder sorts a given load by when its plants went in.
func inOrder(g *soak.Given) {
	order := make([]int, len(g.In))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return g.In[a] - g.In[b] })
	items, in := make([]soak.Item, len(order)), make([]int, len(order))
	for k, i := range order {
		items[k], in[k] = g.Items[i], g.In[i]
	}
	g.Items, g.In = items, in
}

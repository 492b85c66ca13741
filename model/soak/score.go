package soak

import (
	"cmp"
	"math"
)

// score is how good a plan is: thirst left unserved, then when the hands are
// free, then the fills it draws, its loads, and how often the hands leave one
// half done; all the less the better.
type score struct {
	lost                       int64
	free, fills, loads, breaks int
}

func (d *day) score() score { return score{d.p.total - d.served, d.free, d.fills, d.count, d.breaks} }

func (a score) compare(b score) int {
	return cmp.Or(cmp.Compare(a.lost, b.lost), cmp.Compare(a.free, b.free), cmp.Compare(a.fills, b.fills),
		cmp.Compare(a.loads, b.loads), cmp.Compare(a.breaks, b.breaks))
}

// What a fill, a load, a break and a second of a load's end count against a
// second of the hands' time while plans are tried. Our own: enough to lead the
// search, too little to mislead it; what is kept is chosen by score alone.
const (
	fillSeconds  = 2
	loadSeconds  = 1
	breakSeconds = 20
	endShare     = 50 // seconds of ends for one of the hands'
	maxCost      = math.MaxInt64
)

// cost is the score in one number for the search, if so much thirst is served:
// no saving of time is worth any thirst.
func (d *day) cost(served int64) int64 {
	horizon := int64(d.p.s.Hours[len(d.p.s.Hours)-1].To - d.p.start)
	seconds := d.free - d.p.start + d.fills*fillSeconds + d.count*loadSeconds + d.breaks*breakSeconds
	return (d.p.total-served)*(2*horizon) + int64(seconds) + d.ends/endShare
}

// idealFor is a score that no draft of the items can beat, quickly found.
func (p *problem) idealFor(able []int) score {
	sc := score{lost: p.total - p.morning.served - p.weigh(able), free: p.bounder().plain(able)}
	kinds := map[kind]bool{}
	for _, i := range able {
		kinds[p.kind(i)] = true
	}
	sc.loads = len(kinds)
	for _, fed := range []bool{false, true} {
		sc.fills += p.leastFills(able, fed)
	}
	return sc
}

// leastFills is 1 if there are items for a kind of water that stands in no
// vessel yet.
func (p *problem) leastFills(items []int, fed bool) int {
	for v := range p.s.Vessels {
		if p.s.Vessels[v].Fed == fed && p.morning.tubs[v].water {
			return 0
		}
	}
	for _, i := range items {
		if p.items[i].Fed == fed {
			return 1
		}
	}
	return 0
}

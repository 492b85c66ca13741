package soak

import (
	"math"
	"slices"
)

// shares is a session in which a plant may be served in part: a linear
// relaxation. Time is cut at a few instants. A plant comes out in one of the
// pieces between them (its ways), on one bench, out of one kind of vessel. What
// then has to hold by, or at, each instant t:
//
//   - hands: the work of plants that went in, and came out, by t is no more than
//     the hands' time until then;
//   - vessels: the loads out by t stood in their vessel one after the other. A
//     load is held from its first plant in to its last out; with its longest
//     soaker's soak F, those before that one go in before its soak and those
//     after it come out after, so it is held at least F and the lesser of each
//     plant's work in and out. F times the vessel's room is at least the sum of
//     the load's litres times their own soaks; so each plant takes up its
//     litres' share of the vessel for its soak, and the lesser of its work, of
//     the vessel's time. Every so many loads a refill is due as well;
//   - room: the plants that are out by t at the latest, and are not dry before,
//     lie at t, and are no more than may dry at once;
//   - benches: the same in bench room, for each bench.
//
// The last two are the compulsory parts of cumulative scheduling, here with
// plants that need not be served (Lahrichi 1982, Comptes Rendus de l'Académie
// des Sciences 294:209-211).
type shares struct {
	b      bounder
	crowd  crowd
	until  int   // nothing is put in, or taken out in hours that start loads, after this
	at     []int // the instants
	tubs   []tubKind
	racks  []int // benches, fastest first, down to the first without limit
	items  []share
	ways   []way
	supply []float64 // by row: hands, each kind of vessel, room, each bench; len(at)+1 to a row
}

// share is an item that can be served, and its ways.
type share struct {
	item    int
	worth   float64
	holds   []float64 // s of each kind of vessel's time; infinite where it does not go in
	in, out float64   // s of hands
	room    float64   // on a bench
	ways    []way
}

// way is a piece of time for a plant to come out in, and where it then lies.
type way struct {
	in, out, dry int32 // it is in by that instant, out by that, and dry no sooner than that
	rack         int32 // in [shares.racks]
}

// tubKind is vessels that differ in nothing but when they are free.
type tubKind struct {
	vessels []int
	pour    float64 // s of refill due to each load
}

// tubKinds sorts the vessels by kind.
func (p *problem) tubKinds() []tubKind {
	var all []tubKind
	for v := range p.s.Vessels {
		x := &p.s.Vessels[v]
		at := slices.IndexFunc(all, func(k tubKind) bool {
			y := &p.s.Vessels[k.vessels[0]]
			return x.Room == y.Room && x.Fed == y.Fed && x.Age == y.Age && x.Loads == y.Loads && x.Refill == y.Refill
		})
		if at < 0 {
			at = len(all)
			k := tubKind{}
			if x.Loads > 0 {
				k.pour = float64(x.Refill) / float64(x.Loads)
			}
			all = append(all, k)
		}
		all[at].vessels = append(all[at].vessels, v)
	}
	return all
}

// fastRacks is the benches that a plant could do well to dry on, fastest first:
// none is better than one without limit.
func (p *problem) fastRacks() []int {
	var racks []int
	for _, b := range slices.Backward(p.slowest) {
		racks = append(racks, b)
		if math.IsInf(p.benches[b].Room, 1) {
			break
		}
	}
	return racks
}

func (s *shares) unlimited(rack int) bool {
	return math.IsInf(s.b.p.benches[s.racks[rack]].Room, 1)
}

// dries is the least s that an item takes to dry on a bench in a crowd.
func (b bounder) dries(i, bench int, factor float64) int {
	return b.p.items[i].dries(b.p.benches[bench], factor)
}

// shares cuts the items into shares. Of those that could not be served even
// alone it has none.
func (b bounder) shares(items []int, c crowd, until int, at []int) *shares {
	s := &shares{b: b, crowd: c, until: until, at: at, tubs: b.p.tubKinds(), racks: b.p.fastRacks()}
	s.items = make([]share, 0, len(items))
	holds := make([]float64, len(items)*len(s.tubs))
	factor := b.factor(c)
	for _, i := range items {
		first := len(s.ways)
		s.addWays(i, factor)
		if len(s.ways) == first {
			continue
		}
		it := &b.p.items[i]
		h := holds[:len(s.tubs):len(s.tubs)]
		holds = holds[len(s.tubs):]
		for k := range s.tubs {
			h[k] = s.tubs[k].hold(b.p, i)
		}
		s.items = append(s.items, share{item: i, worth: it.Thirst, holds: h, in: float64(it.HandsIn), out: float64(it.HandsOut),
			room: it.BenchRoom, ways: s.ways[first:len(s.ways):len(s.ways)]})
	}
	s.supplies()
	return s
}

// hold is how much of a vessel's time a plant takes.
func (k *tubKind) hold(p *problem, i int) float64 {
	v, it := k.vessels[0], &p.items[i]
	if !p.takes(v, i) {
		return math.Inf(1)
	}
	part := it.Bulk / (p.s.Vessels[v].Room + slack)
	return float64((float64(it.From)+k.pour)*part) + float64(min(it.HandsIn, it.HandsOut))
}

// soonest is when the hands can be done with taking an item out, at the
// earliest; ok is false if no vessel takes it.
func (b bounder) soonest(i int) (end int, ok bool) {
	open := math.MaxInt
	for v, t := range b.opens {
		if t < open && b.p.takes(v, i) {
			open = t
		}
	}
	it := &b.p.items[i]
	return open + it.From + it.HandsOut, open < math.MaxInt
}

// latest is when, up to a limit, the hands can be done with taking out an item
// that takes so long to dry, at the latest; math.MinInt if never.
func (s *shares) latest(i, dries, limit int) int {
	best := math.MinInt
	for h := range s.b.p.s.Hours {
		h := &s.b.p.s.Hours[h]
		end := min(h.To, h.DryBy-dries, limit)
		if !h.OutOnly {
			end = min(end, s.until)
		}
		if end >= h.From+s.b.p.items[i].HandsOut {
			best = max(best, end)
		}
	}
	return best
}

// addWays lists an item's ways: for each bench, each piece of time. Within a
// piece it is out by the end of it at the latest, and lies from then until it
// is dry if it came out at the start of it.
func (s *shares) addWays(i int, factor float64) {
	it := &s.b.p.items[i]
	soonest, ok := s.b.soonest(i)
	if !ok {
		return
	}
	lastIn := min(s.until, s.b.lastHour())
	for rack, bench := range s.racks {
		if it.BenchRoom > s.b.p.benches[bench].Room+slack {
			continue
		}
		dries, in, dry := s.b.dries(i, bench, factor), 0, 0
		limit := lastIn - it.HandsIn + it.To + it.HandsOut
		for k, t := range s.at {
			from := soonest
			if k > 0 {
				from = max(from, s.at[k-1]+1)
			}
			if t < from {
				continue
			}
			end := s.latest(i, dries, min(t, limit))
			if end < from {
				continue
			}
			in = s.instant(in, min(end-it.HandsOut-it.From+it.HandsIn, lastIn))
			dry = s.instant(max(dry, k), from+dries)
			s.ways = append(s.ways, way{in: int32(in), out: int32(k), dry: int32(dry), rack: int32(rack)})
		}
	}
}

// instant is the first instant from k on that is not before t.
func (s *shares) instant(k, t int) int {
	for k < len(s.at) && s.at[k] < t {
		k++
	}
	return k
}

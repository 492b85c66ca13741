package soak

import (
	"cmp"
	"math"
	"slices"
)

// problem is a session made ready for planning: tables that stay the same while
// schedules are tried.
type problem struct {
	*Session
	items   []Item // the session's, then those of its given loads
	n       int    // how many of them are the session's own
	benches []Bench
	order   []int   // benches, in the order in which they are offered to a plant
	pairs   []pair  // of hands
	turn    []int   // the place of each item among all, as a load is laid in
	weight  []int64 // what serving an item is worth: thirst in whole parts, urgent ones above all others
	dries   [][]int // s to dry, by bench and item, with so many at once
	soonest []int   // s to dry on the best bench, by item
	atOnce  int     // plants that may dry at once
	start   int
	end     int // of the time in which drying is counted
	piece   int // s, in which it is counted
	spare   int // pieces for which room is kept when a plant is dry: what is planned with one is followed without
	lag     int // s that the hands begin late as a rule: what is in the water is planned to be out so much sooner
	fewest  int // plants of an ordinary load
	least   []float64
	given   []load
	latest  int // s that given loads stay too long with the day to themselves

	latestDue int // s that those whose time is up stay in then
}

// pair is one pair of hands and the stretches in which it is there.
type pair []shift

// shift is a stretch of a pair of hands.
type shift struct {
	Stretch
	given bool // only for what is in the water when the session begins
}

// staysUntil is how long the pair is there without a break from one of its stretches on, for
// a load that is given or one that is not.
func (h pair) staysUntil(k int, given bool) int {
	for ; k+1 < len(h) && h[k+1].From <= h[k].To && (given || !h[k+1].given); k++ {
	}
	return h[k].To
}

// kind is what has to agree for two plants to share a load.
type kind struct {
	company Company
	fed     bool
}

// ordinary reports whether the session's limits bind loads of this kind.
func (k kind) ordinary() bool { return k == kind{} }

func (p *problem) kind(i int) kind { return kind{p.items[i].Company, p.items[i].Fed} }

// slack is what sums of litres and the like may be off by.
const slack = 1e-9

// parts is how finely thirst is told apart: the largest of a session is this
// many parts.
const parts = 1_000_000

func prepare(s *Session) *problem {
	p := &problem{Session: s, n: len(s.Items), spare: 1, start: s.Hours[0].From, items: slices.Clone(s.Items), benches: s.Benches}
	for _, g := range s.Given {
		p.items = append(p.items, g.Items...)
	}
	if len(p.benches) == 0 {
		p.benches = []Bench{{Room: math.Inf(1), Factor: 1}}
	}
	p.order = make([]int, len(p.benches))
	for b := range p.order {
		p.order[b] = b
	}
	slices.SortStableFunc(p.order, func(a, b int) int { return cmp.Compare(p.benches[b].Factor, p.benches[a].Factor) })
	own := make(pair, len(s.Hours))
	for i, h := range s.Hours {
		own[i] = shift{Stretch{h.From, h.To}, h.Given}
	}
	p.pairs = append(p.pairs, own)
	for _, h := range s.Help {
		p.pairs = append(p.pairs, pair{{Stretch: h}})
	}
	p.inTurn()
	p.weigh()
	p.limit()
	return p
}

// weigh counts thirst in parts, so that sums compare alike on every machine. The
// conversion keeps a machine from fusing a product and a sum, which would round
// otherwise than another.
func (p *problem) weigh() {
	most, total := 0.0, int64(0)
	for i := range p.items[:p.n] {
		most = max(most, p.items[i].Thirst)
	}
	p.weight = make([]int64, len(p.items))
	for i := range p.items[:p.n] {
		p.weight[i] = max(1, int64(float64(p.items[i].Thirst/most*parts)+0.5))
		total += p.weight[i]
	}
	for i := range p.items[:p.n] {
		if p.items[i].Urgent {
			p.weight[i] += total
		}
	}
}

// limit finds what an ordinary load holds at least, in plants and, by vessel, in
// litres.
func (p *problem) limit() {
	due, bulk := 0, 0.0
	for i := range p.n {
		if p.kind(i).ordinary() {
			due, bulk = due+1, bulk+p.items[i].Bulk
		}
	}
	p.fewest = min(p.Limits.Plants, due)
	if n := p.Limits.Loads; n > 0 && due < fewLoads*p.Limits.Plants {
		p.fewest = min(p.fewest, (due+n-1)/n)
	}
	p.least = make([]float64, len(p.Vessels))
	for v, vessel := range p.Vessels {
		other := func(than func(w Vessel) bool) bool {
			return slices.ContainsFunc(p.Vessels, func(w Vessel) bool { return w.Fed == vessel.Fed && than(w) })
		}
		share := p.Limits.Share * vessel.Room
		smaller := other(func(w Vessel) bool { return w.Room < vessel.Room })
		larger := other(func(w Vessel) bool { return w.Room > vessel.Room })
		if smaller || !larger && bulk >= fewLoads*share {
			p.least[v] = share
		}
	}
}

// fewLoads is for how many of the smallest loads less is due where few are: then any load
// will do. A choice.
const fewLoads = 2

// mostPieces is how finely room to dry is told apart in time: a soak day in
// minutes, or nearly. A guess at what nobody notices.
const mostPieces = 600

// with is the problem with drying times for so many plants drying at once.
func (p *problem) with(atOnce int) *problem {
	q := *p
	q.atOnce = atOnce
	factor := 1.0
	if p.Room != nil {
		factor = p.Room(atOnce)
	}
	q.dries = make([][]int, len(p.benches))
	q.soonest = slices.Repeat([]int{neverDry}, len(p.items))
	longest := 0
	for b, bench := range p.benches {
		q.dries[b] = make([]int, len(p.items))
		for i := range p.items {
			dry := p.items[i].dries(bench, factor)
			q.dries[b][i] = dry
			q.soonest[i] = min(q.soonest[i], dry)
			longest = max(longest, dry)
		}
	}
	last := p.Hours[len(p.Hours)-1]
	q.end = min(last.To+longest, max(last.To, last.DryBy))
	q.piece = max(1, (q.end-q.start)/mostPieces)
	q.given = nil
	at := p.n
	for g := range p.Session.Given {
		q.given = append(q.given, q.lying(g, at))
		at += len(p.Session.Given[g].Items)
	}
	return &q
}

// neverDry is the s to dry of what never does.
const neverDry = mostSeconds

// dries is the s that an item takes to dry on a bench in a room of a factor.
// The product is rounded before the difference, as on every machine.
func (it *Item) dries(b Bench, factor float64) int {
	dries := math.Ceil(float64(float64(it.DryFor)*b.Factor*factor) - slack)
	if !(dries < neverDry) { // a room may make nonsense of it
		return neverDry
	}
	return max(0, int(dries))
}

// hoursAt is the hours that a time belongs to: those it is in, else the last that
// began before.
func (p *problem) hoursAt(t int) *Hours {
	at := &p.Hours[0]
	for i := range p.Hours {
		if p.Hours[i].From <= t {
			at = &p.Hours[i]
		}
	}
	return at
}

// takes reports whether a vessel may hold the plant at all.
func (p *problem) takes(v, i int) bool {
	return p.Vessels[v].Fed == p.items[i].Fed && p.items[i].Bulk <= p.Vessels[v].Room+slack
}

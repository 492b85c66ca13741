package soak

import (
	"math/rand/v2"
	"slices"
)

// search betters a schedule by small changes. It keeps a change that is no worse than
// what it has, or than what it had a while ago: late acceptance hill climbing (Burke &
// Bykov 2017, European Journal of Operational Research 258:70).
type search struct {
	*trier
	rng   *rand.Rand
	cur   schedule
	score score
	left  []int // items of no load of cur, most worth first
	best  schedule
	top   score
	spare schedule // to change next
	has   []bool   // items of a load of cur
}

func newSearch(t *trier, d schedule, sc score) *search {
	return &search{trier: t, rng: rand.New(rand.NewPCG(1, 0)), cur: d.clone(), score: sc, best: d, top: sc}
}

func (s *search) listLeft(wanted []int) {
	s.has = append(s.has[:0], make([]bool, len(s.p.items))...)
	for l := range s.cur.loads {
		for _, i := range s.cur.loads[l].items {
			s.has[i] = true
		}
	}
	s.left = s.left[:0]
	for _, i := range wanted {
		if !s.has[i] {
			s.left = append(s.left, i)
		}
	}
}

// Guesses: after how many changes that bettered nothing, at most and for each plant,
// the search goes on from the best, changed so often; and what a change costs for each
// load, apart from the plants it places.
const (
	patience, eachPatience = 3000, 15
	kicks                  = 3
	eachLoad               = 4
)

// improve tries changes until so much is tried. What was so many changes ago counts.
func (s *search) improve(work, memory int, wanted []int, stop func() bool) {
	s.listLeft(wanted)
	past := slices.Repeat([]score{s.score}, max(1, min(memory, len(wanted))))
	stale, free, kinds := 0, 0, len(moves)
	if memory > 1 {
		kinds-- // fewer loads are for later: they leave less to change
	}
	for n, end := 0, s.tried+work; s.tried < end && !stop(); n++ {
		if stale++; stale > min(patience, eachPatience*len(wanted)) {
			s.cur, s.score, stale, free = s.best.clone(), s.top, 0, kicks
			s.listLeft(wanted)
		}
		s.tried += eachLoad * (1 + len(s.cur.loads))
		d := schedule{append(s.spare.loads[:0], s.cur.loads...), append(s.spare.order[:0], s.cur.order...)}
		s.spare = d
		if !moves[s.rng.IntN(kinds)](s, &d) || !s.allowed(&d) {
			continue
		}
		was := &past[n%len(past)]
		sc, ok := s.atLeast(&d, s.least(*was, free))
		if !ok || free == 0 && s.score.better(sc) && was.better(sc) {
			continue
		}
		s.cur, s.score, s.spare = d, sc, s.cur
		s.listLeft(wanted)
		if sc.better(s.top) {
			s.best, s.top, stale = d.clone(), sc, 0
		}
		if free > 0 {
			free--
			past = slices.Repeat([]score{sc}, len(past))
		}
		if sc.better(*was) {
			*was = sc
		}
	}
}

// least is the weight below which a schedule is not kept.
func (s *search) least(was score, free int) int64 {
	if free > 0 || s.score.late > 0 || was.late > 0 || s.score.due > 0 || was.due > 0 {
		return 0
	}
	return min(s.score.weight, was.weight)
}

// allowed reports whether a schedule keeps to the session's limits.
func (s *search) allowed(d *schedule) bool {
	if n := s.p.Limits.Loads; n > 0 && d.ordinary() > n && d.ordinary() > s.cur.ordinary() {
		return false
	}
	for l := range d.loads {
		load := &d.loads[l]
		if load.low > load.high || !s.p.fits(load) || !s.p.enough(load) {
			return false
		}
	}
	return true
}

// moves are the changes, the last for the end of the search alone. Each says whether it has
// changed anything.
var moves = []func(*search, *schedule) bool{
	(*search).reorder, (*search).reorder, (*search).swapLoads, (*search).shift, (*search).trade, (*search).fillUp,
	(*search).revessel, (*search).borrow, (*search).jumble, (*search).merge,
}

func (s *search) pick(n int) int { return s.rng.IntN(n) }

// reorder has the hands do one piece of work earlier or later.
func (s *search) reorder(d *schedule) bool {
	if len(d.order) < 2 {
		return false
	}
	from := s.pick(len(d.order))
	step := 1 + s.pick(min(6, len(d.order)))
	v := d.order[from]
	to := from
	for range step {
		next := to + 1
		if s.rng.IntN(2) == 0 && to == from || to < from {
			next = to - 1
		}
		if next < 0 || next >= len(d.order) || d.order[next].Load == v.Load {
			break
		}
		d.order[to] = d.order[next]
		d.order[next] = v
		to = next
	}
	return to != from
}

// own is a load that is not in the water yet, or -1.
func (s *search) own(d *schedule) int {
	n := len(d.loads) - len(s.p.given)
	if n <= 0 {
		return -1
	}
	return len(s.p.given) + s.pick(n)
}

// swapLoads has two loads change places in the day.
func (s *search) swapLoads(d *schedule) bool {
	a, b := s.own(d), s.own(d)
	if a < 0 || a == b {
		return false
	}
	d.loads[a], d.loads[b] = d.loads[b], d.loads[a]
	s.p.dispatch(d)
	return true
}

// set gives a load other plants.
func (s *search) set(d *schedule, l int, items []int) {
	d.loads[l].items = items
	s.p.settle(&d.loads[l])
}

// compatible reports whether an item may go into a load, room apart.
func (s *search) compatible(l *load, i int) bool {
	it := &s.p.items[i]
	return l.kind == s.p.kind(i) && s.p.takes(l.vessel, i) && it.latest() >= l.low && it.Least <= l.high && (l.given == 0)
}

// shift moves plants from one load to another.
func (s *search) shift(d *schedule) bool {
	a, b := s.own(d), s.own(d)
	if a < 0 || a == b || d.loads[a].kind != d.loads[b].kind {
		return false
	}
	from := slices.Clone(d.loads[a].items)
	to := slices.Clone(d.loads[b].items)
	room := s.p.Vessels[d.loads[b].vessel].Room - d.loads[b].bulk
	moved := false
	for range 1 + s.pick(4) {
		if len(from) == 0 {
			break
		}
		k := s.pick(len(from))
		i := from[k]
		if s.p.items[i].Bulk > room+slack || !s.p.takes(d.loads[b].vessel, i) {
			continue
		}
		room -= s.p.items[i].Bulk
		from = slices.Delete(from, k, k+1)
		to, moved = append(to, i), true
	}
	if !moved {
		return false
	}
	s.set(d, b, to)
	if len(from) == 0 {
		d.drop(a)
	} else {
		s.set(d, a, from)
	}
	return true
}

// trade takes plants out of a load and fills it up with others that are left.
func (s *search) trade(d *schedule) bool {
	l := s.own(d)
	if l < 0 || len(s.left) == 0 {
		return false
	}
	items := slices.Clone(d.loads[l].items)
	for range 1 + s.pick(2) {
		if len(items) > 1 {
			k := s.pick(len(items))
			items = slices.Delete(items, k, k+1)
		}
	}
	s.set(d, l, items)
	return s.fill(d, l, s.pick(len(s.left)), 3)
}

// fillUp puts plants that are left into a load.
func (s *search) fillUp(d *schedule) bool {
	l := s.own(d)
	return l >= 0 && len(s.left) > 0 && s.fill(d, l, s.pick(len(s.left))*s.pick(2), 1+s.pick(20))
}

// fill puts some plants that are left into a load, from a place in the list on.
func (s *search) fill(d *schedule, l, from, most int) bool {
	load := &d.loads[l]
	items, room := slices.Clone(load.items), s.p.Vessels[load.vessel].Room-load.bulk
	for k := range s.left {
		i := s.left[(from+k)%len(s.left)]
		if most == 0 {
			break
		}
		if s.p.items[i].Bulk <= room+slack && s.compatible(load, i) {
			items, room, most = append(items, i), room-s.p.items[i].Bulk, most-1
		}
	}
	if len(items) == len(load.items) {
		return false
	}
	s.set(d, l, items)
	return true
}

// revessel puts a load into another vessel.
func (s *search) revessel(d *schedule) bool {
	l := s.own(d)
	if l < 0 {
		return false
	}
	load := &d.loads[l]
	v := s.pick(len(s.p.Vessels))
	if v == load.vessel || s.p.Vessels[v].Fed != load.kind.fed || load.bulk > s.p.Vessels[v].Room+slack {
		return false
	}
	load.vessel, load.beside = v, false
	if s.pick(2) == 0 {
		s.p.dispatch(d)
	}
	return true
}

// borrow makes one more load around a plant that is left, with plants of other
// loads to keep it company.
func (s *search) borrow(d *schedule) bool {
	if len(s.left) == 0 {
		return false
	}
	anchor := s.left[s.pick(len(s.left))]
	k := s.p.kind(anchor)
	pool := slices.Clone(s.left)
	for l := len(s.p.given); l < len(d.loads); l++ {
		if d.loads[l].kind == k {
			pool = append(pool, d.loads[l].items...)
		}
	}
	s.rng.Shuffle(len(pool), func(a, b int) { pool[a], pool[b] = pool[b], pool[a] })
	v := s.pick(len(s.p.Vessels))
	if !s.p.takes(v, anchor) {
		return false
	}
	b := builder{trier: s.trier, order: pool, gone: make([]bool, len(s.p.items))}
	items := b.gather(v, k, anchor, s.p.Vessels[v].Room)
	items = items[:1+s.pick(len(items))]
	for l := len(d.loads) - 1; l >= len(s.p.given); l-- {
		rest := slices.DeleteFunc(slices.Clone(d.loads[l].items), func(i int) bool { return slices.Contains(items, i) })
		switch {
		case len(rest) == 0:
			d.drop(l)
		case len(rest) < len(d.loads[l].items):
			s.set(d, l, rest)
		}
	}
	return s.insert(d, load{vessel: v, items: items, kind: k, beside: s.pick(4) == 0})
}

// insert puts a load anywhere into the day.
func (s *search) insert(d *schedule, l load) bool {
	s.p.settle(&l)
	if l.low > l.high || !s.p.fits(&l) {
		return false
	}
	at := len(s.p.given) + s.pick(len(d.loads)-len(s.p.given)+1)
	d.loads = slices.Insert(d.loads, at, l)
	s.p.dispatch(d)
	return true
}

// merge makes one load of two, in any vessel that holds both.
func (s *search) merge(d *schedule) bool {
	a, b := s.own(d), s.own(d)
	if a < 0 || a == b || d.loads[a].kind != d.loads[b].kind {
		return false
	}
	load, v := &d.loads[b], s.pick(len(s.p.Vessels))
	if load.bulk+d.loads[a].bulk > s.p.Vessels[v].Room+slack || s.p.Vessels[v].Fed != load.kind.fed {
		return false
	}
	load.vessel, load.beside = v, false
	s.set(d, b, slices.Concat(load.items, d.loads[a].items))
	d.drop(a)
	if s.pick(2) == 0 {
		s.p.dispatch(d)
	}
	return true
}

// jumble has two plants of a load change places.
func (s *search) jumble(d *schedule) bool {
	l := s.own(d)
	if l < 0 || len(d.loads[l].items) < 2 {
		return false
	}
	load := &d.loads[l]
	a, b := s.pick(len(load.items)), s.pick(len(load.items))
	load.items = slices.Clone(load.items)
	load.items[a], load.items[b] = load.items[b], load.items[a]
	s.p.sum(load)
	return a != b
}

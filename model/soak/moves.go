package soak

import "slices"

// move changes a draft in place; false if the change it drew makes no sense.
type move func(s *search, f draft) (draft, bool)

// moves are drawn with equal chance; one that stands here more than once did
// more good.
var moves = []move{
	(*search).shift, (*search).shift, (*search).swapPlaces, (*search).rehouse, (*search).swapVessels, (*search).swapAll,
	(*search).handOver, (*search).handOver, (*search).trade, (*search).several, (*search).several, (*search).turn, (*search).apart,
	(*search).merge, (*search).split, (*search).bring, (*search).bring, (*search).exchange, (*search).sorted,
	(*search).regroupTwo, (*search).regroupTwo, (*search).regroupTwo, (*search).regroupTwo, (*search).regroupThree, (*search).regroupThree,
}

func (s *search) draw(n int) int { return s.rng.IntN(n) }

// two draws two different batches.
func (s *search) two(f draft) (a, b int, ok bool) {
	if len(f) < 2 {
		return 0, 0, false
	}
	a, b = s.draw(len(f)), s.draw(len(f)-1)
	if b >= a {
		b++
	}
	return a, b, true
}

// alike draws two different batches whose plants may share a load.
func (s *search) alike(f draft) (a, b int, ok bool) {
	a, b, ok = s.two(f)
	return a, b, ok && s.p.kind(f[a].items[0]) == s.p.kind(f[b].items[0])
}

// holds reports whether the batch's vessel takes its plants.
func (s *search) holds(b *batch) bool {
	v := &s.p.s.Vessels[b.vessel]
	return len(b.items) == 0 || v.Fed == s.p.items[b.items[0]].Fed && s.p.bulk(b.items) <= v.Room+slack
}

func takeOut(b *batch, k int) int {
	i := b.items[k]
	b.items = slices.Delete(b.items, k, k+1)
	return i
}

func (s *search) putIn(b *batch, i int) {
	b.items = slices.Insert(b.items, s.draw(len(b.items)+1), i)
}

// shift moves a batch to another place in the order.
func (s *search) shift(f draft) (draft, bool) {
	a, to, ok := s.two(f)
	if !ok {
		return f, false
	}
	b := f[a]
	if a < to {
		copy(f[a:to], f[a+1:to+1])
	} else {
		copy(f[to+1:a+1], f[to:a])
	}
	f[to] = b
	return f, true
}

// swapPlaces makes two batches change places in the order.
func (s *search) swapPlaces(f draft) (draft, bool) {
	a, b, ok := s.two(f)
	if ok {
		f[a], f[b] = f[b], f[a]
	}
	return f, ok
}

// rehouse moves a batch to another vessel.
func (s *search) rehouse(f draft) (draft, bool) {
	if len(f) == 0 {
		return f, false
	}
	b := &f[s.draw(len(f))]
	b.vessel = s.draw(len(s.p.s.Vessels))
	return f, s.holds(b)
}

// swapVessels makes two batches change vessels.
func (s *search) swapVessels(f draft) (draft, bool) {
	a, b, ok := s.two(f)
	if !ok || f[a].vessel == f[b].vessel {
		return f, false
	}
	f[a].vessel, f[b].vessel = f[b].vessel, f[a].vessel
	return f, s.holds(&f[a]) && s.holds(&f[b])
}

// swapAll makes two vessels change all their batches.
func (s *search) swapAll(f draft) (draft, bool) {
	a, b, ok := s.two(f)
	if !ok {
		return f, false
	}
	v, w := f[a].vessel, f[b].vessel
	if s.draw(2) == 0 {
		w = s.draw(len(s.p.s.Vessels))
	}
	for b := range f {
		switch f[b].vessel {
		case v:
			f[b].vessel = w
		case w:
			f[b].vessel = v
		}
		if !s.holds(&f[b]) {
			return f, false
		}
	}
	return f, v != w
}

// handOver moves a plant to another batch.
func (s *search) handOver(f draft) (draft, bool) {
	a, b, ok := s.alike(f)
	if !ok {
		return f, false
	}
	s.putIn(&f[b], takeOut(&f[a], s.draw(len(f[a].items))))
	return f, s.holds(&f[b])
}

// trade makes two plants change batches.
func (s *search) trade(f draft) (draft, bool) {
	a, b, ok := s.alike(f)
	if !ok {
		return f, false
	}
	x, y := s.draw(len(f[a].items)), s.draw(len(f[b].items))
	f[a].items[x], f[b].items[y] = f[b].items[y], f[a].items[x]
	return f, s.holds(&f[a]) && s.holds(&f[b])
}

// turn moves a plant within the order of its batch.
func (s *search) turn(f draft) (draft, bool) {
	if len(f) == 0 {
		return f, false
	}
	b := &f[s.draw(len(f))]
	if len(b.items) < 2 {
		return f, false
	}
	s.putIn(b, takeOut(b, s.draw(len(b.items))))
	return f, true
}

// newBatch puts a batch into the order, in any vessel.
func (s *search) newBatch(f draft, items []int) (draft, bool) {
	b := batch{s.draw(len(s.p.s.Vessels)), items}
	return slices.Insert(f, s.draw(len(f)+1), b), s.holds(&b)
}

// apart gives a plant a batch of its own.
func (s *search) apart(f draft) (draft, bool) {
	if len(f) == 0 {
		return f, false
	}
	a := &f[s.draw(len(f))]
	if len(a.items) < 2 {
		return f, false
	}
	return s.newBatch(f, []int{takeOut(a, s.draw(len(a.items)))})
}

// merge makes one batch of two.
func (s *search) merge(f draft) (draft, bool) {
	a, b, ok := s.alike(f)
	if !ok {
		return f, false
	}
	f[a].items = append(f[a].items, f[b].items...)
	f[b].items = f[b].items[:0]
	return f, s.holds(&f[a])
}

// split makes two batches of one.
func (s *search) split(f draft) (draft, bool) {
	if len(f) == 0 {
		return f, false
	}
	a := &f[s.draw(len(f))]
	if len(a.items) < 3 {
		return f, false
	}
	at := 1 + s.draw(len(a.items)-1)
	rest := slices.Clone(a.items[at:])
	a.items = a.items[:at]
	return s.newBatch(f, rest)
}

// thirsty draws one of the plants left out, rather one of much worth; false if
// there is none, or the change being tried has brought it in already.
func (s *search) thirsty() (int, bool) {
	n := len(s.left)
	if n == 0 {
		return 0, false
	}
	i := s.left[min(s.draw(n), s.draw(n), s.draw(n))]
	if slices.Contains(s.brought, i) {
		return 0, false
	}
	s.brought = append(s.brought, i)
	return i, true
}

// bring takes in a plant that was left out.
func (s *search) bring(f draft) (draft, bool) {
	i, ok := s.thirsty()
	if !ok {
		return f, false
	}
	if len(f) == 0 || s.draw(3) == 0 {
		return s.newBatch(f, []int{i})
	}
	b := &f[s.draw(len(f))]
	if s.p.kind(b.items[0]) != s.p.kind(i) {
		return f, false
	}
	s.putIn(b, i)
	return f, s.holds(b)
}

// exchange takes in a plant that was left out, in the place of another.
func (s *search) exchange(f draft) (draft, bool) {
	i, ok := s.thirsty()
	if !ok || len(f) == 0 {
		return f, false
	}
	b := &f[s.draw(len(f))]
	k := s.draw(len(b.items))
	if s.p.kind(b.items[k]) != s.p.kind(i) || s.p.weight[b.items[k]] > s.p.weight[i] {
		return f, false
	}
	b.items[k] = i
	return f, s.holds(b)
}

package soak

// width is how many numbers a row has: one for each instant, and one that stays
// zero for what lies beyond the last.
func (s *shares) width() int { return len(s.at) + 1 }

// Rows start at hands, each kind of vessel, room, each bench.
func (s *shares) tubRow(kind int) int  { return (1 + kind) * s.width() }
func (s *shares) roomRow() int         { return (1 + len(s.tubs)) * s.width() }
func (s *shares) rackRow(rack int) int { return (2 + len(s.tubs) + rack) * s.width() }

// supplies is what there is of everything at each instant.
func (s *shares) supplies() {
	s.supply = make([]float64, s.rackRow(len(s.racks)))
	crowded := s.b.p.s.Room != nil
	for k, t := range s.at {
		s.supply[k] = float64(s.handsUntil(t))
		for kind := range s.tubs {
			s.supply[s.tubRow(kind)+k] = s.tubsUntil(&s.tubs[kind], t)
		}
		if crowded {
			s.supply[s.roomRow()+k] = float64(max(0, s.crowd.to-s.lying(t)))
		}
		for rack := range s.racks {
			if !s.unlimited(rack) {
				s.supply[s.rackRow(rack)+k] = s.benchAt(s.racks[rack], t)
			}
		}
	}
}

// handsUntil is the hands' time for new plants until then.
func (s *shares) handsUntil(t int) int {
	p, time := s.b.p, 0
	count := func(from, to, hour int) {
		to = min(to, t)
		if !p.s.Hours[hour].OutOnly {
			to = min(to, s.until)
		}
		time += max(0, to-max(from, s.b.first))
	}
	if s.b.given {
		for _, g := range p.morning.gaps {
			count(g.from, g.to, g.hour)
		}
		return time
	}
	for i, h := range p.s.Hours {
		count(h.From, h.To, i)
	}
	return time
}

// tubsUntil is the time of the vessels of a kind until then. The refills that
// the loads pay for are one too many for each vessel: the fill that it opens
// with is paid for.
func (s *shares) tubsUntil(kind *tubKind, t int) float64 {
	p, time := s.b.p, 0.0
	for _, v := range kind.vessels {
		if t <= s.b.opens[v] {
			continue
		}
		time += float64(t - s.b.opens[v])
		loads := p.s.Vessels[v].Loads
		if p.stands(v) {
			loads = max(0, loads-p.morning.tubs[v].loads)
		}
		time += float64(float64(loads) * kind.pour)
	}
	return time
}

// lying is how many plants lie in the room at t whatever is planned.
func (s *shares) lying(t int) int {
	p, n := s.b.p, 0
	for _, d := range p.s.Drying {
		if p.start <= t && t < d.Until {
			n++
		}
	}
	if !s.b.given {
		return n
	}
	factor := s.b.factor(s.crowd)
	fastest := p.slowest[len(p.slowest)-1]
	item := p.n
	for l := range p.morning.loads {
		for k := range p.morning.loads[l].Plants {
			x := &p.morning.loads[l].Plants[k]
			if x.Out <= t && t < x.Out+x.HandsOut+s.b.dries(item, fastest, factor) {
				n++
			}
			item++
		}
	}
	return n
}

// benchAt is the room on a bench at t beside what lies there already.
func (s *shares) benchAt(bench, t int) float64 {
	p := s.b.p
	room := p.benches[bench].Room + slack
	for _, d := range p.s.Drying {
		if d.Bench == bench && p.start <= t && t < d.Until {
			room -= d.Room
		}
	}
	return max(0, room)
}

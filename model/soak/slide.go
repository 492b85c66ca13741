package soak

import (
	"context"
	"fmt"
	"slices"
)

// Before is a plan made earlier, of the same day.
type Before struct {
	AtOnce int // see [Plan.AtOnce]
	Loads  []LoadBefore
	Order  []Visit // of the hands' work, by place in Loads; what is done already is passed over
	Keep   bool    // loads are not made up again, whatever is lost
}

// LoadBefore is a load of an earlier plan. Plants that the session no longer has
// are passed over.
type LoadBefore struct {
	Vessel int
	IDs    []int // of the plants still to go in, in order
	Given  int   // 1 + index in [Session.Given] if it is in the water by now; else 0
}

// Slide gives the loads of an earlier plan their times from now on: the same
// plants in the same vessels, in the same order of the hands' work. Loads are
// made up again only where that keeps plants in it that would leave their window
// otherwise; what cannot be kept is left out. The error wraps [ErrSession] or the
// context's.
func Slide(ctx context.Context, s *Session, before Before) (*Plan, error) {
	if err := s.Check(); err != nil {
		return nil, err
	}
	a := arranging{problem: prepare(s), stop: stopper(ctx)}
	for _, atOnce := range []int{before.AtOnce, a.rows()} {
		if atOnce < 1 || a.by != nil && (a.complete() || s.Room == nil) {
			continue
		}
		t := a.trier(atOnce)
		d := t.p.recall(before)
		sc := t.shed(&d)
		if again := d.clone(); sc.late > 0 || len(d.loads) < len(before.Loads) {
			t.p.dispatch(&again)
			if is := t.shed(&again); is.late < sc.late || is.late == sc.late && is.weight > sc.weight {
				d, sc = again, is
			}
		}
		if a.by == nil || sc.better(a.score) {
			a.draft = draft{d, sc, t}
		}
	}
	lost := !a.complete() || a.over()
	if lost && !before.Keep {
		a.remake(min(DefaultWork, eachWork*len(s.Items)))
	}
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("slide the plan: %w", err)
	}
	p := a.plan()
	p.Lost = lost
	return p, nil
}

// remake makes loads up again: from those there are, and anew where that serves more.
func (a *arranging) remake(work int) {
	kept := a.draft
	a.improve(&kept, work, 1)
	a.draft = draft{}
	a.search(work)
	if !a.score.better(kept.score) || a.score.weight == kept.score.weight {
		a.draft = kept
	}
}

// complete reports whether the best schedule serves every item.
func (a *arranging) complete() bool {
	n := 0
	for l := range a.best.loads {
		n += len(a.best.loads[l].items) - a.best.loads[l].lying
	}
	return n == a.n
}

// over reports whether the best schedule keeps a plant in the water too long.
func (a *arranging) over() bool {
	a.by.try(&a.best)
	for l := range a.best.loads {
		if load := &a.best.loads[l]; load.given > 0 && load.lying > 0 && a.by.clock.loads[l].out > load.to {
			return true
		}
	}
	return false
}

// recall is an earlier plan as a schedule of what is left of it.
func (p *problem) recall(before Before) schedule {
	d := schedule{loads: slices.Clone(p.given)}
	at := make([]int, len(before.Loads))
	index, joined := map[int]int{}, make([]bool, p.n)
	for i := range p.n {
		index[p.items[i].ID] = i
	}
	for g := range p.given {
		for _, i := range p.given[g].items[p.given[g].lying:] {
			joined[i] = true
		}
	}
	for b, was := range before.Loads {
		at[b] = was.Given - 1
		if was.Given > 0 {
			continue
		}
		l := load{vessel: was.Vessel}
		for _, id := range was.IDs {
			if i, ok := index[id]; ok && !joined[i] && p.takes(was.Vessel, i) && (len(l.items) == 0 || p.kind(i) == l.kind) {
				l.items, l.kind, joined[i] = append(l.items, i), p.kind(i), true
			}
		}
		p.sum(&l)
		if len(l.items) > 0 && p.enough(&l) {
			at[b] = len(d.loads)
			d.loads = append(d.loads, l)
		}
	}
	done := make([][GetOut + 1]bool, len(d.loads))
	for _, v := range before.Order {
		if l := at[v.Load]; l >= 0 && p.owes(&d.loads[l], v.Do) {
			d.order = append(d.order, Visit{v.Do, l})
			done[l][v.Do] = true
		}
	}
	for l := range d.loads { // what the earlier plan knew nothing of is done first
		for _, do := range []Do{GetOut, PutIn, Pull} {
			if !done[l][do] && p.owes(&d.loads[l], do) {
				d.order = slices.Insert(d.order, 0, Visit{do, l})
			}
		}
	}
	return d
}

// owes reports whether the hands still have to do something with a load.
func (p *problem) owes(l *load, do Do) bool {
	return do == GetOut || len(l.items) > l.lying
}

// shed gives a schedule times, and takes loads out of it until there are some: of
// all loads the one without which most is served.
func (t *trier) shed(d *schedule) score {
	for {
		sc, ok := t.try(d)
		if ok {
			return sc
		}
		best, top, found := schedule{}, score{}, false
		least := -1
		for l := range d.loads {
			if d.loads[l].given > 0 {
				continue
			}
			if least < 0 || d.loads[l].weight < d.loads[least].weight {
				least = l
			}
			less := d.clone()
			less.drop(l)
			if sc, ok := t.try(&less); ok && (!found || sc.better(top)) {
				best, top, found = less, sc, true
			}
		}
		switch {
		case found:
			*d = best
			return top
		case least >= 0:
			d.drop(least)
		default:
			t.p.dispatch(d)
			sc, _ := t.try(d)
			return sc
		}
	}
}

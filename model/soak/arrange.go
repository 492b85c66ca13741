package soak

import (
	"cmp"
	"context"
	"fmt"
	"slices"
)

// Effort is how long to look for a better plan. There is no clock in it: work
// is counted in plants placed, some 10 million a second on a small computer.
type Effort struct {
	Work int // plants placed after the first schedules; 0 means [DefaultWork], less for a few plants
}

// DefaultWork is the work of a plan if no other is asked for.
const DefaultWork = 2_000_000

// eachWork is the most of it that is spent on each plant. A guess.
const eachWork = 100_000

// Arrange plans a session: plants in the water come out in time, most thirst is
// served, urgent plants before all others, with the fewest visits to the
// vessels, and the hands are free early; in this order. It builds a few schedules
// load by load, and betters the best of them by small changes. The error wraps
// [ErrSession] or the context's.
func Arrange(ctx context.Context, s *Session, e Effort) (*Plan, error) {
	if err := s.Check(); err != nil {
		return nil, err
	}
	if e.Work == 0 {
		e.Work = min(DefaultWork, eachWork*len(s.Items))
	}
	stop := stopper(ctx)
	a := arranging{problem: prepare(s), stop: stop}
	a.search(e.Work)
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("plan the session: %w", err)
	}
	return a.plan(), nil
}

// stopper asks a context now and then whether to stop.
func stopper(ctx context.Context) func() bool {
	asked := 0
	return func() bool {
		asked++
		return asked%64 == 0 && ctx.Err() != nil
	}
}

// arranging is a session being planned.
type arranging struct {
	*problem
	stop func() bool
	draft
}

// draft is a schedule, its score, and the trier that has tried it.
type draft struct {
	best  schedule
	score score
	by    *trier
}

// first builds schedules for ever fewer plants drying at once: with fewer each dries
// sooner. The best of either kind are kept: those built in turn serve less at first,
// and often more when they have been bettered.
func (a *arranging) first() []draft {
	var best [2]draft
	n := a.rows()
	for range mostCrowds {
		t := a.trier(n)
		peak := 0
		for _, w := range ways {
			d, sc := t.build(w, t.wanted, a.stop)
			to := &best[0]
			if w.inTurn {
				to = &best[1]
			}
			if to.by == nil || sc.better(to.score) {
				*to = draft{d, sc, t}
			}
			peak = max(peak, t.peakOf(&d))
		}
		next := min(peak, n*crowdStep/100)
		if a.Room == nil || next < 1 || next >= n || a.stop() {
			break
		}
		n = next
	}
	return best[:]
}

// mostCrowds is how many numbers of plants drying at once are tried, each so many
// hundredths of the one before, at most. Guesses.
const (
	mostCrowds = 4
	crowdStep  = 85
)

// peakOf is how many plants dry at once in a schedule.
func (t *trier) peakOf(d *schedule) int {
	t.try(d)
	return int(t.dry.peak)
}

// rows is how many plants could dry at once at most.
func (p *problem) rows() int { return max(1, len(p.items)+len(p.Drying)) }

// trier tries schedules with drying times for so many plants drying at once. It knows
// which items could be served if they had the day to themselves, and why the
// others cannot.
func (p *problem) trier(atOnce int) *trier {
	t := newTrier(p.with(atOnce))
	alone := schedule{loads: slices.Clone(t.p.given)}
	for l := range alone.loads { // of them what is in; the rest need not go in
		load := &alone.loads[l]
		load.items = load.items[:load.lying]
		t.p.sum(load)
	}
	t.p.dispatch(&alone)
	if t.clock.time(&alone) {
		t.p.latest, t.p.latestDue = t.clock.late, t.clock.due
		if t.dry.lay(&alone, &t.clock, 0); t.dry.crowded() { // more dry at once than that, whatever is done
			return p.trier(int(t.dry.peak))
		}
	}
	given := make([]bool, len(t.p.items))
	for l := range t.p.given {
		for _, i := range t.p.given[l].items {
			given[i] = true
		}
	}
	for i := range t.p.n {
		if given[i] {
			continue
		}
		if why, by, ok := t.could(i); ok {
			t.wanted = append(t.wanted, i)
		} else {
			t.alone = append(t.alone, LeftOut{ID: t.p.items[i].ID, Index: i, Why: why, By: by})
		}
	}
	slices.SortStableFunc(t.wanted, func(x, y int) int { return cmp.Compare(t.p.weight[y], t.p.weight[x]) })
	return t
}

// search betters the first schedules a little, and the best of them then, with
// drying times for the number of plants that dry at once in it.
func (a *arranging) search(work int) {
	for _, d := range a.first() {
		if a.improve(&d, work/4, longMemory); a.by == nil || d.score.better(a.score) {
			a.draft = d
		}
	}
	if peak := a.by.peakOf(&a.best); a.Room != nil && peak >= 1 && peak < a.by.p.atOnce {
		t := a.trier(peak)
		d := a.best.clone()
		for l := range d.loads {
			t.p.sum(&d.loads[l])
		}
		if sc, ok := t.try(&d); ok && !a.score.better(sc) {
			a.draft = draft{d, sc, t}
		}
	}
	a.improve(&a.draft, work/4, longMemory)
	a.improve(&a.draft, work/4, 1)
}

// longMemory is from how many changes ago a schedule may be as bad as. A guess.
const longMemory = 400

func (a *arranging) improve(d *draft, work, memory int) {
	s := newSearch(d.by, d.best, d.score)
	s.improve(work, memory, d.by.wanted, a.stop)
	d.best, d.score = s.best, s.top
}

// plan writes the best schedule down, its loads in the order of the walk.
func (a *arranging) plan() *Plan {
	var left []LeftOut
	a.score = a.by.gatherWalks(&a.best, a.score, a.by.hair())
	left, a.best, a.score = a.by.left(&a.best, a.score, true)
	a.score = a.by.gatherWalks(&a.best, a.score, 0)
	a.by.pullLater(&a.best)
	return a.write(left)
}

// write writes the best schedule down.
func (a *arranging) write(left []LeftOut) *Plan {
	t, d := a.by, &a.best
	t.try(d)
	t.clock.pullLate(d)
	t.fillLate(d)
	p := &Plan{Left: left, HandsFree: t.clock.free, AllDry: a.start, AtOnce: t.p.atOnce}
	place := t.write(p, d)
	t.actions(p, d, place)
	t.totals(p, d)
	p.Bound = t.p.earliest(d)
	if slices.ContainsFunc(p.Late, func(l Late) bool { return l.NoHands }) {
		p.Bound = min(p.Bound, p.HandsFree) // it counts work that nobody does
	}
	return p
}

// write puts the loads of a schedule with times into a plan, in the order they
// start, and says where each went.
func (t *trier) write(p *Plan, d *schedule) (place []int) {
	var order []int
	for l := range d.loads {
		if len(d.loads[l].items) > 0 {
			order = append(order, l)
		}
	}
	start := func(l int) int {
		if g := d.loads[l].given; g > 0 {
			return t.p.Session.Given[g-1].In[0]
		}
		return t.clock.loads[l].in
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(start(a), start(b)) })
	place = slices.Repeat([]int{-1}, len(d.loads))
	for _, l := range order {
		place[l] = len(p.Loads)
		p.Loads = append(p.Loads, t.load(&d.loads[l], &t.clock.loads[l], start(l)))
	}
	for _, v := range d.order {
		if place[v.Load] >= 0 {
			p.Order = append(p.Order, Visit{v.Do, place[v.Load]})
		}
	}
	return place
}

func (t *trier) load(l *load, at *timed, start int) Load {
	to := Load{Vessel: l.vessel, Fill: at.fill, Heap: at.heap, Start: start, Out: at.out, End: at.end,
		Company: l.kind.company, Fed: l.kind.fed, Given: l.given}
	in, out := at.in, at.out
	for k, i := range l.items {
		x := Placed{Item: t.p.items[i], Index: i, In: in, Out: out, Bench: t.dry.places[i].bench, Dry: t.dry.places[i].dry}
		if k < l.lying {
			x.Index, x.In = -1, t.p.Session.Given[l.given-1].In[k]
		} else {
			in += x.Hands.In
		}
		out += x.Hands.Out + x.Hands.Lay
		if len(t.p.Benches) == 0 {
			x.Bench = -1
		}
		to.Plants = append(to.Plants, x)
	}
	return to
}

// totals sums a plan up.
func (t *trier) totals(p *Plan, d *schedule) {
	for _, l := range p.Loads {
		p.Visits++
		if l.Plants[len(l.Plants)-1].Index >= 0 {
			p.Visits++
		}
		for _, x := range l.Plants {
			p.AllDry = max(p.AllDry, x.Dry)
			if x.Index >= 0 {
				p.Thirst += x.Thirst
				continue
			}
			late := Late{ID: x.ID, Over: max(0, x.Out-x.In-x.Most), NotDry: max(0, x.Dry-t.p.hoursAt(x.Out).DryBy)}
			for g := range d.loads {
				for k, i := range d.loads[g].items[:d.loads[g].lying] {
					if d.loads[g].given == l.Given && t.p.items[i].ID == x.ID && l.Plants[k].ID == x.ID {
						late.NoBench = t.dry.places[i].why == BenchesTaken
					}
				}
			}
			late.NoHands = !t.p.inHours(l.Out, l.End)
			if late.Over > 0 || late.NotDry > 0 || late.NoBench || late.NoHands {
				p.Late = append(p.Late, late)
			}
		}
	}
	for _, a := range p.Actions {
		if a.Do == Fill {
			p.Fills++
		}
	}
}

// inHours reports whether a pair of hands is there from a time to another.
func (p *problem) inHours(from, to int) bool {
	for _, h := range p.pairs {
		for k, s := range h {
			if from >= s.From && to <= h.staysUntil(k, true) {
				return true
			}
		}
	}
	return false
}

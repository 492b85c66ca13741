// Package day is the soak day and the week: from the book to a plan that is
// agreed, followed and made again when something changes.
package day

import (
	"context"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// Plan is a soak day: what goes in where and when, what comes out when, and
// what has no place in it. Times are in the grower's zone, whole seconds.
type Plan struct {
	Made      time.Time // when it was asked for
	Ask       Ask       // with the house rules put in
	Vessels   []model.Vessel
	Loads     []Load               // in the order they start
	Steps     []Step               // in clock order
	HandsFree time.Time            // the hands are done, but for what comes out tomorrow
	DayFree   time.Time            // the hands are done until a load for the night goes in; HandsFree where there is none
	DayBound  time.Time            // no plan that soaks the same plants has them done by then earlier
	AllDry    time.Time            // all are dry, with the upper end of what is expected
	Bound     time.Time            // no plan that soaks the same plants has the hands free earlier
	Thirst    Share                // served, of all that is due
	Fills     int                  // drawn
	AtOnce    int                  // most plants drying at once
	Left      []LeftOut            // by number
	Late      []LeftOut            // plants in the water already that no plan keeps to the rules
	Unfed     int                  // to be fed by the ask, but not by the house rules; they soak in plain water
	Assumed   bool                 // the room's air is the house rule's: there is no reading
	Full      map[string]time.Time // when vessels are full that water is running into, by name
}

// Share is a part of a whole.
type Share struct{ Got, Of float64 }

// PlanLoad is a load of a plan.
type Load struct {
	Vessel  string
	Fill    int       // of that vessel, from 1; 0 is the water that stands in it
	Start   time.Time // the first plant goes in
	Out     time.Time // the first plant comes out
	End     time.Time // the last plant is out
	Company soak.Company
	Fed     bool
	Load    model.LoadID // of the book, for a load that is in the water already; else 0
	Night   bool         // comes out the morning after
	Turn    int          // its place in the order in which the day's loads, or the night's, were planned
	Plants  []Plant      // in the order they go in, which is the order they come out
}

// PlanPlant is one row in a load.
type Plant struct {
	ID                model.ID
	Bulk              float64 // litres
	From, To          int     // s in the water, at least and at most
	HandsIn, HandsOut int     // s
	Company           soak.Company
	In, Out           time.Time // the hands begin with it
	Dry               time.Time // at the latest
	Bench             string
}

// LeftOut is a plant that a plan has no place for, or that it cannot keep to
// the rules. One of the pointers says why.
type LeftOut struct {
	ID       model.ID
	NotDue   *NotDue       // it was named, and wants no soak
	NotFed   *advice.Stop  // it was named, and may not be fed
	Unplaced *soak.LeftOut // there is no room or time for it
	Late     *soak.Late    // it is in the water already
	Fed      bool          // it was to soak in fed water
}

// NotDue is why a plant wants no soak.
type NotDue struct {
	State   model.State
	Band    soak.Band
	Reasons []advice.Reason
}

// NewPlan plans a soak day from now on: loads in the water stay as they are, and
// what is drying keeps its place. It returns the best plan found when the
// effort is spent or the context ends. The same book, time and ask give the
// same plan. The error is a [model.Problem], or the context's.
func NewPlan(ctx context.Context, k *estimate.Keeper, now time.Time, ask Ask) (*Plan, error) {
	return plan(ctx, k, now, ask, nil)
}

// plan makes a plan that keeps to an old one, if there is one.
func plan(ctx context.Context, k *estimate.Keeper, now time.Time, ask Ask, old *Plan) (*Plan, error) {
	p, err := newPlanning(k, now.In(k.Book().Zone()), ask)
	if err != nil {
		return nil, err
	}
	p.old = old
	day, err := p.arrange(ctx, p.day(), false)
	if err != nil {
		return nil, err
	}
	p.tell(day)
	if len(p.night) > 0 {
		night, err := p.arrange(ctx, p.evening(), true)
		if err != nil {
			return nil, err
		}
		p.tell(night)
	}
	return p.finish(), nil
}

// tell writes an arranged session into the plan.
func (p *planning) tell(a arranged) {
	base := len(p.plan.Loads)
	for _, l := range a.Loads {
		p.plan.Loads = append(p.plan.Loads, p.load(a, l))
	}
	for _, act := range a.Actions(a.Session) {
		p.plan.Steps = append(p.plan.Steps, p.step(a, act, base))
	}
	for _, l := range a.Left {
		p.plan.Left = append(p.plan.Left, LeftOut{ID: model.ID(l.ID), Unplaced: &l, Fed: p.fed(l.ID)})
	}
	for _, l := range a.Late {
		p.plan.Late = append(p.plan.Late, LeftOut{ID: model.ID(l.ID), Late: &l})
	}
	if !a.night {
		p.plan.DayFree, p.plan.DayBound = p.at(a.HandsFree), p.at(a.Bound.HandsFree)
	}
	p.plan.HandsFree = model.Later(p.plan.HandsFree, p.at(a.HandsFree))
	p.plan.Bound = model.Later(p.plan.Bound, p.at(a.Bound.HandsFree))
	p.plan.AllDry = model.Later(p.plan.AllDry, p.at(a.AllDry))
	p.plan.Thirst.Got += a.Thirst
	for _, it := range a.Items {
		p.plan.Thirst.Of += it.Thirst
	}
	p.plan.Fills += a.Fills
	p.plan.AtOnce = max(p.plan.AtOnce, a.AtOnce)
	if !a.night {
		for _, l := range a.Loads {
			p.dayFills[l.Vessel] = max(p.dayFills[l.Vessel], l.Fill)
		}
	}
}

// fillOf is the number of a load's fill: those of the evening follow on.
func (p *planning) fillOf(a arranged, l soak.Load) int {
	if a.night {
		return p.dayFills[l.Vessel] + l.Fill
	}
	return l.Fill
}

func (p *planning) load(a arranged, l soak.Load) Load {
	load := Load{
		Vessel: p.vessels[l.Vessel].Name, Fill: p.fillOf(a, l),
		Start: p.at(l.Start), Out: p.at(l.Out), End: p.at(l.End), Company: l.Company, Fed: l.Fed, Turn: l.Turn,
		Plants: make([]Plant, len(l.Plants)),
	}
	if l.Given {
		load.Load = p.loads[l.Plants[0].ID]
	}
	for i, t := range l.Plants {
		load.Plants[i] = Plant{
			ID: model.ID(
				t.ID,
			), Bulk: t.Bulk, From: t.From, To: t.To, HandsIn: t.HandsIn, HandsOut: t.HandsOut, Company: t.Company,
			In: p.at(t.In), Out: p.at(t.Out), Dry: p.at(t.Dry), Bench: p.bench(t.Bench),
		}
	}
	load.Night = a.comesOutTomorrow(l)
	return load
}

// comesOutTomorrow reports whether a load comes out in hours that only take out.
func (a arranged) comesOutTomorrow(l soak.Load) bool {
	return slices.ContainsFunc(a.Hours, func(h soak.Hours) bool { return h.OutOnly && l.Out >= h.From })
}

func (p *planning) bench(i int) string {
	if i < 0 || i >= len(p.benches) {
		return ""
	}
	return p.benches[i].Name
}

// finish puts the parts of the plan into one order.
func (p *planning) finish() *Plan {
	plan := p.plan
	order := make([]int, len(plan.Loads))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return plan.Loads[a].Start.Compare(plan.Loads[b].Start) })
	loads, place := make([]Load, len(order)), make([]int, len(order))
	for to, from := range order {
		loads[to], place[from] = plan.Loads[from], to
	}
	plan.Loads = loads
	for i := range plan.Steps {
		plan.Steps[i].Load = place[plan.Steps[i].Load]
	}
	slices.SortStableFunc(plan.Steps, func(a, b Step) int { return a.At.Compare(b.At) })
	slices.SortStableFunc(plan.Left, func(a, b LeftOut) int { return int(a.ID) - int(b.ID) })
	plan.count()
	plan.Unfed, plan.Assumed = p.unfed, p.room.ReadAt.IsZero()
	return plan
}

// fed reports whether a plant was to soak in fed water.
func (p *planning) fed(id int) bool {
	is := func(it soak.Item) bool { return it.ID == id && it.Fed }
	return slices.ContainsFunc(p.due, is) || slices.ContainsFunc(p.night, is)
}

// count notes at each step how many plants of its load were handled before.
func (p *Plan) count() {
	done := map[[2]int]int{} // by load and what is done
	for i := range p.Steps {
		s := &p.Steps[i]
		key := [2]int{s.Load, int(s.Do)}
		s.Before = done[key]
		done[key] += len(s.Plants)
	}
}

// Placed finds a plant in a plan: its load, by place in [Plan.Loads], and its
// times. It returns false when the plan does not soak it.
func (p *Plan) Placed(id model.ID) (load int, at Plant, ok bool) {
	for l := range p.Loads {
		for _, t := range p.Loads[l].Plants {
			if t.ID == id {
				return l, t, true
			}
		}
	}
	return 0, Plant{}, false
}

// Count is how many plants a plan soaks, those already in the water not
// counted.
func (p *Plan) Count() int {
	n := 0
	for _, l := range p.Loads {
		if l.Load == 0 {
			n += len(l.Plants)
		}
	}
	return n
}

// IDs lists a load's plants in the order they go in.
func (l Load) IDs() model.IDs {
	ids := make(model.IDs, len(l.Plants))
	for i, t := range l.Plants {
		ids[i] = t.ID
	}
	return ids
}

// Gap is how much later than its bound the day's work ends, as a share of the
// time from the plan's beginning to the bound. It is 0 for a day without work.
func (p *Plan) Gap() float64 {
	least := p.DayBound.Sub(p.Ask.From)
	if least <= 0 {
		return 0
	}
	return float64(p.DayFree.Sub(p.DayBound)) / float64(least)
}

// Step is one thing to do, in one piece.
type Step struct {
	At, Until time.Time
	Do        soak.Do
	Vessel    string
	Load      int       // place in [Plan.Loads]
	Plants    model.IDs // in order; none for filling and emptying
	Before    int       // plants of the load handled in the same way by the steps before
}

func (p *planning) step(a arranged, act soak.Action, base int) Step {
	s := Step{
		At:     p.at(act.At),
		Until:  p.at(act.Until),
		Do:     act.Do,
		Vessel: p.vessels[act.Vessel].Name,
		Load:   base + act.Load,
	}
	for _, id := range act.IDs {
		s.Plants = append(s.Plants, model.ID(id))
	}
	return s
}

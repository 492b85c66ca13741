package day

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// planning is a plan in the making.
type planning struct {
	keeper   *estimate.Keeper
	book     *model.Book
	look     *advice.Context
	now      time.Time
	ask      Ask
	rules    model.Rules
	vessels  []model.Vessel
	benches  []model.Bench
	room     estimate.RoomAir
	dry      *estimate.DryTimes
	shelves  map[string]int
	due      []soak.Item          // of the day
	night    []soak.Item          // too long for the day
	loads    map[int]model.LoadID // of plants in the water
	dayFills []int                // drawn by the day, by vessel
	unfed    int                  // to be fed by the ask, but not by the house rules
	plan     *Plan
	old      *Plan // to keep to; nil: none
}

func newPlanning(k *estimate.Keeper, now time.Time, ask Ask) (*planning, error) {
	b := k.Book()
	rules := b.Rules()
	p := &planning{
		keeper: k, book: b, now: now, rules: rules, vessels: b.Vessels(), benches: b.Benches(),
		shelves: map[string]int{}, loads: map[int]model.LoadID{}, dayFills: make([]int, len(b.Vessels())),
	}
	var err error
	if p.ask, err = ask.filled(rules, now); err != nil {
		return nil, err
	}
	if len(p.vessels) == 0 {
		return nil, &model.Problem{What: "there is no vessel to soak in", Do: `add one: enter vessel tub --litres 100`}
	}
	p.room = estimate.RoomNow(b, p.ask.From)
	p.look = advice.At(k, p.ask.From, p.room)
	p.dry = estimate.NewDryTimes(k, p.room, now)
	p.plan = &Plan{Made: now, Ask: p.ask, Vessels: p.vessels, Full: map[string]time.Time{}}
	p.numberShelves()
	p.gather()
	return p, nil
}

// at is a second of the session as a time.
func (p *planning) at(s int) time.Time { return p.ask.From.Add(time.Duration(s) * time.Second) }

// sec is a time as a second of the session.
func (p *planning) sec(t time.Time) int { return int(math.Round(t.Sub(p.ask.From).Seconds())) }

// numberShelves numbers the shelves in walking order.
func (p *planning) numberShelves() {
	var names []string
	for _, id := range p.book.IDs() {
		key := model.ShelfKey(p.book.Row(id).Home.Shelf)
		if _, seen := p.shelves[key]; !seen {
			p.shelves[key] = 0
			names = append(names, key)
		}
	}
	slices.SortFunc(names, model.NaturalCompare)
	for i, name := range names {
		p.shelves[name] = i
	}
}

// gather sorts the plants asked for into the day, the night and those left out.
func (p *planning) gather() {
	asked := p.ask.asked()
	for _, id := range p.book.IDs() {
		row := p.book.Row(id)
		if row.State == model.Gone || !asked(row) {
			continue
		}
		n := p.look.Need(row)
		switch {
		case row.State != model.AtHome, !n.Band.InWater():
			p.leaveNamed(row, n)
		case p.ask.wants(n.Band):
			p.take(row, n)
		}
	}
}

// leaveNamed says why a plant named in the ask is not planned. A plant that
// nobody named is not missed.
func (p *planning) leaveNamed(row *model.Row, n advice.Need) {
	if len(p.ask.Plants) == 0 {
		return
	}
	p.plan.Left = append(p.plan.Left, LeftOut{ID: row.ID, NotDue: &NotDue{row.State, n.Band, n.Reasons}})
}

// take makes a plant an item of the day or the night.
func (p *planning) take(row *model.Row, n advice.Need) {
	fed := false
	if p.ask.Feed {
		stop, refused := advice.NotToFeed(p.keeper, model.IDs{row.ID}, p.ask.From)
		fed = !refused
		if !fed {
			p.unfed++
		}
		if !fed && len(p.ask.Plants) > 0 {
			p.plan.Left = append(p.plan.Left, LeftOut{ID: row.ID, NotFed: &stop})
			return
		}
	}
	it := p.item(row, n.From, n.To)
	it.Thirst, it.Fed = math.Max(n.Thirst(), 0.01), fed
	if p.ask.Night && n.Band == soak.Overnight {
		p.night = append(p.night, it)
		return
	}
	p.due = append(p.due, it)
}

// wholeSeconds is by what minutes made of whole seconds may miss them.
const wholeSeconds = 1e-6

// item is a plant as the planner knows it, with its minutes in the water.
func (p *planning) item(row *model.Row, from, to float64) soak.Item {
	in, out := estimate.HandSeconds(row.Plant, p.rules)
	company := advice.CompanyOf(p.book, row, p.ask.From)
	return soak.Item{
		ID:   int(row.ID),
		From: int(math.Ceil(from*60 - wholeSeconds)), To: int(to*60 + wholeSeconds),
		Bulk:    estimate.Bulk(row.Plant),
		HandsIn: max(1, int(in)), HandsOut: max(1, int(out)),
		Company: company, Thirst: 1,
		Shelf:     p.shelves[model.ShelfKey(row.Home.Shelf)],
		DryFor:    int(math.Ceil(p.dry.Hours(row) * 3600)),
		BenchRoom: estimate.BenchRoom(row.Plant),
	}
}

// arranged is a session with its plan.
type arranged struct {
	*soak.Session
	*soak.Plan
	night bool
}

// nightPart is the part of the effort that a load for the night gets, one in so
// many: it is little to plan. A choice.
const nightPart = 20

// arrange plans a session.
func (p *planning) arrange(ctx context.Context, s *soak.Session, night bool) (arranged, error) {
	effort := p.ask.Effort
	if night {
		effort.Work = max(1, cmp.Or(effort.Work, soak.DefaultWork)/nightPart)
	}
	plan, err := soak.Arrange(ctx, s, effort)
	if err != nil {
		return arranged{}, fmt.Errorf("plan the soak day: %w", err)
	}
	return arranged{s, plan, night}, nil
}

// keepTo gives a session the loads of the old plan, and to loads in the water
// what the old plan has still to go in with them.
func (p *planning) keepTo(s *soak.Session, night bool) {
	if p.old == nil {
		return
	}
	s.Before = &soak.Before{AtOnce: p.old.AtOnce}
	loads := slices.DeleteFunc(slices.Clone(p.old.Loads), func(l Load) bool {
		return p.ask.Night && l.Night != night // else one session has both
	})
	slices.SortStableFunc(loads, func(a, b Load) int { return a.Turn - b.Turn })
	for _, l := range loads {
		if v := p.vessel(l.Vessel); v >= 0 {
			s.Before.Loads = append(s.Before.Loads, soak.LoadBefore{Vessel: v, IDs: numbers(l.IDs())})
		}
	}
	for g := range s.Given {
		s.Given[g].More = p.more(s, &s.Given[g])
	}
}

// vessel is the place of a vessel among those of the plan, or -1.
func (p *planning) vessel(name string) int {
	return slices.IndexFunc(p.vessels, func(v model.Vessel) bool { return v.Name == name })
}

func numbers(ids model.IDs) []int {
	all := make([]int, len(ids))
	for i, id := range ids {
		all[i] = int(id)
	}
	return all
}

// more is the items that were to go in with a load in the water and are not in
// yet: none once the first of it is out.
func (p *planning) more(s *soak.Session, g *soak.Given) []int {
	l := p.meant(model.ID(g.Items[0].ID), p.vessels[g.Vessel].Name)
	if l == nil {
		return nil
	}
	var more []int
	for _, id := range l.IDs() {
		if row := p.book.Row(id); row.State == model.Drying || row.State == model.Dry {
			return nil
		}
		if i := slices.IndexFunc(s.Items, func(it soak.Item) bool { return it.ID == int(id) }); i >= 0 {
			more = append(more, i)
		}
	}
	return more
}

// meant is the load of the old plan that a plant in a vessel belongs to; nil if
// it is there by no plan.
func (p *planning) meant(id model.ID, vessel string) *Load {
	if p.old == nil {
		return nil
	}
	at, _, ok := p.old.Placed(id)
	if !ok || p.old.Loads[at].Vessel != vessel {
		return nil
	}
	return &p.old.Loads[at]
}

// pouredBy is when a vessel that was told to be filled is full: when the old
// plan says so, if it is told as one of its steps.
func (p *planning) pouredBy(vessel string, told time.Time) time.Time {
	if p.old == nil {
		return told
	}
	if full := p.old.Full[vessel]; told.Before(full) {
		return full
	}
	for _, s := range p.old.Steps {
		if s.Do == soak.Fill && s.Vessel == vessel && told.After(s.At.Add(-leadTime)) && told.Before(s.Until) {
			return s.Until
		}
	}
	return told
}

// leadTime is how much before its hour a filling is taken for the planned one.
// A choice.
const leadTime = 10 * time.Minute

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
	Agreed    time.Time // when the grower said yes to it; zero: nobody has
	AtWork    time.Time // until when the hands are at what was written down last; zero for a plan nobody follows
	Stopped   time.Time // the grower has stopped for the day; zero: not
	Ask       Ask       // with the house rules put in
	Vessels   []model.Vessel
	Loads     []Load               // in the order they start
	Steps     []Step               // in clock order
	HandsFree time.Time            // the hands are done, but for what comes out tomorrow
	DayFree   time.Time            // the hands are done until a load for the night goes in; HandsFree where there is none
	DayBound  time.Time            // no plan that soaks the same plants has them done by then earlier
	AllDry    time.Time            // all are dry, with the upper end of what is expected
	Thirst    Share                // served, of all that is due
	Visits    int                  // times that the hands come to a vessel
	Fills     int                  // drawn
	AtOnce    int                  // most plants drying at once
	Morning   model.IDs            // dry too late to be hung that day
	Lying     []Lying              // drying already
	Left      []LeftOut            // by number
	Late      []LeftOut            // plants in the water already that no plan keeps to the rules
	Lost      bool                 // not all could be kept as it was agreed
	Unfed     int                  // to be fed by the ask, but not by the house rules; they soak in plain water
	Assumed   bool                 // the room's air is the house rule's: there is no reading
	Ahead     bool                 // water that must stand is drawn the evening before
	Full      map[string]time.Time // when vessels are full that water is running into, by name
	Standing  []string             // vessels that stand full, and that no step is about: nobody would empty them

	order []soak.Visit // of the hands' work, by place in Loads
	early bool         // its hours are still to come
	next  int          // place in Steps of what is next, where that is not the first left to do
	until time.Time    // of a plan that is agreed: its hours' end, as agreed
	freed time.Time    // the hands were done with what was written down last
	// Of a plan that is followed: when the hands should have been done with the next thing, which
	// nobody has written down since; zero: they may be at it.
	missed time.Time
}

// Share is a part of a whole.
type Share struct{ Got, Of float64 }

// Load is a load of a plan.
type Load struct {
	Number  int // from 1, its name on sheet, board and in the shell; it keeps it all day
	Vessel  string
	Fill    int       // of that vessel, from 1; 0 is the water that stands in it
	Heap    int       // 0 alone; 1 by the tap, 2 at the far end, where two share the vessel
	Start   time.Time // the first plant goes in
	Out     time.Time // the first plant comes out
	End     time.Time // the last plant is out
	Company soak.Company
	Fed     bool
	Load    model.LoadID // of the book, for a load that is in the water already; else 0
	Night   bool         // comes out the morning after
	Done    bool         // is out
	Plants  []Plant      // in the order they go in, which is the order they come out
}

// Plant is one row in a load.
type Plant struct {
	ID          model.ID
	Bulk        float64 // litres
	Least, Most int     // s in the water
	Hands       soak.Hands
	Company     soak.Company
	In, Out     time.Time // the hands begin with it
	Dry         time.Time // at the latest
	Bench       string
}

// LeftOut is a plant that a plan has no place for, or that it cannot keep to
// the rules. One of the pointers says why, or it was skipped.
type LeftOut struct {
	ID       model.ID
	NotDue   *NotDue       // it was named, and wants no soak
	NotFed   *advice.Stop  // it was named, and may not be fed
	Unplaced *soak.LeftOut // there is no room or time for it
	Late     *soak.Late    // it is in the water already
	Skipped  bool          // the grower left it for another day
	Load     int           // the number of the load of the agreed plan that it was in; 0: of none
	Dropped  time.Time     // from a plan that was agreed; zero: it never was in it
	Fed      bool          // it was to soak in fed water
}

// WithoutTimes is the same without how much too late it would be, which is another for each
// plant: for a list in which those of one reason stand together.
func (l LeftOut) WithoutTimes() LeftOut {
	if l.Unplaced != nil {
		why := *l.Unplaced
		why.By = 0
		l.Unplaced = &why
	}
	return l
}

// Dropped is whom the plan leaves out since the grower said yes to it, and since when.
func (p *Plan) Dropped() (left []LeftOut, since time.Time) {
	for _, l := range p.Left {
		if !l.Dropped.IsZero() {
			left, since = append(left, l), model.Later(since, l.Dropped)
		}
	}
	return left, since
}

// Back is who was pulled and has no place in the plan, in the order of the walk: to be
// carried back home.
func (p *Plan) Back(b *model.Book) (ids model.IDs) {
	for _, l := range p.Left {
		if row := b.Row(l.ID); row != nil && slices.Contains(b.Waiting(), l.ID) {
			ids = append(ids, l.ID)
		}
	}
	return b.Walk(ids)
}

// NotDue is why a plant wants no soak.
type NotDue struct {
	State   model.State
	Band    soak.Band
	Reasons []advice.Reason
}

// Step is one thing to do, in one piece.
type Step struct {
	At, Until time.Time
	Do        soak.Do
	Vessel    string  // empty for hanging
	Load      int     // place in [Plan.Loads]; -1 for none
	Hands     int     // which pair of hands, from 0; of no meaning while the tap runs
	Litres    float64 // to fill
	Plants    model.IDs
	Done      bool
}

// NewPlan plans a soak day from now on: loads in the water stay as they are, and
// what is drying keeps its place. It returns the best plan found when the
// effort is spent. The same book, time and ask give the same plan. The error is
// a [model.Problem], or the context's.
func NewPlan(ctx context.Context, k *estimate.Keeper, now time.Time, ask Ask) (*Plan, error) {
	now = now.In(k.Book().Zone())
	p, plan, err := arranged(ctx, k, now, ask, nil)
	if err != nil {
		return nil, err
	}
	if plan, err = stand(ctx, k, now, ask, plan); err != nil {
		return nil, err
	}
	plan.numberAnew(k.Book(), k.Book().AgreedPlan(now))
	return plan, p.explain(ctx, plan)
}

// arranged is a plan as it was found, without those that are left out of it.
func arranged(ctx context.Context, k *estimate.Keeper, now time.Time, ask Ask, out []LeftOut) (*planning, *Plan, error) {
	p, err := newPlanning(k, now, ask)
	if err != nil {
		return nil, nil, err
	}
	p.gather()
	p.plan.Left = append(p.plan.Left, out...)
	isOut := func(it soak.Item) bool {
		return slices.ContainsFunc(out, func(l LeftOut) bool { return int(l.ID) == it.ID })
	}
	p.due, p.night = slices.DeleteFunc(p.due, isOut), slices.DeleteFunc(p.night, isOut)
	if err := p.arrange(ctx, p.day(), false); err != nil {
		return nil, nil, err
	}
	if len(p.night) > 0 {
		if err := p.arrange(ctx, p.evening(), true); err != nil {
			return nil, nil, err
		}
	}
	return p, p.finish(), nil
}

// Session is the day's part of an ask in numbers, as [NewPlan] has it arranged: for
// a look at the same day done in another way. The error is a [model.Problem].
func Session(k *estimate.Keeper, now time.Time, ask Ask) (*soak.Session, error) {
	p, err := newPlanning(k, now.In(k.Book().Zone()), ask)
	if err != nil {
		return nil, err
	}
	p.gather()
	return begunLater(p.day()), nil
}

// tell writes an arranged session into the plan.
func (p *planning) tell(s *soak.Session, a *soak.Plan, night bool) {
	p.plan.Lost = p.plan.Lost || a.Lost
	base := len(p.plan.Loads)
	for _, l := range a.Loads {
		p.plan.Loads = append(p.plan.Loads, p.load(l, night))
	}
	for _, v := range a.Order {
		p.plan.order = append(p.plan.order, soak.Visit{Do: v.Do, Load: base + v.Load})
	}
	for _, act := range a.Actions {
		p.plan.Steps = append(p.plan.Steps, p.step(act, base))
	}
	for _, id := range a.Morning {
		p.plan.Morning = append(p.plan.Morning, model.ID(id))
	}
	for _, l := range a.Left {
		left := LeftOut{ID: model.ID(l.ID), Unplaced: &l, Fed: p.fed(l.ID)}
		if p.agreed != nil {
			left.Dropped, left.Load = p.now, numberIn(&p.agreed.Agreed, model.IDs{left.ID})
		}
		p.plan.Left = append(p.plan.Left, left)
	}
	for _, l := range a.Late {
		p.plan.Late = append(p.plan.Late, LeftOut{ID: model.ID(l.ID), Late: &l})
	}
	if !night {
		p.plan.DayFree, p.plan.DayBound = p.at(a.HandsFree), p.at(a.Bound)
		for _, l := range a.Loads {
			p.dayFills[l.Vessel] = max(p.dayFills[l.Vessel], l.Fill)
		}
	}
	p.plan.HandsFree = model.Later(p.plan.HandsFree, p.at(a.HandsFree))
	p.plan.AllDry = model.Later(p.plan.AllDry, p.at(a.AllDry))
	if !night {
		p.plan.Lying = p.lies(s)
	}
	for _, d := range s.Drying { // and who lies on the racks already
		p.plan.AllDry = model.Later(p.plan.AllDry, p.at(d.Dry))
	}
	p.plan.Thirst.Got += a.Thirst
	for _, it := range s.Items {
		p.plan.Thirst.Of += it.Thirst
	}
	p.plan.Visits += a.Visits
	p.plan.Fills += a.Fills
	p.plan.AtOnce = max(p.plan.AtOnce, a.AtOnce)
}

func (p *planning) load(l soak.Load, night bool) Load {
	load := Load{
		Vessel: p.vessels[l.Vessel].Name, Fill: l.Fill, Heap: l.Heap, Night: night,
		Start: p.at(l.Start), Out: p.at(l.Out), End: p.at(l.End), Company: l.Company, Fed: l.Fed,
		Plants: make([]Plant, len(l.Plants)),
	}
	if night { // fills of the evening follow those of the day
		load.Fill += p.dayFills[l.Vessel]
	}
	if l.Given > 0 {
		load.Load = p.loads[l.Plants[0].ID]
	}
	for i, t := range l.Plants {
		load.Plants[i] = Plant{
			ID: model.ID(t.ID), Bulk: t.Bulk, Least: t.Least, Most: t.Most, Hands: t.Hands, Company: t.Company,
			In: p.at(t.In), Out: p.at(t.Out), Dry: p.at(t.Dry), Bench: p.bench(t.Bench),
		}
	}
	return load
}

func (p *planning) bench(i int) string {
	if i < 0 || i >= len(p.benches) {
		return ""
	}
	return p.benches[i].Name
}

func (p *planning) step(act soak.Action, base int) Step {
	s := Step{At: p.at(act.At), Until: p.at(act.Until), Do: act.Do, Load: act.Load, Hands: act.Hands}
	if act.Load >= 0 {
		s.Load += base
	}
	if act.Vessel >= 0 {
		s.Vessel = p.vessels[act.Vessel].Name
	}
	if act.Do == soak.Fill {
		s.Litres = p.vessels[act.Vessel].Litres
	}
	for _, id := range act.IDs {
		s.Plants = append(s.Plants, model.ID(id))
	}
	return s
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

// toDo counts the steps of a kind that are still to be done, and the plants in them.
func (p *Plan) toDo(do soak.Do) (steps, plants int) {
	for i := range p.Steps {
		if s := &p.Steps[i]; s.Do == do && !s.Done {
			steps, plants = steps+1, plants+len(s.Plants)
		}
	}
	return steps, plants
}

// Count is how many plants a plan still puts in.
func (p *Plan) Count() int {
	_, plants := p.toDo(soak.PutIn)
	return plants
}

// CountLoads is in how many loads [Plan.Count] plants go in.
func (p *Plan) CountLoads() int {
	steps, _ := p.toDo(soak.PutIn)
	return steps
}

// InWater is how many plants of a plan are in the water already.
func (p *Plan) InWater() int {
	_, out := p.toDo(soak.GetOut)
	return out - p.Count()
}

// IDs lists a load's plants in the order they go in.
func (l Load) IDs() model.IDs {
	ids := make(model.IDs, len(l.Plants))
	for i, t := range l.Plants {
		ids[i] = t.ID
	}
	return ids
}

// ToCome reports whether a load is still to go in.
func (l Load) ToCome() bool { return l.Load == 0 && !l.Done }

package care

import (
	"context"
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// Plan is a soak day: what goes in where and when, what comes out when, and
// what has no place in it. Times are in the grower's zone, whole seconds.
type Plan struct {
	Made      time.Time // when it was asked for
	Ask       Ask       // with the house rules put in
	Vessels   []model.Vessel
	Loads     []PlanLoad // in the order they start
	Steps     []Step     // in clock order
	HandsFree time.Time  // the hands are done, but for what comes out tomorrow
	DayFree   time.Time  // the hands are done until a load for the night goes in; HandsFree where there is none
	DayBound  time.Time  // no plan that soaks the same plants has them done by then earlier
	AllDry    time.Time  // all are dry, with the upper end of what is expected
	Bound     time.Time  // no plan that soaks the same plants has the hands free earlier
	Thirst    Share      // served, of all that is due
	Fills     int        // drawn
	AtOnce    int        // most plants drying at once
	Left      []LeftOut  // by number
	Late      []LeftOut  // plants in the water already that no plan keeps to the rules
	Notes     []Reason
	Full      map[string]time.Time // when vessels are full that water is running into, by name
}

// Share is a part of a whole.
type Share struct{ Got, Of float64 }

// PlanLoad is a load of a plan.
type PlanLoad struct {
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
	Plants  []PlanPlant  // in the order they go in, which is the order they come out
}

// PlanPlant is one row in a load.
type PlanPlant struct {
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
// the rules.
type LeftOut struct {
	ID     model.ID
	Reason string   // lower case, no full stop
	Help   []string // what would get it a place, best first; may be empty
}

// Plan plans a soak day from now on: loads in the water stay as they are, and
// what is drying keeps its place. It returns the best plan found when the
// effort is spent or the context ends. The same book, time and ask give the
// same plan. The error is a [model.Problem], or the context's.
func (k *Keeper) Plan(ctx context.Context, now time.Time, ask Ask) (*Plan, error) {
	return k.plan(ctx, now, ask, nil)
}

// plan makes a plan that keeps to an old one, if there is one.
func (k *Keeper) plan(ctx context.Context, now time.Time, ask Ask, old *Plan) (*Plan, error) {
	p, err := k.planning(now.In(k.book.Zone()), ask)
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

package care

import (
	"context"
	"fmt"
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
	Thirst    Share      // served
	Fills     int        // drawn
	AtOnce    int        // most plants drying at once
	Left      []LeftOut  // by number
	Late      []LeftOut  // plants in the water already that no plan keeps to the rules
	Notes     []Reason
}

// Share is how much of what is possible: thirst served, of the most that any
// plan could.
type Share struct{ Got, Most float64 }

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
	p, err := k.planning(now.In(k.book.Zone()), ask)
	if err != nil {
		return nil, err
	}
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

// arranged is a session with its plan.
type arranged struct {
	*soak.Session
	*soak.Plan
	night bool
}

// Parts of the effort. Our own: a rough plan already shows which water would be
// too old, and a load for the night is little to plan.
const (
	roughPart = 40
	nightPart = 10
	againPart = 4
)

// arrange plans a session. The planner knows no limit to how late a load may go
// into used water, so a vessel in which one would be too late gets fresh water
// for each load, and the session is planned again: roughly until none is, then
// well.
func (p *planning) arrange(ctx context.Context, s *soak.Session, night bool) (arranged, error) {
	effort := p.ask.Effort
	if night {
		effort.Work /= nightPart
	}
	well := effort.Work
	effort.Work = max(1, well/roughPart)
	for {
		plan, err := soak.Arrange(ctx, s, effort)
		if err != nil {
			return arranged{}, fmt.Errorf("plan the soak day: %w", err)
		}
		stale := p.stale(s, plan)
		switch {
		case len(stale) > 0:
			for _, v := range stale {
				s.Vessels[v].Loads = 1
			}
		case effort.Work < well/againPart:
			effort.Work = well
			continue
		default:
			return arranged{s, plan, night}, nil
		}
		if effort.Work == well {
			effort.Work = well/againPart + 1
		}
	}
}

// stale lists the vessels in which a load would go into water too long in use.
func (p *planning) stale(s *soak.Session, plan *soak.Plan) []int {
	var stale []int
	for v := range s.Vessels {
		limit, fill, since := int(p.rules.HoursToFill(p.vessels[v])*3600), 0, 0
		used := s.Vessels[v].Water != nil && s.Vessels[v].Water.Loads > 0
		if used {
			since = s.Vessels[v].Water.Since
		}
		for _, l := range plan.Loads {
			if l.Vessel != v || l.Given {
				continue
			}
			if l.Fill != fill || !used {
				fill, since, used = l.Fill, l.Start, true
			}
			if l.Start-since > limit && s.Vessels[v].Loads != 1 {
				stale = append(stale, v)
				break
			}
		}
	}
	return stale
}

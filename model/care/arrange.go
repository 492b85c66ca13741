package care

import (
	"context"
	"fmt"
	"slices"

	"tubside/model/soak"
)

// arranged is a session with its plan.
type arranged struct {
	*soak.Session
	*soak.Plan
	night bool
}

// Parts of the effort. Our own: most sessions are planned twice, some three
// times, and a load for the night is little to plan.
const (
	eachPart  = 2
	nightPart = 20
)

// arrange plans a session. The planner knows no limit to how late a load may go
// into used water, so a vessel in which one would be too late gets fresh water
// for each load, and the session is planned again; at the third time every
// vessel does.
func (p *planning) arrange(ctx context.Context, s *soak.Session, night bool) (arranged, error) {
	effort := p.ask.Effort
	effort.Work = max(1, effort.Work/eachPart)
	if night {
		effort.Work = max(1, p.ask.Effort.Work/nightPart)
	}
	for again := false; ; again = true {
		plan, err := soak.Arrange(ctx, s, effort)
		if err != nil {
			return arranged{}, fmt.Errorf("plan the soak day: %w", err)
		}
		stale := p.stale(s, plan)
		if len(stale) == 0 {
			return arranged{s, plan, night}, nil
		}
		for v := range s.Vessels {
			if again || slices.Contains(stale, v) {
				s.Vessels[v].Loads = 1
			}
		}
		if again {
			effort.Work = max(1, effort.Work/eachPart)
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

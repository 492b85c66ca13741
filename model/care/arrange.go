package care

import (
	"cmp"
	"context"
	"fmt"

	"tubside/model/soak"
)

// arranged is a session with its plan.
type arranged struct {
	*soak.Session
	*soak.Plan
	night bool
}

// nightPart is the part of the effort that a load for the night gets, one in so
// many: it is little to plan. Our own.
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

package day

import (
	"context"
	"fmt"
	"slices"
	"time"

	"tubside/model/soak"
)

// slack is by how much everything of a plan may be later than it says before a plant of
// it loses its place: a plan is made for hands that begin so much later, and has its times
// from now on. A choice: as long as the door, the telephone or a wet floor takes.
const slack = 10 * time.Minute

// spare is by how many seconds a new plan has a plant out before its longest soak is over:
// two minutes, or a quarter of its window where that is less, since hands are not as even as
// a plan has them. A choice.
func spare(it *soak.Item) int { return min(120, (it.Most-it.Least)/4) }

// arrange makes a plan of a session, with slack, and tells of it.
func (p *planning) arrange(ctx context.Context, s *soak.Session, night bool) error {
	late := begunLater(s)
	plan, err := soak.Arrange(ctx, late, p.ask.Effort)
	if err != nil {
		return fmt.Errorf("plan the soak day: %w", err)
	}
	now, err := inTime(ctx, s, plan)
	if err != nil {
		return fmt.Errorf("plan the soak day: %w", err)
	}
	p.tell(s, now, night)
	return nil
}

// begunLater is a session that begins later by the slack, or by half of its first hours.
func begunLater(s *soak.Session) *soak.Session {
	late := *s
	late.Hours = slices.Clone(s.Hours)
	first := &late.Hours[0]
	first.From += min(int(slack.Seconds()), (first.To-first.From)/2)
	return &late
}

// inTime is a plan that was made for hands that begin later with its times for hands that do
// not.
func inTime(ctx context.Context, s *soak.Session, late *soak.Plan) (*soak.Plan, error) {
	of, before := *s, soak.Before{AtOnce: late.AtOnce, Order: late.Order, New: true}
	of.Items = nil
	for _, l := range late.Loads {
		was := soak.LoadBefore{Vessel: l.Vessel, Given: l.Given}
		for _, x := range l.Plants {
			if x.Index >= 0 {
				was.IDs, of.Items = append(was.IDs, x.ID), append(of.Items, x.Item)
			}
		}
		before.Loads = append(before.Loads, was)
	}
	now, err := soak.Slide(ctx, &of, before)
	if err != nil {
		return nil, err
	}
	now.Left, now.Lost = append(late.Left, now.Left...), false
	return now, nil
}

package board

import (
	"slices"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
)

// onTime is how far from its time a step may be done while the plan stays as it
// is to the minute: a plan made anew while the hands are at a step would have it
// begin again. Our own.
const onTime = 10 * time.Minute

// follow ticks off the steps that the entries since the last look have done. It
// is false when something else was done, too early or too late, so that the plan
// must be made again.
func (s *planScreen) follow() bool {
	entries := s.book.Entries()
	if s.plan == nil || s.seen > len(entries) {
		return false
	}
	plan := *s.plan
	plan.Steps, plan.Loads = slices.Clone(plan.Steps), slices.Clone(plan.Loads)
	for _, e := range entries[s.seen:] {
		if !tickOff(&plan, e) {
			return false
		}
	}
	if len(plan.Steps) == 0 || s.now.Sub(plan.Steps[0].Until) > onTime {
		return false
	}
	s.plan, s.seen = &plan, len(entries)
	s.rows.fit(s.steps(), s.rows.height)
	return true
}

// tickOff takes the step that an entry has done out of a plan. It is false when
// the entry is none of the plan's.
func tickOff(plan *day.Plan, e model.Entry) bool {
	var is func(day.Step) bool
	switch f := e.Fact.(type) {
	case *model.Pull, *model.FoundDry, *model.Damp, *model.Hung, *model.Note:
		return true
	case *model.Fill:
		is = func(s day.Step) bool { return s.Do == soak.Fill && s.Vessel == f.Vessel }
	case *model.Drain:
		is = func(s day.Step) bool { return s.Do == soak.Empty && s.Vessel == f.Vessel }
	case *model.Soak:
		is = func(s day.Step) bool {
			return s.Do == soak.PutIn && s.Vessel == f.Vessel && within(e.Plants, s.Plants)
		}
	case *model.Out:
		return tookOut(plan, e)
	default:
		return false
	}
	i := slices.IndexFunc(plan.Steps, is)
	if i < 0 || !inTime(plan.Steps[i], e) {
		return false
	}
	step := plan.Steps[i]
	if step.Do == soak.PutIn {
		plan.Steps[i].Plants = without(step.Plants, e.Plants)
		comeOut(plan, step.Load, e.Plants, e.At.Sub(step.At))
		plan.Steps = slices.DeleteFunc(plan.Steps, func(s day.Step) bool {
			return s.Do == soak.Fill && s.Vessel == step.Vessel && !s.At.After(step.At) // it must have been filled
		})
		plan.Steps = slices.DeleteFunc(plan.Steps, finished)
		inOrder(plan.Steps)
		return true
	}
	plan.Steps = slices.Delete(plan.Steps, i, i+1)
	return true
}

// inTime is an entry of a step about when the plan has the step.
func inTime(s day.Step, e model.Entry) bool {
	return !e.At.Before(s.At.Add(-onTime)) && !e.At.After(s.Until.Add(onTime))
}

// finished is a step of the hands with no plant left to handle.
func finished(s day.Step) bool { return s.Do.Hands() && len(s.Plants) == 0 }

// tookOut ticks off plants that came out, from whatever steps they stand in.
func tookOut(plan *day.Plan, e model.Entry) bool {
	left := slices.Clone(e.Plants)
	for i := range plan.Steps {
		s := &plan.Steps[i]
		if s.Do != soak.GetOut || !slices.ContainsFunc(s.Plants, left.Has) {
			continue
		}
		if !inTime(*s, e) {
			return false
		}
		s.Plants, left = without(s.Plants, left), without(left, s.Plants)
	}
	plan.Steps = slices.DeleteFunc(plan.Steps, finished)
	return len(left) == 0
}

// comeOut moves the taking out of plants that went in earlier or later than
// planned by as much.
func comeOut(plan *day.Plan, load int, ids model.IDs, off time.Duration) {
	out := map[model.ID]time.Time{}
	plants := slices.Clone(plan.Loads[load].Plants)
	for i := range plants {
		if p := &plants[i]; ids.Has(p.ID) {
			p.In, p.Out = p.In.Add(off), p.Out.Add(off)
		}
		out[plants[i].ID] = plants[i].Out
	}
	plan.Loads[load].Plants = plants
	for i := range plan.Steps {
		s := &plan.Steps[i]
		if s.Do != soak.GetOut || s.Load != load || len(s.Plants) == 0 {
			continue
		}
		at := out[s.Plants[0]]
		for _, id := range s.Plants {
			if out[id].Before(at) {
				at = out[id]
			}
		}
		s.At, s.Until = at, s.Until.Add(at.Sub(s.At))
	}
}

func within(ids, all model.IDs) bool {
	return !slices.ContainsFunc(ids, func(id model.ID) bool { return !all.Has(id) })
}

func without(ids, gone model.IDs) model.IDs {
	return slices.DeleteFunc(slices.Clone(ids), gone.Has)
}

package board

import (
	"context"
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/soak"
	"tubside/ui/show"
)

// ofLoad is the next thing to do with the load under the cursor, or nil.
func (s *planScreen) ofLoad() *day.Step {
	for i := range s.plan.Steps {
		if step := &s.plan.Steps[i]; !step.Done && step.Load == s.rows.cursor {
			return step
		}
	}
	return nil
}

// agree writes the plan into the book.
func (s *planScreen) agree() {
	if s.before = s.plan; s.desk.enter(s.plan.Agree(s.desk.book, s.desk.now)) {
		s.anew, s.instead = false, instead{}
		s.desk.say("Agreed: %s. A laptop asleep does not ring: tubside plan --ics day.ics", show.Count(s.plan.CountLoads(), "load"))
	}
}

// do writes a step as done now.
func (s *planScreen) do(key string, step *day.Step) {
	if s.twice(key, step) || s.tooSoon(key, step) {
		return
	}
	s.led = s.led && key != "d"
	if s.before = s.plan; s.entered.seq > 0 || !s.entered.step.Same(*step) {
		s.entered = wentIn{}
	}
	switch step.Do {
	case soak.Fill:
		fill := &model.Fill{Vessel: step.Vessel}
		if w := s.desk.book.Water(step.Vessel); w != nil {
			fill.Of = w.Of
		}
		s.desk.enter(fill)
	case soak.Empty:
		s.desk.enter(&model.Drain{Vessel: step.Vessel})
	case soak.Pull:
		s.desk.enter(&model.Pull{}, step.Plants...)
	case soak.PutIn:
		s.putIn(key, step)
	case soak.GetOut:
		due := s.desk.book.Load(s.desk.book.Row(step.Plants[0]).Load).Due // they did not come out before
		s.desk.takeOutAll(step.Plants, true, s.took(step, model.Later(s.began(step), due)))
	case soak.Hang:
		s.hang(step)
	}
}

// hang writes that plants hang again, and first that they were found dry to the
// heart: hanging a plant back that nobody looked into is the classic loss.
func (s *planScreen) hang(step *day.Step) {
	var unseen model.IDs
	for _, id := range step.Plants {
		if s.desk.book.Row(id).State == model.Drying {
			unseen = append(unseen, id)
		}
	}
	if len(unseen) == 0 {
		s.desk.enter(&model.Hung{}, step.Plants...)
		return
	}
	if s.desk.enter(&model.FoundDry{}, unseen...) {
		s.desk.say("%s dry to the heart; d again when they hang", show.Line(show.Count(len(unseen), "plant")))
	}
}

// began is when the hands began with a step that is done now: when the plan has them begin,
// or, where that is still to come, as long ago as it takes; not before they were last done
// with something.
func (s *planScreen) began(step *day.Step) time.Time {
	in := step.At
	if !step.Begun(s.desk.now) {
		in = s.desk.now.Add(-step.Until.Sub(step.At))
	}
	return model.Earlier(model.Later(in, day.HandsDone(s.desk.book, s.desk.now)), s.desk.now)
}

// took is how long the hands took for a step that is ticked off now, begun at a time: no
// longer than the plan has it, for they may have been at something else first; 0 for not known
// where it is less than three quarters of that, a choice: the step was ticked off while it was done.
func (s *planScreen) took(step *day.Step, began time.Time) time.Duration {
	took, takes := s.desk.now.Sub(began), step.Until.Sub(step.At)
	if took < takes*3/4 {
		return 0
	}
	return min(took, takes)
}

// beside is the tap to be opened while the hands are at what is next, or nil.
func (s *planScreen) beside() *day.Step {
	if s.plan == nil || s.proposed() {
		return nil
	}
	if i := s.plan.Beside(s.desk.now); i >= 0 {
		return &s.plan.Steps[i]
	}
	return nil
}

// skip leaves a load for another day.
func (s *planScreen) skip() {
	l := s.load()
	if s.before = s.plan; s.desk.enter(s.plan.Skip(s.desk.book, s.desk.now, l.IDs()...)) {
		s.desk.say("%s for another day; u takes it back", show.Line(show.Count(len(l.Plants), "plant")))
	}
}

// late has the hands away for a while.
func (s *planScreen) late() {
	if s.before = s.plan; s.desk.enter(s.plan.Later(s.desk.book, s.desk.now, lateBy)) {
		s.desk.say("A quarter of an hour later; u takes it back")
	}
}

// lateBy is what one key puts off.
const lateBy = 15 * time.Minute

// breakOff asks once, and then writes all out that is in the water, in the safest order:
// what is due longest first, and what may be sick last.
func (s *planScreen) breakOff() {
	ids := day.AllOut(s.desk.book, s.desk.now)
	if asked := (askedOut{key: "X", first: model.ID(len(ids))}); s.desk.asksOut != asked {
		s.desk.asksOut = asked
		s.desk.say("%s", breakOffWords(ids))
		return
	}
	s.desk.asksOut = askedOut{}
	s.before = s.plan
	if len(ids) > 0 {
		s.desk.takeOutAll(ids, true, 0)
	}
	if len(s.desk.book.OpenLoads()) > 0 {
		return // the book said no
	}
	p, err := day.Current(context.Background(), s.desk.keeper, s.desk.now)
	if err == nil && s.desk.enter(day.Stop(s.desk.book, p, s.desk.now)) {
		s.anew = false
		s.desk.say("%s. s plans again", stoppedWords(ids))
	}
}

// breakOffWords ask whether to stop for the day.
func breakOffWords(ids model.IDs) string {
	if len(ids) == 0 {
		return "Stop for today, and leave the rest for another day? X again stops"
	}
	return "Stop for today, and take " + show.Count(len(ids), "plant") + " out of the water now? X again writes them out"
}

// stoppedWords say what the hands still have to do when the day breaks off.
func stoppedWords(ids model.IDs) string {
	if len(ids) == 0 {
		return "Stopped for today"
	}
	return "Stopped for today. " + show.Line(show.Count(len(ids), "plant")) + " written out: take them out now, in the order shown"
}

// anotherPair plans with another pair of hands for an hour.
func (s *planScreen) anotherPair() {
	from := model.Later(s.plan.Ask.From, s.desk.now).Truncate(time.Minute)
	s.another()
	s.ask = s.plan.Otherwise()
	s.ask.Help = append(s.ask.Help[:len(s.ask.Help):len(s.ask.Help)], day.Stretch{From: from, Until: from.Add(time.Hour)})
	s.again()
}

// another notes the plan that one of another kind is to take the place of.
func (s *planScreen) another() {
	if s.instead.plan == nil {
		s.instead = instead{s.plan, s.ask}
	}
}

// again has a plan made anew.
func (s *planScreen) again() {
	s.faint, s.plan, s.before, s.anew = s.plan, nil, nil, true
	s.make()
}

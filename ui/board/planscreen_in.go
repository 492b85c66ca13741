package board

import (
	"time"

	"tubside/model"
	"tubside/model/day"
	"tubside/ui/show"
)

// A load is ticked off when it is in, or some time after that: its clock may run since
// earlier than the tick tells, which only the grower knows.

// wentIn is a load that is put in with one key: when it is taken to have gone in, and when at
// the earliest the hands could have begun with it.
type wentIn struct {
	step      day.Step
	long      time.Duration // until the first comes out
	in, could time.Time
	at        time.Time // of the key that ticked it off
	seq       model.Seq // of its entry; 0: the grower is asked when it went in
}

// asksWhen is by how much the two differ to be worth a word: a plant that may have twenty
// minutes bears no more. A choice.
const asksWhen = 3 * time.Minute

// putIn writes a step's plants as one load: one clock, from when the hands began. Where some
// of them, had they gone in as early as could be, would be in too long by now, it asks first.
func (s *planScreen) putIn(key string, step *day.Step) {
	l := &s.plan.Loads[step.Load]
	in := s.began(step).Truncate(time.Second)
	could := model.Earlier(s.plan.Could(s.desk.book, step).Truncate(time.Second), in)
	asked := s.entered.seq == 0 && s.entered.step.Same(*step)
	s.entered = wentIn{step: *step, long: l.Out.Sub(l.Start), in: in, could: could, at: s.desk.now}
	over := time.Duration(0)
	for _, t := range l.Plants {
		over = max(over, s.desk.now.Sub(could.Add(t.In.Sub(l.Start)))-time.Duration(t.Most)*time.Second)
	}
	if s.entered.differs() && over >= time.Minute && !asked {
		s.quick.asks = true
		s.desk.say("In at %s: %s again. In at %s: -, and some are in %s too long", s.hour(in), key, s.hour(could), show.Duration(over.Truncate(time.Minute)))
		return
	}
	s.writeIn(false)
}

// differs reports whether the two times are worth a word.
func (w wentIn) differs() bool { return w.in.Sub(w.could) >= asksWhen }

func (s *planScreen) hour(t time.Time) string {
	return show.Clock(t, s.desk.now, s.desk.book.Zone())
}

// writeIn writes that a load went in, in place of what was written of it before, and says
// when. It reports whether that was taken.
func (s *planScreen) writeIn(earlier bool) bool {
	w := &s.entered
	due := w.in.Add(w.long).UTC().Truncate(time.Second)
	load := s.desk.book.NextLoad()
	soak := &model.Soak{Load: load, Vessel: w.step.Vessel, Due: due, Took: int(s.took(&w.step, w.in.Add(s.desk.now.Sub(w.at))).Seconds())}
	if w.seq == 0 {
		if !s.desk.enterAt(w.in, soak, w.step.Plants...) {
			return false
		}
	} else if !s.desk.instead(w.seq, model.NewEntry(w.in, soak, w.step.Plants...)) {
		return false
	}
	last, _ := s.desk.book.LastToStrike()
	w.seq = last.Seq
	switch {
	case earlier:
		s.desk.say("Load %d in %s, in at %s, out from %s; - a minute earlier", load, show.Safe(w.step.Vessel), s.hour(w.in), s.hour(due))
	case w.differs():
		s.desk.say("Load %d in %s, in at %s, out from %s; - if it went in at %s", load, show.Safe(w.step.Vessel), s.hour(w.in), s.hour(due), s.hour(w.could))
	default:
		s.desk.say("Load %d in %s: %s, out from %s", load, show.Safe(w.step.Vessel), show.Count(len(w.step.Plants), "plant"), s.hour(due))
	}
	return true
}

// earlier has the load that was put in last go in when the hands could have begun with it, or
// a minute earlier than is written.
func (s *planScreen) earlier() {
	w := &s.entered
	was := w.in
	if s.before = s.plan; w.in.After(w.could) {
		w.in = w.could
	} else {
		w.in = w.in.Add(-time.Minute)
	}
	if !s.writeIn(true) {
		w.in = was
	}
}

// notEarlier says why there is no load to go in earlier.
func (s *planScreen) notEarlier() string {
	last, ok := s.desk.book.LastToStrike()
	if s.entered.step.Vessel == "" || s.entered.seq > 0 && (!ok || last.Seq != s.entered.seq) {
		return "Only the load that was put in last, right after that"
	}
	return ""
}

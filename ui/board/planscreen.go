package board

import (
	"context"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/model/soak"
	"tubside/ui/show"
)

// planScreen is the soak day: what to do next, the loads, and the vessels, the
// hands and the tap along the clock. A plan is proposed until the grower says yes
// to it; from then on it stands in the book and slides.
type planScreen struct {
	desk   *desk
	plan   *day.Plan
	offers []day.Offer // other plans of the day, while it is proposed
	ask    day.Ask
	why    string // why there is no plan
	rows   window // the plan's loads
	built  int
	making *making   // a plan in the making
	faint  *day.Plan // the one that was shown before it
	nth    int       // of the plans made so far

	anew   bool      // the plan shown is made anew, though another is agreed
	before *day.Plan // the plan as it stood when the grower last did something
	quick  pressed   // the last thing ticked off
	moved  moved     // what was next
}

// moved is how many entries there were when a plan came, and when what is next was last
// another thing than before though nobody had entered anything.
type moved struct {
	entries int
	at      time.Time
}

// pressed is a key that ticked something off, or asked whether it should.
type pressed struct {
	at   time.Time
	asks bool // the same key again answers
}

// doublePress is within which time a second press of the same key asks first: so
// quickly nobody has done a step. A choice.
const doublePress = 2 * time.Second

// readsAnew is how long after what is next has changed by itself the grower may still mean
// what it was before. A guess.
const readsAnew = time.Minute

// twice reports whether a key comes so soon after it did something that it was likely
// pressed twice, or after what is next was another thing, and asks. The same key again
// answers.
func (s *planScreen) twice(key string, step *day.Step) bool {
	was := s.quick
	s.quick = pressed{at: s.desk.now}
	soon := !was.at.IsZero() && s.desk.now.Sub(was.at) < doublePress
	changed := key == "d" && !s.moved.at.IsZero() && s.desk.now.Sub(s.moved.at) < readsAnew
	if was.asks || !soon && !changed {
		s.moved.at = time.Time{}
		return false
	}
	s.quick.asks = true
	why := "So soon?"
	if !soon {
		why = "This has only just come first."
	}
	s.desk.say("%s %s again ticks off: %s", why, key, show.Safe(show.Step(s.desk.book, s.plan, step)))
	return true
}

// making is a plan that is being made away from the keys.
type making struct {
	nth   int
	since time.Time
	stop  context.CancelFunc
}

// planMade is a plan that was made, or some offers beside it.
type planMade struct {
	nth    int
	plan   *day.Plan
	err    error
	offers []day.Offer
}

func newPlan(d *desk) *planScreen {
	s := &planScreen{desk: d, built: -1}
	d.settled = s.settled
	return s
}

func (s *planScreen) name() string   { return "Plan" }
func (s *planScreen) letter() string { return "p" }
func (s *planScreen) badge() string  { return "" }
func (s *planScreen) list() *list    { return nil }

func (s *planScreen) open() { s.sync() }

// sync shows the agreed plan as it stands, and has one made where there is none
// of today.
func (s *planScreen) sync() {
	if s.built == s.desk.version {
		return
	}
	s.built = s.desk.version
	plan, err := day.Kept(context.Background(), s.desk.keeper, s.desk.now)
	zone := s.desk.book.Zone()
	switch {
	case err != nil:
		s.plan, s.why = nil, err.Error()
	case plan != nil && s.making == nil && !s.anew:
		if s.take(plan); plan.Lost {
			s.makeBy(day.Current)
		}
	case s.making == nil && (s.plan == nil || !s.plan.Agreed.IsZero() || show.Date(s.plan.Made, zone) != show.Date(s.desk.now, zone) || s.old()):
		s.make()
	}
}

// old reports whether plants of a proposed plan are no longer where it found them.
func (s *planScreen) old() bool {
	for _, l := range s.plan.Loads {
		for _, t := range l.Plants {
			row := s.desk.book.Row(t.ID)
			if row == nil || (row.State == model.AtHome) != (l.Load == 0) || !row.Rot.IsZero() {
				return true
			}
		}
	}
	return false
}

// make has a plan made away from the keys, from the book as it stands, and then
// other plans of the day to offer.
func (s *planScreen) make() {
	ask := s.ask
	s.makeBy(func(ctx context.Context, k *estimate.Keeper, now time.Time) (*day.Plan, error) {
		return day.NewPlan(ctx, k, now, ask)
	})
}

// makeBy has a plan made in a way: anew, or from the one that is agreed.
func (s *planScreen) makeBy(way func(context.Context, *estimate.Keeper, time.Time) (*day.Plan, error)) {
	if s.making != nil {
		s.making.stop()
	}
	if s.plan != nil {
		s.faint = s.plan
	}
	s.nth++
	ctx, stop := context.WithCancel(context.Background())
	s.making = &making{s.nth, s.desk.now, stop}
	s.why, s.offers = "", nil
	nth, entries, zone, now := s.nth, s.desk.book.Entries(), s.desk.book.Zone(), s.desk.now
	before := s.desk.beliefs
	entries = entries[:len(entries):len(entries)]
	s.desk.later = append(s.desk.later, func() tea.Msg {
		book, err := model.Replay(entries, zone)
		if err != nil {
			return planMade{nth: nth, err: err}
		}
		k := before.Keeper(book)
		plan, err := way(ctx, k, now)
		return planBegun{planMade{nth: nth, plan: plan, err: err}, func() tea.Msg {
			return planMade{nth: nth, offers: day.Offers(ctx, k, now, plan)}
		}}
	})
}

// planBegun is a plan that was made, and how to make its offers.
type planBegun struct {
	planMade
	offers func() tea.Msg
}

// arrive takes a plan that was made, if it is still wanted.
func (s *planScreen) arrive(msg tea.Msg) tea.Cmd {
	switch msg := msg.(type) {
	case planBegun:
		if msg.nth != s.nth {
			return nil
		}
		s.making = nil
		if msg.err != nil {
			s.plan, s.why = nil, msg.err.Error()
			return nil
		}
		s.take(msg.plan)
		return msg.offers
	case planMade:
		if msg.nth == s.nth && s.making == nil {
			s.offers = msg.offers
		}
	}
	return nil
}

func (s *planScreen) take(plan *day.Plan) {
	was, entries := s.nextStep(), len(s.desk.book.Entries())
	if is := plan.Next(); is >= 0 && was != nil && entries == s.moved.entries && !plan.Steps[is].Same(*was) {
		s.moved.at = s.desk.now
	}
	s.moved.entries = entries
	s.plan, s.faint, s.why, s.offers = plan, nil, "", nil
	s.rows.fit(len(plan.Loads), s.rows.height)
}

// proposed reports whether the plan shown waits for a yes.
func (s *planScreen) proposed() bool { return s.plan != nil && s.plan.Agreed.IsZero() }

// settled is the entry that goes before one by which the agreed plan is followed: who is
// left out by now stays so. Nil for none.
func (s *planScreen) settled(f model.Fact) *model.Agreed {
	if s.desk.keeper == nil || !day.OfTheDay(f) || s.desk.book.AgreedPlan(s.desk.now) == nil {
		return nil
	}
	p := s.plan
	if s.built != s.desk.version || s.making != nil || p == nil || s.proposed() {
		p, _ = day.Current(context.Background(), s.desk.keeper, s.desk.now)
	}
	return p.Settle(s.desk.book, s.desk.now)
}

// cancel gives up a plan in the making, or one that was made anew: the agreed one stands.
func (s *planScreen) cancel() {
	s.nth++
	if s.anew && s.desk.book.AgreedPlan(s.desk.now) != nil {
		s.anew, s.built = false, -1
	}
	if s.making == nil {
		s.desk.say("The plan you agreed to stands")
		return
	}
	s.making.stop()
	s.making = nil
	if s.plan == nil && s.faint != nil && s.faint.Agreed.IsZero() {
		if s.plan = s.faint; s.old() {
			s.plan = nil
		}
	}
	if s.plan == nil {
		s.why = "Given up: s plans again"
	}
	s.desk.say("Planning given up")
}

// nextStep is the next thing to do, or nil.
func (s *planScreen) nextStep() *day.Step {
	if s.plan == nil {
		return nil
	}
	if i := s.plan.Next(); i >= 0 {
		return &s.plan.Steps[i]
	}
	return nil
}

// next is the next thing to do of the plan that was agreed and when, said; "" when there is
// none: what is only proposed is nobody's next job yet.
func (s *planScreen) next() (time.Time, string) {
	step := s.nextStep()
	if step == nil || s.plan.Agreed.IsZero() {
		return time.Time{}, ""
	}
	return step.At, show.Safe(show.Step(s.desk.book, s.plan, step))
}

// load is the load under the cursor, or nil.
func (s *planScreen) load() *day.Load {
	if s.plan == nil || s.rows.cursor >= len(s.plan.Loads) {
		return nil
	}
	return &s.plan.Loads[s.rows.cursor]
}

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
		s.anew = false
		s.desk.say("Agreed: %s. A laptop asleep does not ring: tubside plan --ics day.ics", show.Count(s.plan.CountLoads(), "load"))
	}
}

// do writes a step as done now.
func (s *planScreen) do(key string, step *day.Step) {
	if s.twice(key, step) {
		return
	}
	s.before = s.plan
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
		s.putIn(step)
	case soak.GetOut:
		s.desk.takeOutAll(step.Plants, true)
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

// putIn writes a step's plants as one load: one clock, from when the hands began.
func (s *planScreen) putIn(step *day.Step) {
	l := &s.plan.Loads[step.Load]
	in := s.began(step)
	due := in.Add(l.Out.Sub(l.Start)).UTC().Truncate(time.Second)
	load := s.desk.book.NextLoad()
	if s.desk.enterAt(in, &model.Soak{Load: load, Vessel: step.Vessel, Due: due}, step.Plants...) {
		s.desk.say("Load %d in %s: %s, out from %s", load, show.Safe(step.Vessel), show.Count(len(step.Plants), "plant"), show.Clock(due, s.desk.now, s.desk.book.Zone()))
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
	if s.before = s.plan; s.desk.enter(s.plan.Skip(s.desk.book, s.desk.now, s.rows.cursor)) {
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
		s.desk.takeOutAll(ids, true)
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
	return "Stopped for today. " + show.Line(show.Count(len(ids), "plant")) + " written out: take them out now, what is due longest first"
}

// anotherPair plans with another pair of hands for an hour.
func (s *planScreen) anotherPair() {
	from := model.Later(s.plan.Ask.From, s.desk.now)
	s.ask = s.plan.Ask
	s.ask.Help = append(s.ask.Help[:len(s.ask.Help):len(s.ask.Help)], day.Stretch{From: from, Until: from.Add(time.Hour)})
	s.again()
}

// again has a plan made anew.
func (s *planScreen) again() {
	s.faint, s.plan, s.before, s.anew = s.plan, nil, nil, true
	s.make()
}

func (s *planScreen) lead() string { return "" }

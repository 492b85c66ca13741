package board

import (
	"context"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"tubside/model"
	"tubside/model/day"
	"tubside/model/estimate"
	"tubside/ui/show"
)

// planScreen is the soak day: what to do next, the loads, and the vessels, the
// hands and the tap along the clock. A plan is proposed until the grower says yes
// to it; from then on it stands in the book and slides.
type planScreen struct {
	desk   *desk
	plan   *day.Plan
	offers []day.Offer // other plans of the day
	ask    day.Ask
	why    string // why there is no plan
	rows   window // the plan's loads
	built  int
	making *making   // a plan in the making
	faint  *day.Plan // the one that was shown before it
	nth    int       // of the plans made so far

	instead instead   // of which plan the one shown was asked for
	anew    bool      // the plan shown is made anew, though another is agreed
	before  *day.Plan // the plan as it stood when the grower last did something
	offered offered   // beside the plan that is followed
	quick   pressed   // the last thing ticked off
	entered wentIn    // the last load put in
	moved   moved     // what was next
	leaves  leaves    // the loads that lie in the water
	led     bool      // the grower has moved the cursor; else it is on the load that is next
}

// instead is a plan, and what was asked for, that another was asked for in place of.
type instead struct {
	plan *day.Plan
	ask  day.Ask
}

// making is a plan that is being made away from the keys.
type making struct {
	nth   int
	since time.Time
	stop  context.CancelFunc
}

// offered is what offers beside a plan that is followed were made from, and when.
type offered struct {
	entries int
	at      time.Time
	stop    context.CancelFunc
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
	d.settled, d.leaving = s.settled, s.leaving
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
		offers := s.offers
		switch s.take(plan); {
		case plan.Lost:
			s.makeBy(day.Current)
		case s.offered.entries == len(s.desk.book.Entries()) && s.desk.now.Sub(s.offered.at) < offersStand:
			s.offers = offers
		default:
			s.offer()
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
	s.why, s.offers, s.offered = "", nil, offered{}
	nth, now := s.nth, s.desk.now
	s.apart(func(k *estimate.Keeper, err error) tea.Msg {
		if err != nil {
			return planMade{nth: nth, err: err}
		}
		plan, err := way(ctx, k, now)
		return planBegun{planMade{nth: nth, plan: plan, err: err}, func() tea.Msg {
			return planMade{nth: nth, offers: day.Offers(ctx, k, now, plan)}
		}}
	})
}

// apart does something apart from the keys, with the book as it stands.
func (s *planScreen) apart(do func(*estimate.Keeper, error) tea.Msg) {
	entries, zone, before := s.desk.book.Entries(), s.desk.book.Zone(), s.desk.beliefs
	entries = entries[:len(entries):len(entries)]
	s.desk.later = append(s.desk.later, func() tea.Msg {
		book, err := model.Replay(entries, zone)
		if err != nil {
			return do(nil, err)
		}
		return do(before.Keeper(book), nil)
	})
}

// offersStand is how long offers stand beside a plan that is followed while nothing is written
// down. A choice.
const offersStand = 10 * time.Minute

// offer has offers made beside the plan that is followed, where there may be any.
func (s *planScreen) offer() {
	if s.offered.stop != nil {
		s.offered.stop()
	}
	s.offered = offered{entries: len(s.desk.book.Entries()), at: s.desk.now}
	if !s.plan.MayOffer(s.desk.book, s.desk.now) {
		return
	}
	var ctx context.Context
	ctx, s.offered.stop = context.WithCancel(context.Background())
	s.nth++
	nth, now, plan := s.nth, s.desk.now, s.plan
	s.apart(func(k *estimate.Keeper, err error) tea.Msg {
		if err != nil {
			return nil // the plan itself stands
		}
		return planMade{nth: nth, offers: day.Offers(ctx, k, now, plan)}
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
	s.guard(plan)
	s.plan, s.faint, s.why, s.offers = plan, nil, "", nil
	s.rows.fit(len(plan.Loads), s.rows.height)
	s.followNext()
}

// followNext has the cursor on the load that is next, until the grower moves it.
func (s *planScreen) followNext() {
	if step := s.nextStep(); step != nil && step.Load >= 0 && !s.led {
		s.rows.cursor = step.Load // and in view when it is drawn
	}
}

// cursorKeys move the cursor, which from then on is where the grower has it.
func (s *planScreen) cursorKeys() []binding {
	keys := s.rows.keys()
	for n := range keys {
		move := keys[n].do
		keys[n].do = func(msg tea.KeyMsg) tea.Cmd {
			s.led = true
			return move(msg)
		}
	}
	return keys
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
	was := s.instead
	s.instead = instead{}
	if was.plan != nil {
		s.ask = was.ask
	}
	agreed := s.desk.book.AgreedPlan(s.desk.now) != nil
	if s.anew && agreed {
		s.anew, s.built = false, -1
	}
	if s.making == nil {
		if s.desk.say("The plan you agreed to stands"); !agreed {
			s.backTo(was.plan)
		}
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

// backTo shows a plan that was proposed before, or has one made like it where what it found is
// no longer so.
func (s *planScreen) backTo(was *day.Plan) {
	s.anew = false
	s.desk.say("The plan before")
	if s.plan = was; was == nil || s.old() {
		s.plan = nil
		s.make()
		return
	}
	s.take(was)
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

func (s *planScreen) lead() string { return "" }

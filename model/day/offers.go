package day

import (
	"cmp"
	"context"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// Offer is another plan of the same day, made in full so that what it says is
// measured and not guessed.
type Offer struct {
	What   OfferKind
	Plants model.IDs // that it leaves out
	Shelf  string    // that it leaves for another day
	Ask    Ask       // what to ask for to have it
	Plan   *Plan
}

// OfferKind is what is otherwise in an offered plan.
type OfferKind int

// The kinds of offer.
const (
	WithoutSlow  OfferKind = iota // without a few long soakers and slow driers
	RoomAired                     // the window stands open until all are dry
	WithoutShelf                  // a shelf another day
	MoreLoads                     // more loads than the house rule
	MoreHands                     // another pair of hands for the first hour
	SmallLoads                    // loads smaller than the house rule has them
	MadeAgain                     // the loads made up again from now on, where a plan that is followed leaves plants out
	LongerHours                   // an hour more
	WithBreak                     // half an hour away in the middle of a long day: the last of Ask.Pauses
)

// worthAnOffer is what another plan must save of the hands' day, or serve more, to
// be offered. Guesses.
const (
	worthAnOffer = 15 * time.Minute
	worthPlants  = 3
)

// other is another way to have the day, and when its plan is worth a thought.
type other struct {
	what   OfferKind
	ask    Ask
	plants model.IDs
	shelf  string
	worth  func(q *Plan) bool
}

// Offers plans the day in other ways and gives those that are worth a thought. It
// takes as long as a few plans. It gives up without an error when the context
// ends.
func Offers(ctx context.Context, k *estimate.Keeper, now time.Time, p *Plan) []Offer {
	var offers []Offer
	for _, o := range p.others(k.Book(), now) {
		if ctx.Err() != nil {
			break
		}
		of := k
		if o.ask.Airy { // as it is once that is in the book: what dries already counts as well
			aired, err := airedBook(k.Book(), now)
			if err != nil {
				continue
			}
			of = estimate.New(aired)
		}
		if q, err := NewPlan(ctx, of, now, o.ask); err == nil && o.worth(q) {
			offers = append(offers, Offer{What: o.what, Plants: o.plants, Shelf: o.shelf, Ask: o.ask, Plan: q})
		}
	}
	return offers
}

// airedBook is the book with the window of the room open from a time on.
func airedBook(b *model.Book, now time.Time) (*model.Book, error) {
	entries := slices.Clone(b.Entries())
	opened := model.NewEntry(now.UTC().Truncate(time.Second), &model.WindowSet{Window: model.WindowOpen})
	if n := len(entries); n > 0 {
		opened.Seq = entries[n-1].Seq + 1
	}
	return model.Replay(append(entries, opened), b.Zone())
}

// Trades counts whom another plan of the day still puts in that this one does not, and whom
// it does not that this one does.
func (p *Plan) Trades(q *Plan) (more, others int) {
	goesIn := func(of *Plan) map[model.ID]bool {
		in := map[model.ID]bool{}
		for _, s := range of.Steps {
			if s.Do == soak.PutIn && !s.Done {
				for _, id := range s.Plants {
					in[id] = true
				}
			}
		}
		return in
	}
	here, there := goesIn(p), goesIn(q)
	for id := range there {
		if !here[id] {
			more++
		}
	}
	for id := range here {
		if !there[id] {
			others++
		}
	}
	return more, others
}

// MayOffer reports whether there are other ways to have the day, of which [Offers] takes
// the time to make plans.
func (p *Plan) MayOffer(b *model.Book, now time.Time) bool { return len(p.others(b, now)) > 0 }

// others is the ways to have the day otherwise.
func (p *Plan) others(b *model.Book, now time.Time) (all []other) {
	if !p.Stopped.IsZero() {
		return nil
	}
	ask := p.Otherwise() // a copy each, to be changed
	earlier := func(q *Plan) bool { return p.DayFree.Sub(q.DayFree) >= worthAnOffer }
	more := func(q *Plan) bool { return q.Count()-p.Count() >= worthPlants }
	away, long := p.breakOf(now)
	rest := ask
	rest.Pauses = append(slices.Clone(ask.Pauses), away)
	withBreak := other{what: WithBreak, ask: rest, worth: func(q *Plan) bool { return q.CountLoads() > 0 }}
	longer := other{what: LongerHours, ask: ask, worth: more}
	longer.ask.Until = model.Later(p.HoursEnd(), nextMinute(now)).Add(time.Hour).Truncate(15 * time.Minute)
	if !p.Agreed.IsZero() {
		if len(p.lost(b.AgreedPlan(now))) > 0 || slices.ContainsFunc(p.Left, func(l LeftOut) bool { return !l.Dropped.IsZero() }) {
			again := p.Count()
			longer.worth = func(q *Plan) bool { return q.Count()-again >= worthPlants }
			all = append(all, other{what: MadeAgain, ask: ask, worth: func(q *Plan) bool {
				again = max(again, q.Count())
				return more(q)
			}}, longer)
		}
		if long {
			all = append(all, withBreak)
		}
		return all
	}
	if ids := slowest(p); len(ids) > 0 {
		ask := ask
		ask.Without = append(slices.Clone(ask.Without), ids...)
		all = append(all, other{what: WithoutSlow, plants: ids, ask: ask, worth: earlier})
	}
	if p.leaves(soak.DriesTooSlow, soak.DryTooLate, soak.BenchesTaken, soak.RoomTaken) && !p.Ask.Airy && b.Window(now).Window != model.WindowOpen {
		ask := ask
		ask.Airy = true
		all = append(all, other{what: RoomAired, ask: ask, worth: more})
	}
	if shelf := smallShelf(b, p); shelf != "" && p.Ask.Shelf == "" && p.Ask.NotShelf == "" {
		ask := ask
		ask.NotShelf = shelf
		all = append(all, other{what: WithoutShelf, shelf: shelf, ask: ask, worth: earlier})
	}
	if p.leaves(soak.LoadsTaken) {
		ask := ask
		ask.MoreLoads += 2
		all = append(all, other{what: MoreLoads, ask: ask, worth: more})
	}
	if len(p.Ask.Help) == 0 && p.leaves(soak.HandsTaken, soak.DryTooLate, soak.NoSpare) {
		ask := ask
		ask.Help = []Stretch{{p.Ask.From, p.Ask.From.Add(time.Hour)}}
		all = append(all, other{what: MoreHands, ask: ask, worth: more})
	}
	if p.leaves(soak.HandsTaken, soak.NoHours) {
		all = append(all, longer)
	}
	if p.leaves(soak.TooFew) {
		ask := ask
		ask.Small = true
		all = append(all, other{what: SmallLoads, ask: ask, worth: func(q *Plan) bool { return q.Count() > p.Count() }})
	}
	if long {
		all = append(all, withBreak)
	}
	return all
}

// Otherwise is what was asked for, to ask for the day in another way from it: whom the grower
// has left for another day stays so.
func (p *Plan) Otherwise() Ask {
	ask := p.Ask
	ask.followed, ask.Skipped = false, p.skipped()
	return ask
}

// skipped is whom the grower leaves for another day.
func (p *Plan) skipped() (ids model.IDs) {
	for _, l := range p.Left {
		if l.Skipped {
			ids = append(ids, l.ID)
		}
	}
	return ids
}

// leaves reports whether a plan leaves plants out for one of some reasons.
func (p *Plan) leaves(whys ...soak.Why) bool {
	return slices.ContainsFunc(p.Left, func(l LeftOut) bool { return l.Unplaced != nil && slices.Contains(whys, l.Unplaced.Why) })
}

// mostSlow is how many plants an offer leaves out.
const mostSlow = 3

// slowest is the few plants that make the day long: with the longest soaks, or the
// longest to dry, for they come out last or must come out first.
func slowest(p *Plan) model.IDs {
	var all []Plant
	for _, l := range p.Loads {
		if l.Load == 0 && !l.Night {
			all = append(all, l.Plants...)
		}
	}
	if len(all) <= 2*mostSlow {
		return nil
	}
	slices.SortStableFunc(all, func(a, b Plant) int {
		slow := func(t Plant) time.Duration { return time.Duration(t.Least)*time.Second + t.Dry.Sub(t.Out) }
		return cmp.Compare(slow(b), slow(a))
	})
	var ids model.IDs
	for _, t := range all[:mostSlow] {
		ids = append(ids, t.ID)
	}
	slices.Sort(ids)
	return ids
}

// smallShelf is the shelf to leave for another day: of those that make a tenth to a
// half of it the smallest.
func smallShelf(b *model.Book, p *Plan) string {
	count := map[string]int{}
	total := 0
	for _, l := range p.Loads {
		if l.Load > 0 || l.Night {
			continue
		}
		for _, t := range l.Plants {
			count[b.Row(t.ID).Home.Shelf]++
			total++
		}
	}
	best := ""
	for shelf, n := range count {
		if shelf == "" || 10*n < total || 2*n > total {
			continue
		}
		if best == "" || count[shelf] < count[best] || count[shelf] == count[best] && model.NaturalCompare(shelf, best) < 0 {
			best = shelf
		}
	}
	return best
}

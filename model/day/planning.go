package day

import (
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/advice"
	"tubside/model/estimate"
	"tubside/model/soak"
)

// planning is a plan in the making.
type planning struct {
	keeper   *estimate.Keeper
	book     *model.Book
	look     *advice.Context
	now      time.Time
	ask      Ask
	rules    model.Rules
	vessels  []model.Vessel
	benches  []model.Bench
	room     estimate.RoomAir
	dry      *estimate.DryTimes
	walk     map[model.ID]int // place of each plant on the walk
	waiting  map[model.ID]bool
	due      []soak.Item          // of the day
	night    []soak.Item          // too long for the day
	loads    map[int]model.LoadID // of plants in the water
	dayFills []int                // drawn by the day, by vessel
	ahead    []bool               // vessels filled the evening before
	unfed    int                  // to be fed by the ask, but not by the house rules
	plan     *Plan
	agreed   *model.AgreedAt            // to keep to; nil: none
	carried  map[model.ID]bool          // home again, though they were pulled for the agreed plan
	free     time.Time                  // the hands are done with what was written down last
	late     int                        // s that they begin late as a rule
	idle     int                        // s for which they then still do nothing
	past     []bool                     // loads in the water whose time is up by now
	laid     map[model.ID]time.Duration // how long after the entry that took it out a plant lay on the bench
	met      map[model.ID]int           // s of hands until a plant that the room knows of lies on the bench
}

func newPlanning(k *estimate.Keeper, now time.Time, ask Ask) (*planning, error) {
	b := k.Book()
	rules := b.Rules()
	p := &planning{
		keeper: k, book: b, now: now, rules: rules, vessels: b.Vessels(), benches: b.Benches(),
		walk: map[model.ID]int{}, loads: map[int]model.LoadID{}, waiting: setOf(b.Waiting()),
		met: map[model.ID]int{}, dayFills: make([]int, len(b.Vessels())), ahead: make([]bool, len(b.Vessels())),
	}
	var err error
	if p.ask, err = ask.Filled(rules, now); err != nil {
		return nil, err
	}
	if len(p.vessels) == 0 {
		return nil, &model.Problem{What: "there is no vessel to soak in", Do: "add a vessel first", Shell: "tubside enter vessel tub --litres 100"}
	}
	p.room = estimate.RoomNow(b, p.ask.From)
	p.look = advice.At(k, p.ask.From, p.room)
	p.dry = estimate.NewDryTimes(k, p.room, now)
	if p.ask.Airy {
		p.dry.Air(model.WindowOpen)
	}
	p.plan = &Plan{Made: now, Ask: p.ask, Vessels: p.vessels, Full: map[string]time.Time{}}
	p.numberWalk()
	return p, nil
}

// at is a second of the session as a time.
func (p *planning) at(s int) time.Time { return p.ask.From.Add(time.Duration(s) * time.Second) }

// sec is a time as a second of the session.
func (p *planning) sec(t time.Time) int { return int(math.Round(t.Sub(p.ask.From).Seconds())) }

// numberWalk numbers the plants as they hang along the walk.
func (p *planning) numberWalk() {
	for n, id := range p.book.Walk(p.book.IDs()) {
		p.walk[id] = n
	}
}

// gather sorts the plants asked for into the day, the night and those left out.
func (p *planning) gather() {
	for _, id := range p.ask.Skipped {
		if row := p.book.Row(id); row != nil && row.State == model.AtHome {
			p.plan.Left = append(p.plan.Left, LeftOut{ID: id, Skipped: true})
		}
	}
	asked := p.ask.asked()
	for _, id := range p.book.IDs() {
		row := p.book.Row(id)
		if row.State == model.Gone || !asked(row) {
			continue
		}
		n := p.look.Need(row)
		switch {
		case row.State != model.AtHome, !n.Band.InWater():
			p.leaveNamed(row, n)
		case p.ask.wants(n.Band):
			p.take(row, n)
		}
	}
}

// leaveNamed says why a plant named in the ask is not planned. A plant that
// nobody named is not missed.
func (p *planning) leaveNamed(row *model.Row, n advice.Need) {
	if len(p.ask.Plants) == 0 {
		return
	}
	p.plan.Left = append(p.plan.Left, LeftOut{ID: row.ID, NotDue: &NotDue{row.State, n.Band, n.Reasons}})
}

// take makes a plant an item of the day or the night.
func (p *planning) take(row *model.Row, n advice.Need) {
	fed := false
	if p.ask.Feed {
		stop, refused := advice.NotToFeed(p.keeper, model.IDs{row.ID}, p.ask.From)
		fed = !refused
		if !fed {
			p.unfed++
		}
		if !fed && len(p.ask.Plants) > 0 {
			p.plan.Left = append(p.plan.Left, LeftOut{ID: row.ID, NotFed: &stop})
			return
		}
	}
	it := p.item(row, secondsUp(n.From), secondsDown(n.To))
	it.Thirst, it.Fed, it.Urgent, it.Spare = math.Max(n.Thirst(), 0.01), fed, n.Thirst() >= beyondRescue, spare(&it)
	if n.Band == soak.Overnight {
		p.night = append(p.night, it)
		return
	}
	p.due = append(p.due, it)
}

// beyondRescue is the thirst from which a plant may be lost if it waits another
// day: such plants go before all others. Seedlings of T. ionantha endured 0.65, and its
// adults were injured for good from 0.75 to 0.80 (Benzing & Dahle 1971, American Midland
// Naturalist 85(1)); that others are alike is a guess.
const beyondRescue = 0.65

// wholeSeconds is by what minutes made of whole seconds may miss them.
const wholeSeconds = 1e-6

func secondsUp(minutes float64) int   { return int(math.Ceil(minutes*60 - wholeSeconds)) }
func secondsDown(minutes float64) int { return int(minutes*60 + wholeSeconds) }

// item is a plant as the planner knows it, with its seconds in the water.
func (p *planning) item(row *model.Row, least, most int) soak.Item {
	company := advice.CompanyOf(p.book, row, p.ask.From)
	it := soak.Item{
		ID: int(row.ID), Least: least, Most: max(least, most),
		Bulk:    estimate.Bulk(row.Plant),
		Hands:   estimate.HandsFor(row.Plant, p.rules),
		Company: company, Thirst: 1,
		Walk:      p.walk[row.ID],
		DryFor:    int(math.Ceil(p.meet(row) * 3600)),
		BenchRoom: estimate.BenchRoom(row.Plant),
	}
	if p.waiting[row.ID] || row.State != model.AtHome {
		it.Hands.Pull = 0
	}
	return it
}

// meet has the room know that a plant is one of those that dry in it, and tells how many
// hours it takes alone.
func (p *planning) meet(row *model.Row) (hours float64) {
	h := estimate.HandsFor(row.Plant, p.rules)
	p.met[row.ID] = h.Pull + h.In + h.Out + h.Lay
	return p.dry.Hours(row)
}

// vessel is the place of a vessel among those of the plan, or -1.
func (p *planning) vessel(name string) int {
	return slices.IndexFunc(p.vessels, func(v model.Vessel) bool { return v.Name == name })
}

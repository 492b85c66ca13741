package care

import (
	"math"
	"slices"
	"time"

	"tubside/model"
	"tubside/model/soak"
)

// planning is a plan in the making.
type planning struct {
	*Keeper
	now      time.Time
	ask      Ask
	rules    model.Rules
	vessels  []model.Vessel
	benches  []model.Bench
	room     RoomAir
	dry      *dryTimes
	shelves  map[string]int
	due      []soak.Item          // of the day
	night    []soak.Item          // too long for the day
	loads    map[int]model.LoadID // of plants in the water
	dayFills []int                // drawn by the day, by vessel
	unfed    int                  // to be fed by the ask, but not by the house rules
	plan     *Plan
	old      *Plan // to keep to; nil: none
}

func (k *Keeper) planning(now time.Time, ask Ask) (*planning, error) {
	rules := k.book.Rules()
	p := &planning{
		Keeper: k, now: now, rules: rules, vessels: k.book.Vessels(), benches: k.book.Benches(),
		shelves: map[string]int{}, loads: map[int]model.LoadID{}, dayFills: make([]int, len(k.book.Vessels())),
	}
	var err error
	if p.ask, err = ask.filled(rules, now); err != nil {
		return nil, err
	}
	if len(p.vessels) == 0 {
		return nil, &model.Problem{What: "there is no vessel to soak in", Do: `add one: enter vessel tub --litres 100`}
	}
	p.room = roomNow(k.book, p.ask.From)
	p.dry = k.newDryTimes(p.room, now)
	p.plan = &Plan{Made: now, Ask: p.ask, Vessels: p.vessels, Full: map[string]time.Time{}}
	p.numberShelves()
	p.gather()
	return p, nil
}

// at is a second of the session as a time.
func (p *planning) at(s int) time.Time { return p.ask.From.Add(time.Duration(s) * time.Second) }

// sec is a time as a second of the session.
func (p *planning) sec(t time.Time) int { return int(math.Round(t.Sub(p.ask.From).Seconds())) }

// numberShelves numbers the shelves in walking order.
func (p *planning) numberShelves() {
	var names []string
	for _, id := range p.book.IDs() {
		key := model.ShelfKey(p.book.Row(id).Home.Shelf)
		if _, seen := p.shelves[key]; !seen {
			p.shelves[key] = 0
			names = append(names, key)
		}
	}
	slices.SortFunc(names, model.NaturalCompare)
	for i, name := range names {
		p.shelves[name] = i
	}
}

// gather sorts the plants asked for into the day, the night and those left out.
func (p *planning) gather() {
	asked := p.ask.asked()
	for _, id := range p.book.IDs() {
		row := p.book.Row(id)
		if row.State == model.Gone || !asked(row) {
			continue
		}
		n := p.need(row, p.ask.From, p.room)
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
func (p *planning) leaveNamed(row *model.Row, n Need) {
	if len(p.ask.Plants) == 0 {
		return
	}
	reason := row.State.String()
	if row.State == model.AtHome {
		reason = n.Band.String()
	}
	if len(n.Reasons) > 0 {
		reason += ": " + n.Reasons[0].Text
	}
	p.plan.Left = append(p.plan.Left, LeftOut{ID: row.ID, Reason: reason})
}

// take makes a plant an item of the day or the night.
func (p *planning) take(row *model.Row, n Need) {
	fed := false
	if p.ask.Feed {
		err := p.MayFeed(model.IDs{row.ID}, p.ask.From)
		fed = err == nil
		if !fed {
			p.unfed++
		}
		if !fed && len(p.ask.Plants) > 0 {
			p.plan.Left = append(p.plan.Left, LeftOut{ID: row.ID, Reason: problemWords(err), Help: []string{"plan it without the feed"}})
			return
		}
	}
	it := p.item(row, n.From, n.To)
	it.Thirst, it.Fed = math.Max(n.Thirst(), 0.01), fed
	if p.ask.Night && n.Band == soak.Overnight {
		p.night = append(p.night, it)
		return
	}
	p.due = append(p.due, it)
}

// problemWords is what a problem says, without what to do.
func problemWords(err error) string {
	if p, ok := model.AsProblem(err); ok {
		return p.What
	}
	return err.Error()
}

// wholeSeconds is by what minutes made of whole seconds may miss them.
const wholeSeconds = 1e-6

// item is a plant as the planner knows it, with its minutes in the water.
func (p *planning) item(row *model.Row, from, to float64) soak.Item {
	in, out := HandSeconds(row.Plant, p.rules)
	company, _ := CompanyOf(p.book, row, p.ask.From)
	return soak.Item{
		ID:   int(row.ID),
		From: int(math.Ceil(from*60 - wholeSeconds)), To: int(to*60 + wholeSeconds),
		Bulk:    Bulk(row.Plant),
		HandsIn: max(1, int(in)), HandsOut: max(1, int(out)),
		Company: company, Thirst: 1,
		Shelf:     p.shelves[model.ShelfKey(row.Home.Shelf)],
		DryFor:    int(math.Ceil(p.dry.hours(row) * 3600)),
		BenchRoom: benchRoom(row.Plant),
	}
}

// benchShare is how much of the square around it a plant needs to dry in, laid
// beside others: the disc of its span. Our own.
const benchShare = math.Pi / 4

// benchRoom is the room a row takes on a bench, none on top of another, in m².
func benchRoom(p model.Plant) float64 {
	size := orElse(p.Size, assumedSize) / 100
	return size * size * benchShare * float64(max(p.Count, 1))
}

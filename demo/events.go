package demo

import (
	"math"
	"time"

	"github.com/rickb777/date/v2"

	"tubside/model"
	"tubside/model/leaf"
)

// What happens in a year beside the soaking, in times a year. Invented.
const (
	departures  = 28
	moves       = 14
	corrections = 6
	splits      = 4
	separations = 20
	remarks     = 18
	plantMarks  = 12
	mistakes    = 6
	fanTurns    = 5
	crateAfter  = 50   // days: a vessel is bought
	ofAge       = 0.35 // of the departures, as long as a mother fades
)

// oddities spreads what happens now and then over the quiet days from first on:
// days without a soak, and not the morning after one.
func (p *past) oddities(first date.Date) map[date.Date][]func(time.Time) {
	var quiet []date.Date
	for d := first; d < p.today-2; d++ {
		if !p.soaksOn(d) && !p.soaksOn(d-1) && !p.away(d) {
			quiet = append(quiet, d)
		}
	}
	odd := map[date.Date][]func(time.Time){}
	for _, o := range []struct {
		times  int
		happen func(time.Time)
	}{
		{departures, p.leaves}, {moves, p.moves}, {corrections, p.corrects}, {splits, p.splits},
		{separations, p.separates}, {remarks, p.remarks}, {plantMarks, p.notesPlant}, {mistakes, p.mistakes},
		{fanTurns, p.turnsFan}, {1, p.setsRule}, {1, p.tellsWarm}, {1, p.tellsWeek},
	} {
		for range o.times {
			d := pick(p, quiet)
			odd[d] = append(odd[d], o.happen)
		}
	}
	d := quiet[len(quiet)*crateAfter/yearDays]
	odd[d] = append(odd[d], p.buysCrate)
	return odd
}

// someone is a plant at home drawn at random, or nil when want holds for none.
func (p *past) someone(want func(*life) bool) *life {
	if some := p.here(want); len(some) > 0 {
		return pick(p, some)
	}
	return nil
}

// leaves is a plant lost, sold or given away: first of all one that is past
// saving, then an old mother.
func (p *past) leaves(at time.Time) {
	dead := func(l *life) bool { return l.plain() && 1-l.water(at, p.weather) > leaf.LethalFrom }
	if l := p.someone(dead); l != nil {
		l.here = false
		p.tell(at, &model.Leave{How: model.Lost, Cause: "drought"}, l)
		return
	}
	if l := p.someone(func(l *life) bool { return l.fading && !l.sentinel }); l != nil && p.happens(ofAge) {
		l.here = false
		p.tell(at, &model.Leave{How: model.Lost, Cause: "age"}, l)
		return
	}
	l := p.someone(func(l *life) bool { return l.plain() && !l.sentinel })
	l.here = false
	switch x := p.rng.Float64(); {
	case x < 0.4:
		p.tell(at, &model.Leave{How: model.Lost, Cause: pick(p, model.LossCauses)}, l)
	case x < 0.75:
		p.tell(at, &model.Leave{How: model.Sold, Note: "at the spring table"}, l)
	default:
		p.tell(at, &model.Leave{How: model.Given, Note: "to a neighbour"}, l)
	}
}

func (p *past) moves(at time.Time) {
	l, to := p.someone((*life).plain), randomSpot(p.rng)
	l.move(to, at, p.weather)
	p.tell(at, &model.Move{To: to}, l)
}

// corrects measures a plant again.
func (p *past) corrects(at time.Time) {
	l := p.someone(func(l *life) bool { return l.Size > 4 })
	l.Size++
	l.Assumed.Size = false
	p.say(at, &model.Edit{Plants: []model.Plant{l.Plant}})
}

// splits takes a few plants off a tray. The part lives as the tray did.
func (p *past) splits(at time.Time) {
	tray := p.someone(func(l *life) bool { return l.plain() && l.Count > 4 })
	if tray == nil {
		return
	}
	part := *tray
	p.arrive(&part, tray.dry)
	part.Label, part.Note, part.Count = "", "off tray "+tray.ID.String(), 1+tray.Count/4
	tray.Count -= part.Count
	p.tell(at, &model.Split{New: part.Plant}, tray)
	p.lives = append(p.lives, &part)
}

func (p *past) remarks(at time.Time) { p.say(at, &model.Note{Text: pick(p, houseNotes)}) }

func (p *past) notesPlant(at time.Time) {
	p.tell(at, &model.Note{Text: pick(p, plantNotes)}, p.someone(anyLife))
}

// mistakes writes something wrong and takes it back.
func (p *past) mistakes(at time.Time) {
	switch p.rng.IntN(3) {
	case 0: // two digits swapped
		r := p.weather.read(p.rng, at)
		r.RH = math.Mod(r.RH, 10)*10 + math.Floor(r.RH/10)
		p.say(at, r)
	case 1: // the wrong shelf
		shelf := pick(p, shelves).name
		p.tell(at, &model.Mist{}, p.here(func(l *life) bool { return l.Home.Shelf == shelf })...)
	default: // the wrong plant
		p.tell(at, &model.Leave{How: model.Lost, Cause: "unknown"}, p.someone(anyLife))
	}
	p.takeBack()
}

func (p *past) turnsFan(at time.Time) {
	p.fan = pick(p, model.Fans[1:])
	p.say(at, &model.FanSet{Fan: p.fan})
}

func (p *past) setsRule(at time.Time) {
	p.say(at, &model.RuleSet{Name: model.LimitTable[model.DryByHour].Name, Value: 20})
}

func (p *past) buysCrate(at time.Time) {
	crate := model.Vessel{Name: "crate", Litres: 45}
	p.vessels = append(p.vessels, crate)
	p.say(at, &model.VesselSet{Vessel: crate})
	p.say(at.Add(p.minutes(1, 4)), &model.Note{Text: "a storage crate for the third load"})
}

var houseNotes = []string{
	"windows open all day", "rain water this week", "tap water, let it stand overnight", "heating on", "heating off",
	"fan cleaned", "new towels on the bench", "lamp moved up a hand", "labels rewritten",
	"smoke from outside, windows shut",
	"shelf wiped down", "pups sorted",
}
